package airflow

import (
	"errors"
	"math"

	"flowshelf/analysis/quantity"
)

// Meter is how a bench measures flow, which decides whether the weather matters.
type Meter uint8

// The meters.
const (
	// Comparison benches set the port against an orifice in the same stream:
	// the air's density cancels.
	Comparison Meter = iota
	// FixedDensity benches compute flow from a pressure with a density that is
	// built in: the flow shown goes with the root of the true one.
	FixedDensity
	// MassSensor benches measure mass: they show no volume without a density.
	MassSensor
)

// Bench is a bench's meter and, for FixedDensity, the density built in.
type Bench struct {
	Meter   Meter
	Assumed quantity.Density
}

// Errors of a bench that lacks a density.
var (
	ErrNoDensity = errors.New("no air density: the flow cannot be stated as a volume")
	ErrNoAssumed = errors.New("the density built into the bench is not stated")
)

// noWeatherU is the relative standard uncertainty of a fixed-density bench when
// the weather was not written down: 10 C are worth 1.7 %, 30 hPa 1.5 %.
const noWeatherU = 0.015

// Correct returns the flow at the air's actual density: unchanged for a
// comparison bench, q sqrt(assumed/actual) for a fixed-density bench. A mass
// sensor's flow goes through quantity.MassFlow instead.
func (b Bench) Correct(q quantity.Flow, actual quantity.Density) (quantity.Flow, error) {
	switch {
	case b.Meter == Comparison:
		return q, nil
	case b.Meter == MassSensor || !(actual > 0):
		return 0, ErrNoDensity
	case !(b.Assumed > 0):
		return 0, ErrNoAssumed
	}
	return q * quantity.Flow(math.Sqrt(float64(b.Assumed/actual))), nil
}

// WithoutWeather returns the relative standard uncertainty a reading takes on
// when the air's density on the day is not known, and an error where there is
// then no reading at all.
func (b Bench) WithoutWeather() (u float64, err error) {
	switch b.Meter {
	case Comparison:
		return 0, nil
	case FixedDensity:
		return noWeatherU, nil
	case MassSensor:
	}
	return 0, ErrNoDensity
}
