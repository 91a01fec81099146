package lists

import (
	"slices"

	"github.com/shopspring/decimal"

	"flowshelf/analysis/head"
	"flowshelf/analysis/quantity"
	"flowshelf/analysis/source"
	"flowshelf/ingest/decode"
	"flowshelf/ingest/parse"
)

// doubted is one price with what it was read from, while it is being doubted.
type doubted struct {
	*priceReader
	out   *head.Price
	line  line
	cell  decode.Cell
	money parse.Money
	title *titled
}

// judge asks about what makes a price unfit for sums, one matter after another:
// a price that waits for one answer is asked nothing else.
func (d doubted) judge() {
	for _, doubt := range []func(doubted){
		doubted.nothing, doubted.placeholder, doubted.currency, doubted.tax, doubted.basis, doubted.quantity,
	} {
		if d.out.Status == head.Used {
			doubt(d)
		}
	}
	if d.said.unclear != nil && d.out.Status == head.Used {
		d.out.Status, d.out.Why = head.Asked, "the list's date "+d.said.unclear.Text+" can be read two ways"
	}
}

// ask puts a question about the price; it waits until that is answered.
func (d doubted) ask(kind, why, hint string, q *source.Question) (head.Reply, bool) {
	p := d.newProblem(d.cell, source.Asked, kind, d.out.Head, why, hint)
	p.Question = q
	answer, ok := d.askOnce(p)
	if !ok {
		d.out.Status, d.out.Why = head.Asked, why
		return answer, false
	}
	d.out.Amount.Trace.Answered = answer.Per()
	return answer, true
}

func (d doubted) nothing() {
	if !d.money.Amount.IsZero() {
		return
	}
	const why = "a price of nothing is a missing price"
	d.out.Amount = source.Stated[quantity.Money]{}
	d.out.Status, d.out.Why = head.SetAside, why
	d.records.Problems.Add(d.newProblem(d.cell, source.Noted, "zero-price", d.out.Head, why, "ask the supplier for the price"))
}

func (d doubted) placeholder() {
	if !d.money.Amount.Equal(decimal.NewFromInt(9999)) && !d.money.Amount.Equal(decimal.NewFromInt(99999)) {
		return
	}
	answer, ok := d.ask("placeholder-price", "9999 is often typed where a price is not known yet", "type the price",
		d.questionHere("placeholder "+plain(d.out.Head), "Is 9999 the price or a placeholder?", "the price", "a placeholder"))
	if ok && answer.Is("a placeholder") {
		d.out.Status, d.out.Why = head.SetAside, "a placeholder, "+answer.Per()
	}
}

func (d doubted) currency() {
	if d.out.Amount.Value.Currency != "" {
		return
	}
	answer, ok := d.ask("currency-not-stated", "the currency of this list is not stated", "state it in the setup under Suppliers, or answer the question",
		d.priceQuestion("currency", "In which currency are the prices of this list?", "the landed cost of this list's heads", d.currencies()...))
	if ok {
		d.out.Amount.Value.Currency = answer.Choice
		d.out.Amount.Trace.Unit = answer.Choice
		d.out.Freight = d.freight(d.line, d.out)
	}
}

// currencies are those that an amount may be in, the shop's first.
func (r *reader) currencies() []string {
	known := []string{"USD", "EUR", "CAD", "AUD", "GBP"}
	own := r.about.Shop.Currency
	if own == "" {
		return known
	}
	return append([]string{own}, slices.DeleteFunc(known, func(code string) bool { return code == own })...)
}

func (d doubted) tax() {
	if !d.said.taxed {
		return
	}
	if d.said.tax.IsPositive() {
		d.out.Amount = takeTax(d.said.tax, d.out.Amount)
		return
	}
	q := d.priceQuestion("tax", "Are the prices of this list ours as they stand, or how many percent of tax have to be taken off?",
		"the landed cost of this list's heads", "as they stand")
	q.Wants, q.Unit, q.Most = source.AFigure, "%", 50
	answer, ok := d.ask("tax-included", "the prices of this list hold a tax", "answer the question", q)
	if !ok || answer.Choice != "" {
		return
	}
	d.out.Amount = takeTax(decimal.NewFromFloat(answer.Figure), d.out.Amount)
}

func (d doubted) basis() {
	if d.out.Basis != head.BasisNotStated {
		return
	}
	answer, ok := d.ask("price-basis-not-stated", "the list does not say whether the price is for one head, a pair or a set",
		"state it in the setup under Suppliers, or answer the question",
		d.priceQuestion("basis|"+d.title.title, "How many heads does a price under “"+d.title.title+"” buy?",
			"whether the heads of this list can be ranked by value", "each", "pair", "set"))
	if ok {
		d.out.Basis = basisIn(answer)
		d.out.Amount.Trace = d.out.Amount.Trace.Then("per " + d.out.Basis.String() + ", as answered")
		d.out.Freight = d.freight(d.line, d.out)
	}
}

func (p *priceReader) priceQuestion(matter, text, changes string, choices ...string) *source.Question {
	q := p.question(matter, text, choices...)
	q.Changes = changes
	return q
}
