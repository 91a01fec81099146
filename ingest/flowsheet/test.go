package flowsheet

import (
	"fmt"
	"math"

	"flowshelf/analysis/head"
	"flowshelf/analysis/quantity"
	"flowshelf/analysis/source"
	"flowshelf/ingest/decode"
	"flowshelf/ingest/parse"
	"flowshelf/ingest/words"
)

// test turns a series into a test: the one place where readings, facts and
// doubts come together, whatever shape the sheet had.
func (b *builder) test(t *table, s series) head.Test {
	out := head.Test{At: b.page.Ref(s.at), Shape: s.shape}
	b.identity(&s, &out)
	b.setting(&s, &out)
	col := b.column(&s, &out)
	flows := b.flows(&s, &col, &out)
	if len(s.lifts) == 0 {
		s.lifts = b.lifts(t, s.facts, flows)
	}
	b.zeros(&s, &col, out.Head)
	b.footnotes(&s, &col, out.Head)
	b.rowPressures(&s, &col, &out)
	out.Readings = make([]head.Reading, 0, len(s.values))
	for i := range s.values {
		if r, ok := b.reading(&s, &col, flows, i); ok {
			out.Readings = append(out.Readings, r)
		}
	}
	b.liftsTwice(&out)
	b.otherLifts(t, &out)
	b.pressure(&s, &out)
	b.tooLittle(&s, &out)
	b.rowNotes(&s, &out)
	b.heldElsewhere(&s, &out)
	b.againstCover(&out)
	b.leakage(&out)
	b.remarks(&s, &out)
	b.colours(&s)
	if s.hiddenAll {
		b.hiddenColumn(&s, &out)
	}
	for i := range out.Readings {
		trace := &out.Readings[i].Flow.Trace
		trace.Answered = alsoBy(trace.Answered, s.answered)
	}
	return out
}

// reading puts one reading together. A blank cell is no reading and is left
// out; everything else is kept with its reason.
func (b *builder) reading(s *series, col *column, flows []source.Stated[quantity.Flow], i int) (head.Reading, bool) {
	c := s.values[i]
	r := col.set[i]
	if c.Blank() {
		return r, false
	}
	r.Lift = s.lifts[i]
	said := r.Flow.Trace // what was answered about the cell
	if col.cells[i].Known && (col.cells[i].Value > 0 || s.lifts[i].Known && s.lifts[i].Value == 0) {
		r.Flow = flows[i]
	} else {
		r.Flow.Trace = b.r.trace(b.page, c)
	}
	if !r.Lift.Known {
		r.Lift.Trace = b.r.trace(b.page, s.liftCells[i])
		demote(&r, head.Asked, "the unit of its lift is not sure")
	}
	r.Flow.Trace.Steps = append(r.Flow.Trace.Steps, said.Steps...)
	r.Flow.Trace.Answered = alsoBy(said.Answered, r.Lift.Trace.Answered)
	if r.Status == head.Used && !r.Flow.Known {
		demote(&r, head.Asked, "its flow unit is not sure")
	}
	return r, true
}

// flows reads every value as a flow: by the column's unit, or by percent of
// range.
func (b *builder) flows(s *series, col *column, out *head.Test) []source.Stated[quantity.Flow] {
	flows := make([]source.Stated[quantity.Flow], len(s.values))
	for i, c := range s.values {
		flows[i].Trace = b.r.trace(b.page, c) // a value that is refused says where it stands too
	}
	if s.percent {
		b.percents(s, col, out, flows)
		return flows
	}
	if s.drop {
		b.throughOrifices(s, col, out, flows)
		return flows
	}
	if factor, all := b.converted(s, col); factor != 0 {
		b.alreadyConverted(s, col, out, factor, all)
	}
	unit, ok := b.flowUnit(s, col, out)
	for i, c := range s.values {
		if !ok || !col.cells[i].Known {
			continue
		}
		unitHere := b.ownUnit(c, &col.set[i], unit, out.Head)
		flows[i] = b.flowIn(s, c, col.cells[i].Value, unitHere)
		if kind, f := parse.Formula(c.Formula); kind == parse.Multiplied && flows[i].Known {
			flows[i].Trace = flows[i].Trace.Then(fmt.Sprintf("multiplied by %s in the sheet itself", parse.Digits(f)))
		}
	}
	return flows
}

// flowUnit settles the unit of a column: its header, the lines around, the
// cells themselves, an answer given before; else it is asked once a sender.
func (b *builder) flowUnit(s *series, col *column, out *head.Test) (source.Stated[parse.FlowUnit], bool) {
	unit, ok := s.facts.flowUnit.one()
	if !ok && len(s.facts.flowUnit) == 0 {
		unit, ok = unitInCells(b, s, col)
	}
	if !ok {
		unit, ok = b.unitSaid(s)
	}
	at := b.page.Ref(s.at)
	switch {
	case ok && s.isScaled():
		return b.scaledFlow(s, out, unit)
	case ok && len(s.rivals.unit) > 0:
		return b.askRivalUnit(s, unit, out.Head)
	case ok && (unit.Value == parse.MassFlow || unit.Value == parse.StandardFlow):
		return unit, b.massFlow(s, out, unit)
	case ok:
		return unit, true
	case len(s.facts.flowUnit) > 1:
		return b.askUnit(s, at, kindFlowUnitClash, out.Head, "the sheet names two flow units for this column")
	default:
		return b.askUnit(s, at, kindFlowUnit, out.Head, "the flow unit is not stated")
	}
}

// ownUnit deals with a unit typed behind one figure: the column's own says
// nothing new, another one is asked. It returns the unit of the figure.
func (b *builder) ownUnit(c decode.Cell, r *head.Reading, column source.Stated[parse.FlowUnit], headName string) source.Stated[parse.FlowUnit] {
	unit, ok := parse.FindFlowUnit(r.Remark)
	if !ok {
		return column
	}
	if unit == column.Value {
		r.Remark = parse.Squeeze(parse.StrikeFlowUnit(r.Remark))
		return column
	}
	at := b.page.Ref(c)
	answer, ok := b.p.ask(at, kindFlowUnitClash, headName, cellText(c), "this cell names another flow unit than its column", source.Question{
		Key: key("cell unit", oneCell(headName, at, cellText(c))), Text: "In which unit is this reading?", Choices: []string{unit.String(), column.Value.String()},
		Changes: "the curve at this lift"})
	if !ok {
		demote(r, head.Asked, "its own unit is not the column's")
		return column
	}
	mark(r, answer)
	if answer.Is(unit.String()) {
		column.Value = unit
	}
	return column
}

func unitQuestion(b *builder, s *series) source.Question {
	high := 0.0
	for _, c := range s.values {
		high = max(high, c.Num)
	}
	return source.Question{Key: key("flow unit", b.sender), Text: fmt.Sprintf("In which unit are the flows of %s, as in %s, sheet %q?", b.senderName(), b.page.Path, b.page.Sheet.Name),
		Choices: []string{"cfm", "L/s", "m3/h", "m3/min"}, Evidence: fmt.Sprintf("the highest figure is %s", parse.Digits(high)),
		Changes: "every reading of this sender waits for it"}
}

// unitInCells finds a unit typed behind the figures: "265 cfm".
func unitInCells(b *builder, s *series, col *column) (source.Stated[parse.FlowUnit], bool) {
	var found said[parse.FlowUnit]
	for i := range col.cells {
		if unit, ok := parse.FindFlowUnit(col.cells[i].Remark); ok && !s.values[i].Blank() {
			found.add(unit, b.r.trace(b.page, s.values[i]))
		}
	}
	return found.one()
}

// alreadyConverted deals with a factor that the sheet has multiplied in.
func (b *builder) alreadyConverted(s *series, col *column, out *head.Test, factor float64, all bool) {
	at := b.page.Ref(s.at)
	found := fmt.Sprintf("%.4g", factor)
	p, stated := s.facts.pressure.one()
	switch to28 := math.Sqrt(28 / p.Value.InH2O()); {
	case !all:
	case stated && math.Abs(p.Value.InH2O()-28) < 0.2:
		b.p.note(at, kindConverted, out.Head, found, "the sheet has multiplied the readings by "+found+" already; they are taken as at 28 inH2O and not converted again")
		return
	case stated && math.Abs(factor/to28-1) < 0.005:
		b.p.note(at, kindConverted, out.Head, found, "the sheet has multiplied the readings by "+found+
			" already, which brings them to 28 inH2O; they are not converted again")
		s.facts.pressure = said[quantity.Pressure]{source.Say(quantity.InchesOfWater(28), p.Trace.Then("flows brought to 28 inH2O by the sheet itself, x "+found))}
		return
	}
	b.askFactor(s, col, out, found)
}

// leakage takes a reading at zero lift for the leak of the set-up: it is shown
// and never subtracted by itself.
func (b *builder) leakage(out *head.Test) {
	for i := range out.Readings {
		r := &out.Readings[i]
		if !r.Lift.Known || r.Lift.Value != 0 || r.Status != head.Used {
			continue
		}
		r.Status, r.Why = head.SetAside, "leakage at zero lift"
		if !r.Flow.Known || r.Flow.Value == 0 {
			continue
		}
		if !out.Leak.Known {
			out.Leak = r.Flow
		}
		if r.Flow.Value.CFM() > 3 {
			b.p.note(r.Flow.Trace.At, kindLeakHigh, out.Head, r.Flow.Trace.Text, "the leak at zero lift is above 3 cfm: the whole test is in doubt")
		}
	}
}

// remarks keeps margin notes and cell comments word for word.
func (b *builder) remarks(s *series, out *head.Test) {
	seen := map[source.Ref]bool{}
	keep := func(text string, at source.Ref, lift source.Stated[quantity.Length]) {
		if text = parse.Squeeze(text); text != "" && !seen[at] {
			seen[at] = true
			out.Remarks = append(out.Remarks, head.Remark{Text: text, At: at, Lift: lift})
		}
	}
	for i, c := range s.values {
		if c.Note != "" {
			keep(c.Note, b.page.Ref(c), s.lifts[i])
		}
	}
	for _, c := range s.notes {
		lift := source.Stated[quantity.Length]{}
		for i := range s.values {
			if s.values[i].Row == c.Row || s.values[i].Col == c.Col {
				lift = s.lifts[i]
			}
		}
		keep(cellText(c), b.page.Ref(c), lift)
	}
	for _, c := range s.remark {
		keep(cellText(c), b.page.Ref(c), source.Stated[quantity.Length]{})
	}
	b.warnings(s, out)
}

// colours notes a column of which some readings are filled and others not: a
// colour may mean stalled, bad or best, and nobody but the sender knows.
func (b *builder) colours(s *series) {
	filled, plain := 0, 0
	for _, c := range s.values {
		switch {
		case c.Blank():
		case c.Filled:
			filled++
		default:
			plain++
		}
	}
	if filled > 0 && plain > 0 {
		b.p.note(source.Ref{File: b.page.Path, Sheet: b.page.Sheet.Name}, kindColour, "", "", "some readings are coloured; what the colours mean is not known, and they change nothing")
	}
}

// told reports whether the lines around speak of a rework without saying that
// these readings are of it.
func told(f facts) bool { return f.says(words.Rework, words.After) }
