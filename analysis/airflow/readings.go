package airflow

import (
	"errors"
	"fmt"
	"math"

	"flowshelf/analysis/quantity"
)

// Manometer is a liquid column, upright or inclined.
type Manometer struct {
	SpecificGravity float64 // of the fluid, water at 1000 kg/m3 being 1
	AngleDegrees    float64 // of the tube from the horizontal; 90 is upright
	AreaRatio       float64 // tube area over well area; 0 for a very large well
	// ScaleCorrected is set when the scale is already marked in inches of water
	// for this fluid and angle: nothing is applied a second time.
	ScaleCorrected bool
}

// Pressure returns the pressure for a length read along the scale,
//
//	dp = SG 1000 kg/m3 g_n L (sin a + A_tube/A_well).
//
// Domain: SG positive, 0 < angle <= 90, 0 <= area ratio < 1; an error outside.
// Source: hydrostatics.
func (m Manometer) Pressure(scale quantity.Length) (quantity.Pressure, error) {
	if m.ScaleCorrected {
		return quantity.InchesOfWater(scale.In()), nil
	}
	if !(m.SpecificGravity > 0 && m.AngleDegrees > 0 && m.AngleDegrees <= 90 && m.AreaRatio >= 0 && m.AreaRatio < 1) {
		return 0, fmt.Errorf("manometer with fluid %g at %g degrees, area ratio %g cannot be",
			m.SpecificGravity, m.AngleDegrees, m.AreaRatio)
	}
	rise := math.Sin(m.AngleDegrees*math.Pi/180) + m.AreaRatio
	// The conventional inch of water is 1 in of fluid of 1000 kg/m3 at g_n.
	return quantity.InchesOfWater(m.SpecificGravity * scale.In() * rise), nil
}

// Scale is what a bench's percent scale is linear in.
type Scale uint8

// The scales. Which one a bench has is stated by its owner, never guessed: at
// 62.5 % of 400 cfm they are 66 cfm apart.
const (
	ScaleNotStated Scale = iota
	LinearInFlow
	LinearInPressure
)

// Range is one calibrated range of a bench that reads in percent of range.
type Range struct {
	Full  quantity.Flow     // flow at 100 %
	At    quantity.Pressure // test pressure the range was calibrated at
	Scale Scale
}

// ScaleUse says where on its scale a reading lies.
type ScaleUse uint8

// The uses of a scale. Below 30 % the scale is coarse; above 100 % it was not
// calibrated.
const (
	WellOnScale ScaleUse = iota
	LowOnScale
	AboveScale
)

// ErrScaleNotStated is returned for a range whose scale type is not known.
var ErrScaleNotStated = errors.New("percent scale: linear in flow or in pressure is not stated")

// Flow returns the flow for a reading in percent of the range, at the test
// pressure it was taken at:
//
//	q = full pct/100         (linear in flow)
//	q = full sqrt(pct/100)   (linear in pressure), either times sqrt(dp/dp_range).
//
// Domain: pct > 0, pressures and full flow positive; an error outside.
func (r Range) Flow(percent float64, test quantity.Pressure) (quantity.Flow, ScaleUse, error) {
	if !(percent > 0 && r.Full > 0 && r.At > 0 && test > 0) {
		return 0, 0, fmt.Errorf("%g %% of %g cfm at %g inH2O cannot be", percent, r.Full.CFM(), test.InH2O())
	}
	share := percent / 100
	switch r.Scale {
	case LinearInFlow:
	case LinearInPressure:
		share = math.Sqrt(share)
	default:
		return 0, 0, ErrScaleNotStated
	}
	use := WellOnScale
	if percent < 30 {
		use = LowOnScale
	} else if percent > 100 {
		use = AboveScale
	}
	return r.Full * quantity.Flow(share*math.Sqrt(float64(test/r.At))), use, nil
}

// LeakExponent is how leakage grows with pressure through small cracks; 0.5 is
// turbulent, 1 laminar. Source: W. S. Dols and G. N. Walton, CONTAMW 2.0 User
// Manual, NISTIR 6921 (2002) (title from memory).
const LeakExponent = 0.65

// Leak is the flow read with the valves closed.
type Leak struct {
	Flow quantity.Flow
	At   quantity.Pressure
}

// AtPressure returns the leak at another test pressure, q (dp2/dp1)^n. Domain:
// both pressures positive, 0.5 <= n <= 1; an error outside.
func (l Leak) AtPressure(test quantity.Pressure, exponent float64) (quantity.Flow, error) {
	if !(l.At > 0 && test > 0 && l.Flow >= 0 && exponent >= 0.5 && exponent <= 1) {
		return 0, fmt.Errorf("leak of %g cfm at %g inH2O, exponent %g cannot be carried to %g inH2O",
			l.Flow.CFM(), l.At.InH2O(), exponent, test.InH2O())
	}
	return l.Flow * quantity.Flow(math.Pow(float64(test/l.At), exponent)), nil
}

// Net returns a reading less the leak, both at the reading's test pressure and
// before any conversion. A net flow that is not positive is an error: the
// reading is set aside.
func (l Leak) Net(gross quantity.Flow, test quantity.Pressure) (quantity.Flow, error) {
	leak, err := l.AtPressure(test, LeakExponent)
	if err != nil {
		return 0, err
	}
	if net := gross - leak; net > 0 {
		return net, nil
	}
	return 0, fmt.Errorf("reading of %g cfm is within the leak of %.3g cfm", gross.CFM(), leak.CFM())
}
