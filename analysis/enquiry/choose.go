package enquiry

import (
	"fmt"
	"slices"
	"strings"

	"flowshelf/analysis/compare"
	"flowshelf/analysis/quantity"
	"flowshelf/analysis/review"
	"flowshelf/analysis/stats"
)

// must is what a head has to meet.
type must uint8

const (
	springs must = iota
	air
	budget
)

// musts reads the enquiry's own words. What cannot be checked here is said.
func (a *Answer) musts() []must {
	var out []must
	for _, words := range a.Enquiry.Musts {
		plain := strings.ToLower(words)
		found := true
		switch {
		case strings.Contains(plain, "spring"):
			out = append(out, springs)
		case strings.Contains(plain, "air"), strings.Contains(plain, "speed"):
			out = append(out, air)
		case strings.Contains(plain, "budget"), strings.Contains(plain, "price"):
			out = append(out, budget)
		default:
			found = strings.TrimSpace(plain) == ""
		}
		if !found {
			a.Taken = append(a.Taken, fmt.Sprintf("the must %q cannot be checked here: check it by hand", words))
		}
	}
	if b := a.Enquiry.Budget; slices.Contains(out, budget) && !b.Known {
		a.Taken = append(a.Taken, "budget is a must, and none is stated")
	}
	return out
}

// choose picks the offers from the ranking and says of all others why not.
func (a *Answer) choose(c *compare.Comparison) {
	a.required = a.musts()
	var meet []*compare.Entry
	failed := make(map[string][]string)
	for i := range c.Ranked {
		e := &c.Ranked[i]
		if why := a.fails(e); len(why) > 0 {
			failed[e.Label] = why
			continue
		}
		meet = append(meet, e)
	}
	a.offer(c, meet)
	var leader *compare.Entry
	if len(meet) > 0 {
		leader = meet[0]
	}
	for i := range c.Ranked {
		if e := &c.Ranked[i]; !a.offered(e.Label) {
			a.Others = append(a.Others, Other{e.Label, join(slices.Concat(failed[e.Label], needs(e), against(leader, e)))})
		}
	}
	a.rest(c)
	base := slices.IndexFunc(c.Ranked, func(e compare.Entry) bool { return e.IsBase })
	for i := range a.Offers {
		o := &a.Offers[i]
		if base >= 0 {
			o.Fit = a.fits(o.Entry, &c.Ranked[base])
			continue
		}
		o.Fit = a.fits(o.Entry, nil)
	}
	if len(a.Offers) == 0 {
		a.None = "no head of the family meets it"
		if len(a.Others) == 0 {
			a.None = "no head of the family can be compared"
		}
	}
}

// fails names the musts that a head does not meet.
func (a *Answer) fails(e *compare.Entry) []string {
	var out []string
	for _, m := range a.required {
		switch m {
		case air:
			switch {
			case !e.Air.Speed.Known:
				out = append(out, "air speed is a must: "+e.Air.Speed.Why)
			case e.Air.Verdict != "right":
				out = append(out, fmt.Sprintf("air speed %.0f ft/s: %s", e.Air.Speed.Value, e.Air.Verdict))
			}
		case springs:
			kit := slices.ContainsFunc(e.Cost.Lines, func(l compare.CostLine) bool { return l.Kind == compare.SpringCost })
			if !e.SpringsTo.Known || e.SpringsTo.Spare < -1e-6 && !kit {
				out = append(out, "springs "+e.SpringsTo.Words)
			}
		case budget:
			if why := a.overBudget(e.Cost.Usable.Value); why != "" {
				out = append(out, why)
			}
		}
	}
	short := "springs " + e.SpringsTo.Words // one more reason, where a kit would do
	if len(out) > 0 && e.SpringsTo.Known && e.SpringsTo.Spare < -1e-6 && !slices.Contains(out, short) {
		out = append(out, short)
	}
	return out
}

func (a *Answer) overBudget(cost quantity.Money) string {
	b := a.Enquiry.Budget
	switch {
	case !b.Known:
		return ""
	case b.Value.Currency != "" && b.Value.Currency != cost.Currency:
		return "the budget is in " + b.Value.Currency + ", which is not compared"
	case cost.Amount.GreaterThan(b.Value.Amount):
		return fmt.Sprintf("over the budget: %s all-in, %s above %s", review.Cash(cost), review.Cash(above(cost, b.Value)), review.Cash(b.Value))
	}
	return ""
}

func above(cost, budget quantity.Money) quantity.Money {
	return quantity.Of(cost.Amount.Sub(budget.Amount), cost.Currency)
}

// offer picks the recommended head, a cheaper one and a better one. A difference
// inside the noise makes none better.
func (a *Answer) offer(c *compare.Comparison, meet []*compare.Entry) {
	if len(meet) > 0 {
		best := meet[0]
		a.add(best, Recommended)
		for _, e := range meet[1:] {
			if e.Head != best.Head && e.Cost.Usable.Value.Amount.LessThan(best.Cost.Usable.Value.Amount) {
				a.add(e, Cheaper)
				break
			}
		}
		for _, e := range meet[1:] {
			if e.Head != best.Head && flowsMore(e, best) && !a.offered(e.Label) {
				a.add(e, Better)
				break
			}
		}
	}
	for i := range c.BelowLine {
		e := &c.BelowLine[i]
		if len(a.Offers) < mostOffers && len(a.fails(e)) == 0 && e.Cost.Usable.Known && couldBeat(e, meet) {
			a.add(e, Unproven)
		}
	}
}

// flowsMore reports whether e surely has the higher working average.
func flowsMore(e, than *compare.Entry) bool {
	return stats.Beats(stats.Score{Value: e.Intake.Working.Value, U: e.Intake.WorkingU},
		stats.Score{Value: than.Intake.Working.Value, U: than.Intake.WorkingU}, 0) >= stats.Level
}

// couldBeat reports whether an untested head has the higher value by its
// supplier's own figures.
func couldBeat(e *compare.Entry, meet []*compare.Entry) bool {
	return len(meet) == 0 || e.Value.Known && e.Value.Value > meet[0].Value.Value
}

func (a *Answer) offered(label string) bool {
	return slices.ContainsFunc(a.Offers, func(o Offer) bool { return o.Label == label })
}

func (a *Answer) add(e *compare.Entry, role Role) {
	o := Offer{Entry: e, Role: role, AllIn: e.Cost.Usable}
	if at, ok := e.Intake.At(a.Family.RangeTo); ok {
		o.AtLift = compare.Maybe{Value: at.Flow.CFM(), Known: true}
	} else {
		o.AtLift.Why = "not tested that far"
	}
	a.reasons(&o)
	a.Offers = append(a.Offers, o)
}

// rest names the heads outside the ranking.
func (a *Answer) rest(c *compare.Comparison) {
	for _, e := range c.Unpriced {
		a.Others = append(a.Others, Other{e.Label, "no all-in price: " + e.Cost.Missing})
	}
	for i := range c.BelowLine {
		if e := &c.BelowLine[i]; !a.offered(e.Label) {
			a.Others = append(a.Others, Other{e.Label, join(append([]string{"never flowed here: its supplier's own sheet"}, a.fails(e)...))})
		}
	}
	for _, e := range c.Advertised {
		a.Others = append(a.Others, Other{e.Label, "advertised figures only"})
	}
	for _, n := range c.NotRanked {
		if n.Stray {
			continue
		}
		why := []string{"held: " + n.Reason}
		if !n.Held {
			why = []string{n.Reason}
		}
		if e := n.Entry; e != nil && e.SpringsTo.Known && e.SpringsTo.Spare < -1e-6 {
			why = append(why, "springs "+e.SpringsTo.Words)
		}
		a.Others = append(a.Others, Other{n.Label, join(why)})
	}
}

func join(words []string) string { return strings.Join(words, "; ") }
