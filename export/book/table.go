package book

import (
	"fmt"
	"strings"
)

// Column is one column of a table whose rows are of type T.
type Column[T any] struct {
	Title string
	Width float64
	Style Style
	Value func(T) Value
	Link  func(T) Link  // nil for none
	Look  func(T) Style // nil for Style; replaces it for one row
	Fold  bool          // in a group of columns that can be folded away
}

// Table is a table to be laid out on a sheet.
type Table[T any] struct {
	Name    string // of the spreadsheet table with filters, "" for a plain block
	Columns []Column[T]
	Rows    []T
	Tint    func(i int) Colour // fill of a body row, nil for none
}

// Write lays the table out with its header at the cell and returns the range of
// its body. The columns' widths become the sheet's. On paper it stands on one
// page where one can hold it.
func (t Table[T]) Write(s *Sheet, row, col int) Range {
	for i, c := range t.Columns {
		header := c.header()
		if i == 0 {
			header.Indent = 0
		}
		s.Say(row, col+i, c.Title, header)
		if c.Width > 0 {
			s.Width(col+i, c.Width)
		}
		if c.Fold {
			s.Outline(col+i, col+i)
		}
	}
	body := t.WriteBody(s, row+1, col)
	s.Keep(row, body.ToRow)
	return body
}

// header is the look of the column's header: over its values, at their side.
func (c Column[T]) header() Style {
	h := Header
	h.Align, h.Indent = c.Style.Align, c.Style.Indent
	if h.Align == Auto && c.Style.Format != General {
		h.Align = Right
	}
	return h
}

// WriteBody lays out the rows alone, for a block that stands under a header it
// shares.
func (t Table[T]) WriteBody(s *Sheet, row, col int) Range {
	for i, r := range t.Rows {
		for j, c := range t.Columns {
			style := c.Style
			if c.Look != nil {
				style = c.Look(r)
			}
			if t.Tint != nil && style.Fill == "" {
				style.Fill = t.Tint(i)
			}
			if j == 0 {
				style.Indent = 0
			}
			if style.Bottom == NoRule {
				style.Bottom = Hair
			}
			s.Set(row+i, col+j, c.Value(r), style)
			if c.Link != nil {
				s.LinkTo(row+i, col+j, c.Link(r))
			}
		}
	}
	body := s.Area(row, col, row+max(len(t.Rows), 1)-1, col+len(t.Columns)-1)
	if t.Name != "" && len(t.Rows) > 0 {
		head := body
		head.Row--
		s.tables = append(s.tables, tableArea{t.Name, head})
	}
	return body
}

// checkTable refuses what would make a spreadsheet report a damaged file: the
// header of a table must be distinct texts.
func (s *Sheet) checkTable(t tableArea) error {
	seen := map[string]bool{}
	for col := t.area.Col; col <= t.area.ToCol; col++ {
		v := s.At(t.area.Row, col).Value
		key := strings.ToLower(v.text)
		if v.kind != text || seen[key] {
			return fmt.Errorf("table %s: header %s is empty, not a text or taken twice", t.name, CellName(t.area.Row, col))
		}
		seen[key] = true
	}
	return nil
}
