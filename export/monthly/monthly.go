// Package monthly writes the monthly review as a workbook. It lays out what
// package review found; it decides nothing.
package monthly

import (
	"fmt"

	"flowshelf/analysis/compare"
	"flowshelf/analysis/quantity"
	"flowshelf/analysis/review"
	"flowshelf/analysis/source"
	"flowshelf/export/book"
)

// FileName returns the name of a month's review: "Monthly review 2026-03.xlsx".
func FileName(month string) string { return fmt.Sprintf("Monthly review %s.xlsx", month) }

// ID is how the workbook of a month is known, whatever it is called.
func ID(month string) string { return "monthly review/" + month }

// Options say where the workbook lies.
type Options struct {
	Up string // the way from the workbook's folder to the watched folder
}

// Write returns the workbook of a review.
func Write(r review.Review, o Options) ([]byte, error) {
	w := &writer{Review: r, opts: o, dollars: book.Money(r.Currency, 0)}
	w.book = book.New(book.Properties{
		ID: ID(r.Month), Title: "Monthly review " + r.Month, Subject: "stock, prices, places, suppliers and tests of a month",
		Shop: r.Shop, Dated: r.Date, Paper: r.Paper,
	})
	w.decisions(w.book.Sheet("Decisions"))
	w.stock(w.book.Sheet("Stock health"))
	w.movement(w.book.Sheet("Value and movement"))
	w.prices(w.book.Sheet("Price moves"))
	w.changes(w.book.Sheet("What changed"))
	w.suppliers(w.book.Sheet("Supplier record"))
	w.bench(w.book.Sheet("Bench health"))
	w.tests(w.book.Sheet("Test plan"))
	w.questions(w.book.Sheet("Questions"))
	w.sources(w.book.Sheet("Sources"))
	return w.book.Bytes()
}

// writer carries what the sheets share.
type writer struct {
	review.Review
	opts    Options
	book    *book.Book
	dollars book.Format
}

// page sets a title and the notes below it, and returns the first free row.
func (w *writer) page(s *book.Sheet, title string, notes ...string) int {
	s.Say(1, 1, title, book.Title)
	s.Say(2, 1, fmt.Sprintf("%s, %s", w.Shop, w.Date.Format("2006-01-02")), book.Subtitle)
	row := 3
	for _, n := range notes {
		s.Say(row, 1, n, book.Note)
		row++
	}
	return row + 1
}

// paper sets the print set-up of a sheet with one header row.
func (w *writer) paper(s *book.Sheet, header int, p book.Print) {
	p.Basis = "for the shop only: shows cost and margin"
	if header > 0 {
		p.RepeatFrom, p.RepeatTo = header, header
		s.Freeze(header, 1)
	}
	s.Print(p)
}

// nothing says in the body of a sheet that there is nothing to show.
func nothing(s *book.Sheet, row int, words string) { s.Say(row, 1, words, book.Style{}) }

func number(m compare.Maybe) book.Value {
	if !m.Known {
		return book.Value{}
	}
	return book.Number(m.Value)
}

func money(m source.Stated[quantity.Money]) book.Value {
	if !m.Known {
		return book.Value{}
	}
	return book.Number(m.Value.Float())
}

func figure(x source.Stated[float64]) book.Value {
	if !x.Known {
		return book.Value{}
	}
	return book.Number(x.Value)
}

func count(x source.Stated[int]) book.Value {
	if !x.Known {
		return book.Value{}
	}
	return book.Count(x.Value)
}

// words is a column of texts.
func words[T any](title string, width float64, of func(T) string) book.Column[T] {
	return book.Column[T]{Title: title, Width: width, Style: book.Body.Wrapped().Indented(), Value: func(t T) book.Value { return book.Text(of(t)) }}
}

// figures is a column of numbers.
func figures[T any](title string, width float64, f book.Format, of func(T) book.Value) book.Column[T] {
	return book.Column[T]{Title: title, Width: width, Style: book.Body.As(f).To(book.Right), Value: of}
}
