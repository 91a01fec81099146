package lists_test

import (
	"fmt"
	"testing"

	"flowshelf/analysis/head"
)

func stockLine(s head.StockItem) string {
	return fmt.Sprintf("%s %s: %s on hand, sold %s/%s, last %s, cost %s per %s, sell %s per %s, %s wk, %s",
		day(s.Date), s.Head, count(s.OnHand), count(s.Sold12), count(s.Sold90), count(s.LastSale),
		money(s.Cost), s.CostBasis, money(s.Sell), s.SellBasis, count(s.LeadWeeks), s.Status)
}

func TestStockBooks(t *testing.T) {
	tests := []struct {
		name, path, drawing string
		want, problems      []string
	}{
		{"units in the titles, date in the title line", "stock.xlsx", `
Stock at 2026-02-28

Head|On hand (heads)|Sold 12 m (sets)|Sold 90 d (sets)|Last sale|Net cost each $|Sell $ / set|Lead time (weeks)
LKC-12|9|31|6|@2026-02-22|452|1249|3
PW-33|8|1|0|@2025-05-18|496.50|1399|2-3 wks`,
			[]string{"2026-02-28 LKC-12: 9 on hand, sold 31/6, last 0.1971, cost 452 USD per each, sell 1249 USD per set, 3 wk, used",
				"2026-02-28 PW-33: 8 on hand, sold 1/0, last 9.396, cost 496.5 USD per each, sell 1399 USD per set, 3 wk, used"}, nil},
		{"units in a note, date in the file name, sets of four", "stock 2026-01-31.xlsx", `
On hand is counted in SETS.  Sold is counted in HEADS.
Head|On hand|Sold 12 m
TD-22|4|24
TD-26|2 sets + 2|4`,
			[]string{"2026-01-31 TD-22: 16 on hand, sold 6/?, last ?, cost ? per not stated, sell ? per not stated, ? wk, used",
				"2026-01-31 TD-26: 10 on hand, sold 1/?, last ?, cost ? per not stated, sell ? per not stated, ? wk, used"}, nil},
		{"neither unit nor date: asked, not used", "stock.xlsx", `
Head|On hand|Cost $
LKC-12|9|452`,
			[]string{"? LKC-12: ? on hand, sold ?/?, last ?, cost 452 USD per not stated, sell ? per not stated, ? wk, asked"},
			[]string{"asked stock-date-not-stated", "asked stock-unit-not-stated"}},
		{"two dates", "stock 2026-02-28.xlsx", `
Stock at 2026-01-31
Head|On hand (heads)|Cost each
LKC-12|9|452`,
			[]string{"2026-01-31 LKC-12: 9 on hand, sold ?/?, last ?, cost 452 USD per each, sell ? per not stated, ? wk, asked"},
			[]string{"asked stock-date-differs"}},
		{"less than nothing, half a head, a word for a lead time, a sale in the future", "stock 2026-02-28.xlsx", `
Head|On hand (heads)|Last sale|Lead time (weeks)
LKC-12|-1||B/O
PW-31|2.5|@2026-03-05|in stock`,
			[]string{"2026-02-28 LKC-12: -1 on hand, sold ?/?, last ?, cost ? per not stated, sell ? per not stated, ? wk, asked",
				"2026-02-28 PW-31: ? on hand, sold ?/?, last ?, cost ? per not stated, sell ? per not stated, 0 wk, used"},
			[]string{"noted lead-time-unknown", "asked negative-stock", "refused not-a-count", "refused sale-after-book"}},
		{"twelve months across, the total not a thirteenth", "stock 2026-12-31.xlsx", `
Sold in sets
Head|On hand (heads)|Jan|Feb|Mar|Apr|May|Jun|Jul|Aug|Sep|Oct|Nov|Dec|Total
LKC-12|9|1|2|3|4|5|4|3|2|1|1|-1|2|27
PW-31|2|1|2|3|4|5|4|3|2|1|1||2|27`,
			[]string{"2026-12-31 LKC-12: 9 on hand, sold 27/?, last ?, cost ? per not stated, sell ? per not stated, ? wk, used",
				"2026-12-31 PW-31: 2 on hand, sold ?/?, last ?, cost ? per not stated, sell ? per not stated, ? wk, used"},
			[]string{"asked blank-month"}},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			got, page := recognise(tt.path, sheet("Sheet1", tt.drawing), theShop())
			var lines []string
			for _, s := range got.Stock {
				lines = append(lines, stockLine(s))
			}
			same(t, "stock", lines, tt.want)
			same(t, "problems", kinds(got.Problems), tt.problems)
			accounted(t, page)
			if len(got.Prices) > 0 {
				t.Errorf("a stock book was read as a price list too: %v", got.Prices)
			}
		})
	}
}

func TestHiddenLinesAndColumnsWait(t *testing.T) {
	s := sheet("Stock", `
Stock at 2026-02-28
Head|On hand (heads)|Cost each $
LKC-12|9|452
PW-31|12|406`)
	s.HiddenRows = map[int]bool{4: true}
	s.HiddenCols = map[int]bool{3: true}
	got, page := recognise("stock.xlsx", s, theShop())
	accounted(t, page)
	same(t, "problems", kinds(got.Problems), []string{"asked hidden-column", "asked hidden-line"})
	for _, item := range got.Stock {
		if item.Cost.Known {
			t.Errorf("%s: the hidden cost was used", item.Head)
		}
		if want := map[string]head.Status{"LKC-12": head.Used, "PW-31": head.Asked}[item.Head]; item.Status != want {
			t.Errorf("%s is %s, want %s", item.Head, item.Status, want)
		}
	}
}
