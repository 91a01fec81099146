package pricing_test

import (
	"os"
	"path/filepath"
	"strconv"
	"strings"
	"testing"

	"github.com/shopspring/decimal"

	"flowshelf/analysis/compare"
	"flowshelf/analysis/compare/comparetest"
	"flowshelf/analysis/head"
	analysis "flowshelf/analysis/pricing"
	"flowshelf/analysis/quantity"
	"flowshelf/analysis/source"
	"flowshelf/export/book"
	"flowshelf/export/book/booktest"
	"flowshelf/export/pricing"
)

func sheets(t *testing.T) map[string]analysis.Sheet { return sheetsOf(t, func(*head.Records) {}) }

func sheetsOf(t *testing.T, change func(*head.Records)) map[string]analysis.Sheet {
	t.Helper()
	records, shop, day := comparetest.Shelf()
	change(&records)
	out := map[string]analysis.Sheet{}
	for _, c := range compare.All(records, shop, day) {
		out[c.Family.Name] = analysis.Start(c, shop.Currency)
	}
	return out
}

func written(t *testing.T, s analysis.Sheet) []byte {
	t.Helper()
	out, err := pricing.Write(s, pricing.Options{Up: "../"})
	if err != nil {
		t.Fatal(err)
	}
	return out
}

// TestStoredResults lets LibreOffice work out every formula of the demonstration
// again, and looks at how it prints.
func TestStoredResults(t *testing.T) {
	for name, s := range sheets(t) {
		t.Run(name, func(t *testing.T) {
			out := written(t, s)
			if dir := os.Getenv("SCRATCH_DEMO"); dir != "" {
				if err := os.WriteFile(filepath.Join(dir, pricing.FileName(name)), out, 0o600); err != nil {
					t.Fatal(err)
				}
			}
			if _, ours, edited, err := book.Identity(out); !ours || edited || err != nil {
				t.Errorf("ours %v, edited %v, %v", ours, edited, err)
			}
			n := booktest.SameResults(t, out, booktest.Resave(t, out))
			t.Logf("%d formulas of %d heads", n, len(s.Rows))
			paper := booktest.Print(t, out)
			if strings.Contains(paper.Text, "###") {
				t.Error("a figure does not fit its column and prints as ###")
			}
			for sheet, want := range map[string]int{"Pricing": 2, "Turning points": 1, "Strip": 1} {
				if paper.Pages[sheet] != want {
					t.Errorf("%s prints on %d pages, want %d", sheet, paper.Pages[sheet], want)
				}
			}
		})
	}
}

// inputs finds the yellow cell of a head on the main sheet.
func inputs(t *testing.T, workbook []byte) func(label, title string) string {
	t.Helper()
	rows, err := booktest.Open(t, workbook).GetRows("Pricing")
	if err != nil {
		t.Fatal(err)
	}
	return func(label, title string) string {
		col := 2
		for r, row := range rows {
			if len(row) > 0 && row[0] == "Head and state" {
				for c, words := range row {
					if words == title {
						col = c + 1
					}
				}
			}
			if len(row) > 0 && row[0] == label {
				return book.CellName(r+1, col)
			}
		}
		t.Fatalf("no cell %q of %q", title, label)
		return ""
	}
}

// abroad puts into the shelf what moves with a rate: a freight in euro, a
// surcharge in euro on a price in dollars, and one in dollars on a price in euro;
// and a head that comes bare, with what the shop puts into it.
func abroad(r *head.Records) {
	money := func(x float64, currency string) source.Stated[quantity.Money] {
		return source.Say(quantity.Of(decimal.NewFromFloat(x), currency), source.Trace{})
	}
	for i := range r.Prices {
		switch p := &r.Prices[i]; p.Head {
		case "TD-22":
			p.Freight, p.Surcharges = money(17.5, "EUR"), []head.Surcharge{{Name: "crating", Amount: money(6.25, "USD")}}
		case "LKC-90", "VR-49":
			p.Surcharges = []head.Surcharge{{Name: "metal surcharge", Amount: money(4.4, "EUR")}}
		}
	}
	r.Prices = append(r.Prices, head.Price{Head: "LKC-12", Build: "bare", Rung: head.Net, Basis: head.Each, Amount: money(300, "USD"), Freight: money(10, "USD")})
	for item, price := range map[string]float64{"valves": 96, "springs to .600": 84, "retainers and locks": 40} {
		r.Extras = append(r.Extras, head.Extra{Head: "LKC-12", Item: item, Need: head.WhenBare, Price: money(price, "USD"), Internal: money(price*0.7, "USD"),
			Basis: head.Set, SpringsTo: source.Say(quantity.Inches(0.600), source.Trace{}), At: source.Ref{File: "extras.xlsx", Cell: item}})
	}
	r.Rework = append(r.Rework, head.Rework{Name: "Assembly", Price: money(120, "USD"), Hours: source.Say(2.0, source.Trace{}), Basis: head.Set})
}

// TestTypedFigures types over ten yellow cells with openpyxl and lets LibreOffice
// work the workbook out. What the service then makes of the same typed figures
// must be the same in every formula, to the cent and far below.
func TestTypedFigures(t *testing.T) {
	for name, typed := range map[string]map[[2]string]any{
		"Small Eight": {
			{"PW-31", "Cost each, net"}: 250, {"PW-31", "Sell a set"}: 690, {"PW-31", "Extras a set"}: 45.5,
			{"LKC-12", "Freight each"}: 12.25, {"LKC-12", "Sell a set"}: 1399, {"VR-84 + valve job", "Our work a set"}: 199,
			{"OB-4", "Minimum advertised"}: 2299, {"OB-4", "Target margin"}: 0.31, {"VR-84 as delivered", "Sell a set"}: 949,
			{"LKC-07", "Springs a set"}: 0, {"VR-84 + valve job", "Hours of it"}: 3.5, {"VR-84 + valve job + blend", "Parts, our cost"}: 31,
			{"LKC-12 bare + our parts", "Cost each, net"}: 287.5, {"LKC-12 bare + our parts", "Our work a set"}: 365, {"LKC-12 bare + our parts", "Hours of it"}: 1.75,
			{"Worth of a cfm", ""}: 31.5, {"Minimum margin", ""}: 0.18, {"Prices end", ""}: "ends in 49", {"Labour rate an hour", ""}: 52.5,
		},
		"Large Eight": {
			{"EUR in USD", ""}: 1.17, {"Labour rate an hour", ""}: 61, {"Worth of a cfm", ""}: 34, {"VR-49", "Cost each, net"}: 1012.5, {"VR-49", "Our work a set"}: 190,
			{"VR-49", "Hours of it"}: 2.2, {"OB-44", "Sell a set"}: 3999, {"OB-44", "Freight each"}: 55, {"LKC-41", "Springs a set"}: 0, {"LKC-41", "Sell a set"}: 1149,
			{"PW-46", "Minimum advertised"}: 2450, {"Target margin", ""}: 0.3, {"Minimum margin", ""}: 0.12,
		},
		"Opposed Four": {
			{"EUR in USD", ""}: 1.15, {"Target margin", ""}: 0.22, {"TD-22", "Cost each, net"}: 181.4, {"TD-26", "Freight each"}: 38,
			{"LKC-90", "Cost each, net"}: 188.68, {"LKC-90", "Sell a set"}: 989, {"TD-22", "Sell a set"}: 1199, {"Prices end", ""}: "ends in 9",
			{"TD-26", "Our work a set"}: 120, {"TD-26", "Hours of it"}: 1.5, {"Labour rate an hour", ""}: 48, {"LKC-90", "Extras a set"}: 60, {"TD-22", "Freight each"}: 21,
		},
	} {
		t.Run(name, func(t *testing.T) {
			s := sheetsOf(t, abroad)[name]
			before := written(t, s)
			cell := inputs(t, before)
			values := map[string]any{}
			for at, v := range typed {
				values[cell(at[0], at[1])] = v
			}
			edited := booktest.Resave(t, booktest.Typed(t, before, "Pricing", values))
			if _, ours, changed, err := book.Identity(edited); !ours || !changed || err != nil {
				t.Fatalf("ours %v, changed %v, %v: the edited version would not be kept", ours, changed, err)
			}
			read := typedIn(t, edited, name)
			after := written(t, s.Apply(read))
			n := booktest.SameResults(t, after, booktest.Resave(t, booktest.TypedByOpenPyXL(t, before, "Pricing", values)))
			t.Logf("%d typed cells, %d formulas", len(values), n)
			moved := differing(t, before, after)
			if moved < 3*len(values) {
				t.Errorf("only %d results moved", moved)
			}
			if same := written(t, s.Apply(typedIn(t, after, name))); differing(t, after, same) != 0 {
				t.Error("typed figures do not outlive a second run")
			}
		})
	}
}

func typedIn(t *testing.T, workbook []byte, family string) analysis.Typed {
	t.Helper()
	earlier, ours, err := pricing.Read(workbook, family)
	if err != nil || !ours {
		t.Fatalf("ours %v, %v", ours, err)
	}
	return earlier.Typed
}

// differing counts the cells that hold something else in another workbook.
func differing(t *testing.T, a, b []byte) int {
	t.Helper()
	was := map[string]string{}
	cells, err := book.Cells(a)
	if err != nil {
		t.Fatal(err)
	}
	for _, c := range cells {
		was[c.Sheet+"!"+c.Cell] = c.Value
	}
	if cells, err = book.Cells(b); err != nil {
		t.Fatal(err)
	}
	n := 0
	for _, c := range cells {
		if c.Value != was[c.Sheet+"!"+c.Cell] {
			n++
		}
	}
	return n
}

// TestOnlyYellowCellsAreOpen looks at the protection through openpyxl's eyes:
// without a password, and open exactly where a figure may be typed.
func TestOnlyYellowCellsAreOpen(t *testing.T) {
	out := written(t, sheets(t)["Small Eight"])
	f := booktest.Open(t, out)
	rows, err := f.GetRows("Pricing")
	if err != nil {
		t.Fatal(err)
	}
	open := 0
	for r := range rows {
		for c := range 30 {
			name := book.CellName(r+1, c+1)
			id, err := f.GetCellStyle("Pricing", name)
			if err != nil {
				t.Fatal(err)
			}
			style, err := f.GetStyle(id)
			if err != nil {
				t.Fatal(err)
			}
			unlocked := style.Protection != nil && !style.Protection.Locked
			yellow := len(style.Fill.Color) == 1 && strings.HasSuffix(style.Fill.Color[0], string(book.Input))
			if unlocked != yellow {
				t.Errorf("%s: open %v, yellow %v", name, unlocked, yellow)
			}
			if unlocked {
				open++
			}
		}
	}
	const terms, each, heads = 5, 10, 9
	if want := terms + each*heads; open != want {
		t.Errorf("%d open cells, want %s", open, strconv.Itoa(want))
	}
	for _, sheet := range f.GetSheetList() {
		if o, err := f.GetSheetProtection(sheet); err != nil || o.Password != "" || o.AlgorithmName != "" || !o.SelectLockedCells {
			t.Errorf("%s: %+v, %v", sheet, o, err)
		}
	}
}
