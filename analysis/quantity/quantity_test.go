package quantity_test

import (
	"math"
	"testing"

	"github.com/shopspring/decimal"
	"pgregory.net/rapid"

	"flowshelf/analysis/quantity"
)

// Relative tolerances: exact factors to rounding, listed ones to their digits.
const (
	exact  = 1e-12
	listed = 1e-9
)

func near(t *testing.T, what string, got, want, tol float64) {
	t.Helper()
	if !(math.Abs(got-want) <= tol*math.Abs(want)) {
		t.Errorf("%s = %.15g, want %.15g within %g", what, got, want, tol)
	}
}

// TestFactors: NIST SP 811 (2008), appendix B.8 and B.9; NIST Handbook 44,
// appendix C; the exact definitions of inch, pound, foot and g_n.
func TestFactors(t *testing.T) {
	q := quantity.InchesOfWater(28)
	for _, tt := range []struct {
		what      string
		got, want float64
		tol       float64
	}{
		{"inH2O in Pa", quantity.InchesOfWater(1).Pa(), 249.08891, exact},
		{"inH2O at 4 C in Pa", quantity.InchesOfWater4C(1).Pa(), 249.082, listed},
		{"inH2O at 60 F in Pa", quantity.InchesOfWater60F(1).Pa(), 248.84, listed},
		{"inH2O at 68 F in Pa", quantity.InchesOfWater68F(1).Pa(), 248.642, 2e-6},
		{"28 inH2O in kPa", q.KPa(), 6.97448948, exact},
		{"28 inH2O in mbar", q.Mbar(), 69.7448948, exact},
		{"28 inH2O in psi", q.PSI(), 1.0115641760023433, exact},
		{"28 inH2O in mmH2O", q.MMH2O(), 711.2, exact},
		{"28 inH2O in inHg", q.InHg(), 2.0595655787747056, exact},
		{"1 inHg in Pa", quantity.InchesOfMercury(1).Pa(), 3386.38864034, exact},
		{"1 psi in Pa", quantity.PSI(1).Pa(), 6894.757293168361, exact},
		{"1 mbar in Pa", quantity.Millibars(1).Pa(), 100, exact},
		{"1 kPa in Pa", quantity.Kilopascals(1).Pa(), 1000, exact},
		{"1 mmH2O in Pa", quantity.MillimetresOfWater(1).Pa(), 9.80665, exact},

		{"250 cfm in L/s", quantity.CFM(250).LS(), 117.9868608, exact},
		{"100 L/s in cfm", quantity.LitresPerSecond(100).CFM(), 211.888000328, listed},
		{"1 cfm in m3/h", quantity.CFM(1).M3H(), 1.69901079552, exact},
		{"1 cfm in m3/min", quantity.CFM(1).M3Min(), 0.028316846592, exact},
		{"1 cfm in m3/s", quantity.CFM(1).M3S(), 0.0004719474432, exact},

		{"2.02 inches in mm", quantity.Inches(2.02).MM(), 51.308, exact},
		{"50 thou in mm", quantity.Thou(50).MM(), 1.27, exact},
		{"8 mm in inches", quantity.Millimetres(8).In(), 0.31496062992125984, exact},
		{"half an inch in thou", quantity.Inches(0.5).Thou(), 500, exact},
		{"2.2 in2 in cm2", quantity.SquareInches(2.2).CM2(), 14.19352, exact},
		{"1 in2 in mm2", quantity.SquareInches(1).MM2(), 645.16, exact},
		{"1 in3 in cc", quantity.CubicInches(1).CC(), 16.387064, exact},
		{"1 oz in g", quantity.Ounces(1).G(), 28.349523125, exact},
		{"1 lb in g", quantity.Pounds(1).G(), 453.59237, exact},
		{"1 lbf in N", quantity.PoundsForce(1).N(), 4.4482216152605, exact},
		{"350 ft/s in m/s", quantity.FeetPerSecond(350).MS(), 106.68, exact},

		{"25 C in K", quantity.Celsius(25).K(), 298.15, exact},
		{"68 F in C", quantity.Fahrenheit(68).C(), 20, exact},
		{"60 F in K", quantity.Fahrenheit(60).K(), 288.70555555555555, exact},
		{"20 C in F", quantity.Celsius(20).F(), 68, exact},
		{"0.075 lb/ft3 in kg/m3", quantity.PoundsPerCubicFoot(0.075).KgM3(), 1.20138, 1e-5},
		{"0.0765 lb/ft3 in kg/m3", quantity.PoundsPerCubicFoot(0.0765).KgM3(), 1.22541, 1e-5},
		{"1 kg/s in kg/h", quantity.KilogramsPerSecond(1).KgH(), 3600, exact},
		{"1 lb/min in kg/s", quantity.PoundsPerMinute(1).KgS(), 0.45359237 / 60, exact},
	} {
		near(t, tt.what, tt.got, tt.want, tt.tol)
	}
}

// TestMassFlow: a mass flow is a volume flow at a stated density only.
func TestMassFlow(t *testing.T) {
	m, ok := quantity.CFM(250).Mass(quantity.KilogramsPerCubicMetre(1.2041))
	if !ok {
		t.Fatal("no mass flow")
	}
	near(t, "250 cfm at 1.2041 kg/m3 in kg/h", m.KgH(), 511.444724721408, exact)
	q, ok := quantity.KilogramsPerHour(500).At(quantity.KilogramsPerCubicMetre(1.2))
	if !ok {
		t.Fatal("no flow")
	}
	near(t, "500 kg/h at 1.2 kg/m3 in cfm", q.CFM(), 245.24074112144856, exact)
	for _, rho := range []quantity.Density{0, -1, quantity.Density(math.NaN())} {
		if _, ok := quantity.KilogramsPerHour(500).At(rho); ok {
			t.Errorf("a volume at %v kg/m3", rho)
		}
		if _, ok := quantity.CFM(250).Mass(rho); ok {
			t.Errorf("a mass at %v kg/m3", rho)
		}
	}
}

// TestRoundTrips: into every unit and back is the same value.
func TestRoundTrips(t *testing.T) {
	trips := map[string]func(float64) float64{
		"thou": func(x float64) float64 { return quantity.Thou(quantity.Inches(x).Thou()).In() },
		"mm":   func(x float64) float64 { return quantity.Millimetres(quantity.Inches(x).MM()).In() },
		"cm2":  func(x float64) float64 { return quantity.SquareCentimetres(quantity.SquareInches(x).CM2()).In2() },
		"mm2":  func(x float64) float64 { return quantity.SquareMillimetres(quantity.SquareInches(x).MM2()).In2() },
		"in3":  func(x float64) float64 { return quantity.CubicInches(quantity.CubicCentimetres(x).In3()).CC() },
		"lb":   func(x float64) float64 { return quantity.Pounds(quantity.Grams(x).Lb()).G() },
		"oz":   func(x float64) float64 { return quantity.Ounces(quantity.Grams(x).Oz()).G() },
		"kg":   func(x float64) float64 { return quantity.Kilograms(quantity.Grams(x).G() / 1000).G() },
		"N":    func(x float64) float64 { return quantity.Newtons(quantity.PoundsForce(x).N()).Lbf() },

		"Pa":    func(x float64) float64 { return quantity.Pascals(quantity.InchesOfWater(x).Pa()).InH2O() },
		"kPa":   func(x float64) float64 { return quantity.Kilopascals(quantity.InchesOfWater(x).KPa()).InH2O() },
		"mbar":  func(x float64) float64 { return quantity.Millibars(quantity.InchesOfWater(x).Mbar()).InH2O() },
		"mmH2O": func(x float64) float64 { return quantity.MillimetresOfWater(quantity.InchesOfWater(x).MMH2O()).InH2O() },
		"inHg":  func(x float64) float64 { return quantity.InchesOfMercury(quantity.InchesOfWater(x).InHg()).InH2O() },
		"psi":   func(x float64) float64 { return quantity.PSI(quantity.InchesOfWater(x).PSI()).InH2O() },

		"L/s":    func(x float64) float64 { return quantity.LitresPerSecond(quantity.CFM(x).LS()).CFM() },
		"m3/h":   func(x float64) float64 { return quantity.CubicMetresPerHour(quantity.CFM(x).M3H()).CFM() },
		"m3/min": func(x float64) float64 { return quantity.CubicMetresPerMinute(quantity.CFM(x).M3Min()).CFM() },
		"m3/s":   func(x float64) float64 { return quantity.CubicMetresPerSecond(quantity.CFM(x).M3S()).CFM() },

		"lb/ft3": func(x float64) float64 {
			return quantity.PoundsPerCubicFoot(quantity.KilogramsPerCubicMetre(x).LbFt3()).KgM3()
		},
		"F":    func(x float64) float64 { return quantity.Fahrenheit(quantity.Kelvin(x).F()).K() },
		"C":    func(x float64) float64 { return quantity.Celsius(quantity.Kelvin(x).C()).K() },
		"kg/h": func(x float64) float64 { return quantity.KilogramsPerHour(quantity.KilogramsPerSecond(x).KgH()).KgS() },
	}
	rapid.Check(t, func(t *rapid.T) {
		x := rapid.Float64Range(1e-3, 1e5).Draw(t, "x")
		for unit, trip := range trips {
			if got := trip(x); math.Abs(got-x) > 1e-12*math.Max(x, 500) {
				t.Fatalf("%s: %.17g became %.17g", unit, x, got)
			}
		}
	})
}

func TestNear(t *testing.T) {
	if !quantity.Inches(0.5).Near(quantity.Millimetres(12.7), 1e-9) || quantity.Inches(0.5).Near(0.51, 0.009) {
		t.Error("near")
	}
}

func TestMoney(t *testing.T) {
	third := quantity.Of(decimal.RequireFromString("0.1"), "USD")
	sum := quantity.Zero("USD")
	for range 3 {
		var ok bool
		if sum, ok = sum.Add(third); !ok {
			t.Fatal("dollars do not add")
		}
	}
	if !sum.Amount.Equal(decimal.RequireFromString("0.3")) {
		t.Errorf("three dimes are %s", sum.Amount)
	}
	if _, ok := sum.Add(quantity.Of(decimal.NewFromInt(1), "EUR")); ok {
		t.Error("dollars and euros add")
	}
	if got, ok := (quantity.Money{}).Add(sum); !ok || got.Currency != "USD" {
		t.Errorf("nothing and dollars: %v, %v", got, ok)
	}
	if got, ok := sum.Add(quantity.Money{}); !ok || !got.Amount.Equal(sum.Amount) {
		t.Errorf("dollars and nothing: %v, %v", got, ok)
	}
	if got := quantity.Dollars(452).Times(2).Float(); got != 904 {
		t.Errorf("two at 452: %g", got)
	}
	// A chain of 50/10/5: 57.25 % off, not 65.
	price := quantity.Dollars(1000)
	for _, keep := range []string{"0.5", "0.9", "0.95"} {
		price = price.Scale(decimal.RequireFromString(keep))
	}
	if !price.Amount.Equal(decimal.RequireFromString("427.5")) {
		t.Errorf("chain: %s", price.Amount)
	}
}
