package questions

import (
	"cmp"
	"strings"
	"time"

	"flowshelf/analysis/answers"
	"flowshelf/analysis/source"
	"flowshelf/export/book"
)

// yellow is the look of a cell that people type into: as text, so that no
// program makes a date of "4/1".
var yellow = book.Style{Fill: book.Input, Bottom: book.Thin, Bold: true, Wrap: true, Format: book.AsTyped, Align: book.Left}

// words is a column of texts.
func words[T any](title string, width float64, of func(T) string) book.Column[T] {
	return book.Column[T]{Title: title, Width: width, Style: book.Body.Wrapped(), Value: func(r T) book.Value { return book.Text(of(r)) }}
}

// typed is a column of yellow cells.
func typed[T any](title string, width float64, of func(T) string) book.Column[T] {
	c := words(title, width, of)
	c.Style = yellow
	return c
}

// record is a column of what only the reader needs.
func record[T any](title string, of func(T) string) book.Column[T] {
	c := words(title, 12, of)
	c.Style = book.Style{Ink: book.Muted, Format: book.AsTyped}
	return c
}

func day[T any](title string, of func(T) time.Time) book.Column[T] {
	return book.Column[T]{Title: title, Width: 11, Style: book.Body.As(book.Date).To(book.Left), Value: func(r T) book.Value { return book.Day(of(r)) }}
}

func number[T any](of func(T) int) book.Column[T] {
	return book.Column[T]{Title: "No.", Width: 5, Style: book.Body.As(book.Flow).To(book.Left), Value: func(r T) book.Value { return book.Count(of(r)) }}
}

// place is where a question was asked: file, sheet, and the cell as a link.
func place[T any](up string, at func(T) source.Ref) []book.Column[T] {
	cell := words("Cell", 7, func(r T) string { return at(r).Cell })
	file := words("File", 27, func(r T) string { return at(r).File })
	link := func(r T) book.Link { return book.ToSource(up, at(r)) }
	cell.Link, file.Link = link, link
	return []book.Column[T]{file, words("Sheet", 10, func(r T) string { return at(r).Sheet }), cell}
}

// asked is the record of the place.
func asked[T any](at func(T) source.Ref) []book.Column[T] {
	return []book.Column[T]{
		record(answers.FileTitle, func(r T) string { return at(r).File }),
		record(answers.SheetTitle, func(r T) string { return at(r).Sheet }),
		record(answers.CellTitle, func(r T) string { return at(r).Cell }),
	}
}

func openColumns(up string) []book.Column[row] {
	at := func(r row) source.Ref { return r.Problem.At }
	columns := []book.Column[row]{
		number(func(r row) int { return r.number }),
		words(answers.HeadTitle, 9, func(r row) string { return orDash(cmp.Or(strings.Join(r.Heads, ", "), r.Problem.Head)) }),
		words(answers.QuestionTitle, 30, func(r row) string { return question(r.Problem) }),
	}
	columns = append(columns, place(up, at)...)
	columns = append(columns,
		words("Found there", 9, func(r row) string { return r.Problem.Found }),
		words("Evidence", 24, evidence),
		words("Choices", 19, ways),
		typed(answers.AnswerTitle, 17, func(r row) string { return r.Answer }),
		typed(answers.NameTitle, 9, func(r row) string { return r.Name }),
		words("What it changes", 21, changes),
		day("First asked", func(r row) time.Time { return r.First }),
		record(answers.KeyTitle, func(r row) string { return key(r.Problem) }),
	)
	columns = append(columns, asked(at)...)
	return append(columns, record(answers.FirstTitle, func(r row) string { return r.First.Format(time.DateOnly) }))
}

// plain takes the yellow off: what is not put yet need not be answered.
func plain(columns []book.Column[row]) []book.Column[row] {
	out := make([]book.Column[row], len(columns))
	for i, c := range columns {
		if c.Title == answers.AnswerTitle || c.Title == answers.NameTitle {
			c.Style = book.Body.Wrapped().As(book.AsTyped)
		}
		out[i] = c
	}
	return out
}

// givenRow is an answer with its number.
type givenRow struct {
	Given
	number int
}

func numberedGiven(given []Given) []givenRow {
	out := make([]givenRow, len(given))
	for i, g := range given {
		out[i] = givenRow{g, i + 1}
	}
	return out
}

func givenColumns(up string) []book.Column[givenRow] {
	at := func(r givenRow) source.Ref { return r.About }
	columns := []book.Column[givenRow]{
		number(func(r givenRow) int { return r.number }),
		words(answers.HeadTitle, 9, func(r givenRow) string { return orDash(r.Head) }),
		words(answers.QuestionTitle, 36, func(r givenRow) string { return r.Question }),
		typed(answers.AnswerTitle, 22, func(r givenRow) string { return r.Text }),
		typed(answers.NameTitle, 10, func(r givenRow) string { return r.By }),
		day("Answered", func(r givenRow) time.Time { return r.On }),
		typed(answers.TakeBackTitle, 12, func(givenRow) string { return "" }),
	}
	columns = append(columns, place(up, at)...)
	columns = append(columns,
		words("In use", 16, func(r givenRow) string {
			if r.InUse {
				return "yes"
			}
			return "kept: nothing asks it now"
		}),
		record(answers.KeyTitle, func(r givenRow) string { return r.Key }),
	)
	columns = append(columns, asked(at)...)
	return append(columns,
		record(answers.TakenTitle, func(r givenRow) string { return r.Text }),
		record(answers.ByTitle, func(r givenRow) string { return r.By }),
		record(answers.OnTitle, func(r givenRow) string { return r.On.Format(time.DateOnly) }),
		record(answers.FirstTitle, func(r givenRow) string { return r.First.Format(time.DateOnly) }),
	)
}

func orDash(s string) string {
	if s == "" {
		return answers.NoHead
	}
	return s
}

// question words the question; a problem without one is shown by its message.
func question(p source.Problem) string {
	if p.Question != nil && p.Question.Text != "" {
		return p.Question.Text
	}
	return p.Message
}

// evidence says what speaks for the choices, and first what is wrong with an
// answer that does not settle the question.
func evidence(r row) string {
	p := r.Problem
	switch {
	case p.Question == nil:
		return p.Hint
	case r.Answer != "":
		return "“" + r.Answer + "” does not settle it. Answer with " + p.Question.Takes() + "."
	case p.Question.Evidence != "":
		return p.Question.Evidence
	case p.Question.Text != "":
		return p.Message
	}
	return p.Hint
}

// ways are the choices and what may be typed, one a line.
func ways(r row) string {
	if r.Problem.Question == nil {
		return "settled elsewhere"
	}
	lines := choices(r.Item)
	if typed := r.Problem.Question.Typed(); typed != "" {
		lines = append(lines, "or "+typed)
	}
	return strings.Join(lines, "\n")
}

func changes(r row) string {
	if r.Problem.Question == nil {
		return r.Stake
	}
	return strings.TrimPrefix(strings.TrimSuffix(r.Problem.Question.Changes+"; "+r.Stake, "; "), "; ")
}
