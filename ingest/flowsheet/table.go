package flowsheet

import (
	"slices"
	"strings"

	"flowshelf/analysis/source"
	"flowshelf/ingest/decode"
	"flowshelf/ingest/layout"
	"flowshelf/ingest/parse"
	"flowshelf/ingest/words"
)

// table is one list of lifts with the columns that stand beside it, in places
// of a plane: lifts run down, lanes run beside them, headers stand above.
type table struct {
	axis    axis
	lead    axis // the axis that owns the headers; axis itself unless it shares them
	top     int  // first header row
	left    int  // first column: the lifts, unless readings stand before them
	right   int  // last column
	bottom  int  // last row: the last lift or the last row of the sheet's own summary
	headers []int
	lanes   []*lane
	margin  []decode.Cell // words beside the readings
	extras  []extra
	banner  decode.Cell // what stands over the whole list of lifts: INTAKE
	corner  facts       // what the label of the lifts says: "CFM @28"
	told    bool        // somebody has said that it is a flow sheet
}

// lane is one column of a table.
type lane struct {
	col     int
	headers []decode.Cell // from the outermost to the innermost
	facts   facts         // what the headers say
	section facts         // what a row or column without readings before it says
	role    laneRole
	why     string // why the lane is not a curve
}

// extra is a row after the lifts: the sheet's own summary or a fact a column.
type extra struct {
	row     int
	label   decode.Cell
	caption caption
	summary bool
}

func (t *table) plane() layout.Plane { return t.axis.plane }

// area is the table's rectangle in places of the sheet.
func (t *table) area() decode.Area {
	left := t.left
	if !t.banner.Blank() {
		left--
	}
	return t.plane().Area(decode.Area{Top: t.top, Left: left, Bottom: t.bottom, Right: t.right})
}

// tables finds the tables of a page that are flow sheets.
func (r *reader) tables(page *layout.Page) []*table { return r.credible(r.blocks(page)) }

// blocks finds whatever can be a table on both planes of a page, the surest
// lists of lifts first; a cell belongs to one table only.
func (r *reader) blocks(page *layout.Page) []*table {
	down, across := r.oriented(page, axes(layout.Plane{Page: page}), axes(layout.Plane{Page: page, Swapped: true}))
	all := notOfCam(append(slices.Clone(down), across...))
	slices.SortStableFunc(all, func(a, b axis) int { return int(b.sure) - int(a.sure) })
	var chosen []axis
	for _, a := range all {
		if !free(a, page) || a.crosses(chosen) {
			continue
		}
		chosen = append(chosen, r.split(a)...)
	}
	var out []*table
	for _, a := range chosen {
		if t := r.table(a, chosen); t != nil {
			out = append(out, t)
		}
	}
	return out
}

func free(a axis, page *layout.Page) bool {
	return !slices.ContainsFunc(a.entries, func(e entry) bool { return !page.Free(e.cell.Row, e.cell.Col) })
}

// bothWays asks about a block whose first row and first column can both be the
// lifts.
func (r *reader) bothWays(page *layout.Page) source.Problems {
	p := problemBook{r: r}
	across := axes(layout.Plane{Page: page, Swapped: true})
	for _, d := range axes(layout.Plane{Page: page}) {
		for _, a := range across {
			if !d.shares(a) {
				continue
			}
			if e := r.pageEvidence(page); !e.unit && !e.pagePorts && !e.heads {
				continue
			}
			p.ask(page.Ref(d.label), kindOrientation, "", d.label.Text, "both the first row and the first column can be the lifts", whichLifts(page))
		}
	}
	return p.problems
}

func whichLifts(page *layout.Page) source.Question {
	return source.Question{Key: key("orientation", page.Path, page.Sheet.Name), Text: "Which are the lifts: the first column or the first row?",
		Choices: []string{"the first column", "the first row"}, Changes: "the whole table waits for it"}
}

// orientationTold reports whether somebody has said which are the lifts: what
// stands beside them is then asked about rather than passed over.
func (r *reader) orientationTold(page *layout.Page) bool {
	_, told := r.about.Answers.Reply(whichLifts(page))
	return told
}

// shares reports whether a list of lifts down the sheet and one across it hang
// on one label.
func (a axis) shares(across axis) bool {
	return a.sure >= certainly && across.sure >= certainly && a.label.Row == across.label.Row && a.label.Col == across.label.Col
}

// oriented leaves out, of two lists that hang on one label, the one that an
// answer says is none.
func (r *reader) oriented(page *layout.Page, down, across []axis) (columns, rows []axis) {
	answer, ok := r.about.Answers.Reply(whichLifts(page))
	if !ok {
		return down, across
	}
	column := answer.Is("the first column")
	columns = slices.DeleteFunc(slices.Clone(down), func(d axis) bool { return !column && slices.ContainsFunc(across, d.shares) })
	rows = slices.DeleteFunc(slices.Clone(across), func(a axis) bool {
		return column && slices.ContainsFunc(down, func(d axis) bool { return d.shares(a) })
	})
	return columns, rows
}

// crosses reports whether an axis runs through the readings or along the
// lifts of a surer one.
func (a axis) crosses(surer []axis) bool {
	for _, s := range surer {
		if s.plane.Swapped == a.plane.Swapped {
			if a.laneOf(s) {
				return true // a column of readings that happens to rise like lifts
			}
			continue
		}
		// Down the sheet and across it: the other one's lifts are a row here.
		top, bottom := a.first(), a.last()
		for _, e := range s.entries {
			row, col := a.plane.Place(e.cell)
			if row >= top && row <= bottom && col >= a.col {
				return true
			}
			if col == a.col && row >= top-1 && row <= bottom {
				return true
			}
		}
		if s.col >= top && s.col < bottom && a.sure < labelled {
			return true
		}
	}
	return false
}

// summarised reports whether the word over an unlabelled list says that it
// holds a coefficient, a velocity or the like: .61 .58 .52 is no list of lifts.
func (a axis) summarised() bool {
	over := a.plane.At(a.first()-1, a.col)
	if !a.label.Blank() || over.Kind != decode.Text {
		return false
	}
	return slices.ContainsFunc(words.FlowSheet().Find(words.Tokens(over.Text)), func(h words.Hit) bool {
		switch h.Role {
		case words.Area, words.Velocity, words.Ratio, words.Swirl, words.Power, words.Percent, words.Gain, words.BothPorts:
			return true
		default:
			return false
		}
	})
}

// laneOf reports whether a list is one of the columns of readings beside the
// lifts of a surer one.
func (a axis) laneOf(s axis) bool {
	if s.col >= a.col || !overlap(a, s) {
		return false
	}
	return a.summarised() || a.sure < spelled && !sameLifts(a, s) && s.reaches(a.col)
}

// reaches reports whether readings stand beside the lifts all the way to a
// column, so that it is one of their lanes.
func (a axis) reaches(col int) bool {
	for at := a.col + 1; at < col; at++ {
		figures := 0
		for _, e := range a.entries {
			if c := a.plane.At(e.row, at); !c.Blank() && isFigure(c) {
				figures++
			}
		}
		if 2*figures < len(a.entries) && figures < 2 {
			return false
		}
	}
	return true
}

func overlap(a, b axis) bool { return a.first() <= b.last() && b.first() <= a.last() }

func sameLifts(a, b axis) bool {
	return slices.EqualFunc(a.entries, b.entries, func(x, y entry) bool {
		return x.row == y.row && x.text.Value == y.text.Value
	})
}

// split parts an axis where a new banner begins over it.
func (r *reader) split(a axis) []axis {
	var out []axis
	from := 0
	was := r.bannerOver(a, a.entries[0].row)
	for i := 1; i < len(a.entries); i++ {
		now := r.bannerOver(a, a.entries[i].row)
		if now.Row == was.Row && now.Col == was.Col || !now.Blank() && strings.EqualFold(now.Text, was.Text) {
			continue // one banner, typed once or over every lift
		}
		part := a
		part.entries = a.entries[from:i]
		out = append(out, part)
		from, was = i, now
	}
	last := a
	last.entries = a.entries[from:]
	if from > 0 {
		last.label = decode.Cell{}
	}
	return append(out, last)
}

// bannerOver returns the cell over a lift that names a port, a head or a
// class for all lifts until the next such cell.
func (r *reader) bannerOver(a axis, row int) decode.Cell {
	if a.col < 2 {
		return decode.Cell{}
	}
	if m, ok := a.plane.Merge(row, a.col-1); ok {
		row = m.Top
	}
	for at := row; at >= 1 && at >= row-40; at-- {
		c := a.plane.At(at, a.col-1)
		if c.Blank() {
			continue
		}
		if c.Kind != decode.Text || at < a.first()-40 {
			return decode.Cell{}
		}
		if f := r.header(a.plane.Page, c); len(f.port) == 1 && !f.is(words.Lift) {
			return c
		}
		return decode.Cell{}
	}
	return decode.Cell{}
}

// header reads one header cell.
func (r *reader) header(page *layout.Page, c decode.Cell) facts {
	return r.read(newLine(parse.Squeeze(displayText(c)), r.trace(page, c), inHeader))
}

// table builds the table around an axis.
func (r *reader) table(a axis, all []axis) *table {
	t := &table{axis: a, lead: a, left: a.col, bottom: a.last(), banner: decode.Cell{}, corner: newFacts()}
	if b := r.bannerOver(a, a.first()); !b.Blank() {
		if row, _ := a.plane.Place(b); row >= t.leadOf(all).first() || t.alone(b) {
			t.banner = b
		}
	}
	t.lead = t.leadOf(all)
	t.right = r.limit(t, all)
	t.headerRows(all)
	if rest := a.entries[0].text.Rest; rest != "" {
		t.corner = r.read(newLine(rest, r.trace(a.plane.Page, a.entries[0].cell), inHeader))
	}
	t.findLanes(r)
	t.leftLanes(r, all)
	t.readHeaders(r)
	if len(t.lanes) == 0 {
		return nil
	}
	t.findExtras(r, all)
	return t
}

// alone reports whether the words over a table with lifts across are all that
// its row holds: "Intake CFM" over the column of the heads.
func (t *table) alone(banner decode.Cell) bool {
	if !t.plane().Swapped {
		return false
	}
	for _, c := range t.plane().Page.Sheet.Row(banner.Row) {
		if c.Col != banner.Col && !c.Blank() {
			return false
		}
	}
	return true
}

// leadOf returns the axis further up the same column that owns the headers: an
// unlabelled list below or beside another one shares its headers.
func (t *table) leadOf(all []axis) axis {
	lead := t.axis
	for {
		if !lead.label.Blank() || t.ownHeader(lead) {
			return lead
		}
		before, ok := previous(lead, all)
		if !ok {
			return lead
		}
		lead = before
	}
}

func previous(a axis, all []axis) (axis, bool) {
	var found axis
	ok := false
	for _, o := range all {
		if o.plane.Swapped == a.plane.Swapped && o.col == a.col && o.last() < a.first() && (!ok || o.last() > found.last()) {
			found, ok = o, true
		}
	}
	return found, ok
}

// ownHeader reports whether words stand right over the lanes of an axis.
func (t *table) ownHeader(a axis) bool {
	if a.first() == 1 || a.plane.Swapped {
		return false
	}
	for col := a.col + 1; col <= a.col+8; col++ {
		if a.plane.At(a.first()-1, col).Kind == decode.Text {
			return true
		}
	}
	return false
}

// limit returns the last column that can belong to the table: the one before
// the next list of lifts and the banner over it.
func (r *reader) limit(t *table, all []axis) int {
	limit := t.plane().Cols()
	for _, o := range all {
		if o.plane.Swapped != t.plane().Swapped || o.col <= t.axis.col || !overlap(o, t.axis) {
			continue
		}
		end := o.col - 1
		if !r.bannerOver(o, o.first()).Blank() {
			end--
		}
		if o.sure >= spelled || sameLifts(o, t.axis) || !t.axis.reaches(o.col) {
			limit = min(limit, end)
		}
	}
	return limit
}

// displayText is a cell's content as a reader of the sheet sees it, as far as
// the number of decimals tells what it is: 4.5 shown as 4.500 is a bore.
func displayText(c decode.Cell) string {
	text := cellText(c)
	if c.Kind == decode.Number && (c.Format == "0.000" || c.Format == ".000") {
		whole, fraction, _ := strings.Cut(text, ".")
		if len(fraction) < 3 {
			return whole + "." + fraction + strings.Repeat("0", 3-len(fraction))
		}
	}
	return text
}
