// Package pricing writes the what-if of one family as a workbook: yellow cells
// for what a person may change, live formulas for what follows, each with its
// result stored. Package analysis/pricing has the same definitions in Go; it
// gives the results, and the tests hold the two against each other.
package pricing

import (
	"fmt"

	"flowshelf/analysis/compare"
	"flowshelf/analysis/pricing"
	"flowshelf/export/book"
)

// Options say where the workbook lies.
type Options struct {
	Up string // the way from the workbook's folder to the watched folder
}

// FileName returns the name a family's what-if goes by.
func FileName(family string) string { return fmt.Sprintf("Pricing - %s.xlsx", family) }

// idPrefix begins the name by which the workbook knows itself.
const idPrefix = "pricing/"

// The sheets, in reading order.
const (
	mainSheet    = "Pricing"
	turningSheet = "Turning points"
	stripSheet   = "Strip"
	startSheet   = "Started from"
	methodSheet  = "Method"
	workSheet    = "Working"
)

// mostMoving is the most heads for which the places of the strip and the going
// rate are live: both take cells by the square of the heads.
const mostMoving = 60

// Write returns the workbook of a what-if.
func Write(s pricing.Sheet, o Options) ([]byte, error) {
	if len(s.Rows) == 0 {
		return empty(s)
	}
	w := newWriter(s, o)
	w.terms()
	w.heads()
	w.workRows()
	w.workOrder()
	w.workRate()
	w.results()
	w.turning()
	w.strip()
	w.started()
	w.method()
	w.flush()
	const onPaper = 20 // the rest of the working sheet is for the screen
	w.work.Print(book.Print{Columns: onPaper})
	for _, sheet := range []*book.Sheet{w.main, w.turn, w.steps, w.from, w.how, w.work} {
		sheet.Lock()
	}
	return w.book.Bytes()
}

// empty is the workbook of a family that has nothing to price yet.
func empty(s pricing.Sheet) ([]byte, error) {
	c := s.Comparison
	b := book.New(book.Properties{ID: idPrefix + c.Family.Name, Title: "Pricing: " + c.Family.Name, Shop: c.Shop, Dated: c.Date, Paper: c.Rules.Paper})
	sheet := b.Sheet(mainSheet)
	sheet.Say(1, 1, "Pricing: what if ...", book.Title)
	sheet.Say(2, 1, fmt.Sprintf("%s, %s. %s.", c.Shop, c.Date.Format("2006-01-02"), c.Family.Name), book.Subtitle)
	sheet.Say(4, 1, "No head of this family has a flow test that can be used yet.", book.Style{})
	sheet.Width(1, labelWidth*3)
	return b.Bytes()
}

// writer carries what the sheets of one workbook share.
type writer struct {
	pricing.Sheet
	result  pricing.Result
	opts    Options
	book    *book.Book
	names   names
	n       int // heads
	dollars book.Format
	cents   book.Format

	later                              []pending
	main, turn, steps, from, how, work *book.Sheet
	header                             int // row of the titles on the main sheet
	firstResult                        int // column of the first result there
	nextWork                           int // first free row of the working sheet
}

func newWriter(s pricing.Sheet, o Options) *writer {
	c := s.Comparison
	w := &writer{Sheet: s, result: s.Work(), opts: o, names: names{}, n: len(s.Rows)}
	w.book = book.New(book.Properties{
		ID: idPrefix + c.Family.Name, Title: "Pricing: " + c.Family.Name,
		Subject: "what happens to margin, value and place when a price or a cost changes",
		Shop:    c.Shop, Dated: c.Date, Paper: c.Rules.Paper,
	})
	w.dollars, w.cents = book.Money(s.Currency, 0), book.Money(s.Currency, 2)
	w.main, w.turn, w.steps = w.book.Sheet(mainSheet), w.book.Sheet(turningSheet), w.book.Sheet(stripSheet)
	w.from, w.how, w.work = w.book.Sheet(startSheet), w.book.Sheet(methodSheet), w.book.Sheet(workSheet)
	return w
}

// asBought stands for the format of the money a head is bought in, which differs
// from row to row.
const asBought book.Format = "as bought"

// money is the format of an amount in a currency, "" for the shop's own.
func (w *writer) money(currency string) book.Format {
	if currency != "" {
		return book.Money(currency, 2)
	}
	return w.cents
}

// moving reports whether places of the strip and the going rate are live.
func (w *writer) moving() bool { return w.n <= mostMoving }

// page writes a sheet's title and notes and returns the first free row.
func (w *writer) page(s *book.Sheet, title string, notes ...string) int {
	c := w.Comparison
	s.Say(1, 1, title, book.Title)
	s.Say(2, 1, fmt.Sprintf("%s, %s. %s, a set of %d, money in %s.", c.Shop, c.Date.Format("2006-01-02"), c.Family.Name, w.Heads, w.Currency), book.Subtitle)
	for i, n := range notes {
		s.Say(3+i, 1, n, book.Note)
	}
	return 4 + len(notes)
}

// basis stands in the footer of each page.
const basis = "what-if: the ranking itself does not change"

// paper sets the print set-up; the header row repeats where there is one.
func (w *writer) paper(s *book.Sheet, header int) {
	s.Print(book.Print{Basis: basis, RepeatFrom: header, RepeatTo: header})
}

// shown is a figure, the word in its place, or nothing.
func shown(m compare.Maybe) book.Value {
	if !m.Known {
		return book.Text(m.Why)
	}
	return book.Number(m.Value)
}

// quiet is a figure or nothing: the reason stands elsewhere.
func quiet(m compare.Maybe) book.Value {
	m.Why = ""
	return shown(m)
}

// placeOf is a place as the ranking shows it: 2, or 2= where it is shared.
func placeOf(s pricing.Standing) book.Value {
	switch {
	case s.Number == 0:
		return book.Value{}
	case s.Shared:
		return book.Text(fmt.Sprintf("%d=", s.Number))
	}
	return book.Count(s.Number)
}

// live is one column of live results: a title, its name in formulas, the
// formula, and the result stored with it.
type live struct {
	title   string
	width   float64
	name    string
	formula string
	style   book.Style
	result  func(i int, o pricing.Outcome) book.Value
}

// lay puts columns of results from a cell on, one row a head.
func (w *writer) lay(s *book.Sheet, header, col int, columns []live) {
	for k, c := range columns {
		w.title(s, header, col+k, c.title, c.width, c.style)
		w.names[c.name] = place{s, header + 1, col + k, w.n, 0}
		style := c.style
		style.Bottom = book.Hair
		for i, o := range w.result.Outcomes {
			if c.style.Format == asBought {
				style = style.As(w.money(w.Rows[i].Foreign))
			}
			w.formula(s, header+1+i, col+k, i, c.formula, c.result(i, o), style)
		}
	}
}

// pending is a formula that waits until every place has its name: the sheets
// refer to one another.
type pending struct {
	sheet    *book.Sheet
	row, col int
	head     int
	words    string
	result   book.Value
	style    book.Style
}

// formula puts a formula in a cell, in the names of a head.
func (w *writer) formula(s *book.Sheet, row, col, head int, words string, result book.Value, style book.Style) {
	s.Formula(row, col, "0", result, style) // holds the place, for widths and rows
	w.later = append(w.later, pending{s, row, col, head, words, result, style})
}

func (w *writer) flush() {
	for _, p := range w.later {
		p.sheet.Formula(p.row, p.col, w.names.formula(p.sheet, p.head, p.words), p.result, p.style)
	}
}

// single puts a formula with a name of its own in a cell.
func (w *writer) single(s *book.Sheet, row, col int, name, words string, result book.Value, style book.Style) {
	w.names[name] = place{s, row, col, 0, 0}
	w.formula(s, row, col, 0, words, result, style)
}

func (w *writer) title(s *book.Sheet, row, col int, words string, width float64, style book.Style) {
	h := book.Header
	h.Align = style.Align
	if h.Align == book.Auto && style.Format != book.General {
		h.Align = book.Right
	}
	h.Indent = style.Indent
	s.Say(row, col, words, h)
	if width > 0 {
		s.Width(col, width)
	}
}

// labels writes the heads down the first column of a table.
func (w *writer) labels(s *book.Sheet, header int) {
	w.title(s, header, 1, headTitle, labelWidth, book.Body)
	for i := range w.Rows {
		s.Say(header+1+i, 1, w.Rows[i].Label, book.Body.Strong())
	}
	s.Keep(header, header+w.n)
}

const (
	headTitle  = "Head and state"
	labelWidth = 24
)
