package flowsheet

import (
	"flowshelf/ingest/decode"
	"flowshelf/ingest/layout"
)

// above gives a table the lines over it. Lines over the first tables that a
// blank row parts from them, or that say nothing of a head while nearer lines
// do, speak of the whole page, unless the later tables have as many of their own.
func (s *surroundings) above(r *reader, page *layout.Page, all []*table, i int, t *table) {
	top, first := under(t, all)
	area := t.area()
	over := r.linesOver(layout.Lines(page, decode.Area{Top: top, Left: 1, Bottom: area.Top - 1, Right: 1 << 20}), t, all)
	groups := layout.Groups(over)
	if !first {
		groups = withoutTrailing(groups, top, area.Top)
	}
	ownGroups, ownRows := r.ownDepth(page, all)
	titled := false
	for n, g := range groups {
		near := n >= len(groups)-max(ownGroups, 1)
		if !first || len(all) == 1 || titled {
			s.blocks[t] = join(s.blocks[t], r.scopeOf(page, g, s))
			continue
		}
		general := g
		if near {
			general = g[:generalLines(r, page, g, ownRows)]
		}
		if i == 0 {
			s.page = join(s.page, r.scopeOf(page, general, s))
		}
		lines := g[len(general):]
		own := r.scopeOf(page, lines, s)
		opens := ownRows > 0 && r.opensBlock(page, lines)
		titled = near && (identity(own) || opens)
		if near && !titled {
			s.page = join(s.page, own)
			continue
		}
		s.blocks[t] = join(s.blocks[t], own)
		if !opens || len(lines) > 1 {
			s.ofAll(r, page, lines)
		}
	}
}

// under returns the first row that is a table's own, below the tables above
// it, and whether none is above.
func under(t *table, all []*table) (top int, first bool) {
	area := t.area()
	top, first = 1, true
	for _, o := range all {
		b := o.area()
		if b.Bottom >= area.Top {
			continue
		}
		first = false
		if b.Left <= area.Right && area.Left <= b.Right {
			top = max(top, b.Bottom+1)
		}
	}
	return top, first
}

// withoutTrailing leaves out the lines that touch the table before: its
// trailing notes. A lone group that touches both tables is the next one's
// title, unless it looks like a note.
func withoutTrailing(groups [][]layout.Line, top, next int) [][]layout.Line {
	if len(groups) == 0 || groups[0][0].Row != top {
		return groups
	}
	if len(groups) == 1 && adjoins(groups[0], next) && !noteLike(groups[0]) {
		return groups
	}
	return groups[1:]
}

// generalLines counts the lines at the head of a group that name no head, port
// or state while a later one does: they speak of the whole page. Where none names a
// head, a title may call it by anything, among the last of them, as many as the later
// tables have over them.
func generalLines(r *reader, page *layout.Page, g []layout.Line, own int) int {
	if !r.scopeOf(page, g, nil).any().namesHead() {
		for i := max(0, len(g)-own); i < len(g); i++ {
			if r.opensUnknown(page, g[i]) {
				return i
			}
		}
	}
	for i := range g {
		f := r.scopeOf(page, g[i:i+1], nil).any()
		if len(f.head)+len(f.loose)+len(f.port)+len(f.state)+len(f.serial) > 0 {
			return i
		}
	}
	return 0
}

// identity reports whether lines say which head, port or bore was flowed.
func identity(s scope) bool {
	f := s.any()
	return len(f.head)+len(f.loose)+len(f.port)+len(f.bore) > 0
}

func adjoins(g []layout.Line, top int) bool { return g[len(g)-1].Row >= top-1 }
