package shop_test

import (
	"math"
	"strings"
	"testing"
	"time"

	"github.com/google/go-cmp/cmp"
	"github.com/google/go-cmp/cmp/cmpopts"
	"github.com/shopspring/decimal"
	"pgregory.net/rapid"

	"flowshelf/analysis/head"
	"flowshelf/analysis/quantity"
	"flowshelf/analysis/shop"
	"flowshelf/analysis/source"
)

// filled is a shop with something in every column.
func filled() head.Shop {
	rules := head.DefaultRules()
	rules.Repeatability, rules.StallSpan, rules.TargetMargin = 0.015, quantity.Inches(0.05), 0.3
	rules.PressureLaw, rules.EstimateBore, rules.MaximumQuestions = head.Isentropic, head.MayEstimate, 5
	rules.DefaultFreight = source.Say(quantity.Dollars(12.5), source.Trace{})
	return head.Shop{
		Name: "Saltmarsh", Phone: "555-0142", Currency: "USD", Rules: rules,
		Families: []head.Family{{
			Name: "Small Eight", HeadsPerSet: 2, ReferenceBore: quantity.Inches(4.03),
			EngineBore: source.Say(quantity.Inches(4.03), source.Trace{}), EngineStroke: source.Say(quantity.Inches(3.25), source.Trace{}),
			Cylinders: source.Say(8, source.Trace{}), EngineRPM: source.Say(6500.0, source.Trace{}),
			RangeFrom: quantity.Inches(.2), RangeTo: quantity.Inches(.56), BandFrom: quantity.Inches(.3), BandTo: quantity.Inches(.5),
			Worth: source.Say(quantity.Dollars(25), source.Trace{}), BaseHead: "LKC-07",
			Anchors: head.Anchors{Known: true, MidLow: 160, MidHigh: 260, PeakLow: 190, PeakHigh: 300, StallLow: .7, WMid: .5, WStall: .3, WPeak: .2},
			Lazy:    source.Say(quantity.FeetPerSecond(480), source.Trace{}), Choked: source.Say(quantity.FeetPerSecond(640), source.Trace{}),
			SpringsAreMust: true,
			CamLobe:        source.Say(quantity.Inches(.37), source.Trace{}), RockerRatio: source.Say(1.6, source.Trace{}),
			CamDuration: source.Say(242.0, source.Trace{}), TargetPower: source.Say(450.0, source.Trace{}),
		}},
		Heads: []head.Listed{{Name: "LKC-07", Family: "Small Eight", Supplier: "Larkmoor", Also: []string{"LKC07", "4471"}}},
		Suppliers: []head.SupplierRule{{Name: "Larkmoor", Cost: head.Dealer, Discounts: []decimal.Decimal{decimal.NewFromInt(50), decimal.NewFromInt(10)},
			Freight: source.Say(quantity.Dollars(28), source.Trace{}), Currency: "EUR", Basis: head.Pair, Folder: "larkmoor", Note: "by mail"}},
		Benches: []head.Bench{{Name: "Shop bench", Owner: "own", Own: true, Scale: head.LinearInFlow, Entry: source.Say("clay", source.Trace{}), Pipe: source.Say("1-3/4 x 12", source.Trace{}),
			Fixtures: source.Say([]quantity.Length{quantity.Inches(4.03), quantity.Inches(3.78)}, source.Trace{}), Folder: "bench", Note: "sags"}},
		Orifices: []head.Orifice{{Name: "2.500", Bench: "Shop bench", Port: head.Intake, Flow: source.Say(quantity.CFM(152.4), source.Trace{}),
			Drop: source.Say(quantity.InchesOfWater(6), source.Trace{}), Test: source.Say(quantity.InchesOfWater(28), source.Trace{})}},
		Rates: []head.Rate{{Currency: "EUR", Value: decimal.NewFromFloat(1.09), AsOf: source.Say(time.Date(2026, 2, 2, 0, 0, 0, 0, time.UTC), source.Trace{})}},
		Words: []head.Word{{Sender: "Tidewell", Word: "EV", Means: "intake"}},
		Found: true,
	}
}

// typed is how near a figure comes back through per cent or inches.
const typed = 1e-12

var sameShop = cmp.Options{
	cmpopts.IgnoreTypes(source.Ref{}, source.Trace{}), cmpopts.EquateEmpty(), cmpopts.EquateApprox(0, typed),
	cmp.Comparer(func(a, b decimal.Decimal) bool { return a.Equal(b) }),
}

func TestWriteThenReadGivesTheSameShop(t *testing.T) {
	want := filled()
	got := shop.Read(source.Ref{File: shop.FileName}, shop.Write(want))
	if diff := cmp.Diff(want, got.Shop, sameShop); diff != "" {
		t.Errorf("the shop changed (-want +got):\n%s", diff)
	}
	for _, p := range got.Problems {
		t.Errorf("a shop we wrote has a problem: %s", p)
	}
}

func TestWriteFollowsTheLayout(t *testing.T) {
	for i, sheet := range shop.Sheets() {
		rows := shop.Write(filled())[i]
		if rows.Sheet != sheet.Name || len(rows.Titles) != len(sheet.Columns) {
			t.Errorf("sheet %d is %s with %d titles, the layout says %s with %d", i, rows.Sheet, len(rows.Titles), sheet.Name, len(sheet.Columns))
		}
		for _, row := range rows.Rows {
			if len(row) != len(rows.Titles) {
				t.Errorf("%s: a row of %d cells under %d titles", sheet.Name, len(row), len(rows.Titles))
			}
		}
	}
}

func TestBlankMeansDefault(t *testing.T) {
	got := shop.Read(source.Ref{}, shop.Write(head.Shop{Currency: "USD", Rules: head.DefaultRules()}))
	if diff := cmp.Diff(head.DefaultRules(), got.Shop.Rules, sameShop); diff != "" {
		t.Errorf("rules differ from the defaults:\n%s", diff)
	}
	for _, s := range got.Settings {
		if s.Origin != shop.Default {
			t.Errorf("%s is called %s", s.Title, s.Origin)
		}
	}
	if len(got.Settings) != len(shop.Settings()) {
		t.Errorf("%d settings in force, the layout has %d", len(got.Settings), len(shop.Settings()))
	}
}

// settings makes a Shop sheet of title and value pairs.
func settings(pairs ...any) shop.Rows {
	rows := shop.Rows{Sheet: "Shop", Titles: []shop.Cell{text("Setting"), text("Value")}}
	for i := 0; i < len(pairs); i += 2 {
		value := shop.Cell{At: source.At("Shop setup.xlsx", "Shop", shop.FirstRow+i/2, 2)}
		switch x := pairs[i+1].(type) {
		case string:
			value.Kind, value.Text = shop.Text, x
		case float64:
			value.Kind, value.Num, value.Text = shop.Number, x, "number"
		}
		rows.Rows = append(rows.Rows, []shop.Cell{text(pairs[i].(string)), value})
	}
	return rows
}

func text(s string) shop.Cell { return shop.Cell{Kind: shop.Text, Text: s} }

func TestBadSettingsSayWhatToType(t *testing.T) {
	tests := []struct{ title, value, cell, hint string }{
		{"Repeatability", "a lot", "B5", "type a number from 0.01 to 20"},
		{"Stall span", "2 ft", "B5", "type a length in inches"},
		{"Convert pressure by", "magic", "B5", "type one of: square root, isentropic"},
		{"Questions open at a time", "2.5", "B5", "type a whole number"},
		{"Target margin", "120", "B5", "type a number from 0 to 90"},
	}
	for _, tt := range tests {
		got := shop.Read(source.Ref{}, []shop.Rows{settings(tt.title, tt.value)})
		if len(got.Problems) != 1 {
			t.Errorf("%s = %s: problems %v", tt.title, tt.value, got.Problems)
			continue
		}
		p := got.Problems[0]
		if p.Kind != "setup-value" || p.At.Cell != tt.cell || !strings.Contains(p.Hint, tt.hint) || p.Found != tt.value {
			t.Errorf("%s = %s: %s", tt.title, tt.value, p)
		}
		if diff := cmp.Diff(head.DefaultRules(), got.Shop.Rules, sameShop); diff != "" {
			t.Errorf("%s: a bad value changed the rules:\n%s", tt.title, diff)
		}
	}
}

func TestSettingsInOtherDress(t *testing.T) {
	got := shop.Read(source.Ref{}, []shop.Rows{settings(
		"repeatability ", "1.5 %", "STALL SPAN", "2.54 mm", "Tie until", 90.0, "Colour", "green", "Tie until", 80.0)})
	r := got.Shop.Rules
	if math.Abs(r.Repeatability-0.015) > 1e-12 || math.Abs(r.StallSpan.In()-0.1) > 1e-12 || r.TieUntil != 0.9 {
		t.Errorf("rules %+v", r)
	}
	var kinds []string
	for _, p := range got.Problems {
		kinds = append(kinds, p.Kind)
	}
	if diff := cmp.Diff([]string{"setup-setting-unknown", "setup-setting-twice"}, kinds); diff != "" {
		t.Error(diff)
	}
	for _, s := range got.Settings {
		if want := s.Title == "Repeatability" || s.Title == "Stall span" || s.Title == "Tie until"; want != (s.Origin == shop.Set) {
			t.Errorf("%s is called %s", s.Title, s.Origin)
		}
	}
}

func TestProblemsOfTables(t *testing.T) {
	change := func(f func(*head.Shop)) head.Shop {
		s := filled()
		f(&s)
		return s
	}
	tests := map[string]head.Shop{
		"setup-heads-a-set":    change(func(s *head.Shop) { s.Families[0].HeadsPerSet = 0 }),
		"setup-reference-bore": change(func(s *head.Shop) { s.Families[0].ReferenceBore = 0 }),
		"setup-range":          change(func(s *head.Shop) { s.Families[0].RangeTo = quantity.Inches(.1) }),
		"setup-band":           change(func(s *head.Shop) { s.Families[0].BandTo = quantity.Inches(.3) }),
		"setup-weights":        change(func(s *head.Shop) { s.Families[0].Anchors.WMid = .6 }),
		"setup-anchors":        change(func(s *head.Shop) { s.Families[0].Anchors.MidHigh = 100 }),
		"setup-no-anchors": change(func(s *head.Shop) {
			s.Families[0].Anchors = head.Anchors{StallLow: .7, WMid: .5, WStall: .3, WPeak: .2}
		}),
		"setup-name-twice":   change(func(s *head.Shop) { s.Heads = append(s.Heads, s.Heads[0]) }),
		"setup-name-unknown": change(func(s *head.Shop) { s.Heads[0].Family = "Nine" }),
		"setup-row-unnamed":  change(func(s *head.Shop) { s.Words[0].Sender = "" }),
	}
	for kind, broken := range tests {
		got := shop.Read(source.Ref{}, shop.Write(broken))
		if len(got.Problems) != 1 || got.Problems[0].Kind != kind {
			t.Errorf("%s: problems %v", kind, got.Problems)
		}
		if strings.HasPrefix(kind, "setup-w") || strings.Contains(kind, "anchors") {
			if got.Shop.Families[0].Anchors.Known {
				t.Errorf("%s: a shape score would be given", kind)
			}
		}
	}
}

func TestMissingSetup(t *testing.T) {
	got := shop.Missing(source.Ref{File: shop.FileName})
	if got.Shop.Found || len(got.Problems) != 1 || !strings.Contains(got.Problems[0].Hint, "flowshelf init") {
		t.Errorf("%+v", got)
	}
}

// Every rule that can be shown in the setup reads back as it was.
func TestRulesRoundTrip(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		want := filled()
		r := &want.Rules
		r.Repeatability = float64(rapid.IntRange(1, 1000).Draw(t, "repeatability")) / 1e4
		r.StallSpan = quantity.Thou(float64(rapid.IntRange(20, 400).Draw(t, "span")))
		r.TieUntil = float64(rapid.IntRange(60, 99).Draw(t, "tie")) / 100
		r.SlowMonths = rapid.Float64Range(1, 100).Draw(t, "slow")
		got := shop.Read(source.Ref{}, shop.Write(want))
		if diff := cmp.Diff(want.Rules, got.Shop.Rules, sameShop); diff != "" {
			t.Fatalf("rules changed:\n%s", diff)
		}
	})
}

func TestNames(t *testing.T) {
	s := head.Shop{Heads: []head.Listed{{Name: "PW-33", Supplier: "Pellworth", Also: []string{"PW33 new"}}, {Name: "OB-4"}, {Name: "VR-84", Supplier: "Vintner"}, {Name: "LKC-07"}}}
	keys := []head.Alias{{Name: "4471", Ours: "ob-4"}, {Name: "100", Ours: "PW-33", Supplier: "Pellworth"}, {Name: "100", Ours: "VR-84", Supplier: "Vintner"}, {Name: "PW33 new", Ours: "VR-84"}}
	names := shop.NewNames(s, keys)
	tests := []struct {
		name, supplier, head string
		near                 string
	}{
		{"PW-33", "", "PW-33", ""},
		{"  pw-33 ", "", "PW-33", ""},
		{"PW33 new", "", "VR-84", ""}, // a key wins over the setup
		{"4471", "", "OB-4", ""},
		{"100", "Vintner", "VR-84", ""},
		{"100", "", "", "PW-33 VR-84"},
		{"PW 33", "", "", "PW-33"},
		{"PW33", "", "", "PW-33"},
		{"PW-33B", "", "", "PW-33"},
		{"PW-33 assembled", "", "", "PW-33"},
		{"LKC-O7", "", "", "LKC-07"},
		{"PW-34", "", "", ""}, // the neighbour is no match
		{"OB-44", "", "", ""},
		{"", "", "", ""},
	}
	for _, tt := range tests {
		m := names.Match(tt.name, tt.supplier)
		if m.Head != tt.head || strings.Join(m.Near, " ") != tt.near {
			t.Errorf("Match(%q, %q) = %+v, want %q near %q", tt.name, tt.supplier, m, tt.head, tt.near)
		}
	}
}

// orifices makes an Orifices sheet of rows under the titles of the layout.
func orifices(rows ...[]shop.Cell) []shop.Rows {
	sheet := shop.Write(filled())[5]
	sheet.Rows = rows
	return []shop.Rows{shop.Write(filled())[4], sheet}
}

// TestOrifices: a pressure without a unit, a calibration that is not whole and a
// bench that nobody knows are said, and nothing is put in their place.
func TestOrifices(t *testing.T) {
	flow := shop.Cell{Kind: shop.Number, Num: 150, Text: "150"}
	six := shop.Cell{Kind: shop.Number, Num: 6, Text: "6"}
	for name, tt := range map[string]struct {
		bench, drop, test shop.Cell
		kinds             string
		inH2O             float64
	}{
		"whole":              {text("shop bench"), text("6 inH2O"), text("28 inH2O"), "", 6},
		"in mbar":            {text("Shop bench"), text("15 mbar"), text("7 kPa"), "", 15 * 100 / 249.08891}, // NIST SP 811, conventional inch of water
		"spaced":             {text("Shop bench"), text("150 mm H2O"), text("28 in H2O"), "", 150 / 25.4},
		"no unit":            {text("Shop bench"), six, text("28 inH2O"), "setup-value setup-orifice", 0},
		"a unit unknown":     {text("Shop bench"), text("6 furlongs"), text("28 inH2O"), "setup-value setup-orifice", 0},
		"no test pressure":   {text("Shop bench"), text("6 inH2O"), shop.Cell{}, "setup-orifice", 6},
		"at no test's range": {text("Shop bench"), text("6 inH2O"), text("280 inH2O"), "setup-value setup-orifice", 6},
		"no such bench":      {text("Old bench"), text("6 inH2O"), text("28 inH2O"), "setup-name-unknown", 6},
		"no bench":           {shop.Cell{}, text("6 inH2O"), text("28 inH2O"), "setup-name-unknown", 6},
	} {
		got := shop.Read(source.Ref{}, orifices([]shop.Cell{text("2.500"), tt.bench, {}, flow, tt.drop, tt.test}))
		var kinds []string
		for _, p := range got.Problems {
			kinds = append(kinds, p.Kind)
		}
		if strings.Join(kinds, " ") != tt.kinds || len(got.Shop.Orifices) != 1 {
			t.Errorf("%s: problems %v, want %s", name, got.Problems, tt.kinds)
			continue
		}
		if o := got.Shop.Orifices[0]; o.Drop.Known != (tt.inH2O != 0) || math.Abs(o.Drop.Value.InH2O()-tt.inH2O) > typed {
			t.Errorf("%s: differential %+v, want %g inH2O", name, o.Drop, tt.inH2O)
		}
	}
	row := []shop.Cell{text("2.500"), text("Shop bench"), {}, flow, text("6 inH2O"), text("28 inH2O")}
	again := append([]shop.Cell{text(" 2.5")}, row[1:]...)
	if got := shop.Read(source.Ref{}, orifices(row, again)); len(got.Problems) != 1 || got.Problems[0].Kind != "setup-name-twice" {
		t.Errorf("an orifice that stands twice: %v", got.Problems)
	}
}
