package pricing_test

import (
	"math"
	"testing"

	"github.com/shopspring/decimal"
	"pgregory.net/rapid"

	"flowshelf/analysis/compare"
	"flowshelf/analysis/compare/comparetest"
	"flowshelf/analysis/head"
	"flowshelf/analysis/pricing"
	"flowshelf/analysis/quantity"
	"flowshelf/analysis/source"
)

func demo(t testing.TB) map[string]pricing.Sheet {
	t.Helper()
	records, shop, day := comparetest.Shelf()
	out := map[string]pricing.Sheet{}
	for _, c := range compare.All(records, shop, day) {
		out[c.Family.Name] = pricing.Start(c, shop.Currency)
	}
	return out
}

func row(t *testing.T, s pricing.Sheet, label string) int {
	t.Helper()
	for i := range s.Rows {
		if s.Rows[i].Label == label {
			return i
		}
	}
	t.Fatalf("no row %q", label)
	return 0
}

func near(t *testing.T, what string, got compare.Maybe, want, tol float64) {
	t.Helper()
	if !got.Known || math.Abs(got.Value-want) > tol {
		t.Errorf("%s: got %v, want %v", what, got, want)
	}
}

// Tolerances: whole money of figures that were worked out by hand to the dollar,
// and exact money.
const (
	dollar = 3
	cent   = 0.005
)

// TestStart holds the sheet, before anybody types, against the ranking it starts
// from, entry by entry.
func TestStart(t *testing.T) {
	for name, s := range demo(t) {
		r := s.Work()
		for i, e := range s.Comparison.Ranked {
			o := r.Outcomes[i]
			if s.Rows[i].Label != e.Label {
				t.Fatalf("%s: row %d is %s, want %s", name, i, s.Rows[i].Label, e.Label)
			}
			near(t, e.Label+" value", o.Value, e.Value.Value, 1e-9)
			near(t, e.Label+" landed", o.Landed, e.Cost.Landed.Value.Float(), 1e-9)
			near(t, e.Label+" usable", o.Usable, e.Cost.Usable.Value.Float(), 1e-9)
			if o.PutsIn() {
				near(t, e.Label+" our work", o.Work, e.Cost.Work.Cost.Value.Float(), 1e-9)
				near(t, e.Label+" margin with our work", o.JobMargin, e.Cost.JobMargin.Value, 1e-12)
			}
			near(t, e.Label+" per cfm", o.PerCFM, e.PerCFM.Value, 1e-9)
			if o.Place.Number != e.Place.Number || o.Place.Shared != e.Place.Shared {
				t.Errorf("%s: place %+v, the ranking has %+v", e.Label, o.Place, e.Place)
			}
			if o.PerExtra.Known != e.PerExtra.Known || math.Abs(o.PerExtra.Value-e.PerExtra.Value) > 1e-9 {
				t.Errorf("%s: per extra cfm %v, the ranking has %v", e.Label, o.PerExtra, e.PerExtra)
			}
			if first := append(e.BeatenBy, "")[0]; o.BeatenBy != first {
				t.Errorf("%s: beaten by %q, the ranking has %q", e.Label, o.BeatenBy, first)
			}
			if e.TiePrice.Known {
				near(t, e.Label+" tie", o.Tie, e.TiePrice.Value, 1e-9)
			}
			if at := o.Strip[len(o.Strip)/2]; at.Change != 0 || at.Place != o.Place || at.Value != o.Value {
				t.Errorf("%s: the middle of the strip is %+v", e.Label, at)
			}
		}
		if s.Comparison.LeadsTo.Known {
			near(t, name+": the leader leads up to", r.Outcomes[0].Tie, s.Comparison.LeadsTo.Value, 1e-9)
		}
	}
}

// TestFigures holds the demonstration against figures worked out by hand:
// landed = 2 x (406.20 + 28), tie = 675, cost each for first place at 25 % =
// 675 x .75 / 2 - 28 (invented data, common practice, no source).
func TestFigures(t *testing.T) {
	s := demo(t)["Small Eight"]
	r := s.Work()
	pw31, lkc12 := r.Outcomes[row(t, s, "PW-31")], r.Outcomes[row(t, s, "LKC-12")]
	near(t, "landed", pw31.Landed, 868.40, cent)
	near(t, "margin money", pw31.Earned, 280.60, cent)
	near(t, "margin", pw31.Margin, 0.2442, 0.00005)
	near(t, "markup", pw31.Markup, 0.3231, 0.00005)
	near(t, "tie", pw31.Tie, 675, dollar)
	if pw31.TieIs != pricing.BelowCost || lkc12.TieIs != pricing.LeadsUpTo {
		t.Errorf("tie is %q and %q", pw31.TieIs, lkc12.TieIs)
	}
	near(t, "cost for first place", pw31.CostFirst, 225.1, 1)
	near(t, "same money", lkc12.SameMoney, 31, 1e-9)
	near(t, "target", pw31.Target, 1157.87, cent)
}

// TestRaise answers "what if he raises 6 %, freight doubles, the euro goes to
// 1.15" by hand.
func TestRaise(t *testing.T) {
	all := demo(t)
	figure := func(x float64) decimal.NullDecimal {
		return decimal.NullDecimal{Decimal: decimal.NewFromFloat(x), Valid: true}
	}
	s := all["Small Eight"]
	i := row(t, s, "VR-84 as delivered")
	typed := pricing.TypedRow{Label: s.Rows[s.Rows[i].First].Label}
	typed.Figures[pricing.Each], typed.Figures[pricing.Freight] = figure(394.32), figure(48)
	o := s.Apply(pricing.Typed{Rows: []pricing.TypedRow{typed}}).Work().Outcomes[i]
	near(t, "landed follows the casting's first row", o.Landed, 884.64, cent)
	near(t, "hold: 884.64 / (792/999)", o.Hold, 884.64*999/792, cent)
	near(t, "sets for the same money: 6 x 207/114.36", o.SameMoney, 6*207/114.36, 1e-9)

	s = all["Opposed Four"]
	i = row(t, s, "TD-22")
	o = s.Apply(pricing.Typed{Terms: pricing.Terms{Rates: []pricing.Rate{{Currency: "EUR", Value: figure(1.15)}}}}).Work().Outcomes[i]
	near(t, "landed: 4 x (189 x 1.15 + 19)", o.Landed, 945.40, cent)
	if o.Place.Number != 0 || s.Rows[i].Aside == "" {
		t.Errorf("a supplier's sheet took place %+v", o.Place)
	}
}

// TestLabour: the valve job takes 3 h and 13 of tooling, 148 at 45 an hour; at 60
// it costs 193, and 999 + 260 leave 1259 - 792 - 193.
func TestLabour(t *testing.T) {
	s := demo(t)["Small Eight"]
	i := row(t, s, "VR-84 + valve job")
	near(t, "at the setup's rate", s.Work().Outcomes[i].Work, 148, cent)
	s.Typed.Labour = decimal.NewNullDecimal(decimal.NewFromInt(60))
	o := s.Work().Outcomes[i]
	near(t, "at 60 an hour", o.Work, 193, cent)
	near(t, "left", o.JobEarned, 1259-792-193, cent)
	near(t, "of all that is paid", o.JobMargin, 274.0/1259, 1e-12)
	near(t, "the heads alone", o.Earned, 207, cent)
	s.Typed.Labour, s.Start.Labour = decimal.NullDecimal{}, decimal.NullDecimal{}
	if o := s.Work().Outcomes[i]; o.Work.Known {
		t.Errorf("hours without a rate cost %v", o.Work)
	}
}

// TestMoneyMovesWithItsRate: what is asked in euro moves with the euro, and
// nothing else: 4 x (189 x 1.15 + 17.50 x 1.15 + 6.25) of a head in euro, and
// 4 x (178 + 4.40 x 1.15) of one in dollars with a surcharge in euro.
func TestMoneyMovesWithItsRate(t *testing.T) {
	records, shop, day := comparetest.Shelf()
	money := func(x float64, currency string) source.Stated[quantity.Money] {
		return source.Say(quantity.Of(decimal.NewFromFloat(x), currency), source.Trace{})
	}
	for i := range records.Prices {
		switch p := &records.Prices[i]; p.Head {
		case "TD-22":
			p.Freight, p.Surcharges = money(17.5, "EUR"), []head.Surcharge{{Name: "crating", Amount: money(6.25, "USD")}}
		case "LKC-90":
			p.Surcharges = []head.Surcharge{{Name: "metal surcharge", Amount: money(4.4, "EUR")}}
		}
	}
	all := compare.All(records, shop, day)
	s := pricing.Start(all[len(all)-1], shop.Currency)
	for _, rate := range []float64{1.09, 1.15} {
		r := s.Apply(pricing.Typed{Terms: pricing.Terms{Rates: []pricing.Rate{{Currency: "EUR", Value: decimal.NewNullDecimal(decimal.NewFromFloat(rate))}}}}).Work()
		near(t, "TD-22", r.Outcomes[row(t, s, "TD-22")].Landed, 4*(189*rate+17.5*rate+6.25), cent)
		near(t, "LKC-90", r.Outcomes[row(t, s, "LKC-90")].Landed, 4*(178+4.4*rate), cent)
	}
	for _, e := range append(all[len(all)-1].Ranked, all[len(all)-1].BelowLine...) {
		near(t, e.Label+", as the comparison has it", s.Work().Outcomes[row(t, s, e.Label)].Landed, e.Cost.Landed.Value.Float(), 1e-9)
	}
}

// TestPlacesAreTheRankings moves prices at random and holds every place, and
// every place of the strip, against those of the ranking for the same offers.
func TestPlacesAreTheRankings(t *testing.T) {
	s := demo(t)["Small Eight"]
	level := s.TieLevel()
	rapid.Check(t, func(rt *rapid.T) {
		var typed pricing.Typed
		for i := range s.Rows {
			row := pricing.TypedRow{Label: s.Rows[i].Label}
			row.Figures[pricing.Sell] = decimal.NullDecimal{Decimal: decimal.New(rapid.Int64Range(40000, 260000).Draw(rt, "cents"), -2), Valid: true}
			typed.Rows = append(typed.Rows, row)
		}
		typed.Terms.Worth = decimal.NullDecimal{Decimal: decimal.New(rapid.Int64Range(500, 9000).Draw(rt, "worth"), -2), Valid: true}
		r := s.Apply(typed).Work()
		offers := make([]compare.Standing, len(s.Rows))
		for i := range s.Rows {
			offers[i] = compare.Standing{Label: s.Rows[i].Label, Working: s.Rows[i].Flow.Value, WorkingU: s.Rows[i].FlowU,
				Usable: quantity.Dollars(r.Outcomes[i].Usable.Value), Worth: r.Worth.Value}
		}
		same(rt, "as typed", r.Outcomes, compare.Standings(offers, level), func(o pricing.Outcome) pricing.Standing { return o.Place })
		i, k := rapid.IntRange(0, len(s.Rows)-1).Draw(rt, "row"), rapid.IntRange(0, len(pricing.Changes())-1).Draw(rt, "step")
		step := r.Outcomes[i].Strip[k]
		offers[i].Usable = quantity.Dollars(r.Outcomes[i].Usable.Value + step.Change*r.Outcomes[i].Figures[pricing.Sell].Decimal.InexactFloat64())
		places := compare.Standings(offers, level)
		if got, want := step.Place, (pricing.Standing{Number: places[i].Number, Shared: places[i].Shared}); got != want {
			rt.Fatalf("%s at %+.1f %%: place %+v, the ranking has %+v", s.Rows[i].Label, 100*step.Change, got, want)
		}
	})
}

func same(t *rapid.T, what string, got []pricing.Outcome, want []compare.Place, of func(pricing.Outcome) pricing.Standing) {
	t.Helper()
	for i := range got {
		if p := of(got[i]); p.Number != want[i].Number || p.Shared != want[i].Shared {
			t.Fatalf("%s: row %d has place %+v, the ranking %+v", what, i, p, want[i])
		}
	}
}

// TestTypedFiguresAreNeverLost types for a head that the next comparison does
// not have, and in money a head is no longer bought in.
func TestTypedFiguresAreNeverLost(t *testing.T) {
	s := demo(t)["Small Eight"]
	cost := decimal.NullDecimal{Decimal: decimal.NewFromInt(400), Valid: true}
	gone := pricing.TypedRow{Label: "XX-1"}
	gone.Figures[pricing.Sell] = cost
	euro := pricing.TypedRow{Label: "OB-4", Foreign: "EUR"}
	euro.Figures[pricing.Each], euro.Figures[pricing.Sell] = cost, cost
	out := s.Apply(pricing.Typed{Rows: []pricing.TypedRow{gone, euro}})
	if len(out.Rows) != len(s.Rows)+2 {
		t.Fatalf("%d rows, want two more than %d", len(out.Rows), len(s.Rows))
	}
	ob4 := out.Rows[row(t, out, "OB-4")]
	if ob4.Typed[pricing.Each].Valid || !ob4.Typed[pricing.Sell].Valid {
		t.Errorf("OB-4 takes a cost in other money: %+v", ob4.Typed)
	}
	if left := out.Rows[row(t, out, "OB-4, in EUR")]; !left.Typed[pricing.Each].Valid || left.Foreign != "EUR" {
		t.Errorf("the cost in euro is %+v", left)
	}
	if o := out.Work().Outcomes[row(t, out, "XX-1")]; o.Place.Number != 0 || !o.Figures[pricing.Sell].Valid {
		t.Errorf("a head that is gone: %+v", o)
	}
}
