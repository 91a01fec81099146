package curve_test

import (
	"math"
	"math/rand/v2"
	"testing"

	"pgregory.net/rapid"

	"flowshelf/analysis/curve"
	"flowshelf/analysis/quantity"
)

// relativeOnly is the noise without a floor in cfm.
func relativeOnly() curve.Noise { return curve.Noise{Relative: 0.01, Span: in(0.100)} }

type stallCase struct {
	name       string
	lifts      []float64
	flows      []float64
	status     curve.Status
	stall      float64 // in, or the last lift when not reached
	low        float64 // bracket
	support    int
	end, worst float64      // shares
	dips       [][2]float64 // lift, share
	confidence curve.Confidence
	jack       [2]float64
	words      string
}

func to700() []float64 { return []float64{.1, .2, .3, .4, .5, .6, .7} }

func fifties(from float64, n int) []float64 {
	l := []float64{.1, .2, .3}
	for i := range n {
		l = append(l, from+0.05*float64(i))
	}
	return l
}

// stallCases are curves whose verdict was reasoned out by hand.
func stallCases() []stallCase {
	return []stallCase{
		{name: "rising 7 % a step", lifts: to700(), flows: []float64{66, 131, 190, 240, 280, 310, 332},
			status: curve.Climbing, stall: .7, words: "still climbing"},
		{name: "flat top", lifts: to700(), flows: []float64{66, 131, 190, 240, 262, 263, 263.5},
			status: curve.LevelsOff, stall: .5, low: .4, support: 2, confidence: curve.Firm, jack: [2]float64{.5, .6}, words: "levels off from .500"},
		{name: "ends below its peak", lifts: to700(), flows: []float64{66, 131, 195, 245, 270, 262, 254},
			status: curve.BacksUp, stall: .5, low: .4, support: 2, end: 16. / 270, worst: 16. / 270,
			confidence: curve.Firm, jack: [2]float64{.5, .6}, words: "backs up from .500 (-16)"},
		{name: "dips and recovers", lifts: to700(), flows: []float64{66, 131, 195, 240, 233, 262, 274},
			status: curve.Climbing, stall: .7, dips: [][2]float64{{.5, 0.029166666666666667}}, words: "dips at .500 and recovers"},
		{name: "noise on a flat top", lifts: fifties(.35, 8), flows: []float64{66, 131, 190, 214, 236, 251, 258, 259.5, 257.2, 259.8, 258.1},
			status: curve.LevelsOff, stall: .5, low: .45, support: 4, end: 0.006543494996150841, worst: 0.006543494996150841, // its peak is at .650
			confidence: curve.Firm, jack: [2]float64{.5, .55}, words: "levels off from .500"},
		{name: "slow rise in fine steps", lifts: fifties(.4, 7), flows: []float64{66, 131, 190, 236, 250, 258, 260, 262.2, 264.4, 266.6},
			status: curve.Flattening, stall: .7, words: "still climbing, flattening"},
		{name: "the flat top on coarse steps", lifts: to700(), flows: []float64{66, 131, 190, 236, 258, 257.2, 258.1},
			status: curve.LevelsOff, stall: .5, low: .4, support: 2, confidence: curve.Firm, jack: [2]float64{.5, .6}, words: "levels off from .500"},
		{name: "one last reading down", lifts: []float64{.1, .2, .3, .4, .5, .55, .6, .65}, flows: []float64{66, 131, 195, 245, 278, 290, 297, 288},
			status: curve.BacksUp, stall: .6, low: .55, support: 1, end: 9. / 297, worst: 9. / 297,
			confidence: curve.Tentative, jack: [2]float64{.55, .6}, words: "backs up from .600 (-9)"},
		{name: "one flat half step", lifts: []float64{.1, .2, .3, .4, .5, .55, .6, .65}, flows: []float64{66, 131, 195, 245, 278, 290, 298, 300},
			status: curve.Flattening, stall: .65, words: "still climbing, flattening"},
		{name: "spike", lifts: fifties(.35, 8), flows: []float64{66, 131, 195, 220, 240, 268, 258, 262, 263, 263, 264},
			status: curve.BacksUp, stall: .45, low: .4, support: 5, end: 0.014925373134328358, worst: 0.03731343283582089,
			confidence: curve.Tentative, jack: [2]float64{.45, .55}, words: "backs up from .450 (-4)"},
		{name: "double hump", lifts: fifties(.4, 7), flows: []float64{66, 131, 195, 250, 247, 240, 248, 251, 251.5, 250},
			status: curve.LevelsOff, stall: .4, low: .3, support: 6, end: 0.005964214711729622, worst: 0.005964214711729622,
			dips:       [][2]float64{{.45, 0.012}, {.5, 0.04}},
			confidence: curve.Tentative, jack: [2]float64{.4, .6}, words: "dips at .500 and recovers"},
		{name: "stops at .400", lifts: to700()[:4], flows: []float64{66, 131, 195, 245},
			status: curve.Climbing, stall: .4, words: "still climbing"},
		{name: "two readings", lifts: []float64{.3, .5}, flows: []float64{195, 260},
			status: curve.TooFew, stall: .5, words: "can't say"},
		{name: "last step just counts", lifts: to700(), flows: []float64{66, 131, 195, 245, 262, 263, 266},
			status: curve.Climbing, stall: .7, words: "flat from .500 to .600, then creeps up"},
		{name: "partly recovers", lifts: []float64{.1, .2, .3, .4, .5, .55, .6, .65, .7}, flows: []float64{66, 131, 195, 250, 272, 262, 255, 262, 266},
			status: curve.BacksUp, stall: .5, low: .4, support: 4, end: 0.022058823529411766, worst: 0.0625,
			confidence: curve.Tentative, jack: [2]float64{.5, .5}, words: "backs up from .500 (-6)"},
	}
}

func TestStall(t *testing.T) {
	const tol = 1e-6
	for _, tt := range stallCases() {
		t.Run(tt.name, func(t *testing.T) {
			v := curve.Stall(points(tt.lifts, tt.flows...), relativeOnly())
			if v.Status != tt.status || v.Readings != len(tt.flows) {
				t.Fatalf("%v of %d readings, want %v", v.Status, v.Readings, tt.status)
			}
			reached := tt.status == curve.LevelsOff || tt.status == curve.BacksUp
			if v.Censored == reached {
				t.Errorf("censored %v", v.Censored)
			}
			near(t, "stall", v.StallLift.In(), tt.stall, tol)
			near(t, "bracket", v.BracketLow.In(), tt.low, tol)
			if v.Support != tt.support {
				t.Errorf("support %d, want %d", v.Support, tt.support)
			}
			near(t, "loss at the end", v.BacksUpEnd, tt.end, tol)
			near(t, "worst loss", v.BacksUpWorst, tt.worst, tol)
			if len(v.Dips) != len(tt.dips) {
				t.Fatalf("dips %+v", v.Dips)
			}
			for i, d := range v.Dips {
				near(t, "dip", d.At.Lift.In(), tt.dips[i][0], tol)
				near(t, "dip's share", d.Share(), tt.dips[i][1], tol)
			}
			if v.Confidence != tt.confidence {
				t.Errorf("%v, want %v", v.Confidence, tt.confidence)
			}
			near(t, "lowest without one", v.JackLow.In(), tt.jack[0], tol)
			near(t, "highest without one", v.JackHigh.In(), tt.jack[1], tol)
			if got := v.Words(); got != tt.words {
				t.Errorf("%q, want %q", got, tt.words)
			}
			// The floor of 2 cfm is below 1 % of these flows: same verdict.
			if got := curve.Stall(points(tt.lifts, tt.flows...), curve.DefaultNoise()).Words(); got != tt.words {
				t.Errorf("with a floor %q, want %q", got, tt.words)
			}
		})
	}
}

func TestShapeStall(t *testing.T) {
	for _, tt := range []struct {
		name  string
		flows []float64 // at .1, .2 ... .7
		want  float64   // 0: not reached
	}{
		{"climbing", []float64{66, 131, 190, 240, 280, 310, 332}, 0},
		{"levels off", []float64{66, 131, 190, 240, 262, 263, 263.5}, .5},
		{"backs up", []float64{66, 131, 195, 245, 270, 262, 254}, .5},
		{"dips", []float64{66, 131, 195, 240, 233, 262, 274}, .4},
		{"flat, then creeps up", []float64{66, 131, 195, 245, 262, 263, 266}, .5},
		{"flat below the stall", []float64{66, 131, 195, 250, 251, 262, 263}, .4},
	} {
		v := curve.Stall(points(to700(), tt.flows...), curve.DefaultNoise())
		lift, reached := v.ShapeStall()
		if reached != (tt.want > 0) {
			t.Errorf("%s: reached %v", tt.name, reached)
		}
		near(t, tt.name, lift.In(), tt.want, 1e-9)
	}
	if _, reached := curve.Stall(nil, curve.DefaultNoise()).ShapeStall(); reached {
		t.Error("no readings have a stall")
	}
}

func TestFlat(t *testing.T) {
	v := curve.Stall(points(fifties(.4, 7), 66, 131, 195, 240, 255, 262, 263, 262.5, 264, 270), curve.DefaultNoise())
	if v.Flat == nil {
		t.Fatal("no flat stretch")
	}
	near(t, "from", v.Flat.From.In(), .5, 1e-9)
	near(t, "to", v.Flat.To.In(), .65, 1e-9)
	near(t, "gain", v.Flat.Gain.CFM(), 8, 1e-9)
	if v := curve.Stall(generic(), curve.DefaultNoise()); v.Flat == nil || !v.Flat.From.Near(in(.6), 1e-9) {
		t.Errorf("flat stretch of the generic port: %+v", v.Flat)
	}
}

// TestFloor: at 100 cfm a change of 2 cfm is noise though it is 2 %.
func TestFloor(t *testing.T) {
	p := points([]float64{.1, .2, .3, .4, .5}, 40, 75, 95, 97, 96)
	if got := curve.Stall(p, curve.DefaultNoise()).Words(); got != "levels off from .300" {
		t.Errorf("with the floor: %q", got)
	}
	if got := curve.Stall(p, relativeOnly()).Words(); got != "backs up from .400 (-1)" {
		t.Errorf("without: %q", got)
	}
}

// TestStallByNoise: a port with a true flat top from .500, read with the noise
// its r says. The rule must find .500 and hardly ever say that it backs up or
// climbs.
func TestStallByNoise(t *testing.T) {
	const (
		runs         = 3000
		falseBacksUp = 0.08 // a flat top called backing up
		falseReached = 0.01 // a steady climb called flat
		near500      = 0.90 // share of the stalls within one step of .500
	)
	random := rand.New(rand.NewPCG(9, 10))
	sr := 0.01 / 2.8
	noisy := func(lifts, flows []float64) []curve.Point {
		p := points(lifts, flows...)
		for i := range p {
			p[i].Flow *= quantity.Flow(1 + sr*random.NormFloat64())
		}
		return p
	}
	for _, tt := range []struct {
		name  string
		lifts []float64
		flows []float64
		step  float64
	}{
		{".100 steps", to700(), []float64{66, 131, 190, 236, 258, 258, 258}, .1},
		{".050 steps", fifties(.35, 8), []float64{66, 131, 190, 214, 236, 250, 258, 258, 258, 258, 258}, .05},
	} {
		backs, reached, within := 0., 0., 0.
		for range runs {
			v := curve.Stall(noisy(tt.lifts, tt.flows), relativeOnly())
			if v.Status == curve.BacksUp {
				backs++
			}
			if !v.Censored {
				reached++
				if math.Abs(v.StallLift.In()-.5) <= tt.step+1e-9 {
					within++
				}
			}
		}
		t.Logf("%s: backs up %.3f, reached %.3f, within a step %.3f", tt.name, backs/runs, reached/runs, within/reached)
		if backs/runs > falseBacksUp {
			t.Errorf("%s: a flat top backs up in %.3f of the runs", tt.name, backs/runs)
		}
		if within/reached < near500 {
			t.Errorf("%s: the stall is within a step in %.3f of the runs", tt.name, within/reached)
		}
	}
	wrong := 0.
	for range runs {
		if v := curve.Stall(noisy(to700(), []float64{66, 131, 190, 240, 258, 268, 278}), relativeOnly()); !v.Censored {
			wrong++
		}
	}
	t.Logf("climbing 4 %% a step called flat: %.4f", wrong/runs)
	if wrong/runs > falseReached {
		t.Errorf("a climb is flat in %.4f of the runs", wrong/runs)
	}
}

// TestStallOfScaledFlows: other units or another test pressure do not move the
// stall where noise is relative.
func TestStallOfScaledFlows(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p := genPoints(t)
		scaled := make([]curve.Point, len(p))
		for i := range p {
			scaled[i] = curve.Point{Lift: p[i].Lift, Flow: p[i].Flow * 64} // exact in binary
		}
		// A floor of one part in a million of a cfm would be the only thing
		// that does not scale: keep away from exact borderlines.
		noise := curve.Noise{Relative: 0.0100037, Span: in(0.100)}
		a, b := curve.Stall(p, noise), curve.Stall(scaled, noise)
		if a.Status != b.Status || a.StallLift != b.StallLift || len(a.Dips) != len(b.Dips) || a.Confidence != b.Confidence {
			t.Fatalf("%+v became %+v", a, b)
		}
	})
}

// FuzzStall: no readings, however broken, make it panic or contradict itself.
func FuzzStall(f *testing.F) {
	f.Add(.1, 66., .2, 131., .3, 190., .4, 240., .01, 2., .1)
	f.Add(.5, 270., .6, 262., .6, 262., math.NaN(), -1., math.Inf(1), -5., math.NaN())
	f.Fuzz(func(t *testing.T, a, qa, b, qb, c, qc, d, qd, r, floor, span float64) {
		p := points([]float64{a, b, c, d, a + b, c * 2, b}, qa, qb, qc, qd, qa+qb, qc*2, qd)
		v := curve.Stall(p, curve.Noise{Relative: r, Floor: quantity.CFM(floor), Span: in(span)})
		if v.Words() == "" {
			t.Error("no words")
		}
		if lift, reached := v.ShapeStall(); reached && !(lift > 0) {
			t.Errorf("stall at %v", lift)
		}
		kept, rejected := curve.Usable(p)
		if len(kept)+len(rejected) > len(p) || v.Readings != len(kept) {
			t.Errorf("%d kept and %d rejected of %d", len(kept), len(rejected), len(p))
		}
		cv, err := curve.New(kept)
		if err != nil {
			return
		}
		if mean, share := cv.Mean(in(a), in(b)); share < 0 || share > 1 || mean < 0 {
			t.Errorf("mean %v, coverage %v", mean, share)
		}
		cv.Weights(in(a), in(b))
		cv.PeakIn(in(a), in(b))
		cv.Trapezoid(in(a), in(b))
		curve.OutOfLine(p)
	})
}

func BenchmarkStall(b *testing.B) {
	p := points(smallEightLifts(), 57, 114, 170, 212, 222, 226, 222, 228, 229)
	for b.Loop() {
		curve.Stall(p, curve.DefaultNoise())
	}
}

// TestCourse holds that a curve that keeps its peak within the noise before it
// falls is not said to fall from its stall on.
func TestCourse(t *testing.T) {
	for _, c := range []struct {
		lifts, flows []float64
		words        string
	}{
		{[]float64{.1, .2, .3, .4, .45, .5, .55, .6, .65}, []float64{58, 117, 174, 226, 248, 262, 264, 262, 257}, "flat from .500, backs up past .600 (-7)"},
		{to700(), []float64{66, 131, 195, 245, 270, 262, 254}, "backs up from .500 (-16)"},
		{to700(), []float64{66, 131, 190, 240, 280, 310, 332}, "still climbing"},
	} {
		var points []curve.Point
		for i := range c.lifts {
			points = append(points, curve.Point{Lift: in(c.lifts[i]), Flow: quantity.CFM(c.flows[i])})
		}
		noise := relativeOnly()
		noise.Floor = quantity.CFM(2)
		if got := curve.Stall(points, noise).Course(); got != c.words {
			t.Errorf("%q, want %q", got, c.words)
		}
	}
}
