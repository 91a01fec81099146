package flowsheet

import (
	"slices"
	"strings"

	"flowshelf/analysis/head"
	"flowshelf/ingest/decode"
	"flowshelf/ingest/layout"
	"flowshelf/ingest/words"
)

// longList recognises a list with one reading a row: head, port, date, lift,
// flow, each in a column of its own.
type longList struct{}

// Name returns the stable name of the shape.
func (longList) Name() string { return "long list" }

// readingList is the header of a long list and its rows.
type readingList struct {
	row   int
	lift  decode.Cell
	keys  []keyColumn
	flows []decode.Cell
	tp    decode.Cell
	notes []decode.Cell
	rows  []listRow
	ports map[string]head.Port // what EV, E or IN means in this list
	last  int
}

type keyColumn struct {
	header  decode.Cell
	caption caption
}

// listRow is one row: its lift and the cells of its key columns, blanks and
// ditto marks filled from the row above.
type listRow struct {
	entry
	keys    []decode.Cell
	carried bool
}

// Recognise reads every long list of the page.
func (ll longList) Recognise(page *layout.Page, about layout.Context) head.Records {
	if !mentionsFlow(page) {
		return head.Records{}
	}
	r := &reader{names: namesOf(about), about: about}
	var out head.Records
	for row := 1; row <= page.Sheet.Rows(); row++ {
		l, ok := r.listHeader(page, row)
		if !ok {
			continue
		}
		l.read(page)
		if !l.claims(page) && (len(l.rows) < 3 || !l.hasCurve()) {
			continue
		}
		out.Append(r.list(page, ll.Name(), l))
		row = l.last
	}
	return out
}

// listHeader recognises a row of captions with a lift, a flow, and a head or a
// port among them.
func (r *reader) listHeader(page *layout.Page, row int) (readingList, bool) {
	l := readingList{row: row}
	if !slices.ContainsFunc(page.Sheet.Row(row), isLiftLabel) {
		return l, false // most rows of most pages; what else it says is not read
	}
	keyed := false
	for _, c := range page.Sheet.Row(row) {
		if c.Kind != decode.Text || !page.Free(c.Row, c.Col) || newBox(c, page.Sheet.At(row, c.Col+1)).isMeasure() || opensKeys(page, c) {
			continue
		}
		keyed = l.column(c, r.header(page, c)) || keyed
	}
	if l.lift.Blank() || len(l.flows) == 0 || !keyed {
		return l, false
	}
	e := r.pageEvidence(page)
	return l, (e.unit || e.pressure) && !e.cam && (!e.ducts || e.heads)
}

// column takes one header of the list and reports whether it is that of the
// heads or of the ports.
func (l *readingList) column(c decode.Cell, f facts) bool {
	k, isKey := captionOf(c.Text)
	switch {
	case isLiftLabel(c) && l.lift.Blank():
		l.lift = c
	case isKey && k.role == words.TestPressure:
		l.tp = c
	case isKey && k.role == words.Note:
		l.notes = append(l.notes, c)
	case len(f.flowUnit) > 0 || isKey && k.role == words.Flow || len(f.port) == 1 && !isKey && !f.says(words.Valve, words.Area, words.Bore):
		l.flows = append(l.flows, c)
	case isKey:
		l.keys = append(l.keys, keyColumn{c, k})
		return k.role == words.Head || k.role == words.Port || k.role == words.Side
	}
	return false
}

// claims reports whether a list of heads with one row each stands right under words
// for claims: "Advertised flow, cfm @ 28". An advert gives each head at one lift.
func (l *readingList) claims(page *layout.Page) bool {
	if len(l.rows) < 2 || !slices.ContainsFunc(l.keys, func(k keyColumn) bool { return k.caption.role == words.Head }) {
		return false
	}
	for row := max(1, l.row-2); row < l.row; row++ {
		if slices.ContainsFunc(page.Sheet.Row(row), func(c decode.Cell) bool {
			return c.Kind == decode.Text && plainClaim.MatchString(strings.TrimSpace(c.Text))
		}) {
			return true
		}
	}
	return false
}

// hasCurve reports whether some head and port has readings at two lifts: a
// list with one row a head states facts of the heads, not curves.
func (l *readingList) hasCurve() bool {
	return slices.ContainsFunc(l.groups(), func(g []listRow) bool {
		return slices.ContainsFunc(g, func(row listRow) bool { return row.text.Value != g[0].text.Value })
	})
}

// read takes the rows under the header until two of them are blank.
func (l *readingList) read(page *layout.Page) {
	l.last = l.row
	var above []decode.Cell
	for row := l.row + 1; row <= page.Sheet.Rows() && row <= l.last+2; row++ {
		cell := page.Sheet.At(row, l.lift.Col)
		text, ok := liftOf(cell)
		if !ok || text.Ditto {
			if len(page.Sheet.Row(row)) > 0 && cell.Text == l.lift.Text {
				l.last = row // the header again on the next printed page
			}
			continue
		}
		keys, carried := l.keyCells(page, row, above)
		l.rows = append(l.rows, listRow{entry{row: row, cell: cell, text: text}, keys, carried})
		above, l.last = keys, row
	}
}

func (l *readingList) keyCells(page *layout.Page, row int, above []decode.Cell) ([]decode.Cell, bool) {
	out := make([]decode.Cell, len(l.keys))
	carried := false
	for i, k := range l.keys {
		out[i] = page.Sheet.At(row, k.header.Col)
		if above != nil && (out[i].Blank() || isDitto(out[i])) {
			carried = carried || out[i].Blank()
			out[i] = above[i]
		}
	}
	return out, carried
}

// claimList accounts for every cell of a long list.
func (b *builder) claimList(l readingList) {
	used := map[int]string{l.lift.Col: "lift"}
	for _, k := range l.keys {
		used[k.header.Col] = "stated for the reading: " + k.header.Text
	}
	for _, c := range l.flows {
		used[c.Col] = "reading"
	}
	for _, c := range l.notes {
		used[c.Col] = "note"
	}
	if !l.tp.Blank() {
		used[l.tp.Col] = "test pressure"
	}
	for row := l.row; row <= l.last; row++ {
		for _, c := range b.page.Sheet.Row(row) {
			why, ok := used[c.Col]
			if row != l.row && b.page.Sheet.At(row, l.lift.Col).Blank() {
				ok = false
			}
			if !ok {
				why = "a column of the list that is not read"
			}
			b.page.Claim(c.Row, c.Col, layout.Claim{By: b.shape, Used: ok, Why: why})
		}
	}
}
