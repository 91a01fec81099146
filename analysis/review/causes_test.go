package review_test

import (
	"fmt"
	"slices"
	"strings"
	"testing"

	"github.com/shopspring/decimal"

	"flowshelf/analysis/compare"
	"flowshelf/analysis/head"
	"flowshelf/analysis/quantity"
	"flowshelf/analysis/review"
	setup "flowshelf/analysis/shop"
	"flowshelf/analysis/source"
	"flowshelf/ingest/ingesttest"
)

// shelf is records and a setup of the test's own, to be changed at will.
type shelf struct {
	records head.Records
	shop    head.Shop
}

// copyOf lets a test change what it got without changing what it came from.
func copyOf(s shelf) shelf {
	r := &s.records
	r.Tests = slices.Clone(r.Tests)
	for i := range r.Tests {
		r.Tests[i].Readings = slices.Clone(r.Tests[i].Readings)
	}
	r.Stock, r.Extras, r.Rework = slices.Clone(r.Stock), slices.Clone(r.Extras), slices.Clone(r.Rework)
	r.Prices, r.Dimensions = slices.Clone(r.Prices), slices.Clone(r.Dimensions)
	s.shop.Families, s.shop.Rates = slices.Clone(s.shop.Families), slices.Clone(s.shop.Rates)
	return s
}

func (s *shelf) retest(name string, factor float64) {
	for i := range s.records.Tests {
		t := &s.records.Tests[i]
		if t.Head != name || t.Class != head.Own {
			continue
		}
		for j := range t.Readings {
			f := &t.Readings[j].Flow
			f.Value *= quantity.Flow(factor)
			f.Trace.Text = fmt.Sprintf("%.2f", f.Value.CFM())
		}
	}
}

func (s *shelf) sell(name string, dollars float64) {
	for i := range s.records.Stock {
		if s.records.Stock[i].Head == name {
			s.records.Stock[i].Sell.Value = quantity.Dollars(dollars)
		}
	}
}

// euros lets a head be priced from a list in euro, with a proposed sell price.
func (s *shelf) euros(name string) {
	for i := range s.records.Stock {
		if s.records.Stock[i].Head == name {
			s.records.Stock[i].Sell = source.Stated[quantity.Money]{}
		}
	}
	for i := range s.records.Prices {
		if p := &s.records.Prices[i]; p.Head == name {
			p.Amount.Value.Currency = "EUR"
		}
	}
}

// TestWhyAPlaceMoved changes exactly one input and wants exactly that cause for
// exactly the places that the ranking itself shows to have moved.
func TestWhyAPlaceMoved(t *testing.T) {
	records, shop := ingesttest.Demo(t)
	cases := []struct {
		name    string
		set     func(*shelf) // before, in both months
		change  func(*shelf) // what the second month has changed
		kind    review.CauseKind
		subject string
	}{
		{"a test", nil, func(s *shelf) { s.retest("LKC-12", 0.93) }, review.NewTest, "LKC-12"},
		{"a sell price", nil, func(s *shelf) { s.sell("PW-33", 1099) }, review.SellPrice, "PW-33"},
		{"the sell price of a head with three states", nil, func(s *shelf) { s.sell("VR-84", 699) }, review.SellPrice, "VR-84"},
		{"an extra", nil, func(s *shelf) {
			for i := range s.records.Extras {
				if e := &s.records.Extras[i]; e.Head == "VR-81" && e.Price.Value.Amount.Equal(decimal.NewFromInt(465)) {
					e.Price.Value = quantity.Dollars(10)
				}
			}
		}, review.ExtrasList, "VR-81: manifold for the raised intake port"},
		{"the rework menu", nil, func(s *shelf) {
			for i := range s.records.Rework {
				if w := &s.records.Rework[i]; w.Price.Value.Amount.Equal(decimal.NewFromInt(260)) {
					w.Price.Value = quantity.Dollars(760)
				}
			}
		}, review.ReworkMenu, "valve job"},
		{"a dimension", nil, func(s *shelf) {
			for i := range s.records.Dimensions {
				if d := &s.records.Dimensions[i]; d.Head == "PW-31" {
					d.MaxLift.Value = quantity.Inches(0.600)
				}
			}
		}, review.SizesChanged, "PW-31"},
		{"a rule", nil, func(s *shelf) { s.shop.Rules.PortSpread = 0.05 }, review.RuleChanged, "Shop: Casting spread per port"},
		{"when a tie ends", nil, func(s *shelf) { s.shop.Rules.TieUntil = 0.55 }, review.RuleChanged, "Shop: Tie until"},
		{"the worth of a cfm", nil, func(s *shelf) { s.shop.Families[0].Worth.Value = quantity.Dollars(60) }, review.RuleChanged, "Families / Small Eight: Worth of a cfm"},
		{"the working range", nil, func(s *shelf) { s.shop.Families[0].RangeTo = quantity.Inches(0.470) }, review.RuleChanged, "Families / Small Eight: Range to"},
		{"a rate", func(s *shelf) { s.euros("OB-4") }, func(s *shelf) { s.shop.Rates[0].Value = decimal.RequireFromString("0.60") }, review.RateChanged, "EUR"},
		{"a price list", func(s *shelf) { s.euros("OB-4") }, func(s *shelf) {
			for i := range s.records.Prices {
				if p := &s.records.Prices[i]; p.Head == "OB-4" {
					p.Amount.Value.Amount = decimal.NewFromInt(400)
					p.Amount.Trace.Text = "400"
				}
			}
		}, review.PriceList, "OB-4"},
		{"the target margin", func(s *shelf) { s.euros("OB-4") }, func(s *shelf) { s.shop.Rules.TargetMargin = 0.01 }, review.RuleChanged, "Shop: Target margin"},
		{"an answer", nil, func(s *shelf) {
			answerPW46(s)
		}, review.AnswerGiven, "impossible|PW-46"},
	}
	for _, c := range cases {
		t.Run(c.name, func(t *testing.T) {
			before := copyOf(shelf{records, shop})
			if c.set != nil {
				c.set(&before)
			}
			after := copyOf(before)
			c.change(&after)
			was, is := at(before.records, before.shop), at(after.records, after.shop)
			facts := review.Facts(was)
			r := review.Make(is, review.Before{Facts: &facts})
			moved := movedPlaces(was.Families, is.Families)
			if len(moved) == 0 {
				t.Fatal("the change moved no place, so this proves nothing")
			}
			named := map[string]bool{}
			for _, x := range r.Changes {
				if !x.Moved {
					continue
				}
				named[x.Label] = true
				if len(x.Causes) != 1 || x.Causes[0].Kind != c.kind || x.Causes[0].Subject != c.subject {
					t.Errorf("%s, %s to %s: %+v, want %s of %s", x.Label, x.Before, x.After, x.Causes, c.kind, c.subject)
				}
				if want := moved[x.Label]; want != x.Before+" to "+x.After {
					t.Errorf("%s: %s to %s, the ranking says %q", x.Label, x.Before, x.After, want)
				}
			}
			if len(named) != len(moved) {
				t.Errorf("places named %v, moved %v", named, moved)
			}
		})
	}
}

// answerPW46 is what answering the one question about PW-46 does to its records.
func answerPW46(s *shelf) {
	for i := range s.records.Tests {
		x := &s.records.Tests[i]
		for j := range x.Readings {
			if f := &x.Readings[j].Flow; x.Head == "PW-46" && x.Class == head.Own && f.Value == 243 {
				f.Value = 143 // the cell still says 243
				f.Trace.Answered = "per JT 2026-03-17"
			}
		}
	}
	s.records.Answers = head.NewAnswers([]head.Answer{{Key: "impossible|PW-46", Text: "143", By: "JT", On: march, Head: "PW-46"}})
}

// movedPlaces compares two rankings by their own places.
func movedPlaces(was, is []compare.Comparison) map[string]string {
	places := func(all []compare.Comparison) map[string]string {
		out := make(map[string]string)
		for _, c := range all {
			for _, e := range c.Ranked {
				out[e.Label] = fmt.Sprint(e.Place.Number)
				if e.Place.Shared {
					out[e.Label] += "="
				}
			}
		}
		return out
	}
	old, now := places(was), places(is)
	out := make(map[string]string)
	for _, both := range []map[string]string{old, now} {
		for label := range both {
			if a, b := dash(old[label]), dash(now[label]); a != b {
				out[label] = a + " to " + b
			}
		}
	}
	return out
}

func dash(s string) string {
	if s == "" {
		return "-"
	}
	return s
}

// TestSettingsAreThoseOfTheSetup fails when a setting that bears on places is
// renamed in the setup: its changes would no longer be named.
func TestSettingsAreThoseOfTheSetup(t *testing.T) {
	bearing := 0
	for _, c := range setup.Settings() {
		bearing += min(1, review.Touches("Shop", c.Title))
	}
	for _, s := range setup.Sheets() {
		if s.Name != "Families" && s.Name != "Suppliers" {
			continue
		}
		for _, c := range s.Columns {
			bearing += min(1, review.Touches(s.Name, c.Title))
		}
	}
	const known = 32 // of the shop 15, of a family 12, of a supplier 5
	if bearing != known {
		t.Errorf("%d settings of the setup bear on places, want %d", bearing, known)
	}
}

// TestTwoCauses moves two inputs that bear on different places and wants each
// named for its own.
func TestTwoCauses(t *testing.T) {
	records, shop := ingesttest.Demo(t)
	before := copyOf(shelf{records, shop})
	after := copyOf(before)
	after.sell("PW-33", 1099)   // Small Eight
	after.retest("LKC-41", 1.5) // Large Eight
	after.sell("LKC-90", 948)   // moves nothing: it stands alone
	facts := review.Facts(at(before.records, before.shop))
	r := review.Make(at(after.records, after.shop), review.Before{Facts: &facts})
	moved, still := 0, 0
	for _, c := range r.Changes {
		want := map[string]review.CauseKind{"Small Eight": review.SellPrice, "Large Eight": review.NewTest, "Opposed Four": review.SellPrice}[c.Family]
		if len(c.Causes) != 1 || c.Causes[0].Kind != want {
			t.Errorf("%+v: want one cause, %s", c, want)
		}
		if c.Moved {
			moved++
		} else {
			still++
		}
	}
	if moved < 2 || still != 1 {
		t.Errorf("%d places moved and %d inputs moved none: %+v", moved, still, r.Changes)
	}
}

// TestBadStock feeds a shelf with figures that cannot be and wants plain
// sentences, no sum of nonsense.
func TestBadStock(t *testing.T) {
	records, shop := ingesttest.Demo(t)
	s := copyOf(shelf{records, shop})
	edit := func(name string, change func(*head.StockItem)) {
		for i := range s.records.Stock {
			if x := &s.records.Stock[i]; x.Head == name {
				change(x)
			}
		}
	}
	edit("LKC-07", func(x *head.StockItem) { x.OnHand.Value = -2 })
	edit("PW-31", func(x *head.StockItem) { x.Sell = source.Stated[quantity.Money]{} })
	edit("PW-33", func(x *head.StockItem) { x.Sold12.Value = 0 })
	edit("VR-81", func(x *head.StockItem) { x.Sold12 = source.Stated[float64]{} })
	s.shop.Rates = nil // the heads listed in euro have no cost
	r := review.Make(at(s.records, s.shop), review.Before{})
	health := make(map[string]review.Health)
	for _, h := range r.Stock {
		health[h.Head] = h
	}
	says := func(name, words string) {
		t.Helper()
		if !slices.ContainsFunc(health[name].Remarks, func(s string) bool { return len(s) > 0 && contains(s, words) }) {
			t.Errorf("%s: %q says nothing of %q", name, health[name].Remarks, words)
		}
	}
	says("LKC-07", "less than nothing: count them")
	says("PW-31", "$1,158 would leave the target margin of 25 %") // 868.40/0.75, whole dollars
	says("TD-22", "no rate for EUR is set")
	if h := health["PW-33"]; h.MonthsWords() != "99+" || h.Class != review.Dead || h.Months.Known {
		t.Errorf("PW-33 sells nothing: %q, %s, %+v", h.MonthsWords(), h.Class, h.Months)
	}
	if h := health["VR-81"]; h.Class != review.Unknown || h.MonthsWords() != "not known" {
		t.Errorf("VR-81 states no sales: %s, %q", h.Class, h.MonthsWords())
	}
	if !slices.Equal(r.Totals.Left, []string{"LKC-07", "TD-22", "TD-26"}) {
		t.Errorf("left out of the sum: %v", r.Totals.Left)
	}
}

func contains(s, words string) bool { return strings.Contains(s, words) }
