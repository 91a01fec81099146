package main

import (
	"runtime"
	"runtime/debug"
	"testing"
)

// TestTheMemoryLimitGivesWay holds that the limit makes room for what is in use,
// which is no choice, and comes back.
func TestTheMemoryLimitGivesWay(t *testing.T) {
	before := debug.SetMemoryLimit(-1)
	t.Cleanup(func() { debug.SetMemoryLimit(before) })
	const mib = 1 << 20
	var m memory
	m.wanted.Store(224 * mib)
	m.set(224 * mib)
	for _, step := range []struct {
		what       string
		used, want int64
	}{
		{"little is in use", 20 * mib, 224 * mib},
		{"a quarter of what is in use is still free", 179 * mib, 224 * mib},
		{"less than a quarter is free", 240 * mib, 300 * mib},
		{"a little more is not worth a stop", 242 * mib, 300 * mib},
		{"much more", 400 * mib, 500 * mib},
		{"most is free again", 30 * mib, 224 * mib},
	} {
		m.fit(step.used)
		if got := debug.SetMemoryLimit(-1); got != step.want {
			t.Errorf("%s: the limit is %d MiB, want %d", step.what, got/mib, step.want/mib)
		}
	}
}

// TestTheMemoryLimitIsFollowed holds that it is looked at whenever memory was won
// back.
func TestTheMemoryLimitIsFollowed(t *testing.T) {
	before := debug.SetMemoryLimit(-1)
	t.Cleanup(func() { debug.SetMemoryLimit(before) })
	const limit = 1 << 20 // less than this test holds
	var m memory
	m.keep(limit)
	t.Cleanup(m.end)
	held := make([]byte, 8<<20)
	for range 1000 {
		runtime.GC() // finds what is in use
		if m.now.Load() > limit {
			break
		}
	}
	if m.now.Load() <= limit {
		t.Error("the limit did not give way")
	}
	runtime.KeepAlive(held)
}
