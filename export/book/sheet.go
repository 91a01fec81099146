package book

import (
	"fmt"
	"strings"
)

// Cell is one cell under construction.
type Cell struct {
	Value   Value
	Formula string // without its "="; Value is then the result stored with it
	Style   Style
	Link    Link
}

// kept is a cell as a sheet keeps it: a folder's status has hundreds of thousands
// of them in a handful of styles.
type kept struct {
	value   Value
	formula string
	style   *Style // nil where there is no cell
	link    Link
}

// place is where a cell is.
type place struct{ row, col int }

// Sheet is one sheet under construction. Rows and columns count from 1.
type Sheet struct {
	name    string
	styles  map[Style]*Style
	rows    [][]kept // the first row and the first column at 0; as long as what is used of them
	lastRow int
	lastCol int
	widths  map[int]float64
	heights map[int]float64
	tables  []tableArea
	lists   []list
	marks   []mark
	charts  []placed
	frozen  struct{ rows, cols int }
	print   Print
	grid    bool
	locked  bool
	theirs  []int // columns that people type into
	hidden  map[int]bool
	breaks  []int     // rows that begin a printed page
	keeps   []stretch // rows that stay on one
	outline map[int]uint8
	merged  map[place]Range // by the cell that shows
}

type tableArea struct {
	name string
	area Range
}

type list struct {
	area    Range
	choices []string
	from    *Range
	bounds  *[2]float64
	loose   bool
	prompt  string
}

type mark struct {
	area    Range
	formula string
	style   Style
}

// Name returns the sheet's name as it stands on its tab.
func (s *Sheet) Name() string { return s.name }

// Set puts a value in a cell.
func (s *Sheet) Set(row, col int, v Value, style Style) {
	s.put(row, col, Cell{Value: v, Style: style})
}

// Say puts a text in a cell.
func (s *Sheet) Say(row, col int, words string, style Style) { s.Set(row, col, Text(words), style) }

// Formula puts a formula in a cell together with its result, so that a preview
// which computes nothing still shows it.
func (s *Sheet) Formula(row, col int, formula string, result Value, style Style) {
	s.put(row, col, Cell{Value: result, Formula: formula, Style: style})
}

// LinkTo makes the cell, which must have been set, a link.
func (s *Sheet) LinkTo(row, col int, link Link) {
	c, _ := s.cell(row, col)
	if link.target == "" || (c.Value.Blank() && c.Formula == "") {
		return
	}
	c.Link, c.Style.Ink = link, LinkInk
	s.put(row, col, c)
}

// Fill gives the empty cells of a stretch of a row a style, so that rules and
// fills run on.
func (s *Sheet) Fill(row, from, to int, style Style) {
	for col := from; col <= to; col++ {
		if _, there := s.cell(row, col); !there {
			s.put(row, col, Cell{Style: style})
		}
	}
}

func (s *Sheet) put(row, col int, c Cell) {
	for len(s.rows) < row {
		s.rows = append(s.rows, nil)
	}
	cells := &s.rows[row-1]
	if *cells == nil {
		*cells = make([]kept, 0, max(col, s.lastCol)) // a table's rows are as long as its header
	}
	for len(*cells) < col {
		*cells = append(*cells, kept{})
	}
	style, seen := s.styles[c.Style]
	if !seen {
		style = &c.Style
		s.styles[c.Style] = style
	}
	(*cells)[col-1] = kept{c.Value, c.Formula, style, c.Link}
	s.lastRow, s.lastCol = max(s.lastRow, row), max(s.lastCol, col)
}

// At returns what stands in a cell.
func (s *Sheet) At(row, col int) Cell {
	c, _ := s.cell(row, col)
	return c
}

func (s *Sheet) cell(row, col int) (c Cell, there bool) {
	if row > len(s.rows) || col > len(s.rows[row-1]) {
		return Cell{}, false
	}
	k := s.rows[row-1][col-1]
	if k.style == nil {
		return Cell{}, false
	}
	return Cell{k.value, k.formula, *k.style, k.link}, true
}

// LastRow returns the last row in use.
func (s *Sheet) LastRow() int { return s.lastRow }

// LastCol returns the last column in use.
func (s *Sheet) LastCol() int { return s.lastCol }

// Across writes a text over several columns of a row as one cell, for sentences;
// the body of a table never needs it.
func (s *Sheet) Across(row, col, toCol int, c Cell) {
	s.put(row, col, c)
	s.Fill(row, col+1, toCol, c.Style)
	s.merged[place{row, col}] = s.Area(row, col, row, toCol)
}

// Width sets the width of the columns from the first one on, in characters.
func (s *Sheet) Width(first int, widths ...float64) {
	for i, w := range widths {
		s.widths[first+i] = w
	}
}

// Height sets the height of a row in points; rows with wrapped text find their
// own otherwise.
func (s *Sheet) Height(row int, points float64) { s.heights[row] = points }

// Freeze keeps the first rows and columns in sight.
func (s *Sheet) Freeze(rows, cols int) { s.frozen.rows, s.frozen.cols = rows, cols }

// Print sets how the sheet goes to paper.
func (s *Sheet) Print(p Print) { s.print = p }

// Break begins a new printed page with a row.
func (s *Sheet) Break(row int) { s.breaks = append(s.breaks, row) }

// Grid shows the grid lines on the screen.
func (s *Sheet) Grid() { s.grid = true }

// Outline puts columns into a group that can be folded away.
func (s *Sheet) Outline(from, to int) {
	for col := from; col <= to; col++ {
		s.outline[col] = 1
	}
}

// Choose gives the cells of an area a drop-down list of words; anything else is
// refused.
func (s *Sheet) Choose(area Range, choices ...string) {
	s.lists = append(s.lists, list{area: area, choices: choices})
}

// Suggest gives the cells of an area a drop-down list of words and lets other
// words pass.
func (s *Sheet) Suggest(area Range, prompt string, choices ...string) {
	s.lists = append(s.lists, list{area: area, choices: choices, loose: true, prompt: prompt})
}

// ChooseFrom gives the cells of an area a drop-down list that stands in a range.
func (s *Sheet) ChooseFrom(area, from Range) {
	s.lists = append(s.lists, list{area: area, from: &from})
}

// Between lets the cells of an area hold numbers from low to high and nothing
// else; the prompt stands beside a chosen cell.
func (s *Sheet) Between(area Range, low, high float64, prompt string) {
	s.lists = append(s.lists, list{area: area, bounds: &[2]float64{low, high}, prompt: prompt})
}

// Lock lets only the cells whose style is open be typed in. There is no
// password: whoever means to change more can take the lock off.
func (s *Sheet) Lock() { s.locked = true }

// Theirs names a column that people type into and whose cells are read back:
// what stands there is not one of their edits to the workbook.
func (s *Sheet) Theirs(col int) { s.theirs = append(s.theirs, col) }

// Hide puts columns out of sight.
func (s *Sheet) Hide(from, to int) {
	for col := from; col <= to; col++ {
		s.hidden[col] = true
	}
}

// MarkWhen restyles the cells of an area where a formula, written for its first
// cell, holds.
func (s *Sheet) MarkWhen(area Range, formula string, style Style) {
	s.marks = append(s.marks, mark{area, formula, style})
}

// Area returns a range on the sheet.
func (s *Sheet) Area(row, col, toRow, toCol int) Range {
	return Range{s.name, row, col, toRow, toCol}
}

// Range is a rectangle on a sheet.
type Range struct {
	Sheet                  string
	Row, Col, ToRow, ToCol int
}

// String spells the range with its sheet, in absolute terms, for formulas and
// charts.
func (r Range) String() string {
	return fmt.Sprintf("%s!%s", quoted(r.Sheet), r.abs())
}

// Column returns one column of the range, 0 for its first.
func (r Range) Column(i int) Range {
	r.Col += i
	r.ToCol = r.Col
	return r
}

func (r Range) abs() string {
	first := fmt.Sprintf("$%s$%d", ColumnName(r.Col), r.Row)
	if r.Row == r.ToRow && r.Col == r.ToCol {
		return first
	}
	return fmt.Sprintf("%s:$%s$%d", first, ColumnName(r.ToCol), r.ToRow)
}

// local spells the range without its sheet.
func (r Range) local() string {
	first := CellName(r.Row, r.Col)
	if r.Row == r.ToRow && r.Col == r.ToCol {
		return first
	}
	return first + ":" + CellName(r.ToRow, r.ToCol)
}

// CellName spells a row and column as "AB14".
func CellName(row, col int) string { return fmt.Sprintf("%s%d", ColumnName(col), row) }

// ColumnName spells a column as "AB".
func ColumnName(col int) string {
	name := ""
	for ; col > 0; col = (col - 1) / 26 {
		name = string(rune('A'+(col-1)%26)) + name
	}
	return name
}

// quoted spells a sheet's name for a formula.
func quoted(sheet string) string { return "'" + strings.ReplaceAll(sheet, "'", "''") + "'" }
