package flowsheet

import (
	"fmt"
	"slices"
	"strings"
	"unicode"
	"unicode/utf8"

	"flowshelf/analysis/source"
	"flowshelf/ingest/layout"
)

// A sheet is often copied and the name changed in one place only: the title says
// PW-52B, the columns PW-71. Neither is more likely the head, so it is asked.

// titledOtherwise returns the names that the title over a table gives its head, or its
// tab, where the columns name heads and none of them is one of these. Beside a column
// of the same port that takes its head from the title, a column with a name of its own
// is there to be compared.
func (b *builder) titledOtherwise(t *table, column facts) said[string] {
	var columns said[string]
	for _, ln := range t.lanes {
		own := b.marked(ln).within(t.extraFacts(b.r, ln)).within(ln.section)
		if ln.role == laneFlow && !own.namesHead() && anyOf(column.port, own.port) {
			return nil
		}
		columns = columns.and(own.head).and(own.loose).and(own.unclear)
	}
	columns = columns.and(t.corner.head).and(t.corner.loose)
	for _, titles := range []said[string]{b.titleNames(t), b.around.tab.any().head} {
		if len(titles) > 0 && !sharesName(titles, columns) {
			return titles
		}
	}
	return nil
}

// titleNames returns the names in the lines over a table.
func (b *builder) titleNames(t *table) said[string] {
	lines := over(b.around.blocks[t].lines, t)
	f := b.r.scopeOf(b.page, lines, nil).any()
	out := f.head.and(f.loose)
	for _, line := range lines {
		out = out.and(b.openingName(line))
	}
	if len(out) > 0 {
		return out
	}
	page := b.around.page.any()
	return page.head.and(page.loose)
}

// openingName is the name that a line opens with, alone or behind the title of a flow
// sheet, where a figure makes one of its words: "Reiher 5", "Flow test Oastbridge S2".
func (b *builder) openingName(line layout.Line) said[string] {
	c := line.Cells[0]
	first := parseFirst(c.Text)
	if !b.r.opensUnknown(b.page, line) || !aFigure.MatchString(first) {
		return nil
	}
	trace := b.r.trace(b.page, c)
	if free := b.r.freeNames(first, trace, inTitle); len(free) > 0 {
		return free
	}
	var out said[string]
	if name, _ := b.r.plainName(first, inTitle); name != "" && aFigure.MatchString(name) && !countsOrPlaces(name) {
		out.add(name, trace)
	}
	return out
}

// sharesName reports whether a name is in both lists, or one of the one goes on with
// words of its own in the other.
func sharesName(some, others said[string]) bool {
	for _, a := range some {
		for _, b := range others {
			if bareCode(a.Value) == bareCode(b.Value) || goesOn(a.Value, b.Value) || goesOn(b.Value, a.Value) {
				return true
			}
		}
	}
	return false
}

// goesOn reports whether a longer name begins with a shorter one and a gap.
func goesOn(short, long string) bool {
	behind, found := strings.CutPrefix(smallLetters(long), smallLetters(short))
	next, _ := utf8.DecodeRuneInString(behind)
	return found && !unicode.IsLetter(next) && !unicode.IsDigit(next)
}

// nameClash says which two names of heads stand against each other for a column, ""
// where none do.
func (b *builder) nameClash(s *series) string {
	near, onTab := s.local.head, b.onTab()
	name, ok := s.facts.head.one()
	switch {
	case len(s.facts.head) > 1:
		return "more than one head is named here: " + list(s.facts.head)
	case ok && len(s.otherwise) > 0:
		return fmt.Sprintf("the column says %s, over the table or on the tab stands %s", name.Value, list(s.otherwise))
	case ok && s.alsoNear(name):
		return "more than one head is named here: " + name.Value + ", " + list(s.facts.loose.and(s.facts.unclear))
	case len(s.own.head) == 0 && len(near) == 1 && len(onTab) == 1 && bareCode(near[0].Value) != bareCode(onTab[0].Value):
		return fmt.Sprintf("the tab says %s, the sheet says %s", onTab[0].Value, near[0].Value)
	case ok && s.rival(name.Value) != "":
		return fmt.Sprintf("%s is named further off, %s right here", name.Value, s.rival(name.Value))
	default:
		return ""
	}
}

// alsoNear reports whether the cell that names a head holds another name, of which it
// is not sure how far it goes: "LKC-18 (same port as LKC-55)".
func (s *series) alsoNear(name source.Stated[string]) bool {
	return slices.ContainsFunc(s.facts.loose.and(s.facts.unclear), func(other source.Stated[string]) bool {
		return other.Value != name.Value && other.Trace.At == name.Trace.At
	})
}

// rival is what looks like another head's name in the lines right over a table
// that takes its head from further off, "" where there is none.
func (s *series) rival(name string) string {
	for _, near := range s.mayBe {
		if bareCode(near.Value) == bareCode(name) {
			return ""
		}
	}
	return list(s.mayBe)
}
