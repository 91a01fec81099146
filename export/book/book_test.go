package book_test

import (
	"bytes"
	"strings"
	"testing"
	"time"

	"github.com/xuri/excelize/v2"
	"pgregory.net/rapid"

	"flowshelf/analysis/source"
	"flowshelf/export/book"
	"flowshelf/export/book/booktest"
)

var properties = book.Properties{ID: "test/one", Title: "One", Shop: "Saltmarsh", Dated: time.Date(2026, 3, 16, 0, 0, 0, 0, time.UTC)}

func finished(t *testing.T, b *book.Book) []byte {
	t.Helper()
	out, err := b.Bytes()
	if err != nil {
		t.Fatal(err)
	}
	return out
}

func TestTextStaysText(t *testing.T) {
	tests := []struct{ name, in, want string }{
		{"formula", "=1+1", "=1+1"},
		{"plus", "+1-800", "+1-800"},
		{"minus", "-5", "-5"},
		{"at", "@SUM(A1)", "@SUM(A1)"},
		{"command", `=cmd|'/c calc'!A1`, `=cmd|'/c calc'!A1`},
		{"control signs", "a\x00b\x07c\x1bd", "abcd"},
		{"broken UTF-8", "a\xffb", "a\ufffdb"},
		{"markup", `<b>&"'</b>`, `<b>&"'</b>`},
		{"outer blanks", "  a ", "  a "},
		{"lines", "a\r\nb\rc", "a\nb\nc"},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			b := book.New(properties)
			b.Sheet("S").Say(1, 1, tt.in, book.Body)
			f := booktest.Open(t, finished(t, b))
			got, err := f.GetCellValue("S", "A1")
			if err != nil || got != tt.want {
				t.Errorf("got %q, %v; want %q", got, err, tt.want)
			}
			if formula, _ := f.GetCellFormula("S", "A1"); formula != "" {
				t.Errorf("the text became the formula %q", formula)
			}
		})
	}
}

func TestLongTextIsCutWithAMark(t *testing.T) {
	b := book.New(properties)
	b.Sheet("S").Say(1, 1, strings.Repeat("é", 40000), book.Body)
	got, err := booktest.Open(t, finished(t, b)).GetCellValue("S", "A1")
	if err != nil || len([]rune(got)) != 32767 || !strings.HasSuffix(got, "(cut)") {
		t.Errorf("%d signs, end %q, %v", len([]rune(got)), got[len(got)-8:], err)
	}
}

func TestSheetNames(t *testing.T) {
	b := book.New(properties)
	long := strings.Repeat("head ", 10)
	for _, tt := range []struct{ in, want string }{
		{"a/b\\c?d*e[f]g:h", "a b c d e f g h"},
		{"'quoted'", "quoted"},
		{"", "Sheet"},
		{"SHEET", "SHEET (2)"},
		{long, long[:31]},
		{long, long[:27] + " (2)"},
	} {
		if got := b.Sheet(tt.in).Name(); got != tt.want {
			t.Errorf("%q became %q, want %q", tt.in, got, tt.want)
		}
	}
	finished(t, b)
}

func TestTablesThatWouldDamageTheFileAreRefused(t *testing.T) {
	for name, titles := range map[string][2]string{"same title": {"Head", "head"}, "no title": {"Head", ""}} {
		t.Run(name, func(t *testing.T) {
			b := book.New(properties)
			var columns []book.Column[int]
			for _, title := range titles {
				columns = append(columns, book.Column[int]{Title: title, Value: book.Count})
			}
			book.Table[int]{Name: "T", Columns: columns, Rows: []int{1}}.Write(b.Sheet("S"), 1, 1)
			if _, err := b.Bytes(); err == nil {
				t.Error("the table was written")
			}
		})
	}
}

func TestFigureThatIsNone(t *testing.T) {
	b := book.New(properties)
	zero := 0.0
	b.Sheet("S").Set(2, 3, book.Number(1/zero), book.Body)
	if _, err := b.Bytes(); err == nil || !strings.Contains(err.Error(), "column C") {
		t.Errorf("got %v, want an error that names the cell", err)
	}
}

func TestLinksToSources(t *testing.T) {
	for _, tt := range []struct {
		at   source.Ref
		want string
	}{
		{source.Ref{File: "in/Flow sheet A.xlsx", Sheet: "Sheet 1", Cell: "B7"}, "../in/Flow%20sheet%20A.xlsx#'Sheet 1'!B7"},
		{source.Ref{File: "50% off #1.xlsx", Sheet: "Bob's", Cell: "A1"}, "../50%25%20off%20%231.xlsx#'Bob''s'!A1"},
		{source.Ref{File: "a.csv"}, "../a.csv"},
		{source.Ref{File: "a.xlsx", Sheet: "S"}, "../a.xlsx#'S'!A1"},
	} {
		b := book.New(properties)
		s := b.Sheet("S")
		s.Say(1, 1, "x", book.Body)
		s.LinkTo(1, 1, book.ToSource("../", tt.at))
		linked, got, err := booktest.Open(t, finished(t, b)).GetCellHyperLink("S", "A1")
		if err != nil || !linked || got != tt.want {
			t.Errorf("%v: got %q, %v; want %q", tt.at, got, err, tt.want)
		}
	}
}

// TestDays holds date serials against ISO/IEC 29500-1, 18.17.4.1: 1 March 1900
// is 61 in the 1900 system; 1 January 2000 is 36526 (from memory).
func TestDays(t *testing.T) {
	for day, want := range map[string]float64{"1900-03-01": 61, "2000-01-01": 36526, "2026-03-16": 46097} {
		at, err := time.Parse(time.DateOnly, day)
		if err != nil {
			t.Fatal(err)
		}
		if got, _ := book.Day(at).Float(); got != want {
			t.Errorf("%s: got %v, want %v", day, got, want)
		}
	}
	if !book.Day(time.Time{}).Blank() {
		t.Error("no date must be nothing")
	}
}

// TestWhatIsWrittenIsRead holds Cells against the book for any cells.
func TestWhatIsWrittenIsRead(t *testing.T) {
	rapid.Check(t, func(rt *rapid.T) {
		b := book.New(properties)
		s := b.Sheet("S")
		want := map[string]string{}
		for range rapid.IntRange(1, 12).Draw(rt, "cells") {
			row, col := rapid.IntRange(1, 40).Draw(rt, "row"), rapid.IntRange(1, 30).Draw(rt, "col")
			words := rapid.StringMatching(`[a-zA-Z =+@<&"'é\n]{1,12}`).Draw(rt, "words")
			s.Say(row, col, words, book.Body)
			want[book.CellName(row, col)] = words
		}
		out, err := b.Bytes()
		if err != nil {
			rt.Fatal(err)
		}
		cells, err := book.Cells(out)
		if err != nil {
			rt.Fatal(err)
		}
		if len(cells) != len(want) {
			rt.Fatalf("%d cells, want %d", len(cells), len(want))
		}
		for _, c := range cells {
			if c.Value != want[c.Cell] {
				rt.Fatalf("%s: got %q, want %q", c.Cell, c.Value, want[c.Cell])
			}
		}
		if _, ok, edited, err := book.Identity(out); !ok || edited || err != nil {
			rt.Fatalf("ok %v, edited %v, %v", ok, edited, err)
		}
	})
}

func TestApplicationIsOurOwn(t *testing.T) {
	b := book.New(properties)
	b.Sheet("S").Say(1, 1, "x", book.Body)
	app, err := booktest.Open(t, finished(t, b)).GetAppProps()
	if err != nil || app.Application != "Flowshelf" {
		t.Errorf("application %v, %v", app, err)
	}
}

// chartBook is a small book with one chart whose names and figures need care.
func chartBook(t *testing.T) []byte {
	t.Helper()
	b := book.New(properties)
	s := b.Sheet("Bob's & co")
	s.Say(1, 2, "Head <1>", book.Header)
	for i, q := range []float64{68, 134, 190} {
		s.Set(2+i, 1, book.Number(float64(i+1)/10), book.Body.As(book.Lift))
		s.Set(2+i, 2, book.Number(q), book.Body.As(book.Flow))
	}
	low := 0.0
	s.Draw(book.Chart{
		Title: "Flow & lift", X: book.Axis{Title: "lift", Format: book.Lift, Min: &low}, Y: book.Axis{Title: "cfm"},
		Series: []book.Series{{Name: s.Area(1, 2, 1, 2), X: s.Area(2, 1, 4, 1), Y: s.Area(2, 2, 4, 2), Look: book.Looks(0), Named: book.Above}},
	}, 6, 1, 400, 300)
	return finished(t, b)
}

func TestChartIsReadByOthers(t *testing.T) {
	workbook := chartBook(t)
	sheets := booktest.OpenPyXL(t, workbook)
	if len(sheets) != 1 || sheets[0].Charts != 1 {
		t.Errorf("openpyxl sees %+v", sheets)
	}
	text := booktest.Print(t, workbook).Text
	for _, words := range []string{"Flow & lift", "Head <1>"} {
		if !strings.Contains(text, words) {
			t.Errorf("%q is not on the printed page:\n%s", words, text)
		}
	}
}

func TestSameBookSameCells(t *testing.T) {
	a, b := chartBook(t), chartBook(t)
	first, err := book.Cells(a)
	if err != nil {
		t.Fatal(err)
	}
	second, err := book.Cells(b)
	if err != nil {
		t.Fatal(err)
	}
	if book.Fingerprint(first) != book.Fingerprint(second) {
		t.Error("two books of the same cells differ")
	}
}

func edit(t *testing.T, workbook []byte, change func(*excelize.File) error) []byte {
	t.Helper()
	f := booktest.Open(t, workbook)
	if err := change(f); err != nil {
		t.Fatal(err)
	}
	var out bytes.Buffer
	if err := f.Write(&out); err != nil {
		t.Fatal(err)
	}
	return out.Bytes()
}
