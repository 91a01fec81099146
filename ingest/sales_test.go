package ingest_test

import (
	"context"
	"testing"
	"testing/fstest"

	"github.com/google/go-cmp/cmp"

	"flowshelf/analysis/head"
	"flowshelf/ingest"
	"flowshelf/ingest/decode"
	"flowshelf/ingest/layout"
)

const salesCSV = "Sold in sets\nHead;Mar 25;Apr 25;May 25;Jun 25;Jul 25;Aug 25;Sep 25;Oct 25;Nov 25;Dec 25;Jan 26;Feb 26;Total\n" +
	"LKC-12;3;4;5;4;3;2;1;1;-1;2;3;4;31\nLKC-07;1;1;1;1;1;1;1;1;1;1;1;1;12\nLKC-90;2;2;2;2;2;2;2;2;2;2;2;2;24\n"

func TestSalesByMonthJoinTheStockBook(t *testing.T) {
	got := read(t, withSetup(t, fstest.MapFS{
		"stock 2026-02-28.csv": file("Head;On hand (heads);Sold 12 m (sets);Net cost each, USD\nLKC-12;9;;452\nLKC-07;14;22;268\n"),
		"stock 2026-04-30.csv": file("Head;On hand (heads);Net cost each, USD\nLKC-12;5;452\n"),
		"sold.csv":             file(salesCSV),
	}))
	type line struct {
		Date, Head string
		Sold       float64
		From       string
	}
	var lines []line
	for _, s := range got.Records.Stock {
		lines = append(lines, line{s.Date.Value.Format("2006-01-02"), s.Head, s.Sold12.Value, s.Sold12.Trace.At.File})
	}
	want := []line{{"2026-02-28", "LKC-12", 31, "sold.csv"}, {"2026-02-28", "LKC-07", 22, "stock 2026-02-28.csv"}, {"2026-04-30", "LKC-12", 0, ""}}
	if diff := cmp.Diff(want, lines); diff != "" {
		t.Error(diff)
	}
	var problems []string
	for _, p := range got.Problems {
		problems = append(problems, p.Severity.String()+" "+p.Kind+" "+p.Head)
	}
	if diff := cmp.Diff([]string{"noted sales-differ LKC-07", "noted sales-without-stock LKC-90"}, problems); diff != "" {
		t.Error(diff)
	}
}

// shortOfTime is over after it has been asked so many times.
type shortOfTime struct {
	context.Context
	left int
}

func (c *shortOfTime) Err() error {
	if c.left--; c.left < 0 {
		return context.DeadlineExceeded
	}
	return nil
}

// A book for which the time runs out, wherever it does, is refused whole: never
// read in part.
func TestABookIsReadInTimeOrNotAtAll(t *testing.T) {
	inTime, tooSlow := 0, 0
	for asked := range 60 {
		got := ingest.ReadFile(&shortOfTime{context.Background(), asked}, "prices.csv", []byte(pricesCSV), layout.Context{Shop: head.Shop{Currency: "USD"}}, decode.Defaults())
		switch {
		case got.State == ingest.Refused && got.Kind == "too-slow" && len(got.Pages) == 0 && len(got.Records.Prices) == 0:
			tooSlow++
		case got.State == ingest.Read || got.State == ingest.SetAside || got.State == ingest.PartlyRead:
			inTime++
		default:
			t.Fatalf("asked %d times: %s %s with %d pages", asked, got.State, got.Kind, len(got.Pages))
		}
	}
	if inTime == 0 || tooSlow < 10 {
		t.Errorf("%d in time, %d too slow", inTime, tooSlow)
	}
}
