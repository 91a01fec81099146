package decode

import (
	"cmp"
	"slices"
	"sort"
)

// Index prepares the sheet for At. Decoders call it once the cells are sorted.
func (s *Sheet) Index() {
	if !s.sorted() {
		slices.SortStableFunc(s.Cells, func(a, b Cell) int { return cmp.Or(cmp.Compare(a.Row, b.Row), cmp.Compare(a.Col, b.Col)) })
	}
	s.index = make(map[int]int)
	s.rows, s.cols = 0, 0
	for i := range s.Cells {
		c := &s.Cells[i]
		if c.Row > s.rows {
			s.index[c.Row] = i
		}
		s.rows, s.cols = c.Row, max(s.cols, c.Col)
	}
}

func (s *Sheet) sorted() bool {
	for i := 1; i < len(s.Cells); i++ {
		a, b := &s.Cells[i-1], &s.Cells[i]
		if a.Row > b.Row || a.Row == b.Row && a.Col > b.Col {
			return false
		}
	}
	return true
}

// Rows returns the highest row with a cell, 0 for an empty sheet.
func (s *Sheet) Rows() int { return s.rows }

// Cols returns the highest column with a cell, 0 for an empty sheet.
func (s *Sheet) Cols() int { return s.cols }

// Row returns the cells of one row, in column order. The slice is shared.
func (s *Sheet) Row(row int) []Cell {
	first, ok := s.index[row]
	if !ok {
		return nil
	}
	last := first
	for last < len(s.Cells) && s.Cells[last].Row == row {
		last++
	}
	return s.Cells[first:last]
}

// At returns the cell at row, col; an Empty cell with that position when there
// is none.
func (s *Sheet) At(row, col int) Cell {
	cells := s.Row(row)
	i := sort.Search(len(cells), func(i int) bool { return cells[i].Col >= col })
	if i < len(cells) && cells[i].Col == col {
		return cells[i]
	}
	return Cell{Row: row, Col: col, Stored: true}
}

// MergeAt returns the merged area that covers row, col.
func (s *Sheet) MergeAt(row, col int) (Area, bool) {
	for _, m := range s.Merges {
		if m.Contains(row, col) {
			return m, true
		}
	}
	return Area{}, false
}
