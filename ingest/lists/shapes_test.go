package lists_test

import (
	"flag"
	"fmt"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"
	"time"

	"github.com/google/go-cmp/cmp"
	"github.com/rogpeppe/go-internal/txtar"
	"github.com/shopspring/decimal"

	"flowshelf/analysis/head"
	"flowshelf/analysis/pricelist"
	"flowshelf/analysis/quantity"
	"flowshelf/analysis/source"
)

var update = flag.Bool("update", false, "write what is read now into the fixtures")

// TestShapes reads every list of testdata/shapes. A fixture is an archive: the
// comment names the shape, the book's path and, for prices, the day on which the
// landed costs are added up; "sheet" is drawn as sheet does, and "want" is what
// must be read.
func TestShapes(t *testing.T) {
	files, err := filepath.Glob("testdata/shapes/*.txt")
	if err != nil || len(files) == 0 {
		t.Fatalf("no fixtures: %v", err)
	}
	for _, file := range files {
		t.Run(strings.TrimSuffix(filepath.Base(file), ".txt"), func(t *testing.T) {
			a, err := txtar.ParseFile(file)
			if err != nil || len(a.Files) != 2 {
				t.Fatalf("%d parts, %v", len(a.Files), err)
			}
			about := comment(a)
			got, page := recognise(about["path"], sheet("Sheet1", string(a.Files[0].Data)), theShop())
			accounted(t, page)
			text := described(t, got, about["sums"])
			if *update {
				a.Files[1].Data = []byte(text)
				if err := os.WriteFile(file, txtar.Format(a), 0o644); err != nil {
					t.Fatal(err)
				}
				return
			}
			if diff := cmp.Diff(string(a.Files[1].Data), text); diff != "" {
				t.Errorf("read differently (-want +got):\n%s", diff)
			}
		})
	}
}

func comment(a *txtar.Archive) map[string]string {
	out := make(map[string]string)
	for line := range strings.Lines(string(a.Comment)) {
		key, value, _ := strings.Cut(strings.TrimSpace(line), ":")
		out[key] = strings.TrimSpace(value)
	}
	return out
}

// described prints what was read, one record a line, then what it comes to and
// the problems.
func described(t *testing.T, r head.Records, on string) string {
	t.Helper()
	lines := bookLines(r)
	for _, p := range r.Prices {
		line := priceLine(p)
		if p.Note != "" {
			line += ", “" + p.Note + "”"
		}
		if p.Family != "" {
			line += ", " + p.Family
		}
		lines = append(lines, line)
	}
	for _, s := range r.Stock {
		lines = append(lines, strings.TrimSpace(s.Build+" "+stockLine(s)))
	}
	for _, s := range r.Sales {
		lines = append(lines, fmt.Sprintf("up to %s %s: sold %s, %s", day(s.Date), s.Head, count(s.Sold12), s.Status))
	}
	for _, d := range r.Dimensions {
		lines = append(lines, dimensionLine(d))
	}
	problems := slices.Clone(r.Problems)
	if on != "" {
		costs, asked := sums(t, r, on)
		lines, problems = append(lines, costs...), append(problems, asked...)
	}
	for _, p := range problems.Sorted() {
		lines = append(lines, fmt.Sprintf("%s %s %s: %s", p.Severity, p.Kind, p.At.Cell, p.Message))
	}
	if len(lines) == 0 {
		return "nothing\n"
	}
	return strings.Join(lines, "\n") + "\n"
}

// sums adds up the landed cost of every head that the list prices.
func sums(t *testing.T, r head.Records, on string) (lines []string, asked source.Problems) {
	t.Helper()
	date, err := time.Parse(time.DateOnly, on)
	if err != nil {
		t.Fatal(err)
	}
	shop := theShop()
	shop.Rates = []head.Rate{{Currency: "EUR", Value: decimal.RequireFromString("1.09"), AsOf: source.Say(date, source.Trace{})}}
	for _, listed := range shop.Heads {
		var prices []head.Price
		for _, p := range r.Prices {
			if p.Head == listed.Name {
				prices = append(prices, p)
			}
		}
		if len(prices) == 0 {
			continue
		}
		cost := pricelist.Find(pricelist.Question{Head: listed, Heads: 2, Prices: prices, Shop: shop, On: date, Lift: quantity.Inches(0.560)})
		line := listed.Name + " lands at " + money(cost.Landed)
		if cost.Missing != "" {
			line += ": " + cost.Missing
		}
		lines, asked = append(lines, line), append(asked, cost.Problems...)
	}
	return lines, asked
}
