package monthly

import (
	"fmt"
	"strings"

	"flowshelf/analysis/review"
	"flowshelf/export/book"
)

// decisions is the one page that is read first.
func (w *writer) decisions(s *book.Sheet) {
	t := w.Totals
	summary := fmt.Sprintf("%s in heads on the shelf.", review.Cash(t.Cash))
	if t.DeadShare.Known && len(t.Dead) > 0 {
		summary += fmt.Sprintf(" Dead: %s, %s = %.0f %%.", strings.Join(t.Dead, ", "), review.Cash(t.DeadCash), 100*t.DeadShare.Value)
	}
	if len(t.Left) > 0 {
		summary += " Not in the sum, for want of a cost or a count: " + strings.Join(t.Left, ", ") + "."
	}
	row := w.page(s, "Decisions for "+w.Month, summary, w.Before)
	header := row
	last := review.Action("")
	fresh := make(map[int]bool)
	for i, d := range w.Decisions {
		fresh[i], last = d.Action != last, d.Action
	}
	table := book.Table[review.Decision]{Name: "Decisions", Rows: w.Decisions, Columns: []book.Column[review.Decision]{
		{Title: "Do", Width: 12, Style: book.Body.Strong(), Value: func(d review.Decision) book.Value { return book.Text(string(d.Action)) }},
		{Title: "Head", Width: 10, Style: book.Body.Strong(), Value: func(d review.Decision) book.Value { return book.Text(d.Head) }},
		words("How much", 19, func(d review.Decision) string { return d.What }),
		words("Because", 76, func(d review.Decision) string { return d.Reason }),
		figures("Money", 10, w.dollars, func(d review.Decision) book.Value { return money(d.Dollars) }),
		words("of which", 12, func(d review.Decision) string {
			if !d.Dollars.Known {
				return ""
			}
			return d.About
		}),
	}, Tint: func(i int) book.Colour {
		if fresh[i] && w.Decisions[i].Action != review.Keep {
			return book.BandFill
		}
		return ""
	}}
	table.Write(s, row, 1)
	if len(table.Rows) == 0 {
		nothing(s, row+1, "Nothing is in stock, so there is nothing to decide.")
	}
	row += max(len(table.Rows), 1) + 2
	for _, h := range w.Holes {
		s.Across(row, 1, 6, book.Cell{Value: book.Text("Gap on the shelf, " + h.Family + ": " + h.Words + "."), Style: book.Prose})
		row++
	}
	for _, c := range w.Candidates {
		s.Across(row, 1, 6, book.Cell{Value: book.Text(fmt.Sprintf("Seen and not stocked: %s (%s): %s.", c.Head, c.Supplier, c.Words)), Style: book.Prose})
		row++
	}
	if len(w.Candidates) == 0 {
		s.Say(row, 1, "Every head that a sheet or a list speaks of is stocked.", book.Note)
	}
	w.paper(s, header, book.Print{OnePage: true})
}

// stock is the table of everything on the shelf.
func (w *writer) stock(s *book.Sheet) {
	y := w.Rules
	row := w.page(s, "Stock health",
		fmt.Sprintf("Months of supply = heads on hand / heads a set / sets sold in 12 months x 12. Slow: above %g months; dead: slow, and nothing sold for %g months; mover: below %g.", y.SlowMonths, y.DeadMonths, y.MoverMonths),
		fmt.Sprintf("Reorder point = demand in the lead time (52/12 weeks a month) + %g months; an order brings the stock to %g months on top of the lead time, in whole sets. A head is stocked from %g sets a year.", y.SafetyMonths, y.OrderMonths, y.StockFrom),
		"Margin is a share of the sell price, markup of the landed cost. Margin return = a year's margin money for each of money in stock today. Common practice, no source.")
	f := figures[*review.Health]
	table := book.Table[*review.Health]{Name: "StockHealth", Columns: []book.Column[*review.Health]{
		{Title: "Head", Width: 9.5, Style: book.Body.Strong(), Value: func(h *review.Health) book.Value { return book.Text(h.Head) }},
		words("Family", 11.5, func(h *review.Health) string { return h.Family }),
		f("On hand, heads", 6.5, book.Flow, func(h *review.Health) book.Value { return count(h.OnHand) }),
		f("Sets", 5, book.Flow, func(h *review.Health) book.Value { return w.sets(h, h.Sets) }),
		f("Odd heads", 5.5, book.Flow, func(h *review.Health) book.Value { return w.sets(h, h.Odd) }),
		f("Sold 12 m, sets", 6.5, book.General, func(h *review.Health) book.Value { return figure(h.Sold12) }),
		f("Sold 90 d, sets", 6.5, book.General, func(h *review.Health) book.Value { return figure(h.Sold90) }),
		f("Last sale, months", 7, book.Tenth, func(h *review.Health) book.Value { return figure(h.LastSale) }),
		f("Months of supply", 7.5, book.Tenth, months),
		f("Landed a set", 8.5, w.dollars, func(h *review.Health) book.Value { return money(h.Landed) }),
		f("Sell a set", 8.5, w.dollars, func(h *review.Health) book.Value { return money(h.Sell) }),
		f("Cash tied up", 9, w.dollars, func(h *review.Health) book.Value { return money(h.Cash) }),
		f("Margin % of sell", 7.5, book.PercentOne, func(h *review.Health) book.Value { return number(h.Margin) }),
		f("Markup % of cost", 7.5, book.PercentOne, func(h *review.Health) book.Value { return number(h.Markup) }),
		f("Margin $ a set", 8, w.dollars, func(h *review.Health) book.Value { return money(h.MarginSet) }),
		f("Turns a year", 6, book.Tenth, func(h *review.Health) book.Value { return number(h.Turns) }),
		f("Margin return", 7, book.Hundredth, func(h *review.Health) book.Value { return number(h.Return) }),
		f("Lead, weeks", 6, book.General, func(h *review.Health) book.Value { return figure(h.LeadWeeks) }),
		f("Sold in lead, sets", 6.5, book.Tenth, func(h *review.Health) book.Value { return number(h.LeadDemand) }),
		f("Reorder point, sets", 7.5, book.Tenth, func(h *review.Health) book.Value { return number(h.ReorderPoint) }),
		words("Suggested order", 13, func(h *review.Health) string { return h.Order.What() }),
		words("Class", 8, func(h *review.Health) string { return string(h.Class) }),
		words("Look at", 30, func(h *review.Health) string { return strings.Join(h.Remarks, "; ") }),
	}}
	for i := range w.Stock {
		table.Rows = append(table.Rows, &w.Stock[i])
	}
	body := table.Write(s, row, 1)
	if len(table.Rows) == 0 {
		nothing(s, row+1, "No stock book is in the folder.")
	} else {
		const cash = 12
		total := row + len(table.Rows) + 1
		s.Say(total, 1, "Together", book.Body.Strong())
		area := body.Column(cash - 1)
		s.Formula(total, cash, "SUM("+book.CellName(area.Row, cash)+":"+book.CellName(area.ToRow, cash)+")",
			book.Number(w.Totals.Cash.Float()), book.Body.As(w.dollars).Strong().To(book.Right))
	}
	w.paper(s, row, book.Print{})
}

// sets leaves the cell empty where sets cannot be counted.
func (w *writer) sets(h *review.Health, n int) book.Value {
	if !h.OnHand.Known || h.HeadsPerSet < 1 {
		return book.Value{}
	}
	return book.Count(n)
}

// months is a number where there is one, else the words for it.
func months(h *review.Health) book.Value {
	if words := h.MonthsWords(); !h.Months.Known || words == "99+" {
		return book.Text(words)
	}
	return number(h.Months)
}
