package book

import "strings"

// glyph returns the width of a letter of Arial in thousandths of the font size,
// by kind of letter (from memory). It only has to be near enough that no line is
// cut off and no number shows as ###.
func glyph(r rune) float64 {
	switch {
	case strings.ContainsRune("ijl|'", r):
		return 225
	case strings.ContainsRune("ft.,:;! ()[]Ir/-", r):
		return 310
	case strings.ContainsRune("ckszvxyJ", r):
		return 505
	case strings.ContainsRune("mwMW@%", r):
		return 850
	case r >= 'A' && r <= 'Z', r > 0x2000:
		return 690
	}
	return 560
}

const (
	pointsAnInch = 72.0
	unitPoints   = 6.0 // one unit of column width: a digit of the workbook's default font, Arial 11, is 8 px at 96 dpi
	boldFactor   = 1.07
	lineFactor   = 1.28 // line height to font size
	cellPadding  = 1.0  // units of column width lost to the margins of a cell
	indentUnits  = 1.3  // and to each step of its indent
	defaultWidth = 9.0

	defaultRowPoints = 13.5
)

// textUnits returns the width of a line in units of column width.
func textUnits(line string, style Style) float64 {
	sum := 0.0
	for _, r := range line {
		sum += glyph(r)
	}
	units := sum / 1000 * style.points() / unitPoints
	if style.Bold {
		units *= boldFactor
	}
	return units
}

// Needs returns the width, in units of column width, of a cell that shows a text
// whole on one line.
func Needs(words string, style Style) float64 {
	widest := 0.0
	for line := range strings.SplitSeq(words, "\n") {
		widest = max(widest, textUnits(line, style))
	}
	return widest + cellPadding + indentUnits*float64(style.Indent)
}

// lines returns how many lines a wrapped text takes in a column.
func lines(words string, style Style, width float64) int {
	room := max(width-cellPadding-indentUnits*float64(style.Indent), 1)
	n := 0
	for _, paragraph := range strings.Split(words, "\n") {
		n++
		used := 0.0
		for _, word := range strings.SplitAfter(paragraph, " ") {
			w := textUnits(word, style)
			if used > 0 && used+textUnits(strings.TrimRight(word, " "), style) > room {
				n, used = n+1, 0
			}
			for w > room { // a word longer than its line is broken
				n, w = n+1, w-room
			}
			used += w
		}
	}
	return n
}

// rowHeight returns the height a row needs, 0 where the default will do.
func (s *Sheet) rowHeight(row int) float64 {
	if h, set := s.heights[row]; set {
		return h
	}
	tallest := 0.0
	for col := 1; col <= s.lastCol; col++ {
		c, there := s.cell(row, col)
		if !there || c.Value.kind == nothing {
			continue
		}
		n := 1
		if c.Style.Wrap && c.Value.kind == text {
			n = lines(c.Value.text, c.Style, s.room(row, col))
		}
		if h := float64(n)*c.Style.points()*lineFactor + 2; h > tallest {
			tallest = h
		}
	}
	const tallestAllowed = 400 // a row cannot exceed 409 points
	return min(tallest, tallestAllowed)
}

func (s *Sheet) width(col int) float64 {
	if w, set := s.widths[col]; set {
		return w
	}
	return defaultWidth
}

// room is the width of a cell, or of the cells it was merged with.
func (s *Sheet) room(row, col int) float64 {
	area, merged := s.merged[place{row, col}]
	if !merged {
		return s.width(col)
	}
	sum := 0.0
	for c := area.Col; c <= area.ToCol; c++ {
		sum += s.width(c)
	}
	return sum
}
