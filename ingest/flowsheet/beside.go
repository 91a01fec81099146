package flowsheet

import (
	"strings"
	"unicode"

	"flowshelf/ingest/decode"
	"flowshelf/ingest/layout"
	"flowshelf/ingest/words"
)

// beside gives a table the keys and values that stand to the right of it, in
// its own rows, up to the next table; those to the left of the leftmost table
// are its own. Other words there are margin notes, not conditions.
func (s *surroundings) beside(r *reader, page *layout.Page, all []*table, t *table) {
	area := t.area()
	left, right := t.between(all)
	sides := []decode.Area{{Top: area.Top, Left: area.Right + 1, Bottom: area.Bottom, Right: right}}
	if left == 1 {
		sides = append(sides, decode.Area{Top: area.Top, Left: 1, Bottom: area.Bottom, Right: area.Left - 1})
	}
	for _, side := range sides {
		if lines := keyedOnly(layout.Lines(page, side)); len(lines) > 0 {
			s.blocks[t] = join(s.blocks[t], r.scopeOf(page, lines, s))
		}
	}
}

// keyedOnly keeps of lines the keys with their values: the two in one cell, or
// in cells that follow one another.
func keyedOnly(lines []layout.Line) []layout.Line {
	var out []layout.Line
	for _, l := range lines {
		own := layout.Line{Row: l.Row}
		for i := 0; i < len(l.Cells); i++ {
			c := l.Cells[i]
			if c.Kind != decode.Text {
				continue
			}
			k, ok := captionOf(c.Text)
			if _, _, keyed := keyValue(c.Text); keyed || ok && k.whole() {
				own.Cells = append(own.Cells, c)
				continue
			}
			if box := boxAt(l, i); box.isMeasure() || box.statesUnit() {
				own.Cells = append(own.Cells, l.Cells[i:i+box.cells]...)
				i += box.cells - 1
				continue
			}
			if ok && i+1 < len(l.Cells) && l.Cells[i+1].Col <= c.Col+2 {
				own.Cells = append(own.Cells, c, l.Cells[i+1])
				i++
			}
		}
		if len(own.Cells) > 0 {
			out = append(out, own)
		}
	}
	return out
}

// labelsOver reports whether a line holds nothing but labels, most of them keys,
// each with its value right below it, or above.
func labelsOver(labels, values layout.Line) bool {
	if apart := values.Row - labels.Row; apart != 1 && apart != -1 || len(labels.Cells) < 2 {
		return false
	}
	keys := 0
	for _, c := range labels.Cells {
		below := cellAt(values, c.Col)
		if _, key := captionOf(below.Text); c.Kind != decode.Text || below.Kind == decode.Text && key {
			return false
		}
		if k, ok := captionOf(c.Text); ok && !k.whole() && !below.Blank() {
			keys++
		}
	}
	return keys >= 2 && 2*keys >= len(labels.Cells)
}

// keysBehind reports whether lines are a form that puts each key behind its
// value. One such line may as well be a title beside a field left empty.
func keysBehind(lines []layout.Line) bool {
	n := 0
	for _, l := range lines {
		if keyBehind(l) {
			n++
		}
	}
	return n >= 2
}

// keyBehind reports whether a line is a value with its key behind it. A key that
// ends in a colon or the like points to what follows.
func keyBehind(l layout.Line) bool {
	if len(l.Cells) != 2 || keyMark.MatchString(l.Cells[1].Text) {
		return false
	}
	_, first := captionOf(l.Cells[0].Text)
	k, second := captionOf(l.Cells[1].Text)
	return (!first || l.Cells[0].Kind != decode.Text) && second && !k.whole() && l.Cells[1].Kind == decode.Text &&
		k.role != words.Flow && k.role != words.Lift && k.role != words.Port && l.Cells[1].Col == l.Cells[0].Col+1
}

func cellAt(l layout.Line, col int) decode.Cell {
	for _, c := range l.Cells {
		if c.Col == col {
			return c
		}
	}
	return decode.Cell{}
}

// formRow reads two lines of which one holds the labels of the other, over or
// under it. Labels that have a line right below them are that line's.
func (r *reader) formRow(page *layout.Page, lines []layout.Line) ([]statement, bool) {
	switch {
	case len(lines) < 2:
		return nil, false
	case labelsOver(lines[0], lines[1]):
		return r.labelled(page, lines[0], lines[1]), true
	case (len(lines) == 2 || lines[2].Row > lines[1].Row+1) && labelsOver(lines[1], lines[0]):
		return r.labelled(page, lines[1], lines[0]), true
	}
	return nil, false
}

// labelled reads the values below a line of labels. What stands below a label
// that nobody knows says only what its own unit makes certain.
func (r *reader) labelled(page *layout.Page, labels, values layout.Line) []statement {
	var out []statement
	for _, c := range labels.Cells {
		below := cellAt(values, c.Col)
		k, known := captionOf(c.Text)
		switch {
		case below.Blank():
		case known:
			out = append(out, statement{facts: r.captionedCell(k, below, page)})
		case below.Kind == decode.Text:
			read, sure := r.read(newLine(below.Text, r.trace(page, below), inTitle)), newFacts()
			sure.pressure, sure.flowUnit = read.pressure, read.flowUnit
			out = append(out, statement{facts: sure})
		}
	}
	return out
}

// onlyMarks reports whether a cell holds signs and nothing else.
func onlyMarks(c decode.Cell) bool {
	return c.Kind == decode.Text && !strings.ContainsFunc(c.Text, func(r rune) bool { return unicode.IsLetter(r) || unicode.IsDigit(r) })
}
