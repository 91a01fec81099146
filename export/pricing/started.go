package pricing

import (
	"fmt"
	"strings"

	"flowshelf/analysis/head"
	"flowshelf/analysis/pricelist"
	"flowshelf/analysis/pricing"
	"flowshelf/analysis/quantity"
	"flowshelf/analysis/source"
	"flowshelf/export/book"
)

// started says which list each figure came from, with a link to its cell, and
// which lists are not in force yet or no longer.
func (w *writer) started() {
	s := w.from
	header := w.page(s, "Started from: where the figures came from before anybody typed",
		"A price leads to its cell. A list that is not in force changes nothing here; type its cost into the yellow cell to see what it will do.")
	at := func(stated source.Trace) book.Link { return book.ToSource(w.opts.Up, stated.At) }
	text := func(title string, width float64, of func(*pricing.Row) string) book.Column[int] {
		return book.Column[int]{Title: title, Width: width, Style: book.Body.Wrapped(), Value: func(i int) book.Value { return book.Text(of(&w.Rows[i])) }}
	}
	link := func(c book.Column[int], of func(*pricing.Row) source.Trace) book.Column[int] {
		c.Link = func(i int) book.Link { return at(of(&w.Rows[i])) }
		return c
	}
	rows := make([]int, w.n)
	for i := range rows {
		rows[i] = i
	}
	table := book.Table[int]{Rows: rows, Columns: []book.Column[int]{
		text(headTitle, labelWidth, func(r *pricing.Row) string { return r.Label }),
		link(text("Cost each, net", 11, func(r *pricing.Row) string { return exact(r.Cost.Quoted) }), func(r *pricing.Row) source.Trace { return r.Cost.Quoted.Trace }),
		link(text("from the list", 27, listOf), func(r *pricing.Row) source.Trace { return r.Cost.Quoted.Trace }),
		{Title: "in force since", Width: 11, Style: book.Body.As(book.Date).To(book.Left), Value: func(i int) book.Value {
			if since := w.Rows[i].Cost.ValidFrom; since.Known {
				return book.Day(since.Value)
			}
			return book.Text("not stated")
		}},
		text("worked out by", 36, func(r *pricing.Row) string { return strings.Join(r.Cost.Quoted.Trace.Steps, "; ") }),
		link(text("Freight each", 12, freightOf), func(r *pricing.Row) source.Trace { return r.Cost.Carried.Quoted.Trace }),
		link(text("Sell a set", 12, sellOf), func(r *pricing.Row) source.Trace { return r.Cost.Sell.Trace }),
		text("Our work costs us", 26, workOf),
		text("Typed over", 26, w.typedOver),
		text("Wanting", 26, func(r *pricing.Row) string { return r.Cost.Missing }),
	}}
	body := table.Write(s, header, 1)
	row := w.lists(body.ToRow+2, "Coming: lists that are not in force yet", func(r *pricing.Row) []head.Price { return r.Cost.Coming })
	row = w.lists(row, "Waiting for an answer: not used until the question is settled", func(r *pricing.Row) []head.Price { return r.Cost.Waiting })
	row = w.lists(row, "Superseded: lists that a newer one has taken the place of", func(r *pricing.Row) []head.Price { return r.Cost.Superseded })
	for _, r := range w.Start.Rates {
		s.Say(row, 1, fmt.Sprintf("%s: %s.", rateTitle(r.Currency, w.Currency), w.rateFrom(r.Currency)), book.Body)
		if trace, ok := w.rateTrace(r.Currency); ok {
			s.LinkTo(row, 1, at(trace))
		}
		row++
	}
	s.Freeze(header, 1)
	w.paper(s, 0) // its titles would stand over those of the lists
}

// lists writes other prices of the heads, one a line, and returns the next row.
func (w *writer) lists(row int, title string, of func(*pricing.Row) []head.Price) int {
	type other struct {
		label string
		head.Price
	}
	var rows []other
	for i := range w.Rows {
		if w.Rows[i].First != i {
			continue // a casting's list, once
		}
		for _, p := range of(&w.Rows[i]) {
			rows = append(rows, other{w.Rows[i].Label, p})
		}
	}
	w.from.Say(row, 1, title, book.Section)
	if len(rows) == 0 {
		w.from.Say(row+1, 1, "none", book.Body)
		return row + 3
	}
	say := func(title string, of func(other) string) book.Column[other] {
		return book.Column[other]{Title: title, Style: book.Body.Wrapped(), Value: func(o other) book.Value { return book.Text(of(o)) }}
	}
	price := say("Price as listed", func(o other) string { return exact(o.Amount) })
	price.Link = func(o other) book.Link { return book.ToSource(w.opts.Up, o.At) }
	book.Table[other]{Rows: rows, Columns: []book.Column[other]{
		say("Head", func(o other) string { return o.label }), price,
		say("in the list", func(o other) string { return o.At.File }),
		{Title: "from", Style: book.Body.As(book.Date).To(book.Left), Value: func(o other) book.Value {
			if !o.Effective.Known {
				return book.Text("not stated")
			}
			return book.Day(o.Effective.Value)
		}},
		say("which is", func(o other) string { return listed(o.Price) }),
	}}.Write(w.from, row+1, 1)
	return row + len(rows) + 3
}

// listed says what a listed price is: "list, per pair, less 40 %".
func listed(p head.Price) string {
	parts := []string{p.Rung.String(), "per " + p.Basis.String()}
	if p.Build != "" {
		parts = append(parts, p.Build)
	}
	for _, d := range p.Discounts {
		parts = append(parts, "less "+d.String()+" %")
	}
	if p.Freight.Known {
		parts = append(parts, "freight "+exact(p.Freight)+" a head")
	}
	if p.Why != "" {
		parts = append(parts, p.Why)
	}
	return strings.Join(parts, ", ")
}

// exact is an amount as it counts, without anything rounded away.
func exact(m source.Stated[quantity.Money]) string {
	if !m.Known {
		return "not stated"
	}
	amount := m.Value.Amount
	if amount.Equal(amount.Round(2)) {
		return strings.TrimSpace(m.Value.Currency + " " + amount.StringFixed(2))
	}
	const places = 6
	return strings.TrimSpace(m.Value.Currency + " " + amount.Round(places).String())
}

func listOf(r *pricing.Row) string {
	if r.Cost.PriceList == "" {
		return r.Cost.Quoted.Trace.At.File
	}
	return r.Cost.PriceList
}

// freightOf is what a head costs beside its price, in the money it is asked in.
func freightOf(r *pricing.Row) string {
	if !r.Cost.Apart.Quoted.Known {
		return exact(r.Cost.Carried.Quoted)
	}
	return exact(r.Cost.Carried.Quoted) + ", surcharge " + exact(r.Cost.Apart.Quoted)
}

func sellOf(r *pricing.Row) string {
	if r.Cost.Proposed {
		return exact(r.Cost.Sell) + ", proposed: no sell price is set"
	}
	return exact(r.Cost.Sell)
}

// typedOver says what somebody has typed over the figures of a row.
func (w *writer) typedOver(r *pricing.Row) string {
	var out []string
	for _, f := range fields() {
		typed, start := r.Typed[f.in], r.Start[f.in]
		if !typed.Valid {
			continue
		}
		was := ""
		if start.Valid {
			was = ", was " + start.Decimal.String()
		}
		out = append(out, fmt.Sprintf("%s %s%s", strings.ToLower(f.title), typed.Decimal, was))
	}
	return strings.Join(out, "; ")
}

// workOf says what the shop's own parts and work come to, and how.
func workOf(r *pricing.Row) string {
	work := r.Cost.Work
	if work.Why != "" {
		return work.Why
	}
	return strings.Join(work.Parts.Trace.Steps, "; ")
}

// labourFrom says where the labour rate comes from.
func (w *writer) labourFrom() string {
	if w.Start.Labour.Valid {
		return "what an hour of our work costs us, by the Shop sheet of the setup; it moves no place"
	}
	return "what an hour of our work costs us: not set, so the internal costs of the menu stand whole"
}

// rateFrom says since when a rate stands.
func (w *writer) rateFrom(currency string) string {
	trace, ok := w.rateTrace(currency)
	switch {
	case !ok:
		return "no rate is set: type one, or add it to the Rates sheet of the setup"
	case trace.Text == "":
		return "by the Rates sheet of the setup, without a date"
	}
	return "by the Rates sheet of the setup, as of " + trace.Text
}

func (w *writer) rateTrace(currency string) (source.Trace, bool) {
	for i := range w.Rows {
		c := &w.Rows[i].Cost
		for _, m := range []pricelist.Foreign{{Quoted: c.Quoted, Rate: c.Rate}, c.Carried, c.Apart} {
			if m.Quoted.Value.Currency == currency && m.Rate.Known {
				return m.Rate.Trace, true
			}
		}
	}
	return source.Trace{}, false
}
