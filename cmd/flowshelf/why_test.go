package main

import (
	"bytes"
	"path/filepath"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
)

// TestWhyFromWorkbooks changes exactly one cell or row of one workbook between
// March and April and wants, in April's review, exactly that cause for exactly
// the places that the two rankings show to have moved.
func TestWhyFromWorkbooks(t *testing.T) {
	// inEuro lets OB-4 be bought in euro and priced by its cost: for both months.
	inEuro := func(t *testing.T, folder string) {
		change(t, folder, "Oastbridge net.xlsx", "Net", cells{"A2": "Net ea, assembled, EUR.  Freight $35 per head is added."})
		change(t, folder, "stock 2026-02-28.xlsx", "Stock", cells{"K9": nil})
	}
	scaled := func(by float64, readings ...float64) cells {
		out := cells{}
		for i, q := range readings {
			out[string(rune('B'+i))+"6"] = q * by
		}
		return out
	}
	for _, tc := range []struct {
		name  string
		set   func(t *testing.T, folder string) // in both months
		file  string
		sheet string
		to    cells
		says  string // nil To: the answer to a question
	}{
		{name: "nothing"},
		{name: "a test", file: "bench/VR-81 25in.xlsx", sheet: "VR-81",
			to:   scaled(1.05, 63.3, 125.7, 179.5, 220.2, 233.4, 242.8, 248.5, 251.3, 252.3),
			says: "a new test of VR-81 (sample V1107, 2026-01-08): 227.0 cfm, was 216.2"},
		{name: "a sell price", file: "stock 2026-02-28.xlsx", sheet: "Stock", to: cells{"K8": 1099},
			says: "the sell price of PW-33 is $1,099 a set, was $1,399"},
		{name: "an answer", says: "the question about PW-46 was answered: 143"},
		{name: "a rule", file: "Shop setup.xlsx", sheet: "Shop", to: cells{"B12": 5},
			says: "the setting Casting spread per port (Shop) is 5, was 1"},
		{name: "a rate", set: inEuro, file: "Shop setup.xlsx", sheet: "Rates", to: cells{"B5": 0.60},
			says: "the rate of EUR is 0.6, was 1.09"},
		{name: "a price list", set: inEuro, file: "Oastbridge net.xlsx", sheet: "Net", to: cells{"B5": 480},
			says: "the cost of OB-4 moved with its price list, and the proposed sell price with it"},
		{name: "the rework menu", file: "rework menu.xlsx", sheet: "Menu", to: cells{"B5": 760},
			says: "valve job for VR-84 is 760, was 260"},
		{name: "an extra", file: "extras.xlsx", sheet: "Extras", to: cells{"D5": 10},
			says: "manifold for the raised intake port for VR-81 is 10, was 465"},
	} {
		t.Run(tc.name, func(t *testing.T) {
			folder := demoFolder(t)
			if tc.set != nil {
				tc.set(t, folder)
			}
			before := ran(t, folder, demoDay).places()
			switch {
			case tc.file != "":
				change(t, folder, tc.file, tc.sheet, tc.to)
			case tc.says != "":
				writer(withExcelize).answer(t, folder, map[string]string{"reads 243": "143"})
			}
			const april = "2026-04-02"
			after := ran(t, folder, april).places()
			want := map[string]string{}
			for label := range union(before, after) {
				if was, is := orDash(before[label]), orDash(after[label]); was != is {
					want[label] = was + " to " + is + " because " + tc.says
				}
			}
			if len(want) == 0 && tc.says != "" {
				t.Fatal("the change moved no place, so this proves nothing")
			}
			got, rest := changesIn(t, folder, april)
			if diff := cmp.Diff(want, got); diff != "" {
				t.Errorf("moved places and their causes (-want +got):\n%s", diff)
			}
			for _, line := range rest { // one that moved nothing may stand there, but no other cause
				if tc.says == "" || !strings.HasSuffix(line, "| no place moved | "+tc.says) {
					t.Errorf("a change of another cause: %q", line)
				}
			}
		})
	}
}

// changesIn reviews the folder and reads the sheet What changed: the places that
// moved with their causes, and the lines about others.
func changesIn(t *testing.T, folder, date string) (moved map[string]string, rest []string) {
	t.Helper()
	var stdout, stderr bytes.Buffer
	if code := execute([]string{"review", folder, "--date", date}, &stdout, &stderr); code != 0 {
		t.Fatalf("review ended with %d\n%s%s", code, stdout.String(), stderr.String())
	}
	rows, err := openBook(t, filepath.Join(folder, "Ranked", "Monthly review "+date[:7]+".xlsx")).GetRows("What changed")
	if err != nil {
		t.Fatal(err)
	}
	moved = map[string]string{}
	for _, r := range rows {
		switch {
		case len(r) < 6 || r[0] == "Family":
		case r[4] == "place moved":
			moved[r[1]] = r[2] + " to " + r[3] + " because " + r[5]
		default:
			rest = append(rest, strings.Join(r, " | "))
		}
	}
	return moved, rest
}

func union(a, b map[string]string) map[string]bool {
	out := map[string]bool{}
	for _, m := range []map[string]string{a, b} {
		for k := range m {
			out[k] = true
		}
	}
	return out
}

func orDash(place string) string {
	if place == "" {
		return "-"
	}
	return place
}
