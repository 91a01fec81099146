package flowsheet

import (
	"slices"
	"strings"
	"unicode"

	"flowshelf/analysis/source"
	"flowshelf/ingest/decode"
	"flowshelf/ingest/layout"
	"flowshelf/ingest/words"
)

// Blocks stand under one another on a page, each below its own title. A title may call
// the head by anything, "Wharf 7" or "B41C", so a line that stands right over a table
// of its own and opens with a word that nobody knows begins a block: what the title of
// the block before says of its head does not hold for it.

// opensBlock reports whether lines right over a table hold one that opens with what may
// be a head's name.
func (r *reader) opensBlock(page *layout.Page, lines []layout.Line) bool {
	for _, l := range lines {
		if r.opensUnknown(page, l) {
			return true
		}
	}
	return false
}

// opensUnknown reports whether a line holds a name, or its first words, its caption left
// out, hold a word that nobody knows.
func (r *reader) opensUnknown(page *layout.Page, line layout.Line) bool {
	for _, c := range line.Cells {
		if k, value, keyed := keyValue(c.Text); c.Kind == decode.Text && keyed && k.numbers() && r.mayBeName(parseFirst(value)) {
			return true // "Run 2: Wharf 7"
		}
	}
	opens := r.opensTitle
	for text := range r.titles(page, []layout.Line{line}) {
		for part := range strings.SplitSeq(titleGaps.ReplaceAllString(text, "\x1f"), "\x1f") {
			if part = strings.TrimSpace(part); part == "" {
				continue
			}
			if opens(part) {
				return true
			}
			opens = r.mayBeName
		}
	}
	return false
}

// numbers reports whether a key counts a test, whose head may stand behind it.
func (c caption) numbers() bool {
	return c.counts() || c.role == words.PortNo || c.role == words.Flow
}

// holdsName reports whether a part of a title holds what looks like a name.
func (r *reader) holdsName(part string) bool {
	f := r.read(newLine(part, source.Trace{}, inTitle))
	return f.namesHead() || opensAsCode.MatchString(part) || len(r.freeNames(part, source.Trace{}, inTitle)) > 0
}

// mayBeName reports whether a part of a title holds a name, or words that nobody knows
// and nothing else that is not understood.
func (r *reader) mayBeName(part string) bool {
	if areInitials(part) {
		return false
	}
	name, _ := r.plainName(part, inTitle)
	return name != "" || r.holdsName(part)
}

// opensTitle reports whether the first part of a title holds a name or any words that
// nobody knows.
func (r *reader) opensTitle(part string) bool {
	if areInitials(part) {
		return false
	}
	word, figure, two := strings.Cut(part, " ")
	if r.holdsName(part) || two && calledBy(word) && loneNumber.MatchString(figure) { // "Max 3"
		return true
	}
	l := newLine(part, source.Trace{}, inTitle)
	r.read(l)
	left := slices.DeleteFunc(l.leftOver(), func(word string) bool { return !isUnknown(word) || areInitials(word) })
	if len(left) == 0 || sentenceLike(left) {
		return false
	}
	return strings.HasPrefix(part, left[0]) && aFigure.MatchString(part) || slices.ContainsFunc(left, isNameLike)
}

// parseFirst is the first part of a title: what stands before its conditions.
func parseFirst(text string) string {
	return strings.TrimSpace(titleGaps.Split(text, 2)[0])
}

// isNameLike reports whether a word is written as names are, with a capital or a figure.
func isNameLike(word string) bool {
	return strings.ContainsFunc(word, func(c rune) bool { return unicode.IsUpper(c) || unicode.IsDigit(c) })
}

// sentenceLike reports whether words that nobody knows are more of a sentence than a
// name has: "Seats a little wide".
func sentenceLike(left []string) bool {
	small := slices.DeleteFunc(slices.Clone(left), isNameLike)
	return len(small) > 1
}

// ownDepth is how many groups of lines, and how many lines of the last, the later
// tables of a page have over them that open with a title: the first table has as many
// of its own, and what stands higher speaks of the page.
func (r *reader) ownDepth(page *layout.Page, all []*table) (groups, lines int) {
	for _, t := range all {
		top, first := under(t, all)
		if first {
			continue
		}
		above := layout.Groups(r.linesOver(layout.Lines(page, decode.Area{Top: top, Left: 1, Bottom: t.area().Top - 1, Right: 1 << 20}), t, all))
		above = withoutTrailing(above, top, t.area().Top)
		for n, g := range slices.Backward(above) {
			if r.scopeOf(page, g[:1], nil).any().namesHead() || r.opensUnknown(page, g[0]) {
				groups, lines = max(groups, len(above)-n), max(lines, len(above[len(above)-1]))
				break
			}
		}
	}
	return groups, lines
}
