package airflow

import (
	"errors"
	"fmt"
	"math"

	"flowshelf/analysis/quantity"
)

// Law is how flow is carried from one test pressure to another.
type Law uint8

// The laws.
const (
	// SquareRoot is the trade's: q2 = q1 sqrt(dp2/dp1), Bernoulli with constant
	// density and coefficient.
	SquareRoot Law = iota
	// Isentropic follows a nozzle in compressible flow, drawn from the open
	// air. A valve lies between it and SquareRoot.
	Isentropic
)

// String names the law.
func (l Law) String() string {
	return [...]string{"square root", "isentropic"}[l]
}

// Draught is which way the air goes through the port.
type Draught uint8

// The draughts.
const (
	// Suction draws air through the port from the open: intake tests. The flow
	// is the volume at the open, upstream side.
	Suction Draught = iota
	// Blow pushes air through the port into the open: exhaust tests. The flow
	// is the volume at the open, downstream side.
	Blow
)

// Limits of test pressures, in inH2O: outside them a conversion is refused.
// Common practice, no source.
const (
	lowestPressure  = 3
	highestPressure = 60
)

// farRatio is the pressure ratio beyond which a conversion is marked Far, up or
// down.
const farRatio = 2

// Change is a conversion from the pressure a port was tested at to another.
type Change struct {
	From, To quantity.Pressure
	Law      Law
	Draught  Draught
	Ambient  quantity.Pressure // of the open air; StandardAtmosphere when not known
}

// Factor is what a flow is multiplied by, and how far that can be trusted.
type Factor struct {
	By float64
	// U is the relative standard uncertainty of By: the largest error of the
	// square-root law for this change, taken as one-sided and rectangular.
	U float64
	// Far is set when the pressures differ by more than a factor of two: the
	// port's own coefficient drifts too, which no law here holds.
	Far bool
}

// ErrBlowIsentropic is returned for Isentropic with Blow: at the open air's
// density the square-root law is already within 0.3 % there.
var ErrBlowIsentropic = errors.New("isentropic law is for suction only")

// Factor returns the factor of the change. It is refused when either pressure
// is missing, not a number, below 3 or above 60 inH2O, and when the ambient
// pressure is not above both.
//
// U is b/sqrt3 with b the relative error of the square-root law against an
// isentropic nozzle (JCGM 100:2008, 4.3.7 for the rectangular distribution, clause from
// memory).
// Equal pressures give exactly 1 and no uncertainty.
func (c Change) Factor() (Factor, error) {
	for _, p := range []quantity.Pressure{c.From, c.To} {
		if !(p.InH2O() >= lowestPressure && p.InH2O() <= highestPressure) {
			return Factor{}, fmt.Errorf("test pressure of %g inH2O is outside %d to %d", p.InH2O(), lowestPressure, highestPressure)
		}
	}
	if !(c.Ambient > c.From && c.Ambient > c.To) || math.IsInf(c.Ambient.Pa(), 1) {
		return Factor{}, fmt.Errorf("ambient pressure of %g Pa cannot be", c.Ambient.Pa())
	}
	if c.Law == Isentropic && c.Draught == Blow {
		return Factor{}, ErrBlowIsentropic
	}
	ratio := float64(c.To / c.From)
	squareRoot := math.Sqrt(ratio)
	air := DryAir()
	// The bias of Bernoulli at either pressure; what is not common to both is
	// the error of the square-root law.
	bias := air.BernoulliBias(c.Draught, c.To, c.Ambient) / air.BernoulliBias(c.Draught, c.From, c.Ambient)
	f := Factor{
		By:  squareRoot,
		U:   math.Abs(bias-1) / math.Sqrt(3),
		Far: ratio > farRatio || ratio < 1/float64(farRatio),
	}
	if c.Law == Isentropic {
		f.By = squareRoot / bias
	}
	return f, nil
}

// BernoulliBias returns by how much Bernoulli's equation with the density of the
// open air overstates the mass flow of an isentropic nozzle at a pressure
// difference. Drawn from the open (upstream density) it is 1/eps, 1.039 at 28
// inH2O; blown into the open (downstream density) 1.0025. The temperature
// cancels. Domain 0 < dp < ambient; NaN outside.
func (g Gas) BernoulliBias(d Draught, drop, ambient quantity.Pressure) float64 {
	dp, p := drop.Pa(), ambient.Pa()
	if !(dp > 0 && dp < p) {
		return math.NaN()
	}
	up := p
	if d == Blow {
		up = p + dp
	}
	return math.Sqrt(2*dp*p) / (up * g.Psi((up-dp)/up))
}
