package flowsheet

import (
	"strings"

	"flowshelf/analysis/head"
	"flowshelf/ingest/words"
)

// "AV" is the German exhaust valve and, with a dot or in small letters, short
// for average (common practice, no source).
const (
	valveOrAverage  = "av"
	averageOrValve  = "av."
	averageQuestion = "%q can be the exhaust valve or an average"
)

// shortAverage returns which of the two ways a header writes "av".
func (l *line) shortAverage(part string) string {
	if part == "AV" && !strings.Contains(l.text, part+".") {
		return valveOrAverage
	}
	return averageOrValve
}

// mayAverage reports whether a place says "av" and nothing that settles it.
func (f facts) mayAverage() bool {
	return f.ambiguous == valveOrAverage || f.ambiguous == averageOrValve
}

// settleAverages takes "Av." for an average where there is something to average
// (cylinders, runs, a smallest and a largest beside it, or a banner that names
// the port) and nothing speaks of valves. What it leaves open the ports beside
// it may settle, else it is asked.
func (t *table) settleAverages() {
	repeats, exhaust := false, false
	for _, ln := range t.lanes {
		f := ln.facts
		if f.ambiguous == "ev" {
			return // EV beside AV: valves
		}
		repeats = repeats || len(f.mark)+len(f.run) > 0 || f.says(words.Minimum, words.Maximum)
		if p, ok := f.port.one(); ok {
			exhaust = exhaust || p.Value == head.Exhaust
		}
	}
	for _, ln := range t.lanes {
		f := &ln.facts
		if !f.mayAverage() || len(f.mark)+len(f.run) > 0 {
			continue
		}
		abbreviated := f.ambiguous == averageOrValve
		if len(f.port) > 0 || repeats && (abbreviated || exhaust) {
			f.roles[words.Average], f.ambiguous = true, ""
		}
	}
}
