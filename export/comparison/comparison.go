// Package comparison writes the ranked comparison of one family as a workbook:
// the printed summary, the ranking with everything behind it, and live sheets
// in which two heads can be put side by side. It lays out what package compare
// found; it decides nothing.
package comparison

import (
	"cmp"
	"fmt"
	"slices"

	"flowshelf/analysis/compare"
	"flowshelf/analysis/head"
	"flowshelf/analysis/quantity"
	"flowshelf/export/book"
)

// Options say what a comparison's workbook opens with and where it lies.
type Options struct {
	Up     string    // the way from the workbook's folder to the watched folder, "../" for a subfolder
	Pair   [2]string // labels side by side; empty: the leader and the runner-up
	FlowOf string    // label the Flow sheet's differences are taken from; empty: the base head
}

// FileName returns the name a family's comparison goes by.
func FileName(family string) string { return fmt.Sprintf("Heads ranked - %s.xlsx", family) }

// Write returns the workbook of a comparison.
func Write(c compare.Comparison, o Options) ([]byte, error) {
	w := newWriter(c, o)
	// The sheets stand in reading order; they are filled in the order in which
	// they refer to one another.
	summary := w.book.Sheet("Summary")
	ranking := w.book.Sheet("Ranking")
	why := w.book.Sheet("Why")
	pair := w.book.Sheet("Side by side")
	flow := w.book.Sheet("Flow")
	curves := w.book.Sheet("Curves")
	shape := w.book.Sheet("Shape")
	lifts := w.book.Sheet("Lift by lift")
	value := w.book.Sheet("Value")
	best := w.book.Sheet("Best buy")
	engine := w.book.Sheet("Engine")
	gaps := w.book.Sheet("Advertised v tested")
	suppliers := w.book.Sheet("Suppliers")
	left := w.book.Sheet("Not ranked")
	sources := w.book.Sheet("Sources")
	method := w.book.Sheet("Method")
	data := w.data(w.book.Sheet("Data"))
	w.ranking(ranking)
	w.reasons(why)
	w.sideBySide(pair, data)
	w.flow(flow)
	w.curves(curves)
	w.shape(shape)
	w.liftByLift(lifts)
	w.value(value)
	w.bestBuy(best)
	w.engine(engine)
	w.advertised(gaps)
	w.suppliers(suppliers)
	w.notRanked(left)
	w.sources(sources)
	w.method(method)
	w.summary(summary, book.Inside(left.Area(1, 1, 1, 1)))
	return w.book.Bytes()
}

// line is one head in one state with its standing in the comparison.
type line struct {
	*compare.Entry
	standing string
	reason   string // why it has no place
}

// The standings.
const (
	ranked     = "ranked"
	unpriced   = "no price"
	belowLine  = "supplier sheet"
	held       = "held"
	advertised = "advertised"
)

// writer carries what the sheets of one workbook share.
type writer struct {
	compare.Comparison
	opts    Options
	book    *book.Book
	lines   []line // every head that has a curve, in the order of the ranking
	lifts   []quantity.Length
	dollars book.Format
	cents   book.Format
	basis   string
}

func newWriter(c compare.Comparison, o Options) *writer {
	w := &writer{Comparison: c, opts: o}
	w.book = book.New(book.Properties{
		ID:      "heads ranked/" + c.Family.Name,
		Title:   "Heads ranked: " + c.Family.Name,
		Subject: "cylinder heads compared by flow, cost and shape of the curve",
		Shop:    c.Shop, Dated: c.Date, Paper: c.Rules.Paper,
	})
	currency := w.currency()
	w.dollars, w.cents = book.Money(currency, 0), book.Money(currency, 2)
	w.basis = fmt.Sprintf("flow in cfm at %s inH2O, working range %s, bore %s",
		plain(c.Rules.Reference.InH2O()), lifts(c.Family.RangeFrom, c.Family.RangeTo), bore(c.Family.ReferenceBore))
	for _, group := range []struct {
		entries  []compare.Entry
		standing string
	}{{c.Ranked, ranked}, {c.Unpriced, unpriced}, {c.BelowLine, belowLine}} {
		for i := range group.entries {
			w.lines = append(w.lines, line{Entry: &group.entries[i], standing: group.standing})
		}
	}
	for _, n := range c.NotRanked {
		if n.Entry != nil {
			w.lines = append(w.lines, line{Entry: n.Entry, standing: held, reason: n.Reason})
		}
	}
	for i := range c.Advertised {
		w.lines = append(w.lines, line{Entry: &c.Advertised[i], standing: advertised})
	}
	w.lifts = liftsOf(w.lines)
	return w
}

func (w *writer) currency() string {
	if w.Family.Worth.Known {
		return w.Family.Worth.Value.Currency
	}
	for _, l := range w.lines {
		if l.Cost.Usable.Known {
			return l.Cost.Usable.Value.Currency
		}
	}
	return ""
}

// of returns the lines of some standings.
func (w *writer) of(standings ...string) []line {
	var out []line
	for _, l := range w.lines {
		if slices.Contains(standings, l.standing) {
			out = append(out, l)
		}
	}
	return out
}

// find returns the line of a label.
func (w *writer) find(label string) (line, bool) {
	i := slices.IndexFunc(w.lines, func(l line) bool { return l.Label == label })
	if i < 0 {
		return line{}, false
	}
	return w.lines[i], true
}

// port returns the side of a head, nil when it was not flowed.
func (l line) port(p head.Port) *compare.PortResult {
	if p == head.Exhaust {
		return l.Exhaust
	}
	return l.Intake
}

// liftsOf returns every lift at which some head was read, once, in order. Lifts
// that differ by less than half a thousandth are one.
func liftsOf(lines []line) []quantity.Length {
	var all []quantity.Length
	for _, l := range lines {
		if l.standing == advertised {
			continue
		}
		for _, p := range []*compare.PortResult{l.Intake, l.Exhaust} {
			if p == nil {
				continue
			}
			for _, point := range p.Points {
				all = append(all, point.Lift)
			}
		}
	}
	slices.SortFunc(all, func(a, b quantity.Length) int { return cmp.Compare(a.In(), b.In()) })
	return slices.CompactFunc(all, func(a, b quantity.Length) bool { return a.Near(b, 0.0005) })
}

// page sets what the sheets have in common: a title, the basis of the figures
// and the print set-up. It returns the first free row.
func (w *writer) page(s *book.Sheet, title string, notes ...string) int {
	s.Say(1, 1, title, book.Title)
	s.Say(2, 1, fmt.Sprintf("%s, %s. %s.", w.Shop, w.Date.Format("2006-01-02"), capital(w.basis)), book.Subtitle)
	row := 3
	for _, n := range notes {
		s.Say(row, 1, n, book.Note)
		row++
	}
	return row + 1
}

// paper sets the print set-up: the basis stands at the foot of each page, and
// the header row repeats. On a sheet of several tables it is 0: the titles of one
// would stand over the others.
func (w *writer) paper(s *book.Sheet, header int, p book.Print) {
	p.Basis = w.basis
	if header > 0 {
		p.RepeatFrom, p.RepeatTo = header, header
	}
	s.Print(p)
}
