package bore

import (
	"fmt"
	"math"

	"flowshelf/analysis/curve"
	"flowshelf/analysis/quantity"
)

// Limits of the estimate. Common practice, no source: outside them the model
// would carry more than it can.
const (
	largestStep   = 0.03                  // |dB|/B
	smallestGap   = quantity.Length(0.02) // valve to wall, at both bores
	largestFactor = 0.05                  // |F - 1| at any lift of the window
)

// lambdaSpread makes u(F-1) of |F-1|: lambda uniform on 0..1 about 0.5 has a
// relative standard uncertainty of (1/sqrt12)/0.5.
const lambdaSpread = 0.58

// Why says what an estimate was refused for.
type Why uint8

// The refusals.
const (
	ValveNotKnown Why = iota + 1
	BoreNotKnown
	StepTooLarge
	GapTooSmall
	FactorTooLarge
	NoCurve
)

// Refusal is the error of an estimate that is not made.
type Refusal struct {
	Why    Why
	Detail string
}

// Error says why.
func (r Refusal) Error() string { return r.Detail }

// Estimate is a port's curve brought to another bore by the shrouding model.
type Estimate struct {
	Points  []curve.Point
	Factors []float64 // one for each of Points
	// Mean is the factor of the window's mean flow, and U its relative standard
	// uncertainty, sqrt((0.58 |Mean-1|)^2 + 0.003^2).
	Mean, U float64
}

// EstimateIntake brings an intake port's readings from the bore they were taken
// on to another, and judges the result over a lift window. The model is of a jet
// leaving the valve: it says nothing of an exhaust valve.
//
// It is refused when the valve is not placed, the bores differ by more than 3 %,
// the wall is nearer than 0.020 in at either, or any reading in the window would
// move by more than 5 %.
func (m Model) EstimateIntake(points []curve.Point, v Valve, from, to, windowFrom, windowTo quantity.Length) (Estimate, error) {
	if err := allowed(v, from, to); err != nil {
		return Estimate{}, err
	}
	c, err := curve.New(points)
	if err != nil {
		return Estimate{}, Refusal{NoCurve, err.Error()}
	}
	var est Estimate
	for _, p := range c.Readings() {
		f, ok := m.Factor(c, v, from, to, p.Lift)
		if !ok {
			return Estimate{}, Refusal{GapTooSmall, fmt.Sprintf("the valve does not clear the wall at %.3f in lift", p.Lift.In())}
		}
		inWindow := p.Lift >= windowFrom-sameLength && p.Lift <= windowTo+sameLength
		if inWindow && math.Abs(f-1) > largestFactor {
			return Estimate{}, Refusal{FactorTooLarge, fmt.Sprintf("flow at %.3f in would move by %.1f %%", p.Lift.In(), 100*(f-1))}
		}
		est.Factors = append(est.Factors, f)
		est.Points = append(est.Points, curve.Point{Lift: p.Lift, Flow: p.Flow * quantity.Flow(f)})
	}
	moved, err := curve.New(est.Points)
	if err != nil {
		return Estimate{}, Refusal{NoCurve, err.Error()}
	}
	before, share := c.Mean(windowFrom, windowTo)
	after, _ := moved.Mean(windowFrom, windowTo)
	if share == 0 {
		return Estimate{}, Refusal{NoCurve, "the readings do not reach the window"}
	}
	est.Mean = float64(after / before)
	est.U = math.Hypot(lambdaSpread*(est.Mean-1), ClassU)
	return est, nil
}

func allowed(v Valve, from, to quantity.Length) error {
	switch {
	case !(v.Diameter > 0):
		return Refusal{ValveNotKnown, "valve diameter or wall clearance is not known"}
	case !(from > 0 && to > 0):
		return Refusal{BoreNotKnown, "bore is not known"}
	case math.Abs(float64(to/from)-1) > largestStep:
		return Refusal{StepTooLarge, fmt.Sprintf("bores of %.3f and %.3f in differ by more than %g %%", from.In(), to.In(), 100*largestStep)}
	}
	if gap := min(v.Clearance(from), v.Clearance(to)); gap < smallestGap-sameLength {
		return Refusal{GapTooSmall, fmt.Sprintf("wall clearance of %.3f in is below %.3f in", gap.In(), smallestGap.In())}
	}
	return nil
}

// Prior of lambda before any pair was measured: half, and uniform on 0..1.
const (
	lambdaPrior   = 0.5
	lambdaPriorSD = 0.29
	lambdaMost    = 1.5
)

// Seen is one lift of a head measured on two bores.
type Seen struct {
	Slope    float64 // E (S(B2) - S(B1)): what ln q would gain with lambda 1
	LogRatio float64 // ln(q2/q1)
}

// Pair returns what two tests of one head and bench say at the lifts they share.
func (m Model) Pair(a, b Tested, v Valve) ([]Seen, error) {
	c, err := curve.New(a.Points)
	if err != nil {
		return nil, err
	}
	var seen []Seen
	for _, p := range common(a.Points, b.Points) {
		e, _ := Elasticity(c, p.lift)
		gain := m.Open(v, p.lift, b.Bore) - m.Open(v, p.lift, a.Bore)
		if math.IsNaN(gain) {
			return nil, Refusal{GapTooSmall, "the valve does not clear the wall"}
		}
		seen = append(seen, Seen{Slope: e * gain, LogRatio: math.Log(float64(p.b / p.a))})
	}
	return seen, nil
}

// FitLambda returns lambda and its standard deviation from measured pairs, sigma
// being the standard deviation of one log ratio (sqrt2 times the relative
// repeatability):
//
//	lambda = (sum f y/sigma^2 + 0.5/0.29^2)/(sum f^2/sigma^2 + 1/0.29^2)
//
// held to 0..1.5; the deviation is the denominator to the power -1/2. Without
// pairs it is the prior, 0.5 and 0.29. Source: conjugate normal update.
func FitLambda(seen []Seen, sigma float64) (lambda, sd float64) {
	weight := 1 / (lambdaPriorSD * lambdaPriorSD)
	sum := lambdaPrior * weight
	for _, s := range seen {
		sum += s.Slope * s.LogRatio / (sigma * sigma)
		weight += s.Slope * s.Slope / (sigma * sigma)
	}
	return min(max(sum/weight, 0), lambdaMost), 1 / math.Sqrt(weight)
}
