package flowsheet

import (
	"iter"
	"slices"

	"flowshelf/ingest/decode"
	"flowshelf/ingest/layout"
	"flowshelf/ingest/parse"
	"flowshelf/ingest/words"
)

// titles returns the sentences of title lines that can hold a name. The value
// beside a key is the key's.
func (r *reader) titles(page *layout.Page, lines []layout.Line) iter.Seq2[string, decode.Cell] {
	return func(yield func(string, decode.Cell) bool) {
		for n, line := range lines {
			if r.isOddKey(page, lines, n) {
				continue
			}
			for i := 0; i < len(line.Cells); i++ {
				c := line.Cells[i]
				if c.Kind != decode.Text {
					continue
				}
				if k, ok := captionOf(c.Text); ok && !k.whole() && k.role != words.Flow && i+1 < len(line.Cells) {
					i++
					continue
				}
				if isThing(c) && i+1 < len(line.Cells) {
					i++
					continue
				}
				if i > 0 && numbersElse(line.Cells[i-1], c) {
					continue
				}
				for _, sentence := range sentences(c.Text) {
					if k, _, keyed := keyValue(sentence); (!keyed || k.role == words.Flow) && !yield(parse.Squeeze(sentence), c) {
						return
					}
				}
			}
		}
	}
}

// isOddKey reports whether a line is a label that nobody knows and its value, in a
// column of keys: "Alternator | CW-88" under "Bore | 4.030". The value is no head's
// name, unless the shop lists it.
func (r *reader) isOddKey(page *layout.Page, lines []layout.Line, n int) bool {
	cells := lines[n].Cells
	if len(cells) != 2 || cells[0].Kind != decode.Text || cells[1].Kind != decode.Text || cells[1].Col != cells[0].Col+1 {
		return false
	}
	keys := 0
	for _, l := range lines {
		k, isKey := captionOf(l.Cells[0].Text)
		if len(l.Cells) > 1 && l.Cells[0].Col == cells[0].Col && l.Cells[0].Kind == decode.Text && isKey && !k.whole() {
			keys++
		}
	}
	label := parse.Squeeze(cells[0].Text)
	if _, isKey := captionOf(label); isKey || keys < 2 || isHeading(label) || len(words.Tokens(label)) > longestPlain {
		return false
	}
	l := newLine(label, r.trace(page, cells[0]), inTitle)
	f := r.read(l)
	return !f.namesHead() && !f.setUp() && len(f.supplier)+len(f.bench) == 0 && slices.ContainsFunc(l.leftOver(), isUnknown) && len(r.freeNames(label, l.trace, inTitle)) == 0
}
