package bore_test

import (
	"math"
	"math/rand/v2"
	"testing"

	"flowshelf/analysis/bore"
	"flowshelf/analysis/curve"
	"flowshelf/analysis/quantity"
)

func eight(flows ...float64) []curve.Point { return points(tenths(8), flows) }

// vr49 is one head of an invented shop on two bores.
func vr49() (small, large bore.Tested) {
	return bore.Tested{Bore: in(4.250), Points: eight(73, 147, 217, 272, 309, 330, 339, 341)},
		bore.Tested{Bore: in(4.500), Points: eight(73, 149, 221, 280, 321, 345, 356, 359)}
}

func TestBetween(t *testing.T) {
	small, large := vr49()
	got, err := bore.Between(small, large, in(4.310))
	if err != nil {
		t.Fatal(err)
	}
	for i, want := range []float64{73, 147, 218, 274, 312, 334, 343, 345} {
		near(t, "flow at 4.310", got[i].Flow.CFM(), want, 0.5)
	}
	swapped, err := bore.Between(large, small, in(4.310))
	if err != nil {
		t.Fatal(err)
	}
	for i := range got {
		if got[i] != swapped[i] {
			t.Errorf("the order of the tests changes %v to %v", got[i], swapped[i])
		}
	}
	for bores, tested := range map[float64]bore.Tested{4.250: small, 4.500: large} {
		at, err := bore.Between(small, large, in(bores))
		if err != nil {
			t.Fatal(err)
		}
		for i := range at {
			near(t, "at its own bore", at[i].Flow.CFM(), tested.Points[i].Flow.CFM(), 1e-9)
		}
	}
	for name, reference := range map[string]float64{"below both": 4.2, "above both": 4.6, "not known": math.NaN()} {
		if _, err := bore.Between(small, large, in(reference)); err == nil {
			t.Errorf("%s: no error", name)
		}
	}
	if _, err := bore.Between(small, small, in(4.250)); err == nil {
		t.Error("one bore twice is no pair")
	}
	large.Points = large.Points[:2]
	if _, err := bore.Between(small, large, in(4.310)); err == nil {
		t.Error("two common lifts are enough")
	}
}

func TestSameClass(t *testing.T) {
	for tested, want := range map[float64]bool{4.030: true, 4.100: true, 3.960: true, 4.101: false, 3.959: false, 4.155: false, 0: false} {
		if got := bore.SameClass(in(tested), in(4.030)); got != want {
			t.Errorf("%g against 4.030: %v", tested, got)
		}
	}
}

// TestFitLambda: conjugate normal update, evaluated apart from this code.
func TestFitLambda(t *testing.T) {
	f := []float64{0, 0, 0.007247946534984973, 0.011283112395085053, 0.003535938698101524, 0.0010166264193418055, 1.29554321186891e-19}
	var seen []bore.Seen
	for i, pct := range []float64{0.1, 0.3, 0.6, 0.9, 0.7, 0.4, 0.2} {
		seen = append(seen, bore.Seen{Slope: f[i], LogRatio: math.Log1p(pct / 100)})
	}
	lambda, sd := bore.FitLambda(seen, 0.0050507627227610544)
	near(t, "lambda", lambda, 0.65398610634046, 1e-4)
	near(t, "sd", sd, 0.22662390294209656, 1e-5)
	lambda, sd = bore.FitLambda(nil, 0.005)
	near(t, "prior", lambda, 0.5, 1e-12)
	near(t, "prior sd", sd, 0.29, 1e-12)
}

// TestLambdaComesBack: a head made to lose lambda 0.8 of its blocked rim between
// two bores gives 0.8 back, within what its noise allows.
func TestLambdaComesBack(t *testing.T) {
	const truth = 0.8
	random := rand.New(rand.NewPCG(5, 6))
	sr := 0.01 / 2.8
	m := bore.Model{Chi: 2, Lambda: truth}
	v := bore.FromClearance(in(2.02), in(0.03), in(3.875))
	c := mustNew(t, generic())
	a, b := bore.Tested{Bore: in(3.875)}, bore.Tested{Bore: in(4.600)}
	const runs = 200
	sum, squares := 0.0, 0.0
	var sd float64
	for range runs {
		a.Points, b.Points = nil, nil
		for _, p := range c.Readings() {
			f, ok := m.Factor(c, v, a.Bore, b.Bore, p.Lift)
			if !ok {
				t.Fatal("no factor")
			}
			noise := func() quantity.Flow { return quantity.Flow(1 + sr*random.NormFloat64()) }
			a.Points = append(a.Points, curve.Point{Lift: p.Lift, Flow: p.Flow * noise()})
			b.Points = append(b.Points, curve.Point{Lift: p.Lift, Flow: p.Flow * quantity.Flow(f) * noise()})
		}
		seen, err := bore.DefaultModel().Pair(a, b, v)
		if err != nil {
			t.Fatal(err)
		}
		var lambda float64
		lambda, sd = bore.FitLambda(seen, math.Sqrt2*sr)
		sum += lambda
		squares += (lambda - truth) * (lambda - truth)
	}
	t.Logf("lambda %.3f, rms error %.3f, stated sd %.3f", sum/runs, math.Sqrt(squares/runs), sd)
	// The slope with lambda 1 is not quite linear in lambda: allow 0.1.
	near(t, "mean lambda", sum/runs, truth, 0.1)
}
