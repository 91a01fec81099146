package comparison

import (
	"fmt"

	"flowshelf/analysis/compare"
	"flowshelf/export/book"
)

// choiceOfAverage writes whether the choice of average decides who flows more.
func (w *writer) choiceOfAverage(s *book.Sheet, row int) int {
	rows := w.of(ranked, unpriced)
	if len(rows) == 0 {
		return row
	}
	s.Say(row, 1, "Does the choice of average matter? Order by intake flow alone, under each", book.Section)
	row++
	for _, words := range w.averageNotes() {
		s.Say(row, 1, words, book.Note)
		row++
	}
	b := book.Body
	order := func(title string, of func(compare.Orders) int) factColumn {
		return factColumn{Title: title, Style: b.As(book.Flow), Value: func(l line) book.Value { return countOrNone(of(l.Orders)) }}
	}
	columns := []factColumn{
		{Title: "Head and state", Style: b.Wrapped(), Value: func(l line) book.Value { return book.Text(l.Label) }},
		{Title: "Working average", Style: b.As(book.Tenth), Value: func(l line) book.Value { return working(l.Intake) }},
		order("its order", func(o compare.Orders) int { return o.Working }),
		{Title: "Mid-lift area", Style: b.As(book.Hundredth), Value: func(l line) book.Value { return number(l.Intake.MidArea) }},
		order("its order", func(o compare.Orders) int { return o.Area }),
	}
	if w.Cam != "" {
		columns = append(columns,
			factColumn{Title: "While open", Style: b.As(book.Tenth), Value: func(l line) book.Value { return number(l.Intake.CamMean) }},
			order("its order", func(o compare.Orders) int { return o.Cam }))
	}
	return book.Table[line]{Rows: rows, Columns: columns}.Write(s, row, 1).ToRow + 2
}

func (w *writer) averageNotes() []string {
	if w.Cam == "" {
		return []string{"No average over the time the valve is open: the setup states no cam for this family (cam lobe lift and rocker ratio)."}
	}
	notes := []string{"While open: mean over the time the valve is open between the .050 points, " + w.Cam + "."}
	if len(w.Warnings) == 0 {
		return append(notes, "No two heads change their order by more than the noise between lift and time.")
	}
	return append(notes, w.Warnings...)
}

// whereEachLeads writes in sentences where each intake beats the leader's and
// the base head's by more than the noise, and where more cam is wasted on it.
func (w *writer) whereEachLeads(s *book.Sheet, row, lastCol int) {
	title := row
	s.Say(row, 1, "Where each intake wins by more than the noise, lift by lift, and where more cam is wasted", book.Section)
	for _, l := range w.of(ranked, unpriced) {
		row++
		words := ""
		for _, a := range l.Against {
			words += capital(a.Words) + ". "
		}
		if more := l.Intake.MoreCam; more.Words != "" {
			words += fmt.Sprintf("More cam: %s.", more.Words)
		}
		s.Say(row, 1, l.Label, book.Body.Strong().Wrapped())
		s.Across(row, 2, lastCol, book.Cell{Value: book.Text(words), Style: book.Body.Wrapped()})
	}
	s.Keep(title, row)
}
