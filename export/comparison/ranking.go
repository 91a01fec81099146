package comparison

import (
	"fmt"
	"slices"
	"strings"

	"flowshelf/analysis/compare"
	"flowshelf/export/book"
)

// ranking writes the table of places with everything it rests on beside it, and
// below it the heads that have no place, with the reason.
func (w *writer) ranking(s *book.Sheet) {
	header := w.page(s, "Ranking: "+w.Family.Name,
		w.order(),
		"The table can be sorted and filtered by any column. On paper the columns up to \"In one sentence\" are printed; the rest is to the right.")
	columns := w.rankingColumns()
	table := book.Table[line]{Name: "Ranking", Columns: columns, Rows: w.of(ranked), Tint: w.band}
	body := table.Write(s, header, 1)
	row := body.ToRow + 2
	if len(table.Rows) == 0 {
		s.Say(header+1, 1, "No head of this family can be ranked yet; the sheet Not ranked says what is missing.", book.Style{})
	}
	for _, block := range []struct{ title, standing string }{
		{"No price: ordered by working average, no place", unpriced},
		{"Supplier's sheet with full conditions: scored, never placed among tested heads", belowLine},
		{"Held until a question is answered: what could be read so far", held},
		{"Advertised only: not ranked against tests", advertised},
	} {
		row = w.under(s, row, block.title, columns, w.of(block.standing))
	}
	printed := slices.IndexFunc(columns, func(c factColumn) bool { return c.Title == factSays }) + 1
	w.footnotes(s, row)
	s.Freeze(header, 2)
	w.paper(s, header, book.Print{Columns: printed})
}

// under writes a block of lines below a heavy rule, in the columns of the table
// above it.
func (w *writer) under(s *book.Sheet, row int, title string, columns []factColumn, lines []line) int {
	if len(lines) == 0 {
		return row
	}
	heading := book.Section
	heading.Top = book.Heavy
	s.Say(row, 1, title, heading)
	s.Fill(row, 2, len(columns), book.Style{Top: book.Heavy})
	block := book.Table[line]{Columns: columns, Rows: lines}
	return block.WriteBody(s, row+1, 1).ToRow + 2
}

// reasons say of each head why it stands where it stands, on a sheet of their own
// so that the rows of the ranking stay one glance high.
func (w *writer) reasons(s *book.Sheet) {
	header := w.page(s, "Why each stands where it does", w.order())
	var rows []line
	for _, l := range w.lines {
		if len(l.Reasons) > 0 {
			rows = append(rows, l)
		}
	}
	book.Table[line]{Rows: rows, Columns: []factColumn{
		{Title: "Place", Width: 7, Style: book.Body.As(book.Alone), Look: placeLook, Value: func(l line) book.Value { return place(l.Entry) }},
		{Title: "Head and state", Width: 24, Style: book.Body.Strong().Wrapped().Indented(), Value: func(l line) book.Value { return book.Text(l.Label) }},
		{Title: "Standing", Width: 13, Style: book.Body, Value: func(l line) book.Value { return book.Text(l.standing) }},
		{Title: "Why", Width: 110, Style: book.Body.Wrapped(), Value: func(l line) book.Value { return book.Text(sentence(strings.Join(l.Reasons, "; "))) }},
	}}.Write(s, header, 1)
	s.Freeze(header, 2)
	w.paper(s, header, book.Print{})
}

// band shades every second group of tied heads.
func (w *writer) band(i int) book.Colour {
	if i < len(w.Ranked) && w.Ranked[i].Place.Group%2 == 1 {
		return book.BandFill
	}
	return ""
}

// order says what the heads are ordered by.
func (w *writer) order() string {
	if !w.Worth.Known {
		return "Order: working average, without places. " + w.worthWords()
	}
	return fmt.Sprintf("Order: value = worth of a cfm (%s, %s) x working average - usable cost. A place followed by = is shared: the difference is inside the noise.",
		w.worth(), w.Worth.Origin)
}

// worthWords says what a cfm is worth in a sentence of its own.
func (w *writer) worthWords() string {
	if !w.Worth.Known {
		return "What a cfm of working average is worth is " + w.Worth.Origin + "."
	}
	return fmt.Sprintf("A cfm of working average is worth %s (%s).", w.worth(), w.Worth.Origin)
}

func (w *writer) worth() string {
	if !w.Worth.Known {
		return "a worth that is not set"
	}
	return fmt.Sprintf("%s%.2f a set", w.symbol(), w.Worth.PerCFM)
}

// footnotes spell out the flags in use and the short words of the header.
func (w *writer) footnotes(s *book.Sheet, row int) {
	words := map[string]string{}
	for _, l := range w.lines {
		for _, f := range l.Flags {
			words[f.Code] = f.Words
		}
	}
	codes := make([]string, 0, len(words))
	for code := range words {
		codes = append(codes, code)
	}
	slices.Sort(codes)
	say := func(text string) { s.Say(row, 1, text, book.Note); row++ }
	if len(codes) > 0 {
		say("Flags")
	}
	for _, code := range codes {
		say(fmt.Sprintf("%s  %s", code, words[code]))
	}
	say("Grades of evidence: A own bench at the reference bore and pressure, two or more ports or samples; B own bench otherwise; " +
		"C supplier's sheet with full conditions; D claim, or conditions missing.")
	say("± is one standard deviation, what one more casting or another day on the bench may change. " +
		"Rank of each head inside the noise: columns Best and Worst place.")
	for _, c := range w.Cautions {
		say(c)
	}
}

func tiedWith(e *compare.Entry) string { return strings.Join(e.Place.TiedWith, ", ") }

// placeLook shows a shared place as "2=": a number still, so that it sorts.
func placeLook(l line) book.Style {
	style := book.Body.Strong().To(book.Centre)
	if l.Place.Shared {
		return style.As(book.Shared)
	}
	return style.As(book.Alone)
}
