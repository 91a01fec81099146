package flowsheet

import (
	"fmt"
	"math"
	"slices"

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
	if !ok {
		return out
	}
	var valve source.Stated[quantity.Length]
	if unit == parse.LiftOverDiameter {
		if valve, ok = f.valve.one(); !ok {
			b.askLiftOverDiameter(t)
			return out
		}
	}
	last := source.Stated[quantity.Length]{}
	for i, e := range t.axis.entries {
		trace := b.r.trace(b.page, e.cell)
		trace.Unit = how
		if e.text.Ditto {
			out[i] = last
			continue
		}
		own := unit
		if e.text.Unit != parse.LiftNotStated {
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
		last = source.Say(l, trace)
		out[i] = last
	}
	return out
}

// liftUnit decides the unit of a list: what its label, its own cells or the
// sheet state, checked against the figures; else what the figures leave open.
func (b *builder) liftUnit(t *table, f facts, flows []source.Stated[quantity.Flow]) (parse.LiftUnit, string, bool) {
	values, own, mixed := ownUnits(t)
	guess := parse.GuessLiftUnit(values)
	stated, ok := f.liftUnit.one()
	switch {
	case mixed:
		b.refuseMixed(t)
	case ok && stated.Value == parse.LiftOverDiameter:
		return stated.Value, "the header says L/D", true
	case ok && own != parse.LiftNotStated && own != stated.Value:
		b.askLiftUnit(t, []parse.LiftUnit{own, stated.Value}, "the header and the cells name two units")
	case ok && len(guess) > 0 && !slices.Contains(guess, stated.Value):
		b.askLiftUnit(t, append(guess, stated.Value), fmt.Sprintf("the header says %s, the figures do not look like it", stated.Value))
	case ok:
		return stated.Value, "stated: " + stated.Trace.Text, true
	case own != parse.LiftNotStated && len(values) == 0:
		return own, "written beside each lift", true
	case len(guess) == 0, len(guess) == 1 && own != parse.LiftNotStated && own != guess[0]:
		b.refuseMixed(t)
	default:
		return b.unstatedUnit(t, f, flows, values, guess)
	}
	return 0, "", false
}

// unstatedUnit decides a unit that nobody states, where the figures and the
// rest of the sheet leave only one.
func (b *builder) unstatedUnit(t *table, f facts, flows []source.Stated[quantity.Flow], values []float64, guess []parse.LiftUnit) (parse.LiftUnit, string, bool) {
	means, learned := b.r.learned(b.sender, "lift unit")
	switch {
	case len(guess) == 1 && b.maybeOverDiameter(t, values):
		b.askLiftUnit(t, []parse.LiftUnit{parse.LiftInches, parse.LiftOverDiameter}, "no lift goes beyond .400 and nothing says that these are lifts")
	case len(guess) == 1:
		return guess[0], guess[0].String() + ", from the figures of the whole list", true
	case learned && unitNamed(guess, means) != parse.LiftNotStated:
		return unitNamed(guess, means), means + ", by an earlier answer", true
	case b.metricLabel(t, f):
		return parse.LiftMM, "mm, from the words and flow unit of the sheet", true
	case b.impossibleAsMM(t, f, flows):
		b.p.note(b.page.Ref(t.axis.entries[0].cell), kindLiftUnit, "", t.axis.entries[0].cell.Text,
			"lifts are read as tenths of an inch: as millimetres more air would pass than the valve lets through")
		return parse.LiftTenths, "tenths of an inch: as mm the flow would be impossible", true
	default:
		b.askLiftUnit(t, guess, "1 to 10 can be tenths of an inch or millimetres")
	}
	return 0, "", false
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
		case e.text.Ditto:
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
	return high <= 0.40 && fine
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
	ceilingPerIn2  = 146.0
	ceilingSlack   = 1.05
	largestValveIn = 60 / 25.4
)

// impossibleAsMM reports whether the flows cannot pass the curtain if the lifts
// were millimetres.
func (b *builder) impossibleAsMM(t *table, f facts, flows []source.Stated[quantity.Flow]) bool {
	p, ok := f.pressure.one()
	if !ok {
		return false
	}
	valve := largestValveIn
	if v, ok := f.valve.one(); ok {
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

func (b *builder) askLiftUnit(t *table, units []parse.LiftUnit, why string) {
	at := t.axis.entries[0].cell
	q := source.Question{Key: key("lift unit", b.sender, b.page.Path), Text: "In which unit are these lifts?", Evidence: why,
		Changes: "every reading of the table waits for it"}
	for _, u := range units {
		q.Choices = append(q.Choices, u.String())
	}
	b.p.ask(b.page.Ref(at), kindLiftUnit, "", cellText(at), "the unit of the lifts is not sure: "+why, q)
}

func (b *builder) askLiftOverDiameter(t *table) {
	at := t.axis.entries[0].cell
	b.p.ask(b.page.Ref(at), kindLiftOverD, "", cellText(at), "lifts are given as lift over valve diameter and the valve size is not on the sheet",
		source.Question{Key: key("valve size", b.sender, b.page.Path), Text: "Which valve head diameter belongs to these lifts?",
			Evidence: "the header says L/D", Changes: "every reading of the table waits for it"})
}
