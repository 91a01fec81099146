package supplier

import (
	"cmp"
	"fmt"
	"slices"
	"strings"
	"time"

	"flowshelf/analysis/compare"
	port "flowshelf/analysis/head"
	"flowshelf/analysis/quantity"
	"flowshelf/analysis/source"
	"flowshelf/export/book"
)

// quotedRow is one lift of a head that was never flowed here.
type quotedRow struct {
	lift            quantity.Length
	intake, exhaust book.Value
	his             []string // the lift and the flows as he states them, where their units are others
}

// quoted lays out what a supplier says of a head that was never flowed here, and
// returns the next free row.
func quoted(s *book.Sheet, row int, e compare.Entry) int {
	s.Say(row, 1, e.Label+", quoted and not flowed here", book.Section)
	row++
	for _, side := range []struct {
		name string
		of   *compare.PortResult
	}{{"Intake", e.Intake}, {"Exhaust", e.Exhaust}} {
		if side.of != nil {
			s.Across(row, 1, 5, book.Cell{Value: book.Text(side.name + ", as you quote it: " + statedAs(side.of)), Style: book.Prose})
			row++
		}
	}
	t := book.Table[quotedRow]{Rows: quotedRows(e), Columns: []book.Column[quotedRow]{
		{Title: "Lift, in", Style: book.Body.As(book.Lift).To(book.Left), Value: func(r quotedRow) book.Value { return book.Number(tidy(r.lift.In())) }},
		{Title: "Intake", Style: book.Body.As(book.Flow), Value: func(r quotedRow) book.Value { return r.intake }},
		{Title: "Exhaust", Style: book.Body.As(book.Flow), Value: func(r quotedRow) book.Value { return r.exhaust }},
	}}
	if slices.ContainsFunc(t.Rows, func(r quotedRow) bool { return len(r.his) > 0 }) {
		t.Columns = append(t.Columns, book.Column[quotedRow]{Title: "As you state it", Style: book.Note.Indented(),
			Value: func(r quotedRow) book.Value { return book.Text(strings.Join(r.his, ", ")) }})
	}
	t.Write(s, row, 1)
	row += max(len(t.Rows), 1) + 1
	s.Across(row, 1, 5, book.Cell{Value: book.Text("A sample of it, flowed here, would be ranked; until then it has no place."), Style: book.Note.Wrapped()})
	return row + 1
}

func quotedRows(e compare.Entry) []quotedRow {
	var out []quotedRow
	put := func(name string, of *compare.PortResult, set func(*quotedRow, book.Value)) {
		if of == nil {
			return
		}
		for _, p := range of.Points {
			at := slices.IndexFunc(out, func(r quotedRow) bool { return r.lift.Near(p.Lift, sameLift) })
			if at < 0 {
				at, out = len(out), append(out, quotedRow{lift: p.Lift})
			}
			set(&out[at], book.Number(p.Flow.CFM()))
			out[at].his = asHeSays(out[at].his, p, name)
		}
	}
	put("intake", e.Intake, func(r *quotedRow, v book.Value) { r.intake = v })
	put("exhaust", e.Exhaust, func(r *quotedRow, v book.Value) { r.exhaust = v })
	slices.SortFunc(out, func(a, b quotedRow) int { return cmp.Compare(a.lift, b.lift) })
	return out
}

// asHeSays adds the lift, where it does not stand there yet, and the flow of one
// point as his sheet has them, where they were converted.
func asHeSays(out []string, p compare.LiftPoint, port string) []string {
	if len(p.From) != 1 {
		return out
	}
	r := p.From[0].Reading
	if as := r.Lift.Trace.AsStated(); as != "" && len(out) == 0 {
		out = append(out, as)
	}
	if as := r.Flow.Trace.AsStated(); as != "" {
		out = append(out, port+" "+as)
	}
	return out
}

const sameLift quantity.Length = 0.0005

// beside puts what he states in another unit before our figure of it.
func beside(his source.Trace, ours string) string {
	if as := his.AsStated(); as != "" {
		return as + " (" + ours + ")"
	}
	return ours
}

// statedAs are the conditions of a supplier's own sheet.
func statedAs(p *compare.PortResult) string {
	bore, pressure, dated := "bore not stated", "pressure not stated", "not dated"
	if p.Bore.Known {
		bore = "bore " + beside(p.Bore.Trace, fmt.Sprintf("%.3f", p.Bore.Value.In()))
	}
	if p.Pressure.Known {
		pressure = "pressure " + beside(p.Pressure.Trace, fmt.Sprintf("%.4g inH2O", p.Pressure.Value.InH2O()))
	}
	if p.Date.Known {
		dated = "dated " + p.Date.Value.Format(time.DateOnly)
	}
	last := "entry " + cmp.Or(p.Entry, "not stated")
	if p.Port == port.Exhaust {
		last = "exhaust " + p.Pipe.Words()
	}
	words := fmt.Sprintf("%s, %s, %s, %s", bore, pressure, last, dated)
	if p.BoreHow == compare.BetweenOwnPair || p.BoreHow == compare.Estimated {
		words += "; flow at our reference bore: " + p.BoreHow.String()
	}
	return words
}
