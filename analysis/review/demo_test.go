package review_test

import (
	"fmt"
	"math"
	"slices"
	"strings"
	"testing"
	"time"

	"flowshelf/analysis/compare"
	"flowshelf/analysis/head"
	"flowshelf/analysis/history"
	"flowshelf/analysis/review"
	"flowshelf/ingest/ingesttest"
)

var march = time.Date(2026, time.March, 16, 0, 0, 0, 0, time.UTC)

func at(records head.Records, shop head.Shop) review.Now {
	return review.Now{Records: records, Shop: shop, Families: compare.All(records, shop, march), Date: march}
}

// TestStockHealth holds the demo's shelf against figures worked out by hand:
// months = on hand / heads a set / sold x 12, return = sold x margin / cash,
// reorder point = sold/12 x (lead weeks/(52/12) + 1.5).
func TestStockHealth(t *testing.T) {
	r := review.Make(at(ingesttest.Demo(t)), review.Before{})
	want := []struct {
		head                             string
		sets, odd                        int
		landed, sell, margin             float64
		marginPercent                    float64
		cash, months, earns, lead, point float64
		class                            review.Class
		order                            string
	}{
		{"LKC-07", 7, 0, 536, 699, 163, 23.3, 3752, 3.8, 0.96, 2, 3.60, review.Steady, ""},
		{"LKC-12", 4, 1, 904, 1249, 345, 27.6, 4068, 1.7, 2.63, 3, 5.66, review.Mover, "11 heads, not 10"},
		{"PW-31", 6, 0, 868, 1149, 281, 24.4, 5210, 14.4, 0.27, 4, 1.01, review.Slow, ""},
		{"PW-33", 4, 0, 1049, 1399, 350, 25.0, 4196, 48.0, 0.08, 4, 0.20, review.Dead, ""},
		{"OB-4", 1, 0, 1880, 2349, 469, 20.0, 1880, 1.3, 2.25, 6, 2.16, review.Mover, "6 heads, not 5"},
		{"VR-81", 3, 0, 908, 1179, 271, 23.0, 2724, 18.0, 0.20, 3, 0.37, review.Slow, ""},
		{"VR-84", 5, 0, 792, 999, 207, 20.7, 3960, 10.0, 0.31, 3, 1.10, review.Slow, ""},
		{"LKC-41", 2, 0, 858, 1099, 241, 21.9, 1716, 6.0, 0.56, 3, 0.73, review.Steady, ""},
		{"PW-46", 3, 0, 1782, 2395, 613, 25.6, 5347, 36.0, 0.11, 4, 0.20, review.Dead, ""},
		{"OB-44", 0, 0, 3460, 4390, 930, 21.2, 0, 0.0, math.NaN(), 10, 0.95, review.Order, ""},
		{"VR-49", 2, 0, 2018, 2640, 622, 23.6, 4036, 6.0, 0.62, 3, 0.73, review.Steady, ""},
		{"TD-22", 4, 0, 900, 1149, 249, 21.7, 3600, 8.0, 0.41, 8, 1.67, review.Steady, ""},
		{"TD-26", 2, 2, 1105, 1395, 290, 20.8, 2762, 30.0, 0.10, 8, 0.28, review.Dead, ""},
		{"LKC-90", 5, 0, 712, 949, 237, 25.0, 3560, 6.7, 0.60, 2, 1.47, review.Steady, ""},
	}
	if len(r.Stock) != len(want) {
		t.Fatalf("%d heads in stock, want %d", len(r.Stock), len(want))
	}
	const (
		dollar    = 0.51  // whole dollars are shown
		tenth     = 0.051 // so are tenths of a month and of a percent
		hundredth = 0.0051
	)
	for i, w := range want {
		h := r.Stock[i]
		if h.Head != w.head || h.Sets != w.sets || h.Odd != w.odd || h.Class != w.class || h.Order.What() != w.order || h.LeadWeeks.Value != w.lead {
			t.Errorf("got %s %d + %d %s %q, %g weeks; want %+v", h.Head, h.Sets, h.Odd, h.Class, h.Order.What(), h.LeadWeeks.Value, w)
		}
		for _, x := range []struct {
			name           string
			got, want, tol float64
		}{
			{"landed", h.Landed.Value.Float(), w.landed, dollar}, {"sell", h.Sell.Value.Float(), w.sell, dollar},
			{"margin", h.MarginSet.Value.Float(), w.margin, dollar}, {"margin %", 100 * h.Margin.Value, w.marginPercent, tenth},
			{"markup", h.Markup.Value, h.Margin.Value / (1 - h.Margin.Value), 1e-9},
			{"cash", h.Cash.Value.Float(), w.cash, dollar}, {"months", h.Months.Value, w.months, tenth},
			{"reorder point", h.ReorderPoint.Value, w.point, hundredth},
		} {
			if math.Abs(x.got-x.want) > x.tol {
				t.Errorf("%s: %s %.3f, want %.3f", w.head, x.name, x.got, x.want)
			}
		}
		if h.Return.Known == math.IsNaN(w.earns) || h.Return.Known && math.Abs(h.Return.Value-w.earns) > hundredth {
			t.Errorf("%s: margin return %+v, want %g", w.head, h.Return, w.earns)
		}
	}
	if got := r.Totals; math.Abs(got.Cash.Float()-46812) > dollar || got.DeadCash.Float() != 12305 ||
		math.Round(100*got.DeadShare.Value) != 26 || !slices.Equal(got.Dead, []string{"PW-33", "PW-46", "TD-26"}) {
		t.Errorf("totals %+v, want $46,812 with $12,305 dead, 26 %%", got)
	}
}

// TestDecisions holds the page of decisions against what the owner of the
// invented shop would decide.
func TestDecisions(t *testing.T) {
	r := review.Make(at(ingesttest.Demo(t)), review.Before{})
	want := []struct {
		head   string
		action review.Action
		says   string
	}{
		{"LKC-12", review.Reorder, "reorder point 5.7"},
		{"OB-4", review.Reorder, "1.0 in the lead time"},
		{"PW-31", review.Stop, "no price above its cost of $868 beats LKC-12"},
		{"VR-81", review.Stop, "all-in: $2,189"},
		{"VR-84", review.Show, "best buy while a cfm is worth $9.17 to $12.46"},
		{"PW-33", review.ClearOut, "section of 2.55 in2"},
		{"PW-46", review.ClearOut, "no place"},
		{"PW-46", review.TestNext, ".200"},
		{"TD-26", review.ClearOut, "2 odd heads"},
		{"TD-22", review.TestNext, "nothing is proven"},
		{"LKC-07", review.Keep, "none for 3.0 months: season, or lost to another head?"},
		{"OB-44", review.Keep, "special order only"},
		{"LKC-41", review.Keep, "base head"},
	}
	for _, w := range want {
		if !slices.ContainsFunc(r.Decisions, func(d review.Decision) bool {
			return d.Head == w.head && d.Action == w.action && strings.Contains(d.Reason, w.says)
		}) {
			t.Errorf("no decision to %s %s with %q among %+v", w.action, w.head, w.says, r.Decisions)
		}
	}
	if !slices.ContainsFunc(r.Holes, func(h review.Hole) bool { return h.From == "LKC-12" && h.To == "OB-4" }) {
		t.Errorf("the gap between LKC-12 and OB-4 is not seen: %+v", r.Holes)
	}
	if n := len(r.Bench.Days); n != 10 || !r.Bench.Days[2].Flagged || r.Bench.Days[3].Flagged {
		t.Errorf("bench: %d mornings, %+v", n, r.Bench)
	}
	if len(r.Changes) != 0 || !strings.Contains(r.Before, "nothing can be said") {
		t.Errorf("without a month before: %+v, %q", r.Changes, r.Before)
	}
}

// TestFactsComeBack reads back what was kept, cell by cell, and finds nothing
// changed.
func TestFactsComeBack(t *testing.T) {
	now := at(ingesttest.Demo(t))
	facts := review.Facts(now)
	r := review.Make(now, review.Before{Facts: &facts})
	if len(r.Changes) != 0 || slices.ContainsFunc(r.Prices, func(p review.PriceMove) bool { return p.InForce }) {
		t.Errorf("against itself: %+v, %+v", r.Changes, r.Prices)
	}
	if got := fmt.Sprint(len(facts.Heads), len(facts.Places)); got != "14 16" {
		t.Errorf("heads and places: %s, want 14 and 9 + 4 + 3 entries", got)
	}
	if history.Month(facts.Date) != "2026-03" {
		t.Errorf("month %s", history.Month(facts.Date))
	}
}
