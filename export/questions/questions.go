// Package questions writes Questions.xlsx, in which the service asks what it
// could not decide and people answer in yellow cells. The workbook is the only
// record of the answers, so every answer in force stands in it.
package questions

import (
	"cmp"
	"fmt"
	"slices"
	"strings"
	"time"

	"flowshelf/analysis/answers"
	"flowshelf/analysis/head"
	"flowshelf/analysis/source"
	"flowshelf/export/book"
)

// FileName is the workbook's name.
const FileName = answers.FileName

// HeaderRow is the row of the titles on both sheets.
const HeaderRow = 5

// Item is one open question.
type Item struct {
	Problem source.Problem // its Question is what is asked; one without is settled elsewhere
	Answer  string         // what has been typed and does not settle it
	Name    string         // who typed it
	First   time.Time      // the day it was first asked
	Heads   []string       // whose records wait for it, or of whom it is
	Weight  int            // how much it could change; the larger come first
	Stake   string         // the same in words
}

// Given is one answer in force.
type Given struct {
	head.Answer
	InUse bool      // something was read by it in this pass
	First time.Time // the day the question was first asked
}

// List is what is asked and what has been answered on one day.
type List struct {
	Shop  string
	Dated time.Time
	Paper head.Paper
	Open  []Item
	Given []Given
	Most  int    // how many open questions are put; the rest are listed below
	Up    string // the way from the workbook's folder to the watched folder
}

// Write returns the workbook: the open questions that matter most, those that
// follow them, and on a sheet of its own every answer, to be changed or taken
// back.
func Write(l List) ([]byte, error) {
	b := book.New(book.Properties{ID: answers.OutputID, Title: "Questions", Subject: "what the service needs to be told", Shop: l.Shop, Dated: l.Dated, Paper: l.Paper})
	l.open(b.Sheet(answers.OpenSheet))
	l.given(b.Sheet(answers.GivenSheet))
	return b.Bytes()
}

func (l List) open(s *book.Sheet) {
	put, later := l.parted()
	l.top(s, "Questions", intro(len(put), len(later)))
	columns := openColumns(l.Up)
	table := book.Table[row]{Name: "Questions", Columns: columns, Rows: numbered(put, 1)}
	table.Write(s, HeaderRow, 1)
	if len(put) == 0 {
		s.Say(HeaderRow+1, 3, "There is nothing to ask.", book.Style{})
	}
	answer := columnOf(columns, answers.AnswerTitle)
	for i, item := range put {
		s.Suggest(s.Area(HeaderRow+1+i, answer, HeaderRow+1+i, answer), prompt(item), choices(item)...)
	}
	if len(later) > 0 {
		at := HeaderRow + max(len(put), 1) + 2
		s.Say(at, 1, fmt.Sprintf("%d more when these are answered", len(later)), book.Section)
		rest := book.Table[row]{Columns: plain(columns), Rows: numbered(later, len(put)+1)}
		rest.WriteBody(s, at+1, 1)
	}
	finish(s, columns)
}

func (l List) given(s *book.Sheet) {
	words := "Change an answer here, clear it, or write “" + answers.TakeBack + "” beside it: the question is then open again."
	if len(l.Given) == 0 {
		words = "Nothing has been answered yet."
	}
	l.top(s, "Answered", words)
	columns := givenColumns(l.Up)
	book.Table[givenRow]{Name: "Answered", Columns: columns, Rows: numberedGiven(l.Given)}.Write(s, HeaderRow, 1)
	finish(s, columns)
}

func (l List) top(s *book.Sheet, title, words string) {
	s.Say(1, 1, title, book.Title)
	s.Say(2, 1, fmt.Sprintf("%s, %s", l.Shop, l.Dated.Format(time.DateOnly)), book.Subtitle)
	s.Say(3, 1, words, book.Note)
}

// finish makes the yellow columns people's own and puts the record out of sight.
func finish[T any](s *book.Sheet, columns []book.Column[T]) {
	for i, c := range columns {
		if c.Title == answers.AnswerTitle || c.Title == answers.NameTitle || c.Title == answers.TakeBackTitle {
			s.Theirs(i + 1)
		}
	}
	key := columnOf(columns, answers.KeyTitle)
	s.Hide(key, len(columns))
	s.Freeze(HeaderRow, 3)
	s.Print(book.Print{RepeatFrom: HeaderRow, RepeatTo: HeaderRow, Columns: key - 1, Basis: "answers are read back from the yellow cells"})
}

func columnOf[T any](columns []book.Column[T], title string) int {
	return 1 + slices.IndexFunc(columns, func(c book.Column[T]) bool { return c.Title == title })
}

func intro(put, later int) string {
	if put == 0 && later == 0 {
		return "Nothing is open."
	}
	words := "Answer in the yellow cells: choose from the list, or type. Save and close; the answer is read back and never asked again."
	if later > 0 {
		words += fmt.Sprintf(" These are the %d that could change most; %d more follow below.", put, later)
	}
	return words
}

// parted returns the questions to put, those that weigh most first and of these
// the ones about the most heads, and those that have to wait.
func (l List) parted() (put, later []Item) {
	items := slices.Clone(l.Open)
	slices.SortStableFunc(items, func(a, b Item) int {
		if c := cmp.Or(b.Weight-a.Weight, len(b.Heads)-len(a.Heads)); c != 0 {
			return c
		}
		if c := a.Problem.At.Compare(b.Problem.At); c != 0 {
			return c
		}
		return strings.Compare(key(a.Problem), key(b.Problem))
	})
	for _, item := range items {
		if item.Problem.Question == nil || l.Most > 0 && len(put) >= l.Most {
			later = append(later, item)
		} else {
			put = append(put, item)
		}
	}
	return put, later
}

// row is an item with its number.
type row struct {
	Item
	number int
}

func numbered(items []Item, from int) []row {
	out := make([]row, len(items))
	for i, item := range items {
		out[i] = row{item, from + i}
	}
	return out
}

func choices(item Item) []string {
	if item.Problem.Question == nil {
		return nil
	}
	return append(slices.Clone(item.Problem.Question.Choices), head.IgnoreFile)
}

func prompt(item Item) string {
	if typed := item.Problem.Question.Typed(); typed != "" {
		return "Choose an answer, or type " + typed + "."
	}
	return "Choose an answer."
}

func key(p source.Problem) string {
	if p.Question == nil {
		return ""
	}
	return p.Question.Key
}
