package bore_test

import (
	"errors"
	"math"
	"testing"

	"pgregory.net/rapid"

	"flowshelf/analysis/bore"
	"flowshelf/analysis/curve"
	"flowshelf/analysis/quantity"
)

const (
	exact   = 1e-12
	openTol = 2e-5 // absolute, on the open share of the rim
	factor  = 5e-5 // absolute
	meanTol = 5e-5 // absolute, on a ratio
	percent = 0.02 // absolute, printed to two decimals of a percent
)

// failer is what testing and rapid share.
type failer interface {
	Helper()
	Errorf(format string, args ...any)
}

func near(t failer, what string, got, want, tol float64) {
	t.Helper()
	if !(math.Abs(got-want) <= tol) {
		t.Errorf("%s = %.10g, want %.10g within %g", what, got, want, tol)
	}
}

func in(x float64) quantity.Length { return quantity.Inches(x) }

func points(lifts, flows []float64) []curve.Point {
	p := make([]curve.Point, len(flows))
	for i := range flows {
		p[i] = curve.Point{Lift: in(lifts[i]), Flow: quantity.CFM(flows[i])}
	}
	return p
}

func tenths(n int) []float64 {
	l := make([]float64, n)
	for i := range l {
		l[i] = float64(i+1) / 10
	}
	return l
}

// generic is an ordinary 2.02 in two-valve intake port.
func generic() []curve.Point {
	return points(tenths(7), []float64{65, 130, 190, 232, 252, 256, 257})
}

func mustNew(t testing.TB, p []curve.Point) curve.Curve {
	t.Helper()
	c, err := curve.New(p)
	if err != nil {
		t.Fatal(err)
	}
	return c
}

// TestOpen: the same integral by adaptive quadrature (scipy quad).
func TestOpen(t *testing.T) {
	m := bore.DefaultModel()
	for _, tt := range []struct{ lift, valve, bore, offset, want float64 }{
		{0.4, 2.02, 4.0, 0.87, 0.9607428958831224},
		{0.4, 2.02, 4.06, 0.87, 0.9848941293192688},
		{0.3, 2.08, 4.0, 0.9, 0.9288085795013169},
		{0.5, 2.02, 3.875, 0.9, 0.829656940126414},
	} {
		v := bore.Valve{Diameter: in(tt.valve), Offset: in(tt.offset)}
		near(t, "open share", m.Open(v, in(tt.lift), in(tt.bore)), tt.want, openTol)
	}
	v := bore.FromClearance(in(2.02), in(0.12), in(4))
	near(t, "offset", v.Offset.In(), 0.87, exact)
	near(t, "clearance there", v.Clearance(in(4)).In(), 0.12, exact)
	near(t, "clearance in a larger bore", v.Clearance(in(4.06)).In(), 0.15, exact)
	near(t, "no lift", m.Open(v, 0, in(4)), 1, 0)
	if !math.IsNaN(m.Open(v, in(0.3), in(3.7))) {
		t.Error("a valve through the wall is open")
	}
	// A valve that leans toward the bore axis as it opens moves off the wall.
	leaning := v
	leaning.TiltDegrees = 15
	if m.Open(leaning, in(0.5), in(4)) <= m.Open(v, in(0.5), in(4)) {
		t.Error("a leaning valve is as shrouded as an upright one")
	}
}

func TestElasticity(t *testing.T) {
	c := mustNew(t, generic())
	for i, want := range []float64{1, 0.96, 0.7801857585139318, 0.46718576195773087, 0.13227513227513232, 0.0375, 0} {
		got, ok := bore.Elasticity(c, in(float64(i+1)/10))
		if !ok {
			t.Fatal("off the curve")
		}
		near(t, "elasticity", got, want, 1e-5)
	}
	if _, ok := bore.Elasticity(c, in(0.8)); ok {
		t.Error("beyond the readings")
	}
}

// TestFactor: the model evaluated apart from this code.
func TestFactor(t *testing.T) {
	for _, tt := range []struct {
		from, to, gap float64
		want          []float64
		mean          float64
	}{
		{4, 4.06, 0.09, []float64{1, 1.0009092350519542, 1.0105032226799529, 1.007266271061935, 1.0020868730709278, 1.0005833983806698, 1}, 1.0051000757551627},
		{4, 4.06, 0.12, []float64{1, 1, 1.0036390213432032, 1.005735743718231, 1.0018194508826868, 1.0005297640086765, 1}, 1.0029769464392972},
		{4, 4.06, 0.20, []float64{1, 1, 1, 1, 1.0005492590545038, 1.0003375993305346, 1}, 1.000219374962976},
		{3.875, 4.03, 0.03, []float64{1.0117325800573786, 1.0383607457353123, 1.039266661053786, 1.0229766673841576, 1.0061970538089016, 1.0016788333905005, 1}, 1.0199391962253819},
		{4, 4, 0.12, []float64{1, 1, 1, 1, 1, 1, 1}, 1},
	} {
		c := mustNew(t, generic())
		v := bore.FromClearance(in(2.02), in(tt.gap), in(tt.from))
		var moved []curve.Point
		for i, p := range c.Readings() {
			f, ok := bore.DefaultModel().Factor(c, v, in(tt.from), in(tt.to), p.Lift)
			if !ok {
				t.Fatal("no factor")
			}
			near(t, "factor", f, tt.want[i], factor)
			moved = append(moved, curve.Point{Lift: p.Lift, Flow: p.Flow * quantity.Flow(f)})
		}
		before, _ := c.Mean(in(.2), in(.6))
		after, _ := mustNew(t, moved).Mean(in(.2), in(.6))
		near(t, "ratio of means", float64(after/before), tt.mean, meanTol)
	}
}

// TestEstimateTable: the change of the mean from 4.000 to 4.060 in by wall gap,
// in percent.
func TestEstimateTable(t *testing.T) {
	for gap, want := range map[float64]float64{0.20: 0.02, 0.15: 0.14, 0.12: 0.30, 0.09: 0.51, 0.06: 0.73, 0.02: 0.94} {
		v := bore.FromClearance(in(2.02), in(gap), in(4))
		est, err := bore.DefaultModel().EstimateIntake(generic(), v, in(4), in(4.06), in(.2), in(.6))
		if err != nil {
			t.Fatal(err)
		}
		near(t, "change of the mean, %", 100*(est.Mean-1), want, percent)
		near(t, "its uncertainty", est.U, math.Hypot(0.58*(est.Mean-1), 0.003), exact)
	}
}

func TestEstimateRefused(t *testing.T) {
	v := bore.FromClearance(in(2.02), in(0.09), in(4))
	m := bore.DefaultModel()
	for _, tt := range []struct {
		name     string
		valve    bore.Valve
		from, to float64
		points   []curve.Point
		want     bore.Why
	}{
		{"valve not known", bore.Valve{}, 4, 4.06, generic(), bore.ValveNotKnown},
		{"bore not known", v, 0, 4.06, generic(), bore.BoreNotKnown},
		{"step over 3 %", v, 4, 4.13, generic(), bore.StepTooLarge},
		{"wall too near", bore.FromClearance(in(2.02), in(0.019), in(4)), 4, 4.06, generic(), bore.GapTooSmall},
		{"wall too near in the smaller bore", bore.FromClearance(in(2.02), in(0.02), in(4.06)), 4.06, 3.95, generic(), bore.GapTooSmall},
		{"no readings", v, 4, 4.06, nil, bore.NoCurve},
		{"window beyond", v, 4, 4.06, generic()[:1], bore.NoCurve},
	} {
		_, err := m.EstimateIntake(tt.points, tt.valve, in(tt.from), in(tt.to), in(.2), in(.6))
		var refusal bore.Refusal
		if !errors.As(err, &refusal) || refusal.Why != tt.want {
			t.Errorf("%s: %v", tt.name, err)
		}
	}
	// All the blocked rim lost, a narrow gap and a small valve's low lifts move
	// too far.
	hard := bore.Model{Chi: 1, Lambda: 1}
	_, err := hard.EstimateIntake(generic(), bore.FromClearance(in(2.02), in(0.02), in(4)), in(4), in(4.11), in(.2), in(.6))
	var refusal bore.Refusal
	if !errors.As(err, &refusal) || refusal.Why != bore.FactorTooLarge {
		t.Errorf("factor over 5 %%: %v", err)
	}
}

// TestFactorBounded: rises with the bore, 1 for equal bores, |ln F| at most
// -ln(1 - lambda).
func TestFactorBounded(t *testing.T) {
	c := mustNew(t, generic())
	rapid.Check(t, func(t *rapid.T) {
		m := bore.Model{Chi: rapid.Float64Range(0.5, 3).Draw(t, "chi"), Lambda: rapid.Float64Range(0, 0.9).Draw(t, "lambda")}
		v := bore.FromClearance(in(2.02), in(rapid.Float64Range(0, 0.3).Draw(t, "gap")), in(4))
		lift := in(rapid.Float64Range(0.01, 0.7).Draw(t, "lift"))
		to := in(4 + rapid.Float64Range(0, 0.4).Draw(t, "more"))
		f, ok := m.Factor(c, v, in(4), to, lift)
		if !ok {
			t.Fatal("no factor")
		}
		further, ok := m.Factor(c, v, in(4), to+in(0.05), lift)
		if !ok {
			t.Fatal("no factor")
		}
		if f < 1-1e-12 || further < f-1e-12 {
			t.Fatalf("factor %g, then %g in a larger bore", f, further)
		}
		if math.Log(further) > -math.Log(1-m.Lambda)+1e-9 {
			t.Fatalf("factor %g is out of bounds", further)
		}
	})
}
