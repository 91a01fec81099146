package flowsheet

import (
	"fmt"
	"strings"

	"flowshelf/analysis/head"
	"flowshelf/analysis/source"
	"flowshelf/ingest/decode"
)

// hiddenColumn lets an answer decide about readings that nobody sees. Where the
// sheet calls them old besides, the same answer decides about that; what is out
// for another reason would stay out whatever is answered, and is not asked about.
func (b *builder) hiddenColumn(s *series, out *head.Test) {
	what, why := "a hidden column", "hidden column"
	switch {
	case out.Why == calledOld:
		out.Status, out.Why = head.Used, ""
		what, why = "a hidden column that the sheet calls old", "hidden column of a test that the sheet calls old"
	case out.Status.Out():
		return
	}
	answer, ok := b.askHidden(s, s.at, out.Head, what, s.sampled())
	if !ok {
		out.Status, out.Why = head.Asked, why
		return
	}
	s.decideTest(out, answer, ok, "yes", why)
}

// hiddenRow does the same for one reading.
func (b *builder) hiddenRow(s *series, i int, r *head.Reading, out *head.Test) {
	if out.Status.Out() {
		return
	}
	answer, ok := b.askHidden(s, s.values[i], out.Head, "a hidden row", s.atLift(i))
	decide(r, answer, ok, "yes", "the row is hidden")
}

func (b *builder) askHidden(s *series, c decode.Cell, headName, what, sample string) (head.Reply, bool) {
	at := b.page.Ref(c)
	return b.p.ask(at, kindHiddenCells, headName, cellText(c), "the readings stand in "+what+" and decide nothing until somebody says so", source.Question{
		Key: key("hidden", headName, at.File, at.Sheet), Text: "Readings stand in " + what + ": should they be used?",
		Choices: []string{"no, leave them out", "yes, use them"}, Evidence: s.titled() + sample, Changes: "whether this test counts"})
}

// titled is what stands over the readings, from the outermost header inwards.
func (s *series) titled() string {
	var out []string
	for _, c := range s.headers {
		if text := strings.TrimSpace(cellText(c)); text != "" {
			out = append(out, "“"+text+"”")
		}
	}
	if len(out) == 0 {
		return ""
	}
	return "under " + strings.Join(out, ", ") + ": "
}

// sampled shows the first and the last of the readings beside their lifts, so
// that whoever is asked about them knows which they are without unhiding them.
func (s *series) sampled() string {
	first, last := -1, -1
	for i, c := range s.values {
		if c.Blank() {
			continue
		}
		if first < 0 {
			first = i
		}
		last = i
	}
	switch {
	case first < 0:
		return ""
	case first == last:
		return s.atLift(first)
	}
	return s.atLift(first) + " to " + s.atLift(last)
}

func (s *series) atLift(i int) string {
	return fmt.Sprintf("%s at lift %s", cellText(s.values[i]), cellText(s.liftCells[i]))
}
