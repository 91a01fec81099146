package stats_test

import (
	"math"
	"testing"

	"flowshelf/analysis/curve"
	"flowshelf/analysis/quantity"
	"flowshelf/analysis/stats"
)

const (
	closedForm = 1e-9
	derivative = 1e-4 // numeric sensitivities
	draws      = 0.01 // absolute, on a probability from draws
)

// failer is what testing and rapid share.
type failer interface {
	Helper()
	Errorf(format string, args ...any)
}

func near(t failer, what string, got, want, rel float64) {
	t.Helper()
	if !(math.Abs(got-want) <= rel*math.Abs(want)) {
		t.Errorf("%s = %.12g, want %.12g", what, got, want)
	}
}

func nearAbs(t failer, what string, got, want, tol float64) {
	t.Helper()
	if !(math.Abs(got-want) <= tol) {
		t.Errorf("%s = %.12g, want %.12g within %g absolute", what, got, want, tol)
	}
}

func draw(t testing.TB, lifts []float64, flows ...float64) curve.Curve {
	t.Helper()
	var p []curve.Point
	for i, q := range flows {
		p = append(p, curve.Point{Lift: quantity.Inches(lifts[i]), Flow: quantity.CFM(q)})
	}
	c, err := curve.New(p)
	if err != nil {
		t.Fatal(err)
	}
	return c
}

func tenths() []float64 { return []float64{.1, .2, .3, .4, .5, .6, .7, .8} }

// TestMeanBudget: JCGM 100 (GUM) eq. 10 with numeric sensitivities of scipy's
// monotone cubics, a generic two-valve intake port.
func TestMeanBudget(t *testing.T) {
	c := draw(t, tenths(), 65, 130, 190, 232, 252, 256, 257)
	b, ok := stats.MeanBudget(c, quantity.Inches(.2), quantity.Inches(.6), stats.Conditions{
		R: 0.01, LiftZero: quantity.Inches(0.002), Bench: 0.01,
	})
	if !ok {
		t.Fatal("no budget")
	}
	near(t, "repeatability", b.Repeatability.CFM(), 0.38513974290015485, derivative)
	near(t, "lift zero", b.LiftZero.CFM(), 0.63, closedForm)
	near(t, "same bench", b.Unshared(stats.Shared{Bench: true}).CFM(), 0.7383986874048446, derivative)
	near(t, "with its calibration", b.U().CFM(), 2.30181652526991, derivative)

	if _, ok := stats.MeanBudget(c, quantity.Inches(.8), quantity.Inches(.9), stats.DefaultConditions(1)); ok {
		t.Error("a window off the curve has a budget")
	}
}

func TestBudgetParts(t *testing.T) {
	b := stats.Budget{Repeatability: 1, LiftZero: 2, Casting: 2, Bench: 4, Conversion: 6, Bore: 8}
	near(t, "all", b.U().CFM(), math.Sqrt(9+16+36+64), closedForm)
	near(t, "same conditions", b.Unshared(stats.Shared{Bench: true, Conversion: true, Bore: true}).CFM(), 3, closedForm)
	near(t, "same bore", b.Unshared(stats.Shared{Bore: true}).CFM(), math.Sqrt(9+16+36), closedForm)
}

func TestCasting(t *testing.T) {
	near(t, "one port", stats.Casting([]quantity.Flow{200}), 0.01, closedForm)
	near(t, "two ports", stats.Casting([]quantity.Flow{200, 230}), 0.01/math.Sqrt2, closedForm)
	near(t, "three ports: own spread", stats.Casting([]quantity.Flow{198, 200, 202}), 0.01/math.Sqrt(3), closedForm)
	near(t, "none said", stats.Casting(nil), 0.01, closedForm)
	near(t, "default", stats.DefaultConditions(2).Casting, 0.01/math.Sqrt2, closedForm)
}

func TestRatioU(t *testing.T) {
	v, u := stats.RatioU(1200, 0, 218.01666666666668, 0.7383986874048446)
	near(t, "ratio", v, 5.504166348138521, closedForm)
	near(t, "its u, JCGM 100 eq. 12", u, 0.01864201149785216, closedForm)
	if v, _ := stats.RatioU(1200, 0, 0, 1); !math.IsNaN(v) {
		t.Error("dollars per no cfm")
	}
}

// TestShelf: what a family of an invented shop can be told apart by. Values at
// $25 a cfm, usable costs as given, u in dollars worked out apart from this code;
// places are to come out 1, 2=, 2=, 2=, 2=, 6=, 6=, 8, 9.
func TestShelf(t *testing.T) {
	const worth, dollarTol = 25, 0.5
	lifts := []float64{.100, .200, .300, .400, .450, .500, .550, .600, .650}
	var scores []stats.Score
	for _, h := range []struct {
		name  string
		ports int
		cost  float64
		u     float64
		flows []float64
	}{
		{"LKC-12", 2, 1249, 41.7, []float64{68, 134, 190, 229, 240, 247, 250, 251, 250}},
		{"VR-84 valve job", 1, 1259, 53.5, []float64{66, 131, 184, 220, 231, 236, 234, 239, 240}},
		{"PW-33", 1, 1399, 56.4, []float64{58, 117, 173, 224, 248, 262, 264, 262, 257}},
		{"VR-84", 1, 999, 50.9, []float64{57, 114, 170, 212, 222, 226, 222, 228, 229}},
		{"VR-84 valve job + blend", 1, 1579, 56.0, []float64{68, 135, 190, 228, 240, 247, 251, 253, 253}},
		{"LKC-07", 2, 879, 34.7, []float64{60, 116, 164, 193, 200, 204, 205, 204, 203}},
		{"PW-31", 1, 1359, 52.6, []float64{61, 121, 174, 212, 226, 235, 240, 242, 240}},
		{"OB-4", 2, 2349, 46.3, []float64{70, 141, 204, 250, 264, 275, 282, 286, 288}},
		{"VR-81", 1, 2189, 57.7, []float64{67, 133, 190, 233, 247, 257, 263, 266, 267}},
	} {
		c := draw(t, lifts, h.flows...)
		from, to := quantity.Inches(.200), quantity.Inches(.560)
		mean, _ := c.Mean(from, to)
		b, ok := stats.MeanBudget(c, from, to, stats.DefaultConditions(h.ports))
		if !ok {
			t.Fatal("no budget")
		}
		nearAbs(t, h.name+" u", worth*b.U().CFM(), h.u, dollarTol)
		scores = append(scores, stats.Score{Value: worth*mean.CFM() - h.cost, U: worth * b.U().CFM()})
	}
	got := stats.Places(len(scores), stats.Independent(scores))
	want := []stats.Place{{1, false}, {2, true}, {2, true}, {2, true}, {2, true}, {6, true}, {6, true}, {8, false}, {9, false}}
	for i := range want {
		if got[i] != want[i] {
			t.Errorf("place %d: %+v, want %+v", i, got[i], want[i])
		}
	}
}
