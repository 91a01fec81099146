package flowsheet

import (
	"fmt"
	"regexp"
	"slices"

	"flowshelf/analysis/head"
	"flowshelf/analysis/quantity"
	"flowshelf/analysis/source"
	"flowshelf/ingest/decode"
	"flowshelf/ingest/parse"
)

// flowIn is a figure of a column as a flow: in its unit, or by what an answer
// says one of its figures stands for.
func (b *builder) flowIn(s *series, c decode.Cell, x float64, unit source.Stated[parse.FlowUnit]) source.Stated[quantity.Flow] {
	if s.perUnit == 0 {
		flow, _ := b.flowOf(c, x, unit)
		return flow
	}
	trace := b.r.trace(b.page, c)
	trace.Unit = unit.Value.String()
	return source.Say(quantity.CFM(x*s.perUnit), trace.Then(fmt.Sprintf("x %s cfm, as answered", parse.Digits(s.perUnit))))
}

// massFlow asks what a mass flow comes to as a volume: that needs the density of
// the air that flowed, which nobody but the bench knows.
func (b *builder) massFlow(s *series, out *head.Test, unit source.Stated[parse.FlowUnit]) bool {
	answer, ok := b.p.ask(b.page.Ref(s.at), kindMassFlow, out.Head, unit.Trace.Text, "a mass flow cannot be turned into cfm without the air density of the day", source.Question{
		Key: key("mass flow", b.sender, b.page.Path, b.page.Sheet.Name), Text: "How many cfm, of the air at the bench, is one of these figures?",
		Wants: source.AFigure, Unit: "cfm", Least: smallestUnitCFM, Most: largestUnitCFM, Evidence: unit.Value.String(),
		Changes: "every reading of the column waits for it"})
	if ok {
		s.perUnit = answer.Figure
		s.answeredBy(answer.Trace(""))
	}
	return ok
}

// scaled is a flow unit that a header divides or multiplies: "cfm/10", "l/s x 10".
var scaled = regexp.MustCompile(`(?i)(?:c\.?f\.?m\.?|l/s|l/min|m[3³]/h|m[3³]/min)\)?\s*[/x×*÷]\s*10{1,3}\b`)

// isScaled reports whether a header of the column does so.
func (s *series) isScaled() bool {
	return slices.ContainsFunc(s.headers, func(c decode.Cell) bool { return scaled.MatchString(c.Text) })
}

// scaledFlow asks what a figure of such a column stands for.
func (b *builder) scaledFlow(s *series, out *head.Test, unit source.Stated[parse.FlowUnit]) (source.Stated[parse.FlowUnit], bool) {
	answer, ok := b.p.ask(b.page.Ref(s.at), kindFlowUnitClash, out.Head, cellText(s.at), "the header scales the flow, and does not say which way", source.Question{
		Key: key("scaled flow", b.sender, cellText(s.at)), Text: "How many cfm is one of these figures?", Wants: source.AFigure, Unit: "cfm", Least: smallestUnitCFM, Most: largestUnitCFM,
		Evidence: cellText(s.at), Changes: "every reading of the column waits for it"})
	if ok {
		s.perUnit = answer.Figure
		s.answeredBy(answer.Trace(""))
	}
	return unit, ok
}

// What one unit of a mass or standard flow can be in cfm: from kg/h to lb/s.
const smallestUnitCFM, largestUnitCFM = 0.01, 1000

// askUnit asks for the unit of a column, or takes the answer.
func (b *builder) askUnit(s *series, at source.Ref, kind, headName, message string) (source.Stated[parse.FlowUnit], bool) {
	q := unitQuestion(b, s)
	if kind == kindFlowUnitClash { // of this sheet alone
		q.Key = key("flow unit", b.sender, b.page.Path, b.page.Sheet.Name)
	}
	answer, ok := b.p.ask(at, kind, headName, "", message, q)
	if !ok {
		return source.Stated[parse.FlowUnit]{}, false
	}
	s.answeredBy(answer.Trace(""))
	unit, _ := parse.FindFlowUnit(answer.Choice)
	return source.Say(unit, answer.Trace("")), true
}

// askFactor asks what a factor in the formulas of a column is for.
func (b *builder) askFactor(s *series, col *column, out *head.Test, found string) {
	answer, ok := b.p.ask(b.page.Ref(s.at), kindConvertedOdd, out.Head, found, "formulas multiply readings by a factor whose meaning is not stated", source.Question{
		Key: key("conversion", b.sender, b.form, found), Text: "What does the factor " + found + " in the formulas do?",
		Choices: []string{"brings the flows to 28 inH2O", "turns the unit into cfm", "something else: leave the column out"}, Changes: "the whole column"})
	switch {
	case !ok:
	case answer.Is("brings"):
		s.facts.pressure = said[quantity.Pressure]{source.Say(quantity.InchesOfWater(28), answer.Trace("flows brought to 28 inH2O by the sheet itself, x "+found))}
		s.answeredBy(answer.Trace(""))
		return
	case answer.Is("turns"):
		s.facts.flowUnit = said[parse.FlowUnit]{source.Say(parse.CFM, answer.Trace(""))}
		s.answeredBy(answer.Trace(""))
		return
	}
	for i := range col.set {
		if col.cells[i].Known {
			decide(&col.set[i], answer, ok, "used", "multiplied by "+found+" in the sheet, for a reason it does not tell")
		}
	}
}

// liftsTwice asks about two readings at one lift that follow one another.
func (b *builder) liftsTwice(out *head.Test) {
	for i := 1; i < len(out.Readings); i++ {
		first, second := &out.Readings[i-1], &out.Readings[i]
		if !first.Lift.Known || !second.Lift.Known || first.Lift.Value != second.Lift.Value {
			continue
		}
		at := second.Flow.Trace.At
		answer, ok := b.p.ask(at, kindLiftTwice, "", second.Flow.Trace.Text, "two readings stand at the same lift", source.Question{
			Key: key("lift twice", b.page.Path, b.page.Sheet.Name, out.Head, parse.Digits(second.Lift.Value.In())), Text: "Two readings stand at one lift: repeats, or is a lift wrong?",
			Choices: []string{"repeats: use the mean", "use the first", "use the second"}, Changes: "the curve at this lift"})
		switch {
		case !ok:
			demote(first, head.Asked, "two readings at one lift")
			demote(second, head.Asked, "two readings at one lift")
		case answer.Is("use the second"):
			demote(first, head.SetAside, "the other reading at this lift is used, "+answer.Per())
			mark(second, answer)
		case answer.Is("use the first"):
			demote(second, head.SetAside, "the other reading at this lift is used, "+answer.Per())
			mark(first, answer)
		default:
			mark(first, answer)
			mark(second, answer)
		}
	}
}
