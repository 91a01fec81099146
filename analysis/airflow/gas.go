// Package airflow is the physics of a flow bench: how flow follows the test
// pressure, what air weighs, what orifices and manometers say, how large the
// holes of a valve are and how much air can pass them.
//
// The air on a bench is treated as an ideal gas. Formulas hold the symbols of
// their sources; every exported function states units and domain.
package airflow

import (
	"math"

	"flowshelf/analysis/quantity"
)

// StandardAtmosphere is 101325 Pa, exact (ISO 2533:1975, from memory).
func StandardAtmosphere() quantity.Pressure { return quantity.Pascals(101325) }

// Gas is an ideal gas.
type Gas struct {
	Gamma float64 // ratio of the specific heats
	R     float64 // specific gas constant, J/(kg K)
}

// DryAir is gamma 1.4 and R 287.055 J/(kg K).
func DryAir() Gas { return Gas{Gamma: 1.4, R: 287.055} }

// Density returns p/(R T), in kg/m3; p and T must be positive.
func (g Gas) Density(p quantity.Pressure, t quantity.Temperature) quantity.Density {
	return quantity.KilogramsPerCubicMetre(p.Pa() / (g.R * t.K()))
}

// SpeedOfSound returns sqrt(gamma R T); T must be positive.
func (g Gas) SpeedOfSound(t quantity.Temperature) quantity.Speed {
	return metresPerSecond(math.Sqrt(g.Gamma * g.R * t.K()))
}

// CriticalRatio returns the ratio of downstream to upstream pressure below which
// a restriction chokes, (2/(gamma+1))^(gamma/(gamma-1)): 0.528 for air. A bench
// would need 192 inH2O to get there.
func (g Gas) CriticalRatio() float64 {
	return math.Pow(2/(g.Gamma+1), g.Gamma/(g.Gamma-1))
}

// Psi is the flow function of an isentropic restriction at the ratio r of
// downstream to upstream pressure:
//
//	Psi = r^(1/g) sqrt(2g/(g-1) (1 - r^((g-1)/g)))
//
// and constant below the critical ratio. Domain 0 <= r <= 1; NaN outside; 0 at
// r = 1. Source: J. B. Heywood, Internal Combustion Engine Fundamentals (1988),
// App. C, eqs C.8 and C.9 (from memory).
func (g Gas) Psi(r float64) float64 {
	if !(r >= 0 && r <= 1) {
		return math.NaN()
	}
	k := g.Gamma
	r = math.Max(r, g.CriticalRatio())
	// 1 - r^a through expm1, so that small pressure differences keep their digits.
	drop := -math.Expm1((k - 1) / k * math.Log(r))
	return math.Pow(r, 1/k) * math.Sqrt(2*k/(k-1)*drop)
}

// Restriction is a hole with air drawn or blown through it.
type Restriction struct {
	Area     quantity.Area
	Cd       float64 // discharge coefficient
	Upstream quantity.Pressure
	Drop     quantity.Pressure // upstream less downstream
	At       quantity.Temperature
}

// MassFlow returns Cd A p0/sqrt(R T0) Psi(1 - dp/p0). Domain 0 <= dp <= p0, T0
// positive; NaN outside. Source: as Psi.
func (g Gas) MassFlow(h Restriction) quantity.MassFlow {
	p0 := h.Upstream.Pa()
	area := h.Area.MM2() * 1e-6
	psi := g.Psi(1 - h.Drop.Pa()/p0)
	return quantity.KilogramsPerSecond(h.Cd * area * p0 / math.Sqrt(g.R*h.At.K()) * psi)
}

// NozzleExpansibility returns eps, the flow of a nozzle over the incompressible
// flow at its inlet density, at the pressure ratio r and the diameter ratio
// beta of throat to inlet:
//
//	eps^2 = k r^(2/k)/(k-1) (1-b^4)/(1-b^4 r^(2/k)) (1-r^((k-1)/k))/(1-r)
//
// For beta 0 that is Psi/sqrt(2(1-r)). Domain 0 < r < 1, 0 <= beta < 1; 1 at
// r = 1; NaN outside. No choking: keep r above CriticalRatio. Source: ISO
// 5167-3:2003, 5.1.6.3 (clause from memory).
func (g Gas) NozzleExpansibility(r, beta float64) float64 {
	if !(r > 0 && r <= 1 && beta >= 0 && beta < 1) {
		return math.NaN()
	}
	if r == 1 {
		return 1
	}
	k, b4 := g.Gamma, math.Pow(beta, 4)
	r2 := math.Pow(r, 2/k)
	drop := -math.Expm1((k - 1) / k * math.Log(r))
	return math.Sqrt(k * r2 / (k - 1) * (1 - b4) / (1 - b4*r2) * drop / (1 - r))
}

// OrificeExpansibility returns eps of a square-edged orifice plate:
//
//	eps = 1 - (0.351 + 0.256 b^4 + 0.93 b^8)(1 - r^(1/k))
//
// Domain 0 < r <= 1, 0 <= beta < 1, stated by the standard for r >= 0.75; NaN
// outside 0..1. Its jet opens as the air expands, so it loses less than a
// nozzle. Source: ISO 5167-2:2003, 5.3.2.2 (clause from memory).
func (g Gas) OrificeExpansibility(r, beta float64) float64 {
	if !(r > 0 && r <= 1 && beta >= 0 && beta < 1) {
		return math.NaN()
	}
	b4 := math.Pow(beta, 4)
	return 1 - (0.351+0.256*b4+0.93*b4*b4)*(1-math.Pow(r, 1/g.Gamma))
}

func metresPerSecond(v float64) quantity.Speed { return quantity.FeetPerSecond(v / 0.3048) }
