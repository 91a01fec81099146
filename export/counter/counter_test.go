package counter_test

import (
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"flowshelf/analysis/compare"
	"flowshelf/analysis/compare/comparetest"
	"flowshelf/analysis/head"
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

// TestEveryHeadOnTheShelfHasALine holds that a head on the shelf that cannot be
// recommended stands on the page with its price, what is there, and why: one that
// is held by a question, one never flowed, one that is only advertised.
func TestEveryHeadOnTheShelfHasALine(t *testing.T) {
	records, shop, date := comparetest.Shelf()
	records.Tests = slices.DeleteFunc(records.Tests, func(x head.Test) bool {
		return x.Head == "LKC-41" && x.Class == head.Own || x.Head == "LKC-90"
	})
	for family, want := range map[string]map[string]string{
		"Large Eight":  {"PW-46": "waits for an answer in Questions.xlsx", "LKC-41": "its maker's figures are a claim"},
		"Opposed Four": {"LKC-90": "no flow test of it"},
		"Small Eight":  {},
	} {
		for _, c := range compare.All(records, shop, date) {
			if c.Family.Name == family {
				waits(t, c, want)
			}
		}
	}
}

func waits(t *testing.T, c compare.Comparison, want map[string]string) {
	t.Helper()
	out, err := counter.Write(c)
	if err != nil {
		t.Fatal(err)
	}
	cells, err := book.Cells(out)
	if err != nil {
		t.Fatal(err)
	}
	found := 0
	for i, cell := range cells {
		if strings.Contains(cell.Value, "cannot be recommended") {
			found++
		}
		says := want[cell.Value]
		if says == "" {
			continue
		}
		delete(want, cell.Value)
		var line []string
		for _, beside := range cells[i+1 : min(i+5, len(cells))] {
			line = append(line, beside.Value)
		}
		if words := strings.Join(line, " | "); !strings.Contains(words, "cannot be recommended: ") || !strings.Contains(words, says) || !strings.Contains(words, "set") {
			t.Errorf("%s: %q does not say %q", cell.Value, words, says)
		}
	}
	if len(want) > 0 {
		t.Errorf("%s: no line for %v, %d others", c.Family.Name, want, found)
	}
	if c.Family.Name == "Small Eight" && found > 0 {
		t.Errorf("%d heads of the Small Eight cannot be recommended", found)
	}
}

// TestWordsOfAHeadNeverFlowed holds that a head with only its maker's sheet is
// told so first and not among what it needs, and how a set and an odd head read.
func TestWordsOfAHeadNeverFlowed(t *testing.T) {
	records, shop, date := comparetest.Shelf()
	for i := range records.Stock {
		if s := &records.Stock[i]; s.Head == "LKC-07" {
			s.OnHand.Value = 3
		}
	}
	text := ""
	for _, c := range compare.All(records, shop, date) {
		out, err := counter.Write(c)
		if err != nil {
			t.Fatal(err)
		}
		cells, err := book.Cells(out)
		if err != nil {
			t.Fatal(err)
		}
		for _, cell := range cells {
			text += cell.Value + "\n"
		}
	}
	for words, want := range map[string]bool{
		"\n1 set + 1\n": true, "1 sets": false,
		"NOT FLOWED HERE, its maker's figures; all-in $": true, "needs NOT": false,
	} {
		if strings.Contains(text, words) != want {
			t.Errorf("says %q: %v, want %v\n%s", words, !want, want, text)
		}
	}
}
