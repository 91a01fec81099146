package airflow

import (
	"fmt"
	"math"

	"flowshelf/analysis/quantity"
)

// Air is the state of moist air.
type Air struct {
	Temperature quantity.Temperature
	Pressure    quantity.Pressure
	Humidity    float64 // relative, 0 to 1
}

// check refuses what cannot be air.
func (a Air) check() error {
	switch t, p := a.Temperature.C(), a.Pressure.Pa(); {
	case !(t > -60 && t < 100):
		return fmt.Errorf("air at %g C cannot be", t)
	case !(p > 10e3 && p < 500e3):
		return fmt.Errorf("air at %g Pa cannot be", p)
	case !(a.Humidity >= 0 && a.Humidity <= 1):
		return fmt.Errorf("relative humidity of %g is outside 0 to 1", a.Humidity)
	}
	return nil
}

// DefaultCO2 is the mole fraction of carbon dioxide CIPM-2007 starts from.
const DefaultCO2 = 0.0004

// CIPM2007 returns the density of moist air by the CIPM-2007 equation, with the
// mole fraction of carbon dioxide. Stated for 600 to 1100 hPa and 15 to 27 C,
// good enough for any workshop.
//
// Source: A. Picard, R. S. Davis, M. Glaser, K. Fujii, "Revised formula for the
// density of moist air (CIPM-2007)", Metrologia 45 (2008) 149-155.
func (a Air) CIPM2007(co2 float64) (quantity.Density, error) {
	if err := a.check(); err != nil {
		return 0, err
	}
	const (
		molarGas   = 8.314472   // J/(mol K)
		molarWater = 0.01801528 // kg/mol
	)
	k, t, p := a.Temperature.K(), a.Temperature.C(), a.Pressure.Pa()
	molarDry := 0.02896546 + 0.012011*(co2-DefaultCO2)

	saturation := math.Exp(1.2378847e-5*k*k - 1.9121316e-2*k + 33.93711047 - 6343.1645/k)
	enhancement := 1.00062 + 3.14e-8*p + 5.6e-7*t*t
	vapour := a.Humidity * enhancement * saturation / p // mole fraction

	z := 1 - p/k*(1.58123e-6-2.9331e-8*t+1.1043e-10*t*t+
		(5.707e-6-2.051e-8*t)*vapour+
		(1.9898e-4-2.376e-6*t)*vapour*vapour) +
		p*p/(k*k)*(1.83e-11-0.765e-8*vapour*vapour)
	rho := p * molarDry / (z * molarGas * k) * (1 - vapour*(1-molarWater/molarDry))
	return quantity.KilogramsPerCubicMetre(rho), nil
}

// Density returns the density of moist air as a mixture of ideal gases,
//
//	rho = (p - e)/(287.055 T) + e/(461.52 T), e = h 611.2 exp(17.62 t/(243.12 + t)) Pa
//
// 0.02 to 0.05 % below CIPM-2007 from 10 to 35 C: enough for a bench. The
// vapour pressure is the Magnus form of WMO-No. 8, Annex 4.B (from memory).
func (a Air) Density() (quantity.Density, error) {
	if err := a.check(); err != nil {
		return 0, err
	}
	const vapourR = 461.52 // J/(kg K)
	t, k := a.Temperature.C(), a.Temperature.K()
	e := a.Humidity * 611.2 * math.Exp(17.62*t/(243.12+t))
	rho := (a.Pressure.Pa()-e)/(DryAir().R*k) + e/(vapourR*k)
	return quantity.KilogramsPerCubicMetre(rho), nil
}

// OIML returns the density by the short formula of OIML R 111-1,
//
//	rho = (0.34848 p - 0.009 h exp(0.061 t)) / (273.15 + t)
//
// with p in hPa and h in percent; within 0.03 % of CIPM-2007 from 10 to 30 C,
// 0.06 % in humid air at 35 C.
// Source: OIML R 111-1:2004, E.3 (from memory). It stands here to check the
// other two.
func (a Air) OIML() (quantity.Density, error) {
	if err := a.check(); err != nil {
		return 0, err
	}
	t := a.Temperature.C()
	rho := (0.34848*a.Pressure.Mbar() - 0.009*a.Humidity*100*math.Exp(0.061*t)) / a.Temperature.K()
	return quantity.KilogramsPerCubicMetre(rho), nil
}
