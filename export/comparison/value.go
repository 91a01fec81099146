package comparison

import (
	"fmt"
	"strings"

	"flowshelf/analysis/compare"
	"flowshelf/export/book"
)

// value writes how the cost of a usable set comes about and what a cfm of it
// costs.
func (w *writer) value(s *book.Sheet) {
	header := w.page(s, fmt.Sprintf("Value: what a usable set of %d costs", w.Family.HeadsPerSet),
		"Usable cost is the customer's: heads as sold, extras, springs where the range's top is above the fitted ones, rework. It orders the ranking.",
		"Landed cost is the shop's own and orders nothing. Keep this sheet in the shop.")
	table := book.Table[line]{Name: "Costs", Columns: w.valueColumns(), Rows: w.of(ranked, unpriced, belowLine), Tint: w.band}
	table.Write(s, header, 1)
	s.Freeze(header, 1)
	const onPaper = 2 // the last columns are for the screen
	w.paper(s, header, book.Print{Columns: len(table.Columns) - onPaper})
}

// bestBuy writes for which worth of a cfm each head is the best buy, and whether
// our own work or a better head is.
func (w *writer) bestBuy(s *book.Sheet) {
	row := w.page(s, "Best buy: what a cfm is worth, and our own work against a better head")
	s.Width(1, 24, 10, 10, 10, 10, 10, 26, 10, 10, 10, 10, 10, 60)
	if len(w.Frontier)+len(w.Rework) == 0 {
		s.Say(row, 1, "Fewer than two heads have a price and a curve: there is nothing to choose between.", book.Style{})
	}
	w.reworkTable(s, w.frontierTable(s, row))
	w.paper(s, 0, book.Print{})
}

func (w *writer) valueColumns() []factColumn {
	cash := func(title string, of func(line) book.Value) factColumn { return figure(title, 7.5, w.dollars, of) }
	kind := func(title string, k compare.CostKind) factColumn {
		return cash(title, func(l line) book.Value { return sum(l.Cost, k) })
	}
	return []factColumn{
		text("Head and state", 18, func(l line) string { return l.Label }),
		cash("Heads as sold", func(l line) book.Value { return money(l.Cost.Sell) }),
		text("How", 11, w.howSold),
		kind("Extras", compare.ExtraCost),
		kind("Springs", compare.SpringCost),
		kind("Rework", compare.ReworkCost),
		text("Which", 19, func(l line) string {
			return w.items(l.Cost.Lines, compare.ExtraCost, compare.SpringCost, compare.ReworkCost)
		}),
		{Title: "Usable cost", Width: 8, Style: book.Body.As(w.dollars).Strong(), Value: func(l line) book.Value { return money(l.Cost.Usable) }},
		figure("Working avg, cfm", 7.5, book.Tenth, func(l line) book.Value { return working(l.Intake) }),
		figure("Cost per cfm", 7, w.cents, func(l line) book.Value { return number(l.PerCFM) }),
		{Title: "Cost per extra cfm over " + w.Family.BaseHead, Width: 8, Style: book.Body.As(w.cents).To(book.Right), Value: perExtra},
		{Title: "Value at " + w.worth(), Width: 8, Style: book.Body.As(w.dollars).Strong(), Value: func(l line) book.Value { return number(l.Value) }},
		cash("± value", func(l line) book.Value {
			if !l.Value.Known {
				return book.Value{}
			}
			return book.Number(l.ValueU)
		}),
		text("Beaten by", 13, func(l line) string { return strings.Join(l.BeatenBy, ", ") }),
		cash("Sell price that ties the leader", func(l line) book.Value { return number(l.TiePrice) }),
		text("That price is", 11, func(l line) string { return below(l.TieBelow) }),
		figure("Margin at that price", 7.5, book.PercentOne, func(l line) book.Value { return number(l.TieMargin) }),
		cash("Sell price at the leader's cost per cfm", func(l line) book.Value { return number(l.RatioTie) }),
		cash("Landed cost", func(l line) book.Value { return money(l.Cost.Landed) }),
		figure("Margin of the sell price", 7.5, book.PercentOne, func(l line) book.Value { return number(l.Cost.Margin) }),
		figure("Markup on the landed cost", 7.5, book.PercentOne, func(l line) book.Value { return number(l.Cost.Markup) }),
		text("Landed cost is", 26, func(l line) string { return w.items(l.Cost.LandedParts, compare.HeadsCost, compare.FreightCost) }),
		text("Missing", 24, func(l line) string { return l.Cost.Missing }),
	}
}

func perExtra(l line) book.Value {
	if l.IsBase {
		return book.Text("base")
	}
	return number(l.PerExtra)
}

// howSold says what the price of the heads rests on.
func (w *writer) howSold(l line) string {
	c := l.Cost
	if !c.Sell.Known {
		return ""
	}
	if c.Proposed {
		return "proposed: no sell price set"
	}
	return fmt.Sprintf("%d x %s", c.HeadsPerSet, w.cash(c.Sell.Value.Float()/float64(max(c.HeadsPerSet, 1))))
}

// frontierTable lists the heads that are the best buy for some worth of a cfm.
func (w *writer) frontierTable(s *book.Sheet, row int) int {
	if len(w.Frontier) == 0 {
		return row
	}
	s.Say(row, 1, "Best buy, by what a cfm is worth to the customer", book.Section)
	steps := book.Table[compare.Step]{Rows: w.Frontier, Columns: []book.Column[compare.Step]{
		{Title: "Head and state", Style: book.Body, Value: func(f compare.Step) book.Value { return book.Text(f.Label) }},
		{Title: "from, a cfm", Style: book.Body.As(w.cents), Value: func(f compare.Step) book.Value { return book.Number(f.Range.From) }},
		{Title: "up to, a cfm", Style: book.Body.As(w.cents).To(book.Right), Value: func(f compare.Step) book.Value { return bestTo(&f.Range) }},
		{Title: "Each added cfm costs", Style: book.Body.As(w.cents), Value: func(f compare.Step) book.Value { return number(f.Margin) }},
		{Title: "± a cfm", Style: book.Body.As(w.cents), Value: stepU},
		{Title: "Inside the noise", Style: book.Body.Wrapped().To(book.Right), Value: stepNoise},
		{Title: "In words", Style: book.Body.Wrapped().Indented(), Value: func(f compare.Step) book.Value { return book.Text(f.Words) }},
	}}
	row = steps.Write(s, row+1, 1).ToRow + 1
	if w.LeadsWords != "" {
		s.Say(row, 1, w.LeadsWords, book.Note)
		row++
	}
	return row + 1
}

func stepU(f compare.Step) book.Value {
	if !f.Margin.Known {
		return book.Value{}
	}
	return book.Number(f.U)
}

// reworkTable holds our own work against buying a better head.
func (w *writer) reworkTable(s *book.Sheet, row int) {
	if len(w.Rework) == 0 {
		return
	}
	s.Say(row, 1, "Rework or buy better", book.Section)
	s.Say(row+1, 1, "Gains are as tested, never assumed. The work breaks even when a cfm of it costs what a cfm costs in the cheapest head that surely flows more. What it leaves is its price less its internal cost, by the rework menu.", book.Note)
	b := book.Body
	maybe := func(title string, f book.Format, of func(compare.ReworkOrBuy) compare.Maybe) book.Column[compare.ReworkOrBuy] {
		return book.Column[compare.ReworkOrBuy]{Title: title, Style: b.As(f), Value: func(r compare.ReworkOrBuy) book.Value { return number(of(r)) }}
	}
	columns := []book.Column[compare.ReworkOrBuy]{
		{Title: "Head and state", Style: b.Wrapped(), Value: func(r compare.ReworkOrBuy) book.Value { return book.Text(r.Label) }},
		{Title: "Work, a set", Style: b.As(w.dollars), Value: func(r compare.ReworkOrBuy) book.Value { return book.Number(r.Cost) }},
		{Title: "Gain, cfm", Style: b.As(book.SignedOne), Value: func(r compare.ReworkOrBuy) book.Value { return book.Number(r.Gain) }},
		{Title: "± cfm", Style: b.As(book.Tenth), Value: func(r compare.ReworkOrBuy) book.Value { return book.Number(r.GainU) }},
		maybe("A cfm of work", w.cents, func(r compare.ReworkOrBuy) compare.Maybe { return r.PerCFM }),
		maybe("A cfm bought", w.cents, func(r compare.ReworkOrBuy) compare.Maybe { return r.BetterPerCFM }),
		{Title: "in", Style: b.Wrapped().Indented(), Value: func(r compare.ReworkOrBuy) book.Value { return book.Text(r.Better) }},
		maybe("Gain that breaks even, cfm", book.Tenth, func(r compare.ReworkOrBuy) compare.Maybe { return r.BreakEven }),
		maybe("of its flow", book.PercentOne, func(r compare.ReworkOrBuy) compare.Maybe { return r.Share }),
		maybe("Our hours, a set", book.Tenth, func(r compare.ReworkOrBuy) compare.Maybe { return r.Hours }),
		maybe("It leaves, a set", w.dollars, func(r compare.ReworkOrBuy) compare.Maybe { return r.Margin }),
		maybe("an hour", w.cents, func(r compare.ReworkOrBuy) compare.Maybe { return r.PerHour }),
	}
	body := book.Table[compare.ReworkOrBuy]{Rows: w.Rework, Columns: columns}.Write(s, row+2, 1)
	for i, r := range w.Rework {
		s.Say(body.Row+i, len(columns)+1, sentence(r.Words), b.Wrapped().Indented())
	}
}

func stepNoise(f compare.Step) book.Value {
	if f.Noise {
		return book.Text("yes")
	}
	return book.Text("no")
}
