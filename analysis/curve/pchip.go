package curve

import "math"

// slopes returns the slope at every x of the piecewise cubic through (x, y)
// that keeps the shape of the data: no overshoot, no invented peak.
//
// Inside, the Fritsch-Butland weighted harmonic mean of the two secants, zero
// where they differ in sign; at the ends the three-point formula, held to the
// secant's sign and, at a turn, to three times the secant. x must increase; a
// single point has slope zero, two have their secant's.
//
// Source: F. N. Fritsch and J. Butland, "A method for constructing local
// monotone piecewise cubic interpolants", SIAM J. Sci. Stat. Comput. 5 (1984)
// 300-304; ends as C. Moler, Numerical Computing with MATLAB (2004), 3.6 (from
// memory).
func slopes(x, y []float64) []float64 {
	n := len(x)
	d := make([]float64, n)
	switch n {
	case 0, 1:
		return d
	case 2:
		s := (y[1] - y[0]) / (x[1] - x[0])
		return []float64{s, s}
	}
	secant := func(i int) float64 { return (y[i+1] - y[i]) / (x[i+1] - x[i]) }
	for i := 1; i < n-1; i++ {
		left, right := secant(i-1), secant(i)
		if left == 0 || right == 0 || (left < 0) != (right < 0) {
			continue
		}
		hl, hr := x[i]-x[i-1], x[i+1]-x[i]
		wl, wr := 2*hr+hl, hr+2*hl
		d[i] = (wl + wr) / (wl/left + wr/right)
	}
	d[0] = endSlope(x[1]-x[0], x[2]-x[1], secant(0), secant(1))
	d[n-1] = endSlope(x[n-1]-x[n-2], x[n-2]-x[n-3], secant(n-2), secant(n-3))
	return d
}

// endSlope is the one-sided three-point slope at an end, where h and s are the
// width and secant of the end interval, h1 and s1 those of the next one in.
func endSlope(h, h1, s, s1 float64) float64 {
	d := ((2*h+h1)*s - h*s1) / (h + h1)
	switch {
	case d*s <= 0:
		return 0
	case s*s1 <= 0 && math.Abs(d) > 3*math.Abs(s):
		return 3 * s
	}
	return d
}

// interval is one cubic of the curve in Hermite form.
type interval struct{ x0, h, y0, y1, d0, d1 float64 }

func (c Curve) interval(i int) interval {
	return interval{c.x[i], c.x[i+1] - c.x[i], c.y[i], c.y[i+1], c.d[i], c.d[i+1]}
}

// value is the cubic at x.
func (v interval) value(x float64) float64 {
	s := (x - v.x0) / v.h
	r := 1 - s
	return v.y0*r*r*(1+2*s) + v.y1*s*s*(3-2*s) + v.h*s*r*(v.d0*r-v.d1*s)
}

// slope is the derivative of the cubic at x.
func (v interval) slope(x float64) float64 {
	s := (x - v.x0) / v.h
	r := 1 - s
	return 6*s*r*(v.y1-v.y0)/v.h + v.d0*r*(1-3*s) + v.d1*s*(3*s-2)
}

// integral is the area under the cubic from its left end to x; over the whole
// interval h(y0+y1)/2 + h^2(d0-d1)/12.
func (v interval) integral(x float64) float64 {
	s := (x - v.x0) / v.h
	s2 := s * s
	s3, s4 := s2*s, s2*s2
	return v.h * (v.y0*(s4/2-s3+s) + v.y1*(s3-s4/2) +
		v.h*(v.d0*(s4/4-2*s3/3+s2/2)+v.d1*(s4/4-s3/3)))
}
