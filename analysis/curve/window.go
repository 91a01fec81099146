package curve

import (
	"math"
	"sort"

	"flowshelf/analysis/quantity"
)

// At returns the flow at a lift, and false outside the curve: there is no
// extrapolation. From the closed valve to First the answer leans on the valve
// flowing nothing when shut.
func (c Curve) At(lift quantity.Length) (quantity.Flow, bool) {
	x, ok := c.within(lift)
	if !ok {
		return 0, false
	}
	return quantity.CFM(c.interval(c.find(x)).value(x)), true
}

// Slope returns dq/dL at a lift in cfm per inch, and false outside the curve.
func (c Curve) Slope(lift quantity.Length) (cfmPerIn float64, ok bool) {
	x, ok := c.within(lift)
	if !ok {
		return 0, false
	}
	return c.interval(c.find(x)).slope(x), true
}

// within returns the lift in inches, and false when it is off the curve. A lift
// past the end by rounding only is the end.
func (c Curve) within(lift quantity.Length) (float64, bool) {
	x := lift.In()
	if len(c.x) == 0 || !(x >= 0 && x <= c.x[len(c.x)-1]+sameLift) {
		return 0, false
	}
	return math.Min(x, c.x[len(c.x)-1]), true
}

// find returns the interval that holds x, which must be on the curve.
func (c Curve) find(x float64) int {
	i := sort.SearchFloat64s(c.x, x)
	return min(max(i-1, 0), len(c.x)-2)
}

// covered cuts a window to the curve and returns the part of it that remains,
// zero for an empty or reversed window.
func (c Curve) covered(from, to quantity.Length) (a, b, share float64) {
	if len(c.x) == 0 || !(from < to) || math.IsInf(to.In()-from.In(), 1) {
		return 0, 0, 0
	}
	a = math.Max(from.In(), 0)
	b = math.Min(to.In(), c.x[len(c.x)-1])
	if a >= b {
		return 0, 0, 0
	}
	if math.Abs(b-to.In()) <= sameLift && a == from.In() {
		return a, b, 1
	}
	return a, b, (b - a) / (to.In() - from.In())
}

// area is the integral of the curve from its start to x, in cfm·in.
func (c Curve) area(x float64) float64 {
	sum := 0.0
	last := c.find(x)
	for i := range last {
		v := c.interval(i)
		sum += v.integral(c.x[i+1])
	}
	return sum + c.interval(last).integral(x)
}

// Area returns the area under the curve over a lift window, in cfm·in, and the
// share of the window the curve covers. Only the covered part is in the area;
// coverage zero (a window off the curve, empty or reversed) has no area.
//
// The integral of the interpolating cubics is exact, so it does not depend on
// the steps of the sheet as a plain average of its rows does.
func (c Curve) Area(from, to quantity.Length) (cfmIn, coverage float64) {
	a, b, share := c.covered(from, to)
	if share == 0 {
		return 0, 0
	}
	return c.area(b) - c.area(a), share
}

// Mean returns the mean flow over a lift window, (1/(b-a)) times the integral
// of q from a to b, and the share of the window the curve covers. The mean is
// that of the covered part: rank only what covers (nearly) all of its window.
// With coverage zero there is no mean.
func (c Curve) Mean(from, to quantity.Length) (mean quantity.Flow, coverage float64) {
	a, b, share := c.covered(from, to)
	if share == 0 {
		return 0, 0
	}
	return quantity.CFM((c.area(b) - c.area(a)) / (b - a)), share
}

// PeakIn returns the highest point of the curve on a range, ends included, at
// the lowest lift where it occurs, and false when the curve has no part of the
// range. Between readings the curve is monotone, so the highest point is a
// reading or an end of the range.
func (c Curve) PeakIn(from, to quantity.Length) (Point, bool) {
	a, b, share := c.covered(from, to)
	if share == 0 {
		return Point{}, false
	}
	peak := Point{quantity.Inches(a), quantity.CFM(c.interval(c.find(a)).value(a))}
	for i, x := range c.x {
		if x > a && x < b && c.y[i] > peak.Flow.CFM() {
			peak = c.at(i)
		}
	}
	if end := c.interval(c.find(b)).value(b); end > peak.Flow.CFM() {
		peak = Point{quantity.Inches(b), quantity.CFM(end)}
	}
	return peak, true
}

// weightStep is the half step of the numeric derivative in Weights, in cfm:
// small against any reading, large against its last binary digit.
const weightStep = 1e-4

// Weights returns d mean / d reading over a window for each of Readings: how
// much one cubic foot a minute at that lift moves the mean, by central
// differences. Random errors u_i of the readings give the mean an uncertainty
// of sqrt(sum (w_i u_i)^2). Nil when the window is off the curve.
//
// Where two neighbouring readings are equal the slope rule has a kink and the
// weight is the mean of those on its two sides.
//
// Source: JCGM 100:2008 (GUM), 5.1.3 note 2 for the numeric derivative.
func (c Curve) Weights(from, to quantity.Length) []float64 {
	if _, _, share := c.covered(from, to); share == 0 {
		return nil
	}
	weights := make([]float64, len(c.x)-1)
	moved := Curve{x: c.x, y: make([]float64, len(c.y))}
	meanWith := func(i int, flow float64) float64 {
		copy(moved.y, c.y)
		moved.y[i] = flow
		moved.d = slopes(moved.x, moved.y)
		m, _ := moved.Mean(from, to)
		return m.CFM()
	}
	for i := range weights {
		q := c.y[i+1]
		weights[i] = (meanWith(i+1, q+weightStep) - meanWith(i+1, q-weightStep)) / (2 * weightStep)
	}
	return weights
}
