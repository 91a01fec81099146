package flowsheet

import (
	"cmp"
	"fmt"
	"strings"

	"flowshelf/analysis/head"
	"flowshelf/analysis/source"
)

// whichState settles the state. Words of a rework in the lines around that are
// not plainly the readings' own state are asked: a rework is another product.
func (b *builder) whichState(s *series, out *head.Test) {
	if state, ok := s.facts.state.one(); ok {
		out.State = state.Value
		return
	}
	above := b.around.tab.any().beside(s.blockFacts).beside(b.around.file.any())
	if len(s.facts.state) > 1 || told(above) {
		b.askState(s, out)
		return
	}
	if above := strings.Join(s.own.above, " "); above != "" {
		b.p.note(source.Ref{File: b.page.Path, Sheet: b.page.Sheet.Name}, kindAboveHeads, "", above, "words over or before the names of the heads are not known here; they are taken for no state of the head")
	}
	if rest := restText(s.own); rest != "" && len(s.facts.head) == 1 && out.Status == head.Used {
		b.unknownWord(s, out, cmp.Or(s.unknown, rest))
	}
}

// unknownWord deals with words over a column that nobody knows. Over several
// columns they are kept as the state of the head. Over one column alone they may
// just as well say that it holds no reading, as "target" or "simulated" do, so
// they are asked.
func (b *builder) unknownWord(s *series, out *head.Test, text string) {
	if s.shared {
		out.State = text
		b.p.note(b.page.Ref(s.at), kindStateKept, out.Head, text, "a word over the column is not known here; it is kept as the state of the head")
		return
	}
	why := fmt.Sprintf("it is not sure what %q over the column means", text)
	answer, ok := b.p.ask(b.page.Ref(s.at), kindStateUnclear, out.Head, cellText(s.at), why, source.Question{
		Key: key("word", b.sender, strings.ToLower(text)), Text: fmt.Sprintf("What does %q over a column of %s mean?", text, b.sender),
		Choices: []string{"a state of the head, called so", "nothing, it is the head as delivered", "it is no reading: leave it out"}, Evidence: "header " + cellText(s.at),
		Changes: "whether the column counts, and for which product"})
	switch {
	case !ok:
		out.Status, out.Why = head.Asked, why
	case answer.Is("it is no"):
		out.Status, out.Why = head.SetAside, "no reading, "+answer.Per()
	case answer.Is("a state"):
		out.State = text
		s.answeredBy(answer.Trace(""))
	default:
		s.answeredBy(answer.Trace(""))
	}
}

func (b *builder) askState(s *series, out *head.Test) {
	const why = "it is not sure in which state the head was flowed"
	answer, ok := b.p.ask(b.page.Ref(s.at), kindStateUnclear, out.Head, cellText(s.at), why, source.Question{
		Key: key("state", b.page.Path, b.page.Sheet.Name, out.Head), Text: "In which state was the head when this was flowed? If after work, type the work as the rework menu names it.",
		Choices: []string{"as delivered"}, Wants: source.Words, Evidence: "the lines around speak of a rework", Changes: "which product the curve belongs to"})
	switch {
	case !ok:
		out.Status, out.Why = head.Asked, why
		return
	case answer.Choice == "":
		out.State = answer.Text
	}
	s.answeredBy(answer.Trace(""))
}
