package compare_test

import (
	"slices"
	"strings"
	"testing"

	"flowshelf/analysis/compare"
	"flowshelf/analysis/compare/comparetest"
	"flowshelf/analysis/head"
	"flowshelf/analysis/quantity"
	"flowshelf/analysis/source"
)

// bareShelf is the shelf with LKC-12 listed bare at 300 each beside its assembled
// price, sold bare at 849 a set, and with what the shop puts into it.
func bareShelf(change func(r *head.Records, s *head.Shop)) compare.Comparison {
	return smallEight(func(r *head.Records, s *head.Shop) {
		sheet := comparetest.Sheet{File: "bare.xlsx", Name: "Bare"}
		r.Prices = append(slices.Clone(r.Prices),
			head.Price{Head: "LKC-12", Supplier: "Larkmoor Castings", Build: "bare", Rung: head.Net, Basis: head.Each,
				Amount: sheet.Dollars(300), Freight: sheet.Dollars(10), At: source.At("bare.xlsx", "Bare", 40, 2)},
			head.Price{Head: "LKC-12", Build: "bare", Rung: head.Sell, Basis: head.Set, Amount: sheet.Dollars(849), At: source.At("sell.xlsx", "Sell", 4, 2)})
		part := func(item string, price, cost, springsTo float64) {
			e := head.Extra{Head: "LKC-12", Item: item, Need: head.WhenBare, Words: "bare", Price: sheet.Dollars(price), Internal: sheet.Dollars(cost),
				Basis: head.Set, At: source.At("extras.xlsx", "Extras", 30+len(r.Extras), 1)}
			if springsTo > 0 {
				e.Springs, e.SpringsTo = true, sheet.Inches(springsTo)
			}
			r.Extras = append(r.Extras, e)
		}
		r.Extras = slices.Clone(r.Extras)
		part("valves", 96, 70, 0)
		part("springs to .580", 84, 60, .580)
		part("springs to .650", 130, 95, .650)
		part("springs to .500", 60, 45, .500)
		part("retainers, locks and seals", 40, 28, 0)
		r.Rework = append(slices.Clone(r.Rework), head.Rework{Name: "Assembly", Price: sheet.Dollars(120), Internal: sheet.Dollars(97), Basis: head.Set,
			Hours: source.Say(2.0, source.Trace{}), At: source.At("rework menu.xlsx", "Menu", 9, 1)})
		s.Rules.LabourRate = source.Say(quantity.Dollars(45), source.Trace{})
		if change != nil {
			change(r, s)
		}
	})
}

const bareLabel = "LKC-12 bare + our parts"

// TestBareHeads: usable = 849 + 96 + 84 + 40 + 120 = 1189, of the springs that
// reach the range's top the cheapest; landed = 2 x (300 + 10); what goes in costs
// the shop 70 + 60 + 28 + 2 h x 45 + (97 - 90) of tooling.
func TestBareHeads(t *testing.T) {
	c := bareShelf(nil)
	e := find(c, bareLabel)
	if e == nil || e.Place.Number == 0 || e.State != "bare, our parts" {
		t.Fatalf("the bare head has no place: %+v", e)
	}
	near(t, "usable", e.Cost.Usable.Value.Float(), 849+96+84+40+120, 0)
	near(t, "landed", e.Cost.Landed.Value.Float(), 2*(300+10), 0)
	near(t, "margin of the bare heads", e.Cost.Margin.Value, (849-620)/849.0, 1e-12)
	near(t, "our parts and work", e.Cost.Work.Cost.Value.Float(), 70+60+28+2*45+7, 0)
	near(t, "margin of the job", e.Cost.JobMargin.Value, (1189-620-255)/1189.0, 1e-12)
	near(t, "springs to", e.SpringsTo.MaxLift.In(), 0.580, 1e-9)
	if got := strings.Join(e.Reasons, "\n"); !strings.Contains(got, "comes bare; the springs we put in are good to .580, only .020 spare: check coil bind; check installed height and coil bind") {
		t.Errorf("reasons %s", got)
	}
	complete := find(c, "LKC-12")
	near(t, "the complete head stands as it did", complete.Cost.Usable.Value.Float(), 1249, 0)
	near(t, "same port, same flow", e.Intake.Working.Value, complete.Intake.Working.Value, 0)
	near(t, "its springs", complete.SpringsTo.MaxLift.In(), 0.575, 1e-9)
	if len(c.Ranked) != 10 || complete.IsBase || slices.ContainsFunc(c.Rework, func(r compare.ReworkOrBuy) bool { return r.Label == bareLabel }) {
		t.Errorf("%d ranked, rework %+v", len(c.Ranked), c.Rework)
	}
	if strings.Contains(strings.Join(complete.Reasons, "\n"), "valves") {
		t.Errorf("the complete head is told to allow for parts of the bare one: %q", complete.Reasons)
	}
}

// TestBareIsNeverComplete leaves out one thing at a time and wants the bare head
// without a place and the reason named, and every other head where it was.
func TestBareIsNeverComplete(t *testing.T) {
	drop := func(words string) func(r *head.Records, _ *head.Shop) {
		return func(r *head.Records, _ *head.Shop) {
			r.Extras = dropExtras(r.Extras, func(e head.Extra) bool { return e.Need == head.WhenBare && strings.Contains(e.Item, words) })
		}
	}
	for _, tc := range []struct {
		name   string
		change func(r *head.Records, s *head.Shop)
		kind   string
		says   string
	}{
		{"no valves", drop("valves"), "bare-parts-not-priced", "no price is listed for valves"},
		{"no springs", drop("springs"), "bare-parts-not-priced", "no price is listed for springs"},
		{"no retainers", drop("retainers"), "bare-parts-not-priced", "no price is listed for retainers and locks"},
		{"no labour", func(r *head.Records, _ *head.Shop) { r.Rework = r.Rework[:len(r.Rework)-1] }, "bare-parts-not-priced", "no price is listed for assembly"},
		{"springs end short of the range", func(r *head.Records, s *head.Shop) { drop(".580")(r, s); drop(".650")(r, s) }, "bare-springs-short", "good to .500, and the range goes to .560"},
		{"springs of unknown lift", func(r *head.Records, s *head.Shop) {
			drop("springs")(r, s)
			r.Extras = append(r.Extras, head.Extra{Head: "LKC-12", Item: "springs", Need: head.WhenBare, Springs: true, Basis: head.Set,
				Price: source.Say(quantity.Dollars(80), source.Trace{})})
		}, "max-lift-not-stated", "is not stated"},
		{"a part without a price", func(r *head.Records, _ *head.Shop) {
			for i := range r.Extras {
				if r.Extras[i].Item == "valves" && r.Extras[i].Need == head.WhenBare {
					r.Extras[i].Price.Known = false
				}
			}
		}, "part-not-priced", "valves for bare: its price is not stated"},
	} {
		t.Run(tc.name, func(t *testing.T) {
			c := bareShelf(tc.change)
			e := find(c, bareLabel)
			if e == nil || e.Place.Number != 0 || e.Cost.Usable.Known || !strings.Contains(e.Cost.Missing, tc.says) || kinds(c.Problems)[tc.kind] != 1 {
				t.Fatalf("place %v, missing %q, problems %v", e.Place, e.Cost.Missing, kinds(c.Problems))
			}
			if len(c.Ranked) != 9 || c.Ranked[0].Label != "LKC-12" || c.Ranked[0].Place.Number != 1 {
				t.Errorf("the others moved: %d ranked, %s first", len(c.Ranked), c.Ranked[0].Label)
			}
		})
	}
}

// TestBoughtBareOnly takes the assembled price away: the stock book's sell price
// may be for either, which is asked.
func TestBoughtBareOnly(t *testing.T) {
	only := func(build, answer string) compare.Comparison {
		return bareShelf(func(r *head.Records, _ *head.Shop) {
			r.Prices = slices.DeleteFunc(r.Prices, func(p head.Price) bool {
				return p.Head == "LKC-12" && (p.Build == "assembled" || p.Rung == head.Sell)
			})
			stock(r, "LKC-12", func(s *head.StockItem) { s.Build = build })
			if answer != "" {
				r.Answers = head.NewAnswers([]head.Answer{{Key: "sell-build|LKC-12", Text: answer, By: "JT", On: comparetest.Date()}})
			}
		})
	}
	for _, tc := range []struct {
		name, build, answer string
		usable, margin      float64 // usable 0 for none
	}{
		{name: "not stated: asked, no place"},
		{name: "for bare heads, as answered", answer: "for bare heads", usable: 1249 + 340, margin: (1249 - 620) / 1249.0},
		{name: "with our parts, as answered", answer: "for heads with our parts in them", usable: 1249, margin: (1249 - 620 - 255) / 1249.0},
		{name: "for bare heads, as the book says", build: "bare", usable: 1249 + 340, margin: (1249 - 620) / 1249.0},
	} {
		t.Run(tc.name, func(t *testing.T) {
			c := only(tc.build, tc.answer)
			if find(c, "LKC-12") != nil {
				t.Error("a head bought bare only is compared as if it were complete")
			}
			e := find(c, bareLabel)
			if tc.usable == 0 {
				if e.Place.Number != 0 || kinds(c.Problems)["sell-build"] != 1 {
					t.Errorf("place %v, problems %v", e.Place, kinds(c.Problems))
				}
				return
			}
			near(t, "usable", e.Cost.Usable.Value.Float(), tc.usable, 0)
			near(t, "margin", e.Cost.Margin.Value, tc.margin, 1e-12)
			near(t, "our parts and work", e.Cost.Work.Cost.Value.Float(), 255, 0)
		})
	}
}

// TestWork: what work costs the shop, by what the menu and the setup state.
func TestWork(t *testing.T) {
	for _, tc := range []struct {
		name            string
		hours, internal float64 // 0 for not stated
		rate            float64
		cost            float64 // 0 for not known
	}{
		{"hours at the rate", 3, 0, 45, 135},
		{"hours and tooling: the internal cost as it stands", 3, 148, 45, 148},
		{"the internal cost is less than its hours", 3, 100, 45, 135},
		{"an internal cost without hours", 0, 148, 45, 148},
		{"no rate: the internal cost", 3, 148, 0, 148},
		{"no rate and no internal cost", 3, 0, 0, 0},
		{"nothing", 0, 0, 45, 0},
	} {
		t.Run(tc.name, func(t *testing.T) {
			c := smallEight(func(r *head.Records, s *head.Shop) {
				r.Rework = slices.Clone(r.Rework)
				w := &r.Rework[0]
				w.Hours = source.Stated[float64]{Value: tc.hours, Known: tc.hours > 0}
				w.Internal = source.Stated[quantity.Money]{Value: quantity.Dollars(tc.internal), Known: tc.internal > 0}
				s.Rules.LabourRate = source.Stated[quantity.Money]{Value: quantity.Dollars(tc.rate), Known: tc.rate > 0}
			})
			w := find(c, "VR-84 + valve job").Cost.Work
			if w.Cost.Known != (tc.cost > 0) || (w.Why == "") == (tc.cost == 0) {
				t.Fatalf("%+v", w)
			}
			near(t, "cost", w.Cost.Value.Float(), tc.cost, 0)
		})
	}
}
