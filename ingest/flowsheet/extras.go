package flowsheet

import (
	"flowshelf/ingest/decode"
	"flowshelf/ingest/layout"
	"flowshelf/ingest/parse"
	"flowshelf/ingest/words"
)

// summarises reports whether the words before a row name a summary of the
// rows above.
func (f facts) summarises() bool {
	return f.says(words.Peak, words.Total, words.Average, words.Gain, words.Percent, words.Ratio, words.Minimum, words.Maximum,
		words.Spread, words.Power, words.Velocity, words.Rank, words.Area, words.BothPorts, words.Swirl)
}

// findExtras reads the rows that follow the lifts without a blank row: the
// sheet's own summary, or one fact a column such as a bore.
func (t *table) findExtras(r *reader, all []axis) {
	stop := t.plane().Rows()
	for _, o := range all {
		if o.plane.Swapped == t.plane().Swapped && o.first() > t.axis.last() && o.col <= t.right && o.col >= t.axis.col {
			stop = min(stop, o.first()-1)
		}
	}
	for row := t.axis.last() + 1; row <= stop; row++ {
		x, ok := t.extraRow(r, row)
		if !ok {
			return
		}
		t.extras = append(t.extras, x)
		t.bottom = row
	}
}

func (t *table) extraRow(r *reader, row int) (extra, bool) {
	label := t.plane().At(row, t.axis.col)
	x := extra{row: row, label: label}
	if label.Kind == decode.Text && isLiftLabel(label) && !r.header(t.plane().Page, label).summarises() {
		return x, false
	}
	numbers := 0
	for _, ln := range t.lanes {
		if c := t.plane().At(row, ln.col); isFigure(c) || c.Formula != "" {
			numbers++
		}
	}
	if label.Kind == decode.Text {
		if c, ok := captionOf(label.Text); ok && c.role != words.Flow && (numbers > 0 || c.role != words.Note || len(label.Text) <= 12) {
			x.caption = c
			return x, numbers > 0 || t.anyText(row)
		}
		if f := r.header(t.plane().Page, label); len(label.Text) <= 40 && (f.summarises() || f.ambiguous == averageOrValve) {
			x.summary = true
			return x, numbers > 0
		}
		return x, numbers > 0 // numbers beside words nobody knows: asked
	}
	return x, numbers > 0
}

func (t *table) anyText(row int) bool {
	for _, ln := range t.lanes {
		if !t.plane().At(row, ln.col).Blank() {
			return true
		}
	}
	return false
}

// extraFacts reads the facts that rows after the lifts state of one lane.
func (t *table) extraFacts(r *reader, ln *lane) facts {
	f := newFacts()
	for _, x := range t.extras {
		c := t.plane().At(x.row, ln.col)
		if x.caption.role == words.None || c.Blank() {
			continue
		}
		f = f.beside(r.captionedCell(x.caption, c, t.plane().Page))
	}
	return f
}

// mangledDate opens the step that names what a date stands for.
const mangledDate = "a date that stands for "

// captionedCell reads the cell that belongs to a caption. A date cell under a
// caption that wants a size is a fraction the spreadsheet has mangled.
func (r *reader) captionedCell(c caption, cell decode.Cell, page *layout.Page) facts {
	trace := r.trace(page, cell)
	if cell.Kind != decode.Date {
		return r.captioned(c, displayText(cell), trace)
	}
	date, ok := parse.Serial(cell.Num)
	f := newFacts()
	switch {
	case !ok:
	case c.role == words.Date:
		trace.Text = date.Format("2006-01-02")
		f.date.add(date, trace)
	case c.role == words.Bore:
		for _, fraction := range parse.FractionFromDate(date) {
			if b, ok := parse.Bore(fraction); ok && parse.PlausibleBore(b.Bore) {
				f.bore.add(b.Bore, trace.Then(mangledDate+fraction))
			}
		}
	}
	return f
}
