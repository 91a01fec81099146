package main

import (
	"fmt"
	"slices"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
)

// amiss is one thing wrong in the demo's folder and what is to be said of it.
type amiss struct {
	name   string
	spoil  func(t *testing.T, folder string)
	at     string // file|sheet|cell
	says   string
	heads  []string // whose own figures may differ by it
	leaves []string // labels that no longer take a place
}

func edit(file, sheet string, to cells) func(*testing.T, string) {
	return func(t *testing.T, folder string) { t.Helper(); change(t, folder, file, sheet, to) }
}

func drop(file string, rows ...[]any) func(*testing.T, string) {
	return func(t *testing.T, folder string) { t.Helper(); newBook(t, folder, file, rows...) }
}

func badInputs() []amiss {
	const stock, setup = "stock 2026-02-28.xlsx", "Shop setup.xlsx"
	return []amiss{
		{"less than nothing on hand", edit(stock, "Stock", cells{"D8": -2}), stock + "|Stock|D8",
			"less than nothing is on hand, so the line is not used", []string{"PW-33"}, nil},
		{"no sell price", edit(stock, "Stock", cells{"K8": nil}), stock + "|Stock|A8",
			"PW-33 has no sell price; one is proposed from its landed cost and the target margin", []string{"PW-33"}, nil},
		{"nothing sold", edit(stock, "Stock", cells{"E8": 0}), stock + "|Stock|E8", "nothing was sold in twelve months", nil, nil},
		{"a currency without a rate", edit(setup, "Rates", cells{"A5": "GBP"}), "Tidewell EUR.xlsx|Preise|C5", "no rate for EUR is set", []string{"TD-22", "TD-26"}, nil},
		{"two lists in force since one day", drop("Pellworth second list.xlsx",
			[]any{"PELLWORTH FOUNDRY   Price list", nil, "Effective 2026-02-01"},
			[]any{"List price per pair, assembled, USD.  Dealers less 40 %.  Freight $28 per head."}, nil,
			[]any{"Part No.", "Description", "List, per pair $"}, []any{"PW-31", "195 cc, assembled", 1420}),
			"Pellworth second list.xlsx|Sheet1|C5", "another list in force since the same day gives another price", []string{"PW-31"}, nil},
		{"sold by four and priced a pair", drop("Larkmoor pairs.xlsx",
			[]any{"Larkmoor Castings   prices effective 2026-02-01"}, []any{"Net per pair, assembled, USD.  Freight in."}, nil,
			[]any{"Part", "Net per pair $"}, []any{"LKC-90", 352}),
			"Larkmoor pairs.xlsx|Sheet1|B5", "the head is sold by 4 and priced a pair; a set takes 4 heads at half this price each", []string{"LKC-90"}, nil},
		{"an enquiry that no head meets", edit("enquiries.xlsx", "Enquiries", cells{"J5": 100}), "enquiries.xlsx|Enquiries|C5",
			"no head is offered for this enquiry: no head of the family meets it", nil, nil},
		{"a price of nothing", edit("Larkmoor prices.xlsx", "Prices", cells{"C7": 0}), "Larkmoor prices.xlsx|Prices|C7",
			"a price of nothing is a missing price", []string{"LKC-12"}, nil},
		{"a test dated in the future", edit("bench/VR-81 25in.xlsx", "VR-81", cells{"A1": "VR-81   serial V1107   4.030 bore   2027-01-08   JT"}),
			"bench/VR-81 25in.xlsx|VR-81|A1", "the test is dated after the day of this comparison and is not used", []string{"VR-81"}, []string{"VR-81"}},
		{"a list dated in the future", edit("Larkmoor prices.xlsx", "Prices", cells{"A1": "Larkmoor Castings   prices effective 2027-01-01"}),
			"Larkmoor prices.xlsx|Prices|C7", "its only list is in force from 2027-01-01 on and is not used yet", []string{"LKC-07", "LKC-12", "LKC-41", "LKC-90"}, nil},
		{"a stock book dated in the future", edit(stock, "Stock", cells{"A1": "Saltmarsh Head & Machine   stock at 2027-02-28"}), stock + "|Stock|A5",
			"the book names two dates, so it is not used", nil, nil},
		{"a supplier that the setup does not know", edit(setup, "Suppliers", cells{"A8": nil, "B8": nil, "H8": nil}), setup + "|Heads|A10",
			"this supplier does not stand on the sheet Suppliers", []string{"VR-81", "VR-84", "VR-49"}, nil},
		{"a head that the setup does not know", drop("Bridgewell.xlsx",
			[]any{"Bridgewell Castings   dealer net, effective 2026-02-20"}, []any{"Net ea, assembled, USD.  Freight $35 per head is added."}, nil,
			[]any{"Item", "Net ea"}, []any{"BW-9", 350}), "Bridgewell.xlsx|Sheet1|A5", "this head is not in the setup, so it belongs to no family", nil, nil},
		{"work of unknown cost", edit("rework menu.xlsx", "Menu", cells{"C5": nil, "D5": nil}), "rework menu.xlsx|Menu|A5",
			"neither hours nor an internal cost is stated for valve job", nil, nil},
		{"work without a price", edit("rework menu.xlsx", "Menu", cells{"B5": nil}), "rework menu.xlsx|Menu|A5", "the price of valve job is not stated",
			[]string{"VR-84"}, []string{"VR-84 + valve job", "VR-84 + valve job + blend"}},
	}
}

// TestBadInput puts one thing amiss into the demo's folder at a time and runs it:
// a plain sentence names file, sheet and cell, and everything else is still
// there: every file, every other head with its figures, every workbook.
func TestBadInput(t *testing.T) {
	base := ran(t, demoFolder(t), demoDay)
	old := sentences(base)
	for _, tc := range badInputs() {
		t.Run(tc.name, func(t *testing.T) {
			folder := demoFolder(t)
			tc.spoil(t, folder)
			got := ran(t, folder, demoDay)
			said := slices.DeleteFunc(sentences(got), func(s string) bool { return slices.Contains(old, s) })
			if !slices.ContainsFunc(said, func(s string) bool { return strings.HasPrefix(s, tc.at+"|") && strings.Contains(s, tc.says) }) {
				t.Errorf("no sentence at %s with %q among\n%s", tc.at, tc.says, strings.Join(said, "\n"))
			}
			stillThere(t, base, got, tc)
		})
	}
}

// sentences are the problems as "file|sheet|cell|sentence".
func sentences(r resultJSON) []string {
	var out []string
	for _, p := range r.Problems {
		out = append(out, fmt.Sprintf("%s|%s|%s|%s", p.File, p.Sheet, p.Cell, p.Message))
	}
	return out
}

// stillThere holds a spoilt run against the good one.
func stillThere(t *testing.T, base, got resultJSON, tc amiss) {
	t.Helper()
	files := make(map[string]string)
	for _, f := range got.Files {
		files[f.File] = f.State
	}
	for _, f := range base.Files {
		spoilt := strings.HasPrefix(tc.at, f.File+"|") && files[f.File] == "partly_read"
		if files[f.File] == "" || f.State == "read" && files[f.File] != "read" && !spoilt {
			t.Errorf("%s was %s and is %q", f.File, f.State, files[f.File])
		}
	}
	written := make(map[string]string)
	for _, w := range got.Workbooks {
		written[w.Workbook] = w.State
	}
	for _, w := range base.Workbooks {
		customers := strings.HasPrefix(w.Workbook, "For customers/") // a page only for an enquiry that is met
		if written[w.Workbook] != "written" && !customers {
			t.Errorf("%s is %q", w.Workbook, written[w.Workbook])
		}
	}
	places := got.places()
	for label := range base.places() {
		if (places[label] == "") != slices.Contains(tc.leaves, label) {
			t.Errorf("%s has place %q", label, places[label])
		}
	}
	if diff := cmp.Diff(figuresOf(base, tc.heads), figuresOf(got, tc.heads)); diff != "" {
		t.Errorf("heads that have nothing to do with it moved (-good +spoilt):\n%s", diff)
	}
}

// figuresOf are the figures of every entry but those of some heads: cost, flow
// and value, which no other head bears on.
func figuresOf(r resultJSON, without []string) map[string]string {
	out := make(map[string]string)
	figure := func(x *float64) string {
		if x == nil {
			return "none"
		}
		return fmt.Sprintf("%.6f", *x)
	}
	for _, f := range r.Families {
		for _, rows := range [][]rowJSON{f.Rows, f.Unpriced, f.BelowLine, f.Advertised} {
			for _, e := range rows {
				if !slices.Contains(without, e.Head) {
					out[e.Label] = strings.Join([]string{figure(e.Usable), figure(e.Landed), figure(e.WorkingAvg), figure(e.Value)}, " ")
				}
			}
		}
	}
	return out
}
