package compare_test

import (
	"fmt"
	"math"
	"slices"
	"strings"
	"testing"

	"github.com/shopspring/decimal"
	"pgregory.net/rapid"

	"flowshelf/analysis/compare"
	"flowshelf/analysis/compare/comparetest"
	"flowshelf/analysis/head"
	"flowshelf/analysis/quantity"
	"flowshelf/analysis/source"
)

// digest writes out everything a reader would see of a comparison.
func digest(c compare.Comparison) string {
	var b strings.Builder
	entry := func(e *compare.Entry) {
		fmt.Fprintf(&b, "%s|%c|%v|%+v|%v|%v|%v|%v|%v\n", e.Label, e.Grade, e.Flags, e.Place, e.Verdict, e.Reasons, e.Earlier, e.BeatenBy, e.Shape)
		fmt.Fprintf(&b, "  %v %v %v %v %v %v %v %v\n", e.Stock.OnHand, e.Cost, e.Value, e.ValueU, e.PerCFM, e.PerExtra, e.TiePrice, e.EI.Maybe)
		for _, p := range e.Intake.Points {
			fmt.Fprintf(&b, "  %v %v %v", p.Lift, p.Flow, p.U)
			for _, u := range p.From {
				fmt.Fprintf(&b, " %v", u.Reading.Flow.Trace.At)
			}
		}
		b.WriteByte('\n')
	}
	for _, list := range [][]compare.Entry{c.Ranked, c.Unpriced, c.BelowLine, c.Advertised} {
		b.WriteString("--\n")
		for i := range list {
			entry(&list[i])
		}
	}
	for _, n := range c.NotRanked {
		fmt.Fprintln(&b, n.Label, n.Reason, n.Held, n.Problems)
	}
	for _, g := range c.Gaps {
		fmt.Fprintln(&b, g.Head, g.Port, g.AtPeak, g.Explained)
	}
	fmt.Fprintln(&b, c.Suppliers, c.Frontier, c.Problems, c.Summary, c.Settings)
	return b.String()
}

func shuffled[T any](t *rapid.T, all []T) []T {
	if len(all) < 2 {
		return all
	}
	return rapid.Permutation(all).Draw(t, "order")
}

// crowded adds to the shelf what makes the order of reading tempting: copies,
// contradictions, two castings of one day, two stock books, heads of no family.
func crowded() head.Records {
	r, _, _ := comparetest.Shelf()
	for _, test := range slices.Clone(r.Tests) {
		if test.Class != head.Own {
			continue
		}
		switch {
		case test.State == "As del.":
			r.Tests = append(r.Tests, inFile(test, "a copy.xlsx"), inFile(lower(test, 0.99), "VR-84 old.xls"))
		case test.Head == "PW-33":
			r.Tests = append(r.Tests, inFile(lower(test, 0.96), "another.xlsx"))
		case test.Head == "OB-4":
			other := inFile(lower(test, 0.985), "OB-4 B.xlsx")
			other.Sample = "4-B"
			stray := inFile(test, "stray.xlsx")
			stray.Head = "XX-7"
			r.Tests = append(r.Tests, other, stray)
		case test.Head == "LKC-07":
			older := inFile(lower(test, 1.01), "LKC-07 2025.xlsx")
			older.Sample, older.Date.Value = "07-Z", test.Date.Value.AddDate(-1, 0, 0)
			r.Tests = append(r.Tests, older)
		}
	}
	for _, item := range slices.Clone(r.Stock) {
		item.Date.Value = item.Date.Value.AddDate(0, -1, 0)
		item.At.File = "a stock of January.xlsx"
		item.OnHand.Value++
		r.Stock = append(r.Stock, item)
	}
	return r
}

func TestOrderOfInputDoesNotMatter(t *testing.T) {
	_, shop, date := comparetest.Shelf()
	r := crowded()
	var want []string
	for _, c := range compare.All(r, shop, date) {
		want = append(want, digest(c))
	}
	rapid.Check(t, func(t *rapid.T) {
		mixed := head.Records{
			Tests: shuffled(t, r.Tests), Prices: shuffled(t, r.Prices), Stock: shuffled(t, r.Stock), Dimensions: shuffled(t, r.Dimensions),
			Extras: shuffled(t, r.Extras), Rework: shuffled(t, r.Rework), Notes: shuffled(t, r.Notes), Bench: shuffled(t, r.Bench),
		}
		for i, c := range compare.All(mixed, shop, date) {
			if got := digest(c); got != want[i] {
				t.Fatalf("%s differs:\n%s\nwant\n%s", c.Family.Name, got, want[i])
			}
		}
	})
}

// another adds a head that was not on the shelf, made from one that is.
func another(t *rapid.T, r head.Records, shop head.Shop) (head.Records, head.Shop) {
	scale := rapid.Float64Range(0.6, 1.3).Draw(t, "flow")
	cost := rapid.Float64Range(300, 4000).Draw(t, "cost")
	r.Tests = slices.Clone(r.Tests)
	for _, test := range r.Tests {
		if test.Head == "OB-4" && test.Class == head.Own {
			test = lower(test, scale)
			test.Head = "XX-9"
			r.Tests = append(r.Tests, test)
		}
	}
	book := comparetest.Sheet{File: "more.xlsx", Name: "Stock"}
	r.Stock = append(slices.Clone(r.Stock), head.StockItem{Head: "XX-9", Sell: book.Dollars(math.Round(cost)), SellBasis: head.Set})
	r.Dimensions = append(slices.Clone(r.Dimensions), head.Dimensions{Head: "XX-9", MaxLift: book.Inches(0.650)})
	shop.Heads = append(slices.Clone(shop.Heads), head.Listed{Name: "XX-9", Family: "Small Eight"})
	return r, shop
}

func TestAnotherHeadChangesNoScoreAndNoVerdictBetweenTwo(t *testing.T) {
	r, shop, date := comparetest.SmallEight()
	before := compare.All(r, shop, date)[0]
	rapid.Check(t, func(t *rapid.T) {
		more, moreShop := another(t, r, shop)
		after := compare.All(more, moreShop, date)[0]
		if len(after.Ranked) != len(before.Ranked)+1 {
			t.Fatalf("ranked %d", len(after.Ranked))
		}
		for i := range before.Ranked {
			a := &before.Ranked[i]
			b := find(after, a.Label)
			if b.Value != a.Value || b.ValueU != a.ValueU || b.Shape != a.Shape || b.PerCFM != a.PerCFM || b.PerExtra != a.PerExtra {
				t.Fatalf("%s changed: %v %v, was %v %v", a.Label, b.Value, b.Shape, a.Value, a.Shape)
			}
			for j := range before.Ranked {
				x, y := &before.Ranked[j], find(after, before.Ranked[j].Label)
				was, is := compare.ProbabilityBeats(a, x, before.Worth.PerCFM), compare.ProbabilityBeats(b, y, after.Worth.PerCFM)
				if was != is {
					t.Fatalf("%s against %s: %v, was %v", a.Label, x.Label, is, was)
				}
			}
		}
	})
}

func TestScalingEveryPriceKeepsTheOrder(t *testing.T) {
	r, shop, date := comparetest.SmallEight()
	before := compare.All(r, shop, date)[0]
	rapid.Check(t, func(t *rapid.T) {
		by := decimal.NewFromInt(rapid.Int64Range(1, 400).Draw(t, "hundredths")).Div(decimal.NewFromInt(100))
		scaled, scaledShop := r, shop
		times := func(m *source.Stated[quantity.Money]) { m.Value = m.Value.Scale(by) }
		scaled.Stock, scaled.Prices = slices.Clone(r.Stock), slices.Clone(r.Prices)
		scaled.Extras, scaled.Rework = slices.Clone(r.Extras), slices.Clone(r.Rework)
		for i := range scaled.Stock {
			times(&scaled.Stock[i].Sell)
		}
		for i := range scaled.Prices {
			times(&scaled.Prices[i].Amount)
			times(&scaled.Prices[i].Freight)
		}
		for i := range scaled.Extras {
			times(&scaled.Extras[i].Price)
		}
		for i := range scaled.Rework {
			times(&scaled.Rework[i].Price)
		}
		scaledShop.Families = slices.Clone(shop.Families)
		times(&scaledShop.Families[0].Worth)
		after := compare.All(scaled, scaledShop, date)[0]
		for i := range before.Ranked {
			a, b := before.Ranked[i], after.Ranked[i]
			if a.Label != b.Label || a.Place.Number != b.Place.Number || a.Place.Shared != b.Place.Shared || a.Place.Best != b.Place.Best || a.Place.Worst != b.Place.Worst {
				t.Fatalf("position %d: %s %+v, was %s %+v", i, b.Label, b.Place, a.Label, a.Place)
			}
		}
	})
}

// onTheLine is how much a reading that lies on the curve may move its averages:
// the slopes at its neighbours are taken over shorter steps.
const onTheLine = 0.002

func TestExtraReadingOnTheCurveLeavesTheArea(t *testing.T) {
	r, shop, date := comparetest.SmallEight()
	before := compare.All(r, shop, date)[0]
	rapid.Check(t, func(t *rapid.T) {
		lift := quantity.Inches(rapid.Float64Range(0.11, 0.64).Draw(t, "lift"))
		more := r
		more.Tests = slices.Clone(r.Tests)
		was := find(before, "PW-33")
		flow, ok := was.Intake.Curve.At(lift)
		if !ok {
			t.Fatal("the lift is off the curve")
		}
		for i := range more.Tests {
			if test := &more.Tests[i]; test.Head == "PW-33" && test.Port == head.Intake && test.Class == head.Own {
				extra := test.Readings[0]
				extra.Lift.Value, extra.Flow.Value = lift, flow
				test.Readings = append(slices.Clone(test.Readings), extra)
			}
		}
		is := find(compare.All(more, shop, date)[0], "PW-33")
		if a, b := is.Intake.MidArea.Value, was.Intake.MidArea.Value; math.Abs(a/b-1) > onTheLine {
			t.Fatalf("area %v, was %v, with a reading at %v", a, b, lift)
		}
		if a, b := is.Intake.Working.Value, was.Intake.Working.Value; math.Abs(a/b-1) > onTheLine {
			t.Fatalf("working average %v, was %v, with a reading at %v", a, b, lift)
		}
	})
}

func TestUnitsOfASheetDoNotMatter(t *testing.T) {
	r, shop, date := comparetest.Shelf()
	want := compare.All(r, shop, date)
	metric := r
	metric.Tests = slices.Clone(r.Tests)
	for i := range metric.Tests {
		test := &metric.Tests[i]
		test.Pressure.Value = quantity.Kilopascals(test.Pressure.Value.KPa())
		test.Bore.Value = quantity.Millimetres(test.Bore.Value.MM())
		test.Readings = slices.Clone(test.Readings)
		for j := range test.Readings {
			reading := &test.Readings[j]
			reading.Lift.Value = quantity.Millimetres(reading.Lift.Value.MM())
			reading.Flow.Value = quantity.CubicMetresPerHour(reading.Flow.Value.M3H())
			if reading.Row != nil {
				own := *reading.Row
				own.Value = quantity.Millibars(own.Value.Mbar())
				reading.Row = &own
			}
		}
	}
	for i, c := range compare.All(metric, shop, date) {
		for j, e := range c.Ranked {
			was := want[i].Ranked[j]
			if e.Label != was.Label || e.Verdict != was.Verdict || e.Place.Number != was.Place.Number || e.Grade != was.Grade {
				t.Errorf("%s: %s %+v, was %s %+v", c.Family.Name, e.Verdict, e.Place, was.Verdict, was.Place)
			}
			near(t, e.Label, e.Intake.Working.Value, was.Intake.Working.Value, 1e-9)
			near(t, e.Label, e.Shape.Score, was.Shape.Score, 1e-9)
		}
		if len(c.NotRanked) != len(want[i].NotRanked) || len(c.Problems) != len(want[i].Problems) {
			t.Errorf("%s: left out %v, problems %v", c.Family.Name, c.NotRanked, c.Problems)
		}
	}
}
