package compare

import (
	"cmp"
	"fmt"
	"math"
	"slices"
	"time"

	"flowshelf/analysis/head"
	"flowshelf/analysis/quantity"
	"flowshelf/analysis/stats"
)

// enoughRepeats is how many degrees of freedom the shop's own repeats need
// before they replace the default repeatability, and leastRepeatability what
// they are not believed below. Own rule.
const (
	enoughRepeats      = 10
	leastRepeatability = 0.003
)

// repeats is what the shop's own repeated runs say of its bench.
type repeats struct {
	limit   float64 // r = 2.8 s_r, relative; 0 when no run was repeated
	degrees int
}

// enough reports whether the repeats may stand for the default.
func (r repeats) enough() bool { return r.limit > 0 && r.degrees >= enoughRepeats }

// words says what they rest on.
func (r repeats) words() string {
	return fmt.Sprintf("own repeats, %d degrees of freedom", r.degrees)
}

// pull is one port of one sample under one set-up: what runs repeat.
type pull struct {
	head, state, sample, mark, by, entry string
	port                                 head.Port
	pipe                                 head.Pipe
	bore                                 quantity.Length
	pressure                             quantity.Pressure
	day                                  time.Time
}

// newRepeats pools the runs in the records: at every lift that all runs of a
// pull have, the variance of the flow as a share of their mean, averaged over
// the lifts, and over the pulls by their degrees of freedom (runs less one). The
// readings of a run share its set-up, so a run counts once however many lifts it
// has.
//
// Source: ISO 5725-2:1994, 7.4, for the pooled repeatability variance, and ISO
// 5725-6:1994, 4.1, for r = 2.8 s_r (clauses from memory).
func newRepeats(tests []head.Test, until time.Time) repeats {
	runs := make(map[pull][]*head.Test)
	for i := range tests {
		t := &tests[i]
		if t.Class != head.Own || t.Status != head.Used || t.Run == "" || t.Date.Known && day(t.Date.Value).After(day(until)) {
			continue
		}
		key := pull{head: nameKey(t.Head), state: t.State, sample: t.Sample, mark: t.PortMark, by: t.By, entry: t.Entry,
			port: t.Port, pipe: t.Pipe, bore: t.Bore.Value, pressure: t.Pressure.Value, day: day(t.Date.Value)}
		if !slices.ContainsFunc(runs[key], func(o *head.Test) bool { return o.Run == t.Run }) {
			runs[key] = append(runs[key], t)
		}
	}
	var out repeats
	var parts []float64
	for _, of := range runs {
		if v, ok := runVariance(of); ok {
			parts = append(parts, v*float64(len(of)-1))
			out.degrees += len(of) - 1
		}
	}
	if out.degrees == 0 {
		return out
	}
	slices.Sort(parts) // a sum that does not depend on the order of a map
	sum := 0.0
	for _, p := range parts {
		sum += p
	}
	sd := math.Sqrt(sum / float64(out.degrees))
	out.limit = max(sd/stats.RepeatabilityShare, leastRepeatability)
	return out
}

// runVariance is the mean over the common lifts of the relative variance of the
// runs' flows, and false when fewer than two runs share no lifts.
func runVariance(runs []*head.Test) (float64, bool) {
	if len(runs) < 2 {
		return 0, false
	}
	slices.SortFunc(runs, func(a, b *head.Test) int { return cmp.Or(cmp.Compare(a.Run, b.Run), a.At.Compare(b.At)) })
	sum, lifts := 0.0, 0
	for _, r := range runs[0].Readings {
		flows := make([]float64, 0, len(runs))
		for _, run := range runs {
			if q, ok := readAt(run, r.Lift.Value); ok && r.Lift.Known {
				flows = append(flows, q.CFM())
			}
		}
		if len(flows) == len(runs) {
			sum += relativeVariance(flows)
			lifts++
		}
	}
	if lifts == 0 {
		return 0, false
	}
	return sum / float64(lifts), true
}

func readAt(t *head.Test, lift quantity.Length) (quantity.Flow, bool) {
	for _, r := range t.Readings {
		if r.Status == head.Used && !r.Summary && !r.AtLeast && r.Flow.Known && positive(r.Flow.Value.CFM()) &&
			r.Lift.Known && positive(r.Lift.Value.In()) && r.Lift.Value.Near(lift, sameLift) {
			return r.Flow.Value, true
		}
	}
	return 0, false
}

// relativeVariance is s^2/mean^2.
func relativeVariance(x []float64) float64 {
	mean, sum := 0.0, 0.0
	for _, v := range x {
		mean += v / float64(len(x))
	}
	for _, v := range x {
		sum += (v - mean) * (v - mean)
	}
	return sum / float64(len(x)-1) / (mean * mean)
}
