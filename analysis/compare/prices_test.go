package compare_test

import (
	"math"
	"slices"
	"strings"
	"testing"

	"flowshelf/analysis/compare"
	"flowshelf/analysis/head"
	"flowshelf/analysis/quantity"
)

// TestReworkOrBuy: 260 for 11.75 cfm is 22.12 a cfm; LKC-12 costs 250 more than
// the untouched VR-84 and flows 20.07 more, 12.46 a cfm; 260/12.46 = 20.87.
func TestReworkOrBuy(t *testing.T) {
	c := smallEight(nil)
	if len(c.Rework) != 2 {
		t.Fatalf("rework %+v", c.Rework)
	}
	r := c.Rework[0]
	if r.Label != "VR-84 + valve job" || r.Base != "VR-84 as delivered" || r.Better != "LKC-12" {
		t.Errorf("%s over %s against %s", r.Label, r.Base, r.Better)
	}
	near(t, "cost", r.Cost, 260, 0)
	near(t, "gain", r.Gain, 203.64-191.89, flowTol)
	near(t, "a cfm of work", r.PerCFM.Value, 260/(203.64-191.89), 3*extraTol)
	near(t, "a cfm bought", r.BetterPerCFM.Value, 12.46, extraTol)
	near(t, "gain that breaks even", r.BreakEven.Value, 260/12.46, flowTol)
	near(t, "u of a cfm, by the sum of squares", r.PerCFMU, r.PerCFM.Value*r.GainU/r.Gain, 1e-9)
	if want := "buying LKC-12 costs $12.46 a cfm: the work gained 12 cfm and would have to gain 21"; r.Words != want {
		t.Errorf("words %q, want %q", r.Words, want)
	}
	cheap := smallEight(func(r *head.Records, _ *head.Shop) {
		r.Rework = slices.Clone(r.Rework)
		r.Rework[0].Price.Value = quantity.Dollars(50) // 4 cfm break even
	})
	if got := cheap.Rework[0].Words; !strings.HasPrefix(got, "the work pays") {
		t.Errorf("50 for 12 cfm: %q", got)
	}
	near8 := smallEight(func(r *head.Records, _ *head.Shop) {
		r.Rework = slices.Clone(r.Rework)
		r.Rework[0].Price.Value = quantity.Dollars(100)
	})
	if got := near8.Rework[0].Words; got != "the gain of 12 cfm is inside the noise of the 8 that break even with LKC-12" {
		t.Errorf("100 for 12 cfm: %q", got)
	}
	level := smallEight(func(r *head.Records, _ *head.Shop) {
		tests(r, "VR-84", head.Intake, func(t *head.Test) {
			if t.State == "Valve job" {
				for i, q := range []float64{57, 115, 171, 213, 223, 227, 223, 229, 230} {
					t.Readings[i].Flow.Value = quantity.CFM(q)
				}
			}
		})
	})
	i := slices.IndexFunc(level.Rework, func(r compare.ReworkOrBuy) bool { return r.Label == "VR-84 + valve job" })
	if got := level.Rework[i].Words; !strings.Contains(got, "not distinguishable from none") {
		t.Errorf("a gain of 1 cfm: %q", got)
	}
}

// TestFrontierSteps: m sqrt(u1^2 + u2^2)/dq (GUM eq. 12).
func TestFrontierSteps(t *testing.T) {
	c := smallEight(nil)
	if len(c.Frontier) != 4 {
		t.Fatalf("frontier %+v", c.Frontier)
	}
	s := c.Frontier[2]
	near(t, "m", s.Margin.Value, 12.46, extraTol)
	near(t, "u", s.U, 12.457*math.Hypot(41.7/25, 50.9/25)/20.07, 0.05) // u of the values over the worth
	if s.Label != "LKC-12" || s.Noise || !strings.HasPrefix(s.Words, "$12.46 ± $1.63 for each cfm over VR-84") {
		t.Errorf("step %+v", s)
	}
	level2 := smallEight(func(r *head.Records, _ *head.Shop) {
		r.Stock = slices.Clone(r.Stock)
		for i := range r.Stock {
			if r.Stock[i].Head == "VR-81" {
				r.Stock[i].Sell.Value = quantity.Dollars(300)
			}
		}
	})
	i := slices.IndexFunc(level2.Frontier, func(s compare.Step) bool { return s.Label == "VR-81" })
	if i < 0 || !level2.Frontier[i].Noise || !strings.HasPrefix(level2.Frontier[i].Words, "not distinguishable in flow from LKC-12") {
		t.Errorf("4 cfm over LKC-12 are inside the noise: %+v", level2.Frontier)
	}
}

// TestPricesBothWays: PW-31's ratio price is 197.39 x 1249 / 211.96 less the
// springs, and LKC-12 leads until its value is that of the second.
func TestPricesBothWays(t *testing.T) {
	c := smallEight(nil)
	near(t, "ratio", find(c, "PW-31").RatioTie.Value, 197.39*1249/211.96-210, 0.7)
	near(t, "value", find(c, "PW-31").TiePrice.Value, 675, wholeTol)
	near(t, "the leader leads up to", c.LeadsTo.Value, 1249+4050-3832, wholeTol)
	e := find(c, "LKC-12")
	near(t, "margin, of the sell price", e.Cost.Margin.Value, (1249.0-904)/1249, 1e-9)
	near(t, "markup, of the landed cost", e.Cost.Markup.Value, (1249.0-904)/904, 1e-9)
}
