package pricing

import (
	"fmt"
	"strings"

	"flowshelf/analysis/head"
	"flowshelf/export/book"
)

// definition is one word of the sheets with what it means.
type definition struct{ word, means string }

// method says what each figure is.
func (w *writer) method() {
	s := w.how
	header := w.page(s, "Method: what each figure is")
	book.Table[definition]{Rows: w.definitions(), Columns: []book.Column[definition]{
		{Title: "Figure", Width: 34, Style: book.Body.Strong(), Value: func(d definition) book.Value { return book.Text(d.word) }},
		{Title: "is", Width: 96, Style: book.Body.Wrapped(), Value: func(d definition) book.Value { return book.Text(d.means) }},
	}}.Write(s, header, 1)
	w.paper(s, header)
}

func (w *writer) definitions() []definition {
	var endings []string
	for _, e := range head.Endings() {
		endings = append(endings, string(e))
	}
	return []definition{
		{"Yellow cell", "may be typed in. The sheets are locked without a password, so that a formula is not lost by a slip; take the protection off to change more."},
		{"Typed figures", "are carried over when the service writes this workbook again, until the cell is cleared; the version somebody changed is also kept beside it under its date. Sheet Started from shows what they replace."},
		{"States of one casting", "follow the cost, freight, sell price and minimum of the casting's first row until typed over."},
		{"Landed a set", fmt.Sprintf("%d x (cost each x rate + freight each x its rate + surcharge in other money x its rate); a blank freight counts as none. Surcharges in the money of the price are in the cost. It never moves a place.", w.Heads)},
		{"Our work", "what the shop puts into the heads at the customer's price: rework, and the valves, springs, retainers and assembly of a head that comes bare. It costs the shop hours x labour rate + parts. Parts hold what an internal cost of the menu has beyond its hours; without a labour rate in the setup the internal cost stands whole."},
		{"Margin with our work, of all paid", "(sell + our work - landed - what our work costs us), and that as a share of sell + our work. The margin and markup before them are on the heads alone."},
		{"Margin, of the sell price", "(sell - landed) / sell."},
		{"Markup, of the landed cost", "(sell - landed) / landed. A markup of 30 % is a margin of 23.1 %: the same money, another share."},
		{"Usable cost", "sell + extras + springs + our work: what the customer pays for a set that is ready for the family's range. A blank among them leaves it unknown."},
		{"Value", "worth of a cfm x working average - usable cost, as in the ranking."},
		{"Place", fmt.Sprintf("by value, with ties as in the ranking: from the top, a head shares the place of the group's first while that one is not above it with a probability of %s. 2= is shared.", share(w.TieLevel()))},
		{"Beaten by", "the best flowing of the heads that flow as much for as little, one of the two strictly."},
		{"Going rate of the shelf", "median of the slopes of usable cost over working average between all pairs of heads with a place and without rework (Theil-Sen); with four heads or more. It is the worth of a cfm where the setup has none."},
		{"Sell price that ties the leader", "the leader's usable cost + worth x (working average - the leader's) - extras - springs - our work. For the leader: up to where the second draws level."},
		{"Lowest price", "landed / (1 - minimum margin)."},
		{"Room between that and the tie", "from the higher of the lowest price and the minimum advertised price up to the price that ties. Below zero: none."},
		{"Cost each for first place", "(price that ties x (1 - target margin) / heads a set - freight and surcharges in our money) / rate, in the money it is bought in: what to ask of the supplier. For the leader: at its present sell price. Never: no cost above nothing would do."},
		{"Sell price that holds the margin", "landed / (1 - the margin at the figures this sheet started from)."},
		{"Sets a year for the same money", "sets sold in 12 months x the margin money of the start / the margin money now. Sales are counted on the head as delivered."},
		{"Suggested sell price", "the highest of: price at the target margin, lowest price, minimum advertised; raised to the next price that ends as chosen (" + strings.Join(endings, ", ") + "). Raised and never lowered, so that the margin aimed at is kept."},
		{"Before a sale", "a price says nothing about fit: valve to piston, spring loads and coil bind go by measured clearances and the maker's limits."},
	}
}

func share(x float64) string { return fmt.Sprintf("%.6g %%", 100*x) }
