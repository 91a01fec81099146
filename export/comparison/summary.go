package comparison

import (
	"fmt"
	"strings"

	"flowshelf/export/book"
)

// mostQuestions is how many open questions the printed page names.
const mostQuestions = 4

// summaryPage writes the one page that is printed and read out: label to the
// left, words to the right.
type summaryPage struct {
	*writer
	sheet *book.Sheet
	row   int
}

func (w *writer) summary(s *book.Sheet, notRanked book.Link) {
	p := &summaryPage{writer: w, sheet: s, row: 4}
	s.Width(1, 17, 26, 11, 12, 12, 11, 12, 29)
	s.Say(1, 1, fmt.Sprintf("%s: heads ranked", w.Family.Name), book.Title)
	s.Say(2, 1, fmt.Sprintf("%s, %s", w.Shop, w.Date.Format("2006-01-02")), book.Subtitle)
	p.say("Basis", fmt.Sprintf("%s. Prices for a set of %d. %s Only tests on our own bench are given places.",
		capital(w.basis), w.Family.HeadsPerSet, w.worthWords()))
	p.list("Best buy", w.Summary.BestBuy, book.Prose.Strong())
	p.list("Runner-up", w.Summary.RunnerUp, book.Prose)
	p.list("Only if", w.Summary.OnlyIf, book.Prose)
	p.list("Warning", w.Summary.Warnings, book.Prose)
	p.table()
	p.list("Left out, and why", p.leftOut(), book.Prose)
	if len(w.NotRanked) > 0 {
		p.sheet.LinkTo(p.row-1, 1, notRanked)
	}
	c := w.Summary.Counts
	p.say("Counts", fmt.Sprintf("Heads in the books: %d. Heads and states ranked: %d, of them with flags: %d. Below the line: %d. Advertised only: %d. Not ranked: %d.",
		c.Heads, c.Ranked, c.Flagged, c.BelowLine, c.Advertised, c.NotRanked))
	p.list("Open questions", p.questions(), book.Prose)
	p.list("Cautions", w.Cautions, book.Style{Wrap: true, Points: 8.5})
	w.paper(s, 0, book.Print{OnePage: true})
}

const summaryCols = 8

func (p *summaryPage) say(label, words string) { p.list(label, []string{words}, book.Prose) }

// list writes a label and its sentences, none for an empty list.
func (p *summaryPage) list(label string, sentences []string, style book.Style) {
	for i, words := range sentences {
		if i == 0 {
			p.sheet.Say(p.row, 1, label, book.Style{Bold: true, Ink: book.Accent, Wrap: true})
		}
		p.sheet.Across(p.row, 2, summaryCols, book.Cell{Value: book.Text(words), Style: style})
		p.row++
	}
	if len(sentences) > 0 {
		p.sheet.Height(p.row, 5)
		p.sheet.Set(p.row, 1, book.Value{}, book.Style{})
		p.row++
	}
}

// table is the ranking in short.
func (p *summaryPage) table() {
	columns := []factColumn{
		{Title: "Place", Style: book.Body.Strong().To(book.Left), Look: func(l line) book.Style { return placeLook(l).To(book.Left) },
			Value: func(l line) book.Value { return place(l.Entry) }},
		{Title: "Head and state", Style: book.Body.Strong(), Value: func(l line) book.Value { return book.Text(l.Label) }},
		figure("Usable cost", 0, p.dollars, func(l line) book.Value { return money(l.Cost.Usable) }),
		figure("Working avg, cfm", 0, book.Flow, func(l line) book.Value { return working(l.Intake) }),
		figure("Value at the worth", 0, p.dollars, func(l line) book.Value { return number(l.Value) }),
		figure("Shape score", 0, book.Flow, func(l line) book.Value { return shapeScore(l.Entry) }),
		figure("Cost per cfm", 0, p.cents, func(l line) book.Value { return number(l.PerCFM) }),
		text("The curve", 0, func(l line) string { return verdict(l.Intake) }),
	}
	rows := p.of(ranked)
	const most = 12
	more := len(rows) - most
	if more > 0 {
		rows = rows[:most]
	}
	if len(rows) == 0 {
		return
	}
	for i := range columns {
		if columns[i].Style.Align == book.Auto && columns[i].Style.Format != book.General {
			columns[i].Style.Align = book.Right
		}
	}
	p.row = book.Table[line]{Columns: columns, Rows: rows, Tint: p.band}.Write(p.sheet, p.row, 1).ToRow + 1
	if more > 0 {
		p.sheet.Say(p.row, 2, fmt.Sprintf("and %d more on the sheet Ranking", more), book.Note)
		p.row++
	}
	p.sheet.Height(p.row, 5)
	p.sheet.Set(p.row, 1, book.Value{}, book.Style{})
	p.row++
}

func (p *summaryPage) leftOut() []string {
	if len(p.Summary.LeftOut) > 0 {
		return p.Summary.LeftOut
	}
	var out []string
	for _, n := range p.NotRanked {
		out = append(out, n.Label+": "+n.Reason)
	}
	if len(out) > 0 {
		return out
	}
	c := p.Summary.Counts
	if without := c.BelowLine + c.Advertised; without > 0 {
		return []string{fmt.Sprintf("None of those tested here. Without a test of ours, and so without a place: %s.", strings.Join(p.untested(), ", "))}
	}
	return []string{"Nobody: every head of this family is ranked."}
}

// untested names the heads that are shown by figures of others only.
func (p *summaryPage) untested() []string {
	var out []string
	for _, e := range p.BelowLine {
		out = append(out, e.Label+" (its supplier's sheet)")
	}
	for _, e := range p.Advertised {
		out = append(out, e.Label+" (advertised only)")
	}
	return out
}

// questions are the open questions of the family, the first few in words.
func (p *summaryPage) questions() []string {
	var out []string
	for _, problem := range p.Questions {
		if len(out) == mostQuestions {
			out = append(out, fmt.Sprintf("and %d more", len(p.Questions)-mostQuestions))
			break
		}
		words := problem.Message
		if problem.Question != nil && problem.Question.Text != "" {
			words = problem.Question.Text
		}
		out = append(out, fmt.Sprintf("%s (%s)", words, problem.At))
	}
	if len(out) == 0 {
		return []string{"None for this family."}
	}
	return append(out, "Answers go into the yellow cells of Questions.xlsx.")
}
