package airflow_test

import (
	"math"
	"testing"

	"flowshelf/analysis/airflow"
)

// TestCalibratedOrifice holds the square root against ISO 5167-2:2003 as coded in
// fluids 1.0.22 (differential_pressure_meter_solver, corner taps): a plate of 50 mm
// in a pipe of 100 mm behind a port that is sucked at, air of 1.2041 kg/m3 at
// 101325 Pa and 1.813e-5 Pa s in the room, flows in the room's air.
func TestCalibratedOrifice(t *testing.T) {
	plate := airflow.CalibratedOrifice{Flow: cfm(125.47433746463474), Drop: pa(1500), Test: inH2O(28)}
	const coefficient = 0.01 // what the plate's coefficient and expansibility drift by
	for _, tt := range []struct{ drop, test, iso float64 }{
		{1500, 28, 125.47433746463474},
		{1000, 28, 102.71789887853733},
		{600, 28, 79.79395245761826},
		{300, 28, 56.63234857916056},
		{1000, 25, 103.123557600877},
		{1000, 20, 103.79610129799684},
		{1000, 10, 105.12816907255693},
	} {
		q, err := plate.Read(pa(tt.drop))
		if err != nil {
			t.Fatal(err)
		}
		near(t, "flow at the calibration's differential and others", q.CFM(), tt.iso, coefficient+plate.OffAt(inH2O(tt.test)))
		near(t, "once the air behind the port is allowed for", q.CFM()*(1+plate.OffAt(inH2O(tt.test))), tt.iso, coefficient)
	}
	// The same port on other days: 1.0 kg/m3 at 90 kPa, 1.3 kg/m3 at 104 kPa, its
	// flow brought to the calibration's air by the root of the density (fluids).
	q, _ := plate.Read(pa(1000))
	for _, iso := range []float64{102.26518749474148, 102.79811629579082} {
		near(t, "on another day", q.CFM(), iso, coefficient)
	}
	quarter, _ := plate.Read(pa(375))
	near(t, "a quarter of the differential", quarter.CFM(), plate.Flow.CFM()/2, exact)
	near(t, "at the calibration's own test pressure", 1+plate.OffAt(inH2O(28)), 1, exact)
}

func TestCalibratedOrificeRefuses(t *testing.T) {
	whole := airflow.CalibratedOrifice{Flow: cfm(150), Drop: inH2O(6), Test: inH2O(28)}
	for name, drop := range map[string]float64{"none": 0, "below zero": -1, "no number": math.NaN()} {
		_, err := whole.Read(inH2O(drop))
		wantErr(t, name, err)
	}
	_, err := airflow.CalibratedOrifice{Flow: cfm(150)}.Read(inH2O(3))
	wantErr(t, "calibrated at no differential", err)
}
