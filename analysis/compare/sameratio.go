package compare

import (
	"fmt"
	"math"

	"flowshelf/analysis/quantity"
)

// What makes two heads' curves one curve times a figure. Whole readings are
// good to half a cfm; a ratio that the bench's own noise could make says
// nothing. Common practice, no source.
const (
	ratioRounding = 0.6   // cfm, of the larger curve
	ratioOneSame  = 0.005 // between the ratios of the two ports
	peaksApart    = 0.015 // between the ratios of the two ports' peaks
	fewestShared  = 6     // lifts of each port
)

// sameRatios asks about two heads of one class of evidence of which one is the
// other times one figure on both ports: a pressure or a unit taken wrongly, or a
// sheet made up from another.
func (f *family) sameRatios(all []built) {
	for i, j := range f.ratioPairs(all) {
		if j == i {
			continue
		}
		if ratio, ok := f.oneRatio(&all[i].entry, &all[j].entry); ok {
			f.askRatio(&all[i], &all[j], ratio)
		}
	}
}

// oneRatio returns what a's flow is of b's on both ports, when it is one figure.
func (f *family) oneRatio(a, b *Entry) (float64, bool) {
	peaks := float64(a.Intake.PeakAll.Flow*b.Exhaust.PeakAll.Flow) / float64(b.Intake.PeakAll.Flow*a.Exhaust.PeakAll.Flow)
	if math.Abs(peaks-1) > peaksApart {
		return 0, false
	}
	in, ok := constantRatio(a.Intake.Points, b.Intake.Points)
	if !ok || math.Abs(in-1) <= f.rules.Repeatability {
		return 0, false
	}
	ex, ok := constantRatio(a.Exhaust.Points, b.Exhaust.Points)
	if !ok || math.Abs(ex/in-1) > ratioOneSame {
		return 0, false
	}
	return in, true
}

// constantRatio returns the ratio of two curves over the lifts that both were
// read at when rounding alone explains what is left of every reading.
func constantRatio(a, b []LiftPoint) (float64, bool) {
	lifts := sharedLifts(a, b)
	if len(lifts) < fewestShared {
		return 0, false
	}
	var sumA, sumB quantity.Flow
	for _, s := range lifts {
		sumA, sumB = sumA+a[s.ours].Flow, sumB+b[s.theirs].Flow
	}
	ratio := float64(sumA / sumB)
	for _, s := range lifts {
		if math.Abs(a[s.ours].Flow.CFM()-ratio*b[s.theirs].Flow.CFM()) > ratioRounding*max(1, ratio) {
			return 0, false
		}
	}
	return ratio, true
}

func (f *family) askRatio(x, y *built, ratio float64) {
	e, other := &x.entry, &y.entry
	here, there := sheetOf(e.Intake.Tests[0].At), sheetOf(other.Intake.Tests[0].At)
	p := f.ask(x.bundle, here, "constant-ratio", fmt.Sprintf("%s reads %.3f of %s at every lift on both ports", e.Label, ratio, other.Label),
		"look at test pressure and unit on both sheets, and whether one was made from the other")
	p.Also = append(p.Also, there)
	p.Question.Text = capital(p.Message) + ". Are both right?"
	p.Question.Choices = []string{"both are right", "leave " + e.Label + " out", "leave " + other.Label + " out"}
	p.Question.Evidence = fmt.Sprintf("ratio %.3f at %d lifts of the intake", ratio, len(e.Intake.Points))
	noted, answer, ok := f.answered(*p)
	x.problems.Add(noted)
	switch {
	case ok && answer.Choice == p.Question.Choices[1]:
		x.standsOut(answer)
	case ok && answer.Choice == p.Question.Choices[2]:
		y.standsOut(answer)
	}
	if ok {
		return
	}
	e.flag("?", fmt.Sprintf("reads %.3f of %s at every lift", ratio, other.Label))
}
