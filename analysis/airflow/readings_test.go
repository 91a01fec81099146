package airflow_test

import (
	"errors"
	"testing"

	"flowshelf/analysis/airflow"
	"flowshelf/analysis/quantity"
)

// TestPipeOrifice: ISO 5167-2:2003 as coded in fluids
// (C_Reader_Harris_Gallagher, orifice_expansibility), iterated to rest; dry air
// at 101325 Pa, 1.2041 kg/m3, 1.813e-5 Pa s, 1500 Pa across the plate.
func TestPipeOrifice(t *testing.T) {
	stream := airflow.Stream{
		Pressure: pa(101325), Density: quantity.KilogramsPerCubicMetre(1.2041), ViscosityPaS: 1.813e-5, Gas: airflow.DryAir(),
	}
	for _, tt := range []struct {
		pipe, bore   float64 // mm
		taps         airflow.Taps
		c, eps, m, q float64
	}{
		{100, 20, airflow.CornerTaps, 0.6024573568587352, 0.9962761984272239, 0.011342154506627516, 19.959026973100933},
		{100, 50, airflow.CornerTaps, 0.6087094852225486, 0.9960725213552254, 0.07389876593273446, 130.04120704478757},
		{100, 60, airflow.DAndHalfTaps, 0.6126987019992929, 0.9957634667860527, 0.11112915071710024, 195.5562953550271},
		{100, 70, airflow.FlangeTaps, 0.6129400169681819, 0.9950611162606665, 0.16183310862005157, 284.78111263613897},
		{150, 75, airflow.CornerTaps, 0.6074987224486028, 0.9960725213552254, 0.16594149707732103, 292.01072990036363},
	} {
		got, err := airflow.PipeOrifice{Pipe: mm(tt.pipe), Bore: mm(tt.bore), Taps: tt.taps}.Read(pa(1500), stream)
		if err != nil {
			t.Fatal(err)
		}
		near(t, "C", got.C, tt.c, iterated)
		near(t, "expansibility", got.Expansibility, tt.eps, iterated)
		near(t, "mass flow", got.MassFlow.KgS(), tt.m, iterated)
		near(t, "flow", got.Flow.CFM(), tt.q, iterated)
	}
	for name, o := range map[string]airflow.PipeOrifice{
		"small bore": {Pipe: mm(50), Bore: mm(12)}, "small pipe": {Pipe: mm(40), Bore: mm(20)},
		"large beta": {Pipe: mm(100), Bore: mm(76)}, "nothing": {},
	} {
		_, err := o.Read(pa(1500), stream)
		wantErr(t, name, err)
	}
	plate := airflow.PipeOrifice{Pipe: mm(100), Bore: mm(20)}
	for name, drop := range map[string]float64{"no difference": 0, "slow stream": 0.5, "too large": 30000} {
		_, err := plate.Read(pa(drop), stream)
		wantErr(t, name, err)
	}
}

// TestFreeOrifice: air-box orifice, Martyr and Plint, Engine Testing.
func TestFreeOrifice(t *testing.T) {
	o := airflow.FreeOrifice{Diameter: in(2), Cd: airflow.DefaultCd}
	rho := quantity.KilogramsPerCubicMetre(1.2041)
	near(t, "6 inH2O, incompressible", o.Incompressible(inH2O(6), rho).CFM(), 128.38416464459613, closedForm)
	near(t, "28 inH2O, incompressible", o.Incompressible(inH2O(28), rho).CFM(), 277.341, 2e-6)
	near(t, "6 inH2O", o.Flow(inH2O(6), airflow.StandardAtmosphere(), rho).CFM(), 127.908, 4e-6)
	near(t, "28 inH2O", o.Flow(inH2O(28), airflow.StandardAtmosphere(), rho).CFM(), 272.507, 4e-6)
}

func TestManometer(t *testing.T) {
	for _, tt := range []struct {
		name string
		m    airflow.Manometer
		want float64
	}{
		{"light oil at 30 degrees", airflow.Manometer{SpecificGravity: 0.826, AngleDegrees: 30}, 4.13},
		{"with a well", airflow.Manometer{SpecificGravity: 1, AngleDegrees: 30, AreaRatio: 0.01}, 5.1},
		{"upright water", airflow.Manometer{SpecificGravity: 1, AngleDegrees: 90}, 10},
		{"scale already corrected", airflow.Manometer{SpecificGravity: 0.826, AngleDegrees: 30, ScaleCorrected: true}, 10},
	} {
		got, err := tt.m.Pressure(in(10))
		if err != nil {
			t.Fatal(err)
		}
		near(t, tt.name, got.InH2O(), tt.want, exact)
	}
	_, err := airflow.Manometer{}.Pressure(in(10))
	wantErr(t, "nothing known", err)
}

func TestPercentOfRange(t *testing.T) {
	r := airflow.Range{Full: cfm(400), At: inH2O(28), Scale: airflow.LinearInFlow}
	q, use, err := r.Flow(62.5, inH2O(28))
	if err != nil || use != airflow.WellOnScale {
		t.Fatal(use, err)
	}
	near(t, "linear in flow", q.CFM(), 250, exact)
	r.Scale = airflow.LinearInPressure
	if q, _, err = r.Flow(62.5, inH2O(28)); err != nil {
		t.Fatal(err)
	}
	near(t, "linear in pressure", q.CFM(), 316.22776601683796, exact)
	if q, _, err = r.Flow(100, inH2O(7)); err != nil {
		t.Fatal(err)
	}
	near(t, "a quarter of the pressure", q.CFM(), 200, exact)

	for percent, want := range map[float64]airflow.ScaleUse{29.9: airflow.LowOnScale, 30: airflow.WellOnScale, 100: airflow.WellOnScale, 100.1: airflow.AboveScale} {
		if _, use, _ := r.Flow(percent, inH2O(28)); use != want {
			t.Errorf("%g %%: use %d, want %d", percent, use, want)
		}
	}
	r.Scale = airflow.ScaleNotStated
	if _, _, err := r.Flow(50, inH2O(28)); !errors.Is(err, airflow.ErrScaleNotStated) {
		t.Errorf("scale not stated: %v", err)
	}
	_, _, err = airflow.Range{Full: cfm(400), Scale: airflow.LinearInFlow}.Flow(50, inH2O(28))
	wantErr(t, "range without a pressure", err)
}

// TestLeak: power law of cracks, exponent 0.5 to 1 (Dols and Walton).
func TestLeak(t *testing.T) {
	leak := airflow.Leak{Flow: cfm(2.4), At: inH2O(10)}
	for n, want := range map[float64]float64{0.5: 4.015968127363562, 0.65: 4.686665545650082, 1: 6.72} {
		got, err := leak.AtPressure(inH2O(28), n)
		if err != nil {
			t.Fatal(err)
		}
		near(t, "leak at 28 inH2O", got.CFM(), want, exact)
	}
	net, err := leak.Net(cfm(30), inH2O(10))
	if err != nil {
		t.Fatal(err)
	}
	near(t, "net", net.CFM(), 27.6, exact)
	_, err = leak.Net(cfm(2.4), inH2O(10))
	wantErr(t, "all leak", err)
	_, err = airflow.Leak{Flow: cfm(2)}.Net(cfm(30), inH2O(28))
	wantErr(t, "leak without a pressure", err)
	_, err = leak.AtPressure(inH2O(28), 1.2)
	wantErr(t, "exponent", err)
}

// TestAverage: ISO 5725-6, r = 2.8 s_r.
func TestAverage(t *testing.T) {
	got, err := airflow.Average([]quantity.Flow{251.0, 252.4}, 0.01)
	if err != nil {
		t.Fatal(err)
	}
	near(t, "mean", got.Mean.CFM(), 251.7, closedForm)
	near(t, "range", got.Range*100, 0.55621771950735, closedForm)
	if !got.Accepted {
		t.Error("0.56 % refused")
	}
	for _, tt := range []struct {
		readings []quantity.Flow
		accepted bool
	}{
		{[]quantity.Flow{250}, true},
		{[]quantity.Flow{250, 253}, false},
		{[]quantity.Flow{249, 250, 251.9}, true},    // 1.16 % of 3.3/2.8 %
		{[]quantity.Flow{249, 250, 252.1}, false},   // 1.24 %
		{[]quantity.Flow{249, 250, 250, 252}, true}, // 1.20 % of 3.6/2.8 %
	} {
		got, err := airflow.Average(tt.readings, 0.01)
		if err != nil || got.Accepted != tt.accepted {
			t.Errorf("%v: accepted %v, %v", tt.readings, got.Accepted, err)
		}
	}
	for _, bad := range [][]quantity.Flow{nil, {0}, {250, -1}, make([]quantity.Flow, 11)} {
		if _, err := airflow.Average(bad, 0.01); !errors.Is(err, airflow.ErrRepeats) {
			t.Errorf("%v: %v", bad, err)
		}
	}
}
