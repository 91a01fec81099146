package ingest

import (
	"fmt"
	"math"
	"strings"

	"flowshelf/analysis/head"
	"flowshelf/analysis/source"
)

// contradictions asks where two books hold different figures for one head, port
// and day that no ranking would set against one another: the head is not in the
// setup, or whose bench it was is not known. Tests that are ranked are held
// against one another in the comparison.
func (r *Reading) contradictions() {
	family := make(map[string]string)
	for _, h := range r.Shop.Heads {
		family[strings.ToLower(h.Name)] = h.Family
	}
	ranked := func(t *head.Test) bool { return t.Class != head.ClassUnknown && family[strings.ToLower(t.Head)] != "" }
	groups := make(map[string][]*head.Test)
	var order []string
	tests := r.Records.Tests
	for i := range tests {
		t := &tests[i]
		if t.Head == "" || t.Status != head.Used {
			continue
		}
		k := strings.ToLower(strings.Join([]string{t.Head, t.State, t.Port.String(), t.Sample, t.PortMark, t.Run, t.Entry, t.By}, "|"))
		if len(groups[k]) == 0 {
			order = append(order, k)
		}
		groups[k] = append(groups[k], t)
	}
	asked := make(map[string]bool)
	for _, k := range order {
		for i, y := range groups[k] {
			for _, x := range groups[k][:i] {
				if ranked(x) && ranked(y) || !sameOccasion(x, y) {
					continue
				}
				if lift, gap := widestGap(x, y); gap > roundedAway {
					r.whichStands(x, y, fmt.Sprintf("at %.3f in they are %.1f %% apart", lift, 100*gap), asked)
				}
			}
		}
	}
}

// roundedAway is how far one figure may stand from itself written in another
// unit or with fewer digits.
const roundedAway = 0.01

// sameOccasion reports whether two tests in two books can be one flow of one
// head: same class, day, pipe, bore and pressure, as far as both say them.
func sameOccasion(x, y *head.Test) bool {
	near := func(known bool, a, b float64) bool { return !known || math.Abs(a-b) <= 0.005*math.Abs(a) }
	return x.At.File != y.At.File && x.Class == y.Class && x.Pipe == y.Pipe &&
		x.Date.Known == y.Date.Known && x.Date.Value.Equal(y.Date.Value) &&
		near(x.Bore.Known && y.Bore.Known, x.Bore.Value.In(), y.Bore.Value.In()) &&
		near(x.Pressure.Known && y.Pressure.Known, x.Pressure.Value.InH2O(), y.Pressure.Value.InH2O())
}

// widestGap returns the lift in inches at which two tests lie furthest apart, and
// how far, of the first one's flow; nothing below four lifts in common.
func widestGap(x, y *head.Test) (liftIn, gap float64) {
	common := 0
	for i := range x.Readings {
		a := &x.Readings[i]
		for j := range y.Readings {
			b := &y.Readings[j]
			if a.Status != head.Used || b.Status != head.Used || !a.Flow.Known || !b.Flow.Known || a.Lift.Value != b.Lift.Value || a.Flow.Value <= 0 {
				continue
			}
			common++
			if d := math.Abs(b.Flow.Value.CFM()/a.Flow.Value.CFM() - 1); d > gap {
				liftIn, gap = a.Lift.Value.In(), d
			}
		}
	}
	if common < 4 {
		return 0, 0
	}
	return liftIn, gap
}

// whichStands asks once for a pair of sheets which of them stands, and sets the
// other one's test aside when somebody has said.
func (r *Reading) whichStands(x, y *head.Test, evidence string, asked map[string]bool) {
	p := head.WhichStands(x.Head, x, y, evidence, "which figures of "+x.Head+" are shown")
	if answer, ok := r.Records.Answers.Reply(*p.Question); ok {
		p.Severity, p.Hint = source.Noted, ""
		p.Message += "; answered “" + answer.Said() + "”, " + answer.Per()
		switch answer.Choice {
		case p.Question.Choices[0]:
			y.Status, y.Why = head.SetAside, "left out, "+answer.Per()
		case p.Question.Choices[1]:
			x.Status, x.Why = head.SetAside, "left out, "+answer.Per()
		}
	}
	if !asked[p.Question.Key] {
		asked[p.Question.Key] = true
		r.Problems.Add(p)
	}
}
