// Package questions writes Questions.xlsx, in which the service asks what it
// could not decide and people answer in yellow cells.
package questions

import (
	"fmt"
	"slices"
	"strings"
	"time"

	"flowshelf/analysis/source"
	"flowshelf/export/book"
)

// FileName is the workbook's name.
const FileName = "Questions.xlsx"

// The layout that answers are read back from, 1-based.
const (
	SheetName    = "Questions"
	HeaderRow    = 5
	FirstRow     = 6
	AnswerColumn = 9
	KeyColumn    = 12
)

// Item is one question with what has been said about it.
type Item struct {
	Problem source.Problem // its Question is what is asked
	Answer  string         // what a person has typed, kept as typed
	First   time.Time      // the day it was first asked
	Weight  float64        // how much it could change; the larger come first
}

// List is what is asked on one day.
type List struct {
	Shop  string
	Dated time.Time
	Items []Item
	Most  int    // how many open questions are shown; the rest are counted
	Up    string // the way from the workbook's folder to the watched folder
}

// Write returns the workbook: the open questions that matter most, then the
// answered ones, so that an answer can be changed.
func Write(l List) ([]byte, error) {
	b := book.New(book.Properties{ID: "questions", Title: "Questions", Subject: "what the service needs to be told", Shop: l.Shop, Dated: l.Dated})
	s := b.Sheet(SheetName)
	open, answered := l.sorted()
	left := 0
	if l.Most > 0 && len(open) > l.Most {
		left = len(open) - l.Most
		open = open[:l.Most]
	}
	s.Say(1, 1, "Questions", book.Title)
	s.Say(2, 1, fmt.Sprintf("%s, %s", l.Shop, l.Dated.Format(time.DateOnly)), book.Subtitle)
	s.Say(3, 1, intro(len(open), left), book.Note)
	rows := numbered(slices.Concat(open, answered))
	table := book.Table[row]{Name: "Questions", Columns: columns(l.Up), Rows: rows}
	table.Write(s, HeaderRow, 1)
	if len(rows) == 0 {
		s.Say(FirstRow, 2, "There is nothing to ask.", book.Prose)
	}
	for i, r := range rows {
		s.Suggest(s.Area(FirstRow+i, AnswerColumn, FirstRow+i, AnswerColumn), "Choose an answer, or type one.", choices(r)...)
	}
	s.Freeze(HeaderRow, 3)
	s.Print(book.Print{RepeatFrom: HeaderRow, RepeatTo: HeaderRow, Columns: KeyColumn - 1, Basis: "answers are read back from the yellow cells"})
	return b.Bytes()
}

func intro(shown, left int) string {
	words := "Answer in the yellow cells: choose from the list, or type. Save and close; the answer is read back and never asked again."
	if shown == 0 {
		return "Nothing is open."
	}
	if left > 0 {
		words += fmt.Sprintf(" These are the %d that could change most; %d more will follow.", shown, left)
	}
	return words
}

// row is an item with its number.
type row struct {
	Item
	number int
}

func numbered(items []Item) []row {
	out := make([]row, len(items))
	for i, item := range items {
		out[i] = row{item, i + 1}
	}
	return out
}

// sorted parts the open questions from the answered ones, those that weigh most
// first, then by place.
func (l List) sorted() (open, answered []Item) {
	items := slices.Clone(l.Items)
	slices.SortStableFunc(items, func(a, b Item) int {
		switch {
		case a.Weight > b.Weight:
			return -1
		case a.Weight < b.Weight:
			return 1
		}
		if c := a.Problem.At.Compare(b.Problem.At); c != 0 {
			return c
		}
		return strings.Compare(key(a.Problem), key(b.Problem))
	})
	for _, item := range items {
		if strings.TrimSpace(item.Answer) == "" {
			open = append(open, item)
		} else {
			answered = append(answered, item)
		}
	}
	return open, answered
}

func columns(up string) []book.Column[row] {
	b := book.Body.Wrapped()
	words := func(title string, width float64, of func(row) string) book.Column[row] {
		return book.Column[row]{Title: title, Width: width, Style: b, Value: func(r row) book.Value { return book.Text(of(r)) }}
	}
	file := words("File", 19, func(r row) string { return r.Problem.At.File })
	file.Link = func(r row) book.Link { return book.ToSource(up, r.Problem.At) }
	answer := words("Your answer", 18, func(r row) string { return r.Answer })
	answer.Style = book.Style{Fill: book.Input, Bottom: book.Thin, Bold: true, Wrap: true}
	return []book.Column[row]{
		{Title: "No.", Width: 5, Style: b.As(book.Flow).To(book.Left), Value: func(r row) book.Value { return book.Count(r.number) }},
		words("Head", 11, func(r row) string { return orDash(r.Problem.Head) }),
		words("Question", 32, func(r row) string { return asked(r.Problem) }),
		file,
		words("Sheet and cell", 12, func(r row) string { return strings.TrimSpace(r.Problem.At.Sheet + " " + r.Problem.At.Cell) }),
		words("Found there", 10, func(r row) string { return r.Problem.Found }),
		words("Evidence", 26, func(r row) string { return evidence(r.Problem) }),
		words("Choices", 16, func(r row) string { return strings.Join(choices(r), "\n") }),
		answer,
		words("What it changes", 24, func(r row) string { return changes(r.Problem) }),
		{Title: "First asked", Width: 11, Style: b.As(book.Date).To(book.Left), Value: func(r row) book.Value { return book.Day(r.First) }},
		{Title: "Key (leave alone)", Width: 20, Style: book.Style{Ink: book.Muted, Points: 8}, Value: func(r row) book.Value { return book.Text(key(r.Problem)) }},
	}
}

func orDash(s string) string {
	if s == "" {
		return "-"
	}
	return s
}

// asked words the question; a problem without one is shown by its message.
func asked(p source.Problem) string {
	if p.Question != nil && p.Question.Text != "" {
		return p.Question.Text
	}
	return p.Message
}

func evidence(p source.Problem) string {
	if p.Question != nil && p.Question.Evidence != "" {
		return p.Question.Evidence
	}
	if p.Question != nil && p.Question.Text != "" {
		return p.Message
	}
	return p.Hint
}

func changes(p source.Problem) string {
	if p.Question == nil {
		return ""
	}
	return p.Question.Changes
}

func choices(r row) []string {
	if r.Problem.Question == nil {
		return nil
	}
	return r.Problem.Question.Choices
}

func key(p source.Problem) string {
	if p.Question == nil {
		return p.Kind
	}
	return p.Question.Key
}
