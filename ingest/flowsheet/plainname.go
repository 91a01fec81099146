package flowsheet

import (
	"path"
	"regexp"
	"slices"
	"strings"
	"unicode"

	"flowshelf/analysis/source"
	"flowshelf/ingest/decode"
	"flowshelf/ingest/layout"
	"flowshelf/ingest/parse"
	"flowshelf/ingest/words"
)

// A head can be called by plain words: "Osprey II", "Merle". Such a word may be
// anything, a customer or a place, so it is a name only where a second thing on
// the sheet says so.

var plainWord = regexp.MustCompile(`^(?:\p{Lu}[\p{L}\d'+-]*\.?|#?\d[\p{L}\d-]*)$`)

// longestPlain is how many words a name of plain words has.
const longestPlain = 3

// isPlainName reports whether a text is a few words in capitals, none of which
// the trade knows.
func isPlainName(text string) bool {
	list := strings.Fields(text)
	if len(list) == 0 || len(list) > longestPlain || notNames.MatchString(text) || areInitials(text) || isFlowUnit(text) {
		return false
	}
	letters := 0
	for _, word := range list {
		bare := strings.Trim(word, "#.")
		if !plainWord.MatchString(word) || len(bare) > 1 && strings.ContainsFunc(bare, unicode.IsLetter) && isTradeWord(bare) {
			return false
		}
		letters += len(strings.TrimFunc(bare, func(r rune) bool { return !unicode.IsLetter(r) }))
	}
	return letters > 2
}

// plainName returns the plain words that a text leaves beside what is understood
// of it, where they stand together.
func (r *reader) plainName(text string, where place) (string, facts) {
	l := newLine(text, source.Trace{}, where)
	f := r.read(l)
	var left []string
	for part := range strings.SplitSeq(l.rest(), string(struck)) {
		if part = strings.Trim(part, " ,;:.-–—"); part != "" {
			left = append(left, part)
		}
	}
	if len(left) != 1 || f.namesHead() || !isPlainName(left[0]) || opensWithThing(left[0]) {
		return "", f
	}
	return left[0], f
}

// inRowOfHeads is the step of a name that its row makes one.
const inRowOfHeads = "stands in a row of names of heads, over a port"

// nameRow takes plain words that stand over ports in a row with names of heads
// for names as well; where no port stands below, those with a figure.
func (t *table) nameRow(r *reader, stacks [][]decode.Cell) (level int, named bool) {
	page := t.plane().Page
	for level := range slices.Backward(t.headers) {
		names, others := map[string]bool{}, map[string]bool{}
		for i := range t.lanes {
			c := stacks[i][level]
			overPort := t.below(r, stacks[i][level+1:]) != ""
			switch {
			case c.Blank() || r.compares(page, c):
			case c.Kind != decode.Text:
				others[cellText(c)] = true
			case len(r.rowName(page, c)) > 0 && (overPort || level == len(t.headers)-1):
				names[c.Text] = true
			case !isRowName(c.Text) || !overPort && !isNumberedInRow(c.Text):
				others[c.Text] = true
			}
		}
		if len(names) > 0 && len(others) == 0 {
			return level, true
		}
	}
	return 0, false
}

// compares reports whether a header is over the sheet's own comparison.
func (r *reader) compares(page *layout.Page, c decode.Cell) bool {
	return c.Kind == decode.Text && r.header(page, c).says(words.Gain, words.Percent, words.Ratio)
}

// isRowName reports whether a text can be a name in a row of names.
func isRowName(text string) bool {
	text = parse.Squeeze(text)
	return isPlainName(text) || isPlainName(withoutFillers(text)) || isDoubtful(text) && !countsOrPlaces(text)
}

// withoutFillers leaves out words that say nothing of themselves behind the first
// one: "Marlow Point" is as much a name as "Marlow Ridge", "Test Point" is none.
func withoutFillers(text string) string {
	list := strings.Fields(text)
	return strings.Join(slices.DeleteFunc(list, func(word string) bool {
		hits := words.FlowSheet().Find(words.Tokens(word))
		return word != list[0] && len(hits) == 1 && hits[0].Role == words.Filler && nameWord.MatchString(" "+word)
	}), " ")
}

// isNumberedInRow reports whether a text that stands over readings can be nothing
// but a name: a word or a code with a figure.
func isNumberedInRow(text string) bool {
	text = parse.Squeeze(text)
	return aFigure.MatchString(text) && isRowName(text) && !countsOrPlaces(text)
}

// rowName returns the name that a header cell holds and nothing beside it.
func (r *reader) rowName(page *layout.Page, c decode.Cell) said[string] {
	f := r.header(page, c)
	if names := f.head.and(f.loose); len(names) > 0 || len(f.port) > 0 {
		return names
	}
	return r.freeNames(parse.Squeeze(c.Text), r.trace(page, c), inHeader)
}

// nameInRow gives a header in a row of names its name.
func (r *reader) nameInRow(page *layout.Page, c decode.Cell, f facts) facts {
	text := parse.Squeeze(cellText(c))
	name, found := f.head.one()
	_, listed := r.names.listed[name.Value]
	switch {
	case found && !listed && len(f.port) == 0 && isNameAroundState(text):
		f.head, f.state = nil, nil // "TA-70 CNC Pro" beside "TA-70"
	case f.namesHead() || !isRowName(text):
		return f
	}
	f.head.add(text, r.trace(page, c).Then(inRowOfHeads))
	f.rest, f.ambiguous = nil, ""
	return f
}

// plainNames returns the plain words that two places of the book make the head's
// name: a tab that is called like the title or listed by the cover, or one that
// holds conditions beside them.
func (b *builder) plainNames(t *table) said[string] {
	var out said[string]
	tab := parse.Squeeze(strings.ReplaceAll(b.page.Sheet.Name, "_", " "))
	trace := b.r.trace(b.page, decode.Cell{Kind: decode.Text, Text: tab})
	trace.At.Cell = ""
	name, f := b.r.plainName(tab, onTab)
	if name != "" && len(f.bore) > 0 && len(f.pressure)+len(f.bare) > 0 {
		out.add(name, trace)
		return out
	}
	if c, ok := b.inPlaceOfName(t); ok {
		out.add(parse.Squeeze(c.Text), b.r.trace(b.page, c))
		return out
	}
	if name, at := b.amongTitles(t); name != "" {
		out.add(name, at)
		return out
	}
	if name, _ := b.r.plainName(b.fileName(), onTab); name != "" && b.opensSetUp(t, name) {
		trace.Text = b.fileName()
		out.add(name, trace)
		return out
	}
	if len(f.rest) == 0 || f.namesHead() || len(strings.Fields(tab)) > longestPlain {
		return nil
	}
	if b.titled(t, tab) || slices.ContainsFunc(covers(b.page), func(p *layout.Page) bool { return lists(p, b.page.Book, tab) }) {
		out.add(tab, trace)
	}
	return out
}

// inPlaceOfName returns the title of a table that is plain words and stands where
// the other tables of the page have the names of their heads.
func (b *builder) inPlaceOfName(t *table) (decode.Cell, bool) {
	title := b.titleOf(t)
	if title.Kind != decode.Text || !isRowName(title.Text) {
		return title, false
	}
	named := 0
	for _, o := range b.tables {
		c := b.titleOf(o)
		switch {
		case c.Row == title.Row && c.Col == title.Col:
		case c.Kind != decode.Text:
			return title, false
		case len(b.r.rowName(b.page, c)) == 1:
			named++
		case !isRowName(c.Text):
			return title, false
		}
	}
	return title, named > 0
}

// titleOf is the cell right over the first column of a table.
func (b *builder) titleOf(t *table) decode.Cell {
	area := t.area()
	return b.page.Sheet.At(area.Top-1, area.Left)
}

// fileName is the name of the book's file in words.
func (b *builder) fileName() string {
	base := strings.TrimSuffix(path.Base(b.page.Path), path.Ext(b.page.Path))
	return parse.Squeeze(strings.ReplaceAll(base, "_", " "))
}

// opensSetUp reports whether a line over a table opens with the text and goes on with
// the bore or the pressure of the test; a letterhead stands alone.
func (b *builder) opensSetUp(t *table, text string) bool {
	for _, s := range []scope{b.around.blocks[t], b.around.page} {
		for _, line := range s.lines {
			if b.r.opensWith(line.Cells[0].Text, text) && b.r.scopeOf(b.page, []layout.Line{line}, nil).any().setUp() {
				return true
			}
		}
	}
	return false
}

// opensWith reports whether a text opens with a name, before conditions or a mark.
func (r *reader) opensWith(text, name string) bool {
	first := parse.Squeeze(titleGaps.Split(text, 2)[0])
	if strings.HasPrefix(smallLetters(first), smallLetters(name)+" ") {
		return r.firstCondition(first) == len(name)+1
	}
	return strings.EqualFold(first, name)
}

// titled reports whether a line over a table is the text, alone or parted from what
// follows: "Iron Maple   4.030 bore   28 inH2O", "Iron Maple 4.030 bore".
func (b *builder) titled(t *table, text string) bool {
	for _, s := range []scope{b.around.blocks[t], b.around.page} {
		for _, line := range s.lines {
			if slices.ContainsFunc(line.Cells, func(c decode.Cell) bool { return b.r.opensWith(c.Text, text) }) {
				return true
			}
		}
	}
	return false
}

// lists reports whether a cover names a tab, and another one beside it.
func lists(cover *layout.Page, book *decode.Book, tab string) bool {
	listed, found := 0, false
	for i := range book.Sheets {
		name := parse.Squeeze(book.Sheets[i].Name)
		if slices.ContainsFunc(cover.Sheet.Cells, func(c decode.Cell) bool { return strings.EqualFold(parse.Squeeze(c.Text), name) }) {
			listed++
			found = found || strings.EqualFold(name, tab)
		}
	}
	return found && listed > 1
}
