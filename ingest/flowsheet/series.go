package flowsheet

import (
	"cmp"
	"regexp"
	"slices"
	"strings"

	"flowshelf/analysis/head"
	"flowshelf/analysis/quantity"
	"flowshelf/analysis/source"
	"flowshelf/ingest/decode"
	"flowshelf/ingest/layout"
	"flowshelf/ingest/parse"
	"flowshelf/ingest/words"
)

// series is the neutral form of every shape of flow sheet: readings against
// lifts, and what all places of the sheet say about them.
type series struct {
	shape     string
	lifts     []source.Stated[quantity.Length]
	liftCells []decode.Cell
	values    []decode.Cell // one a lift, Empty where nothing stands
	pressures []decode.Cell // one a lift, or nil
	pressCap  facts         // what the header over the pressures says
	ranges    []decode.Cell // one a lift, or nil
	percent   bool          // values are percent of range
	drop      bool          // values are differentials across an orifice
	dropUnit  said[parse.PressureUnit]
	through   map[source.Ref]head.Orifice // by the cell of the reading
	notes     []decode.Cell               // words beside the readings, anywhere in their rows
	hidden    []bool                      // one a lift: the row is hidden
	hiddenAll bool                        // the whole column is hidden
	headers   []decode.Cell               // over the values, from the outermost to the innermost

	at     decode.Cell // the header, or the first value where there is none
	own    facts       // what the header and its rows say
	facts  facts       // own, then the lines around, the tab, the cover, the file
	around facts       // everything the sheet says, of whichever column
	local  facts       // own and the lines around, without tab, cover and file
	remark []decode.Cell
	over   []head.Remark // what the lines over the table say against it

	answered string  // who answered questions about the whole column
	told     bool    // somebody has told what the sign before three digits is
	perUnit  float64 // cfm that one of its figures stands for, by an answer; 0 for none

	mayBe      said[string] // looks like a head's name, where nothing else names one
	otherwise  said[string] // what the title or the tab calls the head that the columns name
	plain      said[string] // plain words that two places make the head's name
	unread     string       // the header with words that nobody knows
	unknown    string       // the same, where it holds nothing else
	blockFacts facts        // what the lines right around the table say
	noted      facts        // what the notes under it say
	rivals     rivals       // what the lines around say against the header
}

// builder turns the tables of one page into tests.
type builder struct {
	r      *reader
	page   *layout.Page
	shape  string
	around *surroundings
	cal    calibrations
	sender string
	form   string // how the tables are laid out, for questions that one answer serves
	p      *problemBook
	tests  []head.Test
	tables []*table
	cells  map[string]decode.Cell // of the page, by their names
}

func newBuilder(r *reader, page *layout.Page, shape string, tables []*table) *builder {
	b := &builder{r: r, page: page, shape: shape, around: r.look(page, tables), p: &problemBook{r: r}, tables: tables}
	b.cal = r.calibrations(page, tables)
	f := b.everything(tables)
	b.sender = r.sender(f, page.Path)
	b.form = formOf(shape, tables)
	return b
}

// everything joins what the lines of the page, the tab, the cover and the file
// say, of whichever column.
func (b *builder) everything(tables []*table) facts {
	f := newFacts()
	for _, t := range tables {
		f = f.beside(b.around.blocks[t].any()).beside(b.around.notes[t].any())
	}
	return f.beside(b.around.page.any()).within(b.around.foot.any()).within(b.around.tab.any()).within(b.around.cover.any()).within(b.around.file.any())
}

// scoped fills a lane's own facts from the places around it, from the nearest
// to the farthest.
func (b *builder) scoped(t *table, own facts) (local, all facts) {
	n := b.r.names
	f := own.within(t.corner)
	if t.claimBesideTest(own) {
		f = f.within(b.around.blocks[t].claims(f, n)).within(b.around.page.claims(f, n)).within(b.around.tab.any().who())
		f.flowUnit = f.flowUnit.or(b.around.notes[t].facts(f, n).flowUnit)
		return f, f.within(b.around.file.any().who())
	}
	above := b.around.blocks[t].facts(f, n)
	notes := b.around.notes[t].ofHeads(f.within(above)).facts(f, n)
	f = f.within(above.beside(notes).conditionsOfNotes(above))
	if from := b.around.heirs[t]; from != nil {
		before := b.around.blocks[from].facts(f, n)
		if b.mayNameItself(t) {
			before.head, before.loose = nil, nil
		}
		f = f.within(before)
	}
	f = f.within(b.around.page.facts(f, n))
	f = f.within(b.around.foot.facts(f, n))
	local = f
	f = f.within(b.around.tab.facts(f, n))
	f = f.within(b.around.cover.facts(f, n))
	return local, f.within(fileFacts(b.around.file.facts(f, n)))
}

// claimBesideTest reports whether a column holds a claim while others of the
// table hold tests: how the shop flowed its tests says nothing of the claim.
func (t *table) claimBesideTest(own facts) bool {
	if !own.class.has(head.Advertised) {
		return false
	}
	return slices.ContainsFunc(t.lanes, func(ln *lane) bool { return ln.facts.class.has(head.Own) })
}

// who keeps of facts which head they are of.
func (f facts) who() facts {
	g := newFacts()
	g.head, g.loose = f.head, f.loose
	return g
}

// conditionsOfNotes keeps who and what was tested from the lines over a table
// only: a note under it may speak of another head.
func (f facts) conditionsOfNotes(above facts) facts {
	f.head, f.loose, f.unclear, f.port, f.state, f.mark, f.run, f.class = above.head, above.loose, above.unclear, above.port, above.state, above.mark, above.run, above.class
	f.serial, f.sample, f.date, f.unsure = above.serial, above.sample, above.date, above.unsure
	return f
}

// fileFacts keeps of a file's name what people put there: the head, the bore,
// the pressure and the sender.
func fileFacts(f facts) facts {
	g := newFacts()
	g.head, g.loose, g.bore, g.pressure, g.supplier, g.bench, g.port = f.head, f.loose, f.bore, f.pressure, f.supplier, f.bench, f.port
	return g
}

// series gathers one lane.
func (b *builder) series(t *table, ln *lane) series {
	plane := t.plane()
	own := b.marked(ln).within(t.extraFacts(b.r, ln)).within(ln.section)
	var dropUnit said[parse.PressureUnit]
	if ln.role == laneDrop {
		own, dropUnit = own.ofDrop()
	}
	s := series{shape: b.shape, drop: ln.role == laneDrop, dropUnit: dropUnit, own: own, hiddenAll: plane.HiddenCol(ln.col), headers: ln.headers}
	s.local, s.facts = b.scoped(t, own)
	s.rivals = b.rivals(t, own)
	s.blockFacts = b.around.blocks[t].facts(s.facts, b.r.names).beside(b.around.page.facts(s.facts, b.r.names))
	s.noted = b.around.notes[t].facts(s.facts, b.r.names)
	s.around = s.facts
	s.around.pipe = s.facts.pipe.or(b.everything([]*table{t}).pipe)
	s.around.entry = s.facts.entry.or(b.everything([]*table{t}).entry)
	for _, e := range t.axis.entries {
		s.liftCells = append(s.liftCells, e.cell)
		s.values = append(s.values, plane.At(e.row, ln.col))
		s.hidden = append(s.hidden, plane.HiddenRow(e.row))
	}
	s.at = firstCell(ln.headers, s.values)
	if len(ln.headers) > 0 {
		s.at = ln.headers[len(ln.headers)-1]
	}
	b.columnsBeside(&s, t, ln)
	if !s.drop || restText(own) != "" {
		s.unread, s.unknown = b.unread(ln)
	}
	switch {
	case !s.facts.namesHead():
		s.mayBe = b.nameAround(t, ln.headers)
		if len(s.mayBe) == 0 && s.unread == "" {
			s.plain = b.plainNames(t)
		}
	case own.namesHead():
		s.otherwise = b.titledOtherwise(t, own)
	case !t.corner.namesHead() && !b.around.blocks[t].any().namesHead():
		s.mayBe = b.namesIn(b.around.blocks[t].lines)
	}
	s.remark, s.over = b.words(t), b.warnedOver(t)
	s.percent = ln.role == lanePercent
	return s
}

// columnsBeside takes what other columns say of each reading of a lane: notes, its
// test pressure, its range or orifice.
func (b *builder) columnsBeside(s *series, t *table, ln *lane) {
	plane := t.plane()
	s.notes = append(slices.Clone(t.margin), b.farNotes(t)...)
	for _, x := range t.extras {
		if c := plane.At(x.row, ln.col); x.caption.role == words.Note && !c.Blank() {
			s.notes = append(s.notes, c)
		}
	}
	for _, other := range t.lanes {
		switch {
		case other.role == laneNote:
			for _, e := range t.axis.entries {
				if c := plane.At(e.row, other.col); !c.Blank() {
					s.notes = append(s.notes, c)
				}
			}
		case other.role == lanePressure && len(s.own.pressure)+len(s.own.bare) == 0 && nearest(t, ln, lanePressure) == other:
			s.pressCap = other.facts
			for _, e := range t.axis.entries {
				s.pressures = append(s.pressures, plane.At(e.row, other.col))
			}
		case other.role == laneRange && (ln.role == lanePercent || ln.role == laneDrop) && rangeOf(t, ln) == other:
			for _, e := range t.axis.entries {
				s.ranges = append(s.ranges, plane.At(e.row, other.col))
			}
		}
	}
}

// words returns the notes under a table and those cells over it that say more
// than conditions: they are kept word for word.
func (b *builder) words(t *table) []decode.Cell {
	var out []decode.Cell
	for _, l := range b.around.notes[t].lines {
		for _, c := range l.Cells {
			n, foot := b.r.footnoteOf(b.page, c)
			foot = foot && b.pointedAt(n)
			if _, lift := liftOf(c); c.Kind == decode.Text && !foot && !lift {
				out = append(out, c)
			}
		}
	}
	for _, l := range b.around.blocks[t].lines {
		for _, c := range l.Cells {
			if claim, _ := b.page.ClaimedBy(c.Row, c.Col); c.Kind == decode.Text && !claim.Used && b.r.tells(c, b.page) {
				out = append(out, c)
			}
		}
	}
	return out
}

// tells reports whether a line holds a sentence rather than conditions.
func (r *reader) tells(c decode.Cell, page *layout.Page) bool {
	n := 0
	for _, st := range r.statements(c.Text, r.trace(page, c)) {
		n += len(st.facts.rest)
	}
	return n >= 5 || warning.MatchString(c.Text)
}

var warning = regexp.MustCompile(`(?i)\b(?:stall|backs? up|turbulent|nois[ye]|whistl|scream|different bench|borrowed|core shift)`)

// unread returns the outermost header whose words are not all known, perhaps a
// head's name, and the innermost one that holds nothing else.
func (b *builder) unread(ln *lane) (outermost, alone string) {
	for _, c := range ln.headers {
		f := b.r.header(b.page, c)
		if restText(f) == "" {
			continue
		}
		text := parse.Squeeze(cellText(c))
		outermost = cmp.Or(outermost, text)
		if strings.Contains(restText(ln.facts), restText(f)) && len(f.port)+len(f.head)+len(f.flowUnit)+len(f.pressure)+len(f.bore) == 0 {
			alone = text
		}
	}
	return outermost, alone
}

// marked adds to a lane's headers what the footnote says that its mark points
// at.
func (b *builder) marked(ln *lane) facts {
	if ln.facts.footmark == "" {
		return ln.facts
	}
	n, ok := b.footnote(ln.facts.footmark)
	if !ok {
		return ln.facts
	}
	f := newFacts()
	for _, st := range n.statements {
		f = f.beside(st.facts)
	}
	return ln.facts.within(f)
}

func firstCell(headers, values []decode.Cell) decode.Cell {
	if len(headers) > 0 {
		return headers[0]
	}
	for _, v := range values {
		if !v.Blank() {
			return v
		}
	}
	return values[0]
}

// nearest returns the lane of a role that serves a lane: the last one before
// it, else the first one of the table.
func nearest(t *table, ln *lane, role laneRole) *lane {
	var found *lane
	for _, o := range t.lanes {
		if o.role == role && (found == nil || o.col < ln.col) {
			found = o
		}
	}
	return found
}

// rangeOf returns the range column that belongs to a percent column: the last
// one before it; a table with one range column after it uses that.
func rangeOf(t *table, ln *lane) *lane { return nearest(t, ln, laneRange) }
