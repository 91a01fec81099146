package layout

import (
	"cmp"
	"slices"

	"flowshelf/ingest/decode"
)

// Plane is a page looked at in one of two ways: as it stands, or with rows and
// columns swapped, so that a table with its lifts across is the same table as
// one with its lifts down. Cells keep their own row and column; only the
// places asked for are swapped.
type Plane struct {
	Page    *Page
	Swapped bool
}

// Place returns where a cell stands on the plane.
func (p Plane) Place(c decode.Cell) (row, col int) { return p.swap(c.Row, c.Col) }

// At returns the cell at row, col of the plane.
func (p Plane) At(row, col int) decode.Cell {
	return p.Page.Sheet.At(p.swap(row, col))
}

// Free reports whether nobody has accounted for row, col of the plane.
func (p Plane) Free(row, col int) bool { return p.Page.Free(p.swap(row, col)) }

// Claim accounts for row, col of the plane.
func (p Plane) Claim(row, col int, claim Claim) {
	r, c := p.swap(row, col)
	p.Page.Claim(r, c, claim)
}

// HiddenRow reports whether a row of the plane is hidden.
func (p Plane) HiddenRow(row int) bool {
	if p.Swapped {
		return p.Page.Sheet.HiddenCols[row]
	}
	return p.Page.Sheet.HiddenRows[row]
}

// HiddenCol reports whether a column of the plane is hidden.
func (p Plane) HiddenCol(col int) bool {
	if p.Swapped {
		return p.Page.Sheet.HiddenRows[col]
	}
	return p.Page.Sheet.HiddenCols[col]
}

// Cols returns the plane's highest column with a cell.
func (p Plane) Cols() int {
	if p.Swapped {
		return p.Page.Sheet.Rows()
	}
	return p.Page.Sheet.Cols()
}

// Rows returns the plane's highest row with a cell.
func (p Plane) Rows() int {
	if p.Swapped {
		return p.Page.Sheet.Cols()
	}
	return p.Page.Sheet.Rows()
}

// Columns returns the cells with a value, grouped by column of the plane and
// sorted down each of them; columns without a value are left out.
func (p Plane) Columns() [][]decode.Cell {
	cells := make([]decode.Cell, 0, len(p.Page.Sheet.Cells))
	for _, c := range p.Page.Sheet.Cells {
		if !c.Blank() {
			cells = append(cells, c)
		}
	}
	slices.SortFunc(cells, func(a, b decode.Cell) int {
		ar, ac := p.Place(a)
		br, bc := p.Place(b)
		return cmp.Or(cmp.Compare(ac, bc), cmp.Compare(ar, br))
	})
	var out [][]decode.Cell
	for from := 0; from < len(cells); {
		_, col := p.Place(cells[from])
		to := from
		for to < len(cells) {
			if _, c := p.Place(cells[to]); c != col {
				break
			}
			to++
		}
		out = append(out, cells[from:to])
		from = to
	}
	return out
}

// Merge returns the merged area over row, col in places of the plane.
func (p Plane) Merge(row, col int) (decode.Area, bool) {
	m, ok := p.Page.Sheet.MergeAt(p.swap(row, col))
	if p.Swapped {
		m.Top, m.Left, m.Bottom, m.Right = m.Left, m.Top, m.Right, m.Bottom
	}
	return m, ok
}

// Area turns an area of the plane into one of the sheet, or back.
func (p Plane) Area(a decode.Area) decode.Area {
	if p.Swapped {
		return decode.Area{Top: a.Left, Left: a.Top, Bottom: a.Right, Right: a.Bottom}
	}
	return a
}

func (p Plane) swap(row, col int) (int, int) {
	if p.Swapped {
		return col, row
	}
	return row, col
}
