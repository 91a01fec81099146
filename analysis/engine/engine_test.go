package engine_test

import (
	"errors"
	"math"
	"testing"

	"flowshelf/analysis/airflow"
	"flowshelf/analysis/engine"
	"flowshelf/analysis/quantity"
)

const (
	closedForm = 1e-9
	printed    = 1e-3
)

func near(t *testing.T, what string, got, want, rel float64) {
	t.Helper()
	if !(math.Abs(got-want) <= rel*math.Abs(want)) {
		t.Errorf("%s = %.12g, want %.12g", what, got, want)
	}
}

func of(bore, stroke, rpm float64) engine.Engine {
	return engine.Engine{Bore: quantity.Inches(bore), Stroke: quantity.Inches(stroke), Cylinders: 8, RPM: rpm}
}

func at28() quantity.Pressure { return quantity.InchesOfWater(28) }

// TestMachIndex: Z = Ap Cm/(a (mu F)m), evaluated apart from this code.
func TestMachIndex(t *testing.T) {
	for _, tt := range []struct {
		engine            engine.Engine
		flow, z, r05, r06 float64
		tol               float64
	}{
		{of(4.125, 4, 6500), 230, 0.5436021888776504, 5978.636706209959, 7174.36404745195, 1e-7},
		{of(3.5, 3.5, 5000), 110, 0.5507686744181528, 4539.110730364375, 5446.932876437249, 1e-7},
		{of(4.03, 3.75, 6000), 198.85, 0.51934, 5777, 6932, 1e-4},
	} {
		q := quantity.CFM(tt.flow)
		z, err := tt.engine.MachIndex(q, at28(), engine.SoundAt20C())
		if err != nil {
			t.Fatal(err)
		}
		near(t, "Z", z, tt.z, tt.tol)
		for limit, want := range map[float64]float64{0.5: tt.r05, 0.6: tt.r06} {
			rpm, err := tt.engine.RPMAt(limit, q, at28(), engine.SoundAt20C())
			if err != nil {
				t.Fatal(err)
			}
			near(t, "rpm", rpm, want, tt.tol)
		}
	}
	near(t, "speed of sound at 20 C", engine.SoundAt20C().FtS(), 1126.0989729944006, closedForm)
}

func TestPortSpeed(t *testing.T) {
	for _, tt := range []struct {
		engine             engine.Engine
		section, mean, air float64
	}{
		{of(4.03, 3.75, 6000), 2.2, 362.37423386140955, 586.3334011363637},
		{of(4.125, 4, 6500), 2.6, 371.22335066832517, 600.6515625000001},
		{of(3.5, 3.5, 5000), 1.5, 311.79579866357034, 504.4958333333334},
	} {
		a := quantity.SquareInches(tt.section)
		mean, err := tt.engine.MeanPortSpeed(a)
		if err != nil {
			t.Fatal(err)
		}
		air, err := tt.engine.AirSpeed(a)
		if err != nil {
			t.Fatal(err)
		}
		near(t, "mean", mean.FtS(), tt.mean, closedForm)
		near(t, "air speed", air.FtS(), tt.air, closedForm)
		near(t, "trade's over mean", float64(air/mean), 1.618, printed)
	}
	// Continuity in other units: the piston's displacement a second through the section.
	e := of(4, 3, 3600)
	got, err := e.MeanPortSpeed(quantity.SquareInches(2))
	if err != nil {
		t.Fatal(err)
	}
	perSecond := airflow.Circle(e.Bore).In2() * 3 * 2 * 60 // in3, two strokes a turn
	near(t, "continuity", got.FtS(), perSecond/2/12, closedForm)
}

// TestAirSpeedOfAShelf: a 331 at 6,500 with the ports of an invented shop.
func TestAirSpeedOfAShelf(t *testing.T) {
	e := of(4.030, 3.250, 6500)
	for section, want := range map[float64]struct {
		speed float64
		size  engine.Size
	}{
		1.83: {662, engine.Choked}, 2.04: {594, engine.Right}, 2.14: {566, engine.Right}, 2.55: {475, engine.Lazy},
		2.20: {551, engine.Right}, 2.10: {577, engine.Right}, 2.06: {588, engine.Right},
	} {
		v, err := e.AirSpeed(quantity.SquareInches(section))
		if err != nil {
			t.Fatal(err)
		}
		if math.Abs(v.FtS()-want.speed) > 1 {
			t.Errorf("%g in2: %.1f ft/s, want %g", section, v.FtS(), want.speed)
		}
		if got := engine.DefaultSpeedWindow().Judge(v); got != want.size {
			t.Errorf("%g in2: %s, want %s", section, got, want.size)
		}
	}
	for v, want := range map[float64]string{499.9: "lazy", 500: "right", 640: "right", 640.1: "choked"} {
		if got := engine.DefaultSpeedWindow().Judge(quantity.FeetPerSecond(v)).String(); got != want {
			t.Errorf("%g ft/s is %s, want %s", v, got, want)
		}
	}
}

func TestDemand(t *testing.T) {
	e := of(1, 1, 6500)
	e.Bore = quantity.Inches(math.Sqrt(383 / (8 * 3.5) * 4 / math.Pi))
	e.Stroke = quantity.Inches(3.5)
	near(t, "displacement", e.Displacement().In3(), 383, closedForm)
	near(t, "383 at 6500, VE 1.05", e.Demand(1.05).CFM(), 756.3585069444445, closedForm)
	e.Bore = quantity.Inches(math.Sqrt(350 / (8 * 3.5) * 4 / math.Pi))
	e.RPM = 6000
	near(t, "350 at 6000", e.Demand(1).CFM(), 607.64, 1e-5)
}

func TestPower(t *testing.T) {
	rule := engine.DefaultPowerRule()
	q, low, high, err := rule.FlowFor(500, 8)
	if err != nil {
		t.Fatal(err)
	}
	near(t, "flow for 500 hp", q.CFM(), 243.19066147859922, closedForm)
	near(t, "least", low.CFM(), 217, printed*2)
	near(t, "most", high.CFM(), 276, printed*2)
	near(t, "power of that flow", rule.Power(q, 8), 500, closedForm)
	near(t, "k at 10 inH2O", rule.AtPressure(quantity.InchesOfWater(10)).K, 0.43004306325, 1e-5)
	near(t, "worth of a cfm at $15 a horsepower", rule.WorthOfCFM(15, 8), 30.84, closedForm)
	if _, _, _, err := rule.FlowFor(0, 8); err == nil {
		t.Error("no power: no error")
	}
}

// TestAirFor: definitions, 0.0765 lb/ft3.
func TestAirFor(t *testing.T) {
	rho := quantity.PoundsPerCubicFoot(0.0765)
	for _, tt := range []struct{ bsfc, afr, bsac, perHP, use float64 }{
		{0.45, 12.8, 5.76, 1.254901960784314, 0.3225098039215687},
		{0.5, 12.5, 6.25, 1.3616557734204795, 0.3499455337690632},
	} {
		a := engine.AirFor(tt.bsfc, tt.afr, rho)
		near(t, "BSAC", a.BSAC, tt.bsac, closedForm)
		near(t, "cfm per hp", a.CFMPerHP, tt.perHP, closedForm)
		near(t, "utilisation", a.Utilisation(0.257), tt.use, closedForm)
	}
}

func TestExhaustToIntake(t *testing.T) {
	for _, tt := range []struct {
		e, i, want float64
		unusual    bool
	}{{190, 250, 0.76, false}, {149, 250, 0.596, true}, {150, 250, 0.6, false}, {251, 250, 1.004, true}} {
		got, ok := engine.ExhaustToIntake(quantity.CFM(tt.e), quantity.CFM(tt.i))
		if !ok || got.Unusual != tt.unusual {
			t.Errorf("%g/%g: %v %v", tt.e, tt.i, got, ok)
		}
		near(t, "ratio", got.Ratio, tt.want, closedForm)
	}
	if _, ok := engine.ExhaustToIntake(0, 250); ok {
		t.Error("no exhaust has a ratio")
	}
}

func TestRefusals(t *testing.T) {
	if _, err := of(4, 0, 6000).AirSpeed(2); !errors.Is(err, engine.ErrEngine) {
		t.Errorf("no stroke: %v", err)
	}
	if _, err := of(4, 3, 6000).AirSpeed(0); !errors.Is(err, engine.ErrSection) {
		t.Errorf("no section: %v", err)
	}
	if _, err := of(4, 3, 0).MeanPortSpeed(2); !errors.Is(err, engine.ErrEngine) {
		t.Errorf("no speed: %v", err)
	}
	if _, err := of(4, 3, 6000).MachIndex(0, at28(), engine.SoundAt20C()); err == nil {
		t.Error("no flow: no error")
	}
}
