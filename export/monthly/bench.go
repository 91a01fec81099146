package monthly

import (
	"fmt"
	"math"
	"strings"

	"flowshelf/analysis/review"
	"flowshelf/analysis/source"
	"flowshelf/export/book"
)

// bench shows the check plate morning by morning, with the lines that flag a
// day.
func (w *writer) bench(s *book.Sheet) {
	b := w.Bench
	row := w.page(s, "Bench health", b.Words, "The leak is the bench's own check: it is compared with its limit and never subtracted.")
	if len(b.Days) == 0 {
		w.paper(s, 0, book.Print{})
		return
	}
	table := book.Table[review.BenchDay]{Name: "BenchHealth", Rows: b.Days, Columns: []book.Column[review.BenchDay]{
		{Title: "Date", Width: 12, Style: book.Body.As(book.Date).To(book.Left), Value: func(d review.BenchDay) book.Value { return book.Day(d.Date) },
			Link: func(d review.BenchDay) book.Link { return book.ToSource(w.opts.Up, d.At) }},
		figures("Plate, cfm", 9, book.Tenth, func(d review.BenchDay) book.Value { return book.Number(d.Nominal.CFM()) }),
		figures("Read, cfm", 9, book.Tenth, func(d review.BenchDay) book.Value { return book.Number(d.Read.CFM()) }),
		figures("Off", 8, book.SignedPct, func(d review.BenchDay) book.Value { return book.Number(d.Off) }),
		figures("Low line", 8, book.SignedPct, func(review.BenchDay) book.Value { return book.Number(-b.Limit) }),
		figures("High line", 8, book.SignedPct, func(review.BenchDay) book.Value { return book.Number(b.Limit) }),
		figures("Leak, cfm", 8, book.Tenth, func(d review.BenchDay) book.Value {
			if !d.Leak.Known {
				return book.Value{}
			}
			return book.Number(d.Leak.Value.CFM())
		}),
		words("Operator", 9, func(d review.BenchDay) string { return d.Operator }),
		words("Flag", 20, flag),
		words("Flowed that day", 26, func(d review.BenchDay) string { return strings.Join(d.Tests, ", ") }),
		words("Remark", 30, func(d review.BenchDay) string { return d.Remark }),
	}}
	body := table.Write(s, row, 1)
	w.benchChart(s, body, b)
	w.paper(s, row, book.Print{})
}

func flag(d review.BenchDay) string {
	var out []string
	if d.Flagged {
		out = append(out, "beyond the line: tests of that day are flagged")
	}
	if d.Leaks {
		out = append(out, "leaks too much")
	}
	return strings.Join(out, "; ")
}

func (w *writer) benchChart(s *book.Sheet, body book.Range, b review.BenchHealth) {
	header := body.Row - 1
	line := func(column int, look book.Look) book.Series {
		return book.Series{Name: s.Area(header, column, header, column), X: body.Column(0), Y: body.Column(column - 1), Look: look}
	}
	reach := 2 * b.Limit
	for _, d := range b.Days {
		reach = max(reach, math.Abs(d.Off))
	}
	const percent = 0.01
	top := math.Ceil(reach/percent) * percent
	low := -top
	edge := book.Look{Ink: book.Accent, Dash: book.Dashed, Marker: book.NoMarker, Points: 1.25}
	first, _ := book.Day(b.Days[0].Date).Float()
	last, _ := book.Day(b.Days[len(b.Days)-1].Date).Float()
	from, to := first-3, last+3
	s.Draw(book.Chart{
		Title:  fmt.Sprintf("Check plate against its flow, lines at ±%.0f %%", 100*b.Limit),
		X:      book.Axis{Title: "date", Format: book.Date, Min: &from, Max: &to, Step: math.Max(7, math.Ceil((to-from)/10))},
		Y:      book.Axis{Title: "read less nominal", Format: book.SignedPct, Min: &low, Max: &top, Step: percent},
		Series: []book.Series{line(4, book.Looks(0)), line(5, edge), line(6, edge)},
	}, body.ToRow+2, 1, 860, 340)
}

// tests is the plan for the bench.
func (w *writer) tests(s *book.Sheet) {
	row := w.page(s, "Test plan", "The tests most likely to change a decision: held heads first, then by the chance that the head changes places.")
	table := book.Table[review.TestIdea]{Name: "TestPlan", Rows: w.Tests, Columns: []book.Column[review.TestIdea]{
		{Title: "Head", Width: 11, Style: book.Body.Strong(), Value: func(t review.TestIdea) book.Value { return book.Text(t.Head) }},
		words("Family", 14, func(t review.TestIdea) string { return t.Family }),
		words("Test", 18, func(t review.TestIdea) string { return t.What }),
		figures("Chance that it changes a place", 12, book.Percent, func(t review.TestIdea) book.Value { return number(t.Chance) }),
		figures("Money in stock", 11, w.dollars, func(t review.TestIdea) book.Value { return money(t.Dollars) }),
		words("Because", 80, func(t review.TestIdea) string { return t.Reason }),
	}}
	table.Write(s, row, 1)
	if len(table.Rows) == 0 {
		nothing(s, row+1, "No test is likely to change a decision.")
	}
	w.paper(s, row, book.Print{})
}

// questions lists what is open; it is answered in the workbook of questions.
func (w *writer) questions(s *book.Sheet) {
	row := w.page(s, "Questions", "Open today. Answer them in Questions.xlsx.")
	table := book.Table[source.Problem]{Name: "OpenQuestions", Rows: w.Questions, Columns: []book.Column[source.Problem]{
		{Title: "Head", Width: 11, Style: book.Body.Strong(), Value: func(p source.Problem) book.Value { return book.Text(orNone(p.Head, "-")) }},
		words("Question", 60, asked),
		words("Where", 40, func(p source.Problem) string { return p.At.String() }),
		words("What it changes", 40, func(p source.Problem) string {
			if p.Question == nil {
				return ""
			}
			return p.Question.Changes
		}),
	}}
	table.Columns[2].Link = func(p source.Problem) book.Link { return book.ToSource(w.opts.Up, p.At) }
	table.Write(s, row, 1)
	if len(table.Rows) == 0 {
		nothing(s, row+1, "Nothing is open.")
	}
	w.paper(s, row, book.Print{})
}

func asked(p source.Problem) string {
	if p.Question != nil && p.Question.Text != "" {
		return p.Question.Text
	}
	return p.Message
}

// sources lists the books behind the review.
func (w *writer) sources(s *book.Sheet) {
	row := w.page(s, "Sources", w.Before)
	table := book.Table[review.Source]{Name: "Sources", Rows: w.Sources, Columns: []book.Column[review.Source]{
		{Title: "Book", Width: 46, Style: book.Body, Value: func(x review.Source) book.Value { return book.Text(x.File) },
			Link: func(x review.Source) book.Link {
				if x.What == review.MonthBefore {
					return book.Link{}
				}
				return book.ToSource(w.opts.Up, source.Ref{File: x.File})
			}},
		words("Used for", 24, func(x review.Source) string { return x.What }),
		words("Dated", 14, func(x review.Source) string { return x.Dated }),
	}}
	table.Write(s, row, 1)
	w.paper(s, row, book.Print{Upright: true})
}
