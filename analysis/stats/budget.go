// Package stats says how far a figure can be trusted and which differences are
// real: the uncertainty of a working average, the chance that one head beats
// another, tied places and rank intervals.
package stats

import (
	"math"

	"flowshelf/analysis/curve"
	"flowshelf/analysis/quantity"
)

// RepeatabilityShare turns a repeatability limit r (two readings differ by more
// once in twenty times) into a standard deviation: s_r = r/2.8. Source: ISO
// 5725-6:1994, 4.1 (clause from memory).
const RepeatabilityShare = 1 / 2.8

// Conditions is where the uncertainty of one working average comes from. The
// relative ones are standard uncertainties as shares of the flow.
type Conditions struct {
	R          float64         // repeatability limit of one reading
	LiftZero   quantity.Length // standard uncertainty of the lift's zero, common to the set-up
	Casting    float64         // ports and castings of one part differ: see Casting
	Bench      float64         // calibration against the shop's bench
	Conversion float64         // from another test pressure
	Bore       float64         // from another bore
}

// DefaultConditions is r 1 %, lift zero 0.002 in and the casting's 1 % over the
// root of the ports tested, on the shop's own bench at the reference pressure
// and bore. Common practice, no source.
func DefaultConditions(ports int) Conditions {
	return Conditions{R: 0.01, LiftZero: quantity.Inches(0.002), Casting: portSpread / math.Sqrt(float64(max(ports, 1)))}
}

// portSpread is the relative standard deviation between the ports of one part
// when fewer than three were tested. Common practice, no source.
const portSpread = 0.01

// enoughPorts is the number of ports from which their own spread is used.
const enoughPorts = 3

// Casting returns the relative standard uncertainty of a head's mean from the
// means of k of its ports: s/sqrt(k) from three ports on, 1 %/sqrt(k) below. No
// port counts as one.
func Casting(ports []quantity.Flow) float64 {
	k := float64(len(ports))
	if len(ports) < enoughPorts {
		return portSpread / math.Sqrt(max(k, 1))
	}
	mean, squares := 0.0, 0.0
	for _, q := range ports {
		mean += q.CFM() / k
	}
	for _, q := range ports {
		squares += (q.CFM() - mean) * (q.CFM() - mean)
	}
	return math.Sqrt(squares/(k-1)) / mean / math.Sqrt(k)
}

// Budget is the uncertainty of one mean flow by component, each a standard
// uncertainty.
type Budget struct {
	Repeatability, LiftZero, Casting quantity.Flow
	Bench, Conversion, Bore          quantity.Flow
}

// MeanBudget returns the uncertainty of the mean of a curve over a lift window,
// and false when the curve has no part of it.
//
//	repeatability  sqrt(sum (w_i s_r q_i)^2), w_i the curve's weights
//	lift zero      (q(b) - q(a))/(b - a) times the zero's uncertainty
//	the others     their share of the mean
//
// a and b are the ends of the covered part. Source: JCGM 100:2008 (GUM), eq. 10.
func MeanBudget(c curve.Curve, from, to quantity.Length, k Conditions) (Budget, bool) {
	mean, coverage := c.Mean(from, to)
	if coverage == 0 {
		return Budget{}, false
	}
	var b Budget
	squares := 0.0
	readings := c.Readings()
	for i, w := range c.Weights(from, to) {
		u := w * k.R * RepeatabilityShare * readings[i].Flow.CFM()
		squares += u * u
	}
	b.Repeatability = quantity.CFM(math.Sqrt(squares))

	start, end := max(from, 0), min(to, c.Last().Lift)
	low, _ := c.At(start)
	high, _ := c.At(end)
	slope := float64(high-low) / float64(end-start)
	b.LiftZero = quantity.CFM(math.Abs(slope) * k.LiftZero.In())

	b.Casting = mean * quantity.Flow(k.Casting)
	b.Bench = mean * quantity.Flow(k.Bench)
	b.Conversion = mean * quantity.Flow(k.Conversion)
	b.Bore = mean * quantity.Flow(k.Bore)
	return b, true
}

// U returns the combined standard uncertainty, the root of the sum of squares.
func (b Budget) U() quantity.Flow { return b.Unshared(Shared{}) }

// Shared says which components two figures have in common, so that they cancel
// in the difference: the same bench, the same test pressure, the same bore.
type Shared struct{ Bench, Conversion, Bore bool }

// Unshared returns the combined standard uncertainty without the components
// shared with the figure it is compared to.
func (b Budget) Unshared(s Shared) quantity.Flow {
	parts := []quantity.Flow{b.Repeatability, b.LiftZero, b.Casting}
	if !s.Bench {
		parts = append(parts, b.Bench)
	}
	if !s.Conversion {
		parts = append(parts, b.Conversion)
	}
	if !s.Bore {
		parts = append(parts, b.Bore)
	}
	sum := 0.0
	for _, p := range parts {
		sum += float64(p * p)
	}
	return quantity.CFM(math.Sqrt(sum))
}

// RatioU returns a ratio a/b and its standard uncertainty from those of its
// independent parts: u(v)/v = sqrt((ua/a)^2 + (ub/b)^2), as dollars per cfm are
// made. NaN when a or b is zero. Source: JCGM 100:2008 (GUM), eq. 12.
func RatioU(a, ua, b, ub float64) (v, u float64) {
	if a == 0 || b == 0 {
		return math.NaN(), math.NaN()
	}
	v = a / b
	return v, math.Abs(v) * math.Hypot(ua/a, ub/b)
}
