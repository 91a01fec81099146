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
	if basis == head.BasisNotStated {
		var answer head.Reply
		if basis, answer = q.basisAnswered(p, c); basis != head.BasisNotStated {
			trace.Answered = answer.Per()
		}
	}
	each, ok := perHead(p.Amount.Value, basis, q.Heads)
	if !ok {
		c.Missing = "the list does not say whether its price is each, a pair or a set"
		return
	}
	if n := basis.Heads(q.Heads); n > 1 {
		trace = trace.Then(fmt.Sprintf("%s of %d to each: / %d", basis, n, n))
	}
	if basis == head.Pair && q.Heads > basis.Heads(q.Heads) {
		c.Problems.Add(source.Problem{At: p.At, Severity: source.Noted, Kind: "pair-of-more", Head: q.Head.Name, Family: q.Head.Family, Found: p.Amount.Trace.Text,
			Message: fmt.Sprintf("the head is sold by %d and priced a pair; a set takes %d heads at half this price each", q.Heads, q.Heads)})
	}
	list := q.list(p, each)
	each, trace = discounted(each, q.discounts(p), trace)
	var apart source.Stated[quantity.Money]
	if each, apart, trace, c.Missing = surcharged(list, each, p.Surcharges, trace); c.Missing != "" {
		c.Problems.Add(q.problem(p, "surcharge-not-known", "", c.Missing, "add it to the freight of the supplier's row in the setup, or write the list price into the list"))
		return
	}
	c.MaxLift = p.MaxLift
	q.old(p, c)
	if p.Rung == head.RungNotStated && rule != nil {
		trace = trace.Then("taken as " + rule.Cost.String() + " by the setup")
	}
	trace = q.rungTrace(p, trace)
	c.quote(each, trace, q.rate(each.Currency))
	each, trace, ok = q.convert(each, trace)
	if !ok {
		q.noRate(p, "no rate for "+each.Currency+" is set", each.Currency, c)
		return
	}
	if apart.Known {
		if each, trace, ok = q.apart(p, apart, each, trace, c); !ok {
			return
		}
	}
	c.Net = source.Say(each, trace)
	if q.Build == AnyBuild && strings.EqualFold(p.Build, "bare") {
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

// list is the list price a head that goes with a price: itself, or the line of
// the same sheet that gives it.
func (q Question) list(p head.Price, each quantity.Money) source.Stated[quantity.Money] {
	if p.Rung == head.List || len(p.Discounts) > 0 {
		return source.Say(each, p.Amount.Trace)
	}
	for _, other := range q.Prices {
		if other.Rung == head.List && other.Status == head.Used && other.Amount.Known && other.At.File == p.At.File &&
			other.At.Sheet == p.At.Sheet && strings.EqualFold(other.Build, p.Build) {
			if each, ok := perHead(other.Amount.Value, other.Basis, q.Heads); ok {
				return source.Say(each, other.Amount.Trace)
			}
		}
	}
	return source.Stated[quantity.Money]{}
}

// surcharged adds what comes on top: shares of the list or of the net price, as
// the list says, and money a head. Money of another kind than the price's is
// kept apart, so that it goes by its own rate. missing says why that cannot be
// done.
func surcharged(list source.Stated[quantity.Money], net quantity.Money, extra []head.Surcharge, trace source.Trace) (sum quantity.Money, apart source.Stated[quantity.Money], out source.Trace, missing string) {
	sum = net
	for _, s := range extra {
		amount, words := s.Amount.Value, s.Name
		if !s.Amount.Known {
			of := net
			if s.On == head.List {
				if !list.Known {
					return net, apart, trace, "its surcharge is a share of the list price, which is not there"
				}
				of = list.Value
			}
			amount = of.Scale(s.Percent.Shift(-2))
			words = fmt.Sprintf("%s %s %% of %s", s.Name, s.Percent, s.On)
		}
		with, same := sum.Add(amount)
		if same {
			sum, trace = with, trace.Then(fmt.Sprintf("%s: + %s", words, amount.Amount))
			continue
		}
		if with, same = apart.Value.Add(amount); !same {
			return net, apart, trace, "its surcharges are in more than two kinds of money"
		}
		apart = source.Say(with, source.Trace{At: s.At, Text: s.Amount.Trace.Text, Unit: with.Currency}.Then(words))
	}
	return sum, apart, trace, ""
}

// oldList is how many months a list may be in force before it is remarked on.
// Common practice, no source.
const oldList = 12

func (q Question) old(p head.Price, c *Cost) {
	if p.Effective.Known && p.Effective.Value.Before(q.On.AddDate(0, -oldList, 0)) {
		c.Problems.Add(source.Problem{At: p.At, Severity: source.Noted, Kind: "price-list-old", Head: q.Head.Name, Family: q.Head.Family,
			Message: fmt.Sprintf("its price is from a list of %s, more than %d months old", p.Effective.Value.Format(time.DateOnly), oldList),
			Hint:    "ask the supplier for the list of this year"})
	}
}

// quote keeps a price as it is asked, before any rate.
func (c *Cost) quote(each quantity.Money, trace source.Trace, rate source.Stated[decimal.Decimal]) {
	c.Quoted, c.Rate = source.Say(each, trace), rate
}

// fromStock takes the stock book's own cost where no list gives one.
func (q Question) fromStock(c *Cost) {
	if q.Stock == nil || !q.Stock.Cost.Known || !q.Build.takes(q.Stock.Build) {
		c.Missing = "no price list and no stock book gives a cost"
		return
	}
	each, ok := perHead(q.Stock.Cost.Value, q.Stock.CostBasis, q.Heads)
	if !ok {
		c.Missing = "the stock book does not say whether its cost is each, a pair or a set"
		return
	}
	c.quote(each, q.Stock.Cost.Trace, q.rate(each.Currency))
	each, trace, ok := q.convert(each, q.Stock.Cost.Trace)
	if !ok {
		c.Missing = "no rate for " + each.Currency + " is set"
		return
	}
	c.Net = source.Say(each, trace.Then("the stock book's cost: no price list in force"))
	c.List, c.ValidFrom = q.Stock.At.File, q.Stock.Date
	if q.Stock.Freight.Known {
		c.Carried = Foreign{q.Stock.Freight, q.rate(q.Stock.Freight.Value.Currency)}
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
	if q.Stock != nil && q.Build.takes(q.Stock.Build) {
		c.Sell, since = q.aSet(q.Stock.Sell, q.Stock.SellBasis), q.Stock.Date
	}
	for _, p := range q.Prices {
		if set, ok := q.live(p, head.Sell); ok && (!c.Sell.Known || compareDates(p.Effective, since) > 0) {
			c.Sell, since = set, p.Effective
		}
	}
}

// minimum finds what the newest list in force lets a set be advertised for.
func (q Question) minimum(c *Cost) {
	var since source.Stated[time.Time]
	for _, p := range q.Prices {
		if set, ok := q.live(p, head.MinimumAdvertised); ok && (!c.Minimum.Known || compareDates(p.Effective, since) > 0) {
			c.Minimum, since = set, p.Effective
		}
	}
}

// live returns what a line of a rung makes a set when it is in force.
func (q Question) live(p head.Price, rung head.Rung) (source.Stated[quantity.Money], bool) {
	if p.Rung != rung || !q.Build.takes(p.Build) || p.Status != head.Used || p.Effective.Known && p.Effective.Value.After(q.On) {
		return source.Stated[quantity.Money]{}, false
	}
	set := q.aSet(p.Amount, p.Basis)
	return set, set.Known
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
