package compare

import (
	"cmp"
	"fmt"
	"math"
	"slices"

	"flowshelf/analysis/quantity"
	"flowshelf/analysis/stats"
	"flowshelf/analysis/value"
)

// ReworkOrBuy holds a reworked state against the same head as delivered and
// against buying a better head from the shelf.
type ReworkOrBuy struct {
	Label, Base  string // the reworked state, and the head as delivered
	Cost         float64
	Gain, GainU  float64 // of the working average, cfm
	PerCFM       Maybe   // what each cfm gained costs
	PerCFMU      float64
	Better       string // the head that surely flows more for the least a cfm
	BetterPerCFM Maybe
	// BreakEven is the gain at which the work would cost as little a cfm as
	// buying the better head, in cfm, and Share the same of the base's flow.
	BreakEven, Share Maybe
	Words            string

	Hours   Maybe // of our own work, a set
	Margin  Maybe // what the work leaves over what it costs us, money a set
	PerHour Maybe // the same an hour
}

// reworks compares each ranked state that takes the shop's work with buying.
func (f *family) reworks(c *Comparison) {
	for i := range c.Ranked {
		e := &c.Ranked[i]
		if !reworked(e) || e.Bare {
			continue
		}
		base := slices.IndexFunc(c.Ranked, func(o Entry) bool { return o.Head == e.Head && !reworked(&o) })
		if base < 0 {
			continue
		}
		c.Rework = append(c.Rework, f.reworkOrBuy(c, e, &c.Ranked[base]))
	}
}

func reworked(e *Entry) bool {
	return slices.ContainsFunc(e.Cost.Lines, func(l CostLine) bool { return l.Kind == ReworkCost })
}

func (f *family) reworkOrBuy(c *Comparison, e, base *Entry) ReworkOrBuy {
	worked, plain := offer(e), offer(base)
	r := ReworkOrBuy{Label: e.Label, Base: base.Label,
		Cost:  e.Cost.Usable.Value.Float() - base.Cost.Usable.Value.Float(),
		Gain:  (worked.Flow - plain.Flow).CFM(),
		GainU: math.Hypot(worked.U.CFM(), plain.U.CFM()),
	}
	f.earns(&r, e)
	if rate, ok := worked.PerExtraCFM(plain); ok {
		r.PerCFM, r.PerCFMU = known(float64(rate)), math.Abs(float64(rate))*r.GainU/r.Gain
	} else {
		r.PerCFM = unknown("the work gained no flow")
	}
	better, rate := buyBetter(c, base)
	if better == nil {
		r.BetterPerCFM = unknown("no head on the shelf surely flows more")
		r.BreakEven, r.Share = r.BetterPerCFM, r.BetterPerCFM
		r.Words = r.BetterPerCFM.Why + ": the work is the only way up"
		return r
	}
	r.Better, r.BetterPerCFM = better.Label, known(float64(rate))
	r.BreakEven, r.Share = unknown("%s flows more and costs no more", better.Label), unknown("%s flows more and costs no more", better.Label)
	if share, ok := value.BreakEvenGain(worked.Cost, plain, rate); ok {
		r.Share, r.BreakEven = known(share), known(share*plain.Flow.CFM())
	}
	r.Words = f.reworkWords(r)
	return r
}

// earns works out what our work on a state earns, in all and an hour:
//
//	(price - what it costs us)/hours, summed over its lines of the menu; see work.
func (f *family) earns(r *ReworkOrBuy, e *Entry) {
	price, hours, cost := 0.0, 0.0, e.Cost.Work.Cost
	r.Hours, r.Margin, r.PerHour = known(0), known(0), known(0)
	for _, l := range f.menu.resolve(e.State).lines {
		put := f.ofMenu(l)
		paid, why := f.aSet(l.Price, l.Basis)
		if why != "" {
			r.Margin = unknown("the price of %s %s", l.Name, why)
		}
		if !put.hours.Known {
			r.Hours = unknown("the hours of %s are not stated", l.Name)
		}
		price, hours = price+paid.Float(), hours+put.hours.Value.InexactFloat64()
	}
	if r.Hours.Known {
		r.Hours.Value = hours
	}
	switch {
	case !cost.Known:
		r.Margin = unknown("what the work costs us is not known: %s", cmp.Or(e.Cost.Work.Why, "it is not on the menu"))
	case r.Margin.Known:
		r.Margin.Value = price - cost.Value.Float()
	}
	switch {
	case !r.Margin.Known:
		r.PerHour = r.Margin
	case !r.Hours.Known || hours <= 0:
		r.PerHour = unknown("hours not stated")
	default:
		r.PerHour.Value = r.Margin.Value / hours
	}
}

// buyBetter finds among the heads as sold the one that surely flows more than
// the base for the least a cfm added.
func buyBetter(c *Comparison, base *Entry) (*Entry, value.Rate) {
	var best *Entry
	var least value.Rate
	for i := range c.Ranked {
		e := &c.Ranked[i]
		if reworked(e) || e.Head == base.Head || stats.Beats(flowScore(e), flowScore(base), 0) < stats.Level {
			continue
		}
		if rate, ok := offer(e).PerExtraCFM(offer(base)); ok && (best == nil || rate < least) {
			best, least = e, rate
		}
	}
	return best, least
}

func flowScore(e *Entry) stats.Score {
	return stats.Score{Value: e.Intake.Working.Value, U: e.Intake.WorkingU}
}

func (f *family) reworkWords(r ReworkOrBuy) string {
	buy := fmt.Sprintf("buying %s costs %s a cfm", r.Better, f.cents(r.BetterPerCFM.Value))
	switch {
	case r.BetterPerCFM.Value <= 0:
		return fmt.Sprintf("buy %s: it flows more and costs no more", r.Better)
	case !r.PerCFM.Known:
		return buy + "; the work gained nothing"
	case stats.Beats(stats.Score{Value: r.Gain, U: r.GainU}, stats.Score{}, 0) < stats.Level:
		return fmt.Sprintf("the gain of %.0f cfm is not distinguishable from none; %s", r.Gain, buy)
	case math.Abs(r.Gain-r.BreakEven.Value) <= Sigmas(f.rules)*r.GainU:
		return fmt.Sprintf("the gain of %.0f cfm is inside the noise of the %.0f that break even with %s", r.Gain, r.BreakEven.Value, r.Better)
	case r.Gain < r.BreakEven.Value:
		return fmt.Sprintf("%s: the work gained %.0f cfm and would have to gain %.0f", buy, r.Gain, r.BreakEven.Value)
	}
	return fmt.Sprintf("the work pays: it gained %.0f cfm where %.0f breaks even with %s", r.Gain, r.BreakEven.Value, r.Better)
}

// bothWays adds to the prices that tie the leader in value those at which a cfm
// costs as much as the leader's, and the price up to which the leader leads.
func (f *family) bothWays(c *Comparison) {
	for i := range c.Ranked {
		e := &c.Ranked[i]
		if i == 0 {
			e.RatioTie = unknown("it leads")
			continue
		}
		price, err := value.RatioTiePrice(offer(e).Flow, besidePrice(e), offer(&c.Ranked[0]))
		if err != nil {
			e.RatioTie = unknown("%v", err)
			continue
		}
		e.RatioTie = known(price.Float())
	}
	c.LeadsTo = unknown("nobody follows")
	if len(c.Ranked) < 2 || !c.Worth.Known {
		return
	}
	first, next := &c.Ranked[0], &c.Ranked[1]
	price, err := value.TiePrice(offer(first).Flow, besidePrice(first), offer(next), value.Rate(c.Worth.PerCFM))
	if err != nil {
		c.LeadsTo = unknown("%v", err)
		return
	}
	c.LeadsTo = known(price.Float())
	c.LeadsWords = fmt.Sprintf("At %s a cfm %s stays first up to a sell price of %s a set, where %s ties it.",
		f.cents(c.Worth.PerCFM), first.Label, f.money(price.Float()), next.Label)
}

// besidePrice is what a usable set costs beside the heads themselves.
func besidePrice(e *Entry) quantity.Money {
	beside := e.Cost.Usable.Value
	beside.Amount = beside.Amount.Sub(e.Cost.Sell.Value.Amount)
	return beside
}

// stepWords says what the flow of a step of the frontier costs, and when the
// step may be none.
func (f *family) stepWords(s Step, before string) string {
	if s.Noise {
		return fmt.Sprintf("not distinguishable in flow from %s", before)
	}
	return fmt.Sprintf("%s ± %s for each cfm over %s", f.cents(s.Margin.Value), f.cents(s.U), before)
}
