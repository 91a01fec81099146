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

// fromList works out the net cost of a head from a line of a list.
func (q Question) fromList(p head.Price, c *Cost) {
	c.List, c.ValidFrom = p.At.File, p.Effective
	rule := q.supplier(p)
	basis := p.Basis
	trace := p.Amount.Trace
	if basis == head.BasisNotStated && rule != nil && rule.Basis != head.BasisNotStated {
		basis = rule.Basis
		trace = trace.Then("price is per " + basis.String() + " by the setup")
	}
	each, ok := perHead(p.Amount.Value, basis, q.Heads)
	if !ok {
		c.Missing = "the list does not say whether its price is each, a pair or a set"
		c.Problems.Add(q.problem(p, "price-basis-not-stated", p.Amount.Trace.Text, c.Missing, "state it on the list or on the Suppliers sheet of the setup"))
		return
	}
	if n := basis.Heads(q.Heads); n > 1 {
		trace = trace.Then(fmt.Sprintf("%s of %d to each: / %d", basis, n, n))
	}
	each, trace = discounted(each, q.discounts(p), trace)
	if p.Rung == head.RungNotStated && rule != nil {
		trace = trace.Then("taken as " + rule.Cost.String() + " by the setup")
	}
	each, trace, ok = q.convert(each, trace)
	if !ok {
		c.Missing = "no rate for " + each.Currency + " is set"
		c.Problems.Add(q.problem(p, "rate-not-set", each.Currency, c.Missing, "add it to the Rates sheet of the setup"))
		return
	}
	c.Net = source.Say(each, trace)
	if strings.EqualFold(p.Build, "bare") {
		c.Problems.Add(source.Problem{At: p.At, Severity: source.Noted, Kind: "bare-price", Head: q.Head.Name, Family: q.Head.Family,
			Message: "the only price in force is for a bare head"})
	}
	q.freight(p, rule, c)
}

// discounted takes a chain of discounts one after the other: 50/10/5 leaves
// 0.5 x 0.9 x 0.95.
func discounted(amount quantity.Money, chain []decimal.Decimal, trace source.Trace) (quantity.Money, source.Trace) {
	hundred := decimal.NewFromInt(100)
	for _, d := range chain {
		amount = amount.Scale(hundred.Sub(d).Div(hundred))
		trace = trace.Then("less " + d.String() + " %")
	}
	return amount, trace
}

// convert brings money to the shop's currency at the setup's rate.
func (q Question) convert(m quantity.Money, trace source.Trace) (quantity.Money, source.Trace, bool) {
	if m.Currency == "" || strings.EqualFold(m.Currency, q.Shop.Currency) {
		m.Currency = q.Shop.Currency
		return m, trace, true
	}
	rates := q.sortedRates(m.Currency)
	if len(rates) == 0 {
		return m, trace, false
	}
	rate := rates[0]
	when := ""
	if rate.AsOf.Known {
		when = " of " + rate.AsOf.Value.Format("2006-01-02")
	}
	trace = trace.Then(fmt.Sprintf("%s x %s %s%s", m.Currency, rate.Value, q.Shop.Currency, when))
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
	amount, trace, ok := q.convert(stated.Value, trace)
	if !ok {
		c.Missing = "no rate for the freight's " + amount.Currency + " is set"
		return
	}
	c.Freight = source.Say(amount, trace)
}

// fromStock takes the stock book's own cost where no list gives one.
func (q Question) fromStock(c *Cost) {
	if q.Stock == nil || !q.Stock.Cost.Known {
		c.Missing = "no price list and no stock book gives a cost"
		return
	}
	each, ok := perHead(q.Stock.Cost.Value, q.Stock.CostBasis, q.Heads)
	if !ok {
		c.Missing = "the stock book does not say whether its cost is each, a pair or a set"
		return
	}
	each, trace, ok := q.convert(each, q.Stock.Cost.Trace)
	if !ok {
		c.Missing = "no rate for " + each.Currency + " is set"
		return
	}
	c.Net = source.Say(each, trace.Then("the stock book's cost: no price list in force"))
	c.List, c.ValidFrom = q.Stock.At.File, q.Stock.Date
	if q.Stock.Freight.Known {
		freight, trace, ok := q.convert(q.Stock.Freight.Value, q.Stock.Freight.Trace)
		if ok {
			c.Freight = source.Say(freight, trace)
		}
	}
}

func (q Question) land(c *Cost) {
	sum, ok := c.Net.Value.Add(c.Freight.Value)
	if !ok {
		c.Missing = "cost and freight are in two currencies"
		return
	}
	c.Landed = source.Say(sum, c.Net.Trace)
	if c.Freight.Known && !c.Freight.Value.Amount.IsZero() {
		c.Landed.Trace = c.Landed.Trace.Then(fmt.Sprintf("freight + %s", c.Freight.Value.Amount))
	}
}

// sell finds the shop's own price a set: the stock book's, or that of a sell
// list of a later date.
func (q Question) sell(c *Cost) {
	var since source.Stated[time.Time]
	if q.Stock != nil {
		c.Sell, since = q.aSet(q.Stock.Sell, q.Stock.SellBasis), q.Stock.Date
	}
	for _, p := range q.Prices {
		if p.Rung != head.Sell || p.Status != head.Used || p.Effective.Known && p.Effective.Value.After(q.On) {
			continue
		}
		set := q.aSet(p.Amount, p.Basis)
		if set.Known && (!c.Sell.Known || compareDates(p.Effective, since) > 0) {
			c.Sell, since = set, p.Effective
		}
	}
}

// aSet brings a sell price to a set of heads in the shop's currency.
func (q Question) aSet(amount source.Stated[quantity.Money], basis head.Basis) source.Stated[quantity.Money] {
	n := basis.Heads(q.Heads)
	if !amount.Known || !amount.Value.Amount.IsPositive() || n < 1 {
		return source.Stated[quantity.Money]{}
	}
	trace := amount.Trace
	if n != q.Heads {
		trace = trace.Then(fmt.Sprintf("%s to a set of %d: x %d / %d", basis, q.Heads, q.Heads, n))
	}
	set := amount.Value.Times(q.Heads)
	set.Amount = set.Amount.Div(decimal.NewFromInt(int64(n)))
	set, trace, ok := q.convert(set, trace)
	if !ok {
		return source.Stated[quantity.Money]{}
	}
	return source.Say(set, trace)
}
