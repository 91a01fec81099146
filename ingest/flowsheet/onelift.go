package flowsheet

import (
	"slices"
	"strings"

	"flowshelf/analysis/head"
	"flowshelf/analysis/quantity"
	"flowshelf/analysis/source"
	"flowshelf/ingest/decode"
	"flowshelf/ingest/layout"
	"flowshelf/ingest/parse"
	"flowshelf/ingest/words"
)

// A catalogue lists its heads with one flow a port, and the lift over each column:
// "Head | Inlet @ .400" | Exhaust @ .400"". Such a table holds claims and no curve.

// atLift is a column of a table of claims.
type atLift struct {
	header decode.Cell
	port   head.Port
	lift   source.Stated[quantity.Length]
}

// atLifts returns the columns that a row of headers gives a port and a lift each,
// behind the caption of the heads.
func (r *reader) atLifts(page *layout.Page, row int) (caption decode.Cell, columns []atLift) {
	for _, c := range page.Sheet.Row(row) {
		if c.Kind != decode.Text || !page.Free(c.Row, c.Col) {
			continue
		}
		if caption.Blank() && isHeadLabel(c) {
			caption = c
			continue
		}
		before, lift, at := strings.Cut(c.Text, "@")
		l, ok := parse.Lift(lift)
		port, ported := r.read(newLine(before, r.trace(page, c), inHeader)).port.one()
		if !at || !ok || !ported || l.Unit == parse.LiftNotStated || caption.Blank() {
			continue
		}
		if x, step, ok := l.Unit.Length(l.Value); ok {
			trace := r.trace(page, c)
			if step != "" {
				trace = trace.Then(step)
			}
			columns = append(columns, atLift{c, port.Value, source.Say(x, trace)})
		}
	}
	return caption, columns
}

// oneLift reads the tables of claims of a page; one that no words call claims, or
// whose flow unit is not sure, is said to be left.
func (a adverts) oneLift(r *reader, page *layout.Page) head.Records {
	var out head.Records
	for row := 1; row <= page.Sheet.Rows(); row++ {
		caption, columns := r.atLifts(page, row)
		if len(columns) == 0 {
			continue
		}
		b := &builder{r: r, page: page, shape: a.Name(), p: &problemBook{r: r}}
		said := r.scopeOf(page, linesBefore(page, row), nil).any()
		unit, ok := said.flowUnit.one()
		if ok && b.claimedAt(caption, newFacts()) {
			out.Tests = append(out.Tests, b.claimsBelow(caption, columns, said, unit.Value)...)
		} else {
			b.p.setAside(page.Ref(columns[0].header), kindAdvertPoint, "", columns[0].header.Text,
				"flows at one lift, of which no line says that they are claims and in which unit: no reading is made of them")
		}
		out.Problems = append(out.Problems, b.p.problems...)
	}
	return out
}

// linesBefore returns the lines of a page over a row.
func linesBefore(page *layout.Page, row int) []layout.Line {
	var out []layout.Line
	for above := 1; above < row; above++ {
		cells := slices.DeleteFunc(slices.Clone(page.Sheet.Row(above)), decode.Cell.Blank)
		if len(cells) > 0 {
			out = append(out, layout.Line{Row: above, Cells: cells})
		}
	}
	return out
}

// claimsBelow reads the rows under the headers of a table of claims, one head each.
func (b *builder) claimsBelow(caption decode.Cell, columns []atLift, said facts, unit parse.FlowUnit) []head.Test {
	var out []head.Test
	use := func(c decode.Cell) {
		b.page.Claim(c.Row, c.Col, layout.Claim{By: b.shape, Used: true, Why: "a claim in a table"})
	}
	use(caption)
	for _, col := range columns {
		use(col.header)
	}
	for row := caption.Row + 1; row <= b.page.Sheet.Rows(); row++ {
		name := b.page.Sheet.At(row, caption.Col)
		if name.Blank() {
			break
		}
		if b.r.header(b.page, name).says(words.Average, words.Maximum, words.Minimum, words.Total, words.Gain) {
			continue
		}
		for _, col := range columns {
			c := b.page.Sheet.At(row, col.header.Col)
			x, isFigure := figure(c)
			flow, step, volumetric := unit.Flow(x)
			switch {
			case c.Blank() || !b.page.Free(row, col.header.Col):
				continue
			case !isFigure || !volumetric:
				b.p.setAside(b.page.Ref(c), kindAdvertPoint, b.claimedName(name), c.Text, "a claim that cannot be read as a flow: no reading is made of it")
				continue
			}
			trace := b.r.trace(b.page, c)
			trace.Unit = unit.String()
			if step != "" {
				trace = trace.Then(step)
			}
			t := head.Test{At: b.page.Ref(c), HeadAt: b.page.Ref(name), Shape: b.shape, Class: head.Advertised, Head: b.claimedName(name), Port: col.port,
				Readings: []head.Reading{{Flow: source.Say(flow, trace), Lift: col.lift}}}
			t.By = b.r.names.listed[t.Head].Supplier
			t.Pressure, _ = said.pressure.one()
			t.Bore, _ = said.bore.one()
			out = append(out, t)
			use(name)
			use(c)
			b.p.note(t.At, kindAdvertPoint, t.Head, c.Text, "a claim in a table: shown as advertised, never ranked")
		}
	}
	return out
}

// claimedName is the shop's spelling of a head in the column of the heads.
func (b *builder) claimedName(c decode.Cell) string {
	text := parse.Squeeze(cellText(c))
	if name, ok := b.r.names.head(text); ok {
		return name
	}
	return text
}
