// Package curve turns the readings of a flow sheet into a curve: shape-keeping
// interpolation between the readings, means and areas over a lift window, the
// peak, and the verdict on where the port stops gaining.
//
// A curve never leaves its readings. Below the first one it runs to the closed
// valve (no lift, no flow once the leak is taken off); beyond the last there is
// no answer, and every window figure says how much of the window it covers.
package curve

import (
	"cmp"
	"errors"
	"fmt"
	"math"
	"slices"

	"flowshelf/analysis/quantity"
)

// sameLift is the difference below which two lifts are one (1e-6 in): sheets
// give a thousandth of an inch, unit conversions blur the last binary digits.
const sameLift = 1e-6

// ErrNoReadings is returned by New when there is nothing to draw a curve through.
var ErrNoReadings = errors.New("no readings above zero lift")

// Point is one reading of a curve, or one point on it.
type Point struct {
	Lift quantity.Length
	Flow quantity.Flow
}

// Curve is the flow of one port over valve lift, through its readings. The zero
// value has no readings and covers nothing.
type Curve struct {
	x, y []float64 // lift in inches and flow in cfm; x[0] = y[0] = 0 is the closed valve
	d    []float64 // slope at each x, cfm/in
}

// New draws the curve through the readings. It sorts them, averages those taken
// at one lift, and starts at the closed valve (0, 0); a reading at no lift is
// the leak, not the port, and is left out. A reading that cannot be (a lift or
// flow that is not a number, a negative lift, no flow through an open valve) is
// an error: set such readings aside first, with Usable.
func New(points []Point) (Curve, error) {
	kept, rejected := Usable(points)
	for _, p := range rejected {
		if p.Lift != 0 {
			return Curve{}, fmt.Errorf("reading at %v in lift: flow of %v cfm cannot be", p.Lift.In(), p.Flow.CFM())
		}
	}
	if len(kept) == 0 {
		return Curve{}, ErrNoReadings
	}
	return through(kept), nil
}

// through draws the curve through readings that are usable, sorted and distinct.
func through(readings []Point) Curve {
	c := Curve{
		x: make([]float64, len(readings)+1),
		y: make([]float64, len(readings)+1),
	}
	for i, p := range readings {
		c.x[i+1], c.y[i+1] = p.Lift.In(), p.Flow.CFM()
	}
	c.d = slopes(c.x, c.y)
	return c
}

// Usable parts the readings a curve can be drawn through, sorted by lift and
// with those at one lift averaged, from those it cannot: no lift, a negative
// lift, no flow or a negative one, or not a number. The rejected ones keep
// their order.
func Usable(points []Point) (kept, rejected []Point) {
	for _, p := range points {
		if positive(p.Lift.In()) && positive(p.Flow.CFM()) {
			kept = append(kept, p)
		} else {
			rejected = append(rejected, p)
		}
	}
	return averageRepeats(kept), rejected
}

func positive(v float64) bool { return v > 0 && !math.IsInf(v, 1) }

// averageRepeats sorts the readings by lift and makes one reading of those
// within sameLift of the first of their run.
func averageRepeats(points []Point) []Point {
	slices.SortStableFunc(points, func(a, b Point) int {
		// Flow decides between equal lifts only so that the order in which
		// the readings came cannot change the last digit of their sum.
		if a.Lift != b.Lift {
			return cmp.Compare(a.Lift.In(), b.Lift.In())
		}
		return cmp.Compare(a.Flow.CFM(), b.Flow.CFM())
	})
	out := points[:0]
	for i := 0; i < len(points); {
		lift, sum, n := points[i].Lift, 0.0, 0
		for ; i < len(points) && points[i].Lift-lift <= sameLift; i++ {
			n++
			sum += (points[i].Flow.CFM() - sum) / float64(n)
		}
		out = append(out, Point{lift, quantity.CFM(sum)})
	}
	return out
}

// Readings returns the readings in order of lift, without the closed valve that
// New puts in front of them.
func (c Curve) Readings() []Point {
	if len(c.x) == 0 {
		return nil
	}
	points := make([]Point, len(c.x)-1)
	for i := range points {
		points[i] = c.at(i + 1)
	}
	return points
}

// First returns the reading at the lowest lift: between it and the closed valve
// the curve is drawn, not measured.
func (c Curve) First() Point {
	if len(c.x) == 0 {
		return Point{}
	}
	return c.at(1)
}

// Last returns the reading at the highest lift, where the curve ends.
func (c Curve) Last() Point {
	if len(c.x) == 0 {
		return Point{}
	}
	return c.at(len(c.x) - 1)
}

// Peak returns the largest reading, at the lowest lift where it occurs. The
// curve between the readings is never higher.
func (c Curve) Peak() Point {
	var peak Point
	for i := range c.x {
		if p := c.at(i); p.Flow > peak.Flow {
			peak = p
		}
	}
	return peak
}

func (c Curve) at(i int) Point {
	return Point{quantity.Inches(c.x[i]), quantity.CFM(c.y[i])}
}
