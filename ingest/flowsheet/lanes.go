package flowsheet

import (
	"slices"
	"strings"
	"unicode"

	"flowshelf/analysis/source"
	"flowshelf/ingest/decode"
	"flowshelf/ingest/layout"
	"flowshelf/ingest/parse"
	"flowshelf/ingest/words"
)

func (r *reader) trace(page *layout.Page, c decode.Cell) source.Trace {
	return source.Trace{At: page.Ref(c), Text: cellText(c)}
}

// headerRows finds the rows of headers over a table.
func (t *table) headerRows(all []axis) {
	lead := t.lead
	plane := t.plane()
	base := lead.first() - 1
	if !lead.label.Blank() {
		base, _ = plane.Place(lead.label)
	}
	for row := base + 1; row < lead.first(); row++ {
		t.headers = append(t.headers, row) // a row of units
	}
	t.top = max(base, 1)
	if base < 1 {
		return
	}
	if plane.Swapped {
		t.sideHeaders(lead, all)
		return
	}
	t.headers = append([]int{base}, t.headers...)
	if t.blankRow(base) || lead.label.Blank() && t.titleRow(base) {
		t.headers = t.headers[1:]
		t.top = lead.first()
		return
	}
	if row := base - 1; row >= 1 && t.unitsRow(base) && !t.blankRow(row) && !t.titleRow(row) {
		t.headers = append([]int{row}, t.headers...) // the words over a row of units
		t.top, base = row, row
	}
	for row := base - 1; row >= 1 && t.isBannerRow(row); row-- {
		t.headers = append([]int{row}, t.headers...)
		t.top = row
	}
}

// sideHeaders takes every column left of lifts that run across: head, port,
// bore, date, each with its caption in the row of the lifts.
func (t *table) sideHeaders(lead axis, all []axis) {
	from := 1
	for _, o := range all {
		if o.plane.Swapped && o.col == lead.col && o.last() < lead.first() {
			from = max(from, o.last()+1)
		}
	}
	t.headers, t.top = nil, lead.first()
	for row := lead.first() - 1; row >= from; row-- {
		t.headers = append([]int{row}, t.headers...)
		t.top = row
	}
}

// titleRow reports whether a row holds nothing but a text over the lifts that is
// no header of theirs.
func (t *table) titleRow(row int) bool {
	cells := t.rowCells(row)
	_, col := t.plane().Place(cells[0])
	return len(cells) == 1 && col == t.axis.col && cells[0].Kind == decode.Text
}

func (t *table) blankRow(row int) bool {
	for col := t.axis.col; col <= min(t.right, t.axis.col+60); col++ {
		if !t.plane().At(row, col).Blank() {
			return false
		}
	}
	return true
}

// isBannerRow tells a row of banners from a title line. A banner row leaves
// the corner over the lifts empty, or captions itself there, or merges cells
// over some of the lanes.
func (t *table) isBannerRow(row int) bool {
	plane := t.plane()
	corner := plane.At(row, t.axis.col)
	filled, merged := 0, false
	for col := t.axis.col + 1; col <= min(t.right, t.axis.col+200); col++ {
		c := plane.At(row, col)
		if c.Blank() || !plane.Free(row, col) {
			continue
		}
		filled++
		if m, ok := plane.Merge(row, col); ok && m.Right > m.Left && m.Left > t.axis.col {
			merged = true
		}
	}
	if m, ok := plane.Merge(row, t.axis.col); ok && m.Right > m.Left {
		return false
	}
	if filled == 0 {
		return false
	}
	if corner.Blank() || merged {
		return true
	}
	if _, ok := captionOf(corner.Text); ok && corner.Kind == decode.Text && !strings.Contains(corner.Text, ":") {
		return filled >= 2 && !t.keyRow(row) && !t.conditionsRow(row)
	}
	return false
}

// unitsRow reports whether a row holds units and nothing else.
func (t *table) unitsRow(row int) bool {
	cells := t.rowCells(row)
	return len(cells) > 0 && !slices.ContainsFunc(cells, func(c decode.Cell) bool {
		_, flow := parse.FindFlowUnit(c.Text)
		return c.Kind != decode.Text || !unitsOnly(c) && (!flow || strings.TrimSpace(parse.StrikeFlowUnit(c.Text)) != "")
	})
}

// keyRow reports whether a row is keys and values in turn: Serial, C4410,
// Date, 2026-03-05.
func (t *table) keyRow(row int) bool {
	keys := 0
	for _, c := range t.rowCells(row) {
		if c.Kind != decode.Text {
			continue
		}
		if k, ok := captionOf(c.Text); ok && k.role != words.Flow && k.role != words.Port {
			keys++
		}
	}
	return keys >= 2
}

// conditionsRow reports whether a row tells once how a whole page was flowed:
// the pressure in one of its cells, the bore in another.
func (t *table) conditionsRow(row int) bool {
	pressures, bores := 0, 0
	for _, c := range t.rowCells(row) {
		switch {
		case c.Kind != decode.Text:
		case len(parse.FindBores(c.Text)) > 0:
			bores++
		case len(parse.FindPressures(c.Text)) > 0:
			pressures++
		}
	}
	return pressures == 1 && bores == 1
}

func (t *table) rowCells(row int) []decode.Cell {
	var out []decode.Cell
	for col := t.axis.col; col <= min(t.right, t.axis.col+200); col++ {
		if c := t.plane().At(row, col); !c.Blank() {
			out = append(out, c)
		}
	}
	return out
}

// findLanes walks the columns beside the lifts until two of them are blank.
func (t *table) findLanes(r *reader) {
	section := newFacts()
	blank, last := 0, t.axis.col
	for col := t.axis.col + 1; col <= t.right && blank < 2; col++ {
		numbers, others := t.contents(col)
		headed := t.headed(col)
		if t.keysOnly(col) {
			break // conditions that are listed beside the table
		}
		switch {
		case numbers+len(others) == 0 && !headed:
			blank++
			continue
		case numbers+len(others) == 0 && t.uncalculated(col):
			t.lanes = append(t.lanes, &lane{col: col, section: section})
			last = col
		case numbers+len(others) == 0:
			section = t.sectionFacts(r, col)
			if !t.plane().Swapped && len(t.lanes) > 0 && section.onlyConditions() {
				t.corner, last = t.corner.beside(section), col // "60 mbar" behind the columns speaks of all of them
				section = newFacts()
			}
		case (numbers == 0 || t.notesPressures(col)) && !headed:
			t.margin = append(t.margin, t.beside(col)...)
			last = col
		default:
			t.lanes = append(t.lanes, &lane{col: col, section: section})
			last = col
		}
		blank = 0
	}
	t.right = last
}

// leftLanes takes columns before the lifts that are headed as ports are: some
// sheets have the lifts between the two.
func (t *table) leftLanes(r *reader, all []axis) {
	if t.plane().Swapped && len(t.lanes) > 0 {
		return // titles stand over it
	}
	for _, o := range all {
		if o.plane.Swapped == t.plane().Swapped && o.col < t.axis.col && overlap(o, t.axis) {
			return // they are the lanes of another list
		}
	}
	for col := t.axis.col - 1; col >= 1; col-- {
		numbers, _ := t.contents(col)
		header := decode.Cell{}
		if len(t.headers) > 0 {
			header = t.plane().At(t.headers[len(t.headers)-1], col)
		}
		if numbers < 2 || len(r.header(t.plane().Page, header).port) == 0 {
			return
		}
		t.lanes = append([]*lane{{col: col, section: newFacts()}}, t.lanes...)
		t.left = col
	}
}

// contents counts the numbers beside the lifts in a column and returns the
// cells that are none.
func (t *table) contents(col int) (numbers int, others []decode.Cell) {
	for _, e := range t.axis.entries {
		c := t.plane().At(e.row, col)
		switch {
		case c.Blank() || !t.plane().Free(e.row, col):
		case isFigure(c):
			numbers++
		default:
			others = append(others, c)
		}
	}
	return numbers, others
}

// beside returns what stands beside the lifts in a column.
func (t *table) beside(col int) []decode.Cell {
	var out []decode.Cell
	for _, e := range t.axis.entries {
		if c := t.plane().At(e.row, col); !c.Blank() && t.plane().Free(e.row, col) {
			out = append(out, c)
		}
	}
	return out
}

// notesPressures reports whether a column holds nothing but test pressures, each with
// its unit: "22 in H2O" beside one row.
func (t *table) notesPressures(col int) bool {
	all := t.beside(col)
	return len(all) > 0 && !slices.ContainsFunc(all, func(c decode.Cell) bool {
		return c.Kind != decode.Text || len(parse.FindPressures(c.Text)) != 1 || !strings.ContainsFunc(c.Text, unicode.IsLetter)
	})
}

// uncalculated reports whether a column holds formulas beside the lifts that nobody
// has worked out: readings that are there and cannot be read.
func (t *table) uncalculated(col int) bool {
	return slices.ContainsFunc(t.axis.entries, func(e entry) bool {
		c := t.plane().At(e.row, col)
		return c.Formula != "" && !c.Stored && t.plane().Free(e.row, col)
	})
}

// isFigure reports whether a cell holds a number, however oddly typed, rather
// than words with a number among them.
func isFigure(c decode.Cell) bool {
	if c.Kind != decode.Text {
		return c.Kind != decode.Bool && c.Kind != decode.Empty
	}
	text := strings.TrimSpace(c.Text)
	if r := parse.Reading(text, parse.MarkUnknown); r.Known || r.Either != [2]float64{} {
		return true
	}
	return text != "" && len(text) <= 20 && strings.ContainsAny(text[:1], "0123456789.,<>~(")
}

func (t *table) headed(col int) bool {
	for _, row := range t.headers {
		if !t.plane().At(row, col).Blank() {
			return true
		}
		if m, ok := t.plane().Merge(row, col); ok && !t.plane().At(m.Top, m.Left).Blank() && m.Left > t.axis.col {
			return true
		}
	}
	return false
}

// sectionFacts reads a row without readings between lanes: a family, a state
// or a port for what follows.
func (t *table) sectionFacts(r *reader, col int) facts {
	f := newFacts()
	for _, row := range t.headers {
		if c := t.plane().At(row, col); !c.Blank() {
			f = f.beside(r.header(t.plane().Page, c))
		}
	}
	return f
}
