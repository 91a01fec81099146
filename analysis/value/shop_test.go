package value_test

import (
	"errors"
	"math"
	"math/rand/v2"
	"slices"
	"testing"

	"github.com/shopspring/decimal"
	"pgregory.net/rapid"

	"flowshelf/analysis/quantity"
	"flowshelf/analysis/value"
)

func dec(s string) decimal.Decimal { return decimal.RequireFromString(s) }

// TestMargin: definitions, worked by hand.
func TestMargin(t *testing.T) {
	cost := quantity.Dollars(840)
	price, err := value.PriceAtMargin(cost, dec("0.30"))
	if err != nil {
		t.Fatal(err)
	}
	near(t, "price at 30 % margin", price.Float(), 1200, closedForm)
	earned, err := value.Earn(price, cost)
	if err != nil {
		t.Fatal(err)
	}
	near(t, "margin", earned.Margin, 0.30, closedForm)
	near(t, "markup", earned.Markup, 0.4285714285714286, closedForm)

	price, err = value.PriceAtMarkup(cost, dec("0.30"))
	if err != nil {
		t.Fatal(err)
	}
	near(t, "price at 30 % markup", price.Float(), 1092, closedForm)
	if earned, err = value.Earn(price, cost); err != nil {
		t.Fatal(err)
	}
	near(t, "margin of 30 % markup", earned.Margin, 0.23076923076923075, closedForm)
	near(t, "markup of margin", value.MarkupOf(0.3), 0.4285714285714286, closedForm)
	near(t, "margin of markup", value.MarginOf(0.3), 0.23076923076923075, closedForm)

	for _, m := range []string{"1", "1.2"} {
		if _, err := value.PriceAtMargin(cost, dec(m)); !errors.Is(err, value.ErrMargin) {
			t.Errorf("margin %s: %v", m, err)
		}
	}
	if _, err := value.Earn(quantity.Dollars(0), cost); !errors.Is(err, value.ErrMargin) {
		t.Errorf("no price: %v", err)
	}
}

// TestRework: 900 for the casting, 8 h at 85, 40 of materials, one in twenty
// scrapped, 6 % of 205 cfm gained.
func TestRework(t *testing.T) {
	work := value.Rework{Hours: dec("8"), HourRate: quantity.Dollars(85), Materials: quantity.Dollars(40), Scrap: dec("0.05")}
	cost, err := work.Cost(quantity.Dollars(900))
	if err != nil {
		t.Fatal(err)
	}
	near(t, "expected cost", cost.Float(), 1705.26, cent)
	base := offer("A", 900, 205)
	done := value.Offer{Name: "reworked", Cost: cost, Flow: quantity.CFM(205 * 1.06)}
	extra, ok := done.PerExtraCFM(base)
	if !ok {
		t.Fatal("no gain")
	}
	near(t, "dollars an extra cfm", float64(extra), 65.47, cent)
	gain, ok := value.BreakEvenGain(cost, base, extra)
	if !ok {
		t.Fatal("no break-even")
	}
	near(t, "the gain breaks even at its own rate", gain, 0.06, closedForm)

	work.Scrap = dec("1")
	if _, err := work.Cost(quantity.Dollars(900)); !errors.Is(err, value.ErrScrap) {
		t.Errorf("all scrapped: %v", err)
	}
}

// Above the number of points of which every slope is written down, the counting
// gives the median of all of them.
func TestTheilSenOfMany(t *testing.T) {
	random := rand.New(rand.NewPCG(3, 5))
	for _, n := range []int{301, 302, 700} {
		x, y := make([]float64, n), make([]float64, n)
		for i := range x {
			x[i] = math.Round(180 + 60*random.Float64()) // many heads of one flow
			y[i] = 900 + 9*(x[i]-180) + 300*random.NormFloat64()
		}
		var slopes []float64
		for i := range x {
			for j := range i {
				if x[i] != x[j] {
					slopes = append(slopes, (y[i]-y[j])/(x[i]-x[j]))
				}
			}
		}
		slices.Sort(slopes)
		want := (slopes[(len(slopes)-1)/2] + slopes[len(slopes)/2]) / 2
		if got, ok := value.TheilSen(x, y); !ok || math.Abs(got-want) > 1e-9*math.Abs(want) {
			t.Errorf("%d points: slope %.15g, %t, want %.15g", n, got, ok, want)
		}
	}
	same := make([]float64, 400)
	if _, ok := value.TheilSen(same, same); ok {
		t.Error("a slope of points with one x")
	}
}

func TestTheilSen(t *testing.T) {
	// scipy.stats.theilslopes([1, 4, 4, 9, 12, 30], [0, 1, 2, 3, 3, 5]).
	got, ok := value.TheilSen([]float64{0, 1, 2, 3, 3, 5}, []float64{1, 4, 4, 9, 12, 30})
	if !ok {
		t.Fatal("no slope")
	}
	near(t, "slope", got, 4.5, closedForm)
	if _, ok := value.TheilSen([]float64{2, 2}, []float64{1, 5}); ok {
		t.Error("equal flows have a slope")
	}
	offers, _ := smallEight()
	if _, ok, err := value.GoingRate(offers[:3]); ok || err != nil {
		t.Error("three heads make a going rate", err)
	}
	if rate, ok, err := value.GoingRate(offers); err != nil || !ok || rate <= 0 {
		t.Error("no going rate", rate, ok, err)
	}
}

// genShelf draws a shelf of offers with whole dollars and tenths of a cfm.
func genShelf(t *rapid.T) []value.Offer {
	var offers []value.Offer
	for range rapid.IntRange(1, 12).Draw(t, "n") {
		cost := float64(rapid.IntRange(1, 5000).Draw(t, "cost"))
		flow := float64(rapid.IntRange(500, 4000).Draw(t, "flow")) / 10
		offers = append(offers, offer("", cost, flow))
	}
	return offers
}

// TestFrontierIsTheBestBuy: between its limits each offer of the frontier has
// the highest value of all.
func TestFrontierIsTheBestBuy(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		offers := genShelf(t)
		steps, err := value.Frontier(offers, 0)
		if err != nil {
			t.Fatal(err)
		}
		worth := value.Rate(rapid.Float64Range(0, 500).Draw(t, "worth"))
		for i, s := range steps {
			if i > 0 && s.PerExtra <= steps[i-1].BestFrom {
				t.Fatalf("step %d: %g an extra cfm after %g", i, s.PerExtra, steps[i-1].BestFrom)
			}
			if worth < s.BestFrom || worth > s.BestTo {
				continue
			}
			best := offers[s.Offer].At(worth).Value
			for j, o := range offers {
				if o.At(worth).Value > best+1e-6 {
					t.Fatalf("at %g offer %d beats the frontier's %d", worth, j, s.Offer)
				}
			}
		}
	})
}

// TestScalingPrices: scaling every price and the worth alike keeps the order.
func TestScalingPrices(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		offers := genShelf(t)
		factor := decimal.NewFromInt(int64(rapid.IntRange(1, 50).Draw(t, "factor")))
		scaled := make([]value.Offer, len(offers))
		for i, o := range offers {
			scaled[i] = o
			scaled[i].Cost = o.Cost.Scale(factor)
		}
		a, err := value.Frontier(offers, 0)
		if err != nil {
			t.Fatal(err)
		}
		b, err := value.Frontier(scaled, 0)
		if err != nil {
			t.Fatal(err)
		}
		if len(a) != len(b) {
			t.Fatalf("%d steps became %d", len(a), len(b))
		}
		for i := range a {
			if a[i].Offer != b[i].Offer {
				t.Fatalf("step %d changed", i)
			}
		}
	})
}

// TestTieCostTies: at its tie cost an offer has exactly the rival's value.
func TestTieCostTies(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		rival := genShelf(t)[0]
		flow := quantity.CFM(rapid.Float64Range(50, 400).Draw(t, "flow"))
		worth := value.Rate(rapid.Float64Range(1, 200).Draw(t, "worth"))
		cost, err := value.TieCost(flow, rival, worth)
		if err != nil {
			t.Fatal(err)
		}
		tied := value.Offer{Cost: cost, Flow: flow}
		near(t, "value", tied.At(worth).Value, rival.At(worth).Value, 1e-6)
	})
}
