package geometry_test

import (
	"errors"
	"math"
	"testing"

	"flowshelf/analysis/geometry"
	"flowshelf/analysis/quantity"
)

const closedForm = 1e-10

func near(t *testing.T, what string, got, want, rel float64) {
	t.Helper()
	if !(math.Abs(got-want) <= rel*math.Abs(want)) {
		t.Errorf("%s = %.12g, want %.12g", what, got, want)
	}
}

func mm(x float64) quantity.Length { return quantity.Millimetres(x) }

// TestStemSaving: geometry, steel at 7.85e-3 g/mm3.
func TestStemSaving(t *testing.T) {
	stem := quantity.Inches(0.34375)
	near(t, "difference of areas", geometry.StemSavingPerMM(stem, mm(8)).G()/geometry.SteelGPerMM3, 9.609131771857465, closedForm)
	near(t, "100 mm", geometry.StemSaving(stem, mm(8), mm(100)).G(), 7.543168440908109, closedForm)
	near(t, "127 mm", geometry.StemSaving(stem, mm(8), mm(127)).G(), 9.579823919953299, closedForm)
	near(t, "105 mm to 7 mm", geometry.StemSaving(stem, mm(7), mm(105)).G(), 17.630793405658714, closedForm)
}

func valve(stem float64) geometry.Valve {
	return geometry.Valve{
		Head: mm(51.308), Stem: mm(stem), Length: mm(124.714), Margin: mm(1.4), SeatFace: mm(1.2),
		SeatDegrees: 45, BackDegrees: 12, Fillet: mm(12),
	}
}

// TestValveMass: the solid of revolution summed apart from this code with a
// fillet of sixty straight pieces.
func TestValveMass(t *testing.T) {
	const polygon = 1e-3
	for stem, want := range map[float64]float64{8.73125: 123.98552837197873, 8: 114.7} {
		got, err := valve(stem).Mass()
		if err != nil {
			t.Fatal(err)
		}
		near(t, "valve", got.G(), want, polygon)
	}
}

// TestValveMassBySlices integrates the profile numerically.
func TestValveMassBySlices(t *testing.T) {
	v := valve(8)
	sin, cos, tan := math.Sin(12*math.Pi/180), math.Cos(12*math.Pi/180), math.Tan(12*math.Pi/180)
	seat := 1.2 / math.Sqrt2
	r1, r2 := 25.654-seat, 4+12*(1-sin)
	cone := (r1 - r2) * tan
	radius := func(z float64) float64 { // from the valve's face upward
		switch z -= 1.4; {
		case z <= 0:
			return 25.654
		case z <= seat:
			return 25.654 - z
		case z <= seat+cone:
			return r1 - (z-seat)/tan
		case z <= seat+cone+12*cos:
			up := 12*cos - (z - seat - cone) // below the fillet's top
			return 16 - math.Sqrt(144-up*up)
		}
		return 4
	}
	const slices = 400000
	volume, h := 0.0, 124.714/slices
	for i := range slices {
		r := radius((float64(i) + 0.5) * h)
		volume += math.Pi * r * r * h
	}
	got, err := v.Mass()
	if err != nil {
		t.Fatal(err)
	}
	near(t, "by slices", got.G(), volume*geometry.SteelGPerMM3, 1e-5)
}

func TestValveRefused(t *testing.T) {
	for name, change := range map[string]func(*geometry.Valve){
		"nothing":           func(v *geometry.Valve) { *v = geometry.Valve{} },
		"stem over head":    func(v *geometry.Valve) { v.Stem = mm(60) },
		"fillet too large":  func(v *geometry.Valve) { v.Fillet = mm(40) },
		"shorter than head": func(v *geometry.Valve) { v.Length = mm(10) },
		"flat seat":         func(v *geometry.Valve) { v.SeatDegrees = 0 },
	} {
		v := valve(8)
		change(&v)
		if _, err := v.Mass(); !errors.Is(err, geometry.ErrSizes) {
			t.Errorf("%s: %v", name, err)
		}
	}
}

func TestSections(t *testing.T) {
	// 195 cc over 5.4 in: 195/16.387064/5.4 by hand.
	got, err := geometry.CheckSection(quantity.CubicCentimetres(195), quantity.Inches(5.4), quantity.SquareInches(2.14))
	if err != nil {
		t.Fatal(err)
	}
	near(t, "ratio", got.Ratio, 195/16.387064/5.4/2.14, 1e-12)
	if got.Unusual {
		t.Error("an ordinary runner is unusual")
	}
	if got, err = geometry.CheckSection(quantity.CubicCentimetres(195), quantity.Inches(5.4), quantity.SquareInches(1.5)); err != nil || !got.Unusual {
		t.Error("a section too small for its runner passes", err)
	}
	if _, err := geometry.CheckSection(0, 5, 2); !errors.Is(err, geometry.ErrSizes) {
		t.Errorf("no volume: %v", err)
	}
	if r, ok := geometry.ThroatRatio(quantity.Inches(1.79), quantity.Inches(2.02)); !ok || math.Abs(r-0.8861) > 1e-4 {
		t.Errorf("throat ratio %g %v", r, ok)
	}
	if _, ok := geometry.ThroatRatio(0, 2); ok {
		t.Error("no throat has a ratio")
	}
	if r, ok := geometry.FlowPerVolume(quantity.CFM(251), quantity.CubicCentimetres(178)); !ok || math.Abs(r-1.41) > 0.005 {
		t.Errorf("cfm per cc %g %v", r, ok)
	}
	if _, ok := geometry.FlowPerVolume(251, 0); ok {
		t.Error("no volume has cfm per cc")
	}
}
