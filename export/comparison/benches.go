package comparison

import (
	"fmt"
	"strings"
	"time"

	"flowshelf/analysis/compare"
	"flowshelf/analysis/head"
	"flowshelf/analysis/quantity"
	"flowshelf/export/book"
)

// benchRecords writes how each supplier's figures read against our bench.
func (w *writer) benchRecords(s *book.Sheet, row int) int {
	if len(w.Benches) == 0 {
		return row
	}
	s.Say(row, 1, "How their figures read against our bench, over heads flowed on both (all families)", book.Section)
	s.Say(row+1, 1, "Means over each head's working range. For a correction a record is drawn toward zero, benches being taken as 3 % apart (one standard deviation) before any head is compared; no correction is made.", book.Note)
	b := book.Body
	percent := func(of func(compare.BenchRecord) compare.Maybe) func(compare.BenchRecord) book.Value {
		return func(r compare.BenchRecord) book.Value {
			if m := of(r); m.Known {
				return book.Number(m.Value / 100)
			}
			return book.Value{}
		}
	}
	share := b.As(book.SignedPct)
	return book.Table[compare.BenchRecord]{Rows: w.Benches, Columns: []book.Column[compare.BenchRecord]{
		{Title: "Port", Style: b, Value: func(r compare.BenchRecord) book.Value { return book.Text(r.Port.String()) }},
		{Title: "Supplier", Style: b.Wrapped(), Value: func(r compare.BenchRecord) book.Value { return book.Text(r.Bench) }},
		{Title: "Figures", Style: b.Wrapped(), Value: func(r compare.BenchRecord) book.Value { return book.Text(figures(r.Class)) }},
		{Title: "Heads on both", Style: b.As(book.Flow), Value: func(r compare.BenchRecord) book.Value { return book.Count(len(r.Pairs)) }},
		{Title: "Reads", Style: share, Value: percent(func(r compare.BenchRecord) compare.Maybe { return r.Percent })},
		{Title: "95 % from", Style: share, Value: percent(func(r compare.BenchRecord) compare.Maybe { return r.Low })},
		{Title: "to", Style: share, Value: percent(func(r compare.BenchRecord) compare.Maybe { return r.High })},
		{Title: "For a correction", Style: share, Value: percent(func(r compare.BenchRecord) compare.Maybe { return r.Drawn })},
		{Title: "± of it", Style: b.As(book.PercentOne), Value: percent(func(r compare.BenchRecord) compare.Maybe { return r.DrawnU })},
		{Title: "In words", Style: b.Wrapped().Indented(), Value: func(r compare.BenchRecord) book.Value { return book.Text(r.Words) }},
		{Title: "Bores", Style: b.Wrapped(), Value: func(r compare.BenchRecord) book.Value { return book.Text(r.Bores) }},
		{Title: "Heads", Style: b.Wrapped(), Value: func(r compare.BenchRecord) book.Value { return book.Text(pairNames(r)) }},
	}}.Write(s, row+2, 1).ToRow + 2
}

func figures(c head.Class) string {
	if c == head.Advertised {
		return "claims"
	}
	return "own sheets"
}

// pairNames names the heads on both benches with what each says.
func pairNames(r compare.BenchRecord) string {
	var out []string
	for _, p := range r.Pairs {
		out = append(out, fmt.Sprintf("%s %+.1f %%", p.Head, p.Percent))
	}
	return strings.Join(out, ", ")
}

// untested lists the heads without an own test with the range that their
// supplier's record makes of their working average.
func (w *writer) untested(s *book.Sheet, row int) int {
	rows := w.of(belowLine, advertised)
	if len(rows) == 0 {
		return row
	}
	s.Say(row, 1, "Not tested here: what the supplier's record makes of the figure on our bench (95 %). A range, never a place among tested heads", book.Section)
	b := book.Body
	cfm := b.As(book.Flow)
	bound := func(of func(compare.Equivalent) float64) func(line) book.Value {
		return func(l line) book.Value {
			if !l.Equivalent.Known {
				return book.Value{}
			}
			return book.Number(of(l.Equivalent))
		}
	}
	return book.Table[line]{Rows: rows, Columns: []book.Column[line]{
		{Title: "Head", Style: b.Strong().Wrapped(), Value: func(l line) book.Value { return book.Text(l.Label) }},
		{Title: "Supplier", Style: b.Wrapped(), Value: func(l line) book.Value { return book.Text(l.Supplier) }},
		{Title: "Figures", Style: b.Wrapped(), Value: func(l line) book.Value { return book.Text(figures(l.Intake.Class)) }},
		{Title: "Bore, in", Style: b.As(book.Thousandth), Value: func(l line) book.Value { return stated(l.Intake.Bore, quantity.Length.In) }},
		{Title: "Their working avg, cfm", Style: cfm, Value: func(l line) book.Value { return working(l.Intake) }},
		{Title: "Here about", Style: cfm, Value: bound(func(e compare.Equivalent) float64 { return e.Value })},
		{Title: "from", Style: cfm, Value: bound(func(e compare.Equivalent) float64 { return e.Low })},
		{Title: "to", Style: cfm, Value: bound(func(e compare.Equivalent) float64 { return e.High })},
		{Title: "", Style: b, Value: func(line) book.Value { return book.Value{} }},
		{Title: "In words", Style: b.Wrapped().Indented(), Value: func(l line) book.Value { return book.Text(l.Equivalent.Words) }},
	}}.Write(s, row+1, 1).ToRow + 2
}

// mostDays is how many looks at the check plate the sheet lists.
const mostDays = 20

func (w *writer) benchDays(s *book.Sheet, row int) {
	s.Say(row, 1, "Our own bench by its check plate", book.Section)
	s.Say(row+1, 1, sentence(w.BenchWords), book.Note)
	days := w.BenchDays
	if len(days) == 0 {
		return
	}
	if len(days) > mostDays {
		days = days[:mostDays]
	}
	b := book.Body
	end := book.Table[compare.BenchDay]{Rows: days, Columns: []book.Column[compare.BenchDay]{
		{Title: "Day", Style: b.As(book.Date).To(book.Left), Value: func(d compare.BenchDay) book.Value { return book.Day(d.Date) }},
		{Title: "Bench", Style: b.Wrapped(), Value: func(d compare.BenchDay) book.Value { return book.Text(d.Bench) }},
		{Title: "Plate, cfm", Style: b.As(book.Tenth), Value: func(d compare.BenchDay) book.Value { return book.Number(d.Nominal.CFM()) }},
		{Title: "Read, cfm", Style: b.As(book.Tenth), Value: func(d compare.BenchDay) book.Value { return book.Number(d.Read.CFM()) }},
		{Title: "Drift", Style: b.As(book.SignedPct), Value: func(d compare.BenchDay) book.Value { return book.Number(d.Drift) }},
		{Title: "Leak, cfm", Style: b.As(book.Tenth), Value: func(d compare.BenchDay) book.Value { return number(d.Leak) }},
		{Title: "That day is", Style: b.Wrapped().To(book.Right), Value: func(d compare.BenchDay) book.Value { return book.Text(d.Standing) }},
		{Title: "", Style: b, Value: func(compare.BenchDay) book.Value { return book.Value{} }},
		{Title: "", Style: b, Value: func(compare.BenchDay) book.Value { return book.Value{} }},
		{Title: "Heads of this family tested that day", Style: b.Wrapped().Indented(), Value: func(d compare.BenchDay) book.Value { return book.Text(strings.Join(d.Heads, ", ")) }},
		{Title: "Logged at", Style: b.Wrapped(), Value: func(d compare.BenchDay) book.Value { return book.Text(d.At.String()) }},
	}}.Write(s, row+2, 1).ToRow + 1
	if more := len(w.BenchDays) - len(days); more > 0 {
		s.Say(end, 1, fmt.Sprintf("and %d more, back to %s", more, w.BenchDays[len(w.BenchDays)-1].Date.Format(time.DateOnly)), book.Note)
	}
}
