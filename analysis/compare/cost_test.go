package compare_test

import (
	"slices"
	"strings"
	"testing"

	"github.com/shopspring/decimal"

	"flowshelf/analysis/compare"
	"flowshelf/analysis/compare/comparetest"
	"flowshelf/analysis/head"
	"flowshelf/analysis/quantity"
)

// wants holds what a head without a usable cost is said to have none of, here and
// in the two sentences about it, and what would complete it.
func wants(t *testing.T, e *compare.Entry, without string, want ...string) {
	t.Helper()
	if e.Cost.Without() != without || !slices.Equal(e.Cost.Wants, want) {
		t.Errorf("%s has %s and wants %q, want %s and %q", e.Label, e.Cost.Without(), e.Cost.Wants, without, want)
	}
	if !strings.Contains(e.Verdict, "; "+without+": ") {
		t.Errorf("%s: %s", e.Label, e.Verdict)
	}
}

func TestCostRules(t *testing.T) {
	cases := []struct {
		name   string
		change func(r *head.Records, s *head.Shop)
		check  func(t *testing.T, c compare.Comparison)
	}{
		{"no sell price: proposed from the landed cost", func(r *head.Records, _ *head.Shop) {
			stock(r, "OB-4", func(s *head.StockItem) { s.Sell.Known = false })
		}, func(t *testing.T, c compare.Comparison) {
			e := find(c, "OB-4")
			near(t, "1880 / (1 - 0.25)", e.Cost.Usable.Value.Float(), 2506.67, 0.005)
			if !e.Cost.Proposed || !hasFlagCode(*e, "$") {
				t.Errorf("cost %+v", e.Cost)
			}
		}},
		{"a proposed price is raised to how prices end", func(r *head.Records, s *head.Shop) {
			stock(r, "OB-4", func(s *head.StockItem) { s.Sell.Known = false })
			s.Rules.Ending = head.EndNine
		}, func(t *testing.T, c compare.Comparison) {
			near(t, "2506.67 to the next that ends in 9", find(c, "OB-4").Cost.Usable.Value.Float(), 2509, 0.005)
			near(t, "a price the shop has set stays", find(c, "VR-84 as delivered").Cost.Usable.Value.Float(), 999, 0.005)
		}},
		{"no cost at all: by flow, below the priced", func(r *head.Records, _ *head.Shop) {
			r.Prices = nil
			stock(r, "OB-4", func(s *head.StockItem) { s.Sell.Known = false })
		}, func(t *testing.T, c compare.Comparison) {
			if len(c.Unpriced) != 1 || c.Unpriced[0].Label != "OB-4" || c.Unpriced[0].Cost.Missing == "" || len(c.Ranked) != 8 {
				t.Errorf("unpriced %+v", c.Unpriced)
			}
			wants(t, find(c, "OB-4"), "no price", "a price")
		}},
		{"max lift not stated: asked, no place", func(r *head.Records, _ *head.Shop) {
			for i := range r.Dimensions {
				if r.Dimensions[i].Head == "VR-84" {
					r.Dimensions[i].MaxLift.Known = false
				}
			}
		}, func(t *testing.T, c compare.Comparison) {
			if len(c.Unpriced) != 3 || kinds(c.Problems)["max-lift-not-stated"] != 1 {
				t.Errorf("unpriced %d, problems %v", len(c.Unpriced), c.Problems)
			}
			for i := range c.Unpriced {
				wants(t, &c.Unpriced[i], "no usable cost", "the lift that its springs are good for, by the maker's statement")
			}
		}},
		{"neither a price nor the max lift", func(r *head.Records, _ *head.Shop) {
			r.Prices = nil
			stock(r, "OB-4", func(s *head.StockItem) { s.Sell.Known = false })
			for i := range r.Dimensions {
				if r.Dimensions[i].Head == "OB-4" {
					r.Dimensions[i].MaxLift.Known = false
				}
			}
		}, func(t *testing.T, c compare.Comparison) {
			wants(t, find(c, "OB-4"), "no price", "a price", "the lift that its springs are good for, by the maker's statement")
		}},
		{"springs too short and no kit priced", func(r *head.Records, _ *head.Shop) {
			r.Extras = dropExtras(r.Extras, func(e head.Extra) bool { return e.Head == "PW-31" })
		}, func(t *testing.T, c compare.Comparison) {
			if e := find(c, "PW-31"); e.Place.Number != 0 || kinds(c.Problems)["springs-not-priced"] != 1 {
				t.Errorf("PW-31 %+v", e.Cost)
			}
		}},
		{"an extra that is always needed has no basis", func(r *head.Records, _ *head.Shop) {
			for i := range r.Extras {
				if r.Extras[i].Item == "push-rods" {
					r.Extras[i].Basis = head.BasisNotStated
				}
			}
		}, func(t *testing.T, c compare.Comparison) {
			if find(c, "VR-81").Place.Number != 0 || kinds(c.Problems)["extra-not-priced"] != 1 {
				t.Errorf("problems %v", c.Problems)
			}
		}},
		{"an extra that depends on the engine is allowed for", nil, func(t *testing.T, c compare.Comparison) {
			if e := find(c, "PW-33"); !strings.Contains(strings.Join(e.Reasons, "\n"), "allow for gaskets for the larger port, $48 (stock manifold)") {
				t.Errorf("reasons %q", e.Reasons)
			}
		}},
		{"work that is not on the menu", func(r *head.Records, _ *head.Shop) {
			for i := range r.Tests {
				if r.Tests[i].State == "VJ+blend" {
					r.Tests[i].State = "ported by a friend"
				}
			}
		}, func(t *testing.T, c compare.Comparison) {
			e := find(c, "VR-84 + ported by a friend")
			if e == nil || e.Place.Number != 0 || kinds(c.Problems)["rework-not-known"] != 1 {
				t.Errorf("entry %+v, problems %v", e, c.Problems)
			}
		}},
		{"spellings of one state are one state", func(r *head.Records, _ *head.Shop) {
			for i := range r.Tests {
				if r.Tests[i].State == "VJ+blend" && r.Tests[i].Port == head.Exhaust {
					r.Tests[i].State = "Valve job and short-side blend"
				}
			}
		}, func(t *testing.T, c compare.Comparison) {
			if e := find(c, "VR-84 + valve job + blend"); e == nil || e.Exhaust == nil || len(c.Ranked) != 9 {
				t.Errorf("entry %+v", e)
			}
		}},
		{"no worth set: the shelf's going rate", func(_ *head.Records, s *head.Shop) { s.Families[0].Worth.Known = false },
			func(t *testing.T, c compare.Comparison) {
				// scipy.stats.theilslopes of the seven heads as delivered, cost on flow.
				near(t, "going rate", c.Worth.PerCFM, 27.883, 0.05)
				if !strings.HasPrefix(c.Worth.Origin, "going rate") || c.Ranked[0].Place.Number != 1 {
					t.Errorf("worth %+v", c.Worth)
				}
			}},
		{"no worth and too few heads", func(r *head.Records, s *head.Shop) {
			s.Families[0].Worth.Known = false
			*r = comparetest.Without(*r, func(name string) bool { return name != "LKC-07" && name != "OB-4" && name != "PW-33" })
		}, func(t *testing.T, c compare.Comparison) {
			if c.Worth.Known || c.Ranked[0].Label != "OB-4" || c.Ranked[0].Place.Number != 0 || !c.Ranked[0].PerCFM.Known {
				t.Errorf("worth %+v, first %s at %d", c.Worth, c.Ranked[0].Label, c.Ranked[0].Place.Number)
			}
		}},
		{"the newest stock book stands", func(r *head.Records, _ *head.Shop) {
			for _, item := range r.Stock {
				item.Date.Value = item.Date.Value.AddDate(0, -1, 0)
				item.At.File, item.OnHand.Value, item.Sell.Value = "a book of January.xlsx", 99, quantity.Dollars(1)
				r.Stock = append(r.Stock, item)
				item.Date.Value = item.Date.Value.AddDate(0, 3, 0)
				item.At.File = "a book of April.xlsx"
				r.Stock = append(r.Stock, item)
			}
		}, func(t *testing.T, c compare.Comparison) {
			if e := find(c, "LKC-12"); e.Stock.OnHand.Value != 9 || e.Cost.Usable.Value.Float() != 1249 {
				t.Errorf("on hand %v, usable %v", e.Stock.OnHand.Value, e.Cost.Usable.Value)
			}
		}},
		{"base head not on the shelf", func(_ *head.Records, s *head.Shop) { s.Families[0].BaseHead = "LKC-99" },
			func(t *testing.T, c compare.Comparison) {
				if kinds(c.Problems)["no-base-head"] != 1 || c.Ranked[0].PerExtra.Known || len(c.Ranked) != 9 {
					t.Errorf("problems %v", c.Problems)
				}
			}},
	}
	for _, tc := range cases {
		t.Run(tc.name, func(t *testing.T) { tc.check(t, smallEight(tc.change)) })
	}
}

func stock(r *head.Records, name string, change func(*head.StockItem)) {
	for i := range r.Stock {
		if r.Stock[i].Head == name {
			change(&r.Stock[i])
		}
	}
}

func dropExtras(all []head.Extra, drop func(head.Extra) bool) []head.Extra {
	var out []head.Extra
	for _, e := range all {
		if !drop(e) {
			out = append(out, e)
		}
	}
	return out
}

func TestTargetMarginIsOfTheSale(t *testing.T) {
	e := find(smallEight(nil), "LKC-12")
	near(t, "margin of LKC-12", 100*e.Cost.Margin.Value, 27.6, 0.05)
	if !e.Cost.Landed.Value.Amount.Equal(decimal.NewFromInt(904)) {
		t.Errorf("landed %v", e.Cost.Landed.Value)
	}
	if e.Cost.PriceList != "Larkmoor prices.xlsx" {
		t.Errorf("price list %q", e.Cost.PriceList)
	}
}
