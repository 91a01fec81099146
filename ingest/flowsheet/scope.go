package flowsheet

import (
	"cmp"
	"path"
	"regexp"
	"slices"
	"strings"

	"flowshelf/ingest/decode"
	"flowshelf/ingest/layout"
	"flowshelf/ingest/words"
)

// scope is what the lines around a table say, and the lines themselves.
type scope struct {
	statements []statement
	lines      []layout.Line
}

// facts joins what a scope says of a column that is already known as f. A flow
// unit counts for all columns, whichever of them a line speaks of.
func (s scope) facts(f facts, n *names) facts {
	out := newFacts()
	declared := s.declaredPort()
	if len(f.port) == 0 && f.ambiguous == "" {
		f.port = declared
	}
	one, alone := s.onePort(), s.oneHead()
	for _, st := range s.statements {
		switch {
		case alone && len(f.head)+len(f.loose) == 0 && len(st.only.heads) == 1:
			// "PW-33 - tested on 4.030" over a test that names no head
			out = out.beside(st.facts)
			out.head = out.head.and(st.only.heads)
		case !st.only.narrow() || st.only.holds(f, n), len(f.port) == 0 && one && st.only.onlyPort():
			out = out.beside(st.facts)
		case len(st.only.port) > 0 && len(f.port) == 0:
			out.port = out.port.and(st.facts.port)
			fallthrough
		default:
			out.flowUnit = out.flowUnit.and(st.facts.flowUnit)
			out.presUnit = out.presUnit.and(st.facts.presUnit)
			out.supplier = out.supplier.and(st.facts.supplier)
		}
	}
	out.port = declared.or(out.port)
	return out
}

// oneHead reports whether the lines speak of one head alone.
func (s scope) oneHead() bool {
	var heads said[string]
	for _, st := range s.statements {
		heads = heads.and(st.only.heads).and(st.facts.head)
	}
	return len(heads) == 1
}

// ofHeads leaves out the statements that speak of other heads than the facts
// name: "compare SK-14 at 10 inH2O" below a test of another head.
func (s scope) ofHeads(f facts) scope {
	out := scope{lines: s.lines}
	for _, st := range s.statements {
		if len(st.facts.head) == 0 || len(f.head) == 0 || anyOf(st.facts.head, f.head) {
			out.statements = append(out.statements, st)
		}
	}
	return out
}

// claims joins what a scope says of a claim that stands beside tests: the
// statements made of claims, and of those made of everything the head, the
// units, the pressure and the bore. Serial, date, pipe and entry are the
// tested sample's.
func (s scope) claims(f facts, n *names) facts {
	out := newFacts()
	for _, st := range s.statements {
		switch {
		case len(st.only.class) > 0 && st.only.holds(f, n):
			out = out.beside(st.facts)
		case len(st.only.class) > 0:
			out.flowUnit = out.flowUnit.and(st.facts.flowUnit)
		default:
			g := st.facts.who()
			g.flowUnit, g.port = st.facts.flowUnit, st.facts.port
			if !st.only.narrow() || st.only.holds(f, n) {
				g.pressure, g.bare, g.bore, g.over, g.engine = st.facts.pressure, st.facts.bare, st.facts.bore, st.facts.over, st.facts.engine
			}
			out = out.beside(g)
		}
	}
	out.port = s.declaredPort().or(out.port)
	return out
}

// any joins everything a scope says, of whichever column.
func (s scope) any() facts {
	out := newFacts()
	for _, st := range s.statements {
		out = out.beside(st.facts)
	}
	return out
}

// surroundings is all that stands around the tables of one page.
type surroundings struct {
	blocks    map[*table]scope
	heirs     map[*table]*table // the table whose lines also speak of this one
	notes     map[*table]scope  // after a table
	page      scope
	foot      scope // said once for the whole page, under or beside its tables
	tab       scope
	cover     scope
	file      scope
	footnotes []footnote
}

// look reads everything around the tables of a page.
func (r *reader) look(page *layout.Page, tables []*table) *surroundings {
	s := &surroundings{blocks: map[*table]scope{}, notes: map[*table]scope{}, heirs: map[*table]*table{}}
	ordered := slices.Clone(tables)
	slices.SortFunc(ordered, func(a, b *table) int {
		x, y := a.area(), b.area()
		return cmp.Or(cmp.Compare(x.Top, y.Top), cmp.Compare(x.Left, y.Left))
	})
	for i, t := range ordered {
		s.above(r, page, ordered, i, t)
		s.below(r, page, ordered, t)
		s.beside(r, page, ordered, t)
	}
	s.tab = scope{statements: r.nameStatements(page, page.Sheet.Name)}
	base := strings.TrimSuffix(path.Base(page.Path), path.Ext(page.Path))
	s.file = scope{statements: r.nameStatements(page, base)}
	s.cover = r.cover(page)
	s.aside(r, page, ordered)
	s.settleOver(page, ordered)
	s.inherit(r, page, ordered)
	s.bindFootnotes()
	return s
}

func (r *reader) nameStatements(page *layout.Page, name string) []statement {
	trace := r.trace(page, decode.Cell{Kind: decode.Text, Text: name})
	trace.At.Cell = ""
	l := newLine(strings.NewReplacer("_", " ").Replace(name), trace, onTab)
	return []statement{{facts: r.read(l)}}
}

var noteStart = regexp.MustCompile(`(?i)^\s*(?:[*†‡#]|\(\d\)|note|remark|n\.b|bem)`)

func noteLike(g []layout.Line) bool {
	return noteStart.MatchString(g[0].Cells[0].Text)
}

// below gives a table the notes that follow it.
func (s *surroundings) below(r *reader, page *layout.Page, all []*table, t *table) {
	area := t.area()
	bottom := page.Sheet.Rows()
	last := true
	for _, o := range all {
		b := o.area()
		if b.Top > area.Bottom {
			bottom, last = min(bottom, b.Top-1), false
		}
	}
	lines := ownLines(layout.Lines(page, decode.Area{Top: area.Bottom + 1, Left: 1, Bottom: bottom, Right: 1 << 20}), t, all)
	groups := layout.Groups(lines)
	if !last {
		groups = trailing(groups, area.Bottom+1, bottom+1)
	}
	for _, g := range groups {
		sc := r.scopeOf(page, g, s)
		if len(all) > 1 && speaksOfAll(g) {
			s.page = join(s.page, sc)
			continue
		}
		if len(all) > 1 && last && (speaksOfFigures(g) || g[0].Row > area.Bottom+1 && sc.setsConditions()) {
			s.foot = join(s.foot, sc.conditions())
		}
		s.notes[t] = join(s.notes[t], sc)
	}
}

// trailing keeps of the lines between two tables those that touch the first.
func trailing(groups [][]layout.Line, top, next int) [][]layout.Line {
	if len(groups) == 0 || groups[0][0].Row != top {
		return nil
	}
	if len(groups) == 1 && adjoins(groups[0], next) && !noteLike(groups[0]) {
		return nil
	}
	return groups[:1]
}

var allWord = regexp.MustCompile(`(?i)\b(?:all|every|alle[rnm]?|s[aä]mtliche|tous|toutes|tutt[ie]|tod[oa]s)\b`)

func speaksOfAll(g []layout.Line) bool { return allWord.MatchString(g[0].Cells[0].Text) }

// scopeOf reads a group of lines.
func (r *reader) scopeOf(page *layout.Page, lines []layout.Line, s *surroundings) scope {
	out := scope{lines: lines}
	turned := keysBehind(lines)
	for n := 0; n < len(lines); n++ {
		l := lines[n]
		if form, ok := r.formRow(page, lines[n:]); ok {
			out.statements = append(out.statements, form...)
			n++
			continue
		}
		if turned && keyBehind(l) {
			l.Cells = []decode.Cell{l.Cells[1], l.Cells[0]}
		}
		if r.isOddKey(page, lines, n) {
			out.statements = append(out.statements, r.valueOfThing(page, l.Cells[1])...)
			continue
		}
		for cells := l.Cells; len(cells) > 0; {
			said, used := r.statementsAt(page, cells, s)
			out.statements = append(out.statements, said...)
			cells = cells[used:]
		}
	}
	return out
}

// statementsAt reads what the first of a line's cells says, with those behind it
// that belong to it, and returns how many cells that took.
func (r *reader) statementsAt(page *layout.Page, cells []decode.Cell, s *surroundings) (out []statement, used int) {
	c, after := cells[0], cells[1:]
	if len(rangePair.FindAllString(c.Text, 2)) == 2 && rangeWords.MatchString(c.Text) {
		return nil, 1 // the calibration, with a pressure of its own
	}
	if onePair.MatchString(c.Text) {
		return nil, 1 // one range of it
	}
	if note, ok := r.footnoteOf(page, c); ok {
		if s != nil {
			s.addFootnote(note)
		}
		return nil, 1
	}
	if box := boxAt(layout.Line{Cells: cells}, 0); c.Kind == decode.Text && box.isMeasure() {
		return nil, box.cells // "Spring | 130 @ 1.800" states no pressure
	}
	if len(after) > 0 && after[0].Col <= c.Col+2 {
		if statesSeats(c.Text, displayText(after[0])) {
			return nil, 2
		}
		if text, ok := valveBox(c, after[0]); ok {
			return []statement{{facts: r.read(newLine(text, r.trace(page, after[0]), inTitle)).ofValves()}}, 2
		}
		if k, ok := captionOf(c.Text); ok && !k.whole() && c.Kind == decode.Text {
			colon := 0
			if len(after) > 1 && onlyMarks(after[0]) { // in a cell of its own
				colon = 1
			}
			f, used := r.keyed(page, k, after[colon:])
			return []statement{{facts: f}}, 1 + colon + used
		}
		if isOtherBore(c) {
			return nil, 2
		}
		if isThing(c) {
			return r.valueOfThing(page, after[0]), 2
		}
		if numbersElse(c, after[0]) {
			return r.cellStatements(page, c), 2
		}
	}
	return r.cellStatements(page, c), 1
}

// keyed reads the cells after a key: a value, and a unit in the cell behind.
func (r *reader) keyed(page *layout.Page, c caption, after []decode.Cell) (facts, int) {
	value := after[0]
	if len(after) > 1 && value.Kind == decode.Number && after[1].Kind == decode.Text && after[1].Col == value.Col+1 && len(after[1].Text) <= 10 {
		if _, isKey := captionOf(after[1].Text); !isKey || captionNoise.MatchString(after[1].Text) {
			trace := r.trace(page, value)
			return r.captioned(c, displayText(value)+" "+after[1].Text, trace), 2
		}
	}
	return r.captionedCell(c, value, page), 1
}

func (r *reader) cellStatements(page *layout.Page, c decode.Cell) []statement {
	switch c.Kind {
	case decode.Text:
		if areInitials(c.Text) {
			f := newFacts()
			f.operator.add(strings.TrimSpace(c.Text), r.trace(page, c))
			return []statement{{facts: f}}
		}
		said := r.statements(c.Text, r.trace(page, c))
		if bench, ok := r.benchOf(page, c); ok {
			said = append(said, bench)
		}
		return said
	case decode.Number:
		return []statement{{facts: r.read(newLine(displayText(c), r.trace(page, c), inTitle))}}
	case decode.Date:
		return []statement{{facts: r.captionedCell(caption{role: words.Date}, c, page)}}
	default:
		return nil
	}
}

func join(a, b scope) scope {
	return scope{append(slices.Clone(a.statements), b.statements...), append(slices.Clone(a.lines), b.lines...)}
}
