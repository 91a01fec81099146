package flowsheet

import (
	"slices"
	"strings"

	"flowshelf/analysis/head"
	"flowshelf/analysis/source"
	"flowshelf/ingest/words"
)

// ask puts a question, or returns the answer that somebody has given to it. A
// question that was answered is noted with its answer, and whoever asked uses
// it. The key holds the sender, so that one answer serves all books of that
// sender that are laid out alike.
func (b *problemBook) ask(at source.Ref, kind, headName, found, message string, q source.Question) (head.Reply, bool) {
	answer, ok := b.r.about.Answers.Reply(q)
	p := source.Problem{At: at, Severity: source.Asked, Kind: kind, Head: headName, Found: found, Message: message,
		Hint: "answer in the questions workbook, or write it on the sheet", Question: &q}
	if ok {
		p.Severity, p.Hint = source.Noted, ""
		p.Message += "; answered “" + answer.Said() + "”, " + answer.Per()
	}
	for i := range b.problems {
		if have := &b.problems[i]; have.Question != nil && have.Question.Key == q.Key && have.Kind == kind {
			if have.At != at && !slices.Contains(have.Also, at) {
				have.Also = append(have.Also, at)
			}
			return answer, ok
		}
	}
	b.add(p)
	return answer, ok
}

// formOf names the layout of tables by the known words of their headers, so that
// the next book of a sender on the same form is known again whatever heads and
// figures stand on it.
func formOf(shape string, tables []*table) string {
	var found []string
	for _, t := range tables {
		for _, ln := range t.lanes {
			for _, c := range append(slices.Clone(ln.headers), t.lead.label) {
				for _, hit := range words.FlowSheet().Find(words.Tokens(c.Text)) {
					found = append(found, hit.Phrase)
				}
			}
		}
	}
	slices.Sort(found)
	return shape + ": " + strings.Join(slices.Compact(found), ", ")
}

// mark shows with a reading who answered a question about it, and what was done.
func mark(r *head.Reading, answer head.Reply, steps ...string) {
	r.Flow.Trace.Answered = alsoBy(r.Flow.Trace.Answered, answer.Per())
	r.Flow.Trace.Steps = append(slices.Clone(r.Flow.Trace.Steps), steps...)
}

// alsoBy joins who answered several questions about one value.
func alsoBy(have, more string) string {
	switch {
	case have == "" || more == "" || strings.Contains(have, more):
		return max(have, more)
	default:
		return have + ", " + more
	}
}

// answeredBy notes that what an answer says went into every reading of a series.
func (s *series) answeredBy(trace source.Trace) {
	s.answered = alsoBy(s.answered, trace.Answered)
}

// decide lets an answer keep a reading or leave it out; without one the reading
// waits. The words are those that the choice to keep it begins with.
func decide(r *head.Reading, answer head.Reply, answered bool, keep, why string) {
	switch {
	case !answered:
		demote(r, head.Asked, why)
	case answer.Is(keep):
		mark(r, answer)
	default:
		demote(r, head.SetAside, why+"; left out, "+answer.Per())
	}
}

// decideTest does the same for a whole column.
func (s *series) decideTest(out *head.Test, answer head.Reply, answered bool, keep, why string) {
	switch {
	case answered && answer.Is(keep):
		s.answeredBy(answer.Trace(""))
	case out.Status.Out():
	case answered:
		out.Status, out.Why = head.SetAside, why+"; left out, "+answer.Per()
	case out.Status == head.Used:
		out.Status, out.Why = head.Asked, why
	}
}

// oneCell is what keeps a question about one cell from answering for another: the
// head, where it stands and what stands there.
func oneCell(headName string, at source.Ref, found string) string {
	return strings.Join([]string{headName, at.File, at.Sheet, at.Cell, found}, "|")
}
