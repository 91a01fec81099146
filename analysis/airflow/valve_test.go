package airflow_test

import (
	"math"
	"slices"
	"testing"

	"pgregory.net/rapid"

	"flowshelf/analysis/airflow"
	"flowshelf/analysis/quantity"
)

// seat202 is a 2.02 in valve on a 0.060 in wide 45 degree seat face, 90 %
// throat, 11/32 in stem.
func seat202() airflow.Seat {
	return airflow.Seat{
		Valve: in(2.02), Width: airflow.RadialWidth(in(0.060), 45), AngleDegrees: 45, Throat: in(1.818), Stem: in(0.34375),
	}
}

// TestMinArea: Heywood (1988), eqs 6.7 to 6.9 (from memory).
func TestMinArea(t *testing.T) {
	metric := airflow.Seat{Valve: mm(51), Width: mm(1.2), AngleDegrees: 30, Throat: mm(45.9), Stem: mm(8)}
	for _, tt := range []struct {
		name  string
		seat  airflow.Seat
		lift  quantity.Length
		want  float64 // in2
		stage airflow.Stage
	}{
		{"closed", seat202(), 0, 0, airflow.SeatStage},
		{".050", seat202(), in(0.05), 0.2177176122525771, airflow.SeatStage},
		{".100", seat202(), in(0.1), 0.444317481209083, airflow.EdgeStage},
		{".200", seat202(), in(0.2), 1.013826225565197, airflow.EdgeStage},
		{".400", seat202(), in(0.4), 2.2370910001525246, airflow.EdgeStage},
		{".500", seat202(), in(0.5), 2.503032481733747, airflow.ThroatStage},
		{"10 mm", metric, mm(10), 1468.1736223749174 / 645.16, airflow.EdgeStage},
		{"15 mm", metric, mm(15), 1604.4192221699413 / 645.16, airflow.ThroatStage},
	} {
		got, stage, err := tt.seat.MinArea(tt.lift)
		if err != nil {
			t.Fatal(err)
		}
		near(t, tt.name, got.In2(), tt.want, 1e-8)
		if stage != tt.stage {
			t.Errorf("%s: stage %d, want %d", tt.name, stage, tt.stage)
		}
	}
	l1, l2, err := seat202().Stages()
	if err != nil {
		t.Fatal(err)
	}
	near(t, "L1", l1.In(), 0.08485281374238571, closedForm)
	near(t, "L2", l2.In(), 0.4430739593005954, closedForm)
}

// TestMinAreaIsTheSmallestFrustum searches every frustum between the seat's face
// and the valve's, which is what the formulas of the first two stages stand for.
func TestMinAreaIsTheSmallestFrustum(t *testing.T) {
	const steps = 400
	s := seat202()
	w, r := s.Width.In(), s.Valve.In()/2
	for _, lift := range []float64{0.03, 0.06, 0.08, 0.12, 0.2, 0.35} {
		least := math.Inf(1)
		for i := range steps + 1 {
			for j := range steps + 1 {
				// Both faces run outward and down at 45 degrees over the seat's width.
				a := r - w + w*float64(i)/steps // on the seat
				b := r - w + w*float64(j)/steps // on the valve
				rise := lift + (a - r + w) - (b - r + w)
				least = math.Min(least, math.Pi*(a+b)*math.Hypot(a-b, rise))
			}
		}
		got, _, err := s.MinArea(in(lift))
		if err != nil {
			t.Fatal(err)
		}
		near(t, "smallest frustum", got.In2(), least, 3e-4)
	}
}

// TestMinAreaRises: more lift never closes the valve, and the stages meet.
func TestMinAreaRises(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		d := rapid.Float64Range(1.2, 2.4).Draw(t, "valve")
		s := airflow.Seat{
			Valve: in(d), Width: in(d * rapid.Float64Range(0.01, 0.03).Draw(t, "width")),
			AngleDegrees: rapid.Float64Range(30, 55).Draw(t, "angle"),
			Throat:       in(d * rapid.Float64Range(0.8, 0.93).Draw(t, "throat")), Stem: in(0.3),
		}
		l1, l2, err := s.Stages()
		if err != nil {
			t.Fatal(err)
		}
		for _, l := range []quantity.Length{l1, l2} {
			before, _, err1 := s.MinArea(l)
			after, _, err2 := s.MinArea(l * (1 + 1e-9))
			if err1 != nil || err2 != nil {
				t.Fatal(err1, err2)
			}
			near(t, "the stages meet", after.In2(), before.In2(), 1e-6)
		}
		lift := in(rapid.Float64Range(0, 0.7).Draw(t, "lift"))
		low, _, err1 := s.MinArea(lift)
		high, _, err2 := s.MinArea(lift + in(0.01))
		if err1 != nil || err2 != nil {
			t.Fatal(err1, err2)
		}
		if high < low-1e-12 {
			t.Fatalf("%g in2 at %g, %g above", low, lift, high)
		}
	})
}

func TestMinAreaRefused(t *testing.T) {
	for name, change := range map[string]func(*airflow.Seat){
		"no seat width":         func(s *airflow.Seat) { s.Width = 0 },
		"flat seat":             func(s *airflow.Seat) { s.AngleDegrees = 0 },
		"upright seat":          func(s *airflow.Seat) { s.AngleDegrees = 90 },
		"throat over the valve": func(s *airflow.Seat) { s.Throat = in(2.1) },
		"stem over the throat":  func(s *airflow.Seat) { s.Stem = in(1.9) },
		"nothing":               func(s *airflow.Seat) { *s = airflow.Seat{} },
	} {
		s := seat202()
		change(&s)
		_, _, err := s.MinArea(in(0.2))
		wantErr(t, name, err)
	}
	_, _, err := seat202().MinArea(in(-0.1))
	wantErr(t, "negative lift", err)
}

func TestVelocityAndCeiling(t *testing.T) {
	one := quantity.SquareInches(1)
	near(t, "K at 28 inH2O, cfm/in2", airflow.Ideal(one, inH2O(28)).CFM(), 145.87368728849566, closedForm)
	near(t, "velocity at 28 inH2O", airflow.Velocity(inH2O(28), airflow.SeaLevelDensity()).FtS(), 350.10, 2e-5)
	at20 := airflow.DryAir().Density(airflow.StandardAtmosphere(), quantity.Celsius(20))
	near(t, "velocity at 20 C", airflow.Velocity(inH2O(28), at20).FtS(), 353.1, 1e-4)
	near(t, "isentropic at 20 C, inlet volume", airflow.Through(airflow.Velocity(inH2O(28), at20), one).CFM()*
		airflow.DryAir().NozzleExpansibility(1-inH2O(28).Pa()/101325, 0), 141.60533395936622, 1e-7)
	near(t, "Cf", airflow.HeadCoefficient(cfm(256), in(2.02), inH2O(28)), 0.5476087566346372, closedForm)
	near(t, "Cf of 480", airflow.HeadCoefficient(cfm(480), in(2.02), inH2O(28)), 1.0267664186899446, closedForm)
	near(t, "mean velocity", airflow.MeanVelocity(cfm(250), quantity.SquareInches(2)).FtS(), 300, exact)
	near(t, "curtain at a quarter of the diameter is the head", airflow.Curtain(in(2.02), in(0.505)).In2(),
		airflow.Circle(in(2.02)).In2(), exact)
	near(t, "Cd at the throat", airflow.ThroatCoefficient(cfm(256), in(1.818), in(0.34375), inH2O(28)),
		256/(145.87368728849566*2.503032481733747), closedForm)
	if !math.IsNaN(airflow.HeadCoefficient(cfm(256), 0, inH2O(28))) {
		t.Error("no valve has a coefficient")
	}
	ceiling, ok := airflow.CeilingOf(in(2.02), in(0.6), inH2O(28))
	if !ok {
		t.Fatal("no ceiling")
	}
	near(t, "2.02 in valve", ceiling.Flow.CFM(), 467.5, 1e-4)
}

func TestImpossible(t *testing.T) {
	for _, tt := range []struct {
		name           string
		q, valve, lift float64
		test           float64
		outlet         airflow.Outlet
		want           bool
	}{
		{"480 through a 2.02", 480, 2.02, 0.6, 28, airflow.Open, true},
		{"467 through a 2.02", 467, 2.02, 0.6, 28, airflow.Open, false},
		{"within 5 % of the curtain", 97, 2.02, 0.1, 28, airflow.Open, false},
		{"over 5 % of the curtain", 97.5, 2.02, 0.1, 28, airflow.Open, true},
		{"243 at .200 on a 2.250", 243, 2.250, 0.2, 28, airflow.Open, true},
		{"143 at .200 on a 2.250", 143, 2.250, 0.2, 28, airflow.Open, false},
		{"pipe, within 10 %", 101, 2.02, 0.1, 28, airflow.Piped, false},
		{"pipe, over 10 %", 102.5, 2.02, 0.1, 28, airflow.Piped, true},
		{"ordinary at 28 is impossible at 3", 250, 2.02, 0.5, 3, airflow.Open, true},
		{"valve not known", 2000, 0, 0.5, 28, airflow.Open, false},
		{"pressure not known", 2000, 2.02, 0.5, 0, airflow.Open, false},
	} {
		if got := airflow.Impossible(cfm(tt.q), in(tt.valve), in(tt.lift), inH2O(tt.test), tt.outlet); got != tt.want {
			t.Errorf("%s: %v", tt.name, got)
		}
	}
}

func TestSuspect(t *testing.T) {
	port := airflow.Port{Valve: in(2.02), Section: quantity.SquareInches(2.0), Test: inH2O(28)}
	for _, tt := range []struct {
		name    string
		lift, q float64
		want    []airflow.Suspicion
	}{
		{"ordinary", 0.3, 190, nil},
		{"low", 0.3, 115, []airflow.Suspicion{airflow.CurtainLow}},
		{"high", 0.1, 90, []airflow.Suspicion{airflow.CurtainHigh}},
		{"more than the section", 0.6, 300, []airflow.Suspicion{airflow.BeyondSection}},
		{"far too much", 0.6, 370, []airflow.Suspicion{airflow.HighCoefficient, airflow.BeyondSection, airflow.CurtainHigh}},
		{"below the bands", 0.05, 1, nil},
		{"beyond the bands", 0.9, 250, nil},
	} {
		if got := port.Suspect(in(tt.lift), cfm(tt.q)); !slices.Equal(got, tt.want) {
			t.Errorf("%s: %v, want %v", tt.name, got, tt.want)
		}
	}
	if got := (airflow.Port{Test: inH2O(28)}).Suspect(in(0.6), cfm(900)); got != nil {
		t.Errorf("nothing known: %v", got)
	}
}

func TestLooksLikeLowPressure(t *testing.T) {
	port := airflow.Port{Valve: in(2.02), Test: inH2O(28)}
	lifts := []quantity.Length{0.1, 0.2, 0.3, 0.4}
	at28 := []quantity.Flow{65, 130, 190, 232}
	at10 := make([]quantity.Flow, len(at28))
	for i, q := range at28 {
		at10[i] = q * quantity.Flow(math.Sqrt(10./28))
	}
	if port.LooksLikeLowPressure(lifts, at28) {
		t.Error("28 inH2O data are doubted")
	}
	if !port.LooksLikeLowPressure(lifts, at10) {
		t.Error("10 inH2O data called 28 pass")
	}
	if port.LooksLikeLowPressure(lifts[2:3], at10[2:3]) == true && float64(lifts[2]/port.Valve) >= 0.15 {
		t.Error("judged without a low lift")
	}
	if (airflow.Port{}).LooksLikeLowPressure(lifts, at10) {
		t.Error("judged without a valve")
	}
}

func TestThroatUnusual(t *testing.T) {
	for ratio, want := range map[float64]bool{0.81: true, 0.83: false, 0.90: false, 0.92: false, 0.94: true} {
		if got := airflow.ThroatUnusual(in(2.02*ratio), in(2.02)); got != want {
			t.Errorf("throat %g of the valve: %v", ratio, got)
		}
	}
	if airflow.ThroatUnusual(0, in(2.02)) {
		t.Error("a throat that is not known is unusual")
	}
}
