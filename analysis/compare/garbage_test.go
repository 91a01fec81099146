package compare_test

import (
	"math"
	"slices"
	"testing"

	"github.com/shopspring/decimal"
	"pgregory.net/rapid"

	"flowshelf/analysis/compare"
	"flowshelf/analysis/compare/comparetest"
	"flowshelf/analysis/head"
	"flowshelf/analysis/quantity"
)

func nonsense(t *rapid.T) float64 {
	return rapid.SampledFrom([]float64{math.NaN(), math.Inf(1), math.Inf(-1), -1, 0, 1e-300, 1e300, 4, 28, 250}).Draw(t, "nonsense")
}

// spoil changes a few figures of the shelf to nonsense.
func spoil(t *rapid.T, r *head.Records, s *head.Shop) {
	test := &r.Tests[rapid.IntRange(0, len(r.Tests)-1).Draw(t, "test")]
	test.Readings = slices.Clone(test.Readings)
	reading := &test.Readings[rapid.IntRange(0, len(test.Readings)-1).Draw(t, "reading")]
	family := &s.Families[rapid.IntRange(0, len(s.Families)-1).Draw(t, "family")]
	dims := &r.Dimensions[rapid.IntRange(0, len(r.Dimensions)-1).Draw(t, "dimensions")]
	item := &r.Stock[rapid.IntRange(0, len(r.Stock)-1).Draw(t, "stock")]
	x := nonsense(t)
	switch rapid.IntRange(0, 15).Draw(t, "what") {
	case 0:
		reading.Flow.Value = quantity.CFM(x)
	case 1:
		reading.Lift.Value = quantity.Inches(x)
	case 2:
		test.Pressure.Value = quantity.InchesOfWater(x)
	case 3:
		test.Bore.Value = quantity.Inches(x)
	case 4:
		test.Readings = test.Readings[:rapid.IntRange(1, len(test.Readings)).Draw(t, "kept")]
	case 5:
		family.RangeTo = quantity.Inches(x)
	case 6:
		family.RangeFrom, family.BandFrom = quantity.Inches(x), quantity.Inches(x)
	case 7:
		family.HeadsPerSet = rapid.IntRange(-1, 3).Draw(t, "heads")
	case 8:
		family.Worth.Value.Amount = decimal.NewFromInt(rapid.Int64Range(-3, 3).Draw(t, "worth"))
	case 9:
		family.ReferenceBore = quantity.Inches(x)
	case 10:
		dims.MinSection.Value, dims.Runner.Value = quantity.SquareInches(x), quantity.CubicCentimetres(x)
	case 11:
		dims.IntakeValve.Value, dims.MaxLift.Value = quantity.Inches(x), quantity.Inches(x)
	case 12:
		item.Sell.Value.Amount = decimal.NewFromInt(rapid.Int64Range(-1, 1).Draw(t, "sell"))
	case 13:
		family.EngineRPM.Value, family.Anchors.MidHigh = x, quantity.CFM(x)
	case 14:
		s.Rules.Repeatability, s.Rules.PortSpread = x, x
	case 15:
		s.Rules.TargetMargin, s.Rules.TieUntil, item.Sell.Known = x, x, false
	}
}

// Bad figures leave heads out; they never stop the comparison, and never place a
// head on a figure that is none.
func TestNonsenseNeverPanicsOrRanks(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		r, s, date := comparetest.Shelf()
		for range rapid.IntRange(1, 4).Draw(t, "changes") {
			spoil(t, &r, &s)
		}
		for _, c := range compare.All(r, s, date) {
			for _, e := range c.Ranked {
				for _, v := range []float64{e.Intake.Working.Value, e.Value.Value, e.PerCFM.Value} {
					if math.IsNaN(v) || math.IsInf(v, 0) {
						t.Fatalf("%s is ranked %+v on %v, %v, %v", e.Label, e.Place, e.Intake.Working, e.Value, e.PerCFM)
					}
				}
			}
		}
	})
}
