package monthly

import (
	"fmt"
	"strings"

	"flowshelf/analysis/review"
	"flowshelf/export/book"
)

// prices lists the costs and sell prices that moved or are about to.
func (w *writer) prices(s *book.Sheet) {
	row := w.page(s, "Price moves", w.Before, "A list that waits for an answer is worked out as if it were in force today. Money is a set, landed.")
	f := figures[*review.PriceMove]
	table := book.Table[*review.PriceMove]{Name: "PriceMoves", Columns: []book.Column[*review.PriceMove]{
		{Title: "Head", Width: 10, Style: book.Body.Strong(), Value: func(p *review.PriceMove) book.Value { return book.Text(p.Head) }},
		words("State", 30, func(p *review.PriceMove) string { return p.State }),
		words("List", 22, func(p *review.PriceMove) string { return p.List }),
		f("Cost before", 9, w.dollars, func(p *review.PriceMove) book.Value { return money(p.Old) }),
		f("Cost now or then", 9, w.dollars, func(p *review.PriceMove) book.Value { return money(p.New) }),
		f("Change", 8, book.SignedPct, func(p *review.PriceMove) book.Value { return number(p.Change) }),
		f("Sell before", 9, w.dollars, func(p *review.PriceMove) book.Value { return money(p.OldSell) }),
		f("Sell now", 9, w.dollars, func(p *review.PriceMove) book.Value { return money(p.Sell) }),
		f("Margin before, of sell", 9, book.PercentOne, func(p *review.PriceMove) book.Value { return number(p.MarginBefore) }),
		f("Margin now or then, of sell", 10, book.PercentOne, func(p *review.PriceMove) book.Value { return number(p.MarginNow) }),
		f("Sell that holds the margin", 10, w.dollars, func(p *review.PriceMove) book.Value { return money(p.Hold) }),
		words("Place before", 8, func(p *review.PriceMove) string { return p.PlaceBefore }),
		words("Place now", 7, func(p *review.PriceMove) string { return p.PlaceNow }),
		words("Place at that price", 9, func(p *review.PriceMove) string { return p.PlaceAtHold }),
	}}
	for i := range w.Prices {
		table.Rows = append(table.Rows, &w.Prices[i])
	}
	table.Write(s, row, 1)
	if len(table.Rows) == 0 {
		nothing(s, row+1, "No cost and no sell price moved.")
	}
	w.paper(s, row, book.Print{})
}

// changes says which places moved, and because of what.
func (w *writer) changes(s *book.Sheet) {
	row := w.page(s, "What changed in the ranking, and why", w.Before,
		"Each place was worked out again with one change undone at a time: a cause is named where that moves the place.")
	table := book.Table[review.Change]{Name: "Changes", Rows: w.Changes, Columns: []book.Column[review.Change]{
		words("Family", 14, func(c review.Change) string { return c.Family }),
		{Title: "Head", Width: 26, Style: book.Body.Strong().Indented().Wrapped(), Value: func(c review.Change) book.Value { return book.Text(c.Label) }},
		words("Place before", 8, func(c review.Change) string { return c.Before }),
		words("Place now", 8, func(c review.Change) string { return c.After }),
		words("What came of it", 16, func(c review.Change) string {
			if c.Moved {
				return "place moved"
			}
			return "no place moved"
		}),
		words("Because", 80, because),
	}}
	table.Write(s, row, 1)
	switch {
	case len(table.Rows) > 0:
	case strings.HasPrefix(w.Before, "Compared"):
		nothing(s, row+1, "No place moved, and nothing that a place rests on changed.")
	default:
		nothing(s, row+1, "There is nothing to compare with: "+w.Before)
	}
	w.paper(s, row, book.Print{})
}

func because(c review.Change) string {
	out := make([]string, len(c.Causes))
	for i, cause := range c.Causes {
		out[i] = cause.Words
	}
	text := strings.Join(out, "; ")
	if c.Together && len(c.Causes) > 1 {
		text = "together, none of them alone: " + text
	}
	return text
}

// suppliers lists what the folder says of each supplier.
func (w *writer) suppliers(s *book.Sheet) {
	row := w.page(s, "Supplier record", "Gap: tested against advertised at the advert's peak lift, below three heads too few to say. Needs work: took our work, or cannot be used without extras.")
	join := func(list []string) string { return strings.Join(list, "; ") }
	table := book.Table[*review.SupplierRecord]{Name: "Suppliers", Columns: []book.Column[*review.SupplierRecord]{
		{Title: "Supplier", Width: 15, Style: book.Body.Strong(), Value: func(r *review.SupplierRecord) book.Value { return book.Text(r.Supplier) }},
		figures("Heads", 6, book.Flow, func(r *review.SupplierRecord) book.Value { return book.Count(r.Heads) }),
		figures("Flowed here", 7, book.Flow, func(r *review.SupplierRecord) book.Value { return book.Count(r.Tested) }),
		words("Advertised gap", 26, gap),
		words("Price rises, 12 months", 22, func(r *review.SupplierRecord) string { return orNone(join(r.Rises), "none known") }),
		words("Casting to casting", 34, func(r *review.SupplierRecord) string {
			return orNone(join(r.Castings), "one sample a head: not known")
		}),
		words("Needs work", 24, func(r *review.SupplierRecord) string { return orNone(needsWork(r), "none") }),
		figures("Findings against", 9, book.Flow, func(r *review.SupplierRecord) book.Value { return book.Count(r.Notes) }),
		words("Late deliveries", 20, func(r *review.SupplierRecord) string { return r.Late }),
	}}
	for i := range w.Suppliers {
		table.Rows = append(table.Rows, &w.Suppliers[i])
	}
	table.Write(s, row, 1)
	if len(table.Rows) == 0 {
		nothing(s, row+1, "No supplier is known.")
	}
	w.paper(s, row, book.Print{})
}

func orNone(words, none string) string {
	if words == "" {
		return none
	}
	return words
}

func gap(r *review.SupplierRecord) string {
	if r.Gap == nil {
		return "no advert with a test beside it"
	}
	if r.Gap.Worded != "" {
		return fmt.Sprintf("%s (%d)", r.Gap.Worded, r.Gap.Heads)
	}
	return fmt.Sprintf("median %+.1f %%, worst %+.1f %%, %d heads", r.Gap.Median, r.Gap.Worst, r.Gap.Heads)
}

func needsWork(r *review.SupplierRecord) string {
	if len(r.NeedsWork) == 0 {
		return ""
	}
	return fmt.Sprintf("%d of %d: %s", len(r.NeedsWork), r.Heads, strings.Join(r.NeedsWork, "; "))
}
