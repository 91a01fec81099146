package compare

import (
	"cmp"
	"fmt"
	"math"
	"slices"

	"flowshelf/analysis/cam"
)

// Orders are a head's places by flow alone under three averages of its intake
// curve, among the tested heads; 0 where the average is not known. They show
// whether the choice of average matters, and give nobody a place.
type Orders struct{ Working, Area, Cam int }

// familyCam is the cam of the family's setup, and false with the reason when the
// setup states none.
func (f *family) familyCam() (cam.Cam, Maybe) {
	switch lobe, ratio := f.CamLobe, f.RockerRatio; {
	case !lobe.Known && !ratio.Known:
		return cam.Cam{}, unknown("the setup states no cam for the family")
	case !lobe.Known:
		return cam.Cam{}, unknown("the setup states no cam lobe lift")
	case !ratio.Known:
		return cam.Cam{}, unknown("the setup states no rocker ratio")
	default:
		c := cam.Cam{Lobe: lobe.Value, Rocker: ratio.Value, Profile: cam.Harmonic}
		return c, known(c.PeakLift().In())
	}
}

// camMean is the mean intake flow over the time the family's cam holds the valve
// open between its .050 points. It needs a working average too, so that no head
// has the one on readings too few for the other.
func (f *family) camMean(r *PortResult) Maybe {
	c, stated := f.familyCam()
	switch {
	case !stated.Known:
		return stated
	case !r.Working.Known:
		return r.Working
	}
	mean, err := c.Mean(r.Curve, r.Verdict, cam.Between050)
	if err != nil {
		return unknown("%v", err)
	}
	return known(mean.CFM())
}

// camWords says which cam the averages rest on, "" for none.
func (f *family) camWords() string {
	c, stated := f.familyCam()
	if !stated.Known {
		return ""
	}
	words := fmt.Sprintf("lobe %s x %s, %s at the valve", inches(f.CamLobe.Value), number(c.Rocker), inches(c.PeakLift()))
	if d := f.CamDuration; d.Known {
		words += fmt.Sprintf(", %s degrees at .050", number(d.Value))
		if seat := c.SeatDuration(d.Value); !math.IsNaN(seat) {
			words += fmt.Sprintf(" (%.0f from seat to seat by the profile)", seat)
		}
	}
	return words
}

// averages gives the tested heads their order under each average, and warns
// where the choice between lift and time decides which of two heads flows more.
func (f *family) averages(c *Comparison) {
	c.Cam = f.camWords()
	tested := testedOf(c)
	inOrder := func(of func(*Entry) Maybe, set func(*Entry, int)) {
		sorted := slices.DeleteFunc(slices.Clone(tested), func(e *Entry) bool { return !of(e).Known })
		slices.SortStableFunc(sorted, func(a, b *Entry) int {
			return cmp.Or(cmp.Compare(of(b).Value, of(a).Value), cmp.Compare(a.Label, b.Label))
		})
		for i, e := range sorted {
			set(e, i+1)
		}
	}
	inOrder(func(e *Entry) Maybe { return e.Intake.Working }, func(e *Entry, n int) { e.Orders.Working = n })
	inOrder(func(e *Entry) Maybe { return e.Intake.MidArea }, func(e *Entry, n int) { e.Orders.Area = n })
	inOrder(func(e *Entry) Maybe { return e.Intake.CamMean }, func(e *Entry, n int) { e.Orders.Cam = n })
	c.Warnings = append(c.Warnings, f.averagesDiffer(tested)...)
}

// testedOf are the heads tested here that are compared with one another.
func testedOf(c *Comparison) []*Entry {
	var out []*Entry
	for _, list := range [][]Entry{c.Ranked, c.Unpriced} {
		for i := range list {
			out = append(out, &list[i])
		}
	}
	return out
}

// averagesDiffer names the pairs of heads that the two averages order
// differently, where at least one of them puts its head ahead by more than the
// noise. The cam average's uncertainty is taken in proportion to the working
// average's.
func (f *family) averagesDiffer(tested []*Entry) []string {
	pairs := f.turnedPairs(tested)
	var out []string
	for _, p := range pairs[:min(len(pairs), mostLines)] {
		ahead, behind := p[0], p[1]
		a, b := ahead.Intake, behind.Intake
		out = append(out, fmt.Sprintf("The choice of average matters for %s and %s: over the lifts %s to %s %s flows more (%.0f against %.0f cfm%s), "+
			"over the time the valve is open %s does (%.0f against %.0f%s).",
			ahead.Label, behind.Label, inches(f.RangeFrom), inches(f.RangeTo), ahead.Label, a.Working.Value, b.Working.Value,
			f.unlessBeyond(a.Working.Value-b.Working.Value, a.WorkingU, b.WorkingU),
			behind.Label, b.CamMean.Value, a.CamMean.Value, f.unlessBeyond(b.CamMean.Value-a.CamMean.Value, a.camU(), b.camU())))
	}
	if more := len(pairs) - len(out); more > 0 {
		out = append(out, fmt.Sprintf("The choice of average matters for %s more.", count(more, "pair")))
	}
	return out
}

// turnedPairs returns the pairs of heads that the two averages put in opposite
// order, one of them by more than the noise: the head ahead in working average
// first, the pairs by falling working average.
func (f *family) turnedPairs(tested []*Entry) [][2]*Entry {
	heads := slices.DeleteFunc(slices.Clone(tested), func(e *Entry) bool { return !e.Intake.CamMean.Known })
	slices.SortStableFunc(heads, func(a, b *Entry) int { return cmp.Compare(b.Intake.Working.Value, a.Intake.Working.Value) })
	best := make([]float64, len(heads)+1) // the best cam average from here down
	best[len(heads)] = math.Inf(-1)
	for i := len(heads) - 1; i >= 0; i-- {
		best[i] = max(best[i+1], heads[i].Intake.CamMean.Value)
	}
	var out [][2]*Entry
	for i, e := range heads {
		a := e.Intake
		for j := i + 1; best[j] > a.CamMean.Value; j++ { // nobody further down turns it
			b := heads[j].Intake
			lift, time := a.Working.Value-b.Working.Value, b.CamMean.Value-a.CamMean.Value
			if lift > 0 && time > 0 && (Beyond(f.rules, lift, a.WorkingU, b.WorkingU) || Beyond(f.rules, time, a.camU(), b.camU())) {
				out = append(out, [2]*Entry{e, heads[j]})
			}
		}
	}
	return out
}

// camU is the standard uncertainty of the cam average.
func (p *PortResult) camU() float64 { return p.WorkingU * p.CamMean.Value / p.Working.Value }
