package compare

import (
	"fmt"
	"math"
	"time"

	"flowshelf/analysis/head"
	"flowshelf/analysis/source"
)

// benchLog is what the check plate said, by day.
type benchLog map[time.Time][]head.BenchCheck

func newBenchLog(checks []head.BenchCheck) benchLog {
	log := make(benchLog)
	for _, c := range checks {
		if c.Date.Known && c.Nominal.Known && c.Read.Known && c.Nominal.Value > 0 {
			log[day(c.Date.Value)] = append(log[day(c.Date.Value)], c)
		}
	}
	return log
}

// morning is what the log says about the day and bench of a test.
type morning struct {
	drift float64 // of the worst reading that day, relative
	leak  float64 // cfm, the largest that day
	at    source.Ref
	known bool
}

// on returns the worst check of the test's own bench on its day.
func (log benchLog) on(t *head.Test) morning {
	var m morning
	if t.Class != head.Own || !t.Date.Known {
		return m
	}
	for _, c := range log[day(t.Date.Value)] {
		if !onBench(t, c, day(t.Date.Value)) {
			continue
		}
		drift := float64(c.Read.Value/c.Nominal.Value) - 1
		if !m.known || math.Abs(drift) > math.Abs(m.drift) {
			m.drift, m.at = drift, c.At
		}
		m.leak = max(m.leak, c.Leak.Value.CFM())
		m.known = true
	}
	return m
}

// benchFlag returns the flag that the bench log puts on a test, and why the test
// is held when the bench was too far off that day. Nothing is corrected by it.
func (f *family) benchFlag(t *head.Test) (flag Flag, held string) {
	m := f.bench.on(t)
	if !m.known {
		return Flag{}, ""
	}
	off := fmt.Sprintf("the bench read %+.1f %% on its check plate on %s", 100*m.drift, t.Date.Value.Format(time.DateOnly))
	if beyond(m.drift, f.rules.BenchHold) {
		return Flag{"L", off}, off + ": tests of that day are held"
	}
	if beyond(m.drift, f.rules.BenchFlag) {
		return Flag{"L", off}, ""
	}
	if limit := f.rules.LeakLimit.CFM(); limit > 0 && m.leak > limit {
		return Flag{"L", fmt.Sprintf("the bench leaked %.1f cfm that day", m.leak)}, ""
	}
	return Flag{}, ""
}

// beyond reports whether a drift exceeds a limit by more than rounding.
func beyond(drift, limit float64) bool { return limit > 0 && math.Abs(drift) > limit+1e-9 }
