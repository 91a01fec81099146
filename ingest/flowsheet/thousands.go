package flowsheet

import (
	"cmp"
	"fmt"
	"math"
	"slices"
	"strings"

	"flowshelf/analysis/source"
	"flowshelf/ingest/decode"
	"flowshelf/ingest/parse"
)

// digits is how the figures of a column are written.
type digits struct {
	mark   parse.Mark
	spaces bool // a space parts the thousands
	open   bool // a sign before three digits can be either, and nobody has told
}

// read reads one figure of the column.
func (d digits) read(text string) parse.ReadingText {
	if d.spaces {
		text, _ = parse.JoinedGroups(text)
	}
	r := parse.Reading(text, d.mark)
	if _, _, open := parse.OpenGroup(text); open && d.open {
		return parse.ReadingText{Unsure: "the decimal sign cannot be told from a thousands sign", EitherMark: true}
	}
	return r
}

// What the sign before three digits can be.
const (
	aDecimalSign   = "a decimal sign"
	aThousandsSign = "a thousands sign"
)

// digits decides which sign of a column parts the whole from the fraction, and which
// the thousands: by the other figures of the column, else by the size of the flow that
// each reading comes to. What that leaves open is asked once for the column.
func (b *builder) digits(s *series, headName string) digits {
	texts := b.typed(s)
	how := digits{mark: parse.DecideMark(texts), spaces: b.spacedThousands(s, texts)}
	high, sign, first := 0.0, "", ""
	for _, text := range texts {
		x, at, open := parse.OpenGroup(text)
		if !open {
			continue
		}
		if first == "" {
			sign, first = at, text
		}
		if at != sign {
			sign = "?" // both signs, each before three digits
		}
		high = max(high, x)
	}
	switch {
	case first == "" || how.mark != parse.MarkUnknown:
		return how
	case b.passes(s, high) != b.passes(s, 1000*high) && sign != "?":
		how.mark = decimalSign(sign)
		if !b.passes(s, high) {
			how.mark = thousandsSign(sign)
		}
		return how
	case !b.unitKnown(s) && sign == ".":
		return how // the column waits for its unit, which will tell
	}
	answer, ok := b.p.ask(b.page.Ref(s.at), kindNotANumber, headName, first, "the decimal sign of the column cannot be told from a thousands sign", source.Question{
		Key: key("decimal sign", b.sender, b.form), Text: fmt.Sprintf("What is the sign before the last three digits of %q?", first),
		Choices: []string{aDecimalSign, aThousandsSign}, Evidence: "every figure of the column has three digits behind it", Changes: "the whole column waits for it"})
	if how.open = !ok; ok {
		at := first[strings.IndexAny(first, ".,"):][:1]
		if how.mark = thousandsSign(at); answer.Is(aDecimalSign) {
			how.mark = decimalSign(at)
		}
		s.told = true
		s.answeredBy(answer.Trace(""))
	}
	return how
}

// decimalSign is how a column is read in which a sign parts the fraction, thousandsSign
// how one in which it parts thousands.
func decimalSign(sign string) parse.Mark {
	if sign == "," {
		return parse.CommaMark
	}
	return parse.PointMark
}

func thousandsSign(sign string) parse.Mark {
	if sign == "," {
		return parse.PointMark
	}
	return parse.CommaMark
}

// typed returns the figures of a column as somebody typed them. A text file stores
// nothing else: what it holds as 1.122 may be a thousand.
func (b *builder) typed(s *series) []string {
	plain := (b.page.Book.Format == "csv" || b.page.Book.Format == "tsv") && !s.percent && !s.drop
	var texts []string
	for i, c := range s.values {
		if plain && c.Kind == decode.Number && strings.Contains(c.Text, ".") {
			s.values[i].Kind = decode.Text
		}
		if s.values[i].Kind == decode.Text {
			texts = append(texts, c.Text)
		}
	}
	return texts
}

// spacedThousands reports whether spaces part the thousands of a column: every figure
// above 999 has one, and the highest is then what a port passes.
func (b *builder) spacedThousands(s *series, texts []string) bool {
	high := 0.0
	for _, text := range texts {
		joined, spaced := parse.JoinedGroups(text)
		x, ok := parse.Plain(joined, parse.DecideMark(texts))
		switch {
		case spaced && !ok, !spaced && ok && x > 999:
			return false
		case spaced:
			high = max(high, x)
		}
	}
	return high > 0 && b.passes(s, high)
}

// The flows in cfm at 28 inH2O between which the highest reading of a port lies, with
// room on both sides of what curve.go takes for usual. They are less than a thousand
// times apart, so that of two readings of one figure at most one is a flow.
const leastFlow, mostFlow = 3, 700

// passes reports whether a figure of a column is a flow that some port has, in the
// unit the column is known to be in.
func (b *builder) passes(s *series, x float64) bool {
	unit, ok := b.unitSaid(s)
	if !ok || s.percent || s.drop {
		return false
	}
	flow, _, ok := unit.Value.Flow(x)
	if !ok {
		return false
	}
	at28 := flow.CFM()
	if p, ok := s.facts.pressure.one(); ok && p.Value.InH2O() >= lowestInH2O {
		at28 *= math.Sqrt(28 / p.Value.InH2O())
	}
	return at28 >= leastFlow && at28 <= mostFlow
}

// unitSaid is the flow unit of a column, stated or answered before.
func (b *builder) unitSaid(s *series) (source.Stated[parse.FlowUnit], bool) {
	if unit, ok := s.facts.flowUnit.one(); ok {
		return unit, true
	}
	if means, known := b.r.learned(b.sender, "flow unit"); known {
		if u, found := parse.FindFlowUnit(means); found {
			return source.Say(u, source.Trace{Text: means, Answered: "an earlier answer"}), true
		}
	}
	return source.Stated[parse.FlowUnit]{}, false
}

func (b *builder) unitKnown(s *series) bool {
	_, ok := b.unitSaid(s)
	return ok
}

// figures returns how the figures of a lane are read before its unit is known: a point
// before three digits parts thousands where the column rises in no other way.
func (t *table) figures(ln *lane) func(decode.Cell) (float64, bool) {
	thousands := func(c decode.Cell) (float64, bool) {
		x, _, open := parse.OpenGroup(c.Text)
		if open && c.Kind != decode.Date {
			return 1000 * x, true
		}
		joined, _ := parse.JoinedGroups(c.Text)
		if x, ok := parse.Plain(joined, parse.MarkUnknown); ok && c.Kind == decode.Text {
			return x, true
		}
		return figure(c)
	}
	if t.climbsBy(ln, figure) || !t.climbsBy(ln, thousands) {
		return figure
	}
	return thousands
}

// climbsBy reports whether the last figure of a lane is the higher one, and no figure
// is a small part of the one before.
func (t *table) climbsBy(ln *lane, read func(decode.Cell) (float64, bool)) bool {
	var all []point
	for _, e := range t.axis.entries {
		if x, ok := read(t.plane().At(e.row, ln.col)); ok && x > 0 && e.text.Value > 0 && !e.text.Ditto {
			all = append(all, point{e.text.Value, x})
		}
	}
	slices.SortFunc(all, func(a, b point) int { return cmp.Compare(a.lift, b.lift) })
	for i := 1; i < len(all); i++ {
		if all[i].flow < all[i-1].flow/5 {
			return false
		}
	}
	return len(all) > 1 && all[len(all)-1].flow > all[0].flow
}
