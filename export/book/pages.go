package book

import (
	"slices"

	"flowshelf/analysis/head"
)

// Keep holds rows on one printed page, with what stands right over them, where a
// page can hold them and they do not begin one of its own already.
func (s *Sheet) Keep(from, to int) { s.keeps = append(s.keeps, stretch{from, to}) }

// stretch is some rows of a sheet, both ends included.
type stretch struct{ from, to int }

// inches returns the sheet's paper as it lies.
func (s *Sheet) inches(on head.Paper) (across, down float64) {
	across, down = 8.5, 11 // letter; ISO 216 for A4
	if on == head.A4 {
		across, down = 210/25.4, 297/25.4
	}
	if !s.print.Upright {
		across, down = down, across
	}
	return across, down
}

// pageHeight is what fits one above the other on a page of a sheet that is one
// page wide, in points of its rows.
func (s *Sheet) pageHeight(on head.Paper) float64 {
	const spare = 0.97 // what programs differ by in the scale
	across, down := s.inches(on)
	last := s.lastCol
	if s.print.Columns > 0 {
		last = min(last, s.print.Columns)
	}
	scale := min(1, (across-2*sideMargin)*pointsAnInch/unitPoints/s.span(1, last))
	return spare * (down - topMargin - bottomMargin) * pointsAnInch / scale
}

// breakPages begins a page before rows that are to be kept together and would not
// fit on what is left of the page before.
func (s *Sheet) breakPages(on head.Paper) {
	if s.print.OnePage || s.print.SecondFrom > 0 || len(s.keeps) == 0 {
		return
	}
	page, last := s.pageHeight(on), s.lastRow
	keeps := make(map[int][]int) // last rows, by the first
	for _, k := range s.keeps {
		if k.from == s.print.RepeatFrom {
			continue // its titles stand on every page
		}
		from := s.withTitle(k.from)
		keeps[from] = append(keeps[from], k.to)
		last = max(last, k.to)
	}
	const worth = 0.2 // of a page that must be filled for another to begin
	repeated := 0.0
	if s.print.RepeatTo > 0 {
		repeated = s.tall(s.print.RepeatFrom, s.print.RepeatTo)
	}
	used := 0.0
	for row := 1; row <= last; row++ {
		high := s.tall(row, row)
		if slices.Contains(s.breaks, row) {
			used = repeated
		}
		for _, to := range keeps[row] {
			if block := s.tall(row, to); used > worth*page && used+block > page && repeated+block <= page {
				s.Break(row)
				used = repeated
			}
		}
		if used+high > page {
			used = repeated
		}
		used += high
	}
}

// withTitle returns the first of the rows that stand without a gap above one.
func (s *Sheet) withTitle(row int) int {
	ended := func(above int) bool {
		return slices.ContainsFunc(s.keeps, func(k stretch) bool { return k.from <= above && above <= k.to })
	}
	for row > 1 && !s.empty(row-1) && !ended(row-1) {
		row--
	}
	return row
}

func (s *Sheet) empty(row int) bool {
	for col := 1; col <= s.lastCol; col++ {
		if c, there := s.cell(row, col); there && (!c.Value.Blank() || c.Formula != "") {
			return false
		}
	}
	return true
}

// tall is the height of some rows in points.
func (s *Sheet) tall(from, to int) float64 {
	sum := 0.0
	for row := from; row <= to; row++ {
		high := s.rowHeight(row)
		if high == 0 {
			high = defaultRowPoints
		}
		sum += high
	}
	return sum
}
