package layout

import "flowshelf/ingest/decode"

// Line is the cells of one row within a span of columns, blanks left out.
type Line struct {
	Row   int
	Cells []decode.Cell
}

// Lines returns the rows of an area that hold a value nobody has accounted for
// as data: title lines, key and value lines, notes.
func Lines(page *Page, area decode.Area) []Line {
	var out []Line
	for row := area.Top; row <= area.Bottom; row++ {
		var line Line
		for _, c := range page.Sheet.Row(row) {
			if !c.Blank() && c.Col >= area.Left && c.Col <= area.Right {
				line.Cells = append(line.Cells, c)
			}
		}
		if len(line.Cells) > 0 {
			line.Row = row
			out = append(out, line)
		}
	}
	return out
}

// Groups parts lines at blank rows.
func Groups(lines []Line) [][]Line {
	var out [][]Line
	for i, l := range lines {
		if i == 0 || l.Row > lines[i-1].Row+1 {
			out = append(out, nil)
		}
		out[len(out)-1] = append(out[len(out)-1], l)
	}
	return out
}
