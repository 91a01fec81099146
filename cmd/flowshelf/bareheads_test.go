package main

import (
	"math"
	"path/filepath"
	"slices"
	"strings"
	"testing"
)

// TestBareHeadsFromWorkbooks drops a list that quotes LKC-12 bare and assembled,
// a list of the shop's own sell prices, the parts and the labour: the head stands
// in the ranking both ways, each at its own price and with its own springs. Then
// the valves are taken out, and the bare one is compared with nothing.
func TestBareHeadsFromWorkbooks(t *testing.T) {
	folder := demoFolder(t)
	newBook(t, folder, "Larkmoor March.xlsx",
		[]any{"Larkmoor Castings   prices effective 2026-03-01"}, []any{"Net each, USD.  Freight in."}, nil,
		[]any{"Part", "Net each, assembled $", "Net each, bare $"}, []any{"LKC-12", 452, 300})
	newBook(t, folder, "our sell prices.xlsx", []any{"Our sell prices, effective 2026-03-01"}, nil,
		[]any{"Head", "Sell, bare, per set $"}, []any{"LKC-12", 849})
	newBook(t, folder, "parts.xlsx", []any{"What goes into bare heads"}, []any{"Dollars per set, customer's price."}, nil,
		[]any{"Head", "Item", "Needed when", "$", "Our cost $", "Per"},
		[]any{"LKC-12", "valves", "bare", 96, 70, "set"}, []any{"LKC-12", "springs to .600", "bare", 84, 60, "set"},
		[]any{"LKC-12", "springs to .500", "bare", 60, 45, "set"}, []any{"LKC-12", "retainers, locks and seals", "bare", 40, 28, "set"})
	change(t, folder, "rework menu.xlsx", "Menu", cells{"A8": "assembly", "B8": 120, "C8": 97, "D8": 2})
	const label = "LKC-12 bare + our parts"
	bare, complete := entry(t, ran(t, folder, demoDay), label), entry(t, ran(t, folder, demoDay), "LKC-12")
	if bare.Place == nil || complete.Place == nil {
		t.Fatalf("places %v and %v", bare.Place, complete.Place)
	}
	near := func(what string, got *float64, want float64) {
		t.Helper()
		if got == nil || math.Abs(*got-want) > 0.005 {
			t.Errorf("%s: %v, want %g", what, got, want)
		}
	}
	near("usable: bare + parts + labour", bare.Usable, 849+96+84+40+120)
	near("landed, bare", bare.Landed, 600)
	near("the assembled head's own", complete.Usable, 1249)
	near("its landed cost", complete.Landed, 904)
	near("the same port", bare.WorkingAvg, *complete.WorkingAvg)
	if !strings.Contains(bare.Springs, "good to .600") || !strings.Contains(complete.Springs, "good to .575") {
		t.Errorf("springs %q and %q", bare.Springs, complete.Springs)
	}
	if !slices.ContainsFunc(bare.Reasons, func(s string) bool {
		return strings.Contains(s, "comes bare") && strings.Contains(s, "check installed height and coil bind")
	}) {
		t.Errorf("no caution among %q", bare.Reasons)
	}
	// In the what-if: our work at the customer's price, its hours, what it costs us
	// at 45 an hour, and what is left of all that is paid.
	row := rowsByHead(t, openBook(t, filepath.Join(folder, "Ranked", "Pricing - Small Eight.xlsx")), "Pricing", "Head and state")[label]
	for column, want := range map[string]float64{"Sell a set": 849, "Our work a set": 340, "Hours of it": 2, "Parts, our cost": 165, "Our work costs us": 255,
		"Landed a set": 600, "Margin money with our work": 1189 - 600 - 255, "Usable cost": 1189} {
		if got := row.number(t, column); math.Abs(got-want) > 0.005 {
			t.Errorf("%s: %g, want %g", column, got, want)
		}
	}

	change(t, folder, "parts.xlsx", "Sheet1", cells{"B5": "gaskets"})
	got := ran(t, folder, demoDay)
	if places := got.places(); places[label] != "" || places["LKC-12"] != "1" {
		t.Errorf("without valves: %v", places)
	}
	if !slices.ContainsFunc(sentences(got), func(s string) bool {
		return strings.HasPrefix(s, "Larkmoor March.xlsx|Sheet1|C5|") && strings.Contains(s, "LKC-12 comes bare, and no price is listed for its valves")
	}) {
		t.Errorf("it is not said what is wanting: %q", sentences(got))
	}
}

// entry finds a row of any ranking by its label.
func entry(t *testing.T, r resultJSON, label string) rowJSON {
	t.Helper()
	for _, f := range r.Families {
		for _, row := range f.Rows {
			if row.Label == label {
				return row
			}
		}
	}
	t.Fatalf("no entry %q", label)
	return rowJSON{}
}
