// Package pricelist says what a head costs the shop on a date: which list is in
// force, its discounts and freight, and the rate of a foreign currency. It
// decides nothing that a list does not say: a price without a basis, a rung the
// shop has not named, a date that can be read two ways stay out of every sum.
package pricelist

import (
	"cmp"
	"slices"
	"strings"
	"time"

	"github.com/shopspring/decimal"

	"flowshelf/analysis/head"
	"flowshelf/analysis/quantity"
	"flowshelf/analysis/source"
)

// Build is which of a head's prices are looked at.
type Build uint8

// The builds. A price that does not say how the head comes is for a complete one.
const (
	AnyBuild Build = iota // a complete head before a bare one
	Complete
	Bare
)

// takes reports whether a price or a stock line of a build is looked at.
func (b Build) takes(build string) bool {
	return b == AnyBuild || (b == Bare) == strings.EqualFold(build, "bare")
}

// Question is what is asked about one head.
type Question struct {
	Head    head.Listed
	Build   Build
	Heads   int             // heads a set
	Lift    quantity.Length // top of the range the head is sold for; 0 when it does not matter
	Prices  []head.Price
	Stock   *head.StockItem // nil when no stock book names the head
	Shop    head.Shop
	On      time.Time
	Default source.Stated[quantity.Money] // freight a head where nobody states one
	Answers head.Answers                  // to what was asked about prices before
}

// Cost is what a head costs the shop and is sold for, in the shop's currency.
type Cost struct {
	Quoted  source.Stated[quantity.Money]  // a head in the money it is bought in, discounts taken
	Rate    source.Stated[decimal.Decimal] // of that money, where it is not the shop's
	Net     source.Stated[quantity.Money]  // a head, discounts taken
	Freight source.Stated[quantity.Money]  // a head
	Carried Foreign                        // the freight in the money it is asked in
	Apart   Foreign                        // a head's surcharges in other money than its price; in Net at their own rate
	Landed  source.Stated[quantity.Money]  // a head: net and freight
	Sell    source.Stated[quantity.Money]  // a set, to the customer
	Minimum source.Stated[quantity.Money]  // a set: the supplier lets nobody advertise it for less

	List       string                         // the book the cost stands in
	ValidFrom  source.Stated[time.Time]       // since when it is in force
	Coming     []head.Price                   // lists that are not in force yet
	Superseded []head.Price                   // older lists that the one in force took the place of, the newest first
	Waiting    []head.Price                   // prices that wait for an answer
	MaxLift    source.Stated[quantity.Length] // of the springs in the price, where the list says it
	Missing    string                         // why there is no landed cost, "" when there is
	Problems   source.Problems
}

// Foreign is an amount in the money it is asked in.
type Foreign struct {
	Quoted source.Stated[quantity.Money]  // a head in the money it is asked in
	Rate   source.Stated[decimal.Decimal] // of that money, where it is not the shop's
}

// Find returns the cost of a head on a date. The list in force is the one with
// the latest effective date not after it; a list without a date comes before
// every dated one. Without any list the stock book's own cost stands, and is
// named as such.
func Find(q Question) Cost {
	var c Cost
	inForce := q.inForce(&c)
	if price, ok := q.pick(inForce, &c); ok {
		q.fromList(price, &c)
	} else if c.Missing == "" {
		q.toCome(&c)
		q.fromStock(&c)
	}
	if c.Net.Known && c.Missing == "" {
		q.land(&c)
	}
	q.sell(&c)
	q.minimum(&c)
	return c
}

// toCome says that the only list there is holds from a later day.
func (q Question) toCome(c *Cost) {
	if len(c.Coming) == 0 || len(c.Waiting) > 0 {
		return
	}
	first := slices.MinFunc(c.Coming, func(a, b head.Price) int { return compareDates(a.Effective, b.Effective) })
	c.Problems.Add(source.Problem{At: first.At, Severity: source.Noted, Kind: "list-to-come", Head: q.Head.Name, Family: q.Head.Family, Found: first.Effective.Trace.Text,
		Message: "its only list is in force from " + first.Effective.Value.Format(time.DateOnly) + " on and is not used yet",
		Hint:    "see whether that date is right, or drop the list that is in force"})
}

// inForce parts the usable cost prices that are in force on the date from those
// that are still to come.
func (q Question) inForce(c *Cost) []head.Price {
	var out []head.Price
	for _, p := range q.Prices {
		switch {
		case !q.Build.takes(p.Build):
		case p.Status == head.Asked && p.Amount.Known && p.Rung != head.Sell && p.Rung != head.MinimumAdvertised:
			c.Waiting = append(c.Waiting, p)
		case p.Status != head.Used || !p.Amount.Known || !p.Amount.Value.Amount.IsPositive() || p.Rung == head.Sell || p.Rung == head.MinimumAdvertised:
		case p.Effective.Known && p.Effective.Value.After(q.On):
			c.Coming = append(c.Coming, p)
		case p.Until.Known && p.Until.Value.Before(q.On):
			p.Why = "ended " + p.Until.Value.Format(time.DateOnly)
			c.Superseded = append(c.Superseded, p)
		default:
			out = append(out, p)
		}
	}
	return out
}

// pick returns the price that is the shop's cost: of the rung agreed with the
// supplier, assembled before bare, of the newest list.
func (q Question) pick(prices []head.Price, c *Cost) (head.Price, bool) {
	var best []head.Price
	for _, p := range prices {
		mine, ok := q.rung(p)
		if !ok {
			continue
		}
		if len(best) == 0 {
			best = []head.Price{p}
			continue
		}
		theirs, _ := q.rung(best[0])
		switch order := cmp.Or(compareDates(p.Effective, best[0].Effective), q.compareBuilds(p, best[0]), cmp.Compare(mine, theirs)); {
		case order > 0:
			best = []head.Price{p}
		case order == 0:
			best = append(best, p)
		}
	}
	if len(best) == 0 {
		if waiting := q.waiting(); waiting != "" && len(prices) == 0 {
			c.Missing = waiting
		}
		if len(prices) > 0 {
			c.Missing = "no listed price is known to be the shop's cost"
			p := q.problem(prices[0], "cost-rung-not-known", prices[0].Rung.String(),
				"it is not known which of this supplier's prices is our cost", "name it on the Suppliers sheet of the setup")
			question := q.rungQuestion(prices[0])
			p.Question = &question
			c.Problems.Add(p)
		}
		return head.Price{}, false
	}
	for _, other := range best[1:] {
		if samePrice(best[0], other) {
			continue
		}
		stands, ok := q.whichPrice(best[0], other, c)
		if !ok {
			c.Missing = "two lists in force give two prices"
			return head.Price{}, false
		}
		best[0] = stands
	}
	q.supersede(prices, best[0], c)
	return best[0], true
}

// supersede lists the prices that a newer one took the place of.
func (q Question) supersede(prices []head.Price, best head.Price, c *Cost) {
	for _, p := range prices {
		if _, mine := q.rung(p); mine && compareDates(p.Effective, best.Effective) < 0 {
			c.Superseded = append(c.Superseded, p)
		}
	}
	slices.SortStableFunc(c.Superseded, func(a, b head.Price) int { return compareDates(b.Effective, a.Effective) })
}

func samePrice(a, b head.Price) bool {
	return a.Amount.Value.Amount.Equal(b.Amount.Value.Amount) && a.Amount.Value.Currency == b.Amount.Value.Currency && a.Basis == b.Basis
}

// waiting says why a head's only prices may not be used yet, "" when none waits.
func (q Question) waiting() string {
	if q.Stock != nil && q.Stock.Cost.Known {
		return ""
	}
	for _, p := range q.Prices {
		if p.Status == head.Asked && q.Build.takes(p.Build) {
			return "its price waits for an answer: " + p.Why
		}
	}
	return ""
}

// rung ranks a price as the shop's cost: of the agreed rung, or list with a
// discount that leads to it, or, where a rung is agreed, a price that names none.
func (q Question) rung(p head.Price) (int, bool) {
	rule := q.supplier(p)
	agreed := head.Net
	if rule != nil && rule.Cost != head.RungNotStated {
		agreed = rule.Cost
	}
	switch {
	case p.Rung == agreed:
		return 3, true
	case p.Rung == head.List && len(q.discounts(p)) > 0:
		return 2, true
	case p.Rung == head.RungNotStated && rule != nil && rule.Cost != head.RungNotStated:
		return 1, true
	}
	if answered, ok := q.rungAnswered(p); ok && p.Rung == answered {
		return 3, true
	}
	return 0, false
}

// discounts are the list's own, or those agreed with the supplier.
func (q Question) discounts(p head.Price) []decimal.Decimal {
	if len(p.Discounts) > 0 {
		return p.Discounts
	}
	if rule := q.supplier(p); rule != nil && p.Rung == head.List {
		return rule.Discounts
	}
	return nil
}

func (q Question) supplier(p head.Price) *head.SupplierRule {
	for _, name := range []string{p.Supplier, q.Head.Supplier} {
		for i := range q.Shop.Suppliers {
			if s := &q.Shop.Suppliers[i]; name != "" && strings.EqualFold(s.Name, name) {
				return s
			}
		}
	}
	return nil
}

// compareBuilds puts the build before another that a customer of the range can
// use with less: assembled before one that does not say, and that before bare;
// of assembled ones those whose springs reach the range's top, and of these the
// cheaper.
func (q Question) compareBuilds(a, b head.Price) int {
	if order := cmp.Compare(build(a), build(b)); order != 0 || !a.MaxLift.Known || !b.MaxLift.Known {
		return order
	}
	reaches := func(p head.Price) int {
		if q.Lift > p.MaxLift.Value+sameLift {
			return 0
		}
		return 1
	}
	order := cmp.Compare(reaches(a), reaches(b))
	if order != 0 || a.Basis != b.Basis || a.Amount.Value.Currency != b.Amount.Value.Currency {
		return order
	}
	return b.Amount.Value.Amount.Cmp(a.Amount.Value.Amount)
}

// sameLift is the difference below which two lifts are one.
const sameLift quantity.Length = 1e-6

// build ranks the words that a list has for how a head comes.
func build(p head.Price) int {
	switch strings.ToLower(p.Build) {
	case "assembled":
		return 2
	case "bare":
		return 0
	}
	return 1
}

func compareDates(a, b source.Stated[time.Time]) int {
	switch {
	case a.Known && b.Known:
		return a.Value.Compare(b.Value)
	case a.Known:
		return 1
	case b.Known:
		return -1
	}
	return 0
}

func (q Question) problem(p head.Price, kind, found, message, hint string) source.Problem {
	return source.Problem{At: p.At, Severity: source.Asked, Kind: kind, Head: q.Head.Name, Family: q.Head.Family,
		Found: found, Message: message, Hint: hint}
}

// perHead returns what a price of the basis is for one head.
func perHead(amount quantity.Money, basis head.Basis, perSet int) (quantity.Money, bool) {
	n := basis.Heads(perSet)
	if n < 1 {
		return amount, false
	}
	amount.Amount = amount.Amount.Div(decimal.NewFromInt(int64(n)))
	return amount, true
}

// sortedRates are the rates of a currency known on the date, the newest first.
func (q Question) sortedRates(currency string) []head.Rate {
	var out []head.Rate
	for _, r := range q.Shop.Rates {
		if strings.EqualFold(r.Currency, currency) && r.Value.IsPositive() && (!r.AsOf.Known || !r.AsOf.Value.After(q.On)) {
			out = append(out, r)
		}
	}
	slices.SortStableFunc(out, func(a, b head.Rate) int { return compareDates(b.AsOf, a.AsOf) })
	return out
}
