// Package supplier writes the sheet that is put in front of one supplier: his
// heads only, what he advertises beside what they flowed here, with the
// conditions of both. It shows no cost and nobody else's heads.
package supplier

import (
	"cmp"
	"fmt"
	"math"
	"time"

	"flowshelf/analysis/compare"
	port "flowshelf/analysis/head"
	"flowshelf/export/book"
)

// Folder is where the sheets lie, below the output folder.
const Folder = "For suppliers"

// Gaps are one supplier's heads, advertised and tested.
type Gaps struct {
	Supplier string
	Shop     string
	Date     time.Time
	Heads    []compare.Gap
	Record   *compare.SupplierGap
	Basis    string // at which pressure the flows are stated
}

// Of gathers each supplier's gaps from all families, in their order.
func Of(families []compare.Comparison) []Gaps {
	var out []Gaps
	find := func(c *compare.Comparison, name string) *Gaps {
		for i := range out {
			if out[i].Supplier == name {
				return &out[i]
			}
		}
		out = append(out, Gaps{Supplier: name, Shop: c.Shop, Date: c.Date, Basis: fmt.Sprintf("cfm at %g inH2O", c.Rules.Reference.InH2O())})
		return &out[len(out)-1]
	}
	for i := range families {
		c := &families[i]
		for _, g := range c.Gaps {
			if g.Supplier != "" {
				s := find(c, g.Supplier)
				s.Heads = append(s.Heads, g)
			}
		}
		for j := range c.Suppliers {
			for k := range out {
				if out[k].Supplier == c.Suppliers[j].Supplier {
					out[k].Record = &c.Suppliers[j]
				}
			}
		}
	}
	return out
}

// Write returns the sheet of one supplier.
func Write(g Gaps) ([]byte, error) {
	b := book.New(book.Properties{ID: "for supplier/" + g.Supplier, Title: "Advertised and tested: " + g.Supplier, Shop: g.Shop, Dated: g.Date})
	s := b.Sheet("Advertised and tested")
	s.Width(1, 14, 16, 16, 16, 44)
	s.Say(1, 1, "Advertised and tested: "+g.Supplier, book.Title)
	s.Say(2, 1, fmt.Sprintf("%s, %s. %s.", g.Shop, g.Date.Format(time.DateOnly), g.Basis), book.Subtitle)
	row := 4
	if r := g.Record; r != nil {
		words := r.Worded
		if words == "" {
			words = fmt.Sprintf("median %+.1f %%, worst %+.1f %%", r.Median, r.Worst)
		}
		s.Say(row, 1, fmt.Sprintf("Tested against advertised at the advertised peak lift, %d heads: %s.", r.Heads, words), book.Body.Strong())
		row += 2
	}
	for _, h := range g.Heads {
		row = head(s, row, h) + 1
	}
	s.Say(row, 1, "Figures are of the samples tested, on the conditions stated; another casting may differ by 2 to 3 %.", book.Note)
	s.Print(book.Print{Upright: true, Basis: "advertised and tested, " + g.Supplier})
	return b.Bytes()
}

// head lays out one port of one head and returns the next free row.
func head(s *book.Sheet, row int, g compare.Gap) int {
	s.Say(row, 1, fmt.Sprintf("%s, %s", g.Head, g.Port), book.Section)
	row++
	for _, c := range []struct {
		name string
		of   compare.Conditions
	}{{"Advertised", g.Advertised}, {"Tested here", g.Tested}} {
		s.Across(row, 1, 5, book.Cell{Value: book.Text(c.name + ": " + conditions(c.of, g.Port)), Style: book.Prose})
		row++
	}
	t := book.Table[compare.GapRow]{Rows: g.Rows, Columns: []book.Column[compare.GapRow]{
		{Title: "Lift, in", Style: book.Body.As(book.Lift).To(book.Left), Value: func(r compare.GapRow) book.Value { return book.Number(tidy(r.Lift.In())) }},
		{Title: "Advertised", Style: book.Body.As(book.Flow), Value: func(r compare.GapRow) book.Value { return book.Number(r.Advertised.CFM()) }},
		{Title: "Tested here", Style: book.Body.As(book.Flow), Value: func(r compare.GapRow) book.Value { return book.Number(r.Tested.CFM()) }},
		{Title: "Gap", Style: book.Body.As(book.SignedPct), Value: func(r compare.GapRow) book.Value { return book.Number(r.Percent / 100) }},
	}}
	t.Write(s, row, 1)
	row += max(len(g.Rows), 1) + 1
	if g.Explained != "" {
		s.Across(row, 1, 5, book.Cell{Value: book.Text("Explained by the conditions: " + g.Explained), Style: book.Note.Wrapped()})
		row++
	}
	return row
}

func conditions(c compare.Conditions, side port.Port) string {
	say := func(name, words string) string { return name + " " + cmp.Or(words, "not stated") }
	last := say("entry", c.Entry)
	if side == port.Exhaust {
		last = say("pipe", c.Pipe)
	}
	return fmt.Sprintf("%s, %s, %s", say("bore", c.Bore), say("pressure", c.Pressure), last)
}

// tidy drops the last bits that a unit conversion leaves.
func tidy(x float64) float64 { return math.Round(x*1e6) / 1e6 }
