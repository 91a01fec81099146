package curve_test

import (
	"math"
	"testing"

	"flowshelf/analysis/curve"
	"flowshelf/analysis/quantity"
)

// Tolerances on figures worked out apart from this code (with a spreadsheet's
// or scipy's monotone cubics) and printed to one or two decimals.
const (
	meanTol   = 0.1  // cfm
	areaTol   = 0.02 // cfm·in
	peakTol   = 0.1  // cfm
	pointsTol = 0.2  // shape points
)

// points pairs lifts in inches with flows in cfm.
func points(lifts []float64, flows ...float64) []curve.Point {
	p := make([]curve.Point, len(flows))
	for i, q := range flows {
		p[i] = curve.Point{Lift: quantity.Inches(lifts[i]), Flow: quantity.CFM(q)}
	}
	return p
}

// mustNew draws a curve or fails the test.
func mustNew(t testing.TB, p []curve.Point) curve.Curve {
	t.Helper()
	c, err := curve.New(p)
	if err != nil {
		t.Fatalf("New: %v", err)
	}
	return c
}

// near reports a difference beyond an absolute tolerance.
func near(t testing.TB, what string, got, want, tol float64) {
	t.Helper()
	if !(math.Abs(got-want) <= tol) {
		t.Errorf("%s = %.12g, want %.12g within %g", what, got, want, tol)
	}
}

func smallEightLifts() []float64 {
	return []float64{.100, .200, .300, .400, .450, .500, .550, .600, .650}
}

func largeEightLifts() []float64 { return []float64{.1, .2, .3, .4, .5, .6, .7, .8} }

func millimetres(mm ...float64) []float64 {
	in := make([]float64, len(mm))
	for i, v := range mm {
		in[i] = quantity.Millimetres(v).In()
	}
	return in
}

// litresAt60mbar brings litres a second at 60 mbar to cfm at 28 inH2O by the
// square-root law.
func litresAt60mbar(flows ...float64) []float64 {
	out := make([]float64, len(flows))
	for i, v := range flows {
		out[i] = quantity.LitresPerSecond(v).CFM() * math.Sqrt(28/quantity.Millibars(60).InH2O())
	}
	return out
}

func meanOf(a, b []float64) []float64 {
	out := make([]float64, len(a))
	for i := range a {
		out[i] = (a[i] + b[i]) / 2
	}
	return out
}

// between brings a head tested on two bores to one between them, ln q linear in
// the bore.
func between(bore, bore1 float64, q1 []float64, bore2 float64, q2 []float64) []float64 {
	out := make([]float64, len(q1))
	for i := range q1 {
		out[i] = q1[i] * math.Pow(q2[i]/q1[i], (bore-bore1)/(bore2-bore1))
	}
	return out
}

// shelf is a family of an invented shop: its windows, its score's anchors, its
// heads and what is known of each.
type shelf struct {
	name              string
	from, to          float64 // working range, in
	bandFrom, bandTo  float64 // mid-lift band, in
	midLow, midHigh   float64 // anchors of the mid-lift points, cfm
	peakLow, peakHigh float64 // anchors of the peak points, cfm
	heads             []shelfHead
}

type shelfHead struct {
	name           string
	points         []curve.Point
	working, mid   float64
	area, peak     float64 // NaN where no figure is printed
	words          string
	stallPts, shap float64
}

var none = math.NaN()

func shelves() []shelf {
	se, le := smallEightLifts(), largeEightLifts()
	td := millimetres(2, 4, 6, 8, 10, 12)
	return []shelf{
		{"Small Eight", .200, .560, .300, .500, 160, 260, 190, 300, []shelfHead{
			{"LKC-12", points(se, 68, 134, 190, 229, 240, 247, 250, 251, 250),
				211.96, 225.23, 45.05, 250.3, "levels off from .550", 94.0, 71.8},
			{"VR-84 valve job", points(se, 66, 131, 184, 220, 231, 236, 234, 239, 240),
				203.64, 216.71, 43.34, 236.0, "still climbing, flattening", 100, 66.7},
			{"PW-33", points(se, 58, 117, 173, 224, 248, 262, 264, 262, 257),
				207.95, 222.61, 44.52, 264.0, "backs up from .500 (-7)", 64.3, 64.0},
			{"VR-84 as delivered", points(se, 57, 114, 170, 212, 222, 226, 222, 228, 229),
				191.89, 206.94, 41.39, 226.0, "dips at .550 and recovers", 64.3, 49.3},
			{"VR-84 valve job + blend", points(se, 68, 135, 190, 228, 240, 247, 251, 253, 253),
				211.95, 224.74, 44.95, 251.5, "levels off from .550", 94.0, 71.8},
			{"LKC-07", points(se, 60, 116, 164, 193, 200, 204, 205, 204, 203),
				178.80, 189.78, 37.96, 205.0, "levels off from .500", 64.3, 36.9},
			{"PW-31", points(se, 61, 121, 174, 212, 226, 235, 240, 242, 240),
				197.39, 209.59, 41.92, 240.6, "levels off from .550", 94.0, 62.2},
			{"OB-4", points(se, 70, 141, 204, 250, 264, 275, 282, 286, 288),
				231.52, 246.10, 49.22, 283.0, "still climbing, flattening", 100, 90.0},
			{"VR-81", points(se, 67, 133, 190, 233, 247, 257, 263, 266, 267),
				216.17, 229.60, 45.92, 263.8, "still climbing, flattening", 100, 78.2},
		}},
		{"Large Eight", .200, .700, .350, .600, 200, 360, 250, 400, []shelfHead{
			{"VR-49", points(le, between(4.310,
				4.250, []float64{73, 147, 217, 272, 309, 330, 339, 341},
				4.500, []float64{73, 149, 221, 280, 321, 345, 356, 359})...),
				277.64, 299.6, none, 343.0, "levels off from .700", none, 73.5},
			{"LKC-41", points(le, 62, 125, 182, 226, 252, 264, 266),
				224.90, 243.09, none, 266.0, "levels off from .600", none, 31.3},
			{"OB-44", points(le, meanOf(
				[]float64{78, 155, 229, 291, 334, 358, 369, 373},
				[]float64{77, 152, 223, 281, 321, 343, 353, 356})...),
				290.60, 313.96, none, 361.0, "levels off from .700", none, 80.4},
			{"PW-46 with .200 = 143", points(le, 71, 143, 212, 268, 307, 326, 331, 329),
				271.17, none, none, none, "levels off from .700", none, none},
			{"PW-46 with .200 = 243", points(le, 71, 243, 212, 268, 307, 326, 331, 329),
				280.0, none, none, none, "dips at .300 and recovers", none, none},
		}},
		{"Opposed Four", .100, .433, .200, .350, 90, 160, 120, 180, []shelfHead{
			{"LKC-90", points([]float64{.1, .2, .3, .4, .45, .5}, 53, 100, 131, 147, 151, 153),
				115.11, 123.20, none, none, "still climbing, flattening", 100, 63.7},
			{"TD-22", points(td, litresAt60mbar(18.8, 36.8, 51.2, 60.8, 65.7, 67.4)...),
				118.70, 127.49, none, none, "still climbing", 100, 67.7},
			{"TD-26", points(td, litresAt60mbar(19.6, 38.5, 54.6, 65.0, 68.2, 67.0)...),
				125.12, 136.05, none, none, "backs up from .394 (-3)", none, 65.7},
		}},
	}
}

func within01(v float64) float64 { return min(max(v, 0), 1) }

// TestShelf holds every head of the invented shop to figures worked out apart
// from this code: averages, area, peak, verdict and shape points.
func TestShelf(t *testing.T) {
	for _, s := range shelves() {
		from, to := quantity.Inches(s.from), quantity.Inches(s.to)
		for _, h := range s.heads {
			t.Run(s.name+"/"+h.name, func(t *testing.T) {
				c := mustNew(t, h.points)
				check := func(what string, got, want, tol float64) {
					t.Helper()
					if !math.IsNaN(want) {
						near(t, what, got, want, tol)
					}
				}
				working, coverage := c.Mean(from, to)
				near(t, "coverage", coverage, 1, 0)
				mid, _ := c.Mean(quantity.Inches(s.bandFrom), quantity.Inches(s.bandTo))
				area, _ := c.Area(quantity.Inches(s.bandFrom), quantity.Inches(s.bandTo))
				peak, ok := c.PeakIn(from, to)
				if !ok {
					t.Fatal("no peak in the working range")
				}
				check("working average", working.CFM(), h.working, meanTol)
				check("mid-lift average", mid.CFM(), h.mid, meanTol)
				check("mid-lift area", area, h.area, areaTol)
				check("peak in range", peak.Flow.CFM(), h.peak, peakTol)

				v := curve.Stall(h.points, curve.DefaultNoise())
				if got := v.Words(); got != h.words {
					t.Errorf("verdict %q, want %q", got, h.words)
				}
				stall := 1.0
				if lift, reached := v.ShapeStall(); reached {
					stall = within01((lift.In()/s.to - 0.70) / 0.30)
				}
				check("stall points", 100*stall, h.stallPts, pointsTol)
				shape := 50*within01((mid.CFM()-s.midLow)/(s.midHigh-s.midLow)) + 30*stall +
					20*within01((peak.Flow.CFM()-s.peakLow)/(s.peakHigh-s.peakLow))
				check("shape score", shape, h.shap, pointsTol)
			})
		}
	}
}

// TestSaggingBench: a bench that ran out of air above .600 and wrote down the
// pressure it reached. Brought to 28 inH2O row by row the long port still
// climbs and the mean of the two levels off; as read both look stalled.
func TestSaggingBench(t *testing.T) {
	pressures := []float64{28, 28, 28, 28, 28, 27, 25.5, 24}
	long := []float64{78, 155, 229, 291, 334, 352, 352, 345}
	short := []float64{77, 152, 223, 281, 321, 337, 337, 330}
	corrected := func(as []float64) []float64 {
		out := make([]float64, len(as))
		for i := range as {
			out[i] = as[i] * math.Sqrt(28/pressures[i])
		}
		return out
	}
	for _, tt := range []struct {
		name  string
		flows []float64
		want  string
	}{
		{"as read", long, "backs up from .600 (-7)"},
		{"long port", corrected(long), "still climbing"},
		{"mean", meanOf(corrected(long), corrected(short)), "levels off from .700"},
	} {
		got := curve.Stall(points(largeEightLifts(), tt.flows...), curve.DefaultNoise()).Words()
		if got != tt.want {
			t.Errorf("%s: %q, want %q", tt.name, got, tt.want)
		}
	}
}
