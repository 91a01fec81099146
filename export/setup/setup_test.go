package setup_test

import (
	"os"
	"strings"
	"testing"
	"time"

	"github.com/shopspring/decimal"

	"flowshelf/analysis/head"
	"flowshelf/analysis/quantity"
	"flowshelf/analysis/shop"
	"flowshelf/analysis/source"
	"flowshelf/export/book"
	"flowshelf/export/book/booktest"
	"flowshelf/export/setup"
)

var day = time.Date(2026, 3, 16, 0, 0, 0, 0, time.UTC)

func sample() head.Shop {
	rules := head.DefaultRules()
	rules.Repeatability = 0.015
	return head.Shop{
		Name: "Saltmarsh Head & Machine", Currency: "USD", Rules: rules,
		Families: []head.Family{{
			Name: "Small Eight", HeadsPerSet: 2, ReferenceBore: quantity.Inches(4.03), RangeFrom: quantity.Inches(.2), RangeTo: quantity.Inches(.56),
			BandFrom: quantity.Inches(.3), BandTo: quantity.Inches(.5), BaseHead: "LKC-07",
			Worth: source.Say(quantity.Of(decimal.NewFromInt(25), "USD"), source.Trace{}),
		}},
		Heads: []head.Listed{{Name: "LKC-12", Family: "Small Eight", Supplier: "Larkmoor Castings", Also: []string{"LKC 12", "=LKC12"}}},
		Rates: []head.Rate{{Currency: "EUR", Value: decimal.NewFromFloat(1.09), AsOf: source.Say(day, source.Trace{})}},
	}
}

func written(t *testing.T, s head.Shop) []byte {
	t.Helper()
	out, err := setup.Write(s, day)
	if err != nil {
		t.Fatal(err)
	}
	if path := os.Getenv("SCRATCH_SETUP"); path != "" {
		if err := os.WriteFile(path, out, 0o644); err != nil {
			t.Fatal(err)
		}
	}
	return out
}

func TestSheetsAsKept(t *testing.T) {
	booktest.Golden(t, "testdata/golden", booktest.Dump(t, written(t, sample())))
}

// TestLayoutIsTheReaders holds the sheets against the layout that package shop
// reads by: every sheet, every title where it is looked for, and the first row
// of data.
func TestLayoutIsTheReaders(t *testing.T) {
	f := booktest.Open(t, written(t, sample()))
	for _, layout := range shop.Sheets() {
		for i, c := range layout.Columns {
			got, err := f.GetCellValue(layout.Name, book.CellName(shop.HeaderRow, i+1))
			if err != nil || !strings.HasPrefix(shop.Normal(got), shop.Normal(c.Title)) {
				t.Errorf("%s, column %d: %q, %v; want %q", layout.Name, i+1, got, err, c.Title)
			}
		}
	}
	if got, _ := f.GetCellValue("Heads", book.CellName(shop.FirstRow, 1)); got != "LKC-12" {
		t.Errorf("the first head is %q", got)
	}
}

// TestItIsTheShops holds that the setup carries no stamp: it must be read, not
// left alone as an output of ours.
func TestItIsTheShops(t *testing.T) {
	if _, ok, _, err := book.Identity(written(t, sample())); ok || err != nil {
		t.Errorf("ok %v, %v", ok, err)
	}
}

func TestOnPaper(t *testing.T) {
	out := written(t, sample())
	if text := booktest.Print(t, out).Text; strings.Contains(text, "###") {
		t.Error("a figure does not fit its column")
	}
	for _, s := range booktest.OpenPyXL(t, out) {
		if s.Filled == 0 || s.Filled != s.Streaming {
			t.Errorf("openpyxl sees %+v", s)
		}
	}
}
