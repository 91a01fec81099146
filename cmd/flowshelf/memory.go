package main

import (
	"math"
	"runtime"
	"runtime/debug"
	"runtime/metrics"
	"sync/atomic"
)

// memory is the limit that the program tries to keep within. Where what is in use
// comes near it, winning space back would take most of the time; the limit then
// gives way, and comes back once less is in use.
type memory struct {
	wanted int64 // bytes
	now    atomic.Int64
}

// keepMemory has the program keep within a limit from now on.
func keepMemory(limit int64) *memory {
	const itself = 32 << 20 // of the program's file in memory, which the runtime does not count
	m := &memory{wanted: limit - itself}
	m.set(m.wanted)
	m.follow()
	return m
}

// follow looks at the limit whenever space has been won back.
func (m *memory) follow() {
	type each struct{ of *memory } // a pointer, so that it has a place of its own
	runtime.AddCleanup(&each{m}, func(m *memory) {
		m.fit(inUse())
		m.follow()
	}, m)
}

// fit sets the limit for what is in use, in bytes.
func (m *memory) fit(used int64) {
	const room, step = 1.25, 0.02 // a quarter, as a rule a fifth of the time; small changes are not worth a stop
	want := max(m.wanted, int64(room*float64(used)))
	if change := float64(want-m.now.Load()) / float64(m.wanted); math.Abs(change) > step || want == m.wanted && change != 0 {
		m.set(want)
	}
}

func (m *memory) set(limit int64) {
	m.now.Store(limit)
	debug.SetMemoryLimit(limit)
}

// inUse is what the last collection found to be in use, in bytes.
func inUse() int64 {
	live := []metrics.Sample{{Name: "/gc/heap/live:bytes"}}
	metrics.Read(live)
	if live[0].Value.Kind() != metrics.KindUint64 {
		return 0
	}
	return int64(min(live[0].Value.Uint64(), math.MaxInt64))
}
