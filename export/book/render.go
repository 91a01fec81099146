package book

import (
	"errors"
	"fmt"
	"iter"
	"math"
	"strings"

	"github.com/xuri/excelize/v2"
)

// application is how the workbook says which program wrote it: not a
// spreadsheet program's name, which would vouch for results it never computed.
const application = "Flowshelf"

// Bytes returns the workbook, sealed with its id and the fingerprint of its
// cells.
func (b *Book) Bytes() ([]byte, error) {
	if len(b.sheets) == 0 {
		return nil, errors.New("a workbook needs a sheet")
	}
	f := excelize.NewFile()
	defer f.Close() //nolint:errcheck // an in-memory file: nothing is left to lose once its bytes are out
	if err := f.SetDefaultFont(fontName); err != nil {
		return nil, err
	}
	f.SetActiveSheet(0) // while there is but one: later it would parse all that was written
	r := &renderer{book: b, file: f, styles: map[Style]int{}, conditional: map[Style]int{}}
	for i, s := range b.sheets {
		s.fit()
		s.breakPages(b.props.Paper)
		if err := r.sheet(i, s); err != nil {
			return nil, fmt.Errorf("sheet %q: %w", s.name, err)
		}
	}
	if err := r.properties(); err != nil {
		return nil, err
	}
	buf, err := f.WriteToBuffer()
	if err != nil {
		return nil, err
	}
	return buf.Bytes(), nil
}

// renderer lays one book out in one file.
type renderer struct {
	book        *Book
	file        *excelize.File
	styles      map[Style]int
	conditional map[Style]int
	charts      int
}

// sheet writes everything but the cells first: the stream that stores formulas
// with their results takes over what is already set and then closes the sheet.
func (r *renderer) sheet(i int, s *Sheet) error {
	if i == 0 {
		if err := r.file.SetSheetName(r.file.GetSheetName(0), s.name); err != nil {
			return err
		}
	} else if _, err := r.file.NewSheet(s.name); err != nil {
		return err
	}
	return firstError(
		func() error { return r.view(s) },
		func() error { return s.setPage(r.file, r.book.props.Paper, r.book.dated()) },
		func() error { return r.links(i+1, s) },
		func() error { return r.dropDowns(s) },
		func() error { return r.marks(s) },
		func() error { return r.drawings(s) },
		func() error { return r.lock(s) },
		func() error { return r.cells(s) },
	)
}

func (b *Book) dated() string {
	if b.props.Dated.IsZero() {
		return b.props.Shop
	}
	return strings.TrimPrefix(b.props.Shop+", "+b.props.Dated.Format("2006-01-02"), ", ")
}

func (r *renderer) view(s *Sheet) error {
	// The dimension must stand before the stream starts; readers that stream
	// believe it.
	if s.lastRow > 0 {
		if err := r.file.SetSheetDimension(s.name, "A1:"+CellName(s.lastRow, s.lastCol)); err != nil {
			return err
		}
	}
	// Charts are anchored to cells, so their sizes must stand before them.
	rowHeight, custom := defaultRowPoints, true
	if err := r.file.SetSheetProps(s.name, &excelize.SheetPropsOptions{DefaultRowHeight: &rowHeight, CustomHeight: &custom}); err != nil {
		return err
	}
	// From the last column to the first: each one set is put before the others,
	// and a sheet whose columns are not in order counts as damaged.
	for col := s.lastCol; col >= 1; col-- {
		if err := r.column(s, col); err != nil {
			return err
		}
	}
	if err := r.file.SetSheetView(s.name, 0, &excelize.ViewOptions{ShowGridLines: &s.grid}); err != nil {
		return err
	}
	if s.frozen.rows == 0 && s.frozen.cols == 0 {
		return nil
	}
	pane := map[bool]string{true: "bottomRight", false: "bottomLeft"}[s.frozen.cols > 0]
	if s.frozen.rows == 0 {
		pane = "topRight"
	}
	return r.file.SetPanes(s.name, &excelize.Panes{
		Freeze: true, XSplit: s.frozen.cols, YSplit: s.frozen.rows, ActivePane: pane,
		TopLeftCell: CellName(s.frozen.rows+1, s.frozen.cols+1),
	})
}

func (r *renderer) column(s *Sheet, col int) error {
	name := ColumnName(col)
	if err := r.file.SetColWidth(s.name, name, name, s.width(col)); err != nil {
		return err
	}
	if level := s.outline[col]; level > 0 {
		if err := r.file.SetColOutlineLevel(s.name, name, level); err != nil {
			return err
		}
	}
	if s.hidden[col] {
		return r.file.SetColVisible(s.name, name, false)
	}
	return nil
}

func (r *renderer) cells(s *Sheet) error {
	sw, err := r.file.NewStreamWriter(s.name)
	if err != nil {
		return err
	}
	for row := 1; row <= s.lastRow; row++ {
		if err := r.row(sw, s, row); err != nil {
			return fmt.Errorf("row %d: %w", row, err)
		}
	}
	for _, row := range s.breaks {
		if err := sw.InsertPageBreak(CellName(row, 1)); err != nil {
			return err
		}
	}
	if err := s.merge(sw); err != nil {
		return err
	}
	if len(s.tables) > 1 {
		return errors.New("one table with filters a sheet; make the others plain blocks")
	}
	for _, t := range s.tables {
		if err := s.checkTable(t); err != nil {
			return err
		}
		stripes := false
		if err := sw.AddTable(&excelize.Table{
			Range: t.area.local(), Name: t.name, StyleName: "TableStyleLight1", ShowRowStripes: &stripes,
		}); err != nil {
			return err
		}
	}
	return sw.Flush()
}

// merge joins the cells of sentences, in order of place.
func (s *Sheet) merge(sw *excelize.StreamWriter) error {
	for at := range s.each() {
		area, merged := s.merged[at]
		if !merged {
			continue
		}
		if err := sw.MergeCell(CellName(area.Row, area.Col), CellName(area.ToRow, area.ToCol)); err != nil {
			return err
		}
	}
	return nil
}

func (r *renderer) row(sw *excelize.StreamWriter, s *Sheet, row int) error {
	out := make([]any, s.lastCol)
	empty := true
	for col := 1; col <= s.lastCol; col++ {
		c, there := s.cell(row, col)
		if !there {
			continue
		}
		empty = false
		if c.Value.kind == number && (math.IsNaN(c.Value.number) || math.IsInf(c.Value.number, 0)) {
			return fmt.Errorf("column %s: %v cannot stand in a cell", ColumnName(col), c.Value.number)
		}
		id, err := r.style(c.Style)
		if err != nil {
			return err
		}
		cell := excelize.Cell{StyleID: id, Formula: c.Formula, Value: c.Value.native()}
		if c.Formula != "" && cell.Value == nil {
			cell.Value = "" // a formula whose result is an empty text
		}
		out[col-1] = cell
	}
	if empty {
		return nil
	}
	return sw.SetRow(CellName(row, 1), out, excelize.RowOpts{Height: s.rowHeight(row)})
}

func (r *renderer) style(st Style) (int, error) {
	if id, seen := r.styles[st]; seen {
		return id, nil
	}
	id, err := r.file.NewStyle(st.excel())
	if err == nil {
		r.styles[st] = id
	}
	return id, err
}

func (r *renderer) properties() error {
	p := r.book.props
	stamp := ""
	if !p.Dated.IsZero() {
		stamp = p.Dated.UTC().Format("2006-01-02T15:04:05Z")
	}
	if v := r.file.WorkBook.FileVersion; v != nil {
		v.AppName = application // "xl" would claim Excel here as well
	}
	return firstError(
		func() error { return r.file.SetAppProps(&excelize.AppProperties{Application: application}) },
		func() error {
			return r.file.SetDocProps(&excelize.DocProperties{
				Title: clean(p.Title), Subject: clean(p.Subject), Creator: clean(p.Shop), LastModifiedBy: application,
				Created: stamp, Modified: stamp,
			})
		},
		func() error { return r.seal() },
	)
}

// each visits the cells by row and column.
func (s *Sheet) each() iter.Seq2[place, Cell] {
	return func(yield func(place, Cell) bool) {
		for row := 1; row <= s.lastRow; row++ {
			for col := 1; col <= s.lastCol; col++ {
				if c, there := s.cell(row, col); there && !yield(place{row, col}, c) {
					return
				}
			}
		}
	}
}
