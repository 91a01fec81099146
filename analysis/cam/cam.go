// Package cam weights a port's flow with the time the valve spends at each
// lift. It weights time alone, not the piston's speed: a figure of merit beside
// the plain average over lift, not a prediction.
package cam

import (
	"fmt"
	"math"

	"gonum.org/v1/gonum/integrate/quad"

	"flowshelf/analysis/curve"
	"flowshelf/analysis/quantity"
)

// Profile is the shape of the lift over crank angle. It moves the average by 2
// to 6 %, so one report uses one profile.
type Profile uint8

// The profiles, with u the crank angle from peak lift over half the duration,
// 0 at peak and 1 at the seat. Textbook shapes, not any maker's lobe.
const (
	// Harmonic is L = (Lm/2)(1 + cos(pi u)).
	Harmonic Profile = iota
	// Polynomial is L = Lm (1 - u^2)^2.
	Polynomial
)

// TimeAbove returns the share of the seat-to-seat time the valve spends above a
// fraction x of its peak lift: (2/pi) acos(sqrt x) for Harmonic, sqrt(1 - sqrt x)
// for Polynomial. It is also the u at which that lift is reached. x is held to
// 0..1; 1 at the seat, 0 at peak lift.
func (p Profile) TimeAbove(x float64) float64 {
	x = min(max(x, 0), 1)
	if p == Polynomial {
		return math.Sqrt(1 - math.Sqrt(x))
	}
	return 2 / math.Pi * math.Acos(math.Sqrt(x))
}

// fraction returns lift over peak lift at u.
func (p Profile) fraction(u float64) float64 {
	if p == Polynomial {
		v := 1 - u*u
		return v * v
	}
	return (1 + math.Cos(math.Pi*u)) / 2
}

// Weights returns the share of the seat-to-seat time nearest to each of the
// lifts, given in rising order: time between the midpoints of neighbours, from
// the seat to peak lift. The shares sum to 1.
func (p Profile) Weights(lifts []quantity.Length, peak quantity.Length) []float64 {
	if !(peak > 0) {
		return nil
	}
	weights := make([]float64, len(lifts))
	above := 1.0
	for i := range lifts {
		next := 0.0
		if i+1 < len(lifts) {
			next = p.TimeAbove(float64((lifts[i] + lifts[i+1]) / 2 / peak))
		}
		weights[i] = above - next
		above = next
	}
	return weights
}

// checkLift is the tappet lift that durations are stated at. Common practice.
const checkLift = 0.050

// Cam is one lobe through its rocker.
type Cam struct {
	Lobe    quantity.Length // lift at the tappet
	Rocker  float64         // ratio
	Profile Profile
}

// PeakLift returns the lift at the valve, lobe times ratio, without lash.
func (c Cam) PeakLift() quantity.Length { return c.Lobe * quantity.Length(c.Rocker) }

// at050 returns u at 0.050 in of tappet lift.
func (c Cam) at050() float64 { return c.Profile.TimeAbove(checkLift / c.Lobe.In()) }

// SeatDuration returns the seat-to-seat duration of the profile that has a
// duration between the 0.050 in points:
//
//	Harmonic    pi D50/acos(2*0.050/lobe - 1)
//	Polynomial  D50/sqrt(1 - sqrt(0.050/lobe))
//
// in the unit of D50; NaN for a lobe of 0.050 in or less.
func (c Cam) SeatDuration(d50Degrees float64) float64 {
	if !(c.Lobe.In() > checkLift) {
		return math.NaN()
	}
	return d50Degrees / c.at050()
}

// Over is the part of the opening that is averaged.
type Over uint8

// The parts.
const (
	Between050 Over = iota // between the 0.050 in tappet lift points
	SeatToSeat
)

// BeyondError says that the cam lifts the valve past the last reading of a
// curve that was still climbing there.
type BeyondError struct{ Peak, Last quantity.Length }

// Error says how far the readings go.
func (e BeyondError) Error() string {
	return fmt.Sprintf("the cam lifts to %.3f in, the readings end at %.3f in, still climbing", e.Peak.In(), e.Last.In())
}

// Mean returns the mean flow over the opening time,
//
//	(1/u_end) times the integral of q(L(u)) du from 0 to u_end,
//
// u_end 1 (seat to seat) or at 0.050 in of tappet lift. Above the last reading
// the flow there is held when the verdict says the port levels off or backs up;
// otherwise it is a BeyondError. The integral is taken piece by piece between
// the readings with 24-point Gauss-Legendre, good to about 1e-12.
func (c Cam) Mean(port curve.Curve, v curve.Verdict, over Over) (quantity.Flow, error) {
	peak := c.PeakLift()
	if !(peak > 0 && c.Rocker > 0) || (over == Between050 && !(c.Lobe.In() > checkLift)) {
		return 0, fmt.Errorf("lobe of %g in with ratio %g cannot be", c.Lobe.In(), c.Rocker)
	}
	last := port.Last()
	if last.Lift == 0 {
		return 0, curve.ErrNoReadings
	}
	if _, ok := port.At(peak); !ok && v.Status != curve.LevelsOff && v.Status != curve.BacksUp {
		return 0, BeyondError{Peak: peak, Last: last.Lift}
	}
	end := 1.0
	if over == Between050 {
		end = c.at050()
	}
	flow := func(u float64) float64 {
		q, ok := port.At(peak * quantity.Length(c.Profile.fraction(u)))
		if !ok {
			return last.Flow.CFM()
		}
		return q.CFM()
	}
	const nodes = 24
	sum, from := 0.0, 0.0
	for _, to := range c.breaks(port, end) {
		sum += quad.Fixed(flow, from, to, nodes, quad.Legendre{}, 0)
		from = to
	}
	return quantity.CFM(sum / end), nil
}

// breaks returns the u, rising to end, between which the flow is one smooth
// piece: where the lift passes a reading.
func (c Cam) breaks(port curve.Curve, end float64) []float64 {
	readings := port.Readings()
	var us []float64
	for i := len(readings) - 1; i >= 0; i-- {
		x := float64(readings[i].Lift / c.PeakLift())
		if u := c.Profile.TimeAbove(x); x < 1 && u < end {
			us = append(us, u)
		}
	}
	return append(us, end)
}
