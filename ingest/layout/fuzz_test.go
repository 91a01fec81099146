package layout_test

import (
	"slices"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"flowshelf/ingest/decode"
	"flowshelf/ingest/layout"
)

// drawn makes a sheet of rows of cells parted by "|": "~" is a blank cell with a
// note, which Sheet keeps and no reader may take for a value.
func drawn(drawing string) *decode.Sheet {
	s := &decode.Sheet{Name: "Sheet1", HiddenRows: map[int]bool{2: true}, HiddenCols: map[int]bool{3: true}}
	for r, row := range strings.Split(drawing, "\n") {
		for c, text := range strings.Split(row, "|") {
			cell := decode.Cell{Row: r + 1, Col: c + 1, Kind: decode.Text, Text: text, Stored: true}
			switch text {
			case "":
				continue
			case "~":
				cell = decode.Cell{Row: r + 1, Col: c + 1, Note: "a note"}
			}
			s.Cells = append(s.Cells, cell)
		}
	}
	return s
}

// FuzzLayout lays any cells and any merged area out, as they stand and turned:
// nothing panics, every cell with a value is found exactly once and in order, a
// claim lands on the cell it was made on and nowhere else, and what is looked at
// through the turned plane is the same page.
func FuzzLayout(f *testing.F) {
	f.Add("Lift|Int|Exh\n.100|68|56\n.200|134|107", 1, 1, 1, 3, false)
	f.Add("|LKC-12||PW-33\nLift|Int|Exh|Int\n\n\n.200|~|107|x", 1, 2, 1, 3, true)
	f.Add("~", 1, 1, 1, 1, true)
	f.Add("", 0, 0, 0, 0, false)
	f.Add("a\n\n\nb|c\n|||d", 5, 5, 2, 2, true)
	f.Add("a|b", -3, -9, 1<<40, 1<<40, false)
	f.Fuzz(func(t *testing.T, drawing string, top, left, bottom, right int, swapped bool) {
		if len(drawing) > 2000 {
			t.Skip()
		}
		sheet := drawn(drawing)
		area := decode.Area{Top: top, Left: left, Bottom: bottom, Right: right}
		if top >= 1 && left >= 1 && top <= bottom && left <= right && bottom < 1<<20 && right < 1<<14 {
			sheet.Merges = []decode.Area{area} // what the decoder lets pass
		}
		sheet.Index()
		page := layout.NewPage("book.xlsx", &decode.Book{Sheets: []decode.Sheet{*sheet}}, sheet)
		plane := layout.Plane{Page: page, Swapped: swapped}
		checkLines(t, page, plane)
		checkColumns(t, plane)
		checkAreas(t, plane, area)
		checkClaims(t, page, plane)
	})
}

func checkLines(t *testing.T, page *layout.Page, plane layout.Plane) {
	t.Helper()
	whole := decode.Area{Top: 1, Left: 1, Bottom: page.Sheet.Rows(), Right: page.Sheet.Cols()}
	lines := layout.Lines(page, whole)
	var cells []decode.Cell
	for _, l := range lines {
		for _, c := range l.Cells {
			if c.Row != l.Row || c.Blank() || !whole.Contains(c.Row, c.Col) {
				t.Errorf("cell %d, %d stands in the line of row %d", c.Row, c.Col, l.Row)
			}
		}
		cells = append(cells, l.Cells...)
	}
	if diff := cmp.Diff(page.Unclaimed(), cells); diff != "" {
		t.Errorf("the lines do not hold every value once (-page +lines):\n%s", diff)
	}
	if plane.Rows() < 0 || plane.Cols() < 0 {
		t.Errorf("%d rows, %d columns", plane.Rows(), plane.Cols())
	}
	var together []layout.Line
	for _, group := range layout.Groups(lines) {
		for i, l := range group {
			if i > 0 && l.Row != group[i-1].Row+1 {
				t.Errorf("rows %d and %d stand in one group", group[i-1].Row, l.Row)
			}
		}
		together = append(together, group...)
	}
	if diff := cmp.Diff(lines, together); diff != "" {
		t.Errorf("the groups are not the lines:\n%s", diff)
	}
}

func checkColumns(t *testing.T, plane layout.Plane) {
	t.Helper()
	count, before := 0, 0
	for _, column := range plane.Columns() {
		_, col := plane.Place(column[0])
		if col <= before {
			t.Errorf("column %d comes after %d", col, before)
		}
		before = col
		above := 0
		for _, c := range column {
			row, at := plane.Place(c)
			if at != col || row <= above || row > plane.Rows() || at > plane.Cols() {
				t.Errorf("cell %d, %d stands at %d, %d of the plane, in column %d", c.Row, c.Col, row, at, col)
			}
			if diff := cmp.Diff(c, plane.At(row, at)); diff != "" {
				t.Errorf("at %d, %d of the plane stands another cell:\n%s", row, at, diff)
			}
			above = row
			count++
		}
	}
	if n := len(plane.Page.Unclaimed()); n != count {
		t.Errorf("%d cells in the columns, %d on the page", count, n)
	}
}

func checkAreas(t *testing.T, plane layout.Plane, area decode.Area) {
	t.Helper()
	if there := plane.Area(plane.Area(area)); there != area {
		t.Errorf("%v there and back is %v", area, there)
	}
	for _, c := range plane.Page.Sheet.Cells {
		row, col := plane.Place(c)
		m, merged := plane.Merge(row, col)
		_, sheets := plane.Page.Sheet.MergeAt(c.Row, c.Col)
		if merged != sheets || merged && !m.Contains(row, col) {
			t.Errorf("%d, %d: merged %v as %v", row, col, merged, m)
		}
		if plane.HiddenRow(row) != (plane.Swapped && c.Col == 3 || !plane.Swapped && c.Row == 2) {
			t.Errorf("row %d of the plane is hidden: %v", row, plane.HiddenRow(row))
		}
		if plane.HiddenCol(col) != (plane.Swapped && c.Row == 2 || !plane.Swapped && c.Col == 3) {
			t.Errorf("column %d of the plane is hidden: %v", col, plane.HiddenCol(col))
		}
	}
}

// checkClaims sets every other value aside, uses all, and sets all aside again.
func checkClaims(t *testing.T, page *layout.Page, plane layout.Plane) {
	t.Helper()
	values := page.Unclaimed()
	for i, c := range values {
		if row, col := plane.Place(c); i%2 == 0 {
			plane.Claim(row, col, layout.Claim{By: "one", Why: "set aside"})
		}
	}
	if n := len(page.Unclaimed()); n != len(values)/2 || page.Left() != n {
		t.Errorf("%d of %d values are left after every other one was claimed", n, len(values))
	}
	for _, claim := range []layout.Claim{{By: "two", Used: true}, {By: "three", Why: "too late"}} {
		for _, c := range values {
			row, col := plane.Place(c)
			plane.Claim(row, col, claim)
		}
	}
	filled := func(row, col int) bool {
		return slices.ContainsFunc(values, func(c decode.Cell) bool { return c.Row == row && c.Col == col })
	}
	const most = 60
	for row := 0; row <= min(page.Sheet.Rows(), most)+1; row++ {
		for col := 0; col <= min(page.Sheet.Cols(), most)+1; col++ {
			claim, ok := page.ClaimedBy(row, col)
			if ok != filled(row, col) || ok == page.Free(row, col) || ok && claim != (layout.Claim{By: "two", Used: true}) {
				t.Errorf("%d, %d is claimed %v: %+v", row, col, ok, claim)
			}
		}
	}
}
