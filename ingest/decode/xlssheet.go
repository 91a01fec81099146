package decode

import (
	"context"

	"flowshelf/analysis/source"
)

// xlsSheet reads the records of one sheet.
type xlsSheet struct {
	*biffStream
	book       *xlsBook
	sheet      *Sheet
	rows, cols []span // hidden
	notes      map[position]int
	texts      map[int]string // object -> its text
	object     int            // the last object, and what kind of thing it is
	objectKind int
	place      position // the cell that the last shape begins in, zero for not known
}

// readSheet reads the records of a sheet to its end mark. A chart in the sheet
// is a sheet within the sheet.
func (x *xlsBook) readSheet(ctx context.Context, stream []byte, entry xlsEntry) (*Sheet, error) {
	sheet := &Sheet{Name: entry.name, Hidden: entry.hidden}
	if entry.offset >= len(stream) {
		return nil, halfWritten("the sheet %s is missing", quoted([]byte(entry.name)))
	}
	r := &xlsSheet{biffStream: &biffStream{data: stream, pos: entry.offset}, book: x, sheet: sheet,
		notes: make(map[position]int), texts: make(map[int]string)}
	if id, _, ok := r.next(); !ok || id != recBOF {
		return nil, halfWritten("the sheet %s is missing", quoted([]byte(entry.name)))
	}
	if entry.kind != 0 {
		sheet.Charts = 1 // a chart sheet; other kinds hold no figures either
	}
	depth := 1
	for records := 0; depth > 0; records++ {
		if records%4096 == 0 && ctx.Err() != nil {
			return nil, ctx.Err()
		}
		id, body, ok := r.next()
		if !ok {
			return nil, halfWritten("the sheet %s ends in the middle", quoted([]byte(entry.name)))
		}
		switch {
		case id == recBOF:
			depth++
		case id == recEOF:
			depth--
		case depth == 1 && entry.kind == 0:
			if err := r.readRecord(id, body); err != nil {
				return nil, err
			}
		}
	}
	if err := r.attachNotes(); err != nil {
		return nil, err
	}
	sheet.Index()
	sheet.HiddenRows, sheet.HiddenCols = members(r.rows, sheet.Rows()), members(r.cols, sheet.Cols())
	return sheet, checkTwice(sheet)
}

func (r *xlsSheet) readRecord(id uint16, body []byte) error {
	f := fieldsOf(body)
	var err error
	switch id {
	case recNumber, recRK, recMulRK, recLabelShared, recLabel, recRString, recBoolErr, recFormula:
		err = r.readCells(id, f)
	case recRow:
		row := f.u16() + 1
		f.skip(10)
		if f.u32()&0x20 != 0 {
			r.rows = append(r.rows, span{row, row})
		}
	case recColInfo:
		run := span{f.u16() + 1, min(f.u16()+1, 256)}
		width := f.u16()
		f.skip(2)
		if f.u16()&1 != 0 || width == 0 {
			r.cols = append(r.cols, run)
		}
	case recMergeCells:
		err = r.readMerges(f)
	case recDrawing:
		r.readPlace(body)
	case recObject, recNote, recTextObject:
		err = r.readObject(id, f)
	}
	if err == nil && f.bad {
		err = halfWritten("a record of kind %#x is too short", id)
	}
	return err
}

// readCells reads the one cell of a record, or the several of a MULRK.
func (r *xlsSheet) readCells(id uint16, f *biffFields) error {
	row, col := f.u16()+1, f.u16()+1
	for {
		cell := Cell{Row: row, Col: col, Stored: true}
		dated, err := r.applyStyle(&cell, f.u16())
		if err != nil {
			return err
		}
		if !r.setValue(&cell, id, f) {
			return halfWritten("cell %s holds no value of its kind", source.CellName(row, col))
		}
		if dated && cell.Kind == Number {
			cell.Kind = Date
			if r.book.is1904 {
				cell.Num += days1904
			}
		}
		if err := r.keep(cell); err != nil {
			return err
		}
		// Six bytes a further cell, and the number of the last column.
		if id != recMulRK || len(f.chunk) < 6 || f.bad {
			return nil
		}
		col++
	}
}

func (r *xlsSheet) keep(cell Cell) error {
	if cell.Blank() && cell.Formula == "" {
		return nil
	}
	if err := r.book.budget.checkText(len(cell.Text)); err != nil {
		return err
	}
	if err := r.book.budget.takeCell(cell.Row, cell.Col); err != nil {
		return err
	}
	r.sheet.Cells = append(r.sheet.Cells, cell)
	return nil
}

func (r *xlsSheet) applyStyle(cell *Cell, index int) (dated bool, err error) {
	style, ok := r.book.style(index)
	if !ok {
		return false, halfWritten("cell %s has a style that is not for cells", source.CellName(cell.Row, cell.Col))
	}
	cell.Format, cell.Struck, cell.Bold, cell.Filled = style.format, style.struck, style.bold, style.filled
	return style.date, nil
}
