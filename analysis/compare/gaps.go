package compare

import (
	"cmp"
	"fmt"
	"math"
	"slices"
	"strings"
	"time"

	"flowshelf/analysis/curve"
	"flowshelf/analysis/head"
	"flowshelf/analysis/quantity"
	"flowshelf/analysis/source"
)

// What a gap between an advertised and a tested figure may come from. Common
// practice, no source.
const (
	benchesDiffer  = 3.0 // percent: two honest benches
	borePerTenth   = 2.5 // percent at the peak for .100 in of bore, at most
	pipeOnAnywhere = 5.0 // percent of exhaust flow
)

// gaps puts each supplier's figures beside what the head read here, as delivered,
// on the bore nearest to the supplier's. Neither is brought to the other's bore.
func (f *family) gaps(heads []*bundle) []Gap {
	var out []Gap
	for _, b := range heads {
		for _, port := range []head.Port{head.Intake, head.Exhaust} {
			if g, ok := f.gap(b, port); ok {
				out = append(out, g)
			}
		}
	}
	return out
}

func (f *family) gap(b *bundle, port head.Port) (Gap, bool) {
	advert := f.advert(b, port)
	if advert == nil {
		return Gap{}, false
	}
	tested := f.testedLike(b, port, advert.test)
	if len(tested) == 0 {
		return Gap{}, false
	}
	own := f.average(b, tested[0])
	line, err := curve.New(plain(own.points))
	if err != nil {
		return Gap{}, false
	}
	first := tested[0].cols[0].test
	g := Gap{Head: b.listed.Name, Supplier: cmp.Or(b.listed.Supplier, advert.test.By), Port: port,
		Advertised: f.conditions(advert.test), Tested: f.conditions(first)}
	var peak quantity.Flow
	for _, p := range advert.points {
		q, ok := line.At(p.Lift)
		if !ok || p.Lift < line.First().Lift-sameLift {
			continue
		}
		row := GapRow{Lift: p.Lift, Advertised: p.Flow, Tested: q, Percent: percent(q.CFM(), p.Flow.CFM()), From: traces(p.From)}
		if i := pointAt(own.points, p.Lift); i >= 0 {
			row.From = append(row.From, traces(own.points[i].From)...)
		} else {
			row.Between, row.Aside = true, asideAt(tested[0], p.Lift)
		}
		g.Rows = append(g.Rows, row)
		if p.Flow > peak {
			peak, g.AtPeak = p.Flow, row
		}
	}
	words := append([]string{f.explained(&g, advert.test, tested[0])}, f.otherWays(b, &g, own, tested)...)
	g.Explained = strings.Join(append(words, f.otherSheets(b, port, advert, line)...), "; ")
	return g, len(g.Rows) > 0
}

// asideAt says what a session read at a lift and does not use.
func asideAt(s session, lift quantity.Length) string {
	var out []string
	for _, c := range s.cols {
		for _, u := range c.aside {
			if r := u.Reading; r.Flow.Known && r.Lift.Value.Near(lift, sameLift) && len(u.Steps) > 0 {
				out = append(out, reading(r)+" was read and is not used: "+strings.TrimPrefix(u.Steps[len(u.Steps)-1], "refused: "))
			}
		}
	}
	return strings.Join(out, "; ")
}

func traces(from []Used) []source.Trace {
	var out []source.Trace
	for _, u := range from {
		trace := u.Reading.Flow.Trace
		for _, step := range u.Steps {
			trace = trace.Then(step)
		}
		out = append(out, trace)
	}
	return out
}

// advert picks the supplier's figures for a port of a head tested here: a claim
// before a sheet, then the newest, then the one with most readings.
func (f *family) advert(b *bundle, port head.Port) *column {
	var best *column
	for _, c := range usableColumns(f.columns(b, f.testsOf(b, head.Advertised, head.Supplier), port)) {
		if best == nil || cmp.Or(cmp.Compare(c.test.Class, best.test.Class), compareDates(c.test.Date, best.test.Date),
			cmp.Compare(len(c.points), len(best.points))) > 0 {
			best = c
		}
	}
	return best
}

// testsOf are a head's usable tests, as delivered, of some classes.
func (f *family) testsOf(b *bundle, classes ...head.Class) []*head.Test {
	var out []*head.Test
	for _, t := range b.tests {
		if t.Status == head.Used && slices.Contains(classes, t.Class) && !f.later(t.Date) && f.menu.resolve(t.State).delivered() {
			out = append(out, t)
		}
	}
	return out
}

// testedLike returns the newest sample's own sessions of a port, the bore
// nearest to the supplier's first; of exhausts those with the same pipe first.
func (f *family) testedLike(b *bundle, port head.Port, advert *head.Test) []session {
	cols := usableColumns(f.columns(b, f.testsOf(b, head.Own), port))
	if port == head.Exhaust {
		want := advert.Pipe
		if !slices.ContainsFunc(cols, func(c *column) bool { return c.test.Pipe == want }) {
			want = head.WithPipe
		}
		cols = slices.DeleteFunc(cols, func(c *column) bool { return c.test.Pipe != want })
	} else {
		cols = barePorts(cols)
	}
	pair := f.choose(b, cols).pair
	off := func(s session) float64 {
		if !advert.Bore.Known || !s.bore.Known {
			return math.Inf(1)
		}
		return math.Abs(float64(s.bore.Value - advert.Bore.Value))
	}
	slices.SortStableFunc(pair, func(a, b session) int { return cmp.Compare(off(a), off(b)) })
	return pair
}

func (f *family) conditions(t *head.Test) Conditions {
	c := Conditions{Bore: "not stated", Pressure: "not stated", Entry: cmp.Or(t.Entry, "not stated"), Where: cmp.Or(t.By, t.Class.String()), Dated: "not dated"}
	if t.Date.Known {
		c.Dated = t.Date.Value.Format(time.DateOnly)
	}
	if t.Bore.Known {
		c.Bore = f.size(t.Bore.Value)
	}
	if words := pressureWords(t); words != "" {
		c.Pressure = words
	}
	if t.Port == head.Exhaust {
		c.Pipe = t.Pipe.String()
	}
	return c
}

// pressureWords is the test pressure of a column, or the span of those that its
// rows state each by itself; "" where nothing is stated.
func pressureWords(t *head.Test) string {
	low, high := t.Pressure.Value, t.Pressure.Value
	known, byRow := t.Pressure.Known, false
	for i := range t.Readings {
		p := t.Readings[i].Pressure()
		if !p.Known {
			continue
		}
		if !byRow {
			low, high, known, byRow = p.Value, p.Value, true, true
		}
		low, high = min(low, p.Value), max(high, p.Value)
	}
	words := number(high.InH2O()) + " inH2O"
	switch as := t.Pressure.Trace.AsStated(); {
	case !known:
		return ""
	case !byRow && as != "":
		return as + " (" + words + ")"
	case number(low.InH2O()) != number(high.InH2O()):
		return number(low.InH2O()) + " to " + words + ", stated row by row"
	case byRow && !t.Pressure.Known:
		return words + ", stated row by row"
	}
	return words
}

// explained says how much of a gap the stated conditions can account for.
func (f *family) explained(g *Gap, advert *head.Test, here session) string {
	gap := math.Abs(g.AtPeak.Percent)
	if gap <= benchesDiffer {
		return "within what two benches differ"
	}
	var why []string
	allowed := 0.0
	if advert.Bore.Known && here.bore.Known {
		if d := math.Abs(float64(advert.Bore.Value - here.bore.Value)); d > float64(atReference) {
			allowed += borePerTenth * d / 0.100
			why = append(why, "bore")
		}
	} else {
		why = append(why, "bore not stated")
	}
	if g.Port == head.Exhaust && advert.Pipe != here.cols[0].test.Pipe {
		allowed += pipeOnAnywhere
		why = append(why, "pipe")
	}
	switch {
	case allowed == 0 && len(why) == 0:
		return "no"
	case allowed == 0:
		return "can't say: " + strings.Join(why, ", ")
	case gap <= allowed+benchesDiffer:
		return "may be: " + strings.Join(why, " and ")
	}
	return fmt.Sprintf("part: %s, %.0f of %.0f points at most", strings.Join(why, " and "), math.Floor(allowed), math.Round(gap))
}

// otherWays says what the same advert is against the better port alone, and
// against the head's other bores.
func (f *family) otherWays(b *bundle, g *Gap, own averaged, tested []session) []string {
	var out []string
	against := func(points []LiftPoint, what string) {
		if q, ok := flowNear(points, g.AtPeak.Lift); ok {
			out = append(out, fmt.Sprintf("%+.1f %% against %s", percent(q.CFM(), g.AtPeak.Advertised.CFM()), what))
		}
	}
	if len(own.each) > 1 && handed(own.each) {
		better := slices.MaxFunc(own.each, func(a, b PortCurve) int { return cmp.Compare(a.Working.Value, b.Working.Value) })
		against(better.Points, "port "+better.Mark+" alone")
	}
	for _, s := range tested[1:] {
		against(f.average(b, s).points, f.size(s.bore.Value)+" bore")
	}
	return out
}

// otherSheets says what the supplier's other tests of the head read against ours:
// they are neither ranked nor in the supplier's record. Where the setup allows an
// estimate of another bore, that is told too.
func (f *family) otherSheets(b *bundle, port head.Port, advert *column, own curve.Curve) []string {
	var out []string
	for _, c := range usableColumns(f.columns(b, f.testsOf(b, head.Advertised, head.Supplier), port)) {
		peak := c.points[0]
		for _, p := range c.points {
			if p.Flow > peak.Flow {
				peak = p
			}
		}
		q, ok := own.At(peak.Lift)
		if c.test == advert.test || !ok {
			continue
		}
		words := fmt.Sprintf("%+.1f %% against another sheet of the supplier's", percent(q.CFM(), peak.Flow.CFM()))
		if c.test.Bore.Known {
			words += " on " + f.size(c.test.Bore.Value)
			x, err := f.estimate(b, basis{averaged: averaged{points: c.points}, bore: c.test.Bore}, port)
			if i := pointAt(x.points, peak.Lift); err == nil && i >= 0 {
				words += fmt.Sprintf(", %+.1f %% once estimated at %s", percent(q.CFM(), x.points[i].Flow.CFM()), f.size(f.ReferenceBore))
			}
		}
		out = append(out, words)
	}
	return out
}

// enoughHeads is how many heads make a supplier's record. Common practice, no
// source.
const enoughHeads = 3

// recordSuppliers sums up each supplier's intake gaps over all families, and
// gives every comparison the records of the suppliers it has gaps of.
func recordSuppliers(all []Comparison) {
	by := make(map[string][]float64)
	for _, c := range all {
		for _, g := range c.Gaps {
			if g.Port == head.Intake && g.Supplier != "" {
				by[g.Supplier] = append(by[g.Supplier], g.AtPeak.Percent)
			}
		}
	}
	for i := range all {
		var names []string
		for _, g := range all[i].Gaps {
			if len(by[g.Supplier]) > 0 {
				names = append(names, g.Supplier)
			}
		}
		slices.Sort(names)
		for _, name := range slices.Compact(names) {
			all[i].Suppliers = append(all[i].Suppliers, supplierGap(name, by[name]))
		}
	}
}

func supplierGap(name string, percents []float64) SupplierGap {
	slices.Sort(percents)
	n := len(percents)
	s := SupplierGap{Supplier: name, Heads: n, Median: (percents[(n-1)/2] + percents[n/2]) / 2, Worst: percents[0]}
	s.Worded = fmt.Sprintf("median %+.1f %% on %d heads", s.Median, n)
	if n < enoughHeads {
		s.Worded = "too few to say"
	}
	return s
}
