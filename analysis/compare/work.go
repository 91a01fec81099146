package compare

import (
	"fmt"

	"github.com/shopspring/decimal"

	"flowshelf/analysis/head"
	"flowshelf/analysis/quantity"
	"flowshelf/analysis/source"
	"flowshelf/analysis/value"
)

// putIn is one thing that the shop puts into a set, at what it costs the shop a
// set: a line of its menu, or a part of a bare head.
type putIn struct {
	name     string
	internal source.Stated[quantity.Money]
	hours    source.Stated[decimal.Decimal]
}

// ofMenu is a line of the rework menu a set.
func (f *family) ofMenu(r *head.Rework) putIn {
	p := putIn{name: r.Name}
	if amount, why := f.aSet(r.Internal, r.Basis); why == "" {
		p.internal = source.Say(amount, r.Internal.Trace)
	}
	if n := r.Basis.Heads(f.HeadsPerSet); r.Hours.Known && n > 0 {
		hours := decimal.NewFromFloat(r.Hours.Value).Mul(decimal.NewFromInt(int64(f.HeadsPerSet))).Div(decimal.NewFromInt(int64(n)))
		p.hours = source.Say(hours, r.Hours.Trace)
	}
	return p
}

// work adds up what the shop puts into a set:
//
//	hours x labour rate + parts and tooling.
//
// A stated internal cost holds both the time and the tooling. Where the hours
// and the setup's labour rate are known too, what is left of it beyond them is
// tooling, so that the sum is the stated cost at that rate and moves with it;
// less than nothing is not left. Without a rate the internal cost stands whole.
func (f *family) work(put []putIn) Work {
	w := Work{Rate: f.labourRate()}
	if len(put) == 0 {
		return w
	}
	hours, parts, all := decimal.Zero, quantity.Zero(f.currency()), true
	var steps []string
	say := func(format string, args ...any) { steps = append(steps, fmt.Sprintf(format, args...)) }
	for _, p := range put {
		cost := p.internal.Value.Amount
		switch {
		case p.hours.Known && w.Rate.Known:
			hours = hours.Add(p.hours.Value)
			say("%s: %s h x %s", p.name, p.hours.Value, w.Rate.Value.Amount)
			if tooling := cost.Sub(p.hours.Value.Mul(w.Rate.Value.Amount)); p.internal.Known && tooling.IsPositive() {
				parts.Amount = parts.Amount.Add(tooling)
				say("+ %s, the rest of its internal cost of %s", tooling, cost)
			}
		case p.internal.Known:
			parts.Amount = parts.Amount.Add(cost)
			say("%s: internal cost %s", p.name, cost)
		case p.hours.Known:
			hours = hours.Add(p.hours.Value)
			w.missing("no labour rate is set for the hours of " + p.name)
		default:
			w.missing("what " + p.name + " costs the shop is not stated")
			all = false
		}
	}
	w.Hours, w.Parts = source.Say(hours, source.Trace{}), source.Say(parts, source.Trace{Steps: steps})
	w.Parts.Known = all
	if w.Why == "" {
		sum := parts
		sum.Amount = sum.Amount.Add(hours.Mul(w.Rate.Value.Amount))
		w.Cost = source.Say(sum, source.Trace{At: w.Rate.Trace.At, Steps: steps})
	}
	return w
}

// missing notes the first thing that cannot be counted.
func (w *Work) missing(why string) {
	if w.Why == "" {
		w.Why = why
	}
}

// jobMargin is the margin with what the shop puts in: on one side the sell price
// and what is charged for parts and work, on the other the landed cost and what
// they cost the shop.
func (c *Cost) jobMargin(putsIn bool) {
	switch {
	case !putsIn, !c.Margin.Known:
		c.JobMargin = c.Margin
		return
	case !c.Work.Cost.Known:
		c.JobMargin = unknown("%s", c.Work.Why)
		return
	}
	paid, spent := c.Sell.Value, c.Landed.Value
	for _, l := range c.Lines {
		if l.Kind == ReworkCost {
			paid.Amount = paid.Amount.Add(l.Amount.Amount)
		}
	}
	spent.Amount = spent.Amount.Add(c.Work.Cost.Value.Amount)
	earned, err := value.Earn(paid, spent)
	if err != nil {
		c.JobMargin = unknown("%v", err)
		return
	}
	c.JobMargin = known(earned.Margin)
}

// labourRate is what an hour of the shop's work costs it, where the setup says so
// in the shop's money.
func (f *family) labourRate() source.Stated[quantity.Money] {
	rate := f.rules.LabourRate
	if !rate.Known || !rate.Value.Amount.IsPositive() || rate.Value.Currency != "" && rate.Value.Currency != f.currency() {
		return source.Stated[quantity.Money]{}
	}
	rate.Value.Currency = f.currency()
	return rate
}
