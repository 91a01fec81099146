package flowsheet

import (
	"regexp"
	"strings"

	"flowshelf/analysis/source"
	"flowshelf/ingest/decode"
	"flowshelf/ingest/layout"
	"flowshelf/ingest/parse"
	"flowshelf/ingest/words"
)

// readHeaders reads the header stack of every lane and what the label over the
// lifts says of all of them.
func (t *table) readHeaders(r *reader) {
	page := t.plane().Page
	stacks := t.stacks(r)
	names, named := t.nameRow(r, stacks)
	for i, ln := range t.lanes {
		ln.facts = newFacts()
		for level, c := range stacks[i] {
			if c.Blank() {
				continue
			}
			ln.headers = append(ln.headers, c)
			f := t.headerFacts(r, t.headers[level], c)
			if named && level == names {
				f = r.nameInRow(page, c, f)
			}
			ln.facts = t.openUnder(r, c, f, ln.facts)
		}
	}
	t.settleUnlike()
	t.settleInches()
	for _, c := range []decode.Cell{t.lead.label, t.axis.label, t.cornerCell()} {
		if !c.Blank() {
			t.corner = t.corner.beside(t.labelFacts(r.header(page, c), c))
		}
	}
	if !t.banner.Blank() {
		t.corner = r.header(page, t.banner).within(t.corner)
	}
}

// cornerCell is the cell before unlabelled lifts that run across: "CFM @28",
// "Head".
func (t *table) cornerCell() decode.Cell {
	if !t.plane().Swapped || !t.lead.label.Blank() {
		return decode.Cell{}
	}
	return t.plane().At(t.lead.first()-1, t.axis.col)
}

// labelFacts keeps of a label what holds for every lane: a unit of lift, a
// unit of flow, a pressure, a port.
func (t *table) labelFacts(f facts, c decode.Cell) facts {
	if unit, ok := parse.FindLiftUnit(parse.StrikeFlowUnit(c.Text)); ok && (isLiftLabel(c) || unitsOnly(c)) {
		f.liftUnit = nil
		f.liftUnit.add(unit, source.Trace{At: t.plane().Page.Ref(c), Text: c.Text})
		f.pressure, f.presUnit, f.ambiguous = nil, nil, ""
	}
	if isLiftLabel(c) || len(f.rest) > 0 {
		f.head, f.loose = nil, nil // else the corner holds the head's name alone
	}
	f.mark, f.run, f.ambiguous = nil, nil, ""
	return f
}

// headerFacts reads a header cell; where its row is captioned ("Head", "Bore",
// "TP inH2O") the caption says what it is.
func (t *table) headerFacts(r *reader, row int, c decode.Cell) facts {
	page := t.plane().Page
	label := t.plane().At(row, t.axis.col)
	if row > t.lead.first()-1 && !t.plane().Swapped {
		label = decode.Cell{}
	}
	if heads, both := twoWays(label.Text); both {
		label.Text = heads
	}
	if label.Kind == decode.Text && !isLiftLabel(label) {
		if c0, ok := captionOf(label.Text); ok && c0.role != words.Flow {
			return r.captionedCell(c0, c, page)
		}
	}
	return r.header(page, c)
}

// stacks returns for each lane the header cell of each level, merged and
// unmerged banners carried over the lanes they stand for.
func (t *table) stacks(r *reader) [][]decode.Cell {
	out := make([][]decode.Cell, len(t.lanes))
	for i := range out {
		out[i] = make([]decode.Cell, len(t.headers))
	}
	for level := len(t.headers) - 1; level >= 0; level-- {
		t.fill(r, out, level)
	}
	return out
}

// fill reads one level. A banner that is not merged is carried to the right
// only while the headers below it do not repeat: LKC-12 over Int and Exh ends
// where the next Int begins.
func (t *table) fill(r *reader, out [][]decode.Cell, level int) {
	row, plane := t.headers[level], t.plane()
	merges := t.hasMerges(row)
	var current decode.Cell
	seen := map[string]bool{}
	for i, ln := range t.lanes {
		c := plane.At(row, ln.col)
		if m, ok := plane.Merge(row, ln.col); ok && c.Blank() {
			c = plane.At(m.Top, m.Left)
		}
		below := t.allBelow(r, out[i][level+1:])
		gap := i > 0 && ln.col > t.lanes[i-1].col+1 && plane.Swapped
		switch {
		case isDitto(c) && i > 0:
			c = out[i-1][level]
			current = c
		case !c.Blank():
			current, seen = c, map[string]bool{}
		case merges || current.Blank() || below == "" || seen[below] || gap:
			current = decode.Cell{}
		default:
			c = current
		}
		seen[below] = true
		out[i][level] = c
	}
}

func isDitto(c decode.Cell) bool {
	l, ok := parse.Lift(c.Text)
	return c.Kind == decode.Text && (ok && l.Ditto || dittoMark.MatchString(c.Text))
}

// dittoMark is a mark such as -"- that repeats what stands above.
var dittoMark = regexp.MustCompile(`^\s*[-–—]*\s*(?:["”″〃]|''|,,)\s*[-–—]*\s*$`)

// below is what tells the lanes under one banner apart: the port where one is
// named, else the words themselves.
func (t *table) below(r *reader, cells []decode.Cell) string {
	var texts []string
	for _, c := range cells {
		if c.Blank() {
			continue
		}
		if port := r.portAlone(t.plane().Page, c); port != "" {
			return port
		}
		texts = append(texts, strings.ToLower(cellText(c)))
	}
	return strings.Join(texts, "|")
}

// allBelow is what tells the lanes under one banner apart when there is a banner
// between: "As cast" over Int and Exh, then "Ported" over Int and Exh.
func (t *table) allBelow(r *reader, cells []decode.Cell) string {
	var texts []string
	for _, c := range cells {
		if !c.Blank() {
			texts = append(texts, t.below(r, []decode.Cell{c}))
		}
	}
	return strings.Join(texts, "|")
}

// portAlone returns the port that a header names and nothing beside it, "" for
// none. A page full of figures has many lists and every header stands over most
// of them, so what one says is remembered.
func (r *reader) portAlone(page *layout.Page, c decode.Cell) string {
	key := headerCell{page, c.Row, c.Col}
	if port, known := r.ports[key]; known {
		return port
	}
	port := ""
	f := r.header(page, c)
	if p, ok := f.port.one(); ok && !f.says(words.Gain, words.Percent, words.Average) && len(f.pipe)+len(f.mark)+len(f.class)+len(f.run) == 0 {
		port = p.Value.String()
	}
	if r.ports == nil {
		r.ports = make(map[headerCell]string)
	}
	r.ports[key] = port
	return port
}

// headerCell is one cell of one page.
type headerCell struct {
	page     *layout.Page
	row, col int
}

func (t *table) hasMerges(row int) bool {
	for _, ln := range t.lanes {
		if m, ok := t.plane().Merge(row, ln.col); ok && m.Right > m.Left {
			return true
		}
	}
	return false
}
