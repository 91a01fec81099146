package booktest

import (
	"fmt"
	"math"
	"regexp"
	"strings"
	"testing"

	"github.com/xuri/excelize/v2"

	"flowshelf/export/book"
)

// Cut returns the texts of a workbook that do not show whole, by the letters'
// widths: a text that is not wrapped where its neighbour or the edge of the
// printed columns begins, and a header whose longest word is wider than it.
func Cut(t *testing.T, workbook []byte) []string {
	t.Helper()
	f := Open(t, workbook)
	var out []string
	for _, sheet := range f.GetSheetList() {
		g := newGrid(t, f, sheet)
		for r, row := range g.rows {
			for c, words := range row {
				if words == "" || g.hidden[c+1] || g.inside[[2]int{r + 1, c + 1}] {
					continue
				}
				if why := g.cut(r+1, c+1, words); why != "" {
					out = append(out, fmt.Sprintf("%s!%s %q: %s", sheet, book.CellName(r+1, c+1), words, why))
				}
			}
		}
	}
	return out
}

// grid is a sheet as it shows.
type grid struct {
	t      *testing.T
	f      *excelize.File
	sheet  string
	rows   [][]string
	widths []float64
	edges  []int           // the last columns of the printed pages, in order
	merged map[[2]int]int  // last column, by the cell that shows
	hidden map[int]bool    // columns
	inside map[[2]int]bool // cells under a merged one
	styles map[int]*excelize.Style
}

func newGrid(t *testing.T, f *excelize.File, sheet string) *grid {
	t.Helper()
	g := &grid{t: t, f: f, sheet: sheet, merged: map[[2]int]int{}, hidden: map[int]bool{}, inside: map[[2]int]bool{}, styles: map[int]*excelize.Style{}}
	var err error
	g.rows, err = f.GetRows(sheet)
	must(t, err)
	dimension, err := f.GetSheetDimension(sheet)
	must(t, err)
	_, corner, _ := strings.Cut(dimension, ":")
	last, _, err := excelize.CellNameToCoordinates(corner)
	must(t, err)
	for c := 1; c <= last; c++ {
		w, err := f.GetColWidth(sheet, book.ColumnName(c))
		must(t, err)
		g.widths = append(g.widths, w)
		shown, err := f.GetColVisible(sheet, book.ColumnName(c))
		must(t, err)
		g.hidden[c] = !shown
	}
	for _, n := range f.GetDefinedName() {
		if n.Scope == sheet && n.Name == "_xlnm.Print_Area" {
			for _, m := range regexp.MustCompile(`:\$([A-Z]+)\$`).FindAllStringSubmatch(n.RefersTo, -1) {
				c, err := excelize.ColumnNameToNumber(m[1])
				must(t, err)
				g.edges = append(g.edges, c)
			}
		}
	}
	areas, err := f.GetMergeCells(sheet)
	must(t, err)
	for _, a := range areas {
		c, r, err := excelize.CellNameToCoordinates(a.GetStartAxis())
		must(t, err)
		to, bottom, err := excelize.CellNameToCoordinates(a.GetEndAxis())
		must(t, err)
		g.merged[[2]int{r, c}] = to
		for y := r; y <= bottom; y++ {
			for x := c; x <= to; x++ {
				g.inside[[2]int{y, x}] = y > r || x > c
			}
		}
	}
	return g
}

// cut says why a cell does not show whole, "" where it does.
func (g *grid) cut(row, col int, words string) string {
	g.t.Helper()
	name := book.CellName(row, col)
	kind, err := g.f.GetCellType(g.sheet, name)
	must(g.t, err)
	if kind != excelize.CellTypeInlineString && kind != excelize.CellTypeSharedString && kind != excelize.CellTypeFormula {
		return ""
	}
	st := g.style(name)
	look, align := book.Style{Points: st.Font.Size, Bold: st.Font.Bold}, ""
	wraps := false
	if st.Alignment != nil {
		align, wraps, look.Indent = st.Alignment.Horizontal, st.Alignment.WrapText, st.Alignment.Indent
	}
	if wraps {
		if !titled(st) {
			return ""
		}
		for _, word := range regexp.MustCompile(`[^ \n-]+-?`).FindAllString(words, -1) {
			if need, room := book.Needs(word, look), g.room(row, col, "none"); need > room {
				return fmt.Sprintf("%q needs %.1f of %.1f", word, need, room)
			}
		}
		return ""
	}
	if need, room := book.Needs(words, look), g.room(row, col, align); need > room {
		return fmt.Sprintf("needs %.1f of %.1f", need, room)
	}
	return ""
}

func (g *grid) style(name string) *excelize.Style {
	id, err := g.f.GetCellStyle(g.sheet, name)
	must(g.t, err)
	if g.styles[id] == nil {
		g.styles[id], err = g.f.GetStyle(id)
		must(g.t, err)
	}
	return g.styles[id]
}

// room is the width that a cell has, with the empty cells beside it where its
// text may run.
func (g *grid) room(row, col int, align string) float64 {
	from, to := col, col
	if last, merged := g.merged[[2]int{row, col}]; merged {
		to, align = last, "none"
	}
	edge := math.MaxInt
	for _, e := range g.edges {
		if e >= col {
			edge = min(edge, e)
		}
	}
	for align != "right" && align != "none" && to < edge && g.empty(row, to+1) {
		if to++; to >= len(g.widths) && edge == math.MaxInt {
			return math.Inf(1) // nothing is in its way
		}
	}
	for (align == "right" || align == "center") && from > 1 && g.empty(row, from-1) {
		from--
	}
	sum := 0.0
	for c := from; c <= to; c++ {
		sum += g.widths[c-1]
	}
	return sum
}

func (g *grid) empty(row, col int) bool {
	if g.inside[[2]int{row, col}] {
		return false
	}
	cells := g.rows[row-1]
	return col > len(cells) || cells[col-1] == ""
}

// Titles counts the cells of a row that look like a table's titles and say
// something.
func Titles(t *testing.T, f *excelize.File, sheet string, row int) (n int) {
	t.Helper()
	g := grid{t: t, f: f, sheet: sheet, styles: map[int]*excelize.Style{}}
	const looked = 12 // columns
	for col := 1; col <= looked; col++ {
		name := book.CellName(row, col)
		words, err := f.GetCellValue(sheet, name)
		must(t, err)
		if words != "" && titled(g.style(name)) {
			n++
		}
	}
	return n
}

func titled(st *excelize.Style) bool {
	return len(st.Fill.Color) > 0 && strings.HasSuffix(st.Fill.Color[0], string(book.HeadFill))
}
