package compare

import (
	"cmp"
	"fmt"
	"math"
	"slices"
	"strings"
	"time"

	"flowshelf/analysis/head"
	"flowshelf/analysis/quantity"
	"flowshelf/analysis/source"
)

// BenchDay is one look at the check plate of our own bench, with what was tested
// that day. Nothing is corrected by it.
type BenchDay struct {
	Bench         string
	Date          time.Time
	Nominal, Read quantity.Flow
	Drift         float64 // (read - nominal) / nominal
	Leak          Maybe   // cfm
	Standing      string  // "held", "flagged", "in order"
	Heads         []string
	At            source.Ref
}

// benchDays lists the bench log up to the day of the comparison, the newest day
// first, with the family's heads tested on each, and says it in one sentence.
func (f *family) benchDays(heads []*bundle) (days []BenchDay, words string) {
	for at, checks := range f.bench {
		if at.After(day(f.date)) {
			continue
		}
		for _, c := range checks {
			days = append(days, f.benchDay(at, c, heads))
		}
	}
	slices.SortFunc(days, func(a, b BenchDay) int {
		return cmp.Or(b.Date.Compare(a.Date), cmp.Compare(a.Bench, b.Bench), a.At.Compare(b.At))
	})
	if len(days) == 0 {
		return nil, "no bench log is in the folder: nobody can say how the bench read on the days of the tests"
	}
	low, high, sum, off := math.Inf(1), math.Inf(-1), 0.0, 0
	for _, d := range days {
		low, high, sum = min(low, d.Drift), max(high, d.Drift), sum+d.Drift
		if d.Standing != inOrder {
			off++
		}
	}
	words = fmt.Sprintf("%s of the plate: mean %+.1f %%, from %+.1f to %+.1f %%; %d flagged or held",
		count(len(days), "check"), 100*sum/float64(len(days)), 100*low, 100*high, off)
	return days, words
}

const inOrder = "in order"

func (f *family) benchDay(at time.Time, c head.BenchCheck, heads []*bundle) BenchDay {
	d := BenchDay{Bench: c.Bench, Date: at, Nominal: c.Nominal.Value, Read: c.Read.Value, At: c.At,
		Drift: float64(c.Read.Value/c.Nominal.Value) - 1, Leak: unknown("not logged"), Standing: inOrder}
	if c.Leak.Known {
		d.Leak = known(c.Leak.Value.CFM())
	}
	limit := f.rules.LeakLimit.CFM()
	switch {
	case beyond(d.Drift, f.rules.BenchHold):
		d.Standing = "held"
	case beyond(d.Drift, f.rules.BenchFlag), limit > 0 && d.Leak.Known && d.Leak.Value > limit:
		d.Standing = "flagged"
	}
	for _, b := range heads {
		if slices.ContainsFunc(b.tests, func(t *head.Test) bool { return onBench(t, c, at) }) {
			d.Heads = append(d.Heads, b.listed.Name)
		}
	}
	return d
}

// onBench reports whether an own test was made that day on the bench of a check.
// A log or test that names no bench means the shop's only one.
func onBench(t *head.Test, c head.BenchCheck, at time.Time) bool {
	return t.Class == head.Own && t.Date.Known && day(t.Date.Value).Equal(at) &&
		(c.Bench == "" || t.By == "" || strings.EqualFold(c.Bench, t.By))
}
