package pricing

import (
	"fmt"

	"github.com/shopspring/decimal"

	"flowshelf/analysis/compare"
	"flowshelf/analysis/head"
	"flowshelf/analysis/pricing"
	"flowshelf/export/book"
)

// The working sheet holds what the formulas need beside the yellow cells: below
// the figures that stand while nobody types, the flows and their uncertainties,
// then the heads in the order of their value, and the slopes between them.

// asideValue sorts a head that takes no place below all others.
const asideValue = -1_000_000_000

// sureOver spells whether a value surely beats another: {z} standard
// uncertainties apart, and further than what decides nothing.
func sureOver(a, ua, fa, b, ub, fb string) string {
	return fmt.Sprintf("AND(%[1]s>%[4]s,%[1]s-%[4]s>=MAX({z}*SQRT(%[2]s^2+%[5]s^2),%[3]s,%[6]s))", a, ua, fa, b, ub, fb)
}

// workRows writes, one row a head, the facts that do not change and what the
// places rest on.
func (w *writer) workRows() {
	s := w.work
	w.page(s, "Working: what the formulas rest on",
		"Nothing here is for typing. The first figures are those of the yellow cells, in the same places, while nobody has typed over them.")
	top := w.header + w.n + 3
	w.scalars(top)
	header := top + 4
	w.labels(s, header)
	w.facts(header)
	w.rateOf(header, 10, "Rate", "rate", func(r pricing.Row) string { return r.Foreign })
	w.rateOf(header, 11, "Rate of freight", "freight rate", func(r pricing.Row) string { return r.Carried })
	w.rateOf(header, 12, "Rate of surcharge", "surcharge rate", func(r pricing.Row) string { return r.Surcharge.Currency })
	w.lay(s, header, 13, []live{
		{"Freight and surcharges each", 9, "beside", `IF(OR(AND({freight}<>"",{freight rate}=""),AND({surcharge}<>"",{surcharge rate}="")),"",N({freight})*N({freight rate})+N({surcharge})*N({surcharge rate}))`, book.Body.As(w.cents), func(_ int, o pricing.Outcome) book.Value { return quiet(o.Beside) }},
		{"Puts in", 8, "puts in", `IF(AND(N({rework})=0,N({hours})=0,N({parts})=0),0,1)`, book.Body, func(_ int, o pricing.Outcome) book.Value { return yes(o.PutsIn()) }},
		{"Our work costs us", 9, "work", `IF(OR({hours}="",{parts}="",AND(N({hours})<>0,{labour}="")),"",{hours}*N({labour})+{parts})`, book.Body.As(w.cents), func(_ int, o pricing.Outcome) book.Value { return quiet(o.Work) }},
		{"Priced", 8, "priced", `IF(AND({takes place}=1,{flow}>0,N({usable})>0),1,0)`, book.Body, func(i int, o pricing.Outcome) book.Value { return yes(w.Priced(i, o)) }},
		{"Counts", 8, "counts", `IF(AND({priced}=1,COUNT({worth})=1),1,0)`, book.Body, func(_ int, o pricing.Outcome) book.Value { return yes(o.Place.Number > 0) }},
		{"Value to sort by", 10, "sorted by", fmt.Sprintf(`IF({counts}=1,{value},%d)`, asideValue), book.Body, func(_ int, o pricing.Outcome) book.Value {
			return whenPlaced(o, o.Value.Value, asideValue)
		}},
		{"± value", 9, "value u", `IF({counts}=1,ABS({worth}*{flow u}),0)`, book.Body.As(book.Hundredth), func(_ int, o pricing.Outcome) book.Value { return whenPlaced(o, o.ValueU, 0) }},
		{"Decides nothing below", 10, "undecided", `IF({counts}=1,{undecided share}*{worth}*{flow},0)`, book.Body.As(book.Hundredth), func(_ int, o pricing.Outcome) book.Value { return whenPlaced(o, o.Undecided, 0) }},
		{"Position", 8, "position", `IF({counts}=1,1+SUMPRODUCT(({sorted by*}>{sorted by})*1)+SUMPRODUCT(({sorted by*}={sorted by})*({number*}<{number})),"")`, book.Body, func(_ int, o pricing.Outcome) book.Value { return position(o) }},
		{"Usable if priced", 9, "usable priced", `IF({priced}=1,{usable},0)`, book.Body.As(w.cents), func(i int, o pricing.Outcome) book.Value {
			if !w.Priced(i, o) {
				return book.Number(0)
			}
			return shown(o.Usable)
		}},
		{"Most flow of those that beat it", 9, "beaten flow", `IF({priced}=1,SUMPRODUCT(MAX(` + beats + `*{flow*})),0)`, book.Body.As(book.Hundredth), func(_ int, o pricing.Outcome) book.Value {
			return book.Number(w.flowOf(o.BeatenBy))
		}},
		{"Row of that", 8, "beaten row", `IF({beaten flow}>0,{heads}+1-SUMPRODUCT(MAX(` + beats + `*({flow*}={beaten flow})*({heads}+1-{number*}))),0)`, book.Body, func(_ int, o pricing.Outcome) book.Value {
			return book.Count(w.rowOf(o.BeatenBy) + 1)
		}},
		{"Least to ask", 9, "least", `IF({target}="","",MAX({target},{lowest},{advertised}))`, book.Body.As(w.cents), func(_ int, o pricing.Outcome) book.Value { return quiet(o.Least) }},
	})
	w.nextWork = header + w.n + 2
}

// beats is 1 for each head that flows as much for as little as the formula's
// own, one of the two strictly.
const beats = `({priced*}=1)*({usable priced*}<={usable priced})*({flow*}>={flow})*((({usable priced*}<{usable priced})+({flow*}>{flow}))>0)`

// scalars writes what stands once.
func (w *writer) scalars(top int) {
	s := w.work
	put := func(k int, name, title string, v book.Value) {
		s.Say(top+k/4, 1+2*(k%4), title, book.Body)
		w.names[name] = place{s, top + k/4, 2 + 2*(k%4), 0, 0}
		s.Set(top+k/4, 2+2*(k%4), v, book.Body)
	}
	put(0, "heads", "Heads", book.Count(w.n))
	put(1, "a set", "Heads a set", book.Count(w.Heads))
	put(2, "level", "Tied below a probability of", book.Number(w.TieLevel()))
	put(3, "z", "Standard uncertainties apart", book.Value{})
	w.single(s, top, 8, "z", "NORMSINV({level})", book.Number(pricing.Sigmas(w.TieLevel())), book.Body)
	every, at := w.result.Terms.Ending.Step()
	step := func(of func(head.Ending) decimal.Decimal) string {
		formula := "0"
		for _, e := range head.Endings() {
			if v := of(e); !v.IsZero() {
				formula = fmt.Sprintf(`IF({ending}="%s",%s,%s)`, e, v, formula)
			}
		}
		return formula
	}
	s.Say(top+1, 1, "Prices end every", book.Body)
	w.single(s, top+1, 2, "every", step(func(e head.Ending) decimal.Decimal { every, _ := e.Step(); return every }), book.Number(every.InexactFloat64()), book.Body)
	s.Say(top+1, 3, "at", book.Body)
	w.single(s, top+1, 4, "at", step(func(e head.Ending) decimal.Decimal { _, at := e.Step(); return at }), book.Number(at.InexactFloat64()), book.Body)
	s.Say(top+1, 5, "Heads with a place", book.Body)
	w.single(s, top+1, 6, "placed", "SUM({counts*})", book.Count(len(w.result.Order)), book.Body)
}

// facts writes the columns that hold no formula.
func (w *writer) facts(header int) {
	s := w.work
	for k, c := range []struct {
		title, name string
		style       book.Style
		of          func(i int, r pricing.Row, o pricing.Outcome) book.Value
	}{
		{"Number", "number", book.Body, func(i int, _ pricing.Row, _ pricing.Outcome) book.Value { return book.Count(i + 1) }},
		{"Working avg, cfm", "flow", book.Body.As(book.Tenth), func(_ int, r pricing.Row, _ pricing.Outcome) book.Value { return orZero(r.Flow) }},
		{"± cfm", "flow u", book.Body.As(book.Hundredth), func(_ int, r pricing.Row, _ pricing.Outcome) book.Value { return book.Number(r.FlowU) }},
		{"Share that decides nothing", "undecided share", book.Body, func(_ int, r pricing.Row, _ pricing.Outcome) book.Value {
			if r.Apart {
				return book.Number(pricing.Undecided)
			}
			return book.Number(0)
		}},
		{"May take a place", "takes place", book.Body, func(_ int, r pricing.Row, _ pricing.Outcome) book.Value { return yes(r.Places) }},
		{"Margin at the start", "margin before", book.Body.As(book.PercentOne), func(_ int, _ pricing.Row, o pricing.Outcome) book.Value { return quiet(o.Present) }},
		{"Surcharge each, in its own money", "surcharge", book.Body.As(book.Hundredth), func(_ int, r pricing.Row, _ pricing.Outcome) book.Value { return figure(r.Surcharge.Each) }},
		{"Margin money at the start", "earned before", book.Body.As(w.cents), func(_ int, _ pricing.Row, o pricing.Outcome) book.Value { return quiet(o.PresentMoney) }},
	} {
		w.title(s, header, 2+k, c.title, 10, c.style)
		w.names[c.name] = place{s, header + 1, 2 + k, w.n, 0}
		for i, r := range w.Rows {
			s.Set(header+1+i, 2+k, c.of(i, r, w.result.Outcomes[i]), c.style)
		}
	}
}

// rateOf writes what the money that something of a head is asked in is worth: 1
// for the shop's.
func (w *writer) rateOf(header, col int, title, called string, in func(pricing.Row) string) {
	style := book.Body.As(rateFormat)
	w.title(w.work, header, col, title, 8, style)
	w.names[called] = place{w.work, header + 1, col, w.n, 0}
	for i := range w.Rows {
		currency := in(w.Rows[i])
		name := "rate " + currency
		rate := figure(w.result.Terms.Rate(currency))
		if _, live := w.names[name]; live {
			w.formula(w.work, header+1+i, col, i, fmt.Sprintf(`IF({%[1]s}="","",{%[1]s})`, name), rate, style)
			continue
		}
		w.work.Set(header+1+i, col, rate, style)
	}
}

func orZero(m compare.Maybe) book.Value {
	if !m.Known {
		return book.Number(0)
	}
	return book.Number(m.Value)
}

// yes is 1 for what is so and 0 for what is not, as formulas count it.
func yes(is bool) book.Value { return book.Count(map[bool]int{true: 1}[is]) }

// whenPlaced is a figure of a head that takes a place, and another for one that
// does not.
func whenPlaced(o pricing.Outcome, x, otherwise float64) book.Value {
	if o.Place.Number == 0 {
		return book.Number(otherwise)
	}
	return book.Number(x)
}

func position(o pricing.Outcome) book.Value {
	if o.Place.Number == 0 {
		return book.Value{}
	}
	return book.Count(o.Position)
}

// rowOf is the index of a label, -1 for none.
func (w *writer) rowOf(label string) int {
	for i := range w.Rows {
		if w.Rows[i].Label == label {
			return i
		}
	}
	return -1
}

func (w *writer) flowOf(label string) float64 {
	if i := w.rowOf(label); i >= 0 {
		return w.Rows[i].Flow.Value
	}
	return 0
}
