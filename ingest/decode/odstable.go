package decode

import (
	"context"
	"sort"

	"flowshelf/analysis/source"
)

// odsTable reads one table element.
type odsTable struct {
	*scanner
	ctx     context.Context // of the one Decode call that this reader serves
	book    *odsBook
	sheet   Sheet
	linked  bool // the table mirrors another book
	columns []odsColumns
	rows    []span // hidden
	cols    []span // hidden
	row     int    // rows read so far
	col     int    // columns described so far
}

// odsColumns is a run of columns with one default style.
type odsColumns struct {
	span
	style string
}

// read reads the table to its end. Rows may lie in groups, so that everything
// below the table is looked at, whatever its depth.
func (t *odsTable) read() {
	depth := t.depth()
	for t.next() {
		if t.kind == endTag && t.depth() < depth {
			break
		}
		if t.kind != startTag {
			continue
		}
		switch string(t.name) {
		case "table-source":
			t.linked = true
		case "table-column":
			t.readColumn()
		case "table-row":
			t.readRow()
		case "shapes":
			t.readShapes()
		}
	}
	last := span{}
	for i := range t.sheet.Cells {
		last.first, last.last = max(last.first, t.sheet.Cells[i].Row), max(last.last, t.sheet.Cells[i].Col)
	}
	t.sheet.HiddenRows, t.sheet.HiddenCols = members(t.rows, last.first), members(t.cols, last.last)
}

// repeated reads a repeat count, 1 when absent.
func (t *odsTable) repeated(attribute string) int {
	value := t.attr(attribute)
	if value == nil {
		return 1
	}
	n, ok := smallInt(value)
	if !ok || n < 1 || n > lastRow {
		t.fail("something is repeated %s times", quoted(value))
		return 1
	}
	return n
}

func (t *odsTable) readColumn() {
	run := span{t.col + 1, t.col + t.repeated("number-columns-repeated")}
	if run.last > lastCol {
		t.fail("it has more than %d columns", lastCol)
		return
	}
	t.col = run.last
	t.columns = append(t.columns, odsColumns{run, string(t.attr("default-cell-style-name"))})
	if isHidden(t.attr("visibility")) {
		t.cols = append(t.cols, run)
	}
}

// isHidden reads the visibility of a row or column, which a filter or a closed
// group takes away too.
func isHidden(visibility []byte) bool {
	return string(visibility) == "collapse" || string(visibility) == "filter"
}

// readRow reads a row and repeats it as often as it says; only rows with values
// cost anything.
func (t *odsTable) readRow() {
	times := t.repeated("number-rows-repeated")
	run := span{t.row + 1, t.row + times}
	t.row = run.last
	if run.last > lastRow {
		t.fail("it has more than %d rows", lastRow)
		return
	}
	if t.ctx.Err() != nil {
		t.stop(t.ctx.Err())
		return
	}
	if isHidden(t.attr("visibility")) {
		t.rows = append(t.rows, run)
	}
	style := string(t.attr("default-cell-style-name"))
	first := len(t.sheet.Cells)
	col := 1
	depth := t.depth()
	for t.child(depth) {
		if name := string(t.name); name == "table-cell" || name == "covered-table-cell" {
			col = t.readCell(run.first, col, style)
		}
	}
	cells := t.sheet.Cells[first:]
	for row := run.first + 1; row <= run.last && len(cells) > 0; row++ {
		for _, cell := range cells {
			cell.Row = row
			if !t.keep(cell) {
				return
			}
		}
	}
}

// readCell reads a cell, repeats it as often as it says and returns the next
// column.
func (t *odsTable) readCell(row, col int, rowStyle string) int {
	next := col + t.repeated("number-columns-repeated")
	if next > lastCol+1 {
		t.fail("row %d has more than %d columns", row, lastCol)
		return next
	}
	name := string(t.attr("style-name"))
	if name == "" {
		name = rowStyle
	}
	if name == "" {
		name = t.columnStyle(col)
	}
	area := Area{row, col, row + t.repeated("number-rows-spanned") - 1, col + t.repeated("number-columns-spanned") - 1}
	cell := t.cellValue(t.book.styles.cell(name), position{row, col})
	cell.Row = row
	if area.Bottom > row || area.Right > col {
		t.merge(area)
	}
	if cell.Blank() && cell.Note == "" && cell.Formula == "" {
		return next
	}
	for ; col < next; col++ {
		cell.Col = col
		if !t.keep(cell) {
			break
		}
	}
	return next
}

func (t *odsTable) merge(area Area) {
	if len(t.sheet.Merges) >= mostMerges {
		t.stop(tooLarge("the sheet %s has more than %d merged areas", quoted([]byte(t.sheet.Name)), mostMerges))
		return
	}
	if area.Bottom > lastRow || area.Right > lastCol {
		t.fail("the merged area at %s is off the sheet", source.CellName(area.Top, area.Left))
		return
	}
	t.sheet.Merges = append(t.sheet.Merges, area)
}

// keep adds a cell to the sheet; false when there is no room left, or an
// earlier fault.
func (t *odsTable) keep(cell Cell) bool {
	if t.err == nil {
		t.stop(t.book.budget.takeCell(cell.Row, cell.Col))
	}
	if t.err != nil {
		return false
	}
	t.sheet.Cells = append(t.sheet.Cells, cell)
	return true
}

// columnStyle is the default style of a column.
func (t *odsTable) columnStyle(col int) string {
	i := sort.Search(len(t.columns), func(i int) bool { return t.columns[i].last >= col })
	if i == len(t.columns) {
		return ""
	}
	return t.columns[i].style
}
