package book_test

import (
	"bytes"
	"fmt"
	"testing"

	"github.com/xuri/excelize/v2"

	"flowshelf/analysis/source"
	"flowshelf/export/book"
)

// TestManyLinks leads each of many cells of two sheets to a place of its own, and
// reads all of them back, with a table that the sheets refer to as well.
func TestManyLinks(t *testing.T) {
	const many = 1001
	file := func(sheet, row int) string { return fmt.Sprintf("bench/%d/a & b %d.xlsx", sheet, row) }
	b := book.New(book.Properties{Title: "links"})
	for n := range 2 {
		s := b.Sheet(fmt.Sprintf("Sheet %d", n+1))
		rows := make([]int, many)
		for i := range rows {
			rows[i] = i
		}
		book.Table[int]{Name: fmt.Sprintf("Table%d", n), Rows: rows, Columns: []book.Column[int]{{
			Title: "File", Value: book.Count,
			Link: func(i int) book.Link { return book.ToSource("../", source.Ref{File: file(n, i)}) },
		}}}.Write(s, 1, 1)
	}
	content, err := b.Bytes()
	if err != nil {
		t.Fatal(err)
	}
	f, err := excelize.OpenReader(bytes.NewReader(content))
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	for n := range 2 {
		sheet := fmt.Sprintf("Sheet %d", n+1)
		tables, err := f.GetTables(sheet)
		if err != nil || len(tables) != 1 {
			t.Errorf("%s has %d tables, %v", sheet, len(tables), err)
		}
		for i := range many {
			there, at, err := f.GetCellHyperLink(sheet, fmt.Sprintf("A%d", i+2))
			want := fmt.Sprintf("../bench/%d/a%%20&%%20b%%20%d.xlsx", n, i)
			if !there || at != want || err != nil {
				t.Fatalf("row %d of %s leads to %q, %v; want %q", i, sheet, at, err, want)
			}
		}
	}
}
