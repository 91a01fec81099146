package customer_test

import (
	"strings"
	"testing"

	"github.com/shopspring/decimal"

	"flowshelf/analysis/enquiry"
	"flowshelf/export/book"
	"flowshelf/export/book/booktest"
	"flowshelf/export/customer"
	"flowshelf/ingest/ingesttest"
)

// TestSettingsOfTheShop holds that a quote stands as long as the shop says, and
// that a price that ends in cents is not rounded to another one.
func TestSettingsOfTheShop(t *testing.T) {
	records, shop := ingesttest.Demo(t)
	shop.Rules.QuoteDays = 14
	for i := range records.Stock {
		if s := &records.Stock[i]; s.Head == "LKC-12" {
			s.Sell.Value.Amount = decimal.RequireFromString("1249.95")
		}
	}
	answers := enquiry.All(records, shop, march)
	sheet, ok := answers[0].Customer()
	if !ok {
		t.Fatal("nothing to show")
	}
	out, err := customer.Write(sheet, "Heads for somebody.xlsx")
	if err != nil {
		t.Fatal(err)
	}
	f := booktest.Open(t, out)
	rows, err := f.GetRows("Heads")
	if err != nil {
		t.Fatal(err)
	}
	text := ""
	for _, row := range rows {
		text += strings.Join(row, " ") + "\n"
	}
	for _, want := range []string{"valid until 2026-03-30", "1249.95"} {
		if !strings.Contains(text, want) {
			t.Errorf("the sheet does not say %q:\n%s", want, text)
		}
	}
	for i, row := range rows {
		if len(row) == 0 || row[0] != "All-in" {
			continue
		}
		id, err := f.GetCellStyle("Heads", book.CellName(i+1, 2))
		if err != nil {
			t.Fatal(err)
		}
		if style, err := f.GetStyle(id); err != nil || style.CustomNumFmt == nil || !strings.Contains(*style.CustomNumFmt, "0.00") {
			t.Errorf("the price is shown as %+v, %v", style, err)
		}
		return
	}
	t.Error("no price all-in")
}

// TestIDSaysNothing holds that the stamp which goes to a customer tells a sheet
// apart by its file alone, and nothing of whom it is for.
func TestIDSaysNothing(t *testing.T) {
	const file = "Heads for Ann Example, 331.xlsx"
	id := customer.ID(file)
	if strings.Contains(id, "Ann") || id == customer.ID("Heads for Bob.xlsx") || id != customer.ID(file) {
		t.Errorf("the id is %q", id)
	}
	for name, want := range map[string]bool{file: true, "Heads for Ann Example, 331 (2).xlsx": true, "mine.xlsx": false, "Heads for Bob.xlsx": false} {
		if customer.Written(name, id) != want {
			t.Errorf("%s: written is %v, want %v", name, !want, want)
		}
	}
}
