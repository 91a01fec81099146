package book_test

import (
	"fmt"
	"strings"
	"testing"

	"flowshelf/export/book"
	"flowshelf/export/book/booktest"
)

type named struct{ name, words string }

func columnsOfNamed() []book.Column[named] {
	return []book.Column[named]{
		{Title: "Name", Width: 10, Style: book.Body, Value: func(n named) book.Value { return book.Text(n.name) }},
		{Title: "Unquestionably", Width: 6, Style: book.Body, Value: func(n named) book.Value { return book.Text(n.words) }},
		{Title: "Last", Width: 10, Style: book.Body, Value: func(named) book.Value { return book.Number(1) }},
	}
}

// TestTablesStayOnOnePage prints six tables of twelve rows, each under a title:
// none is cut by the end of a page, and no page is begun for one that fits.
func TestTablesStayOnOnePage(t *testing.T) {
	b := book.New(book.Properties{ID: "t", Title: "t", Shop: "t"})
	s := b.Sheet("Tables")
	row := 1
	const tables, long = 6, 12
	for i := range tables {
		var rows []named
		for j := range long {
			rows = append(rows, named{fmt.Sprintf("row %d of %c", j+1, 'A'+i), ""})
		}
		s.Say(row, 1, fmt.Sprintf("Table %c", 'A'+i), book.Section)
		row = book.Table[named]{Columns: columnsOfNamed(), Rows: rows}.Write(s, row+1, 1).ToRow + 2
	}
	s.Print(book.Print{Upright: true})
	out, err := b.Bytes()
	if err != nil {
		t.Fatal(err)
	}
	paper := booktest.Print(t, out)
	const fits = 3 // tables a page: 13 rows and a title take 215 of 713 points
	if want := tables / fits; paper.Pages["Tables"] != want {
		t.Errorf("%d pages, want %d", paper.Pages["Tables"], want)
	}
	for i, page := range strings.Split(strings.TrimSuffix(paper.Text, "\f"), "\f") {
		for letter := 'A'; letter < 'A'+tables; letter++ {
			title := strings.Count(page, fmt.Sprintf("Table %c", letter))
			if rows := strings.Count(page, fmt.Sprintf(" of %c", letter)); rows != title*long {
				t.Errorf("page %d holds %d rows of table %c and %d titles", i+1, rows, letter, title)
			}
		}
	}
}

// TestTextsAreNotCut writes texts wider than their cells: beside a figure, before
// the end of the printed columns, and in a header.
func TestTextsAreNotCut(t *testing.T) {
	b := book.New(book.Properties{ID: "t", Title: "t", Shop: "t"})
	s := b.Sheet("Texts")
	s.Say(1, 1, "A note that is much longer than the three columns that are printed of this sheet", book.Note)
	book.Table[named]{Name: "Texts", Columns: columnsOfNamed(), Rows: []named{{"a name of four words", "so many words"}}}.Write(s, 3, 1)
	s.Say(4, 5, "off the paper, beside a figure", book.Body)
	s.Set(4, 6, book.Number(1), book.Body)
	s.Print(book.Print{Columns: 3})
	out, err := b.Bytes()
	if err != nil {
		t.Fatal(err)
	}
	for _, cut := range booktest.Cut(t, out) {
		t.Error(cut)
	}
	text := strings.Join(strings.Fields(booktest.Print(t, out).Text), " ")
	for _, whole := range []string{"Unquestionably", "of this sheet", "four", "many"} {
		if !strings.Contains(text, whole) {
			t.Errorf("%q is not printed: %s", whole, text)
		}
	}
}
