package comparison

import (
	"fmt"
	"strings"

	"flowshelf/analysis/compare"
	"flowshelf/analysis/source"
	"flowshelf/export/book"
)

// gapRow is one lift of one head's advert beside its test.
type gapRow struct {
	compare.Gap
	compare.GapRow
	atPeak bool
}

// stands is the cell of the advertised figure.
func (r gapRow) stands() source.Ref {
	if len(r.From) == 0 {
		return source.Ref{}
	}
	return r.From[0].At
}

// advertised writes what suppliers claim beside what was tested.
func (w *writer) advertised(s *book.Sheet) {
	header := w.page(s, "Advertised v tested",
		"Per cent of the advertised figure. Conditions that differ stand in both columns; a gap they explain is not held against the supplier.")
	var rows []gapRow
	for _, g := range w.Gaps {
		for _, r := range g.Rows {
			rows = append(rows, gapRow{g, r, r.Lift == g.AtPeak.Lift})
		}
	}
	s.Width(1, 12, 20, 9, 7.5, 10, 8.5, 9, 9.5, 10, 34, 34, 20, 30)
	const onPaper = 12 // where the figure stands is for the screen
	w.paper(s, header, book.Print{Columns: onPaper})
	if len(rows) == 0 {
		s.Say(header, 1, "No head of this family has both an advertised and a tested curve.", book.Style{})
		return
	}
	book.Table[gapRow]{Name: "Gaps", Columns: w.gapColumns(), Rows: rows}.Write(s, header, 1)
	s.Freeze(header, 1)
}

// suppliers writes the suppliers' records, what they make of heads that nobody
// tested here, and how our own bench has read.
func (w *writer) suppliers(s *book.Sheet) {
	row := w.page(s, "Suppliers' records, and our own bench")
	s.Width(1, 14, 22, 11, 9, 10, 9, 10, 11, 10, 34, 34, 22)
	row = w.supplierRecords(s, row)
	row = w.benchRecords(s, row)
	row = w.untested(s, row)
	w.benchDays(s, row)
	w.paper(s, 0, book.Print{})
}

func (w *writer) gapColumns() []book.Column[gapRow] {
	b := book.Body
	return []book.Column[gapRow]{
		{Title: "Head", Style: b.Strong(), Value: func(r gapRow) book.Value { return book.Text(r.Head) }},
		{Title: "Supplier", Style: b, Value: func(r gapRow) book.Value { return book.Text(r.Supplier) }},
		{Title: "Port", Style: b, Value: func(r gapRow) book.Value { return book.Text(r.Port.String()) }},
		{Title: "Lift, in", Style: b.As(book.Lift), Value: func(r gapRow) book.Value { return book.Number(tidy(r.Lift.In())) }},
		{Title: "Advertised, cfm", Style: b.As(book.Flow), Value: func(r gapRow) book.Value { return book.Number(r.GapRow.Advertised.CFM()) }},
		{Title: "Tested, cfm", Style: b.As(book.Flow), Value: func(r gapRow) book.Value { return book.Number(r.GapRow.Tested.CFM()) }},
		{Title: "Difference, cfm", Style: b.As(book.Signed), Value: func(r gapRow) book.Value {
			return book.Number(r.GapRow.Tested.CFM() - r.GapRow.Advertised.CFM())
		}},
		{Title: "Difference", Style: b.As(book.SignedPct), Value: func(r gapRow) book.Value { return book.Number(r.Percent / 100) }},
		{Title: "Peak of the advert", Style: b.To(book.Centre), Value: func(r gapRow) book.Value {
			if r.atPeak {
				return book.Text("peak")
			}
			return book.Value{}
		}},
		{Title: "Advertised under", Style: b.Wrapped(), Value: func(r gapRow) book.Value { return book.Text(conditions(r.Gap.Advertised)) }},
		{Title: "Tested under", Style: b.Wrapped(), Value: func(r gapRow) book.Value { return book.Text(conditions(r.Gap.Tested)) }},
		{Title: "Explained by bore or pipe", Style: b.Wrapped(), Value: func(r gapRow) book.Value { return book.Text(r.Explained) }},
		{Title: "The advertised figure stands in", Style: b, Value: func(r gapRow) book.Value { return book.Text(r.stands().String()) },
			Link: func(r gapRow) book.Link { return book.ToSource(w.opts.Up, r.stands()) }},
	}
}

// conditions says in one line under what a curve was flowed.
func conditions(c compare.Conditions) string {
	var out []string
	for _, part := range []struct{ name, words string }{{"bore", c.Bore}, {"", c.Pressure}, {"pipe", c.Pipe}, {"entry", c.Entry}, {"", c.Where}, {"", c.Dated}} {
		switch {
		case part.words == "":
		case part.name == "" || strings.Contains(part.words, part.name):
			out = append(out, part.words)
		default:
			out = append(out, part.name+" "+part.words)
		}
	}
	return strings.Join(out, ", ")
}

func (w *writer) supplierRecords(s *book.Sheet, row int) int {
	if len(w.Suppliers) == 0 {
		return row
	}
	s.Say(row, 1, "Suppliers' records, at the peak of each advert", book.Section)
	for i, title := range []string{"", "Supplier", "Heads", "Median", "Worst"} {
		s.Say(row+1, 1+i, title, book.Header)
	}
	for i, g := range w.Suppliers {
		r := row + 2 + i
		s.Set(r, 1, book.Value{}, book.Body)
		s.Say(r, 2, g.Supplier, book.Body)
		s.Set(r, 3, book.Count(g.Heads), book.Body.To(book.Left))
		s.Set(r, 4, book.Number(g.Median/100), book.Body.As(book.SignedPct))
		s.Set(r, 5, book.Number(g.Worst/100), book.Body.As(book.SignedPct))
		if g.Worded != "" {
			s.Say(r, 6, fmt.Sprintf("(%s)", g.Worded), book.Note)
		}
	}
	return row + 3 + len(w.Suppliers)
}
