package comparison

import (
	"strings"

	"flowshelf/analysis/compare"
	"flowshelf/analysis/quantity"
	"flowshelf/export/book"
)

// seatOrPort writes whether what is odd about a head lies in its valve job or in
// its port, and returns the next free row.
func (w *writer) seatOrPort(s *book.Sheet, row, lastCol int) int {
	rows := w.of(ranked, unpriced)
	if len(rows) == 0 {
		return row
	}
	s.Say(row, 1, "Is it the head or the valve job? Low lift against heads of its valve size", book.Section)
	s.Say(row+1, 1, "Share of the ideal flow through the curtain at that lift. Below .300 in the seat rules, at .500 the port; up to 3 % at low lift is the luck of a valve job (common practice, no source).", book.Note)
	b := book.Body
	at := func(i int) factColumn {
		return factColumn{Title: []string{"at .100", "at .200", "at .300"}[i], Style: b.As(book.Percent), Value: func(l line) book.Value {
			if i >= len(l.LowLift.At) {
				return book.Value{}
			}
			return book.Number(l.LowLift.At[i].Value)
		}}
	}
	share := func(title string, of func(compare.LowLift) compare.Maybe) factColumn {
		return factColumn{Title: title, Style: b.As(book.SignedPct), Value: func(l line) book.Value { return number(of(l.LowLift)) }}
	}
	columns := []factColumn{
		{Title: "Head and state", Style: b.Wrapped(), Value: func(l line) book.Value { return book.Text(l.Label) }},
		at(0), at(1), at(2),
		share("Low, to its size", func(l compare.LowLift) compare.Maybe { return l.Low }),
		share("At .500, to its size", func(l compare.LowLift) compare.Maybe { return l.High }),
	}
	body := book.Table[line]{Rows: rows, Columns: columns}.Write(s, row+2, 1)
	for i, l := range rows {
		words := sentence(l.LowLift.Words)
		if len(l.LowLift.Peers) > 0 {
			words += " Beside " + strings.Join(l.LowLift.Peers, ", ") + "."
		}
		s.Across(body.Row+i, len(columns)+1, lastCol, book.Cell{Value: book.Text(words), Style: b.Wrapped().Indented()})
	}
	return body.ToRow + 2
}

// ratios writes exhaust over intake, heads down and lifts across, and returns
// the next free row.
func (w *writer) ratios(s *book.Sheet, row int, shown []line) int {
	s.Say(row, 1, "Exhaust / intake: is the exhaust good enough?", book.Section)
	w.liftHeader(s, row+1, "Place", "Head and state")
	after := flowColumn + len(w.lifts)
	s.Say(row+1, after, "Exhaust flowed", book.Header.Indented())
	for i, l := range shown {
		r := row + 2 + i
		s.Set(r, 1, place(l.Entry), placeLook(l))
		s.Say(r, 2, l.Label, book.Body)
		for j, at := range w.lifts {
			s.Set(r, flowColumn+j, w.ratioAt(l, at), book.Body.As(book.Percent))
		}
		s.Say(r, after, l.PipeWords(), book.Body.Indented())
	}
	s.Keep(row, row+1+len(shown))
	return row + len(shown) + 3
}

func (w *writer) ratioAt(l line, at quantity.Length) book.Value {
	if l.Entry == nil {
		return book.Value{}
	}
	return number(l.RatioAt(at))
}
