package pricing

import (
	"fmt"
	"regexp"
	"strconv"
	"strings"

	"flowshelf/export/book"
)

// place is where a named figure stands: one cell, or one cell a head.
type place struct {
	sheet    *book.Sheet
	row, col int
	rows     int // 0 for a single cell
	cols     int // of a block, 0 for one column
}

// area is the cell of a head, or the cell itself.
func (p place) area(i int) book.Range {
	if p.rows == 0 {
		i = 0
	}
	return p.sheet.Area(p.row+i, p.col, p.row+i, p.col)
}

func (p place) whole() book.Range {
	return p.sheet.Area(p.row, p.col, p.row+max(p.rows, 1)-1, p.col+max(p.cols, 1)-1)
}

// names are the places of the workbook's figures by name, so that a formula is
// written in the words of the trade: {sell} is the cell of the formula's own
// head, {sell*} the cells of all heads, {sell^} that of the head before and
// {sell@2} that of the third. A # in a name is the number of the head.
type names map[string]place

var placeholder = regexp.MustCompile(`\{([^{}*^@]+)([*^]|@\d+)?\}`)

// formula spells a formula for a head on a sheet.
func (n names) formula(on *book.Sheet, i int, words string) string {
	return placeholder.ReplaceAllStringFunc(words, func(hole string) string {
		m := placeholder.FindStringSubmatch(hole)
		p, known := n[strings.ReplaceAll(m[1], "#", strconv.Itoa(i))]
		if !known {
			return fmt.Sprintf("#NAME?(%s)", m[1]) // a slip of ours, which every test of a formula finds
		}
		switch {
		case m[2] == "*":
			return spell(on, p.whole())
		case m[2] == "^":
			return spell(on, p.area(i-1))
		case m[2] != "":
			if at, err := strconv.Atoi(m[2][1:]); err == nil {
				return spell(on, p.area(at))
			}
		}
		return spell(on, p.area(i))
	})
}

// spell leaves out the sheet's name on the sheet itself.
func spell(on *book.Sheet, area book.Range) string {
	text := area.String()
	if area.Sheet == on.Name() {
		_, text, _ = strings.Cut(text, "!")
	}
	return text
}
