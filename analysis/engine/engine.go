// Package engine relates what a port flows on the bench to what an engine asks
// of it: air speed in the port, inlet Mach index, demand, and the flow a power
// takes. They are sizing rules for naturally aspirated four-stroke petrol
// engines. Steady flow ranks ports; it is not power.
package engine

import (
	"errors"
	"math"

	"flowshelf/analysis/airflow"
	"flowshelf/analysis/quantity"
)

// Engine is the engine a head is meant for.
type Engine struct {
	Bore, Stroke quantity.Length
	Cylinders    int
	RPM          float64
}

// ErrEngine is returned for an engine with a missing or impossible figure.
var ErrEngine = errors.New("bore, stroke or speed of the engine is not known")

func (e Engine) check() error {
	if !(e.Bore > 0 && e.Stroke > 0 && e.RPM > 0) {
		return ErrEngine
	}
	return nil
}

// Displacement returns pi B^2/4 S times the number of cylinders.
func (e Engine) Displacement() quantity.Volume {
	return quantity.CubicInches(airflow.Circle(e.Bore).In2() * e.Stroke.In() * float64(e.Cylinders))
}

// PistonSpeed returns the mean piston speed, 2 S N: S N/360 in ft/s for inches
// and rpm.
func (e Engine) PistonSpeed() quantity.Speed {
	return quantity.FeetPerSecond(e.Stroke.In() * e.RPM / 360)
}

// MeanPortSpeed returns the air speed in a section that feeds one cylinder when
// the piston moves at its mean speed, (S N/360)(pi B^2/4)/A. An error for an
// engine or a section that is not known.
func (e Engine) MeanPortSpeed(section quantity.Area) (quantity.Speed, error) {
	if err := e.check(); err != nil {
		return 0, err
	}
	if !(section > 0) {
		return 0, ErrSection
	}
	return e.PistonSpeed() * quantity.Speed(airflow.Circle(e.Bore)/section), nil
}

// ErrSection is returned when the port's smallest cross-section is not known.
var ErrSection = errors.New("the port's smallest cross-section is not known")

// AirSpeed returns the trade's air speed at the smallest cross-section,
//
//	0.00353 N S B^2/A  ft/s, inches and rpm,
//
// which is 1.618 times the mean: the piston at its fastest for a rod of about
// twice the stroke. Common practice, no source. An error as MeanPortSpeed.
func (e Engine) AirSpeed(section quantity.Area) (quantity.Speed, error) {
	if err := e.check(); err != nil {
		return 0, err
	}
	if !(section > 0) {
		return 0, ErrSection
	}
	return quantity.FeetPerSecond(0.00353 * e.RPM * e.Stroke.In() * e.Bore.In() * e.Bore.In() / section.In2()), nil
}

// Size is whether a port suits an engine.
type Size uint8

// The sizes.
const (
	Lazy   Size = iota + 1 // the port is too large: the air dawdles
	Right                  // the air speed is in the ordinary range
	Choked                 // the port is too small: it runs out of breath
)

// String returns the trade's word.
func (s Size) String() string { return [...]string{"", "lazy", "right", "choked"}[s] }

// SpeedWindow is the range of AirSpeed that suits.
type SpeedWindow struct{ Lazy, Choked quantity.Speed }

// DefaultSpeedWindow is 500 to 640 ft/s. Common practice, no source.
func DefaultSpeedWindow() SpeedWindow {
	return SpeedWindow{quantity.FeetPerSecond(500), quantity.FeetPerSecond(640)}
}

// Judge returns the size of a port at an air speed; the ends of the window are
// right.
func (w SpeedWindow) Judge(v quantity.Speed) Size {
	switch {
	case v < w.Lazy:
		return Lazy
	case v > w.Choked:
		return Choked
	}
	return Right
}

// SoundAt20C is the speed of sound in dry air at 20 C, 1126.1 ft/s.
func SoundAt20C() quantity.Speed { return airflow.DryAir().SpeedOfSound(quantity.Celsius(20)) }

// MachIndex returns the inlet Mach index of a cylinder,
//
//	Z = Ap Cm/(a (mu F)m),
//
// piston area, mean piston speed, speed of sound and the mean effective area of
// the valve, which is the mean flow over its opening (between the 0.050 points)
// over the ideal flow of a unit area at the test pressure. Volumetric efficiency
// falls off from a Z of about 0.5 to 0.6, a band and not a line. An error for a
// flow, pressure or engine that is not known.
//
// Source: C. F. Taylor, The Internal-Combustion Engine in Theory and Practice,
// vol. 1 (limit near 0.6; from memory); JSME mechanical engineering
// encyclopedia, entry "inlet Mach index" (limit 0.5).
func (e Engine) MachIndex(meanOpen quantity.Flow, test quantity.Pressure, sound quantity.Speed) (float64, error) {
	if err := e.check(); err != nil {
		return 0, err
	}
	if !(meanOpen > 0 && test > 0 && sound > 0) {
		return 0, errors.New("mean flow, test pressure or speed of sound is not known")
	}
	effective := float64(meanOpen / airflow.Ideal(quantity.SquareInches(1), test))
	return airflow.Circle(e.Bore).In2() / effective * float64(e.PistonSpeed()/sound), nil
}

// RPMAt returns the speed at which the Mach index reaches z; the index is
// proportional to speed.
func (e Engine) RPMAt(z float64, meanOpen quantity.Flow, test quantity.Pressure, sound quantity.Speed) (float64, error) {
	now, err := e.MachIndex(meanOpen, test, sound)
	if err != nil {
		return 0, err
	}
	return e.RPM * z / now, nil
}

// Demand returns the air a four-stroke takes in, displacement N VE/3456 in cfm
// for cubic inches and rpm, at a volumetric efficiency.
func (e Engine) Demand(volumetricEfficiency float64) quantity.Flow {
	return quantity.CFM(e.Displacement().In3() * e.RPM * volumetricEfficiency / 3456)
}

// FlowRatio is exhaust over intake, and whether it is worth a look: below 0.60
// or above 1.00. It is reported, never scored by closeness to a figure: a
// capacity ratio near 1 was found best by W. E. Eppes, J. C. Livengood and C. F.
// Taylor, NACA TN 1365 (1947), custom says 0.70 to 0.80.
type FlowRatio struct {
	Ratio   float64
	Unusual bool
}

// ExhaustToIntake returns the ratio of two flows of one kind (both peaks or both
// averages, at one pressure), and false when either is not known.
func ExhaustToIntake(exhaust, intake quantity.Flow) (FlowRatio, bool) {
	if !(exhaust > 0 && intake > 0) || math.IsInf(float64(exhaust/intake), 1) {
		return FlowRatio{}, false
	}
	r := float64(exhaust / intake)
	return FlowRatio{Ratio: r, Unusual: r < 0.60 || r > 1.00}, true
}
