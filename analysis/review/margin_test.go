package review_test

import (
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"flowshelf/analysis/head"
	"flowshelf/analysis/review"
	"flowshelf/ingest/ingesttest"
)

// TestThinMarginsAreRepriced sets a minimum margin of 22 % of the sell price.
// Prices are landed / 0.78, worked out by hand from the landed costs of
// TestStockHealth, raised to how the shop's prices end.
func TestThinMarginsAreRepriced(t *testing.T) {
	for _, c := range []struct {
		ending head.Ending
		want   map[string]string
	}{
		{head.NoEnding, map[string]string{"OB-4": "to $2,410", "VR-84": "to $1,015", "OB-44": "to $4,436", "LKC-41": "to $1,100", "TD-22": "to $1,154"}},
		{head.EndNine, map[string]string{"OB-4": "to $2,419", "VR-84": "to $1,019", "OB-44": "to $4,439", "LKC-41": "to $1,109", "TD-22": "to $1,159"}},
		{head.EndCents95, map[string]string{"OB-4": "to $2,410.95", "VR-84": "to $1,015.95", "OB-44": "to $4,435.95", "LKC-41": "to $1,100.95", "TD-22": "to $1,153.95"}},
	} {
		t.Run(string(c.ending), func(t *testing.T) {
			records, shop := ingesttest.Demo(t)
			shop.Rules.MinimumMargin, shop.Rules.Ending = 0.22, c.ending
			r := review.Make(at(records, shop), review.Before{})
			got := make(map[string]string)
			for _, d := range r.Decisions {
				if d.Action == review.Reprice {
					got[d.Head] = d.What
					if !strings.Contains(d.Reason, "is below the minimum of 22 %") {
						t.Errorf("%s is repriced because %q", d.Head, d.Reason)
					}
				}
			}
			if diff := cmp.Diff(c.want, got); diff != "" {
				t.Errorf("repriced (-want +got)\n%s", diff)
			}
			for _, h := range r.Stock {
				if flagged := h.Least.Known; flagged != (h.Margin.Value < 0.22) {
					t.Errorf("%s: margin %.3f, flagged %v", h.Head, h.Margin.Value, flagged)
				}
			}
		})
	}
}

// TestNoThinMargin holds that a shelf above its minimum is left alone.
func TestNoThinMargin(t *testing.T) {
	for _, d := range review.Make(at(ingesttest.Demo(t)), review.Before{}).Decisions {
		if d.Action == review.Reprice {
			t.Errorf("%s is repriced: %s", d.Head, d.Reason)
		}
	}
}
