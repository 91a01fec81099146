package decode

import (
	"bytes"
	"context"

	"flowshelf/analysis/source"
)

// sheetReader reads the part of one worksheet.
type sheetReader struct {
	*scanner
	ctx      context.Context // of the one Decode call that this reader serves
	book     *xlsxBook
	sheet    *Sheet
	shared   map[int]sharedFormula
	cols     []span   // hidden columns
	rows     []span   // hidden rows
	drawings []string // relationship ids of drawings and old comment shapes
	row, col int      // position of the last cell
	value    []byte   // stored value of the cell at hand
	digits   texts    // of the numbers
	formula  []byte
}

// mostMerges is the most merged areas of a sheet: finding the one that covers a
// cell takes a look at each.
const mostMerges = 10_000

// span is a run of rows or columns.
type span struct{ first, last int }

// readSheet reads one sheet and all that hangs on it.
func (x *xlsxBook) readSheet(ctx context.Context, rel relationship, sheet *Sheet) error {
	rels, err := x.relationships(rel.target)
	if err != nil {
		return err
	}
	r := &sheetReader{}
	if rel.kind == "worksheet" {
		data, err := x.read(rel.target)
		if err != nil {
			return err
		}
		r = &sheetReader{scanner: newScanner("the sheet "+quoted([]byte(sheet.Name)), data), ctx: ctx, book: x, sheet: sheet,
			shared: make(map[int]sharedFormula)}
		const brackets = 4 // of a cell with a plain value
		sheet.Cells = make([]Cell, 0, min(bytes.Count(data, []byte("<"))/brackets, x.budget.cells))
		if err := r.read(); err != nil {
			return err
		}
		if err := checkReferences(rels, r.drawings); err != nil {
			return err
		}
	}
	if err := x.readNotes(rels, sheet); err != nil {
		return err
	}
	if err := x.readDrawings(rels, sheet); err != nil {
		return err
	}
	sheet.Index()
	sheet.HiddenRows, sheet.HiddenCols = members(r.rows, sheet.Rows()), members(r.cols, sheet.Cols())
	return checkTwice(sheet)
}

// checkReferences refuses a sheet that shows something which its relationships
// do not list: notes would be lost.
func checkReferences(rels []relationship, ids []string) error {
	known := make(map[string]bool, len(rels))
	for _, rel := range rels {
		known[rel.id] = true
	}
	for _, id := range ids {
		if !known[id] {
			return damaged("a sheet refers to a drawing that is missing")
		}
	}
	return nil
}

// checkTwice refuses two values for one cell.
func checkTwice(sheet *Sheet) error {
	for i := 1; i < len(sheet.Cells); i++ {
		a, b := &sheet.Cells[i-1], &sheet.Cells[i]
		if a.Row == b.Row && a.Col == b.Col {
			return damaged("the sheet %s has two values for cell %s", quoted([]byte(sheet.Name)), source.CellName(a.Row, a.Col))
		}
	}
	return nil
}

func (r *sheetReader) read() error {
	r.next()
	root := r.depth()
	for r.child(root) {
		section := r.depth()
		switch string(r.name) {
		case "cols":
			for r.child(section) {
				r.readColumns()
			}
		case "sheetData":
			for r.child(section) {
				r.readRow()
			}
		case "mergeCells":
			for r.child(section) {
				r.readMerge()
			}
		case "drawing", "legacyDrawing":
			r.drawings = append(r.drawings, string(r.attr("id")))
		}
	}
	return r.drain()
}

// readColumns notes hidden columns. Ranges that overlap are refused, as Excel
// does, which also bounds their sum.
func (r *sheetReader) readColumns() {
	first, okFirst := smallInt(r.attr("min"))
	last, okLast := smallInt(r.attr("max"))
	if !okFirst || !okLast || first < 1 || last < first || last > lastCol {
		r.fail("the columns %s to %s do not exist", quoted(r.attr("min")), quoted(r.attr("max")))
		return
	}
	if r.flag("hidden") || string(r.attr("width")) == "0" {
		if n := len(r.cols); n > 0 && first <= r.cols[n-1].last {
			r.fail("column %d is described twice", first)
			return
		}
		r.cols = append(r.cols, span{first, last})
	}
}

// members lists the numbers in the spans as far as there are cells: programs
// like to hide the whole rest of a sheet.
func members(spans []span, last int) map[int]bool {
	numbers := make(map[int]bool)
	for _, s := range spans {
		for n := s.first; n <= min(s.last, last); n++ {
			numbers[n] = true
		}
	}
	return numbers
}

func (r *sheetReader) readMerge() {
	area, ok := areaAt(r.attr("ref"))
	if !ok {
		r.fail("a merged area is called %s", quoted(r.attr("ref")))
		return
	}
	if len(r.sheet.Merges) >= mostMerges {
		r.stop(tooLarge("the sheet %s has more than %d merged areas", quoted([]byte(r.sheet.Name)), mostMerges))
		return
	}
	if err := r.book.budget.takeCell(area.Bottom, area.Right); err != nil {
		r.stop(err)
		return
	}
	r.sheet.Merges = append(r.sheet.Merges, area)
}

// readRow reads one row. A row or cell without a position follows the one
// before it.
func (r *sheetReader) readRow() {
	row := r.row + 1
	if at := r.attr("r"); at != nil {
		n, ok := smallInt(at)
		if !ok || n < 1 || n > lastRow {
			r.fail("a row has the number %s", quoted(at))
			return
		}
		row = n
	}
	r.row, r.col = row, 0
	if row%1024 == 0 && r.ctx.Err() != nil {
		r.stop(r.ctx.Err())
		return
	}
	if r.flag("hidden") || string(r.attr("ht")) == "0" {
		if n := len(r.rows); n > 0 && r.rows[n-1].last == row-1 {
			r.rows[n-1].last = row
		} else {
			r.rows = append(r.rows, span{row, row})
		}
	}
	depth := r.depth()
	for r.child(depth) {
		if string(r.name) == "c" {
			r.readCell()
		}
	}
}
