package value_test

import (
	"errors"
	"math"
	"slices"
	"testing"

	"github.com/shopspring/decimal"
	"pgregory.net/rapid"

	"flowshelf/analysis/quantity"
	"flowshelf/analysis/value"
)

// Tolerances: closedForm relative; the shop's figures are printed to the cent
// and to whole dollars.
const (
	closedForm = 1e-9
	cent       = 0.005
	dollars    = 3
	rateTol    = 0.05
)

// failer is what testing and rapid share.
type failer interface {
	Helper()
	Errorf(format string, args ...any)
}

func near(t failer, what string, got, want, tol float64) {
	t.Helper()
	if !(math.Abs(got-want) <= tol) {
		t.Errorf("%s = %.12g, want %.12g within %g", what, got, want, tol)
	}
}

func offer(name string, cost, flow float64) value.Offer {
	return value.Offer{Name: name, Cost: quantity.Dollars(cost), Flow: quantity.CFM(flow)}
}

// seven is a worked shelf: C is beaten by B, E by extension.
func seven() []value.Offer {
	return []value.Offer{
		offer("T", 450, 150), offer("A", 900, 205), offer("B", 1200, 218), offer("C", 1250, 216),
		offer("D", 1900, 232), offer("E", 1500, 221), offer("F", 3200, 240),
	}
}

// smallEight is a family of an invented shop with its usable costs, working
// averages, and what comes beside the sell price.
func smallEight() (offers []value.Offer, beside []float64) {
	for _, h := range []struct {
		name               string
		cost, flow, beside float64
	}{
		{"LKC-12", 1249, 211.96, 0}, {"VR-84 vj", 1259, 203.64, 260}, {"PW-33", 1399, 207.95, 0},
		{"VR-84", 999, 191.89, 0}, {"VR-84 vj+blend", 1579, 211.95, 580}, {"LKC-07", 879, 178.80, 180},
		{"PW-31", 1359, 197.39, 210}, {"OB-4", 2349, 231.52, 0}, {"VR-81", 2189, 216.17, 1010},
	} {
		offers = append(offers, offer(h.name, h.cost, h.flow))
		beside = append(beside, h.beside)
	}
	return offers, beside
}

func names(offers []value.Offer, indices []int) string {
	s := ""
	for _, i := range indices {
		s += offers[i].Name + " "
	}
	return s
}

func frontierNames(offers []value.Offer, steps []value.Step) string {
	var indices []int
	for _, s := range steps {
		indices = append(indices, s.Offer)
	}
	return names(offers, indices)
}

func TestPerCFM(t *testing.T) {
	want := []float64{3.0, 4.390243902439025, 5.504587155963303, 5.787037037037037, 8.189655172413794, 6.787330316742081, 13.333333333333334}
	for i, o := range seven() {
		got, _, err := o.PerCFM()
		if err != nil {
			t.Fatal(err)
		}
		near(t, o.Name, float64(got), want[i], closedForm)
	}
	o := offer("uncertain", 1200, 218.01666666666668)
	o.U = quantity.CFM(0.7383986874048446)
	v, u, err := o.PerCFM()
	if err != nil {
		t.Fatal(err)
	}
	near(t, "ratio", float64(v), 5.504166348138521, closedForm)
	near(t, "its uncertainty, JCGM 100 eq. 12", float64(u), 0.01864201149785216, closedForm)
}

func TestPareto(t *testing.T) {
	got, err := value.Pareto(seven())
	if err != nil {
		t.Fatal(err)
	}
	if n := names(seven(), got); n != "T A B E D F " {
		t.Errorf("Pareto set %q", n)
	}
	twins := []value.Offer{offer("x", 1000, 200), offer("y", 1000, 200), offer("z", 1000, 199)}
	got, err = value.Pareto(twins)
	if err != nil || names(twins, got) != "x y " {
		t.Errorf("equal offers: %q, %v", names(twins, got), err)
	}
}

// TestFrontier: the incremental cost-effectiveness method (PMC 4626430).
func TestFrontier(t *testing.T) {
	for _, tt := range []struct {
		atLeast float64
		names   string
		rates   []float64
	}{
		{0, "T A B D F ", []float64{8.181818181818182, 23.076923076923077, 50, 162.5}},
		{200, "A B D F ", []float64{23.076923076923077, 50, 162.5}},
		{241, "", nil},
	} {
		steps, err := value.Frontier(seven(), quantity.CFM(tt.atLeast))
		if err != nil {
			t.Fatal(err)
		}
		if n := frontierNames(seven(), steps); n != tt.names {
			t.Fatalf("frontier from %g cfm: %q, want %q", tt.atLeast, n, tt.names)
		}
		for i, want := range tt.rates {
			near(t, "dollars an extra cfm", float64(steps[i+1].PerExtra), want, closedForm)
			near(t, "best from", float64(steps[i+1].BestFrom), want, closedForm)
			near(t, "best to", float64(steps[i].BestTo), want, closedForm)
		}
		if n := len(steps); n > 0 && (steps[0].BestFrom != 0 || !math.IsInf(float64(steps[n-1].BestTo), 1)) {
			t.Error("the ends of the frontier are open")
		}
	}
}

func TestFrontierNoise(t *testing.T) {
	a, b := offer("a", 900, 205), offer("b", 1200, 206)
	a.U, b.U = 1, 1
	steps, err := value.Frontier([]value.Offer{a, b}, 0)
	if err != nil || len(steps) != 2 {
		t.Fatal(steps, err)
	}
	if steps[1].Distinct {
		t.Error("1 cfm with u 1.4 is called distinct")
	}
	near(t, "u of the step", float64(steps[1].U), 300*math.Sqrt2, 1e-9)
	b.Flow = 210
	if steps, err = value.Frontier([]value.Offer{a, b}, 0); err != nil || !steps[1].Distinct {
		t.Error("5 cfm with u 1.4 is not distinct", err)
	}
}

func TestSmallEight(t *testing.T) {
	offers, beside := smallEight()
	steps, err := value.Frontier(offers, 0)
	if err != nil {
		t.Fatal(err)
	}
	if n := frontierNames(offers, steps); n != "LKC-07 VR-84 LKC-12 OB-4 " {
		t.Fatalf("frontier %q", n)
	}
	for i, want := range []float64{9.17, 12.46, 56.22} {
		near(t, "best buy limit", float64(steps[i].BestTo), want, rateTol)
	}
	base := offers[5]
	leader := offers[0]
	for i, want := range []struct{ perCFM, perExtra, at25, tie float64 }{
		{5.89, 11.16, 4050, none}, {6.18, 15.29, 3832, 781}, {6.73, 17.84, 3800, 1149}, {5.21, 9.17, 3798, 747},
		{7.45, 21.12, 3720, 669}, {4.92, none, 3591, none}, {6.88, 25.81, 3576, 675}, {10.15, 27.88, 3439, 1738}, {10.13, 35.06, 3215, 344},
	} {
		o := offers[i]
		t.Run(o.Name, func(t *testing.T) {
			rate, _, err := o.PerCFM()
			if err != nil {
				t.Fatal(err)
			}
			near(t, "dollars per cfm", float64(rate), want.perCFM, 2*cent)
			extra, ok := o.PerExtraCFM(base)
			if ok != !math.IsNaN(want.perExtra) {
				t.Errorf("dollars an extra cfm stated: %v", ok)
			} else if ok {
				near(t, "dollars an extra cfm", float64(extra), want.perExtra, rateTol)
			}
			near(t, "value at $25", o.At(25).Value, want.at25, dollars)
			if math.IsNaN(want.tie) {
				return
			}
			tie, err := value.TiePrice(o.Flow, quantity.Dollars(beside[i]), leader, 25)
			if err != nil {
				t.Fatal(err)
			}
			near(t, "sell price that ties the leader", tie.Float(), want.tie, dollars)
		})
	}
}

var none = math.NaN()

func TestNetBenefitAndBreakEven(t *testing.T) {
	s := seven()
	for i, want := range map[int]float64{1: 0, 2: 220, 3: 90, 4: 80, 5: 40, 6: -900} {
		near(t, s[i].Name, s[i].NetBenefit(s[1], 40), want, closedForm)
	}
	cost, err := value.TieCost(s[4].Flow, s[2], 40)
	if err != nil {
		t.Fatal(err)
	}
	near(t, "D against B at $40", cost.Float(), 1760, closedForm)
	ratio, err := value.RatioTiePrice(s[4].Flow, quantity.Dollars(0), s[1])
	if err != nil {
		t.Fatal(err)
	}
	near(t, "D against A by ratio", ratio.Float(), 1018.54, cent)
	if _, err := value.TiePrice(s[4].Flow, quantity.Of(decimal.NewFromInt(5), "EUR"), s[2], 40); !errors.Is(err, value.ErrCurrency) {
		t.Errorf("euro beside dollars: %v", err)
	}
	if _, err := value.TieCost(s[4].Flow, s[2], value.Rate(math.Inf(1))); !errors.Is(err, value.ErrFlow) {
		t.Errorf("endless worth: %v", err)
	}
}

func TestRefusals(t *testing.T) {
	for name, o := range map[string]value.Offer{
		"no price": offer("x", 0, 200), "negative price": offer("x", -5, 200), "no flow": offer("x", 900, 0),
		"flow not a number": offer("x", 900, math.NaN()),
	} {
		if _, _, err := o.PerCFM(); err == nil {
			t.Errorf("%s: no error", name)
		}
		if _, err := value.Frontier([]value.Offer{o}, 0); err == nil {
			t.Errorf("%s: frontier without error", name)
		}
	}
	euro := value.Offer{Name: "e", Cost: quantity.Of(decimal.NewFromInt(900), "EUR"), Flow: 200}
	if _, err := value.Pareto([]value.Offer{offer("d", 900, 200), euro}); !errors.Is(err, value.ErrCurrency) {
		t.Errorf("mixed currencies: %v", err)
	}
	if steps, err := value.Frontier(nil, 0); err != nil || len(steps) != 0 {
		t.Error("no offers:", steps, err)
	}
}

// The sweep by cost must find what looking at every pair finds.
func TestParetoAgreesWithEveryPair(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		offers := rapid.SliceOfN(rapid.Custom(func(t *rapid.T) value.Offer {
			return value.Offer{
				Cost: quantity.Dollars(float64(rapid.IntRange(1, 12).Draw(t, "cost"))),
				Flow: quantity.CFM(float64(rapid.IntRange(1, 12).Draw(t, "flow"))),
			}
		}), 1, 25).Draw(t, "offers")
		got, err := value.Pareto(offers)
		if err != nil {
			t.Fatal(err)
		}
		for i, o := range offers {
			beaten := slices.ContainsFunc(offers, func(b value.Offer) bool { return value.Beaten(o, b) })
			if slices.Contains(got, i) == beaten {
				t.Fatalf("offer %d of %v: beaten %v, in the set %v", i, offers, beaten, !beaten)
			}
		}
	})
}
