package flowsheet

import (
	"fmt"
	"math"
	"slices"

	"flowshelf/analysis/head"
	"flowshelf/analysis/quantity"
	"flowshelf/analysis/source"
	"flowshelf/ingest/parse"
	"flowshelf/ingest/words"
)

// lifts turns the figures of a list into lengths, in the one unit the whole
// list is in. It fails, with the reason told, when that unit is not sure.
func (b *builder) lifts(t *table, f facts, flows []source.Stated[quantity.Flow]) []source.Stated[quantity.Length] {
	out := make([]source.Stated[quantity.Length], len(t.axis.entries))
	unit, how, ok := b.liftUnit(t, f, flows)
	ratio := source.Say(1.0, source.Trace{})
	if ok && atCam(t.lead.label.Text) {
		ratio, ok = b.askRatio(t)
	}
	if !ok {
		return out
	}
	var valve source.Stated[quantity.Length]
	if unit == parse.LiftOverDiameter {
		if valve, ok = t.valveFor(f); !ok {
			valve, ok = b.askLiftOverDiameter(t)
		}
		if !ok {
			return out
		}
	}
	last := source.Stated[quantity.Length]{}
	for i, e := range t.axis.entries {
		trace := b.r.trace(b.page, e.cell)
		trace.Unit, trace.Answered = how.Unit, alsoBy(alsoBy(how.Answered, valve.Trace.Answered), e.answered)
		if e.text.Ditto {
			out[i] = last
			continue
		}
		own := unit
		_, bare := parse.Plain(e.cell.Text, parse.PointMark) // ".05" under "L/D" is no inch
		if e.text.Unit != parse.LiftNotStated && (unit != parse.LiftOverDiameter || !bare) {
			own = e.text.Unit
		}
		if own == parse.LiftOverDiameter {
			last = source.Say(quantity.Length(e.text.Value)*valve.Value, trace.Then("L/D x valve head "+parse.Digits(valve.Value.In())+" in"))
			out[i] = last
			continue
		}
		l, step, ok := own.Length(e.text.Value)
		if !ok {
			continue
		}
		if step != "" {
			trace = trace.Then(step)
		}
		if ratio.Trace.Answered != "" {
			l, trace = l*quantity.Length(ratio.Value), trace.Then("lift of the cam x "+parse.Digits(ratio.Value)+", as answered")
			trace.Answered = alsoBy(trace.Answered, ratio.Trace.Answered)
		}
		last = source.Say(l, trace)
		out[i] = last
	}
	return out
}

// liftUnit decides the unit of a list: what its label, its own cells or the
// sheet state, checked against the figures; else what the figures leave open.
func (b *builder) liftUnit(t *table, f facts, flows []source.Stated[quantity.Flow]) (unit parse.LiftUnit, how source.Trace, ok bool) {
	values, own, mixed := ownUnits(t)
	guess := parse.GuessLiftUnit(values)
	stated, ok := f.liftUnit.one()
	switch {
	case mixed:
		b.refuseMixed(t)
	case ok && stated.Value == parse.LiftOverDiameter:
		return stated.Value, source.Trace{Unit: "the header says L/D"}, true
	case ok && own != parse.LiftNotStated && own != stated.Value:
		return b.askLiftUnit(t, []parse.LiftUnit{own, stated.Value}, "the header and the cells name two units")
	case ok && len(guess) > 0 && !slices.Contains(guess, stated.Value) && !(stated.Value == parse.LiftCM && slices.Max(values) <= mostCM):
		return b.askLiftUnit(t, append(guess, stated.Value), fmt.Sprintf("the header says %s, the figures do not look like it", stated.Value))
	case ok:
		return stated.Value, source.Trace{Unit: "stated: " + stated.Trace.Text}, true
	case own != parse.LiftNotStated && len(values) == 0:
		return own, source.Trace{Unit: "written beside each lift"}, true
	case len(guess) == 0, len(guess) == 1 && own != parse.LiftNotStated && own != guess[0]:
		b.refuseMixed(t)
	default:
		return b.unstatedUnit(t, f, flows, values, guess)
	}
	return 0, source.Trace{}, false
}

// unstatedUnit decides a unit that nobody states, where the figures and the
// rest of the sheet leave only one.
func (b *builder) unstatedUnit(t *table, f facts, flows []source.Stated[quantity.Flow], values []float64, guess []parse.LiftUnit) (unit parse.LiftUnit, how source.Trace, ok bool) {
	means, learned := b.r.learned(b.sender, "lift unit")
	switch {
	case len(guess) == 1 && b.maybeOverDiameter(t, values):
		return b.askLiftUnit(t, []parse.LiftUnit{parse.LiftInches, parse.LiftOverDiameter}, "no lift goes beyond .400 and nothing says that these are lifts")
	case len(guess) == 1:
		return guess[0], source.Trace{Unit: guess[0].String() + ", from the figures of the whole list"}, true
	case learned && unitNamed(guess, means) != parse.LiftNotStated:
		return unitNamed(guess, means), source.Trace{Unit: means + ", as the setup says"}, true
	case b.metricLabel(t, f):
		return parse.LiftMM, source.Trace{Unit: "mm, from the words and flow unit of the sheet"}, true
	case b.impossibleAsMM(t, f, flows):
		b.p.note(b.page.Ref(t.axis.entries[0].cell), kindLiftUnit, "", t.axis.entries[0].cell.Text,
			"lifts are read as tenths of an inch: as millimetres more air would pass than the valve lets through")
		return parse.LiftTenths, source.Trace{Unit: "tenths of an inch: as mm the flow would be impossible"}, true
	default:
		if longer, ok := b.goesOnAs(t, values, guess); ok {
			return longer, source.Trace{Unit: longer.String() + ", as the list of the same steps beside it that goes on"}, true
		}
		return b.askLiftUnit(t, guess, "1 to 10 can be tenths of an inch or millimetres")
	}
}

// goesOnAs returns the unit of another list of the page that is headed as this one,
// has all of its steps, and goes on to where one unit alone is left.
func (b *builder) goesOnAs(t *table, steps []float64, guess []parse.LiftUnit) (parse.LiftUnit, bool) {
	for _, o := range b.tables {
		values, own, _ := ownUnits(o)
		if o == t || own != parse.LiftNotStated || len(values) <= len(steps) || !slices.Equal(values[:len(steps)], steps) || headOfLifts(o) != headOfLifts(t) {
			continue
		}
		if longer := parse.GuessLiftUnit(values); len(longer) == 1 && slices.Contains(guess, longer[0]) {
			return longer[0], true
		}
	}
	return parse.LiftNotStated, false
}

// headOfLifts is what stands over or before a list of lifts.
func headOfLifts(t *table) string { return words.Fold(t.lead.label.Text + t.cornerCell().Text) }

// valveFor returns the valve that L/D steps are of. One size without a port
// does not serve the two ports of a table.
func (t *table) valveFor(f facts) (source.Stated[quantity.Length], bool) {
	var ports said[head.Port]
	for _, ln := range t.lanes {
		ports = ports.and(ln.facts.port)
	}
	if len(f.valves) == 0 && len(ports) > 1 {
		return source.Stated[quantity.Length]{}, false
	}
	return f.valveOf()
}

func unitNamed(units []parse.LiftUnit, name string) parse.LiftUnit {
	for _, u := range units {
		if u.String() == name {
			return u
		}
	}
	return parse.LiftNotStated
}

// ownUnits parts the cells that carry their unit from those that do not. Two
// different units among those that do are one list in two units, unless all of
// them carry one and it is inches or thousandths.
func ownUnits(t *table) (bare []float64, own parse.LiftUnit, mixed bool) {
	metric := false
	for _, e := range t.axis.entries {
		switch {
		case e.text.Ditto, e.text.Value == 0:
		case e.text.Unit == parse.LiftNotStated:
			bare = append(bare, e.text.Value)
		case own == parse.LiftNotStated:
			own = e.text.Unit
		case own != e.text.Unit:
			mixed, metric = true, metric || own == parse.LiftMM || e.text.Unit == parse.LiftMM
		}
	}
	return bare, own, mixed && (metric || len(bare) > 0)
}

// maybeOverDiameter reports whether unlabelled figures may be L/D steps.
func (b *builder) maybeOverDiameter(t *table, values []float64) bool {
	if t.axis.sure >= spelled || len(values) < 3 {
		return false
	}
	high, fine := 0.0, false
	for _, v := range values {
		high = max(high, v)
		fine = fine || math.Abs(math.Mod(v*1000+1e-6, 100)) > 0.01
	}
	return high <= 0.40 && fine && !b.deeperElsewhere() && !t.climbs()
}

// levelled is where a curve has levelled off as L/D, and climbing is the gain
// over the last step of a list that has not (common practice, no source).
const (
	levelled = 0.30
	climbing = 1.05
)

// climbs reports whether the flows still gain where a valve as far open as L/D
// would pass no more: the curtain is then wider than the valve.
func (t *table) climbs() bool {
	n := len(t.axis.entries)
	if n < 3 {
		return false
	}
	first, last := t.axis.entries[n-2], t.axis.entries[n-1]
	if first.text.Value < levelled || last.text.Value <= first.text.Value {
		return false
	}
	found := false
	for _, ln := range t.lanes {
		a, ok1 := figure(t.plane().At(first.row, ln.col))
		b, ok2 := figure(t.plane().At(last.row, ln.col))
		if ok1 && ok2 && b < climbing*a {
			return false
		}
		found = found || ok1 && ok2
	}
	return found
}

// deeperElsewhere reports whether another list of the page, headed no more than
// this one, goes beyond what L/D does.
func (b *builder) deeperElsewhere() bool {
	return slices.ContainsFunc(b.tables, func(t *table) bool {
		return slices.ContainsFunc(t.axis.entries, func(e entry) bool { return e.text.Value > 0.45 && e.text.Value <= 1.2 })
	})
}

// metricLabel reports whether the words over the list and the flow unit are
// both metric, as on a German or French sheet.
func (b *builder) metricLabel(t *table, f facts) bool {
	unit, ok := f.flowUnit.one()
	if !ok || unit.Value == parse.CFM {
		return false
	}
	for _, hit := range words.FlowSheet().Find(words.Tokens(t.lead.label.Text)) {
		if hit.Role == words.Lift && hit.Phrase != "lift" && hit.Phrase != "valve lift" && hit.Phrase != "vl" {
			return true
		}
	}
	return false
}

// Ceiling of a flow through a valve's curtain: at most 146 cfm for each square
// inch at 28 inH2O (Bernoulli at 15 C sea-level density), with 5 % for thin
// air; taken for a valve of 60 mm, larger than any head's here.
const (
	ceilingPerIn2   = 146.0
	ceilingSlack    = 1.05
	largestValveIn  = 60 / 25.4
	smallestValveIn = 15 / 25.4
)

// impossibleAsMM reports whether the flows cannot pass the curtain if the lifts
// were millimetres.
func (b *builder) impossibleAsMM(t *table, f facts, flows []source.Stated[quantity.Flow]) bool {
	p, ok := f.pressure.one()
	if !ok {
		return false
	}
	valve := largestValveIn
	if v, ok := f.valveOf(); ok {
		valve = v.Value.In()
	}
	k := ceilingPerIn2 * math.Sqrt(p.Value.InH2O()/28) * ceilingSlack
	for i, e := range t.axis.entries {
		if i < len(flows) && flows[i].Known && e.text.Value > 0 && flows[i].Value.CFM() > k*math.Pi*valve*quantity.Millimetres(e.text.Value).In() {
			return true
		}
	}
	return false
}

func (b *builder) refuseMixed(t *table) {
	at := t.axis.entries[0].cell
	b.p.refuse(b.page.Ref(at), kindLiftMixed, "", cellText(at),
		fmt.Sprintf("the lifts from here to %s are not all in one unit", source.CellName(t.axis.entries[len(t.axis.entries)-1].cell.Row, t.axis.entries[len(t.axis.entries)-1].cell.Col)),
		"write the whole list in inches or in millimetres")
}

// askLiftUnit asks for the unit of a list of lifts, or takes the answer.
func (b *builder) askLiftUnit(t *table, units []parse.LiftUnit, why string) (unit parse.LiftUnit, how source.Trace, ok bool) {
	at := t.axis.entries[0].cell
	q := source.Question{Key: key("lift unit", b.sender, b.form), Text: "In which unit are these lifts?", Evidence: why,
		Changes: "every reading of the table waits for it"}
	for _, u := range units {
		q.Choices = append(q.Choices, u.String())
	}
	answer, ok := b.p.ask(b.page.Ref(at), kindLiftUnit, "", cellText(at), "the unit of the lifts is not sure: "+why, q)
	if !ok {
		return 0, source.Trace{}, false
	}
	return unitNamed(units, answer.Choice), answer.Trace(answer.Choice + ", as answered"), true
}

func (b *builder) askLiftOverDiameter(t *table) (source.Stated[quantity.Length], bool) {
	at := t.axis.entries[0].cell
	answer, ok := b.p.ask(b.page.Ref(at), kindLiftOverD, "", cellText(at), "lifts are given as lift over valve diameter and the valve size is not on the sheet",
		source.Question{Key: key("valve size", b.page.Path, b.page.Sheet.Name, source.CellName(at.Row, at.Col)), Text: "Which valve head diameter, in inches, belongs to these lifts?",
			Wants: source.AFigure, Unit: "in", Least: smallestValveIn, Most: largestValveIn,
			Evidence: "the header says L/D", Changes: "every reading of the table waits for it"})
	if !ok {
		return source.Stated[quantity.Length]{}, false
	}
	return source.Say(quantity.Inches(answer.Figure), answer.Trace("in")), true
}
