// Package supplier writes the sheet that is put in front of one supplier: his
// heads only, what he advertises beside what they flowed here, with the
// conditions of both, and what he quotes of heads that were never flowed here.
// It shows no cost and nobody else's heads.
package supplier

import (
	"cmp"
	"fmt"
	"math"
	"slices"
	"strings"
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
	Untested []compare.Entry // by his own figures only
	Record   *compare.SupplierGap
	Basis    string // at which pressure the flows are stated
	Paper    port.Paper
}

// Of gathers each supplier's gaps from all families, in their order, and the
// heads of which there is nothing but what he says.
func Of(families []compare.Comparison) []Gaps {
	var out []Gaps
	find := func(c *compare.Comparison, name string) *Gaps {
		for i := range out {
			if out[i].Supplier == name {
				return &out[i]
			}
		}
		out = append(out, Gaps{Supplier: name, Shop: c.Shop, Date: c.Date, Paper: c.Rules.Paper, Basis: fmt.Sprintf("cfm at %g inH2O", c.Rules.Reference.InH2O())})
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
		for _, e := range slices.Concat(c.BelowLine, c.Advertised) {
			tested := slices.ContainsFunc(c.Gaps, func(g compare.Gap) bool { return g.Head == e.Head })
			if e.Supplier != "" && !tested {
				s := find(c, e.Supplier)
				s.Untested = append(s.Untested, e)
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

// ID is how a supplier's sheet is known among our outputs.
func ID(supplier string) string { return "for supplier/" + supplier }

// Write returns the sheet of one supplier.
func Write(g Gaps) ([]byte, error) {
	b := book.New(book.Properties{ID: ID(g.Supplier), Title: "Advertised and tested: " + g.Supplier, Shop: g.Shop, Dated: g.Date, Paper: g.Paper})
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
	if len(g.Heads) == 0 {
		s.Say(row, 1, "Nothing of yours has been flowed here yet: there is nothing to hold your figures against.", book.Body.Strong())
		row += 2
	}
	for _, h := range g.Heads {
		from := row
		row = head(s, row, h) + 1
		s.Keep(from, row-2)
	}
	for _, e := range g.Untested {
		from := row
		row = quoted(s, row, e) + 1
		s.Keep(from, row-2)
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
		{Title: "Tested here", Style: book.Body.As(book.Flow), Value: func(r compare.GapRow) book.Value { return book.Number(r.Tested.CFM()) },
			Look: func(r compare.GapRow) book.Style { return measured(r, book.Body.As(book.Flow)) }},
		{Title: "Gap", Style: book.Body.As(book.SignedPct), Value: func(r compare.GapRow) book.Value { return book.Number(r.Percent / 100) }},
	}}
	if slices.ContainsFunc(g.Rows, func(r compare.GapRow) bool { return asStated(r) != "" }) {
		t.Columns = append(t.Columns, book.Column[compare.GapRow]{Title: "As you state it", Style: book.Note.Indented(),
			Value: func(r compare.GapRow) book.Value { return book.Text(asStated(r)) }})
	}
	t.Write(s, row, 1)
	row += max(len(g.Rows), 1) + 1
	if slices.ContainsFunc(g.Rows, func(r compare.GapRow) bool { return r.Between }) {
		s.Across(row, 1, 5, book.Cell{Value: book.Text("In grey italics: no measured figure of this lift is used; it is read off the curve between its neighbours."), Style: book.Note.Wrapped()})
		row++
	}
	for _, r := range g.Rows {
		if r.Aside != "" {
			s.Across(row, 1, 5, book.Cell{Value: book.Text(fmt.Sprintf("At %s in %s.", strings.TrimPrefix(fmt.Sprintf("%.3f", r.Lift.In()), "0"), r.Aside)), Style: book.Note.Wrapped()})
			row++
		}
	}
	if g.Explained != "" {
		s.Across(row, 1, 5, book.Cell{Value: book.Text("Explained by the conditions: " + g.Explained), Style: book.Note.Wrapped()})
		row++
	}
	return row
}

// asStated is the advertised figure as it was stated in another unit.
func asStated(r compare.GapRow) string {
	if len(r.From) == 0 {
		return ""
	}
	return r.From[0].AsStated()
}

// measured greys what was not read at the lift itself.
func measured(r compare.GapRow, style book.Style) book.Style {
	if r.Between {
		style.Italic, style.Ink = true, book.Muted
	}
	return style
}

func conditions(c compare.Conditions, side port.Port) string {
	say := func(name, words string) string { return name + " " + cmp.Or(words, "not stated") }
	last := say("entry", c.Entry)
	if side == port.Exhaust {
		last = say("exhaust", c.Pipe)
	}
	return fmt.Sprintf("%s, %s, %s", say("bore", c.Bore), say("pressure", c.Pressure), last)
}

// tidy drops the last bits that a unit conversion leaves.
func tidy(x float64) float64 { return math.Round(x*1e6) / 1e6 }
