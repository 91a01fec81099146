package lists

import (
	"slices"

	"flowshelf/ingest/decode"
	"flowshelf/ingest/layout"
)

// view is a page as it stands, or turned on its side, so that a sheet with
// heads across reads like one with heads down.
type view struct {
	page  *layout.Page
	lines map[int][]spot // by line, in order of place
	last  int            // highest line
}

// spot is a cell at its line and place in the view. The cell keeps its own row
// and column.
type spot struct {
	line, place int
	cell        decode.Cell
}

func upright(page *layout.Page) view {
	return newView(page, func(c decode.Cell) spot { return spot{c.Row, c.Col, c} })
}

func turned(page *layout.Page) view {
	return newView(page, func(c decode.Cell) spot { return spot{c.Col, c.Row, c} })
}

// newView leaves out blank cells and those that another recogniser has
// accounted for.
func newView(page *layout.Page, locate func(decode.Cell) spot) view {
	v := view{page: page, lines: make(map[int][]spot)}
	for _, c := range page.Sheet.Cells {
		if c.Blank() || !page.Free(c.Row, c.Col) {
			continue
		}
		s := locate(c)
		v.lines[s.line] = append(v.lines[s.line], s)
		v.last = max(v.last, s.line)
	}
	for _, line := range v.lines {
		slices.SortFunc(line, func(a, b spot) int { return a.place - b.place })
	}
	return v
}

func (v view) at(line, place int) (decode.Cell, bool) {
	for _, s := range v.lines[line] {
		if s.place == place {
			return s.cell, true
		}
	}
	return decode.Cell{}, false
}

func (v view) hidden(c decode.Cell) bool {
	return v.page.Sheet.HiddenRows[c.Row] || v.page.Sheet.HiddenCols[c.Col]
}
