package airflow

import (
	"errors"
	"fmt"
	"math"

	"flowshelf/analysis/quantity"
)

// FreeOrifice is a sharp-edged hole in the wall of a plenum, the measuring
// element of many shop-built benches.
type FreeOrifice struct {
	Diameter quantity.Length
	Cd       float64 // 0.60, good to 1.7 %, unless it was calibrated
}

// DefaultCd is the discharge coefficient of a sharp-edged orifice in a plenum
// wall. Source: A. J. Martyr and M. A. Plint, Engine Testing, air-box section.
const DefaultCd = 0.60

// Incompressible returns Cd (pi d^2/4) sqrt(2 dp/rho), at the density upstream.
// Above about 1200 Pa (4.8 inH2O) it reads high; use Flow. Domain dp >= 0, rho
// and d positive; NaN outside.
func (o FreeOrifice) Incompressible(drop quantity.Pressure, upstream quantity.Density) quantity.Flow {
	area := math.Pi / 4 * o.Diameter.MM() * o.Diameter.MM() * 1e-6
	return quantity.CubicMetresPerSecond(o.Cd * area * math.Sqrt(2*drop.Pa()/upstream.KgM3()))
}

// Flow is Incompressible times the expansibility of an orifice in an unbounded
// wall (beta 0), as a volume at the upstream state. Domain 0 <= drop < pressure.
func (o FreeOrifice) Flow(drop, pressure quantity.Pressure, upstream quantity.Density) quantity.Flow {
	eps := DryAir().OrificeExpansibility(1-float64(drop/pressure), 0)
	return o.Incompressible(drop, upstream) * quantity.Flow(eps)
}

// Taps says where the pressure is taken at an orifice plate in a pipe.
type Taps uint8

// The tappings of ISO 5167-2.
const (
	CornerTaps   Taps = iota
	DAndHalfTaps      // one pipe diameter upstream, half of one downstream
	FlangeTaps        // one inch either side
)

// PipeOrifice is a square-edged orifice plate in a round pipe.
type PipeOrifice struct {
	Pipe quantity.Length // internal diameter D
	Bore quantity.Length // d
	Taps Taps
}

// Beta returns d/D.
func (o PipeOrifice) Beta() float64 { return float64(o.Bore / o.Pipe) }

// Check refuses a plate outside the standard's limits: d of 12.5 mm or more, D
// of 50 mm to 1 m, beta of 0.1 to 0.75.
func (o PipeOrifice) Check() error {
	const slack = 1e-9 // a limit met but for rounding is met
	switch beta := o.Beta(); {
	case !(o.Bore.MM() >= 12.5-slack):
		return fmt.Errorf("orifice of %.4g mm is below 12.5 mm", o.Bore.MM())
	case !(o.Pipe.MM() >= 50-slack && o.Pipe.MM() <= 1000+slack):
		return fmt.Errorf("pipe of %.4g mm is outside 50 mm to 1 m", o.Pipe.MM())
	case !(beta >= 0.1-slack && beta <= 0.75+slack):
		return fmt.Errorf("diameter ratio of %.4g is outside 0.1 to 0.75", beta)
	}
	return nil
}

// lowestReynolds is the pipe Reynolds number the coefficient is stated from.
func (o PipeOrifice) lowestReynolds() float64 {
	b2 := o.Beta() * o.Beta()
	switch {
	case o.Taps == FlangeTaps:
		return math.Max(5000, 170*b2*o.Pipe.MM())
	case o.Beta() > 0.56:
		return 16000 * b2
	}
	return 5000
}

// Coefficient returns the discharge coefficient C by the Reader-Harris/Gallagher
// equation at a pipe Reynolds number:
//
//	C = 0.5961 + 0.0261 b^2 - 0.216 b^8 + 0.000521 (1e6 b/Re)^0.7
//	  + (0.0188 + 0.0063 A) b^3.5 (1e6/Re)^0.3
//	  + (0.043 + 0.080 e^(-10 L1) - 0.123 e^(-7 L1))(1 - 0.11 A) b^4/(1 - b^4)
//	  - 0.031 (M2 - 0.8 M2^1.1) b^1.3
//	  + 0.011 (0.75 - b)(2.8 - D/25.4 mm)      for D < 71.12 mm
//	A = (19000 b/Re)^0.8, M2 = 2 L2/(1 - b)
//
// L1 and L2 are 0 and 0 (corner), 1 and 0.47 (D and D/2), 25.4 mm/D each
// (flange). Below Re 3700 the two extensions of Reader-Harris's book hold; they
// do nothing inside the standard's domain. Good to about 0.5 % for beta 0.2 to
// 0.6 (from memory). Source: ISO 5167-2:2003, 5.3.2.1 (clause from memory).
func (o PipeOrifice) Coefficient(reynolds float64) float64 {
	b := o.Beta()
	var l1, l2 float64
	switch o.Taps {
	case CornerTaps:
	case DAndHalfTaps:
		l1, l2 = 1, 0.47
	case FlangeTaps:
		l1 = 25.4 / o.Pipe.MM()
		l2 = l1
	}
	b4 := math.Pow(b, 4)
	a := math.Pow(19000*b/reynolds, 0.8)
	m2 := 2 * l2 / (1 - b)

	c := 0.5961 + 0.0261*b*b - 0.216*b4*b4 + 0.000521*math.Pow(1e6*b/reynolds, 0.7)
	c += (0.0188 + 0.0063*a) * math.Pow(b, 3.5) * math.Max(math.Pow(1e6/reynolds, 0.3), 22.7-0.0047*reynolds)
	c += (0.043 + 0.080*math.Exp(-10*l1) - 0.123*math.Exp(-7*l1)) * (1 - 0.11*a) * b4 / (1 - b4)
	c -= 0.031 * (m2 - 0.8*math.Pow(m2, 1.1)) * math.Pow(b, 1.3) * (1 + 8*math.Max(math.Log10(3700/reynolds), 0))
	if o.Pipe.MM() < 71.12 {
		c += 0.011 * (0.75 - b) * (2.8 - o.Pipe.In())
	}
	return c
}

// Stream is the air in front of an orifice plate.
type Stream struct {
	Pressure     quantity.Pressure
	Density      quantity.Density
	ViscosityPaS float64 // dynamic, Pa s; 1.813e-5 for air at 20 C
	Gas          Gas
}

// PlateReading is what an orifice plate says.
type PlateReading struct {
	MassFlow         quantity.MassFlow
	Flow             quantity.Flow // at the upstream density
	C, Expansibility float64
	Reynolds         float64 // in the pipe
}

// ErrNotSettled is returned when the coefficient's iteration does not settle.
var ErrNotSettled = errors.New("orifice coefficient does not settle")

// Read returns the flow at a pressure difference,
//
//	m = C eps/sqrt(1 - b^4) (pi d^2/4) sqrt(2 dp rho),
//
// found by iterating on the Reynolds number that C depends on until m changes by
// less than 1e-12 of itself. It refuses a plate or a Reynolds number outside the
// standard's limits, and a downstream pressure below 0.75 of the upstream one.
// Source: ISO 5167-1:2003, 5.1; ISO 5167-2:2003, 5.3 (clauses from memory).
func (o PipeOrifice) Read(drop quantity.Pressure, s Stream) (PlateReading, error) {
	if err := o.Check(); err != nil {
		return PlateReading{}, err
	}
	ratio := 1 - float64(drop/s.Pressure)
	switch {
	case !(drop > 0):
		return PlateReading{}, fmt.Errorf("pressure difference of %g Pa is not positive", drop.Pa())
	case !(ratio >= 0.75 && ratio < 1):
		return PlateReading{}, fmt.Errorf("pressure ratio of %.3g is below 0.75", ratio)
	case !(s.Density > 0 && s.ViscosityPaS > 0):
		return PlateReading{}, ErrNoDensity
	}
	d, pipe := o.Bore.MM()/1000, o.Pipe.MM()/1000
	r := PlateReading{C: 0.6, Expansibility: s.Gas.OrificeExpansibility(ratio, o.Beta())}
	perC := r.Expansibility / math.Sqrt(1-math.Pow(o.Beta(), 4)) * math.Pi / 4 * d * d * math.Sqrt(2*drop.Pa()*s.Density.KgM3())
	m := r.C * perC
	for range 100 {
		r.Reynolds = 4 * m / (math.Pi * pipe * s.ViscosityPaS)
		r.C = o.Coefficient(r.Reynolds)
		next := r.C * perC
		settled := math.Abs(next-m) <= 1e-12*next
		if m = next; !settled {
			continue
		}
		if low := o.lowestReynolds(); r.Reynolds < low {
			return PlateReading{}, fmt.Errorf("pipe Reynolds number of %.0f is below %.0f", r.Reynolds, low)
		}
		r.MassFlow = quantity.KilogramsPerSecond(m)
		r.Flow, _ = r.MassFlow.At(s.Density)
		return r, nil
	}
	return PlateReading{}, ErrNotSettled
}
