package compare

import (
	"cmp"
	"fmt"
	"slices"
	"strings"

	"github.com/shopspring/decimal"

	"flowshelf/analysis/head"
	"flowshelf/analysis/pricelist"
	"flowshelf/analysis/quantity"
	"flowshelf/analysis/source"
	"flowshelf/analysis/value"
)

// priced is the cost of a head as it comes, the same for all its states.
type priced struct {
	base     Cost
	build    pricelist.Build
	complete bool // of a bare head: the sell price is for one with the shop's parts in it
	problems source.Problems
}

// price works out what the heads of a set cost the customer and the shop.
func (f *family) price(b *bundle, build pricelist.Build) priced {
	q := f.priceQuestion(b, f.Family)
	q.Build = build
	if build == pricelist.Bare && b.bareStock != nil {
		q.Stock = b.bareStock
	}
	found := pricelist.Find(q)
	p := priced{build: build, problems: found.Problems}
	c := &p.base
	c.HeadsPerSet, c.PriceList, c.ValidFrom = f.HeadsPerSet, found.List, found.ValidFrom
	c.Coming, c.Waiting, c.Superseded = found.Coming, found.Waiting, found.Superseded
	if f.HeadsPerSet < 1 {
		c.missing("the setup does not say how many heads make a set", "how many heads make a set")
		return p
	}
	if found.Landed.Known {
		trace := found.Landed.Trace.Then(fmt.Sprintf("x %d heads", f.HeadsPerSet))
		c.Landed = source.Say(found.Landed.Value.Times(f.HeadsPerSet), trace)
		c.LandedParts = []CostLine{{Kind: HeadsCost, Item: fmt.Sprintf("%d heads, net", f.HeadsPerSet), Amount: found.Net.Value.Times(f.HeadsPerSet), Trace: found.Net.Trace}}
		if found.Freight.Known {
			c.LandedParts = append(c.LandedParts, CostLine{Kind: FreightCost, Item: "freight", Amount: found.Freight.Value.Times(f.HeadsPerSet), Trace: found.Freight.Trace})
		}
	}
	c.Sell, c.Minimum = found.Sell, found.Minimum
	c.Quoted, c.Rate, c.Freight, c.SpringsTo = found.Quoted, found.Rate, found.Freight, found.MaxLift
	c.Carried, c.Apart = found.Carried, found.Apart
	if build == pricelist.Bare && !f.soldAs(b, &p) {
		return p
	}
	if f.propose(c); c.Proposed {
		at := c.Landed.Trace.At
		if q.Stock != nil {
			at = q.Stock.At
		}
		p.problems.Add(f.noted(b, at, "sell-price-not-set", fmt.Sprintf("%s has no sell price; one is proposed from its landed cost and the target margin", b.listed.Name)))
	}
	f.margin(c)
	if !c.Sell.Known {
		c.missing("no sell price, and "+found.Missing, APrice)
	}
	return p
}

// propose makes a sell price from the landed cost where the shop has set none:
// landed / (1 - target margin), the margin being of the sale, raised to how the
// shop's prices end.
func (f *family) propose(c *Cost) {
	keep := decimal.NewFromInt(1).Sub(decimal.NewFromFloat(f.rules.TargetMargin))
	if c.Sell.Known || !c.Landed.Known || !keep.IsPositive() {
		return
	}
	amount := quantity.Of(f.rules.Ending.Up(c.Landed.Value.Amount.Div(keep)), c.Landed.Value.Currency)
	trace := c.Landed.Trace.Then(fmt.Sprintf("proposed: / (1 - %s)", number(f.rules.TargetMargin)))
	if every, _ := f.rules.Ending.Step(); !every.IsZero() {
		trace = trace.Then("raised: prices end " + strings.TrimPrefix(string(f.rules.Ending), "ends "))
	}
	c.Sell = source.Say(amount, trace)
	c.Proposed = true
}

func (f *family) margin(c *Cost) {
	switch {
	case !c.Landed.Known:
		c.Margin = unknown("no landed cost")
	case !c.Sell.Known:
		c.Margin = unknown("no sell price")
	default:
		earned, err := value.Earn(c.Sell.Value, c.Landed.Value)
		if err != nil {
			c.Margin = unknown("%v", err)
			break
		}
		c.Margin, c.Markup = known(earned.Margin), known(earned.Markup)
		return
	}
	c.Markup = c.Margin
}

// usable adds to the set what the customer needs beside it for the working
// range: extras that are always needed, springs that reach, and the rework that
// makes the state. What cannot be priced leaves the sum unknown, never short.
func (f *family) usable(b *bundle, p priced, s state) (Cost, source.Problems) {
	c := p.base
	var found source.Problems
	if c.Sell.Known {
		c.Lines = append(c.Lines, CostLine{Kind: HeadsCost, Item: fmt.Sprintf("%d heads", c.HeadsPerSet), Amount: c.Sell.Value, Trace: c.Sell.Trace})
	}
	found = append(found, f.addExtras(b, &c)...)
	var put []putIn
	if p.build == pricelist.Bare {
		parts, asked := f.addParts(b, p, &c)
		put, found = append(put, parts...), append(found, asked...)
	} else {
		found = append(found, f.addSprings(b, &c)...)
	}
	found = append(found, f.addRework(b, s, &c)...)
	for _, line := range s.lines {
		put = append(put, f.ofMenu(line))
	}
	c.Work = f.work(put)
	c.jobMargin(len(put) > 0)
	if p.complete {
		c.Margin, c.Markup = c.JobMargin, unknown("the sell price holds our parts and work")
	}
	if c.Missing != "" {
		return c, found
	}
	sum := quantity.Zero(f.currency())
	for _, line := range c.Lines {
		var same bool
		if sum, same = sum.Add(line.Amount); !same {
			c.missing(line.Item+" is in another currency", "all prices in one currency")
			return c, found
		}
	}
	c.Usable = source.Say(sum, source.Trace{At: c.Sell.Trace.At, Steps: []string{"heads + extras + springs + rework"}})
	return c, found
}

// currency is the shop's.
func (f *family) currency() string {
	if f.shop.Currency == "" {
		return "USD"
	}
	return f.shop.Currency
}

// APrice is what a cost wants most often.
const APrice = "a price"

// theSpringsLift is wanted where nobody states how far the springs go.
const theSpringsLift = "the lift that its springs are good for, by the maker's statement"

// missing notes why the usable cost is not known, the first reason, and what would
// make it known. The states of a head begin with the same cost and must not share
// what they want.
func (c *Cost) missing(why, wants string) {
	c.Missing = cmp.Or(c.Missing, why)
	if !slices.Contains(c.Wants, wants) {
		c.Wants = append(slices.Clip(c.Wants), wants)
	}
}

// Without says in words what a head without a usable cost has none of: a price
// only where that is what is missing first.
func (c Cost) Without() string {
	if len(c.Wants) > 0 && c.Wants[0] != APrice {
		return "no usable cost"
	}
	return "no price"
}

// addExtras adds what is always needed, and what is needed for this family's
// lift and bore. What depends on the customer's engine is allowed for in words.
func (f *family) addExtras(b *bundle, c *Cost) source.Problems {
	var found source.Problems
	for _, e := range b.extras {
		if e.Springs || !f.applies(e) {
			continue
		}
		amount, why := f.aSet(e.Price, e.Basis)
		if why == "" && e.Status != head.Used {
			why = "waits for an answer: " + e.Why
		}
		if why != "" {
			p := f.ask(b, e.At, "extra-not-priced", fmt.Sprintf("%s needs %s, and its price %s", b.listed.Name, e.Item, why),
				"type its price and whether it is each or a set")
			found.Add(f.askPrice(c, p, CostLine{Kind: ExtraCost, Item: e.Item}, fmt.Sprintf("%s: %s", e.Item, why)))
			continue
		}
		c.Lines = append(c.Lines, CostLine{Kind: ExtraCost, Item: e.Item, Amount: amount, Trace: e.Price.Trace})
	}
	return found
}

// applies reports whether an extra is needed by every customer of the family.
func (f *family) applies(e head.Extra) bool {
	if e.Status == head.SetAside || e.Status == head.Refused {
		return false
	}
	switch e.Need {
	case head.Always:
		return true
	case head.LiftAbove:
		return e.Threshold > 0 && f.RangeTo > e.Threshold+1e-6
	case head.BoreBelow:
		return f.EngineBore.Known && e.Threshold > 0 && f.EngineBore.Value < e.Threshold-1e-6
	case head.Depends, head.WhenBare, head.NeedNotStated:
	}
	return false
}

// aSet brings a price to a set in the shop's currency, or says why not.
func (f *family) aSet(price source.Stated[quantity.Money], basis head.Basis) (quantity.Money, string) {
	n := basis.Heads(f.HeadsPerSet)
	switch {
	case !price.Known:
		return quantity.Money{}, "is not stated"
	case n < 1:
		return quantity.Money{}, "does not say whether it is each or a set"
	}
	m := price.Value
	if m.Currency == "" {
		m.Currency = f.currency()
	}
	if !strings.EqualFold(m.Currency, f.currency()) {
		return quantity.Money{}, "is in " + m.Currency
	}
	m = m.Times(f.HeadsPerSet)
	m.Amount = m.Amount.Div(decimal.NewFromInt(int64(n)))
	return m, ""
}

// addSprings adds a spring kit when the range's top is above the lift that the
// fitted springs are good for. That lift is the maker's statement; when nobody
// states it, it is asked, and the head gets no value place.
func (f *family) addSprings(b *bundle, c *Cost) source.Problems {
	limit := f.springLimit(b)
	if c.SpringsTo.Known {
		limit = c.SpringsTo // these are the springs that are bought
	}
	if !limit.Known {
		c.missing("the lift its springs are good for is not stated", theSpringsLift)
		at := b.listed.At
		if b.dimensions != nil {
			at = b.dimensions.At
		}
		p := f.ask(b, at, "max-lift-not-stated", fmt.Sprintf("the lift that the springs of %s are good for is not stated", b.listed.Name),
			"ask the supplier, and type it on the dimension sheet as max lift")
		*p.Question = maxLiftQuestion(b.listed.Name)
		return source.Problems{*p}
	}
	if f.RangeTo <= limit.Value+1e-6 {
		return nil
	}
	for _, e := range b.extras {
		if !e.Springs || e.Status != head.Used || e.Need == head.LiftAbove && e.Threshold > 0 && f.RangeTo <= e.Threshold+1e-6 {
			continue
		}
		amount, why := f.aSet(e.Price, e.Basis)
		if why != "" {
			p := f.ask(b, e.At, "extra-not-priced", fmt.Sprintf("the price of %s for %s %s", e.Item, b.listed.Name, why), "type its price and whether it is each or a set")
			return source.Problems{f.askPrice(c, p, CostLine{Kind: SpringCost, Item: e.Item}, fmt.Sprintf("%s: its price %s", e.Item, why))}
		}
		c.Lines = append(c.Lines, CostLine{Kind: SpringCost, Item: e.Item, Amount: amount, Trace: e.Price.Trace})
		return nil
	}
	p := f.ask(b, limit.Trace.At, "springs-not-priced",
		fmt.Sprintf("the springs of %s are good to %s, the range goes to %s, and no spring kit is priced", b.listed.Name, inches(limit.Value), inches(f.RangeTo)),
		"add the kit to the extras list")
	return source.Problems{f.askPrice(c, p, CostLine{Kind: SpringCost, Item: "spring kit"},
		fmt.Sprintf("its springs are good to %s and no spring kit is priced", inches(limit.Value)))}
}

// springLimit is the lift the fitted springs are good for: the dimension
// sheet's, or the one from which the extras list wants a kit.
func (f *family) springLimit(b *bundle) source.Stated[quantity.Length] {
	if b.dimensions != nil && b.dimensions.MaxLift.Known {
		return b.dimensions.MaxLift
	}
	for _, e := range b.extras {
		if e.Springs && e.Status == head.Used && e.Need == head.LiftAbove && e.Threshold > 0 {
			return source.Say(e.Threshold, source.Trace{At: e.At, Text: e.Words, Steps: []string{"the lift above which a spring kit is listed"}})
		}
	}
	return source.Stated[quantity.Length]{}
}

// addRework adds the shop's own work that makes the state.
func (f *family) addRework(b *bundle, s state, c *Cost) source.Problems {
	var found source.Problems
	if len(s.unknown) > 0 {
		work := strings.Join(s.unknown, ", ")
		p := f.ask(b, sheetOf(s.at), "rework-not-known", fmt.Sprintf("%s was tested after %q, which is not one line of the rework menu", b.listed.Name, work),
			"add it to the menu, or write the state in the menu's words")
		p.Question.Key = "rework-not-known|" + b.listed.Name + "|" + work
		found.Add(f.askPrice(c, p, CostLine{Kind: ReworkCost, Item: work}, fmt.Sprintf("the rework menu has no one line for %q", work)))
	}
	for _, r := range s.lines {
		amount, why := f.aSet(r.Price, r.Basis)
		if why != "" {
			p := f.ask(b, r.At, "rework-not-priced", fmt.Sprintf("the price of %s %s", r.Name, why), "type its price and whether it is a set or each")
			found.Add(f.askPrice(c, p, CostLine{Kind: ReworkCost, Item: r.Name}, fmt.Sprintf("%s: its price %s", r.Name, why)))
			continue
		}
		c.Lines = append(c.Lines, CostLine{Kind: ReworkCost, Item: r.Name, Amount: amount, Trace: r.Price.Trace})
	}
	return found
}

// ask makes a question about a head.
func (f *family) ask(b *bundle, at source.Ref, kind, message, hint string) *source.Problem {
	return &source.Problem{At: at, Severity: source.Asked, Kind: kind, Head: b.listed.Name, Family: f.Name, Message: message, Hint: hint,
		Question: &source.Question{
			Key: fmt.Sprintf("%s|%s|%s", kind, b.listed.Name, at), Text: capital(message) + ". " + capital(hint) + ".",
			Changes: "the usable cost and the place of " + b.listed.Name,
		}}
}

func capital(s string) string {
	if s == "" {
		return s
	}
	return strings.ToUpper(s[:1]) + s[1:]
}
