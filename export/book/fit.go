package book

import (
	"math"
	"strings"
)

// fit lets every text show whole, whatever a shop calls its heads: a header is
// as wide as its longest word, and a text that would run under its neighbour or
// off the printed columns is broken into lines, or has its column widened where
// nothing is printed.
func (s *Sheet) fit() {
	for at, c := range s.each() {
		if _, merged := s.merged[at]; merged || !c.Style.Wrap || c.Style.Fill != HeadFill {
			continue
		}
		for word := range strings.FieldsSeq(strings.ReplaceAll(c.Value.text, "-", "- ")) { // a line may end with a hyphen
			s.widen(at.col, Needs(word, c.Style))
		}
	}
	under := s.covered()
	for at, c := range s.each() {
		if c.Style.Wrap || c.Value.kind != text || s.hidden[at.col] {
			continue
		}
		from, to := s.run(at, c.Style.Align, under)
		need := Needs(c.Value.text, c.Style)
		if to == math.MaxInt || need <= s.span(from, to) {
			continue
		}
		if s.print.Columns > 0 && at.col > s.print.Columns {
			s.widen(at.col, min(need, widest))
		}
		if need <= s.span(from, to) {
			continue
		}
		c.Style.Wrap = true
		if from == at.col && to > at.col && !s.inTable(at) {
			s.Across(at.row, at.col, to, c)
		} else {
			s.put(at.row, at.col, c)
		}
	}
}

// widest is how wide a column grows for a text that is not printed.
const widest = 60.0

func (s *Sheet) widen(col int, to float64) {
	if to > s.width(col) {
		s.widths[col] = math.Ceil(2*to) / 2
	}
}

// run returns the columns over which a text that is not wrapped shows: its own
// and the empty ones at the side it runs to. One that nothing stops before the
// screen's end has no last.
func (s *Sheet) run(at place, align Align, under map[place]bool) (from, to int) {
	from, to = at.col, at.col
	if area, merged := s.merged[at]; merged {
		return from, area.ToCol
	}
	free := func(col int) bool {
		c, _ := s.cell(at.row, col)
		return c.Value.Blank() && c.Formula == "" && !under[place{at.row, col}]
	}
	for edge := s.edge(at.col); align != Right && to < edge && free(to+1); {
		if to++; to > s.lastCol {
			to = math.MaxInt
		}
	}
	for align != Left && align != Auto && from > 1 && free(from-1) {
		from--
	}
	return from, to
}

// edge is the last column of the page that a column is printed on, where the
// sheet says so: whatever else it holds is printed as far as its texts run.
func (s *Sheet) edge(col int) int {
	switch p := s.print; {
	case col < p.SecondFrom:
		return p.SecondFrom - 1
	case p.SecondFrom > 0:
		return s.lastCol
	case col <= p.Columns && p.Columns < s.lastCol:
		return p.Columns
	}
	return math.MaxInt
}

func (s *Sheet) span(from, to int) float64 {
	sum := 0.0
	for col := from; col <= to; col++ {
		sum += s.width(col)
	}
	return sum
}

// covered are the cells that lie under a merged one.
func (s *Sheet) covered() map[place]bool {
	out := make(map[place]bool)
	for at, area := range s.merged {
		for col := at.col + 1; col <= area.ToCol; col++ {
			out[place{at.row, col}] = true
		}
	}
	return out
}

// inTable reports whether a cell is one of a table with filters, which holds no
// merged cells.
func (s *Sheet) inTable(at place) bool {
	for _, t := range s.tables {
		if at.row >= t.area.Row && at.row <= t.area.ToRow && at.col >= t.area.Col && at.col <= t.area.ToCol {
			return true
		}
	}
	return false
}
