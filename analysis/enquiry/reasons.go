package enquiry

import (
	"fmt"
	"math"

	"flowshelf/analysis/compare"
	"flowshelf/analysis/head"
	"flowshelf/analysis/quantity"
	"flowshelf/analysis/review"
)

// reasons says what speaks for a head and what against it.
func (a *Answer) reasons(o *Offer) {
	e := o.Entry
	flow := fmt.Sprintf("%.0f cfm over %s to %s", e.Intake.Working.Value, lift(a.Family.RangeFrom), lift(a.Family.RangeTo))
	if o.AtLift.Known {
		flow += fmt.Sprintf(", %.0f at %s", o.AtLift.Value, lift(a.Family.RangeTo))
	}
	o.For = append(o.For, flow, fmt.Sprintf("%s all-in", review.Cash(e.Cost.Usable.Value)))
	speaks := map[bool]*[]string{true: &o.For, false: &o.Against}
	air := speaks[e.Air.Speed.Known && e.Air.Verdict == "right"]
	*air = append(*air, airWords(e))
	springs := speaks[e.SpringsTo.Known && e.SpringsTo.Spare >= 0]
	*springs = append(*springs, "springs "+e.SpringsTo.Words)
	if o.Role == Unproven {
		o.Against = append(o.Against, "its supplier's own figures: nothing is proven until one is flowed here")
	}
	if why := a.overBudget(e.Cost.Usable.Value); why != "" {
		o.Against = append(o.Against, why)
	}
	o.Against = append(o.Against, needs(e)...)
	for _, n := range e.Notes {
		switch n.For {
		case head.For:
			o.For = append(o.For, n.Text)
		case head.Against:
			o.Against = append(o.Against, n.Text)
		case head.Neither:
		}
	}
	if e.Intake.BoreHow == compare.BetweenOwnPair || e.Intake.BoreHow == compare.Estimated {
		o.Against = append(o.Against, fmt.Sprintf("its flow at %.3f is estimated: %s", a.Family.ReferenceBore.In(), e.Intake.BoreHow))
	}
	if len(e.Intake.Verdict.Dips) > 0 {
		o.Against = append(o.Against, e.Intake.Course())
	}
	if in := e.Intake; in.Class == head.Own && in.Ports == 1 {
		o.Against = append(o.Against, "one port of one sample was flowed: another casting may differ")
	}
	if o.Role != Recommended && len(a.Offers) > 0 {
		o.Against = append(o.Against, against(a.Offers[0].Entry, e)...)
	}
	for _, x := range e.Extras {
		if x.Need == head.Depends && x.Status == head.Used {
			o.Allow = append(o.Allow, allowWords(x))
		}
	}
}

// needs names what has to be bought or done besides.
func needs(e *compare.Entry) []string {
	var out []string
	for _, l := range e.Cost.Lines {
		if l.Kind != compare.HeadsCost && l.Kind != compare.FreightCost {
			out = append(out, fmt.Sprintf("needs %s, %s", l.Item, review.Cash(l.Amount)))
		}
	}
	return out
}

func airWords(e *compare.Entry) string {
	if !e.Air.Speed.Known {
		return e.Air.Speed.Why
	}
	return fmt.Sprintf("air speed %.0f ft/s: %s", e.Air.Speed.Value, e.Air.Verdict)
}

func allowWords(x head.Extra) string {
	words := x.Item
	if x.Price.Known {
		words += ", " + review.Cash(x.Price.Value) + " " + x.Basis.String()
	}
	if x.Words != "" {
		words += " (" + x.Words + ")"
	}
	return words
}

// against compares a head with the recommended one.
func against(leader, e *compare.Entry) []string {
	if leader == nil || leader.Label == e.Label {
		return nil
	}
	more := e.Intake.Working.Value - leader.Intake.Working.Value
	words := fmt.Sprintf("%+.0f cfm", more)
	if math.Abs(more) < 0.5 {
		words = "the same flow"
	}
	if !flowsMore(e, leader) && !flowsMore(leader, e) {
		words += " (inside the noise)"
	}
	cost := e.Cost.Usable.Value
	if apart, ok := cost.Add(quantity.Of(leader.Cost.Usable.Value.Amount.Neg(), leader.Cost.Usable.Value.Currency)); ok {
		words += fmt.Sprintf(" for %s all-in, %s", review.Cash(cost), dearer(apart))
	}
	return []string{"against " + leader.Label + " " + words}
}

func dearer(apart quantity.Money) string {
	switch {
	case apart.Amount.IsPositive():
		return review.Cash(apart) + " more"
	case apart.Amount.IsNegative():
		apart.Amount = apart.Amount.Neg()
		return review.Cash(apart) + " less"
	}
	return "the same money"
}
