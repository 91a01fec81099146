package airflow_test

import (
	"errors"
	"math"
	"testing"

	"pgregory.net/rapid"

	"flowshelf/analysis/airflow"
	"flowshelf/analysis/quantity"
)

func air(celsius, pascals, humidity float64) airflow.Air {
	return airflow.Air{Temperature: quantity.Celsius(celsius), Pressure: pa(pascals), Humidity: humidity}
}

// TestDensity: CIPM-2007 evaluated from the constants of Picard et al. (2008),
// the ideal-gas mixture and OIML R 111 from their formulas, all apart from this
// code.
func TestDensity(t *testing.T) {
	for _, tt := range []struct {
		air                airflow.Air
		cipm, simple, oiml float64
		tol                float64
	}{
		{air(20, 101325, 0.5), 1.1993138954744933, 1.1988580542715308, 1.1992943050311118, 2e-7},
		{air(15, 101325, 0), 1.225521, 1.2249909284026714, 1.225394, 1e-6},
		{air(25, 100000, 0.3), 1.1646146500341692, 1.164236, 1.164646, 1e-6},
		{air(30, 98000, 0.8), 1.1117809605514823, 1.111455313850134, 1.111733470578467, 2e-7},
		{air(10, 102500, 0.4), 1.2594195732053675, 1.258797827158469, math.NaN(), 2e-7},
		{air(35, 84000, 0.2), 0.945017, 0.944827320090756, 0.9449973442439232, 1e-6},
	} {
		got, err := tt.air.CIPM2007(airflow.DefaultCO2)
		if err != nil {
			t.Fatal(err)
		}
		near(t, "CIPM-2007", got.KgM3(), tt.cipm, tt.tol)
		simple, err := tt.air.Density()
		if err != nil {
			t.Fatal(err)
		}
		near(t, "ideal mixture", simple.KgM3(), tt.simple, tt.tol)
		oiml, err := tt.air.OIML()
		if err != nil {
			t.Fatal(err)
		}
		if !math.IsNaN(tt.oiml) {
			near(t, "OIML R 111", oiml.KgM3(), tt.oiml, tt.tol)
		}
	}
}

// TestDensitiesAgree: three formulas from three sources agree over a workshop's
// weather.
func TestDensitiesAgree(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		a := air(rapid.Float64Range(10, 30).Draw(t, "C"), rapid.Float64Range(84e3, 104e3).Draw(t, "Pa"),
			rapid.Float64Range(0, 0.9).Draw(t, "RH"))
		cipm, err1 := a.CIPM2007(airflow.DefaultCO2)
		simple, err2 := a.Density()
		oiml, err3 := a.OIML()
		if err := errors.Join(err1, err2, err3); err != nil {
			t.Fatal(err)
		}
		near(t, "ideal mixture against CIPM-2007", simple.KgM3(), cipm.KgM3(), 5.5e-4)
		near(t, "OIML against CIPM-2007", oiml.KgM3(), cipm.KgM3(), 3e-4)
	})
}

func TestDensityRefused(t *testing.T) {
	for name, a := range map[string]airflow.Air{
		"nothing known": {}, "humidity in percent": air(20, 101325, 50), "kelvin as celsius": air(293, 101325, 0.5),
		"hPa as Pa": air(20, 1013, 0.5), "not a number": air(20, 101325, math.NaN()),
	} {
		_, err1 := a.CIPM2007(airflow.DefaultCO2)
		_, err2 := a.Density()
		_, err3 := a.OIML()
		if err1 == nil || err2 == nil || err3 == nil {
			t.Errorf("%s: accepted", name)
		}
	}
}

func TestBench(t *testing.T) {
	built := quantity.KilogramsPerCubicMetre(1.2041)
	actual := quantity.KilogramsPerCubicMetre(1.1118)
	for _, tt := range []struct {
		name  string
		bench airflow.Bench
		want  float64
		u     float64
		err   error
	}{
		{"fixed density", airflow.Bench{Meter: airflow.FixedDensity, Assumed: built}, 260.1704403502061, 0.015, nil},
		{"comparison", airflow.Bench{}, 250, 0, nil},
		{"mass sensor", airflow.Bench{Meter: airflow.MassSensor}, 0, 0, airflow.ErrNoDensity},
		{"density not stated", airflow.Bench{Meter: airflow.FixedDensity}, 0, 0.015, airflow.ErrNoAssumed},
	} {
		got, err := tt.bench.Correct(cfm(250), actual)
		if !errors.Is(err, tt.err) {
			t.Errorf("%s: %v, want %v", tt.name, err, tt.err)
		}
		near(t, tt.name, got.CFM(), tt.want, closedForm)
		if u, _ := tt.bench.WithoutWeather(); u != tt.u {
			t.Errorf("%s: u without weather %g, want %g", tt.name, u, tt.u)
		}
	}
	if _, err := (airflow.Bench{Meter: airflow.FixedDensity, Assumed: built}).Correct(cfm(250), 0); !errors.Is(err, airflow.ErrNoDensity) {
		t.Errorf("no weather: %v", err)
	}
}
