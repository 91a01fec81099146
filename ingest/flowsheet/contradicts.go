package flowsheet

import (
	"fmt"
	"math"
	"regexp"
	"slices"
	"strings"

	"flowshelf/analysis/head"
	"flowshelf/analysis/quantity"
	"flowshelf/analysis/source"
	"flowshelf/ingest/decode"
	"flowshelf/ingest/parse"
	"flowshelf/ingest/words"
)

// rivals are what the lines around a table say of a column against its own header.
type rivals struct {
	unit     said[parse.FlowUnit]
	pressure said[quantity.Pressure]
	pipe     said[head.Pipe]
}

// rivals finds them. A header is no slip where another column of the table is headed
// with what the lines say: then each column says its own. A header of flows that the
// sheet has corrected says what to, the line how they were read.
func (b *builder) rivals(t *table, own facts) rivals {
	own = own.within(t.corner)
	around := b.elsewhere(t, own)
	var out rivals
	headed := func(has func(f facts) bool) bool {
		return has(own) || slices.ContainsFunc(t.lanes, func(ln *lane) bool { return has(ln.facts.within(ln.section)) })
	}
	for _, u := range around.flowUnit {
		if len(own.flowUnit) > 0 && !headed(func(f facts) bool { return f.flowUnit.has(u.Value) }) {
			out.unit.add(u.Value, u.Trace)
		}
	}
	for _, p := range around.pipe {
		if len(own.pipe) > 0 && !headed(func(f facts) bool { return f.pipe.has(p.Value) }) {
			out.pipe.add(p.Value, p.Trace)
		}
	}
	if own.says(words.Corrected, words.NotCorrected, words.Observed) || len(around.corrected) > 0 {
		return out
	}
	agrees := slices.ContainsFunc(around.pressure, own.statesPressure)
	for _, p := range around.pressure {
		if len(own.pressure)+len(own.bare) > 0 && !agrees && !headed(func(f facts) bool { return f.statesPressure(p) }) {
			out.pressure.add(p.Value, p.Trace)
		}
	}
	return out
}

// samePressure is how far two test pressures may be apart that are one in two units:
// 700 mm of water are written for 28 in.
const samePressure = 0.03

// statesPressure reports whether a header states a pressure, with a unit or without.
func (f facts) statesPressure(p source.Stated[quantity.Pressure]) bool {
	near := func(x float64) bool { return math.Abs(x/p.Value.InH2O()-1) < samePressure }
	return slices.ContainsFunc(f.pressure, func(o source.Stated[quantity.Pressure]) bool { return near(o.Value.InH2O()) }) ||
		slices.ContainsFunc(f.bare, func(o source.Stated[float64]) bool {
			return near(o.Value) || strings.Contains(p.Trace.Text, parse.Digits(o.Value))
		})
}

// ofBench are words beside a pressure that the flows were not read at.
var ofBench = regexp.MustCompile(`(?i)\b(?:leak\w*|calibrat\w*|max\w*|check\w*|lecks?\w*|kalibri\w*|fuites?|[ée]talonn\w*|perdit[ae]|tarat\w*|calibra\w*|fugas?)\b`)

// clauseBefore is what stands in a text before a part of it, from the last comma on.
func clauseBefore(text, part string) string {
	before, _, _ := strings.Cut(text, part)
	return before[strings.LastIndexAny(before, ",;:")+1:]
}

// elsewhere joins what the lines around a table say of how a column was flowed.
func (b *builder) elsewhere(t *table, own facts) facts {
	out := newFacts()
	above := own.within(b.around.blocks[t].facts(own, b.r.names))
	for _, sc := range []scope{b.around.blocks[t], b.around.notes[t].ofHeads(above), b.around.page, b.around.foot} {
		for _, st := range sc.statements {
			if st.only.narrow() && !st.only.holds(own, b.r.names) {
				continue
			}
			f := newFacts()
			f.pipe, f.corrected = st.facts.pipe, st.facts.corrected
			for _, u := range st.facts.flowUnit {
				if !flowOfItsOwn(b.cellAt(u.Trace.At).Text) {
					f.flowUnit.add(u.Value, u.Trace)
				}
			}
			for _, p := range st.facts.pressure {
				if !ofBench.MatchString(clauseBefore(b.cellAt(p.Trace.At).Text, p.Trace.Text)) {
					f.pressure.add(p.Value, p.Trace)
				}
			}
			out = out.beside(f)
		}
	}
	return out
}

// cellAt is the cell of the page that something was said in.
func (b *builder) cellAt(at source.Ref) decode.Cell {
	if at.Sheet != b.page.Sheet.Name {
		return decode.Cell{}
	}
	if b.cells == nil {
		b.cells = make(map[string]decode.Cell, len(b.page.Sheet.Cells))
		for _, c := range b.page.Sheet.Cells {
			b.cells[b.page.Ref(c).Cell] = c
		}
	}
	return b.cells[at.Cell]
}

// flowOfItsOwn reports whether a flow unit stands behind a figure: "best 278 cfm" is a flow
// and says nothing of the unit of others.
func flowOfItsOwn(text string) bool {
	left := parse.StrikeFlowUnit(text)
	for i := range min(len(text), len(left)) {
		if text[i] != left[i] {
			before := strings.TrimSpace(text[:i])
			return before != "" && before[len(before)-1] >= '0' && before[len(before)-1] <= '9'
		}
	}
	return false
}

// twice says where two places of a sheet contradict one another.
func twice(what, one string, at source.Ref, other string, there source.Ref) string {
	return fmt.Sprintf("%s is stated twice: %q in cell %s and %q in cell %s", what, one, at.Cell, other, there.Cell)
}

// askRivalUnit asks in which of two units a column is.
func (b *builder) askRivalUnit(s *series, unit source.Stated[parse.FlowUnit], headName string) (source.Stated[parse.FlowUnit], bool) {
	other := s.rivals.unit[0]
	message := twice("the flow unit of this column", unit.Value.String(), unit.Trace.At, other.Value.String(), other.Trace.At)
	answer, ok := b.p.ask(b.page.Ref(s.at), kindFlowUnitClash, headName, cellText(s.at), message, source.Question{
		Key: key("flow unit", b.sender, b.page.Path, b.page.Sheet.Name), Text: "In which unit are these flows?",
		Choices: []string{unit.Value.String(), other.Value.String()}, Evidence: message, Changes: "every reading of the column waits for it"})
	if !ok {
		return source.Stated[parse.FlowUnit]{}, false
	}
	s.answeredBy(answer.Trace(""))
	named, _ := parse.FindFlowUnit(answer.Choice)
	return source.Say(named, answer.Trace("")), true
}

// unsurePressure asks about a pressure that the sheet states and something about it
// speaks against, and reports whether it did.
func (b *builder) unsurePressure(s *series, p source.Stated[quantity.Pressure], out *head.Test) bool {
	at := b.page.Ref(s.at)
	const two = "two test pressures are stated"
	switch {
	case unusual(p):
		b.askPressure(at, kindPressureClash, out, fmt.Sprintf("no bench is run at %s, which %q comes to", pressureOf(p), p.Trace.Text), "its test pressure is not sure")
	case s.contradicts(p):
		b.askPressure(at, kindPressureClash, out, two+" for this column", two)
	case len(s.rivals.pressure) > 0 && s.pressures == nil:
		b.askRivalPressure(s, out, p.Trace.Text, p.Trace.At)
	case b.tabDiffers(s, p):
		b.askPressure(at, kindPressureClash, out, "the tab and the sheet state two test pressures", two)
	default:
		return false
	}
	return true
}

// askRivalPressure asks at which of two pressures a column was read.
func (b *builder) askRivalPressure(s *series, out *head.Test, text string, at source.Ref) {
	other := s.rivals.pressure[0]
	b.askPressure(b.page.Ref(s.at), kindPressureClash, out, twice("the test pressure of this column", text, at, other.Trace.Text, other.Trace.At), "two test pressures are stated")
}

// askRivalPipe asks whether the exhaust of a column wore a pipe.
func (b *builder) askRivalPipe(s *series, pipe source.Stated[head.Pipe], out *head.Test) {
	other := s.rivals.pipe[0]
	message := twice("the pipe of this exhaust", pipe.Trace.Text, pipe.Trace.At, other.Trace.Text, other.Trace.At)
	answer, ok := b.p.ask(b.page.Ref(s.at), kindPipeClash, out.Head, cellText(s.at), message, source.Question{
		Key: key("pipe", oneCell(out.Head, b.page.Ref(s.at), cellText(s.at))), Text: "Did this exhaust wear a pipe?",
		Choices: []string{head.WithPipe.String(), head.WithoutPipe.String()}, Evidence: message, Changes: "what the exhaust is compared with"})
	if !ok {
		return
	}
	s.answeredBy(answer.Trace(""))
	out.Pipe, out.PipeAt = head.WithoutPipe, answer.Trace("")
	if answer.Is(head.WithPipe.String()) {
		out.Pipe = head.WithPipe
	}
}
