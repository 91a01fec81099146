package supplier_test

import (
	"os"
	"path/filepath"
	"strings"
	"testing"

	"flowshelf/analysis/compare"
	"flowshelf/analysis/compare/comparetest"
	"flowshelf/export/book"
	"flowshelf/export/book/booktest"
	"flowshelf/export/supplier"
)

// TestHisHeadsOnly writes each supplier's sheet and looks for the heads and names
// of all others, and for costs.
func TestHisHeadsOnly(t *testing.T) {
	records, shop, date := comparetest.Shelf()
	all := supplier.Of(compare.All(records, shop, date))
	if len(all) < 3 {
		t.Fatalf("%d suppliers with adverts, want at least 3", len(all))
	}
	for i, g := range all {
		out, err := supplier.Write(g)
		if err != nil {
			t.Fatal(err)
		}
		if dir := os.Getenv("SCRATCH_DEMO"); dir != "" {
			if err := os.WriteFile(filepath.Join(dir, "supplier "+g.Supplier+".xlsx"), out, 0o644); err != nil {
				t.Fatal(err)
			}
		}
		cells, err := book.Cells(out)
		if err != nil {
			t.Fatal(err)
		}
		text := ""
		for _, c := range cells {
			text += c.Value + "\n"
		}
		mine := 0
		for _, h := range shop.Heads {
			there := strings.Contains(text, h.Name)
			if there && h.Supplier != g.Supplier {
				t.Errorf("%s is shown %s of %s", g.Supplier, h.Name, h.Supplier)
			}
			if there {
				mine++
			}
		}
		if mine == 0 {
			t.Errorf("%s is shown none of his heads", g.Supplier)
		}
		for _, s := range shop.Suppliers {
			if s.Name != g.Supplier && strings.Contains(text, s.Name) {
				t.Errorf("%s is shown the name of %s", g.Supplier, s.Name)
			}
		}
		if strings.Contains(text, "$") || strings.Contains(text, "landed") {
			t.Errorf("%s is shown money:\n%s", g.Supplier, text)
		}
		if i == 0 {
			paper := booktest.Print(t, out)
			if n := paper.Pages["Advertised and tested"]; n < 1 || n > 3 || strings.Contains(paper.Text, "###") {
				t.Errorf("prints on %d pages, want at most 3:\n%s", n, paper.Text)
			}
		}
	}
}

// TestARefusedReadingIsNotMissing holds that the supplier reads what was measured
// at a lift whose figure is read off the curve, and under which pressures.
func TestARefusedReadingIsNotMissing(t *testing.T) {
	records, shop, date := comparetest.Shelf()
	want := map[string]string{
		"Pellworth Foundry":  "At .200 in 243 was read and is not used: more than the valve can pass",
		"Oastbridge Machine": "bore 4.310, pressure 24 to 28 inH2O, stated row by row",
	}
	for _, g := range supplier.Of(compare.All(records, shop, date)) {
		out, err := supplier.Write(g)
		if err != nil {
			t.Fatal(err)
		}
		cells, err := book.Cells(out)
		if err != nil {
			t.Fatal(err)
		}
		for _, c := range cells {
			if words := want[g.Supplier]; words != "" && strings.Contains(c.Value, words) {
				delete(want, g.Supplier)
			}
			if strings.Contains(c.Value, "not measured at this lift") {
				t.Errorf("%s: %q", g.Supplier, c.Value)
			}
		}
	}
	for name, words := range want {
		t.Errorf("%s does not read %q", name, words)
	}
}
