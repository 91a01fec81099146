package flowsheet

import (
	"slices"
	"strconv"
	"strings"
	"unicode"

	"flowshelf/analysis/source"
	"flowshelf/ingest/decode"
	"flowshelf/ingest/parse"
)

// fewestWords is how many words a note has at least that says something of its own;
// fewer are initials, a label or a greeting.
const fewestWords = 3

// quoteUnread tells once a page which words beside and under its tables were not
// understood: nobody may think that they were heeded.
func (b *builder) quoteUnread(tables []*table) {
	var at source.Ref
	var quoted []string
	seen := map[source.Ref]bool{}
	for _, t := range tables {
		for _, c := range slices.Concat(t.margin, b.farNotes(t), b.noteLanes(t), b.under(t)) {
			if seen[b.page.Ref(c)] || !b.saysNothingKnown(c) {
				continue
			}
			seen[b.page.Ref(c)] = true
			if len(quoted) == 0 {
				at = b.page.Ref(c)
			}
			quoted = append(quoted, strconv.Quote(parse.Squeeze(c.Text)))
		}
	}
	const most = 3
	switch n := len(quoted); {
	case n == 0:
	case n > most:
		b.p.note(at, kindNoteUnread, "", "", "these words by the readings were not understood and change nothing: "+strings.Join(quoted[:most], ", ")+" and "+strconv.Itoa(n-most)+" more")
	default:
		b.p.note(at, kindNoteUnread, "", "", "these words by the readings were not understood and change nothing: "+strings.Join(quoted, ", "))
	}
}

// under returns the notes under a table.
func (b *builder) under(t *table) []decode.Cell {
	var out []decode.Cell
	for _, l := range b.around.notes[t].lines {
		out = append(out, l.Cells...)
	}
	return out
}

// noteLanes returns what stands in the columns of notes of a table.
func (b *builder) noteLanes(t *table) []decode.Cell {
	var out []decode.Cell
	for _, ln := range t.lanes {
		for _, e := range t.axis.entries {
			if c := t.plane().At(e.row, ln.col); ln.role == laneNote && !c.Blank() {
				out = append(out, c)
			}
		}
	}
	return out
}

// saysNothingKnown reports whether a cell holds a note of which nothing was understood.
func (b *builder) saysNothingKnown(c decode.Cell) bool {
	if c.Kind != decode.Text || warning.MatchString(c.Text) {
		return false
	}
	if _, against := warns(c.Text); against {
		return false
	}
	if _, foot := b.r.footnoteOf(b.page, c); foot {
		return false
	}
	letters := 0
	for _, word := range strings.Fields(c.Text) {
		if strings.IndexFunc(word, unicode.IsLetter) >= 0 {
			letters++
		}
	}
	if letters < fewestWords {
		return false
	}
	unknown := 0
	for _, st := range b.r.statements(c.Text, b.r.trace(b.page, c)) {
		if st.facts.saysAnything() {
			return false
		}
		unknown += len(st.facts.rest)
	}
	return unknown >= fewestWords-1
}

// saysAnything reports whether a place says anything of a head or of how it was flowed.
func (f facts) saysAnything() bool {
	return f.namesHead() || len(f.supplier)+len(f.bench)+len(f.serial)+len(f.sample)+len(f.date)+len(f.unsure)+len(f.operator)+
		len(f.bore)+len(f.over)+len(f.engine)+len(f.pressure)+len(f.bare)+len(f.pipe)+len(f.entry)+len(f.flowUnit)+len(f.liftUnit)+len(f.valve)+len(f.valves)+len(f.leak)+len(f.state) > 0
}
