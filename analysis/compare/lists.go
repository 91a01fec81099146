package compare

import (
	"cmp"
	"fmt"
	"math"
	"slices"

	"flowshelf/analysis/quantity"
	"flowshelf/analysis/source"
	"flowshelf/analysis/value"
)

// sort puts every entry into its list.
func (f *family) sort(c *Comparison, all []built) {
	for i := range all {
		x := &all[i]
		if x.entry.Intake != nil {
			x.questionFlag()
		}
		switch {
		case x.out != nil:
			if x.out.Entry != nil {
				entry := x.entry // with the flags it was given since, and not held by all the others
				x.out.Entry = &entry
			}
			c.NotRanked = append(c.NotRanked, *x.out)
		case x.entry.Grade == GradeD:
			c.Advertised = append(c.Advertised, x.entry)
		case x.entry.Grade == GradeC:
			c.BelowLine = append(c.BelowLine, x.entry)
		case x.entry.Cost.Usable.Known:
			c.Ranked = append(c.Ranked, x.entry)
		default:
			c.Unpriced = append(c.Unpriced, x.entry)
		}
	}
	for _, list := range []*[]Entry{&c.Ranked, &c.Unpriced, &c.BelowLine, &c.Advertised} {
		*list = slices.Clone(*list) // an entry is large, and growing leaves room for a quarter more
	}
	byFlow := func(a, b Entry) int {
		return cmp.Or(cmp.Compare(b.Intake.Working.Value, a.Intake.Working.Value), cmp.Compare(a.Label, b.Label))
	}
	slices.SortFunc(c.Unpriced, byFlow)
	slices.SortFunc(c.Advertised, byFlow)
	slices.SortStableFunc(c.NotRanked, func(a, b NotRanked) int {
		return cmp.Or(FalseFirst(a.Stray, b.Stray), cmp.Compare(a.Label, b.Label))
	})
}

// FalseFirst is a comparison for sorting that puts false before true.
func FalseFirst(a, b bool) int {
	switch {
	case a == b:
		return 0
	case b:
		return -1
	}
	return 1
}

// offer is an entry as something to be bought.
func offer(e *Entry) value.Offer {
	return value.Offer{
		Name: e.Label, Cost: e.Cost.Usable.Value,
		Flow: quantity.CFM(e.Intake.Working.Value), U: quantity.CFM(e.Intake.WorkingU),
	}
}

// worth is what the shop says a cfm is worth, or what its own shelf asks for one.
func (f *family) worth(c *Comparison) Worth {
	if w := f.Worth; w.Known && w.Value.Amount.IsPositive() && (w.Value.Currency == "" || w.Value.Currency == f.currency()) {
		return Worth{PerCFM: w.Value.Float(), Known: true, Origin: "set by the shop"}
	}
	if w := f.Worth; w.Known {
		c.Problems.Add(source.Problem{At: w.Trace.At, Severity: source.Noted, Kind: "worth-not-usable", Family: f.Name, Found: w.Trace.Text,
			Message: "the worth of a cfm is not a positive amount in the shop's currency and is not used"})
	}
	var asDelivered []value.Offer
	for i := range c.Ranked {
		if e := &c.Ranked[i]; !slices.ContainsFunc(e.Cost.Lines, func(l CostLine) bool { return l.Kind == ReworkCost }) {
			asDelivered = append(asDelivered, offer(e))
		}
	}
	rate, ok, err := value.GoingRate(asDelivered)
	if err != nil || !ok {
		return Worth{Origin: "not set, and the shelf has no going rate: it takes four priced heads of which the dearer flow more"}
	}
	return Worth{PerCFM: float64(rate), Known: true, Origin: "going rate of the shelf (Theil-Sen slope)"}
}

// rank works out every value, orders the lists and gives the places.
func (f *family) rank(c *Comparison) {
	c.Worth = f.worth(c)
	f.valueBase(c)
	for _, entries := range [][]Entry{c.Ranked, c.BelowLine} {
		for i := range entries {
			f.values(&entries[i], c.Worth)
			entries[i].TiePrice = unknown("not placed: the supplier's own sheet")
		}
		slices.SortFunc(entries, byValue)
	}
	base := baseOf(c.Ranked)
	for _, entries := range [][]Entry{c.Ranked, c.BelowLine} {
		for i := range entries {
			perExtra(&entries[i], base)
		}
	}
	for i := range c.NotRanked {
		if e := c.NotRanked[i].Entry; e != nil && e.Intake.Working.Known && e.Cost.Usable.Known {
			f.values(e, c.Worth)
			perExtra(e, base)
		}
	}
	for _, entries := range [][]Entry{c.Unpriced, c.Advertised} {
		for i := range entries {
			e := &entries[i]
			e.Value = unknown("%s", cmp.Or(e.Cost.Missing, "claims are not valued"))
			e.PerCFM, e.PerExtra, e.TiePrice = e.Value, e.Value, e.Value
		}
	}
	if c.Worth.Known {
		f.places(c)
	}
	f.frontier(c)
	beatenBy(c.Ranked)
	f.tiePrices(c)
}

// byValue orders by value, then by flow, then by name. Where no worth is known
// it comes down to flow.
func byValue(a, b Entry) int {
	return cmp.Or(FalseFirst(!a.Value.Known, !b.Value.Known), cmp.Compare(b.Value.Value, a.Value.Value),
		cmp.Compare(b.Intake.Working.Value, a.Intake.Working.Value), cmp.Compare(a.Label, b.Label))
}

// values are value, its uncertainty, and dollars a cfm. A quoted price has no
// uncertainty.
func (f *family) values(e *Entry, w Worth) {
	if !e.Cost.Usable.Known {
		e.Value = unknown("%s", e.Cost.Missing)
		e.PerCFM = e.Value
		return
	}
	o := offer(e)
	rate, _, err := o.PerCFM()
	if err != nil {
		e.Value, e.PerCFM = unknown("%v", err), unknown("%v", err)
		return
	}
	e.PerCFM = known(float64(rate))
	if !w.Known {
		e.Value = unknown("worth of a cfm %s", w.Origin)
		return
	}
	score := o.At(value.Rate(w.PerCFM))
	e.Value, e.ValueU = known(score.Value), score.U
}

func baseOf(entries []Entry) *Entry {
	if i := slices.IndexFunc(entries, func(e Entry) bool { return e.IsBase }); i >= 0 {
		return &entries[i]
	}
	return nil
}

// valueBase says in plain words when extra cfm has no head to be counted from.
func (f *family) valueBase(c *Comparison) {
	if baseOf(c.Ranked) != nil {
		return
	}
	message := fmt.Sprintf("the base head %s is not ranked, so dollars per extra cfm are left out", f.BaseHead)
	if f.BaseHead == "" {
		message = "the setup names no base head, so dollars per extra cfm are left out"
	}
	c.Problems.Add(source.Problem{At: f.At, Severity: source.Noted, Kind: "no-base-head", Head: f.BaseHead, Family: f.Name,
		Message: message, Hint: "name a head that is ranked as the family's base"})
}

// perExtra is dollars for each cfm over the base head.
func perExtra(e, base *Entry) {
	switch {
	case base == nil:
		e.PerExtra = unknown("no base head is ranked")
	case e.Label == base.Label:
		e.PerExtra = unknown("base")
	case !e.Cost.Usable.Known:
		e.PerExtra = unknown("%s", e.Cost.Missing)
	default:
		rate, ok := offer(e).PerExtraCFM(offer(base))
		if !ok {
			e.PerExtra = unknown("flows no more than %s", base.Label)
			return
		}
		e.PerExtra = known(float64(rate))
	}
}

// frontier finds the heads that are the best buy for some worth of a cfm.
func (f *family) frontier(c *Comparison) {
	offers := make([]value.Offer, len(c.Ranked))
	for i := range c.Ranked {
		offers[i] = offer(&c.Ranked[i])
	}
	steps, err := value.Frontier(offers, 0)
	if err != nil {
		return
	}
	for k, s := range steps {
		e := &c.Ranked[s.Offer]
		best := Interval{From: float64(s.BestFrom), To: float64(s.BestTo)}
		if math.IsInf(best.To, 1) {
			best.To = -1
		}
		e.BestBuy = &best
		step := Step{Label: e.Label, Range: best, Margin: unknown("the cheapest"), Noise: !s.Distinct, Words: "the cheapest"}
		if k > 0 {
			step.Margin, step.U = known(float64(s.PerExtra)), float64(s.U)
			step.Words = f.stepWords(step, c.Frontier[k-1].Label)
		}
		c.Frontier = append(c.Frontier, step)
	}
}

// byCost orders entries by usable cost, then by falling flow, then by name.
func byCost(entries []Entry) []int {
	out := make([]int, len(entries))
	for i := range out {
		out[i] = i
	}
	slices.SortFunc(out, func(i, j int) int {
		a, b := &entries[i], &entries[j]
		return cmp.Or(a.Cost.Usable.Value.Amount.Cmp(b.Cost.Usable.Value.Amount),
			cmp.Compare(b.Intake.Working.Value, a.Intake.Working.Value), cmp.Compare(a.Label, b.Label))
	})
	return out
}

// mostNamed is how many heads a "beaten by" or "tied with" names.
const mostNamed = 8

// beatenBy names the heads that flow as much for as little, the best flowing
// first: at most mostNamed of them.
func beatenBy(entries []Entry) {
	var strongest []int // of the heads no dearer, by falling flow
	for _, i := range byCost(entries) {
		e := &entries[i]
		for _, j := range strongest {
			if value.Beaten(offer(e), offer(&entries[j])) {
				e.BeatenBy = append(e.BeatenBy, entries[j].Label)
			}
		}
		at, _ := slices.BinarySearchFunc(strongest, i, func(j, _ int) int {
			return cmp.Or(cmp.Compare(e.Intake.Working.Value, entries[j].Intake.Working.Value), 1)
		})
		if at < mostNamed {
			strongest = slices.Insert(strongest, at, i)
			strongest = strongest[:min(len(strongest), mostNamed)]
		}
	}
}

// tiePrices is for every head the sell price a set at which its value equals the
// leader's, and whether the shop could ever sell at it.
func (f *family) tiePrices(c *Comparison) {
	for i := range c.Ranked {
		e := &c.Ranked[i]
		switch {
		case !c.Worth.Known:
			e.TiePrice, e.TieMargin = e.Value, e.Value
			continue
		case i == 0:
			e.TiePrice, e.TieMargin = unknown("it leads"), unknown("it leads")
			continue
		}
		e.TieMargin = unknown("no landed cost")
		price, err := value.TiePrice(offer(e).Flow, besidePrice(e), offer(&c.Ranked[0]), value.Rate(c.Worth.PerCFM))
		if err != nil {
			e.TiePrice = unknown("%v", err)
			continue
		}
		e.TiePrice = known(price.Float())
		if earned, err := value.Earn(price, e.Cost.Landed.Value); err == nil && e.Cost.Landed.Known {
			e.TieMargin = known(earned.Margin)
		}
		switch landed := e.Cost.Landed; {
		case !landed.Known:
		case price.Float() < landed.Value.Float():
			e.TieBelow = BelowLanded
		default:
			e.TieBelow = AboveLanded
		}
	}
}
