package counter_test

import (
	"os"
	"path/filepath"
	"strings"
	"testing"

	"flowshelf/analysis/compare"
	"flowshelf/analysis/compare/comparetest"
	"flowshelf/export/book"
	"flowshelf/export/book/booktest"
	"flowshelf/export/counter"
)

// TestPage prints each family's page: one page, prices, no cost.
func TestPage(t *testing.T) {
	for i, c := range compare.All(comparetest.Shelf()) {
		out, err := counter.Write(c)
		if err != nil {
			t.Fatal(err)
		}
		if dir := os.Getenv("SCRATCH_DEMO"); dir != "" {
			if err := os.WriteFile(filepath.Join(dir, counter.FileName(c.Family.Name)), out, 0o644); err != nil {
				t.Fatal(err)
			}
		}
		cells, err := book.Cells(out)
		if err != nil {
			t.Fatal(err)
		}
		for _, cell := range cells {
			for _, e := range c.Ranked {
				if landed := e.Cost.Landed; landed.Known && cell.Value == landed.Value.Amount.String() {
					t.Errorf("%s shows %s, the landed cost of %s", cell.Cell, cell.Value, e.Label)
				}
			}
			if strings.Contains(cell.Value, "margin") {
				t.Errorf("%s speaks of margin", cell.Cell)
			}
		}
		if i > 0 {
			continue
		}
		paper := booktest.Print(t, out)
		if paper.Pages["Counter"] != 1 || strings.Contains(paper.Text, "###") {
			t.Errorf("prints on %d pages:\n%s", paper.Pages["Counter"], paper.Text)
		}
		for _, words := range []string{"LKC-12", "$1,249", "all-in $2,189", "4 sets + 1", "178 / 64", "nothing"} {
			if !strings.Contains(paper.Text, words) {
				t.Errorf("does not say %q:\n%s", words, paper.Text)
			}
		}
	}
}

// TestNothingToSell writes the page of a family without heads.
func TestNothingToSell(t *testing.T) {
	records, shop, date := comparetest.SmallEight()
	c := compare.All(comparetest.Without(records, func(string) bool { return true }), shop, date)[0]
	out, err := counter.Write(c)
	if err != nil {
		t.Fatal(err)
	}
	cells, err := book.Cells(out)
	if err != nil {
		t.Fatal(err)
	}
	for _, cell := range cells {
		if strings.Contains(cell.Value, "No head of this family can be sold yet") {
			return
		}
	}
	t.Errorf("says nothing of it: %v", cells)
}
