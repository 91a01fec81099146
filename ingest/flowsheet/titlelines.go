package flowsheet

import "flowshelf/ingest/layout"

// ownLines leaves out of each line what stands over another table beside this
// one, unless the line has nothing but that and speaks from the left edge.
func ownLines(lines []layout.Line, t *table, all []*table) []layout.Line {
	left, right := t.between(all)
	var out []layout.Line
	for _, l := range lines {
		own := layout.Line{Row: l.Row}
		others := 0
		for _, c := range l.Cells {
			if c.Col >= left && c.Col <= right {
				own.Cells = append(own.Cells, c)
			} else {
				others++
			}
		}
		switch {
		case len(own.Cells) > 0:
			out = append(out, own)
		case others > 0 && l.Cells[0].Col < left && len(l.Cells) == 1:
			out = append(out, l)
		}
	}
	return out
}

// between returns the columns that lie between the tables beside this one.
func (t *table) between(all []*table) (left, right int) {
	area := t.area()
	left, right = 1, 1<<20
	for _, o := range all {
		b := o.area()
		if o == t || b.Top > area.Bottom || b.Bottom < area.Top {
			continue
		}
		if b.Left > area.Right {
			right = min(right, b.Left-1)
		}
		if b.Right < area.Left {
			left = max(left, b.Right+1)
		}
	}
	return left, right
}

// linesOver is ownLines for the lines over tables that stand side by side: a
// title that is spread over several cells speaks of all of them, unless its
// cells name two heads, two ports, two bores or the like.
func (r *reader) linesOver(lines []layout.Line, t *table, all []*table) []layout.Line {
	page := t.plane().Page
	var out []layout.Line
	for _, l := range lines {
		own := ownLines([]layout.Line{l}, t, all)
		if len(own) > 0 && len(own[0].Cells) == len(l.Cells) || !r.speaksOfOne(page, l) {
			out = append(out, own...)
			continue
		}
		out = append(out, l)
	}
	return out
}

// speaksOfOne reports whether the cells of a line stand side by side and can
// all be said of one test.
func (r *reader) speaksOfOne(page *layout.Page, l layout.Line) bool {
	if last := l.Cells[len(l.Cells)-1].Col; last-l.Cells[0].Col != len(l.Cells)-1 {
		return false
	}
	f := r.scopeOf(page, []layout.Line{l}, nil).any()
	return len(l.Cells) > 1 && max(len(f.head)+len(f.loose), len(f.port), len(f.state), len(f.bore)+len(f.over),
		len(f.pressure)+len(f.bare), len(f.class), len(f.serial), len(f.mark)) <= 1 && (len(f.head)+len(f.loose) == 1 || len(f.port) == 0)
}
