package decode_test

import (
	"context"
	"errors"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"flowshelf/ingest/decode"
)

// TestContentDecides: the name says nothing.
func TestContentDecides(t *testing.T) {
	for name, test := range map[string]struct {
		content []byte
		format  string
	}{
		"flow.csv":  {fixture(t, "inline.xlsx"), "xlsx"},
		"flow.xls":  {fixture(t, "openpyxl.xlsx"), "xlsx"},
		"flow.xlsx": {[]byte("lift,cfm\n.1,60\n"), "csv"},
		"flow":      {[]byte("lift\tcfm\n.1\t60\n"), "tsv"},
		"macros":    {fixture(t, "macros.xlsm"), "xlsm"},
		"list.xls":  {[]byte("part;price\r\nLKC-12;452,00\r\n"), "csv"},
		"wide.xls":  {[]byte("\xff\xfep\x00\t\x00q\x00\n\x00" + "1\x00\t\x002\x00\n\x00"), "tsv"},
	} {
		book, err := decode.Open(context.Background(), name, test.content, decode.Defaults())
		if err != nil || book.Format != test.format {
			t.Errorf("%s: %v, %v, want %s", name, book, err, test.format)
		}
	}
}

func TestFormatsThatAreNotRead(t *testing.T) {
	for name, test := range map[string]struct {
		content string
		kind    string
	}{
		"nothing":               {"", decode.EmptyFile},
		"a web page":            {"<html><table><tr><td>lift</td></tr></table></html>", decode.OldFormat},
		"a web page, indented":  {"\ufeff\r\n <!DOCTYPE HTML>\n<html>", decode.OldFormat},
		"a web archive":         {"MIME-Version: 1.0\r\nContent-Type: multipart/related", decode.OldFormat},
		"an XML spreadsheet":    {`<?xml version="1.0"?><Workbook/>`, decode.OldFormat},
		"a PDF":                 {"%PDF-1.7\n1 0 obj", decode.UnknownFormat},
		"a picture":             {"\x89PNG\r\n\x1a\n\x00\x00\x00\x0dIHDR", decode.UnknownFormat},
		"a photograph":          {"\xff\xd8\xff\xe0\x00\x10JFIF", decode.UnknownFormat},
		"a text document":       {`{\rtf1 lift}`, decode.UnknownFormat},
		"some program's binary": {"\x7fELF\x02\x01\x01", decode.UnknownFormat},
	} {
		t.Run(name, func(t *testing.T) {
			if r := refusal(t, []byte(test.content), decode.Defaults()); r.Kind != test.kind {
				t.Errorf("refused as %s: %s", r.Kind, r.Message)
			}
		})
	}
}

func TestLimits(t *testing.T) {
	for name, test := range map[string]struct {
		content []byte
		narrow  func(*decode.Limits)
	}{
		"file":        {fixture(t, "inline.xlsx"), func(l *decode.Limits) { l.FileBytes = 1000 }},
		"unzipped":    {fixture(t, "inline.xlsx"), func(l *decode.Limits) { l.UnzippedBytes = 5000 }},
		"cells":       {fixture(t, "inline.xlsx"), func(l *decode.Limits) { l.Cells = 17 }},
		"rows":        {fixture(t, "inline.xlsx"), func(l *decode.Limits) { l.Rows = 8 }},
		"columns":     {fixture(t, "inline.xlsx"), func(l *decode.Limits) { l.Cols = 1 }},
		"text":        {fixture(t, "inline.xlsx"), func(l *decode.Limits) { l.TextBytes = 4 }},
		"sheets":      {fixture(t, "openpyxl.xlsx"), func(l *decode.Limits) { l.Sheets = 3 }},
		"text cells":  {[]byte("a,b\nc,d\n"), func(l *decode.Limits) { l.Cells = 3 }},
		"text rows":   {[]byte("a,b\nc,d\n"), func(l *decode.Limits) { l.Rows = 1 }},
		"text fields": {[]byte("a,b\nc,d\n"), func(l *decode.Limits) { l.Cols = 1 }},
		"text length": {[]byte("a,bbbb\nc,d\n"), func(l *decode.Limits) { l.TextBytes = 3 }},
		"far column":  {pack(t, workbookParts(sheetWith(`<row r="1"><c r="XFD1"><v>1</v></c></row>`))), func(l *decode.Limits) { l.Cols = 16_383 }},
		"a bomb":      {pack(t, workbookParts(sheetWith(strings.Repeat(" ", 8<<20)))), func(l *decode.Limits) { l.UnzippedBytes = 4 << 20 }},
		// One formula of 30,000 characters, shared by 1,000 cells.
		"shared formula": {pack(t, workbookParts(sheetWith(`<row r="1"><c r="A1"><f t="shared" si="0">`+strings.Repeat("1+", 15_000)+`1</f></c></row>`+
			strings.Repeat(`<row><c><f t="shared" si="0"/></c></row>`, 1000)))), func(l *decode.Limits) { l.UnzippedBytes = 4 << 20 }},
		"merges": {pack(t, workbookParts(sheetWith(`</sheetData><mergeCells>`+strings.Repeat(`<mergeCell ref="A1:B2"/>`, 100)+`</mergeCells><sheetData>`))),
			func(l *decode.Limits) { l.Cells = 99 }},
	} {
		t.Run(name, func(t *testing.T) {
			mustDecode(t, test.content)
			limits := decode.Defaults()
			test.narrow(&limits)
			if r := refusal(t, test.content, limits); r.Kind != decode.TooLarge || r.Retry {
				t.Errorf("refused as %s, retry %v: %s", r.Kind, r.Retry, r.Message)
			}
		})
	}
}

func TestCancelled(t *testing.T) {
	ctx, cancel := context.WithCancel(context.Background())
	cancel()
	for name, content := range map[string][]byte{
		"workbook": largeBook(t, 2000),
		"text":     []byte(strings.Repeat("lift,cfm\n", 2000)),
	} {
		if _, err := decode.Open(ctx, name, content, decode.Defaults()); !errors.Is(err, context.Canceled) {
			t.Errorf("%s: %v", name, err)
		}
	}
}

// FuzzOpen feeds any bytes as a file.
func FuzzOpen(f *testing.F) {
	for _, name := range []string{"inline.xlsx", "openpyxl.xlsx", "macros.xlsm"} {
		f.Add(fixture(f, name))
	}
	f.Add(pack(f, workbookParts(sheetWith(oneRow))))
	f.Add([]byte("lift,cfm\n.1,60\n"))
	limits := decode.Defaults()
	limits.FileBytes, limits.UnzippedBytes, limits.Cells = 1<<20, 4<<20, 10_000
	f.Fuzz(func(t *testing.T, content []byte) {
		book, err := decode.Open(context.Background(), "book", content, limits)
		var refused *decode.Refusal
		switch {
		case err == nil:
			checkGrid(t, book, limits)
		case !errors.As(err, &refused):
			t.Fatalf("not a Refusal: %v", err)
		}
	})
}

// TestWhatElseIsSeen: the rest of a book that somebody has to be told of. What
// is in the books is written in testdata/decode-src/books.py.
func TestWhatElseIsSeen(t *testing.T) {
	for _, name := range []string{"xlsxwriter.xlsx", "strict.xlsx", "formulas.xlsx", "formulas.ods", "formulas.xls"} {
		book := open(t, name)
		flow, curve := book.Sheets[0], book.Sheets[1]
		if flow.Charts != 1 || flow.Pictures != 1 || curve.Charts != 1 {
			t.Errorf("%s: %d charts, %d pictures, %d charts on the chart sheet", name, flow.Charts, flow.Pictures, curve.Charts)
		}
		want := []decode.TextBox{{Row: 3, Col: 6, Text: "bench: 28 inH2O\ncorrected"}}
		if diff := cmp.Diff(want, flow.TextBoxes); diff != "" {
			t.Errorf("%s: text boxes (-want +got):\n%s", name, diff)
		}
		if book.Format != "xls" && (book.Custom["bench"] != "no. 2" || book.Custom["pressure"] != "28") {
			t.Errorf("%s: properties %v", name, book.Custom)
		}
		if got := flow.At(14, 3).Note; got != "per pair, assembled" {
			t.Errorf("%s: note %q", name, got)
		}
	}
	if got := open(t, "threaded.xlsx").Sheets[0].At(5, 2).Note; got != "is this with the plug?\nno, re-run" {
		t.Errorf("conversation %q", got)
	}
	if got := open(t, "xlsxwriter.xlsx").Creator; got != "Microsoft Excel" { // as xlsxwriter says
		t.Errorf("written by %q", got)
	}
	if got := open(t, "formulas.ods").Creator; !strings.HasPrefix(got, "LibreOffice/") {
		t.Errorf("written by %q", got)
	}
}
