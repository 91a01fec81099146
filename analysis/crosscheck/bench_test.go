package crosscheck_test

import (
	"fmt"
	"math"
	"math/rand/v2"

	"flowshelf/analysis/airflow"
	"flowshelf/analysis/bench"
	"flowshelf/analysis/bore"
	"flowshelf/analysis/quantity"
	"flowshelf/analysis/stats"
)

func benchChecks() []check {
	return []check{
		// Far in the tail a relative difference says nothing: one in a million.
		{name: "beats", against: "scipy.stats.norm", tol: closedForm, floor: 1e-6, draw: beats},
		// scipy's quantile of Student's t is itself good to about 2e-9 only.
		{name: "paired benches", against: "scipy.stats.ttest_1samp", tol: 1e-8, floor: 1, draw: paired},
		{name: "compared benches", against: "numpy lstsq", tol: closedForm, floor: 1e-3, draw: compared},
		{name: "lambda", against: "numpy lstsq", tol: closedForm, floor: 1e-3, draw: lambda},
		// The standard rounds its table to one decimal.
		{name: "critical range", against: "scipy.stats.studentized_range", tol: 0.02, draw: criticalRange},
	}
}

func beats(r *rand.Rand) (in, out []float64) {
	a := stats.Score{Value: between(r, 200, 260), U: between(r, 0.1, 8)}
	b := stats.Score{Value: between(r, 200, 260), U: between(r, 0.1, 8)}
	rho := between(r, -0.9, 0.9)
	return []float64{a.Value, a.U, b.Value, b.U, rho}, []float64{stats.Beats(a, b, rho)}
}

func paired(r *rand.Rand) (in, out []float64) {
	var shop, other []quantity.Flow
	n := 2 + r.IntN(8)
	for range n {
		q := between(r, 150, 300)
		shop = append(shop, quantity.CFM(q))
		other = append(other, quantity.CFM(q*between(r, 0.97, 1.08)))
	}
	for _, q := range append(shop[:n:n], other...) {
		in = append(in, q.CFM())
	}
	p, err := bench.Pair(shop, other)
	if err != nil {
		panic(err) // the flows are drawn positive
	}
	low, high, _ := p.Interval()
	return in, []float64{p.MeanLog, p.SE, low, high}
}

// compared draws heads on four benches, every bench linked to the shop's.
func compared(r *rand.Rand) (in, out []float64) {
	const benches = 4
	var readings []bench.Reading
	heads := 6 + r.IntN(5)
	for h := range heads {
		q := between(r, 150, 300)
		for b := range benches {
			// The first heads were on the shop's bench and one other.
			read := r.IntN(3) > 0 || (h < benches-1 && (b == 0 || b == h+1)) || (h >= benches-1 && b == 0)
			if !read {
				in = append(in, 0)
				continue
			}
			mean := quantity.CFM(q * between(r, 0.96, 1.05))
			in = append(in, mean.CFM())
			readings = append(readings, bench.Reading{Head: fmt.Sprintf("%02d", h), Bench: fmt.Sprint(b), Mean: mean})
		}
	}
	fit, err := bench.Compare(readings, "0", bench.DefaultPrior())
	if err != nil {
		panic(err) // the flows are drawn positive, with the shop's
	}
	if fit.DOF < 2 {
		return compared(r) // no residuals to compare
	}
	for _, o := range fit.Offsets {
		out = append(out, o.Log)
	}
	for _, o := range fit.Offsets {
		out = append(out, o.SE)
	}
	for _, h := range fit.Heads {
		out = append(out, h.Mean.CFM())
	}
	return in, out
}

func lambda(r *rand.Rand) (in, out []float64) {
	sigma := between(r, 0.002, 0.01)
	var seen []bore.Seen
	for range 1 + r.IntN(8) {
		f := between(r, 0, 0.05)
		seen = append(seen, bore.Seen{Slope: f, LogRatio: f*between(r, 0, 1.2) + between(r, -0.005, 0.005)})
	}
	in = []float64{sigma}
	for _, s := range seen {
		in = append(in, s.Slope)
	}
	for _, s := range seen {
		in = append(in, s.LogRatio)
	}
	best, sd := bore.FitLambda(seen, sigma)
	return in, []float64{best, sd}
}

func criticalRange(r *rand.Rand) (in, out []float64) {
	n := 2 + r.IntN(9)
	readings := make([]quantity.Flow, n)
	for i := range readings {
		readings[i] = quantity.CFM(250)
	}
	rep, err := airflow.Average(readings, 0.028) // a repeatability s_r of 1 %
	if err != nil {
		panic(err) // two to ten equal readings
	}
	return []float64{float64(n)}, []float64{math.Round(rep.Limit*1e6) / 1e4}
}
