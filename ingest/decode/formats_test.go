package decode_test

import (
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"flowshelf/ingest/decode"
)

// comparableSheets makes books of different formats comparable: numbers by value and
// not by digits, format codes without the marks that a writer may leave out,
// formulas by being there.
func comparableSheets(book *decode.Book) []decode.Sheet {
	sheets := make([]decode.Sheet, len(book.Sheets))
	for i, sheet := range book.Sheets {
		sheets[i] = sheet
		sheets[i].Cells = nil
		for _, c := range sheet.Cells {
			if c.Kind == decode.Number || c.Kind == decode.Date {
				c.Text = ""
			}
			if c.Formula != "" && book.Format == "xls" {
				c.Formula = decode.UnreadFormula
			}
			c.Format = strings.NewReplacer(`\`, "", `"`, "", "$", "").Replace(c.Format)
			sheets[i].Cells = append(sheets[i].Cells, c)
		}
	}
	return sheets
}

// TestFormatsAgree: the same book, saved by LibreOffice in different formats,
// decodes to the same grid.
func TestFormatsAgree(t *testing.T) {
	for _, name := range []string{"formulas", "styles", "texts"} {
		for _, kind := range []string{"ods", "xls"} {
			t.Run(name+"."+kind, func(t *testing.T) {
				want, book := open(t, name+".xlsx"), open(t, name+"."+kind)
				if book.Format != kind {
					t.Errorf("format %s", book.Format)
				}
				if kind == "xls" {
					likeOldFormat(t, want, book)
				}
				if diff := cmp.Diff(comparableSheets(want), comparableSheets(book), sameGrid); diff != "" {
					t.Errorf("(-xlsx +%s):\n%s", kind, diff)
				}
			})
		}
	}
}

// likeOldFormat takes from the expectation what the old format cannot give: the
// text of formulas, and the one result that LibreOffice replaces by zero. What it
// has more of is the formula in every cell of an array, not only in the first.
func likeOldFormat(t *testing.T, want, old *decode.Book) {
	t.Helper()
	lost := 0
	for i := range want.Sheets {
		for j := range want.Sheets[i].Cells {
			c := &want.Sheets[i].Cells[j]
			inArray := c.Kind == decode.Number && c.Num == 268
			if c.Formula == "" && !inArray {
				continue
			}
			c.Formula = decode.UnreadFormula
			if !old.Sheets[i].At(c.Row, c.Col).Stored && c.Kind == decode.Text {
				c.Kind, c.Text, c.Stored = decode.Empty, "", false
				lost++
			}
		}
	}
	if lost > 1 {
		t.Errorf("%d results are missing", lost)
	}
}
