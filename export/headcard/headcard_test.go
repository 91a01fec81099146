package headcard_test

import (
	"os"
	"path/filepath"
	"strings"
	"testing"

	"flowshelf/analysis/compare"
	"flowshelf/analysis/compare/comparetest"
	"flowshelf/export/book/booktest"
	"flowshelf/export/headcard"
)

// TestCards makes a card of every head in stock of the invented shop, and prints
// one with three states and one that is held.
func TestCards(t *testing.T) {
	records, shop, date := comparetest.Shelf()
	cards := headcard.Of(compare.All(records, shop, date), compare.Shelf(records, shop, date), shop.Currency, "../../")
	if len(cards) != 14 {
		t.Errorf("%d cards, want one for each of 14 heads in stock", len(cards))
	}
	says := map[string][]string{
		"VR-84": {"valve job + blend intake", "core shifted toward one wall", "Place 2 (tied)", "$792", "Valve-to-piston", "Cautions"},
		"PW-46": {"Not ranked:", "$1,782", "2.250 in", "Cautions"},
	}
	for _, c := range cards {
		out, err := headcard.Write(c)
		if err != nil {
			t.Fatalf("%s: %v", c.Listed.Name, err)
		}
		words, asked := says[c.Listed.Name]
		if !asked {
			continue
		}
		if dir := os.Getenv("SCRATCH_DEMO"); dir != "" {
			if err := os.WriteFile(filepath.Join(dir, "card "+c.Listed.Name+".xlsx"), out, 0o644); err != nil {
				t.Fatal(err)
			}
		}
		paper := booktest.Print(t, out)
		if n := paper.Pages["Card"]; n < 1 || n > 2 {
			t.Errorf("%s prints on %d pages, want at most 2", c.Listed.Name, n)
		}
		for _, w := range words {
			if !strings.Contains(paper.Text, w) {
				t.Errorf("%s does not say %q:\n%s", c.Listed.Name, w, paper.Text)
			}
		}
		if strings.Contains(paper.Text, "###") {
			t.Errorf("%s: a figure does not fit", c.Listed.Name)
		}
	}
}
