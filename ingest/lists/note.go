package lists

import (
	"strings"
	"time"

	"flowshelf/ingest/decode"
	"flowshelf/ingest/parse"
)

// shareNotes gives the texts outside of the tables to the table they belong to:
// later ones to the table right below them, else to the one above. Those above
// the first table hold for all, and come last for any but the first.
func shareNotes(tables []*table) {
	for i, t := range tables {
		var wide []note
		for _, n := range t.loose {
			above := n.line < tables[0].header
			mine := n.line < t.header && n.line >= t.header-linesAbove
			following := n.line > t.header && (i+1 == len(tables) || n.line < tables[i+1].header-linesAbove)
			switch {
			case above && i > 0:
				n.wide = true
				wide = append(wide, n)
			case above || mine || following:
				t.notes = append(t.notes, n)
			}
		}
		t.notes = append(t.notes, wide...)
	}
}

// linesAbove is how far above a header its own title lines can stand.
const linesAbove = 2

func looseNotes(v view, tables []*table) []note {
	taken := make(map[[2]int]bool)
	for _, t := range tables {
		for _, c := range t.cells() {
			taken[[2]int{c.Row, c.Col}] = true
		}
	}
	var out []note
	for n := 1; n <= v.last; n++ {
		label := ""
		for _, s := range v.lines[n] {
			if taken[[2]int{s.cell.Row, s.cell.Col}] {
				continue
			}
			switch text := textOf(s.cell); s.cell.Kind {
			case decode.Text:
				if strings.HasSuffix(label, ":") {
					text = label + " " + text
				}
				out = append(out, note{text: text, cell: s.cell, line: n})
				label = text
			case decode.Date:
				out = append(out, note{text: strings.TrimSpace(label + " " + text), cell: s.cell, line: n})
			default: // a bare number says nothing to anybody
			}
		}
	}
	return out
}

// textOf returns what a person reads in a cell, without the rounding of its
// number format.
func textOf(c decode.Cell) string {
	if c.Kind == decode.Date {
		if day, ok := parse.Serial(c.Num); ok {
			return day.Format(time.DateOnly)
		}
	}
	return c.Text
}
