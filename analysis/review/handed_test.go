package review_test

import (
	"slices"
	"testing"

	"flowshelf/analysis/head"
	"flowshelf/analysis/review"
	"flowshelf/analysis/source"
	"flowshelf/ingest/ingesttest"
)

// TestHandedParts counts a head that comes as left and right parts: a set takes
// as many of the one as of the other. The demo's LKC-12 sells 31 sets a year at
// 3 weeks and is brought to 3 months on top: 31/12 x (3 + 3/(52/12)) = 9.5 sets, 10 in
// whole ones.
func TestHandedParts(t *testing.T) {
	for _, c := range []struct {
		what        string
		left, right int // -1 for a part without a line
		sets, odd   int
		order, says string
	}{
		{"3 left and 2 right make 2 sets", 3, 2, 2, 1, "7 left and 8 right", "1 odd head: 3 left and 2 right make 2 sets"},
		{"as many of each", 4, 4, 4, 0, "6 left and 6 right", ""},
		{"one hand only", 9, 0, 0, 9, "1 left and 10 right", "9 odd heads: 9 left and 0 right make 0 sets"},
		{"the right part has no line", 3, -1, 0, 3, "", "only one of its two parts has a line in the newest stock book, so sets cannot be counted"},
	} {
		t.Run(c.what, func(t *testing.T) {
			records, shop := ingesttest.Demo(t)
			at12 := slices.IndexFunc(records.Stock, func(s head.StockItem) bool { return s.Head == "LKC-12" && s.Date.Value.Month() == 2 })
			line := records.Stock[at12]
			line.SoldIn = head.Set
			records.Stock = slices.DeleteFunc(records.Stock, func(s head.StockItem) bool { return s.Head == "LKC-12" })
			for hand, n := range map[head.Hand]int{head.LeftHand: c.left, head.RightHand: c.right} {
				if n >= 0 {
					part := line
					part.Hand, part.OnHand = hand, source.Say(n, line.OnHand.Trace)
					records.Stock = append(records.Stock, part)
				}
			}
			r := review.Make(at(records, shop), review.Before{})
			i := slices.IndexFunc(r.Stock, func(h review.Health) bool { return h.Head == "LKC-12" })
			h := r.Stock[i]
			if h.Sets != c.sets || h.Odd != c.odd || h.Order.What() != c.order {
				t.Errorf("%d sets + %d, order %q; want %d + %d, %q", h.Sets, h.Odd, h.Order.What(), c.sets, c.odd, c.order)
			}
			if c.right >= 0 && h.Sold12.Value != 31 {
				t.Errorf("sold %v sets, want 31", h.Sold12.Value)
			}
			if c.says != "" && !slices.Contains(h.Remarks, c.says) {
				t.Errorf("says %q, want %q", h.Remarks, c.says)
			}
		})
	}
}
