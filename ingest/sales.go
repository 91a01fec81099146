package ingest

import (
	"time"

	"flowshelf/analysis/head"
	"flowshelf/analysis/source"
)

// oneBook is how much older than a stock book a book of sales may be that tells
// what the stock book leaves open: they are kept for the same month end.
const oneBook = 31 * 24 * time.Hour

// joinSales gives the sales of a book that counts no stock to the lines of the
// stock book beside it. Sales that find no such line are listed.
func (r *Reading) joinSales() {
	for _, sold := range r.Records.Sales {
		if sold.Status != head.Used || !sold.Sold12.Known {
			continue
		}
		found := false
		for i := range r.Records.Stock {
			item := &r.Records.Stock[i]
			if item.Head == sold.Head && beside(sold, *item) {
				found = true
				r.tell(item, sold)
			}
		}
		if !found {
			r.Records.Problems.Add(source.Problem{At: sold.At, Severity: source.Noted, Kind: "sales-without-stock", Head: sold.Head,
				Message: "sales by month without a line of a stock book of that month, so they are not used", Hint: "drop the stock book of that month"})
		}
	}
}

func beside(sold head.Sales, item head.StockItem) bool {
	if !sold.Date.Known || !item.Date.Known {
		return false
	}
	a, b := sold.Date.Value, item.Date.Value
	return a.Year() == b.Year() && a.Month() == b.Month() || !b.Before(a) && b.Sub(a) <= oneBook
}

// tell lets sales by month stand in a stock line that names none.
func (r *Reading) tell(item *head.StockItem, sold head.Sales) {
	switch {
	case !item.Sold12.Known:
		item.Sold12 = sold.Sold12
	case item.Sold12.Value != sold.Sold12.Value && item.Sold12.Trace.At != sold.Sold12.Trace.At:
		r.Records.Problems.Add(source.Problem{At: sold.At, Also: []source.Ref{item.Sold12.Trace.At}, Severity: source.Noted, Kind: "sales-differ", Head: item.Head,
			Message: "the sales by month differ from what was told before; the first figure is used"})
	}
}
