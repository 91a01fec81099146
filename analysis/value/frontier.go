package value

import (
	"cmp"
	"math"
	"slices"

	"github.com/shopspring/decimal"

	"flowshelf/analysis/quantity"
	"flowshelf/analysis/stats"
)

// byCost orders the indices of offers by cost, then by falling flow, then as
// given.
func byCost(offers []Offer) []int {
	order := make([]int, len(offers))
	for i := range order {
		order[i] = i
	}
	slices.SortStableFunc(order, func(a, b int) int {
		return cmp.Or(offers[a].Cost.Amount.Cmp(offers[b].Cost.Amount), cmp.Compare(offers[b].Flow, offers[a].Flow))
	})
	return order
}

// Beaten reports whether b beats a outright: it costs no more and flows no less,
// and one of the two strictly.
func Beaten(a, b Offer) bool {
	c := b.Cost.Amount.Cmp(a.Cost.Amount)
	return c <= 0 && b.Flow >= a.Flow && (c < 0 || b.Flow > a.Flow)
}

// Pareto returns the indices of the offers that nobody beats outright, by rising
// cost. Equal offers all stay. It takes as long as sorting them.
func Pareto(offers []Offer) ([]int, error) {
	if err := checkAll(offers); err != nil {
		return nil, err
	}
	var out []int
	var last decimal.Decimal
	cheaper := quantity.Flow(math.Inf(-1)) // the most that an offer for less money flows
	most := cheaper                        // the most at or below this cost
	for k, i := range byCost(offers) {
		o := offers[i]
		if k == 0 || o.Cost.Amount.Cmp(last) > 0 {
			cheaper, last = most, o.Cost.Amount
		}
		// Within one cost the best flow comes first.
		if o.Flow > cheaper && o.Flow >= most {
			out = append(out, i)
		}
		most = max(most, o.Flow)
	}
	return out, nil
}

// Step is one offer of the efficient frontier.
type Step struct {
	Offer int // index into the offers
	// PerExtra is what each cfm over the step before costs, U its standard
	// uncertainty; both zero for the first step, which is the cheapest.
	PerExtra, U Rate
	// Distinct is false when the flow gained over the step before may be
	// noise: the chance that it is real is below stats.Level.
	Distinct bool
	// BestFrom and BestTo are the worths of a cfm between which this offer is
	// the best buy, zero and infinite at the ends.
	BestFrom, BestTo Rate
}

// sameRate is the relative difference below which two steps cost the same, so
// that three offers on one line do not hang on their last binary digit.
const sameRate = 1e-9

// Frontier returns the efficient frontier of the offers that flow at least so
// much: the Pareto set by rising cost, without those whose next cfm costs no
// less than the one after (extended dominance), which leaves the lower convex
// hull of cost over flow with rising dollars an extra cfm. Each offer on it is
// the best buy while a cfm is worth more than its own step and less than the
// next one. Of equal offers the first stands.
//
// Source: the incremental cost-effectiveness method of health economics, PMC
// 4626430.
func Frontier(offers []Offer, atLeast quantity.Flow) ([]Step, error) {
	pareto, err := Pareto(offers)
	if err != nil {
		return nil, err
	}
	var hull []int
	for _, i := range pareto {
		o := offers[i]
		if o.Flow < atLeast || (len(hull) > 0 && o.Flow <= offers[hull[len(hull)-1]].Flow) {
			continue // too small, or the equal of the one before
		}
		for n := len(hull); n >= 2; n = len(hull) {
			before, _ := offers[hull[n-1]].PerExtraCFM(offers[hull[n-2]])
			after, _ := o.PerExtraCFM(offers[hull[n-1]])
			if before < after*(1-sameRate) {
				break
			}
			hull = hull[:n-1]
		}
		hull = append(hull, i)
	}
	return steps(offers, hull), nil
}

func steps(offers []Offer, hull []int) []Step {
	out := make([]Step, len(hull))
	for k, i := range hull {
		out[k] = Step{Offer: i, Distinct: true, BestTo: Rate(math.Inf(1))}
		if k == 0 {
			continue
		}
		o, before := offers[i], offers[hull[k-1]]
		rate, _ := o.PerExtraCFM(before)
		spread := math.Hypot(o.U.CFM(), before.U.CFM())
		gained := stats.Beats(stats.Score{Value: o.Flow.CFM(), U: o.U.CFM()},
			stats.Score{Value: before.Flow.CFM(), U: before.U.CFM()}, 0)
		out[k].PerExtra = rate
		out[k].U = Rate(math.Abs(float64(rate)) * spread / (o.Flow - before.Flow).CFM())
		out[k].Distinct = gained >= stats.Level
		out[k].BestFrom, out[k-1].BestTo = rate, rate
	}
	return out
}
