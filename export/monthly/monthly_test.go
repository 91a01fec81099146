package monthly_test

import (
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"flowshelf/analysis/compare"
	"flowshelf/analysis/compare/comparetest"
	"flowshelf/analysis/head"
	"flowshelf/analysis/quantity"
	"flowshelf/analysis/review"
	"flowshelf/export/book"
	"flowshelf/export/book/booktest"
	"flowshelf/export/monthly"
)

var sheets = []string{
	"Decisions", "Stock health", "Value and movement", "Price moves", "What changed",
	"Supplier record", "Bench health", "Test plan", "Questions", "Sources",
}

func at(records head.Records, shop head.Shop, date time.Time) review.Now {
	return review.Now{Records: records, Shop: shop, Families: compare.All(records, shop, date), Date: date, Problems: records.Problems}
}

// TestDemoReview writes the review of the invented shop against a month in which
// one sell price and one cost were others, and lets other programs read it.
func TestDemoReview(t *testing.T) {
	records, shop, date := comparetest.Shelf()
	facts := review.Facts(at(records, shop, date))
	facts.Date = date.AddDate(0, -1, 0)
	for i := range facts.Heads {
		if h := &facts.Heads[i]; h.Name == "OB-4" {
			h.Landed.Value = quantity.Dollars(915)
		}
	}
	for i := range facts.Places {
		if p := &facts.Places[i]; p.Label == "PW-33" {
			p.Sell.Value = quantity.Dollars(1999)
		}
	}
	out, err := monthly.Write(review.Make(at(records, shop, date), review.Before{Facts: &facts}), monthly.Options{Up: "../"})
	if err != nil {
		t.Fatal(err)
	}
	if dir := os.Getenv("SCRATCH_DEMO"); dir != "" {
		if err := os.WriteFile(filepath.Join(dir, monthly.FileName("2026-03")), out, 0o644); err != nil {
			t.Fatal(err)
		}
	}
	if stamp, ok, edited, err := book.Identity(out); !ok || edited || err != nil || stamp.ID != monthly.ID("2026-03") {
		t.Errorf("stamp %+v, ok %v, edited %v, %v", stamp, ok, edited, err)
	}
	if n := booktest.SameResults(t, out, booktest.Resave(t, out)); n == 0 {
		t.Error("no formula adds the cash up")
	}
	for i, s := range booktest.OpenPyXL(t, out) {
		if i >= len(sheets) || s.Name != sheets[i] || len(s.Empty) > 0 || s.Filled != s.Streaming {
			t.Errorf("sheet %d: %+v, want %v", i, s, sheets)
		}
	}
	paper := booktest.Print(t, out)
	for _, s := range sheets {
		most := 1
		if s == "Value and movement" {
			most = 2 // the grid, and its picture with its figures
		}
		if n := paper.Pages[s]; n < 1 || n > most {
			t.Errorf("%s prints on %d pages, want at most %d", s, n, most)
		}
	}
	if strings.Contains(paper.Text, "###") {
		t.Error("a figure does not fit its column and prints as ###")
	}
	for _, words := range []string{"$46,812", "= 26 %", "11 heads, not 10", "the sell price of PW-33 is $1,399 a set, was $1,999", "99+"} {
		if strings.Contains(paper.Text, words) == (words == "99+") {
			t.Errorf("the print says or lacks %q", words)
		}
	}
}

// TestEmptyReview writes the review of a folder without anything.
func TestEmptyReview(t *testing.T) {
	shop := head.Shop{Name: "Shop", Currency: "USD", Rules: head.DefaultRules()}
	date := time.Date(2026, time.March, 1, 0, 0, 0, 0, time.UTC)
	out, err := monthly.Write(review.Make(at(head.Records{}, shop, date), review.Before{}), monthly.Options{Up: "../"})
	if err != nil {
		t.Fatal(err)
	}
	f := booktest.Open(t, out)
	for _, c := range []struct{ sheet, says string }{
		{"Decisions", "Nothing is in stock"}, {"Stock health", "No stock book"}, {"Price moves", "No cost"},
		{"What changed", "nothing to compare with"}, {"Bench health", "No bench log"}, {"Test plan", "No test"}, {"Questions", "Nothing is open"},
	} {
		rows, err := f.GetRows(c.sheet)
		if err != nil {
			t.Fatal(err)
		}
		all := ""
		for _, r := range rows {
			all += strings.Join(r, " ") + "\n"
		}
		if !strings.Contains(all, c.says) {
			t.Errorf("%s does not say %q:\n%s", c.sheet, c.says, all)
		}
	}
}
