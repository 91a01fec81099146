package engine

import (
	"errors"
	"math"

	"flowshelf/analysis/quantity"
)

// PowerRule is the trade's rule of thumb between peak intake flow of one
// cylinder and power: hp = k q n. Naturally aspirated petrol engines with a
// tuned intake only; not for boost, alcohol or diesel. It sizes heads; the
// service shows no horsepower.
type PowerRule struct {
	K  float64           // hp per cfm and cylinder
	At quantity.Pressure // test pressure of the flow
	U  float64           // relative standard deviation of K
}

// DefaultPowerRule is k 0.257 at 28 inH2O, good to 12 %. Common practice, no
// source; it means that an engine's mean flow is about 0.32 of its port's steady
// peak.
func DefaultPowerRule() PowerRule {
	return PowerRule{K: 0.257, At: quantity.InchesOfWater(28), U: 0.12}
}

// AtPressure returns the rule for flows at another test pressure, k
// sqrt(dp1/dp2), by the square-root law.
func (r PowerRule) AtPressure(test quantity.Pressure) PowerRule {
	return PowerRule{K: r.K * math.Sqrt(float64(r.At/test)), At: test, U: r.U}
}

// Power returns the horsepower k q n that goes with a flow.
func (r PowerRule) Power(peak quantity.Flow, cylinders int) (horsepower float64) {
	return r.K * peak.CFM() * float64(cylinders)
}

// FlowFor returns the peak intake flow of a cylinder that goes with a power,
// P/(k n), and its range at one standard deviation of k. An error for no power,
// cylinders or k.
func (r PowerRule) FlowFor(horsepower float64, cylinders int) (flow, low, high quantity.Flow, err error) {
	if !(horsepower > 0 && cylinders > 0 && r.K > 0 && r.U >= 0 && r.U < 1) {
		return 0, 0, 0, errors.New("power or cylinders are not known")
	}
	q := horsepower / (r.K * float64(cylinders))
	return quantity.CFM(q), quantity.CFM(q / (1 + r.U)), quantity.CFM(q / (1 - r.U)), nil
}

// WorthOfCFM returns what a cfm of mean flow is worth to an engine whose owner
// would pay so much for a horsepower: k n dollars, a guide for setting a
// family's worth of a cfm.
func (r PowerRule) WorthOfCFM(dollarsPerHorsepower float64, cylinders int) (dollarsPerCFM float64) {
	return r.K * float64(cylinders) * dollarsPerHorsepower
}

// AirPerPower is how much air a horsepower takes.
type AirPerPower struct {
	BSAC     float64 // brake specific air consumption, lb/(hp h)
	CFMPerHP float64
}

// AirFor returns the air of a horsepower from the brake specific fuel
// consumption in lb/(hp h), the air-fuel ratio and the air's density:
//
//	BSAC = BSFC AFR;  cfm per hp = BSAC/(60 rho).
func AirFor(bsfcLbPerHPh, airFuelRatio float64, rho quantity.Density) AirPerPower {
	bsac := bsfcLbPerHPh * airFuelRatio
	return AirPerPower{BSAC: bsac, CFMPerHP: bsac / (60 * rho.LbFt3())}
}

// Utilisation returns the share of its port's steady peak flow that an engine
// takes in on average for a k of the power rule, k times cfm per hp.
func (a AirPerPower) Utilisation(k float64) float64 { return k * a.CFMPerHP }
