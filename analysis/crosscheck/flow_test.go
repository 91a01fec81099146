package crosscheck_test

import (
	"math"
	"math/rand/v2"

	"flowshelf/analysis/airflow"
	"flowshelf/analysis/quantity"
)

func flowChecks() []check {
	return []check{
		{name: "units", against: "scipy.constants", tol: closedForm, draw: units},
		{name: "nozzle expansibility", against: "fluids.nozzle_expansibility", tol: closedForm, draw: nozzleExpansibility},
		{name: "orifice expansibility", against: "fluids.orifice_expansibility", tol: closedForm, draw: orificeExpansibility},
		{name: "critical ratio", against: "fluids.P_critical_flow", tol: closedForm, draw: criticalRatio},
		{name: "flow function", against: "fluids.safety_valve.API520_F2, API520_C", tol: closedForm, draw: flowFunction},
		// The standard atmosphere's gas constant is 287.053, ours 287.055.
		{name: "dry air", against: "fluids.ATMOSPHERE_1976", tol: 2e-5, draw: dryAir},
		{name: "orifice coefficient", against: "fluids.C_Reader_Harris_Gallagher", tol: closedForm, draw: orificeCoefficient},
		{name: "orifice flow", against: "fluids.differential_pressure_meter_solver", tol: iterated, draw: orificeFlow},
	}
}

func units(r *rand.Rand) (in, out []float64) {
	x := between(r, 1, 400)
	p, q, l, a := quantity.InchesOfWater(x), quantity.CFM(x), quantity.Inches(x), quantity.SquareInches(x)
	return []float64{x}, []float64{
		p.Pa(), p.PSI(), p.Mbar(), q.LS(), q.M3H(), l.MM(), a.MM2(), quantity.CubicInches(x).CC(),
		quantity.Pounds(x).G(), quantity.Ounces(x).G(), quantity.PoundsForce(x).N(), quantity.FeetPerSecond(x).MS(),
		quantity.Fahrenheit(x).K(),
	}
}

func gas(r *rand.Rand) airflow.Gas { return airflow.Gas{Gamma: between(r, 1.1, 1.6), R: 287.055} }

func nozzleExpansibility(r *rand.Rand) (in, out []float64) {
	g, ratio, beta := gas(r), between(r, 0.6, 0.999), between(r, 0.01, 0.8)
	return []float64{ratio, beta, g.Gamma}, []float64{g.NozzleExpansibility(ratio, beta)}
}

func orificeExpansibility(r *rand.Rand) (in, out []float64) {
	g, ratio, beta := gas(r), between(r, 0.6, 0.999), between(r, 0.01, 0.75)
	return []float64{ratio, beta, g.Gamma}, []float64{g.OrificeExpansibility(ratio, beta)}
}

func criticalRatio(r *rand.Rand) (in, out []float64) {
	g := gas(r)
	return []float64{g.Gamma}, []float64{g.CriticalRatio()}
}

func flowFunction(r *rand.Rand) (in, out []float64) {
	g, ratio := gas(r), between(r, 0.3, 0.999)
	return []float64{ratio, g.Gamma}, []float64{g.Psi(ratio)}
}

func dryAir(r *rand.Rand) (in, out []float64) {
	t, p := between(r, -10, 40), between(r, 80e3, 105e3)
	air := airflow.DryAir()
	return []float64{t, p}, []float64{
		air.Density(quantity.Pascals(p), quantity.Celsius(t)).KgM3(), air.SpeedOfSound(quantity.Celsius(t)).MS(),
	}
}

// plate draws an orifice plate inside the standard's limits.
func plate(r *rand.Rand) airflow.PipeOrifice {
	pipe := between(r, 50, 400)
	beta := between(r, math.Max(0.1, 12.6/pipe), 0.75)
	taps := []airflow.Taps{airflow.CornerTaps, airflow.DAndHalfTaps, airflow.FlangeTaps}[r.IntN(3)]
	return airflow.PipeOrifice{Pipe: quantity.Millimetres(pipe), Bore: quantity.Millimetres(beta * pipe), Taps: taps}
}

func orificeCoefficient(r *rand.Rand) (in, out []float64) {
	o, reynolds := plate(r), math.Exp(between(r, math.Log(2000), math.Log(1e7)))
	return []float64{o.Pipe.MM() / 1000, o.Bore.MM() / 1000, float64(o.Taps), reynolds}, []float64{o.Coefficient(reynolds)}
}

func orificeFlow(r *rand.Rand) (in, out []float64) {
	for {
		o, drop := plate(r), between(r, 300, 10e3)
		s := airflow.Stream{
			Pressure: quantity.Pascals(between(r, 90e3, 110e3)), Density: quantity.KilogramsPerCubicMetre(between(r, 1.05, 1.3)),
			ViscosityPaS: between(r, 1.7e-5, 1.9e-5), Gas: airflow.DryAir(),
		}
		got, err := o.Read(quantity.Pascals(drop), s)
		if err != nil {
			continue // a Reynolds number below the standard's: another plate
		}
		return []float64{
			o.Pipe.MM() / 1000, o.Bore.MM() / 1000, float64(o.Taps), drop, s.Pressure.Pa(), s.Density.KgM3(), s.ViscosityPaS, s.Gas.Gamma,
		}, []float64{got.MassFlow.KgS()}
	}
}
