package compare

import (
	"cmp"
	"fmt"
	"math"
	"regexp"
	"slices"
	"strconv"
	"strings"

	"flowshelf/analysis/curve"
	"flowshelf/analysis/head"
	"flowshelf/analysis/quantity"
	"flowshelf/analysis/source"
	"flowshelf/analysis/stats"
)

// Fewest readings of a curve that is scored, and the widest stretch between two
// of them that is drawn across: one missing step of a .100 in sheet. Common
// practice, no source.
const (
	fewestLifts                 = 4
	widestGap   quantity.Length = 0.200
)

// portResult draws the curve of one port and takes every figure from it.
func (f *family) portResult(b *bundle, x basis, port head.Port) *PortResult {
	var cols []*column
	for _, s := range x.from {
		cols = append(cols, s.cols...)
	}
	first := cols[0].test
	r := &PortResult{
		Port: port, Points: x.points, Bore: x.bore, BoreHow: x.how, BoreNote: x.note,
		Pressure: first.Pressure, Pipe: first.Pipe, Entry: first.Entry, Bench: first.By, Class: first.Class,
		Date: first.Date, Sample: first.Sample, Runs: x.runs, Spread: x.spread, SpreadPC: x.pc, WorstAt: x.worst, Each: x.each,
	}
	r.Ports = max(x.ports, statedPorts(b.dimensions, first))
	for _, c := range cols {
		r.Tests = append(r.Tests, c.test)
		r.SetAside = append(r.SetAside, c.aside...)
		r.Pressure = cmpPressure(r.Pressure, c)
	}
	slices.SortStableFunc(r.SetAside, func(a, b Used) int { return cmp.Compare(a.Reading.Lift.Value, b.Reading.Lift.Value) })
	r.Traces = conditionTraces(r.Tests)
	f.draw(r, x, cols)
	return r
}

// cmpPressure takes a column's highest row pressure where only rows state one.
func cmpPressure(p source.Stated[quantity.Pressure], c *column) source.Stated[quantity.Pressure] {
	if p.Known || c.highest == 0 {
		return p
	}
	for _, r := range c.test.Readings {
		if own := r.Pressure(); own.Known && own.Value == c.highest {
			return own
		}
	}
	return p
}

func conditionTraces(tests []*head.Test) []source.Trace {
	var out []source.Trace
	for _, t := range tests {
		for _, trace := range []source.Trace{t.Bore.Trace, t.Pressure.Trace, t.Date.Trace, t.PipeAt} {
			if trace.At != (source.Ref{}) {
				out = append(out, trace)
			}
		}
	}
	return out
}

// portsStated finds "2 ports" in what a dimension sheet says of the sample.
var portsStated = regexp.MustCompile(`(?i)\b(\d+)\s*(?:ports?|cyl)`)

// statedPorts is how many ports the sample's curve is the mean of by the
// dimension sheet: benches often note it there and not on the flow sheet.
func statedPorts(d *head.Dimensions, t *head.Test) int {
	if d == nil || !d.Samples.Known || t.Class != head.Own {
		return 1
	}
	if strings.Contains(strings.ToLower(d.Samples.Value), "both ports") {
		return 2
	}
	if m := portsStated.FindStringSubmatch(d.Samples.Value); m != nil {
		n, err := strconv.Atoi(m[1])
		if err == nil {
			return max(n, 1)
		}
	}
	return 1
}

// draw takes the figures from the curve.
func (f *family) draw(r *PortResult, x basis, cols []*column) {
	line, err := curve.New(plain(r.Points))
	if err != nil {
		r.Working.Why, r.Words = err.Error(), "can't say"
		return
	}
	r.Curve, r.Last = line, line.Last().Lift
	f.judge(r, cols)
	peak := line.Peak()
	r.PeakAll = LiftFlow(peak)
	if in, ok := line.PeakIn(f.RangeFrom, f.RangeTo); ok {
		r.PeakIn = LiftFlow(in)
	}
	_, r.Coverage = line.Mean(f.RangeFrom, f.RangeTo)
	r.Working = f.mean(line, f.RangeFrom, f.RangeTo)
	r.MoreCam = f.moreCam(r)
	if r.Coverage > 0 {
		f.uncertainty(r, x, cols)
	}
	r.MidMean = f.mean(line, f.BandFrom, f.BandTo)
	if area, _ := line.Area(f.BandFrom, f.BandTo); r.MidMean.Known {
		r.MidArea = known(area)
	} else {
		r.MidArea.Why = r.MidMean.Why
	}
}

// mean returns the mean over a window, when the readings carry it.
func (f *family) mean(line curve.Curve, from, to quantity.Length) Maybe {
	if !(from < to) {
		return unknown("no range is set")
	}
	readings := line.Readings()
	if len(readings) < fewestLifts {
		return unknown("only %d lifts tested", len(readings))
	}
	mean, coverage := line.Mean(from, to)
	if coverage < f.rules.MinimumCoverage {
		return unknown("range short: tested to %s, the range ends at %s", inches(line.Last().Lift), inches(to))
	}
	var before quantity.Length
	for _, p := range readings {
		if p.Lift-before > widestGap+sameLift && p.Lift > from && before < to {
			return unknown("no reading between %s and %s", inches(before), inches(p.Lift))
		}
		before = p.Lift
	}
	return known(mean.CFM())
}

// judge takes the verdict on the curve's end, and withholds it where the air was
// too slow for one.
func (f *family) judge(r *PortResult, cols []*column) {
	r.Verdict = curve.Stall(plain(r.Points), f.noise)
	r.Words = r.Verdict.Words()
	for _, c := range cols {
		if c.lowest > 0 && c.lowest < comparableStall && c.lowest < f.rules.Reference {
			r.WithHeld = fmt.Sprintf("tested at %s inH2O: the level converts, the stall does not", number(c.lowest.InH2O()))
			r.Words = "can't say: " + r.WithHeld
			return
		}
	}
	if r.Verdict.Status == curve.TooFew {
		r.Words = fmt.Sprintf("can't say: only %d readings", len(r.Points))
	}
}

// Course is the verdict in a sentence: how far a curve that backs up holds before
// it does is said too.
func (r *PortResult) Course() string {
	if r.Words != r.Verdict.Words() {
		return r.Words // withheld
	}
	return r.Verdict.Course()
}

// uncertainty builds the budget of the working average. Runs of one port make
// its readings surer; several ports are in the casting's part, since a sheet
// seldom says how many readings a printed mean is of. The components that a whole
// bench or test pressure shares are shown and stay out of the places.
func (f *family) uncertainty(r *PortResult, x basis, cols []*column) {
	conversion := 0.0
	for _, c := range cols {
		conversion = max(conversion, c.conversion)
	}
	k := stats.Conditions{
		R: f.rules.Repeatability / math.Sqrt(float64(max(x.runs, 1))), LiftZero: f.rules.LiftZero,
		Casting: f.casting(x, r.Ports), Bore: x.u, Conversion: conversion,
	}
	for i := range r.Points {
		r.Points[i].U = k.R * stats.RepeatabilityShare * r.Points[i].Flow.CFM()
	}
	budget, ok := stats.MeanBudget(r.Curve, f.RangeFrom, f.RangeTo, k)
	if !ok {
		return
	}
	r.WorkingU = budget.Unshared(stats.Shared{Conversion: true, Bench: true}).CFM()
	for _, part := range []UPart{
		{Name: "repeatability", CFM: budget.Repeatability.CFM()},
		{Name: "lift zero", CFM: budget.LiftZero.CFM()},
		{Name: "port and casting", CFM: budget.Casting.CFM()},
		{Name: "bore", CFM: budget.Bore.CFM()},
		{Name: "pressure conversion", CFM: budget.Conversion.CFM(), Shared: true},
	} {
		if part.CFM > 0 {
			r.Parts = append(r.Parts, part)
		}
	}
}

// casting is the relative uncertainty of a mean over ports: their own spread
// from three on, the shop's figure over the root of the ports below that.
func (f *family) casting(x basis, ports int) float64 {
	if len(x.each) >= 3 {
		means := make([]quantity.Flow, len(x.each))
		for i, e := range x.each {
			means[i] = quantity.CFM(e.Working.Value)
		}
		return stats.Casting(means)
	}
	return f.rules.PortSpread / math.Sqrt(float64(max(ports, 1)))
}
