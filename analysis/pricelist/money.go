package pricelist

import (
	"fmt"
	"strings"
	"time"

	"github.com/shopspring/decimal"

	"flowshelf/analysis/head"
	"flowshelf/analysis/quantity"
	"flowshelf/analysis/source"
)

// own reports whether money is the shop's; a price that names no currency is.
func (q Question) own(currency string) bool {
	return currency == "" || strings.EqualFold(currency, q.Shop.Currency)
}

// rate is the newest rate of a foreign currency, not known for the shop's own
// and for one that the setup has no rate for.
func (q Question) rate(currency string) source.Stated[decimal.Decimal] {
	rates := q.sortedRates(currency)
	switch {
	case q.own(currency):
		return source.Stated[decimal.Decimal]{}
	case len(rates) == 0:
		return q.rateAnswered(currency)
	}
	when := ""
	if rates[0].AsOf.Known {
		when = rates[0].AsOf.Value.Format(time.DateOnly)
	}
	return source.Say(rates[0].Value, source.Trace{At: rates[0].At, Text: when})
}

// convert brings money to the shop's currency at the setup's rate.
func (q Question) convert(m quantity.Money, trace source.Trace) (quantity.Money, source.Trace, bool) {
	if q.own(m.Currency) {
		m.Currency = q.Shop.Currency
		return m, trace, true
	}
	rate := q.rate(m.Currency)
	if !rate.Known {
		return m, trace, false
	}
	when := ""
	if rate.Trace.Text != "" {
		when = " of " + rate.Trace.Text
	}
	trace = trace.Then(fmt.Sprintf("%s x %s %s%s", m.Currency, rate.Value, q.Shop.Currency, when))
	if rate.Trace.Answered != "" {
		trace.Answered = rate.Trace.Answered
	}
	return quantity.Of(m.Amount.Mul(rate.Value), q.Shop.Currency), trace, true
}

// freight takes what the list says, what is agreed with the supplier, or the
// shop's default, in this order.
func (q Question) freight(p head.Price, rule *head.SupplierRule, c *Cost) {
	stated := p.Freight
	step := ""
	if !stated.Known && rule != nil && rule.Freight.Known {
		stated, step = rule.Freight, "freight as agreed with the supplier"
	}
	if !stated.Known && q.Default.Known {
		stated, step = q.Default, "the shop's default freight"
	}
	if !stated.Known {
		c.Problems.Add(source.Problem{At: p.At, Severity: source.Noted, Kind: "freight-not-stated", Head: q.Head.Name, Family: q.Head.Family,
			Message: "freight is not stated and none is added", Hint: "set a default freight or the supplier's in the setup"})
		return
	}
	trace := stated.Trace
	if step != "" {
		trace = trace.Then(step)
	}
	c.Carried = Foreign{source.Say(stated.Value, trace), q.rate(stated.Value.Currency)}
	amount, trace, ok := q.convert(stated.Value, trace)
	if !ok {
		q.noRate(p, "no rate for the freight's "+amount.Currency+" is set", amount.Currency, c)
		return
	}
	c.Freight = source.Say(amount, trace)
}

// apart adds to a price in the shop's money the surcharges that are asked in
// other money, at the rate of that money.
func (q Question) apart(p head.Price, extra source.Stated[quantity.Money], each quantity.Money, trace source.Trace, c *Cost) (quantity.Money, source.Trace, bool) {
	c.Apart = Foreign{extra, q.rate(extra.Value.Currency)}
	amount, how, ok := q.convert(extra.Value, extra.Trace)
	if !ok {
		q.noRate(p, "no rate for the surcharge's "+amount.Currency+" is set", amount.Currency, c)
		return each, trace, false
	}
	sum, same := each.Add(amount)
	if !same {
		c.Missing = "its surcharge is in other money than the price"
		return each, trace, false
	}
	return sum, trace.Then(fmt.Sprintf("%s: + %s", strings.Join(how.Steps, ", "), amount.Amount)), true
}

// noRate asks for the rate of a currency that a price is in or goes with.
func (q Question) noRate(p head.Price, why, currency string, c *Cost) {
	c.Missing = why
	problem := q.problem(p, "rate-not-set", currency, why, "add it to the Rates sheet of the setup")
	question := q.rateQuestion(currency)
	problem.Question = &question
	c.Problems.Add(problem)
}
