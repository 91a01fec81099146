package compare

import (
	"fmt"
	"math"
	"slices"
	"strings"
	"time"

	"flowshelf/analysis/head"
	"flowshelf/analysis/quantity"
	"flowshelf/analysis/source"
)

// flags marks what a reader must know beside the figures. Codes are short and
// stable; the words are spelled out at the foot of a sheet.
func (f *family) flags(e *Entry) {
	add := func(code, format string, args ...any) { e.flag(code, fmt.Sprintf(format, args...)) }
	for _, r := range []*PortResult{e.Intake, e.Exhaust} {
		if r != nil {
			f.portFlags(r, add)
		}
	}
	if e.Exhaust != nil && e.Exhaust.Pipe != head.WithPipe {
		words := "exhaust without a pipe"
		if e.Exhaust.Pipe == head.PipeNotStated {
			words = "exhaust pipe not stated: E/I is a band"
		}
		add("X", "%s", words)
	}
	if len(e.Intake.Each) > 1 && handed(e.Intake.Each) {
		add("H", "two port shapes: %s", eachWords(e.Intake.Each))
	}
	if e.Cost.Proposed {
		add("$", "sell price proposed from the landed cost")
	}
	if months := f.monthsSince(e.Cost.ValidFrom); months > oldList {
		add("$", "price list is %.0f months old", months)
	}
}

// flag marks the entry, one flag a code.
func (e *Entry) flag(code, words string) {
	i := slices.IndexFunc(e.Flags, func(f Flag) bool { return f.Code == code })
	switch {
	case i < 0:
		e.Flags = append(e.Flags, Flag{code, words})
	case !slices.Contains(strings.Split(e.Flags[i].Words, "; "), words):
		e.Flags[i].Words += "; " + words
	}
}

func (f *family) portFlags(r *PortResult, add func(code, format string, args ...any)) {
	switch r.BoreHow {
	case NotBroughtOver:
		add("B", "%s not brought over: %s", r.Port, r.BoreNote)
	case Estimated, BetweenOwnPair:
		add("E", "%s not measured at %s: %s", r.Port, f.size(f.ReferenceBore), r.BoreNote)
	case BoreUnknown:
		add("B", "%s bore not stated", r.Port)
	case TestedAtReference, SameClass:
	}
	if f.converted(r) {
		add("P", "%s tested at %s inH2O, converted", r.Port, number(r.Pressure.Value.InH2O()))
	}
	if r.WithHeld != "" {
		add("P", "%s %s", r.Port, r.WithHeld)
	}
	for _, t := range r.Tests {
		f.testFlags(r, t, add)
	}
	if lifts := outOfAir(r); len(lifts) > 0 {
		add("A", "bench out of air at %s", list(lifts))
	}
	months := f.monthsSince(r.Date)
	if limit := f.rules.OldTestMonths; limit > 0 && months > limit {
		add("O", "%s tested %.0f months ago", r.Port, months)
	}
}

func (f *family) testFlags(r *PortResult, t *head.Test, add func(code, format string, args ...any)) {
	if r.Port == head.Intake && throughManifold(t) {
		add("N", "intake tested through a manifold")
	} else if r.Port == head.Intake && t.Entry == "" && t.Class == head.Supplier {
		add("N", "intake entry not stated")
	}
	if flag, _ := f.benchFlag(t); flag.Code != "" {
		add(flag.Code, "%s", flag.Words)
	}
	for _, reading := range t.Readings {
		if reading.Doubted && reading.Status == head.Used {
			add("D", "the tester doubts the %s reading at %s", r.Port, inches(reading.Lift.Value))
		}
	}
}

// converted reports whether the whole port was taken at another pressure than
// the reference. Rows that sag are told as out of air.
func (f *family) converted(r *PortResult) bool {
	return r.Pressure.Known && relative(quantity.Flow(r.Pressure.Value), quantity.Flow(f.rules.Reference)) > samePressure
}

func outOfAir(r *PortResult) []string {
	var high quantity.Pressure
	for _, t := range r.Tests {
		for _, reading := range t.Readings {
			high = max(high, reading.Pressure().Value)
		}
	}
	var lifts []string
	for _, p := range r.Points {
		for _, u := range p.From {
			row := u.Reading.Pressure()
			if row.Known && float64(high) > outOfAirRatio*float64(row.Value) {
				lifts = append(lifts, inches(p.Lift))
				break
			}
		}
	}
	return lifts
}

// oldList is the age in months from which a price list is marked. Common
// practice, no source.
const oldList = 12

// monthsSince is the time since a date in months of 30.44 days, 0 when the date
// is not known.
func (f *family) monthsSince(d source.Stated[time.Time]) float64 {
	const daysAMonth = 30.436875
	if !d.Known {
		return 0
	}
	return f.date.Sub(d.Value).Hours() / 24 / daysAMonth
}

// handed reports whether ports are two designs, marked by letters or words and
// not by cylinder numbers.
func handed(each []PortCurve) bool {
	for _, p := range each {
		if strings.Trim(p.Mark, "0123456789#/- ") == "" || strings.HasPrefix(p.Mark, "sample ") {
			return false
		}
	}
	return true
}

func eachWords(each []PortCurve) string {
	words := make([]string, len(each))
	for i, p := range each {
		words[i] = fmt.Sprintf("%s %.0f cfm, %s", p.Mark, p.Working.Value, p.Words)
	}
	return strings.Join(words, "; ")
}

// questionFlag marks an entry that an open question is about.
func (x *built) questionFlag() {
	if max(x.problems.Worst(), x.bundle.read.Worst()) < source.Asked {
		return
	}
	if asked := append(slices.Clone(x.bundle.read), x.problems...).Open(); len(asked) > 0 {
		x.entry.flag("?", "an open question in Questions.xlsx is about it")
	}
}

// percent is how far a lies above b, in percent.
func percent(a, b float64) float64 {
	if b == 0 {
		return math.NaN()
	}
	return 100 * (a/b - 1)
}
