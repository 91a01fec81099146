// Package enquiries writes the counter's answers to the enquiries in the folder:
// at most three heads each, what speaks for and against, and why every other head
// is not offered. Its customer's page is another workbook.
package enquiries

import (
	"cmp"
	"fmt"
	"strings"
	"time"

	"flowshelf/analysis/enquiry"
	"flowshelf/analysis/head"
	"flowshelf/analysis/review"
	"flowshelf/export/book"
)

// FileName is the workbook's name.
const FileName = "Enquiries answered.xlsx"

// ID is how the workbook is known among our outputs.
const ID = "enquiries answered"

const columns = 4

// Write returns the workbook: a sheet for each enquiry.
func Write(shop head.Shop, date time.Time, answers []enquiry.Answer) ([]byte, error) {
	b := book.New(book.Properties{ID: ID, Title: "Enquiries answered", Subject: "for the counter", Shop: shop.Name, Dated: date, Paper: shop.Rules.Paper})
	for _, a := range answers {
		w := &writer{Answer: a, s: b.Sheet(cmp.Or(a.Enquiry.Name, a.Enquiry.Family, "Enquiry")), row: 1}
		w.lay(shop.Name, date)
	}
	return b.Bytes()
}

type writer struct {
	enquiry.Answer
	s   *book.Sheet
	row int
}

func (w *writer) prose(words string, style book.Style) {
	style.Wrap = true
	w.s.Across(w.row, 1, columns, book.Cell{Value: book.Text(words), Style: style})
	w.row++
}

func (w *writer) lay(shop string, date time.Time) {
	w.s.Width(1, 24, 16, 54, 54)
	w.s.Say(1, 1, cmp.Or(w.Enquiry.Name, "An enquiry without a name"), book.Title)
	w.s.Say(2, 1, fmt.Sprintf("%s, %s", shop, date.Format(time.DateOnly)), book.Subtitle)
	w.row = 3
	if w.Engine != "" {
		w.prose(w.Engine+w.wish(), book.Prose.Strong())
	}
	for _, t := range w.Taken {
		w.prose("Note: "+t+".", book.Note)
	}
	w.row++
	if w.None != "" {
		below := ""
		if len(w.Others) > 0 {
			below = ": every one is named below with what keeps it out"
		}
		w.prose("Nothing can be offered: "+w.None+below+".", book.Prose.Strong())
		w.row++
	}
	w.offers()
	w.fit()
	w.others()
	if len(w.Checks) > 0 {
		w.s.Say(w.row, 1, "To be checked on his engine, whatever he buys", book.Section)
		w.row++
		for _, c := range w.Checks {
			w.prose("- "+c, book.Prose)
		}
	}
	w.s.Print(book.Print{Basis: "for the counter"})
}

// wish is what he asks beside the engine.
func (w *writer) wish() string {
	out := ""
	if w.Enquiry.Budget.Known {
		out += ", " + review.Cash(w.Enquiry.Budget.Value) + " all-in"
	}
	if len(w.Enquiry.Musts) > 0 {
		out += "; musts: " + strings.Join(w.Enquiry.Musts, ", ")
	}
	return out
}

func (w *writer) offers() {
	if len(w.Offers) == 0 {
		return
	}
	words := book.Body.Wrapped().Indented()
	t := book.Table[enquiry.Offer]{Rows: w.Offers, Columns: []book.Column[enquiry.Offer]{
		{Title: "Head", Style: book.Body.Strong().Wrapped(), Value: func(o enquiry.Offer) book.Value { return book.Text(o.Label + "\n" + string(o.Role)) }},
		{Title: "All-in, a set", Style: book.Body.As(book.Money(w.Offers[0].AllIn.Value.Currency, 0)).To(book.Right).Strong(),
			Value: func(o enquiry.Offer) book.Value { return book.Number(o.AllIn.Value.Float()) }},
		{Title: "For it", Style: words, Value: func(o enquiry.Offer) book.Value { return book.Text(strings.Join(o.For, "\n")) }},
		{Title: "Against it", Style: words, Value: func(o enquiry.Offer) book.Value {
			return book.Text(strings.Join(append(o.Against, allow(o)...), "\n"))
		}},
	}}
	t.Write(w.s, w.row, 1)
	w.row += len(w.Offers) + 2
}

func allow(o enquiry.Offer) []string {
	out := make([]string, len(o.Allow))
	for i, a := range o.Allow {
		out[i] = "allow for " + a
	}
	return out
}

// fit says of each offered head what is known of whether it goes on his block.
func (w *writer) fit() {
	if len(w.Offers) == 0 {
		return
	}
	w.s.Say(w.row, 1, "Will it fit his block?", book.Section)
	w.row++
	for _, o := range w.Offers {
		w.s.Say(w.row, 1, o.Label, book.Body.Strong().Wrapped())
		w.s.Across(w.row, 2, columns, book.Cell{Value: book.Text(strings.Join(o.Fit, "\n")), Style: book.Body.Wrapped()})
		w.row++
	}
	w.row++
}

func (w *writer) others() {
	if len(w.Others) == 0 {
		return
	}
	w.s.Say(w.row, 1, "Not offered", book.Section)
	w.row++
	for _, o := range w.Others {
		w.s.Say(w.row, 1, o.Label, book.Body.Strong().Wrapped())
		w.s.Across(w.row, 2, columns, book.Cell{Value: book.Text(o.Why), Style: book.Body.Wrapped()})
		w.row++
	}
	w.row++
}
