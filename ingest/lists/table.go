package lists

import (
	"regexp"
	"strings"

	"flowshelf/ingest/decode"
	"flowshelf/ingest/parse"
)

// table is one list found on a page.
type table struct {
	view
	kind     kind
	header   int // line of the titles
	end      int // last line that belongs to it
	columns  []titled
	byPlace  map[int]int // column index by place
	lines    []line
	sections []spot
	aside    []asideSpot
	loose    []note // texts on the page outside of any table
	notes    []note // those that belong to this one
}

// titled is a column with its title and, when the kind knows it, its role.
type titled struct {
	role  role
	title string // banner, title and unit line together
	place int
	cells []decode.Cell // of the title
}

// line is one record.
type line struct {
	number  int
	section string // the separator it stands under
	cells   map[int]decode.Cell
	key     decode.Cell
}

func (l line) name() string { return parse.Squeeze(textOf(l.key)) }

type asideSpot struct {
	cell decode.Cell
	why  string
}

// note is a text outside of a table. A date has the label to its left before
// it.
type note struct {
	text string
	cell decode.Cell
	line int
	wide bool // stands over all tables of the page, not this one alone
}

var (
	summaryLine = regexp.MustCompile(`(?i)^(grand |sub)?-?(totals?|sum|summe|gesamt|averages?|avg\.?|count)\b`)
	optionLine  = regexp.MustCompile(`(?i)^(add|option|opt\.|\+)\b`)
	unitText    = regexp.MustCompile(`(?i)^\(?(in\.?|inch(es)?|"|mm|cc|lbs?|kg|g|\$|usd|eur|€|each|ea|pair|per pair|set|per set|a set|heads?|sets?|cfm|weeks?|wks?|months?|in2|in²|sq ?in|%|rpm|bare|assembled|list|net|dealer|jobber)\)?$`)
)

const blankLinesEnd = 3 // a gap of so many lines ends a table

// findTables finds every table of a kind on a view.
func findTables(v view, k kind) []*table {
	var out []*table
	for n := 1; n <= v.last; n++ {
		columns := titles(v, k, n)
		if columns == nil {
			continue
		}
		t := newTable(v, k, n, columns)
		t.addUnits()
		t.readLines()
		out = append(out, t)
		n = max(n, t.end)
	}
	if len(out) == 0 {
		return nil
	}
	loose := looseNotes(v, out)
	for _, t := range out {
		t.loose = loose
	}
	return out
}

func newTable(v view, k kind, header int, columns []titled) *table {
	t := &table{view: v, kind: k, header: header, end: header, columns: columns, byPlace: make(map[int]int)}
	for i, c := range columns {
		t.byPlace[c.place] = i
	}
	return t
}

// addUnits joins a line of units below the titles to them.
func (t *table) addUnits() {
	units := t.view.lines[t.header+1]
	for _, s := range units {
		if s.cell.Kind != decode.Text || !unitText.MatchString(parse.Squeeze(s.cell.Text)) || t.column(s.place) == nil && t.spanning(s) == nil {
			return
		}
	}
	for _, s := range units {
		if over := t.spanning(s); t.column(s.place) == nil {
			t.byPlace[s.place] = len(t.columns)
			t.columns = append(t.columns, titled{role: over.role, title: parse.Squeeze(over.cells[0].Text), place: s.place})
		}
		c := t.column(s.place)
		c.title += " " + parse.Squeeze(s.cell.Text)
		c.cells = append(c.cells, s.cell)
		t.end = t.header + 1
	}
}

// spanning returns the column whose merged title stands over the cell.
func (t *table) spanning(s spot) *titled {
	area, merged := t.page.Sheet.MergeAt(s.cell.Row-1, s.cell.Col)
	if !merged {
		return nil
	}
	for i := range t.columns {
		c := &t.columns[i]
		if len(c.cells) > 0 && c.cells[0].Row == area.Top && c.cells[0].Col == area.Left {
			return c
		}
	}
	return nil
}

func (t *table) column(place int) *titled {
	if i, ok := t.byPlace[place]; ok {
		return &t.columns[i]
	}
	return nil
}

// readLines reads from below the header until another header, a gap, or the
// end of the page.
func (t *table) readLines() {
	section, blank := "", 0
	for n := t.end + 1; n <= t.last; n++ {
		spots := t.view.lines[n]
		if len(spots) == 0 {
			if blank++; blank >= blankLinesEnd {
				return
			}
			continue
		}
		blank = 0
		if again := titles(t.view, t.kind, n); again != nil {
			if !t.sameTitles(again) {
				return
			}
			t.setAside(spots, "header repeated")
			t.end = n
			continue
		}
		if len(spots) == 1 && spots[0].cell.Kind == decode.Text && len(t.columns) > 1 {
			if t.isSection(n, spots[0]) {
				section = parse.Squeeze(spots[0].cell.Text)
				t.sections = append(t.sections, spots[0])
				t.end = n
			}
			continue // otherwise a note, left for shareNotes
		}
		if t.readLine(n, section, spots) {
			t.end = n
		}
	}
}

func (t *table) readLine(n int, section string, spots []spot) bool {
	l := line{number: n, section: section, cells: make(map[int]decode.Cell)}
	inside := 0
	for _, s := range spots {
		c := t.column(s.place)
		if c == nil {
			continue
		}
		inside++
		l.cells[s.place] = s.cell
		if c.role == t.kind.needs[0] {
			l.key = s.cell
		}
	}
	switch name := l.name(); {
	case inside == 0:
		return false
	case name == "":
		t.setAside(spots, "nothing on this line says what it is about")
	case summaryLine.MatchString(name):
		t.setAside(spots, "summary line")
	case optionLine.MatchString(name):
		t.setAside(spots, "option of the line above")
	default:
		t.lines = append(t.lines, l)
		for _, s := range spots {
			if t.column(s.place) == nil {
				t.aside = append(t.aside, asideSpot{s.cell, "beside the table, under no title"})
			}
		}
	}
	return true
}

// isSection tells a separator such as SMALL EIGHT from a note: it is short, is
// no sentence, and a line of the table follows.
func (t *table) isSection(n int, s spot) bool {
	text := parse.Squeeze(s.cell.Text)
	if len(strings.Fields(text)) > 5 || strings.HasPrefix(text, "*") || strings.HasSuffix(text, ".") {
		return false
	}
	for next := n + 1; next <= min(n+blankLinesEnd, t.last); next++ {
		if len(t.view.lines[next]) > 1 {
			_, ok := t.at(next, t.columns[0].place)
			return ok
		}
	}
	return false
}

func (t *table) sameTitles(other []titled) bool {
	if len(other) != len(t.columns) {
		return false
	}
	for i := range other {
		if other[i].place != t.columns[i].place || other[i].role != t.columns[i].role {
			return false
		}
	}
	return true
}

func (t *table) setAside(spots []spot, why string) {
	for _, s := range spots {
		t.aside = append(t.aside, asideSpot{s.cell, why})
	}
}

// cells returns every cell of the table itself.
func (t *table) cells() []decode.Cell {
	var out []decode.Cell
	for _, c := range t.columns {
		out = append(out, c.cells...)
	}
	for _, l := range t.lines {
		for _, c := range t.columns {
			if cell, ok := l.cells[c.place]; ok {
				out = append(out, cell)
			}
		}
	}
	for _, s := range t.sections {
		out = append(out, s.cell)
	}
	for _, a := range t.aside {
		out = append(out, a.cell)
	}
	return out
}
