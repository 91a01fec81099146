package pricing

import (
	"fmt"

	"github.com/shopspring/decimal"

	"flowshelf/analysis/head"
	"flowshelf/analysis/pricing"
	"flowshelf/export/book"
)

// The titles of the yellow cells, by which they are found again.
const (
	worthTitle   = "Worth of a cfm"
	marginTitle  = "Target margin"
	minimumTitle = "Minimum margin"
	endingTitle  = "Prices end"
	labourTitle  = "Labour rate an hour"
)

func rateTitle(currency, own string) string { return currency + rateWord + own }

// rateWord parts the currencies of a rate; boughtTitle and carriedTitle stand over
// the money that a head is bought in and that its freight is asked in, on the
// working sheet.
const (
	rateWord     = " in "
	boughtTitle  = "Bought in"
	carriedTitle = "Freight in"
)

// field is how one input of a head is shown.
type field struct {
	in     pricing.Input
	name   string
	title  string
	was    string // title in workbooks of earlier versions, "" for the same
	width  float64
	most   float64
	prompt string
}

// named reports whether a title is that of the field.
func (f field) named(title string) bool { return title == f.title || f.was != "" && title == f.was }

const (
	mostMoney = 1e6
)

func fields() []field {
	return []field{
		{pricing.Each, "each", "Cost each, net", "", 9, mostMoney, "What a head costs you, discounts taken, in the money it is bought in."},
		{pricing.Freight, "freight", "Freight each", "", 8.5, mostMoney, "Freight a head, in the money it is asked in. Blank counts as none."},
		{pricing.Sell, "sell", "Sell a set", "", 10, mostMoney, "What the customer pays for the heads."},
		{pricing.Extras, "extras", "Extras a set", "", 9.5, mostMoney, "What the customer needs beside the heads. Type 0 for none."},
		{pricing.Springs, "springs", "Springs a set", "Spring kit a set", 9, mostMoney, "A spring kit for the range's lift. Type 0 for none."},
		{pricing.Rework, "rework", "Our work a set", "Rework a set", 9, mostMoney, "Your own work on the heads, and the parts you put into bare ones, at the customer's price. Type 0 for none."},
		{pricing.Hours, "hours", "Hours of it", "", 6.5, mostHours, "Hours of that work a set. They cost you the labour rate."},
		{pricing.Parts, "parts", "Parts, our cost", "", 8.5, mostMoney, "What parts and tooling for that work cost you a set, beside the hours."},
		{pricing.Minimum, "advertised", "Minimum advertised", "", 10.5, mostMoney, "The lowest price a set may be advertised for, if there is one."},
		{pricing.Margin, "margin aim", marginTitle, "", 7.5, mostShare, "A share of the sell price, such as 25%."},
	}
}

const (
	mostShare = 0.95
	mostHours = 1000
)

// terms writes the yellow cells that hold for every head.
func (w *writer) terms() {
	row := w.page(w.main, "Pricing: what if ...",
		"Change the yellow cells: the rest follows, here, on Turning points (prices that tie, hold a margin or are suggested) and on Strip (one price moved).",
		"The ranking does not change by what is typed; what is typed is kept, in bold red-brown, until its cell is cleared. Keep this workbook in the shop.")
	going := ""
	if !w.Start.Worth.Valid {
		going = "{going rate}"
	}
	w.term(term{row, worthTitle, "worth", w.cents, mostMoney}, w.worthUntyped(), w.Typed.Worth, going)
	w.main.Say(row, 3, "of working average, a set. The shelf's own going rate:", beside())
	rate := w.result.GoingRate
	rate.Why = noRate
	w.formula(w.main, row, goingCol, 0, fmt.Sprintf(`IF({going rate}="","%s",{going rate})`, noRate), shown(rate), beside().As(w.cents))
	w.term(term{row + 1, marginTitle, "target margin", book.PercentOne, mostShare}, w.Start.Margin, w.Typed.Margin, "")
	w.main.Say(row+1, 3, "of the sell price, not of the cost", beside())
	w.term(term{row + 2, minimumTitle, "minimum margin", book.PercentOne, mostShare}, w.Start.Minimum, w.Typed.Minimum, "")
	w.main.Say(row+2, 3, "of the sell price: nothing is sold for less; a margin below it shows in bold red-brown", beside())
	w.ending(row + 3)
	w.term(term{row + 4, labourTitle, "labour", w.cents, mostMoney}, w.Start.Labour, w.Typed.Labour, "")
	w.main.Say(row+4, 3, w.labourFrom(), beside())
	row += 5
	for i, r := range w.Start.Rates {
		t := term{row + i, rateTitle(r.Currency, w.Currency), "rate " + r.Currency, rateFormat, mostMoney}
		w.term(t, r.Value, w.Typed.Rate(r.Currency), "")
		w.main.Say(row+i, 3, w.rateFrom(r.Currency), beside())
	}
	w.header = row + len(w.Start.Rates) + 1
}

// noRate stands where the shelf has no going rate.
const noRate = "none: it takes four priced heads"

// beside is the look of what is said beside a yellow cell.
func beside() book.Style { return book.Style{}.Indented() }

// goingCol is where the going rate stands beside the worth: behind the words, in a
// column wide enough for it.
const goingCol = 10

// term is one figure that holds for every head.
type term struct {
	row    int
	title  string
	name   string
	format book.Format
	most   float64
}

func (w *writer) term(t term, untyped, typed decimal.NullDecimal, follows string) {
	for _, s := range []*book.Sheet{w.main, w.work} {
		s.Say(t.row, 1, t.title, book.Style{})
	}
	w.names[t.name] = place{w.main, t.row, 2, 0, 0}
	w.yellow(cellOf{row: t.row, col: 2, format: t.format}, untyped, typed, follows)
	w.main.Between(w.main.Area(t.row, 2, t.row, 2), 0, t.most, "")
}

// worthUntyped is the shop's own worth of a cfm, or the going rate.
func (w *writer) worthUntyped() decimal.NullDecimal {
	if g := w.result.GoingRate; !w.Start.Worth.Valid && g.Known {
		return decimal.NullDecimal{Decimal: decimal.NewFromFloat(g.Value), Valid: true}
	}
	return w.Start.Worth
}

// ending writes the choice of how prices end.
func (w *writer) ending(row int) {
	w.main.Say(row, 1, endingTitle, book.Style{})
	now := w.Start.Ending
	if w.Typed.Ending != "" {
		now = w.Typed.Ending
	}
	w.names["ending"] = place{w.main, row, 2, 0, 0}
	w.main.Say(row, 2, string(now), book.Yellow.To(book.Right).Opened())
	var choices []string
	for _, e := range head.Endings() {
		choices = append(choices, string(e))
	}
	w.main.Choose(w.main.Area(row, 2, row, 2), choices...)
	w.main.Say(row, 3, "a suggested price is raised to the next that ends so", beside())
	w.work.Say(row, 1, endingTitle, book.Body)
	w.work.Say(row, 2, string(w.Start.Ending), book.Body)
}

// cellOf is one yellow cell: where it stands on the main sheet, and in the same
// place on the working sheet what stands there while nobody has typed over it.
type cellOf struct {
	row, col int
	head     int
	format   book.Format
}

// yellow writes a cell that may be typed in. While nobody has, it holds the
// figure, or a formula where one is given.
func (w *writer) yellow(c cellOf, untyped, typed decimal.NullDecimal, follows string) {
	open, plain := book.Yellow.As(c.format).Opened(), book.Body.As(c.format)
	open.Bold = false
	put := func(s *book.Sheet, style book.Style) {
		if follows == "" {
			s.Set(c.row, c.col, figure(untyped), style)
			return
		}
		w.formula(s, c.row, c.col, c.head, follows, figure(untyped), style)
	}
	put(w.work, plain)
	if typed.Valid {
		w.main.Set(c.row, c.col, figure(typed), open)
	} else {
		put(w.main, open)
	}
	cell := book.CellName(c.row, c.col)
	w.main.MarkWhen(w.main.Area(c.row, c.col, c.row, c.col),
		fmt.Sprintf(`AND(%[1]s<>"",%[1]s<>%[2]s)`, cell, w.work.Area(c.row, c.col, c.row, c.col)),
		book.Style{Bold: true, Ink: book.Accent, Fill: book.Input})
}

func figure(d decimal.NullDecimal) book.Value {
	if !d.Valid {
		return book.Value{}
	}
	return book.Number(d.Decimal.InexactFloat64())
}

// heads writes the yellow cells of every head, and the rate of those that are
// bought in other money.
func (w *writer) heads() {
	s := w.main
	w.labels(s, w.header)
	col := 2
	for _, f := range fields() {
		format := w.cents
		if f.in == pricing.Margin {
			format = book.PercentOne
		}
		w.title(s, w.header, col, f.title, f.width, book.Body.As(format))
		w.names[f.name] = place{s, w.header + 1, col, w.n, 0}
		w.title(w.work, w.header, col, f.title, f.width, book.Body.As(format))
		for i := range w.Rows {
			c := cellOf{row: w.header + 1 + i, col: col, head: i, format: format}
			switch f.in {
			case pricing.Each:
				c.format = w.money(w.Rows[i].Foreign)
			case pricing.Freight:
				c.format = orDash(w.money(w.Rows[i].Carried))
			case pricing.Hours:
				c.format = orDash(book.Tenth + ";-" + book.Tenth)
			case pricing.Extras, pricing.Springs, pricing.Rework, pricing.Parts:
				c.format = orDash(format)
			case pricing.Sell, pricing.Minimum, pricing.Margin:
			}
			w.yellow(c, w.result.Outcomes[i].Untyped[f.in], w.Rows[i].Typed[f.in], w.follows(i, f))
		}
		s.Between(s.Area(w.header+1, col, w.header+max(w.n, 1), col), 0, f.most, f.prompt)
		col++
		if f.in == pricing.Each && len(w.Start.Rates) > 0 {
			w.rates(col)
			col++
		}
	}
	w.firstResult = col
	w.labels(w.work, w.header)
	w.title(w.work, w.header, col, boughtTitle, 9, book.Body)
	w.title(w.work, w.header, col+1, carriedTitle, 9, book.Body)
	for i := range w.Rows {
		w.work.Say(w.header+1+i, col, w.Rows[i].Foreign, book.Body)
		w.work.Say(w.header+1+i, col+1, w.Rows[i].Carried, book.Body)
	}
}

// orDash shows nothing as a dash, so that what counts stands out.
func orDash(f book.Format) book.Format { return f + `;"–"` }

// follows is the formula of a yellow cell that nobody has typed over, "" for one
// that starts from a figure of its own.
func (w *writer) follows(i int, f field) string {
	switch {
	case w.Follows(i, f.in):
		return fmt.Sprintf(`IF({%[1]s@%[2]d}="","",{%[1]s@%[2]d})`, f.name, w.Rows[i].First)
	case f.in == pricing.Margin:
		return `IF({target margin}="","",{target margin})`
	case f.in == pricing.Sell && w.Proposes(i):
		return `IF(OR({landed}="",{margin aim}=""),"",` + raised("{landed}/(1-{margin aim})") + `)`
	}
	return ""
}

// rates shows the currency's rate beside the cost of what is bought in it.
func (w *writer) rates(col int) {
	style := book.Body.As(rateFormat)
	w.title(w.main, w.header, col, "Rate", 7, style)
	for i := range w.Rows {
		if w.Rows[i].Foreign != "" {
			w.formula(w.main, w.header+1+i, col, i, "{rate}", figure(w.result.Terms.Rate(w.Rows[i].Foreign)), style)
		}
	}
}

const rateFormat book.Format = "0.0000"
