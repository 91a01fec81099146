package crosscheck_test

import (
	"math/rand/v2"
	"slices"

	"flowshelf/analysis/quantity"
	"flowshelf/analysis/value"
)

func tradeChecks() []check {
	return []check{
		{name: "theil-sen", against: "scipy.stats.theilslopes", tol: closedForm, floor: 1e-3, draw: theilSen},
		{name: "frontier", against: "scipy.spatial.ConvexHull", tol: closedForm, draw: frontier},
	}
}

func theilSen(r *rand.Rand) (in, out []float64) {
	n := 3 + r.IntN(12)
	x, y := make([]float64, n), make([]float64, n)
	for i := range x {
		x[i], y[i] = between(r, 150, 260), between(r, 400, 3000)
	}
	slope, ok := value.TheilSen(x, y)
	if !ok {
		panic("no slope between different flows")
	}
	return append(x[:n:n], y...), []float64{slope}
}

func frontier(r *rand.Rand) (in, out []float64) {
	n := 4 + r.IntN(12)
	offers := make([]value.Offer, n)
	for i := range offers {
		offers[i] = value.Offer{Cost: quantity.Dollars(float64(400 + r.IntN(3000))), Flow: quantity.CFM(between(r, 150, 260))}
		in = append(in, offers[i].Flow.CFM())
	}
	for _, o := range offers {
		in = append(in, o.Cost.Float())
	}
	steps, err := value.Frontier(offers, 0)
	if err != nil {
		panic(err) // costs and flows are drawn positive
	}
	member, rates := make([]float64, n), []float64{}
	for i, s := range steps {
		member[s.Offer] = 1
		if i > 0 {
			rates = append(rates, float64(s.PerExtra))
		}
	}
	return in, slices.Concat(member, rates)
}
