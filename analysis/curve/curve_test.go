package curve_test

import (
	"errors"
	"math"
	"slices"
	"testing"

	"github.com/google/go-cmp/cmp"
	"gonum.org/v1/gonum/interp"
	"pgregory.net/rapid"

	"flowshelf/analysis/curve"
	"flowshelf/analysis/quantity"
)

// closedForm is a relative tolerance on figures quoted to all digits.
const closedForm = 1e-9

// rel reports a relative difference beyond closedForm, absolute below 1.
func rel(t testing.TB, what string, got, want float64) {
	t.Helper()
	near(t, what, got, want, closedForm*math.Max(1, math.Abs(want)))
}

func in(x float64) quantity.Length { return quantity.Inches(x) }

// generic is an ordinary 2.02 in two-valve intake port; fine is one with uneven
// steps that backs up.
func generic() []curve.Point {
	return points([]float64{.1, .2, .3, .4, .5, .6, .7}, 65, 130, 190, 232, 252, 256, 257)
}

func fine() []curve.Point {
	return points([]float64{.05, .1, .2, .3, .35, .4, .5, .55, .6, .7}, 31, 66, 131, 189, 212, 230, 251, 255, 252, 248)
}

// TestMean: scipy PchipInterpolator(...).integrate over the window's width.
func TestMean(t *testing.T) {
	for _, tt := range []struct {
		name           string
		points         []curve.Point
		from, to       float64
		mean, coverage float64
	}{
		{"generic", generic(), 0.2, 0.6, 218.01666666666665, 1},
		{"generic", generic(), 0.3, 0.7, 241.90441176470588, 1},
		{"generic between readings", generic(), 0.25, 0.55, 223.81549564270156, 1},
		{"fine", fine(), 0.2, 0.6, 216.89064621854519, 1},
		{"fine", fine(), 0.3, 0.7, 239.1222085226607, 1},
		{"past the last reading", generic(), 0.3, 0.8, 241.90441176470588, 0.8},
	} {
		c := mustNew(t, tt.points)
		mean, coverage := c.Mean(in(tt.from), in(tt.to))
		rel(t, tt.name+" mean", mean.CFM(), tt.mean)
		rel(t, tt.name+" coverage", coverage, tt.coverage)
		area, share := c.Area(in(tt.from), in(tt.to))
		rel(t, tt.name+" area", area, tt.mean*tt.coverage*(tt.to-tt.from))
		rel(t, tt.name+" area's coverage", share, tt.coverage)
	}
}

func TestAt(t *testing.T) {
	c := mustNew(t, generic())
	q, ok := c.At(in(0.45))
	if !ok {
		t.Fatal("no flow at .450")
	}
	rel(t, "flow at .450", q.CFM(), 244.55376344086022) // scipy
	for _, p := range generic() {
		q, ok := c.At(p.Lift)
		if !ok {
			t.Fatalf("no flow at %v", p.Lift)
		}
		rel(t, "flow at a reading", q.CFM(), p.Flow.CFM())
	}
	if q, ok := c.At(0); !ok || q != 0 {
		t.Errorf("a closed valve flows %v, %v", q, ok)
	}
	for _, lift := range []float64{-0.1, 0.701, 5, math.NaN(), math.Inf(1)} {
		if q, ok := c.At(in(lift)); ok {
			t.Errorf("%v at %g: extrapolated", q, lift)
		}
	}
}

// TestSlopes: the slopes of scipy's PchipInterpolator.
func TestSlopes(t *testing.T) {
	for _, tt := range []struct {
		points []curve.Point
		want   []float64
	}{
		{generic(), []float64{650, 650, 624, 494.1176470588, 270.9677419355, 66.6666666667, 16, 0}},
		{fine(), []float64{580, 657.5757575757576, 676.8595041322315, 613.0081300813008, 506.5822784810127,
			403.9024390243901, 273.25301204819266, 110.36496350364956, 0, -49.09090909090913, -26.66666666666662}},
	} {
		c := mustNew(t, tt.points)
		lifts := []quantity.Length{0}
		for _, p := range tt.points {
			lifts = append(lifts, p.Lift)
		}
		for i, lift := range lifts {
			got, ok := c.Slope(lift)
			if !ok {
				t.Fatal("off the curve")
			}
			rel(t, "slope", got, tt.want[i])
		}
	}
	if _, ok := mustNew(t, generic()).Slope(in(.8)); ok {
		t.Error("a slope beyond the readings")
	}
}

// TestWeights: numeric sensitivities of scipy's mean over .200 to .600.
func TestWeights(t *testing.T) {
	got := mustNew(t, generic()).Weights(in(0.2), in(0.6))
	for i, want := range []float64{-.0096, .1233, .2613, .25, .2517, .15, -.0267} {
		near(t, "weight", got[i], want, 6e-5)
	}
	if w := mustNew(t, generic()).Weights(in(0.8), in(0.9)); w != nil {
		t.Errorf("weights off the curve: %v", w)
	}
}

func TestNew(t *testing.T) {
	c := mustNew(t, points([]float64{.3, .1, .2, .2, 0}, 190, 65, 129, 131, 2.5))
	want := points([]float64{.1, .2, .3}, 65, 130, 190)
	if d := cmp.Diff(want, c.Readings()); d != "" {
		t.Errorf("readings (-want +got):\n%s", d)
	}
	if c.First() != want[0] || c.Last() != want[2] || c.Peak() != want[2] {
		t.Errorf("first %v, last %v, peak %v", c.First(), c.Last(), c.Peak())
	}
	for name, p := range map[string]curve.Point{
		"no flow through an open valve": {Lift: in(.2)},
		"negative flow":                 {Lift: in(.2), Flow: -5},
		"negative lift":                 {Lift: in(-.2), Flow: 100},
		"lift not a number":             {Lift: in(math.NaN()), Flow: 100},
		"endless flow":                  {Lift: in(.2), Flow: quantity.CFM(math.Inf(1))},
	} {
		if _, err := curve.New(append(generic(), p)); err == nil {
			t.Errorf("%s: no error", name)
		}
		kept, rejected := curve.Usable(append(generic(), p))
		if len(kept) != 7 || len(rejected) != 1 {
			t.Errorf("%s: kept %d, rejected %d", name, len(kept), len(rejected))
		}
	}
	for name, p := range map[string][]curve.Point{"nothing": nil, "only the leak": {{Flow: 2}}} {
		if _, err := curve.New(p); !errors.Is(err, curve.ErrNoReadings) {
			t.Errorf("%s: %v", name, err)
		}
	}
}

// TestNothing: the zero curve and windows without a part of the curve answer
// "nothing", not a number.
func TestNothing(t *testing.T) {
	var zero curve.Curve
	for name, c := range map[string]curve.Curve{"zero curve": zero, "curve": mustNew(t, generic())} {
		for window, w := range map[string][2]float64{
			"beyond": {.8, .9}, "reversed": {.5, .3}, "empty": {.3, .3}, "negative": {-.5, -.1},
			"not a number": {math.NaN(), .5}, "endless": {0, math.Inf(1)},
		} {
			mean, share := c.Mean(in(w[0]), in(w[1]))
			area, areaShare := c.Area(in(w[0]), in(w[1]))
			_, peak := c.PeakIn(in(w[0]), in(w[1]))
			if mean != 0 || share != 0 || area != 0 || areaShare != 0 || peak || c.Weights(in(w[0]), in(w[1])) != nil {
				t.Errorf("%s, %s window: mean %v, share %v", name, window, mean, share)
			}
		}
	}
	if zero.Readings() != nil || zero.Last() != (curve.Point{}) || zero.First() != (curve.Point{}) || zero.Peak() != (curve.Point{}) {
		t.Error("the zero curve has readings")
	}
	if _, ok := zero.At(0); ok {
		t.Error("the zero curve has a flow")
	}
}

func TestPeakIn(t *testing.T) {
	c := mustNew(t, fine())
	for _, tt := range []struct {
		name              string
		from, to, lift, q float64
	}{
		{"inside", .2, .7, .55, 255}, {"at the start", .6, .7, .6, 252}, {"at the end", .2, .4, .4, 230},
		{"past the curve", .5, .9, .55, 255},
	} {
		got, ok := c.PeakIn(in(tt.from), in(tt.to))
		if !ok {
			t.Fatal(tt.name)
		}
		near(t, tt.name+" lift", got.Lift.In(), tt.lift, 1e-12)
		near(t, tt.name+" flow", got.Flow.CFM(), tt.q, 1e-9)
	}
	flat := mustNew(t, points([]float64{.1, .2, .3}, 100, 150, 150))
	if got, _ := flat.PeakIn(in(.1), in(.3)); !got.Lift.Near(in(.2), 1e-9) {
		t.Errorf("the lowest lift of a flat top is .200, got %v", got.Lift)
	}
}

// genPoints draws a sheet of distinct lifts in steps of .010 in and tenths of a
// cfm.
func genPoints(t *rapid.T) []curve.Point {
	var lifts, flows []float64
	lift := 0
	for range rapid.IntRange(1, 14).Draw(t, "n") {
		lift += rapid.IntRange(1, 15).Draw(t, "step")
		lifts = append(lifts, float64(lift)/100)
		flows = append(flows, float64(rapid.IntRange(1, 4000).Draw(t, "flow"))/10)
	}
	return points(lifts, flows...)
}

// TestSameAsGonum: values and slopes of gonum's FritschButland, another library.
func TestSameAsGonum(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p := genPoints(t)
		x, y := []float64{0}, []float64{0}
		for _, r := range p {
			x, y = append(x, r.Lift.In()), append(y, r.Flow.CFM())
		}
		var oracle interp.FritschButland
		if err := oracle.Fit(x, y); err != nil {
			t.Fatal(err)
		}
		c, err := curve.New(p)
		if err != nil {
			t.Fatal(err)
		}
		at := rapid.Float64Range(0, x[len(x)-1]).Draw(t, "lift")
		q, ok := c.At(in(at))
		if !ok {
			t.Fatal("off the curve")
		}
		if d := math.Abs(q.CFM() - oracle.Predict(at)); d > 1e-9 {
			t.Fatalf("%g off at %g", d, at)
		}
	})
}

// TestOrderAndRepeats: the order of the readings does not matter, nor does a
// reading taken twice with the same result.
func TestOrderAndRepeats(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p := genPoints(t)
		shuffled := rapid.Permutation(append(slices.Clone(p), p[0])).Draw(t, "shuffled")
		a, err1 := curve.New(p)
		b, err2 := curve.New(shuffled)
		if err1 != nil || err2 != nil {
			t.Fatal(err1, err2)
		}
		if d := cmp.Diff(a.Readings(), b.Readings()); d != "" {
			t.Fatal(d)
		}
		va, vb := curve.Stall(p, curve.DefaultNoise()), curve.Stall(shuffled, curve.DefaultNoise())
		if d := cmp.Diff(va, vb); d != "" {
			t.Fatal(d)
		}
	})
}

// TestReadingOnALine: an extra reading on a straight stretch leaves the area.
func TestReadingOnALine(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		slope := rapid.Float64Range(100, 800).Draw(t, "slope")
		var lifts, flows []float64
		for i := range rapid.IntRange(3, 8).Draw(t, "n") {
			lifts = append(lifts, float64(i+1)/10)
			flows = append(flows, slope*float64(i+1)/10)
		}
		c, err := curve.New(points(lifts, flows...))
		if err != nil {
			t.Fatal(err)
		}
		extra := rapid.Float64Range(0.01, lifts[len(lifts)-1]).Draw(t, "extra")
		more, err := curve.New(points(append(slices.Clone(lifts), extra), append(slices.Clone(flows), slope*extra)...))
		if err != nil {
			t.Fatal(err)
		}
		a, _ := c.Area(0, in(lifts[len(lifts)-1]))
		b, _ := more.Area(0, in(lifts[len(lifts)-1]))
		if math.Abs(a-b) > 1e-9*a {
			t.Fatalf("area %g became %g", a, b)
		}
	})
}

// TestShapeKept: the curve stays between the readings of its interval, and the
// mean between the lowest and the highest of its window.
func TestShapeKept(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p := genPoints(t)
		c, err := curve.New(p)
		if err != nil {
			t.Fatal(err)
		}
		i := rapid.IntRange(0, len(p)-1).Draw(t, "interval")
		left := curve.Point{}
		if i > 0 {
			left = p[i-1]
		}
		s := quantity.Length(rapid.Float64Range(0, 1).Draw(t, "s"))
		q, ok := c.At(left.Lift + s*(p[i].Lift-left.Lift))
		if !ok {
			t.Fatal("off the curve")
		}
		low, high := min(left.Flow, p[i].Flow), max(left.Flow, p[i].Flow)
		if q < low-1e-9 || q > high+1e-9 {
			t.Fatalf("%g outside %g to %g", q, low, high)
		}
		peak, ok := c.PeakIn(0, c.Last().Lift)
		mean, _ := c.Mean(0, c.Last().Lift)
		if !ok || peak != c.Peak() || mean > peak.Flow || mean <= 0 {
			t.Fatalf("mean %g, peak %v", mean, peak)
		}
	})
}

// TestMeanIsAdditive: two neighbouring windows make the whole.
func TestMeanIsAdditive(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		c, err := curve.New(genPoints(t))
		if err != nil {
			t.Fatal(err)
		}
		end := c.Last().Lift
		a := quantity.Length(rapid.Float64Range(0, 0.5).Draw(t, "a")) * end
		b := a + quantity.Length(rapid.Float64Range(0.01, 0.99).Draw(t, "b"))*(end-a)
		left, _ := c.Area(a, b)
		right, _ := c.Area(b, end)
		whole, _ := c.Area(a, end)
		if math.Abs(left+right-whole) > 1e-9*(1+whole) {
			t.Fatalf("%g + %g is not %g", left, right, whole)
		}
	})
}

func BenchmarkMean(b *testing.B) {
	c := mustNew(b, fine())
	for b.Loop() {
		c.Mean(in(.2), in(.56))
	}
}

func BenchmarkNew(b *testing.B) {
	p := fine()
	for b.Loop() {
		if _, err := curve.New(p); err != nil {
			b.Fatal(err)
		}
	}
}
