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
// gives way, and comes back once less is in use. The zero memory has no limit.
type memory struct {
	wanted, now atomic.Int64 // bytes
	followed    atomic.Bool
}

// keep has the program keep within a limit, in bytes, until end.
func (m *memory) keep(limit int64) {
	m.wanted.Store(limit)
	m.set(limit)
	if !m.followed.Swap(true) {
		m.follow()
	}
}

func (m *memory) end() { m.followed.Store(false) }

// follow looks at the limit whenever space has been won back.
func (m *memory) follow() {
	type each struct{ of *memory } // a pointer, so that it has a place of its own
	runtime.AddCleanup(&each{m}, func(m *memory) {
		if m.followed.Load() {
			m.fit(inUse())
			m.follow()
		}
	}, m)
}

// fit sets the limit for what is in use, in bytes.
func (m *memory) fit(used int64) {
	const room, step = 1.25, 0.02 // small changes are not worth the stop that each takes
	wanted, now := m.wanted.Load(), m.now.Load()
	want := max(wanted, int64(room*float64(used)))
	if math.Abs(float64(want-now)) > step*float64(wanted) || want == wanted && now != wanted {
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
