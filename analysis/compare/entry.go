package compare

import (
	"fmt"
	"slices"
	"strings"

	"flowshelf/analysis/engine"
	"flowshelf/analysis/head"
	"flowshelf/analysis/pricelist"
	"flowshelf/analysis/quantity"
	"flowshelf/analysis/source"
)

// built is one head in one state on its way into a list.
type built struct {
	entry    Entry
	out      *NotRanked // why it is left out, nil when it is not
	problems source.Problems
	asked    source.Problems // those of them that are about the cost
	bundle   *bundle
	state    state
	sessions []session // all intake sessions, for the advertised gaps
}

// heads builds the entries of one head: one a state, from its own tests, or from
// the supplier's sheet, or from a claim, never from a mixture.
func (f *family) heads(b *bundle) []built {
	f.datedLater(b)
	class, tests := f.evidence(b)
	if len(tests) == 0 {
		return []built{f.untested(b)}
	}
	states := f.menu.byState(tests)
	out := make([]built, 0, len(states)+1)
	own := slices.Clone(b.own)
	for i, build := range f.builds(b) {
		price := f.price(b, build)
		for _, st := range states {
			if i > 0 && !st.delivered() {
				continue // our work goes into complete heads where the head comes so
			}
			x := f.build(b, st, class, price)
			if i > 0 {
				x.problems = x.asked // the readings are those of the complete head, and were asked about there
			}
			f.name(&x.entry, b, st.state, len(states) > 1)
			f.finish(&x)
			out = append(out, x)
		}
		own = append(own, price.problems...)
	}
	out[0].problems = append(own, out[0].problems...)
	return out
}

// datedLater notes the tests that this comparison cannot know of yet.
func (f *family) datedLater(b *bundle) {
	for _, t := range b.tests {
		if f.later(t.Date) {
			at := t.Date.Trace.At
			if at.Cell == "" {
				at = sheetOf(t.At)
			}
			b.own.Add(f.noted(b, at, "dated-later", "the test is dated after the day of this comparison and is not used"))
		}
	}
}

// evidence picks the nearest class of tests a head has.
func (f *family) evidence(b *bundle) (head.Class, []*head.Test) {
	for _, class := range []head.Class{head.Own, head.Supplier, head.Advertised} {
		var tests []*head.Test
		for _, t := range b.tests {
			if t.Class == class && t.Status == head.Used && !f.later(t.Date) {
				tests = append(tests, t)
			}
		}
		if len(tests) > 0 {
			return class, tests
		}
	}
	return head.ClassUnknown, nil
}

// untested says why a head without any usable test is left out.
func (f *family) untested(b *bundle) built {
	reason, missing := "no flow test of it is in the folder", []string{"flow test"}
	held := false
	for _, t := range b.tests {
		switch {
		case f.later(t.Date):
			reason = "its only test is dated after this comparison"
		case t.Class == head.ClassUnknown && t.Status == head.Used:
			reason, missing = "it is not known whether its test is our own, a supplier's or a claim", []string{"whose test it is"}
		case t.Status == head.Asked:
			reason, missing, held = "its test waits for an answer in Questions.xlsx: "+t.Why, []string{"an answer in Questions.xlsx"}, true
		default:
			reason = "its test was set aside: " + t.Why
		}
	}
	out := NotRanked{Head: b.listed.Name, Label: b.listed.Name, Reason: reason, Missing: missing, Problems: b.read, Held: held,
		Stock: b.stock, Sell: f.price(b, f.builds(b)[0]).base.Sell}
	return built{bundle: b, out: &out, problems: slices.Clone(b.own)}
}

// build draws the ports of one state and works out its cost.
func (f *family) build(b *bundle, st stateTests, class head.Class, price priced) built {
	x := built{bundle: b, state: st.state}
	e := &x.entry
	e.Dimensions, e.Stock, e.Notes = b.dimensions, b.stock, b.notes
	if e.Bare = price.build == pricelist.Bare; e.Bare && b.bareStock != nil {
		e.Stock = b.bareStock
	}
	for _, extra := range b.extras {
		if extra.Status == head.Used || extra.Status == head.Asked {
			e.Extras = append(e.Extras, extra)
		}
	}
	f.intake(&x, st.tests)
	f.exhaust(&x, st.tests)
	if e.Intake == nil && x.out == nil {
		x.out = &NotRanked{Reason: "no intake test", Missing: []string{"intake flow"}}
	}
	e.Grade = f.grade(e, class)
	if e.Grade != GradeD {
		e.Cost, x.asked = f.usable(b, price, st.state)
		x.problems = append(x.problems, x.asked...)
	} else {
		e.Cost = price.base
	}
	if e.Intake != nil {
		f.figures(e)
		f.flags(e)
	}
	return x
}

// name labels the entry, uniquely within its family.
func (f *family) name(e *Entry, b *bundle, s state, several bool) {
	e.Head, e.Label, e.Supplier = b.listed.Name, b.listed.Name, b.supplier()
	switch {
	case e.Bare && s.delivered():
		e.State, e.Label = bareState, b.listed.Name+" bare + our parts"
	case e.Bare:
		e.State, e.Label = bareState+", "+s.words, b.listed.Name+" bare + our parts + "+s.words
	case !s.delivered():
		e.State, e.Label = s.words, b.listed.Name+" + "+s.words
	case several:
		e.State, e.Label = "as delivered", b.listed.Name+" as delivered"
	}
	e.IsBase = s.delivered() && (!e.Bare || len(f.builds(b)) == 1) && f.BaseHead != "" && nameKey(f.BaseHead) == nameKey(b.listed.Name)
}

// finish decides whether the entry is left out: held by a question, short of
// the range, or failing a must of the setup.
func (f *family) finish(x *built) {
	e := &x.entry
	if x.out == nil && e.Grade != GradeD {
		switch {
		case !e.Intake.Working.Known:
			x.out = &NotRanked{Reason: e.Intake.Working.Why, Missing: []string{"readings over the working range"}}
		case f.SpringsAreMust && e.SpringsTo.Known && e.SpringsTo.Spare < 0:
			x.out = &NotRanked{Reason: "springs are a must, and they " + e.SpringsTo.Words}
		case f.AirIsMust && e.Air.Speed.Known && e.Air.Verdict != "right":
			x.out = &NotRanked{Reason: fmt.Sprintf("air speed is a must, and %.0f ft/s is %s", e.Air.Speed.Value, e.Air.Verdict)}
		}
	}
	if x.out == nil {
		return
	}
	x.out.Head, x.out.State, x.out.Label = e.Head, e.State, e.Label
	x.out.Stock, x.out.Sell = e.Stock, e.Cost.Sell
	if e.Intake != nil {
		x.out.Entry = e
	}
	x.out.Problems = append(slices.Clone(x.bundle.read), x.problems...).Sorted()
}

// grade is the grade of evidence.
func (f *family) grade(e *Entry, class head.Class) Grade {
	in := e.Intake
	switch {
	case class == head.Own && in != nil && in.BoreHow == TestedAtReference && in.Ports >= 2 && f.atReferencePressure(in):
		return GradeA
	case class == head.Own:
		return GradeB
	case class == head.Supplier && in != nil && in.Bore.Known && in.Pressure.Known:
		return GradeC
	}
	return GradeD
}

// atReferencePressure reports whether a port was tested at the reference
// pressure; a row or two of a sagging bench does not change what was set.
func (f *family) atReferencePressure(r *PortResult) bool {
	return r.Pressure.Known && relative(quantity.Flow(r.Pressure.Value), quantity.Flow(f.rules.Reference)) <= samePressure
}

// figures takes the plain numbers of an entry from its ports and dimensions.
func (f *family) figures(e *Entry) {
	in := e.Intake
	low, mid, high := quantity.Inches(0.200), quantity.Inches(0.300), quantity.Inches(0.400)
	e.Low = flowAt(in, low)
	e.Mid = f.mean(in.Curve, mid, high)
	if from := quantity.Inches(0.500); from < f.RangeTo {
		e.High = f.mean(in.Curve, from, f.RangeTo)
	} else {
		e.High = unknown("the range ends at %s", inches(f.RangeTo))
	}
	e.AtTop = flowAt(in, f.RangeTo)
	in.CamMean = f.camMean(in)
	e.EI, e.EINoPipe = exhaustOverIntake(in, e.Exhaust), exhaustOverIntake(in, e.NoPipe)
	e.Shape = f.shape(in)
	e.Air = f.air(e.Dimensions)
	e.SpringsTo = f.springs(e)
	e.Demand, e.Sizes = f.demand(e), f.sizes(e.Dimensions)
	switch d := e.Dimensions; {
	case d == nil || !d.Runner.Known || d.Runner.Value <= 0:
		e.PerCC.Why = "runner volume not known"
	default:
		e.PerCC = known(in.PeakAll.Flow.CFM() / d.Runner.Value.CC())
	}
}

func flowAt(r *PortResult, lift quantity.Length) Maybe {
	q, ok := r.Curve.At(lift)
	if !ok || len(r.Points) == 0 {
		return unknown("tested to %s", inches(r.Last))
	}
	return known(q.CFM())
}

// pipeBand is how far an exhaust-over-intake ratio may be off, in points, when
// nobody says whether a pipe was on. Common practice, no source.
const pipeBand = 0.05

func exhaustOverIntake(in, ex *PortResult) Ratio {
	out := Ratio{}
	switch {
	case ex == nil:
		out.Why = "no exhaust test"
	case !ex.Working.Known:
		out.Why = "exhaust: " + ex.Working.Why
	case !in.Working.Known:
		out.Why = "intake: " + in.Working.Why
	default:
		found, _ := engine.ExhaustToIntake(quantity.CFM(ex.Working.Value), quantity.CFM(in.Working.Value))
		out.Maybe, out.Unusual = known(found.Ratio), found.Unusual
		out.Pipe = ex.Pipe
		out.Low, out.High = out.Value, out.Value
		if out.Pipe == head.PipeNotStated {
			out.Low, out.High = out.Value-pipeBand, out.Value+pipeBand
		}
	}
	return out
}

// Air speeds at the minimum cross-section, ft/s. Common practice, no source.
const (
	lazyBelow   = 500
	chokedAbove = 640
)

// air is the air speed in the family's reference engine, with its verdict.
func (f *family) air(d *head.Dimensions) Air {
	if d == nil || !d.MinSection.Known {
		return Air{Speed: unknown("size check not done: minimum cross-section not known")}
	}
	speed, err := f.engine().AirSpeed(d.MinSection.Value)
	if err != nil {
		return Air{Speed: unknown("size check not done: %v", err)}
	}
	lazy, choked := f.airLimits()
	a := Air{Speed: known(speed.FtS()), Verdict: "right"}
	if speed.FtS() < lazy {
		a.Verdict = "lazy"
	} else if speed.FtS() > choked {
		a.Verdict = "choked"
	}
	return a
}

func (f *family) airLimits() (lazy, choked float64) {
	lazy, choked = lazyBelow, chokedAbove
	if f.Lazy.Known {
		lazy = f.Lazy.Value.FtS()
	}
	if f.Choked.Known {
		choked = f.Choked.Value.FtS()
	}
	return lazy, choked
}

// nearCoilBind is the spare spring lift below which coil bind must be checked
// with a gauge. Common practice, no source.
const nearCoilBind quantity.Length = 0.025

// springs says in words whether the fitted springs reach the range's top, by the
// maker's statement.
func (f *family) springs(e *Entry) SpringVerdict {
	limit := source.Stated[quantity.Length]{}
	if e.Dimensions != nil && !e.Bare {
		limit = e.Dimensions.MaxLift
	}
	if e.Cost.SpringsTo.Known {
		limit = e.Cost.SpringsTo
	}
	if !limit.Known {
		return SpringVerdict{Words: "max lift not stated: ask the maker"}
	}
	v := SpringVerdict{Known: true, MaxLift: limit.Value, Spare: limit.Value - f.RangeTo}
	var words []string
	if v.Spare < -1e-6 {
		words = append(words, fmt.Sprintf("are good to %s only", inches(limit.Value)))
		kit := slices.IndexFunc(e.Cost.Lines, func(l CostLine) bool { return l.Kind == SpringCost })
		if kit >= 0 {
			words = append(words, "a kit for "+f.money(e.Cost.Lines[kit].Amount.Float())+" is in the cost")
		}
	} else {
		words = append(words, "are good to "+inches(limit.Value))
		switch {
		case v.Spare < 0.0005:
			words = append(words, "with none to spare: check coil bind")
		case v.Spare < nearCoilBind:
			words = append(words, fmt.Sprintf("only %s spare: check coil bind", inches(v.Spare)))
		}
	}
	v.Words = strings.Join(words, ", ")
	return v
}

// WithPipe reports whether the exhaust was flowed with a pipe on it.
func (r Ratio) WithPipe() bool { return r.Pipe == head.WithPipe }

// NoPipe reports whether the exhaust was flowed without a pipe.
func (r Ratio) NoPipe() bool { return r.Pipe == head.WithoutPipe }
