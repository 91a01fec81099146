package lists

import (
	"github.com/shopspring/decimal"

	"flowshelf/analysis/quantity"
	"flowshelf/analysis/source"
	"flowshelf/ingest/decode"
	"flowshelf/ingest/parse"
)

// amount reads a cell as money without deciding its currency. A number takes
// the currency of its format.
func (r *reader) amount(cell decode.Cell, c *titled) (parse.Money, bool) {
	switch cell.Kind {
	case decode.Number:
		d, ok := parse.Stored(cell.Num)
		return parse.Money{Amount: d, Currency: parse.Currency(cell.Format)}, ok && d.Sign() >= 0
	case decode.Text:
		return parse.ReadMoney(cell.Text, r.marks[c.place])
	default:
		return parse.Money{}, false
	}
}

// inCurrency settles the currency of an amount from the first of the texts that
// names one, then from the fallback. A bare dollar sign is the fallback's
// dollar when that is one, and no currency otherwise.
func inCurrency(d decimal.Decimal, fallback string, texts ...string) quantity.Money {
	for _, text := range texts {
		switch code := parse.Currency(text); {
		case code == "":
		case code != parse.Dollar:
			return quantity.Of(d, code)
		case dollars(fallback):
			return quantity.Of(d, fallback)
		default:
			return quantity.Of(d, "")
		}
	}
	return quantity.Of(d, fallback)
}

func dollars(currency string) bool {
	switch currency {
	case "USD", "CAD", "AUD", "NZD":
		return true
	}
	return false
}

// ownMoney reads an amount in one of the shop's own books, where a bare number
// is in the shop's currency.
func (r *reader) ownMoney(l line, want role) source.Stated[quantity.Money] {
	cell, c, ok := r.cell(l, want)
	if !ok {
		return source.Stated[quantity.Money]{}
	}
	m, ok := r.amount(cell, c)
	if !ok {
		r.problem(cell, source.Refused, "not-an-amount", l.name(), c.title+" is not an amount of money", "type a plain number such as 452.00")
		r.drop(cell, "not an amount")
		return source.Stated[quantity.Money]{}
	}
	unit := m.Currency
	if cell.Kind == decode.Text {
		unit = cell.Text
	}
	money := inCurrency(m.Amount, r.about.Shop.Currency, unit, c.title)
	if money.Currency == "" {
		p := r.newProblem(cell, source.Asked, "currency-not-stated", l.name(), "the currency of this amount is not clear", "type it in the column's title, such as USD")
		p.Question = r.question("currency of "+c.title+" "+parse.Squeeze(unit), "In which currency is "+textOf(cell)+" under “"+c.title+"”?", r.currencies()...)
		answer, ok := r.askOnce(p)
		if !ok {
			return source.Stated[quantity.Money]{}
		}
		money.Currency = answer.Choice
		r.markAnswered(cell, answer)
	}
	return source.Say(money, r.trace(cell, money.Currency))
}
