package flowsheet

import (
	"cmp"
	"fmt"
	"regexp"
	"strings"

	"flowshelf/analysis/head"
	"flowshelf/analysis/source"
)

// whichState settles the state. Words of a rework in the lines around that are
// not plainly the readings' own state are asked: a rework is another product.
func (b *builder) whichState(s *series, out *head.Test) {
	above := b.beyondName(b.fileName(), out.Head)
	if len(s.plain) == 0 || !told(b.r.read(newLine(out.Head, source.Trace{}, inTitle))) { // "Stage 2 Otter" is a name
		above = above.beside(b.beyondName(b.page.Sheet.Name, out.Head)).beside(s.blockFacts)
	}
	if state, ok := s.facts.state.one(); ok {
		out.State = state.Value
	} else if len(s.facts.state) > 1 || told(above) {
		b.askState(s, out)
		return
	}
	if above := strings.Join(s.own.above, " "); above != "" {
		b.p.note(source.Ref{File: b.page.Path, Sheet: b.page.Sheet.Name}, kindAboveHeads, "", above, "words over or before the names of the heads are not known here; they are taken for no state of the head")
	}
	if rest := restText(s.own); rest != "" && len(s.facts.head) == 1 && out.Status == head.Used && !b.mayNamePort(s) {
		b.unknownWord(s, out, cmp.Or(s.unknown, rest))
	}
}

// beyondName returns what the name of a tab or a file says beside the head's own:
// the CNC of "Merle 194 CNC Pro.xlsx" tells no state of a head that is called so.
func (b *builder) beyondName(name, head string) facts {
	name = strings.ReplaceAll(name, "_", " ")
	if at := strings.Index(smallLetters(name), smallLetters(head)); head != "" && at >= 0 && wholeWord(name, at, at+len(head)) {
		name = name[:at] + "," + name[at+len(head):]
	}
	return scope{statements: b.r.nameStatements(b.page, name)}.any()
}

// mayNamePort reports whether the words over a column that nobody knows may be
// how its sender calls a port, since nothing names one. They are asked about
// once, as the port.
func (b *builder) mayNamePort(s *series) bool {
	return restText(s.own) != "" && len(s.facts.port) == 0 && s.own.ambiguous == ""
}

// What words over a column can mean that nobody knows.
const (
	calledSo    = "a state of the head, called so"
	saysNothing = "nothing, it is the head as delivered"
	noReading   = "it is no reading: leave it out"
	theIntake   = "the intake"
	theExhaust  = "the exhaust"
	aRun        = "runs, by their numbers"
	aCylinder   = "cylinders, by their numbers"
)

var digitsIn = regexp.MustCompile(`\d{1,2}`)

// unknownWord asks about words over a column that nobody knows: they may name a
// state of the head, another port than the lines around, or say that the column
// holds no reading, as "target" or "simulated" do.
func (b *builder) unknownWord(s *series, out *head.Test, text string) {
	why := fmt.Sprintf("it is not sure what %q over the column means", text)
	choices := []string{calledSo, saysNothing, noReading}
	if len(s.own.port) == 0 {
		choices = append(choices, theIntake, theExhaust)
	}
	number := digitsIn.FindString(text)
	if number != "" {
		choices = append(choices, aRun, aCylinder)
	}
	answer, ok := b.p.ask(b.page.Ref(s.at), kindStateUnclear, out.Head, cellText(s.at), why, source.Question{
		Key: key("word", b.sender, strings.ToLower(restText(s.own))), Text: fmt.Sprintf("What does %q over a column of %s mean?", text, b.sender),
		Choices: choices, Evidence: "header " + cellText(s.at), Changes: "whether the column counts, and for which product"})
	switch {
	case !ok:
		out.Status, out.Why = head.Asked, why
		return
	case answer.Is(noReading):
		out.Status, out.Why = head.SetAside, "no reading, "+answer.Per()
		return
	case answer.Is(calledSo):
		out.State = text
	case answer.Is(theIntake):
		s.facts.port = said[head.Port]{source.Say(head.Intake, answer.Trace(""))}
	case answer.Is(theExhaust):
		s.facts.port = said[head.Port]{source.Say(head.Exhaust, answer.Trace(""))}
	case answer.Is(aRun):
		s.facts.run = said[string]{source.Say(number, answer.Trace(""))}
	case answer.Is(aCylinder):
		s.facts.mark = said[string]{source.Say(number, answer.Trace(""))}
	default:
	}
	s.answeredBy(answer.Trace(""))
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
