package headcard_test

import (
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"flowshelf/analysis/compare"
	"flowshelf/analysis/compare/comparetest"
	"flowshelf/export/book"
	"flowshelf/export/book/booktest"
	"flowshelf/export/headcard"
	"flowshelf/ingest/ingesttest"
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

// TestWordsOfACard holds that the words of a sheet stand once however many tests
// it holds, how an exhaust's pipe reads, and whose sizes a head has that nobody
// measured here.
func TestWordsOfACard(t *testing.T) {
	records, shop := ingesttest.Demo(t)
	date := time.Date(2026, 3, 16, 0, 0, 0, 0, time.UTC)
	text := make(map[string]string)
	for _, c := range headcard.Of(compare.All(records, shop, date), compare.Shelf(records, shop, date), shop.Currency, "../../") {
		out, err := headcard.Write(c)
		if err != nil {
			t.Fatal(err)
		}
		cells, err := book.Cells(out)
		if err != nil {
			t.Fatal(err)
		}
		for _, cell := range cells {
			text[c.Listed.Name] += cell.Value + "\n"
		}
	}
	for _, c := range []struct {
		head, words string
		times       int
	}{
		{"VR-84", "noisy at .550 as del.", 1},
		{"VR-84", "same head, same port: as delivered first thing", 1},
		{"VR-84", "pipe with pipe", 0},
		{"TD-26", "not here: as its supplier says", 1},
		{"LKC-12", "not here: as its supplier says", 0},
	} {
		if got := strings.Count(text[c.head], c.words); got != c.times {
			t.Errorf("%s says %q %d times, want %d:\n%s", c.head, c.words, got, c.times, text[c.head])
		}
	}
}
