package flowsheet

import (
	"fmt"
	"slices"
	"strings"
	"unicode/utf8"

	"flowshelf/analysis/head"
	"flowshelf/analysis/source"
	"flowshelf/ingest/decode"
	"flowshelf/ingest/parse"
	"flowshelf/ingest/words"
)

// identity says who was tested: head, state, port, sample, which port of it,
// which run, by whom and when.
func (b *builder) identity(s *series, out *head.Test) {
	b.whichHead(s, out)
	b.beyondStates(s, out)
	b.whichState(s, out)
	b.whichPort(s, out)
	f := s.facts
	if v, ok := f.serial.one(); ok {
		out.Sample = v.Value
	} else if v, ok := f.sample.one(); ok {
		out.Sample = v.Value
	}
	if v, ok := f.mark.one(); ok {
		out.PortMark, out.Ports = v.Value, 1
	} else if v, ok := f.ports.one(); ok {
		out.Ports = v.Value
	}
	if v, ok := f.run.one(); ok {
		out.Run = v.Value
	}
	if v, ok := f.operator.one(); ok {
		out.Operator = v.Value
	}
	if out.Status == head.Used && (f.is(words.Old) || b.around.tab.any().is(words.Old)) {
		out.Status, out.Why = head.SetAside, calledOld
		if !s.hiddenAll { // else one question decides about both
			b.p.setAside(b.page.Ref(s.at), kindCalledOld, out.Head, cellText(s.at), "the sheet calls this test old; it is set aside")
		}
	}
	b.date(s, out)
	out.Class, out.By = b.r.class(f, s.own, s.around, b.page.Path)
	if out.Class == head.ClassUnknown {
		b.askClass(s, out)
	}
}

// calledOld is why a test is out that its own sheet calls old.
const calledOld = "the sheet calls it old"

// askClass asks whose bench it was.
func (b *builder) askClass(s *series, out *head.Test) {
	answer, ok := b.p.ask(source.Ref{File: b.page.Path, Sheet: b.page.Sheet.Name}, kindClassUnknown, "", "", "the sheet does not say whose bench the readings are from", source.Question{
		Key: key("whose bench", b.sender, b.form), Text: "Whose bench are these readings from?",
		Choices: []string{"our own bench", "a supplier's test", "a supplier's claim"}, Changes: "whether the test is ranked"})
	switch {
	case !ok:
		return
	case answer.Is("our own"):
		out.Class = head.Own
	case answer.Is("a supplier's test"):
		out.Class = head.Supplier
	default:
		out.Class = head.Advertised
	}
	s.answeredBy(answer.Trace(""))
}

// whichHead settles the head's name. A cell and a tab that name two heads are
// asked, and neither is used.
func (b *builder) whichHead(s *series, out *head.Test) {
	near, onTab := s.local.head, b.onTab()
	name, ok := s.facts.head.one()
	out.HeadAt = b.page.Ref(s.at)
	if clash := b.nameClash(s); clash != "" {
		b.askHead(s, out, kindHeadConflict, clash)
		return
	}
	if ok {
		out.Head, out.HeadAt = name.Value, name.Trace.At
		if slices.Contains(name.Trace.Steps, inRowOfHeads) {
			b.p.note(name.Trace.At, kindHeadFromTitle, name.Value, name.Trace.Text, "taken for the head's name: it "+inRowOfHeads)
		}
		if len(near)+len(b.around.tab.any().head) == 0 && len(s.facts.head) == 1 {
			b.p.note(b.page.Ref(s.at), kindHeadFromFile, name.Value, name.Trace.Text, "the head is named by the file only")
		}
		return
	}
	if loose, ok := s.facts.loose.one(); ok {
		b.askLoose(s, out, loose)
		return
	}
	if unclear, ok := s.facts.unclear.one(); ok {
		b.askHead(s, out, kindHeadUnclear, fmt.Sprintf("it is not sure how much of %q is the head's name", unclear.Value))
		return
	}
	if name, ok := s.mayBe.one(); ok {
		if tab, named := onTab.one(); named && bareCode(tab.Value) != bareCode(name.Value) {
			b.askHead(s, out, kindHeadConflict, fmt.Sprintf("the tab says %s, the sheet says %s", tab.Value, name.Value))
			return
		}
		out.Head, out.HeadAt = name.Value, name.Trace.At
		b.p.note(name.Trace.At, kindHeadFromTitle, name.Value, name.Trace.Text, "taken for the head's name: it looks like one, and nothing else there names a head")
		return
	}
	if name, ok := s.plain.one(); ok {
		out.Head, out.HeadAt = name.Value, name.Trace.At
		b.p.note(name.Trace.At, kindHeadFromTitle, name.Value, name.Trace.Text, "taken for the head's name: two places of the book say so, and nothing else names a head")
		return
	}
	if rest := s.unread; rest != "" {
		out.Head = rest
		b.askHead(s, out, kindHeadUnclear, fmt.Sprintf("it is not sure that %q is a head's name", rest))
		return
	}
	b.askHead(s, out, kindHeadNotStated, "no head is named")
}

// onTab is the head that the tab's name names, or seems to name.
func (b *builder) onTab() said[string] {
	tab := b.around.tab.any()
	if tab.namesHead() {
		return tab.head
	}
	trace := b.r.trace(b.page, decode.Cell{Kind: decode.Text, Text: b.page.Sheet.Name})
	if code := parse.Squeeze(b.page.Sheet.Name); isCasting(code) {
		return said[string]{source.Say(code, trace)}
	}
	if names := b.r.freeNames(b.page.Sheet.Name, trace, onTab); len(names) > 0 {
		return names
	}
	var out said[string]
	if name, f := b.r.plainName(b.page.Sheet.Name, onTab); name != "" && f.setUp() {
		out.add(name, trace)
	}
	return out
}

func list(names said[string]) string {
	var out []string
	for _, n := range names {
		out = append(out, n.Value)
	}
	return strings.Join(out, ", ")
}

func restText(f facts) string {
	return strings.Join(slices.DeleteFunc(slices.Clone(f.rest), func(w string) bool {
		_, number := parse.Plain(w, parse.PointMark)
		return number || utf8.RuneCountInString(w) < 2
	}), " ")
}

func (b *builder) askHead(s *series, out *head.Test, kind, message string) {
	q := source.Question{Key: key("head", oneCell("", b.page.Ref(s.at), cellText(s.at))), Wants: source.Words,
		Text: "Which head was flowed here?", Evidence: message, Changes: "the whole test waits for it"}
	for _, h := range s.facts.head.and(s.mayBe).and(s.otherwise) {
		q.Choices = append(q.Choices, h.Value)
	}
	for _, h := range b.around.tab.any().head {
		if !slices.Contains(q.Choices, h.Value) {
			q.Choices = append(q.Choices, h.Value)
		}
	}
	answer, ok := b.p.ask(b.page.Ref(s.at), kind, "", cellText(s.at), message, q)
	if !ok {
		out.Status, out.Why = head.Asked, message
		return
	}
	if out.Head = answer.Choice; out.Head == "" {
		out.Head = answer.Text
	}
	s.answeredBy(answer.Trace(""))
}

// askLoose asks whether a name that nearly matches is the shop's head.
func (b *builder) askLoose(s *series, out *head.Test, loose source.Stated[string]) {
	out.Head, out.HeadAt = loose.Trace.Text, loose.Trace.At
	_, sender := b.r.class(s.facts, s.own, s.around, b.page.Path)
	answer, ok := b.p.ask(loose.Trace.At, kindHeadLoose, loose.Value, loose.Trace.Text, "the name is nearly "+loose.Value, source.Question{
		Key: head.NameKey(sender, loose.Trace.Text), Text: fmt.Sprintf("Which head is %q?", loose.Trace.Text),
		Choices: []string{loose.Value, head.AnotherHead}, Changes: "whether the test counts for " + loose.Value})
	switch {
	case !ok:
		out.Status, out.Why = head.Asked, "the name only nearly matches "+loose.Value
		return
	case !answer.Is(head.AnotherHead):
		out.Head = answer.Choice
	}
	s.answeredBy(answer.Trace(""))
}

// whichPort settles intake or exhaust.
func (b *builder) whichPort(s *series, out *head.Test) {
	if s.own.ambiguous != "" && len(s.own.port) == 0 {
		if means, ok := b.r.learned(b.sender, s.own.ambiguous); ok {
			switch strings.ToLower(means) {
			case "intake":
				out.Port = head.Intake
				return
			case "exhaust":
				out.Port = head.Exhaust
				return
			}
		}
		message := "%q can be the intake or the exhaust"
		if s.own.mayAverage() {
			message = averageQuestion
		}
		b.askPort(s, out, kindPortAmbiguous, fmt.Sprintf(message, strings.ToUpper(s.own.ambiguous)))
		return
	}
	port, ok := s.facts.port.one()
	if !ok {
		b.askPort(s, out, kindPortNotStated, "the sheet does not say whether this is intake or exhaust")
		return
	}
	out.Port = port.Value
	s.answeredBy(port.Trace)
}

func (b *builder) askPort(s *series, out *head.Test, kind, message string) {
	choices := []string{"intake", "exhaust"}
	text := "Which port is this column: intake or exhaust?"
	switch {
	case s.own.mayAverage():
		choices = append(choices, leaveOut)
	case b.mayNamePort(s):
		choices = append(choices, leaveOut)
		text = fmt.Sprintf("Which port does %s call %q: intake or exhaust?", b.senderName(), restText(s.own))
	}
	answer, ok := b.p.ask(b.page.Ref(s.at), kind, out.Head, cellText(s.at), message, source.Question{
		Key: b.portKey(s, kind), Text: text,
		Choices: choices, Evidence: "header " + cellText(s.at), Changes: "the whole column waits for it"})
	switch {
	case !ok:
		out.Status, out.Why = head.Asked, message
		return
	case answer.Is(leaveOut):
		out.Status, out.Why = head.SetAside, "no curve of a port; left out, "+answer.Per()
		return
	case answer.Is("intake"):
		out.Port = head.Intake
	default:
		out.Port = head.Exhaust
	}
	s.answeredBy(answer.Trace(""))
}

// portKey holds the word that can mean either port, or that nobody knows; a sender uses it again;
// a column without such a word is known by its place alone.
func (b *builder) portKey(s *series, kind string) string {
	if kind == kindPortAmbiguous {
		return key("port", b.sender, s.own.ambiguous)
	}
	if b.mayNamePort(s) {
		return key("port", b.sender, strings.ToLower(restText(s.own)))
	}
	return key("port", oneCell("", b.page.Ref(s.at), cellText(s.at)))
}
