package airflow

import (
	"math"

	"flowshelf/analysis/quantity"
)

// SeaLevelDensity is 1.225 kg/m3, air at 15 C and 101325 Pa (ISO 2533:1975,
// from memory), the density behind the trade's "146 cfm a square inch".
func SeaLevelDensity() quantity.Density { return quantity.KilogramsPerCubicMetre(1.225) }

// Velocity returns sqrt(2 dp/rho), the speed Bernoulli's equation gives air that
// falls through a pressure difference: 350 ft/s at 28 inH2O and sea level.
// Domain dp >= 0, rho > 0; NaN outside.
func Velocity(drop quantity.Pressure, rho quantity.Density) quantity.Speed {
	return metresPerSecond(math.Sqrt(2 * drop.Pa() / rho.KgM3()))
}

// Through returns the flow of air at a speed through an area: cfm = ft/s in2 60/144.
func Through(v quantity.Speed, area quantity.Area) quantity.Flow {
	return quantity.CFM(v.FtS() * area.In2() * 60 / 144)
}

// MeanVelocity returns the mean speed of a flow through an area, 2.4 q/A in
// ft/s for cfm and in2; infinite or NaN when the area is not positive.
func MeanVelocity(q quantity.Flow, area quantity.Area) quantity.Speed {
	return quantity.FeetPerSecond(q.CFM() * 144 / 60 / area.In2())
}

// Ideal returns the flow that an area would pass without any loss at a test
// pressure, at sea-level density: K A with K = 145.874 cfm/in2 at 28 inH2O.
// Flow over Ideal is the flow coefficient of whatever area was put in.
func Ideal(area quantity.Area, test quantity.Pressure) quantity.Flow {
	return Through(Velocity(test, SeaLevelDensity()), area)
}

// HeadCoefficient returns Cf, the flow over the ideal flow of the valve head's
// area; NaN without a valve diameter.
func HeadCoefficient(q quantity.Flow, valve quantity.Length, test quantity.Pressure) float64 {
	return coefficient(q, Circle(valve), test)
}

// CurtainCoefficient returns Cd on the curtain area, the flow over the ideal
// flow of the curtain; NaN without a valve diameter or a lift.
func CurtainCoefficient(q quantity.Flow, valve, lift quantity.Length, test quantity.Pressure) float64 {
	return coefficient(q, Curtain(valve, lift), test)
}

// ThroatCoefficient returns Cd on the throat area less the stem; NaN when there
// is none.
func ThroatCoefficient(q quantity.Flow, throat, stem quantity.Length, test quantity.Pressure) float64 {
	return coefficient(q, ThroatArea(throat, stem), test)
}

func coefficient(q quantity.Flow, area quantity.Area, test quantity.Pressure) float64 {
	if !(area > 0 && test > 0) {
		return math.NaN()
	}
	return float64(q / Ideal(area, test))
}

// Outlet says how a port was closed off downstream, which decides how far above
// the ceiling a reading may be before it cannot be true.
type Outlet uint8

// The outlets.
const (
	// Open ports, intake or exhaust, recover nothing.
	Open Outlet = iota
	// Piped exhaust ports recover some pressure in the pipe.
	Piped
)

// Allowances on the ceiling: thin summer air moves it by 3 %, a pipe recovers
// some pressure. Common practice, no source.
const (
	curtainAllowance = 1.05
	pipeAllowance    = 1.10
)

// Ceiling is the most a valve can pass at a lift: no air moves faster than the
// test pressure drives it, and the hole is the smaller of curtain and head.
type Ceiling struct {
	Flow quantity.Flow
	Area quantity.Area
}

// CeilingOf returns the ceiling of a valve at a lift and test pressure, and
// false when one of the three is not known.
func CeilingOf(valve, lift quantity.Length, test quantity.Pressure) (Ceiling, bool) {
	if !(valve > 0 && lift > 0 && test > 0) {
		return Ceiling{}, false
	}
	area := min(Curtain(valve, lift), Circle(valve))
	return Ceiling{Flow: Ideal(area, test), Area: area}, true
}

// Impossible reports whether a flow at a lift cannot be true: above the head
// area's ideal flow, or above 1.05 times the curtain's; with a pipe above 1.10
// times the lower of them. Then the reading, the valve size, the lift, the unit
// or the pressure is wrong. Nothing is impossible when valve, lift or pressure
// is not known.
//
// Source: Bernoulli's equation; the allowances are common practice, no source.
func Impossible(q quantity.Flow, valve, lift quantity.Length, test quantity.Pressure, outlet Outlet) bool {
	ceiling, known := CeilingOf(valve, lift, test)
	if !known {
		return false
	}
	if outlet == Piped {
		return q > pipeAllowance*ceiling.Flow
	}
	return q > Ideal(Circle(valve), test) || q > curtainAllowance*Ideal(Curtain(valve, lift), test)
}
