package ingest

import (
	"strings"

	"flowshelf/analysis/shop"
	"flowshelf/analysis/source"
	"flowshelf/ingest/decode"
	"flowshelf/ingest/parse"
)

// isSetup tells a setup workbook by its sheets.
func isSetup(book *decode.Book) bool {
	found := 0
	for _, sheet := range shop.Sheets() {
		for i := range book.Sheets {
			if strings.EqualFold(strings.TrimSpace(book.Sheets[i].Name), sheet.Name) {
				found++
				break
			}
		}
	}
	return found >= 4
}

// setupRows turns the sheets of a setup workbook into plain rows.
func setupRows(path string, book *decode.Book) []shop.Rows {
	var out []shop.Rows
	for i := range book.Sheets {
		sheet := &book.Sheets[i]
		if !sheet.Hidden && sheet.Rows() > 0 {
			out = append(out, rowsOf(path, sheet))
		}
	}
	return out
}

func rowsOf(path string, sheet *decode.Sheet) shop.Rows {
	rows := shop.Rows{Sheet: sheet.Name, At: source.Ref{File: path, Sheet: sheet.Name}}
	header := headerRow(sheet)
	width := 0
	for _, c := range sheet.Row(header) {
		width = max(width, c.Col)
	}
	rows.Titles = plainRow(path, sheet, header, width)
	for n := header + 1; n <= sheet.Rows(); n++ {
		rows.Rows = append(rows.Rows, plainRow(path, sheet, n, width))
	}
	return rows
}

// headerRow finds the row that holds the sheet's first title; people put rows
// in above it.
func headerRow(sheet *decode.Sheet) int {
	for _, known := range shop.Sheets() {
		if shop.Normal(known.Name) != shop.Normal(sheet.Name) {
			continue
		}
		for n := 1; n <= min(sheet.Rows(), 3*shop.HeaderRow); n++ {
			cells := sheet.Row(n)
			if len(cells) > 1 && shop.Normal(cells[0].Text) == shop.Normal(known.Columns[0].Title) {
				return n
			}
		}
	}
	return shop.HeaderRow
}

func plainRow(path string, sheet *decode.Sheet, row, width int) []shop.Cell {
	out := make([]shop.Cell, width)
	for col := 1; col <= width; col++ {
		out[col-1] = plainCell(sheet.At(row, col))
		out[col-1].At = source.At(path, sheet.Name, row, col)
	}
	return out
}

func plainCell(c decode.Cell) shop.Cell {
	out := shop.Cell{Text: c.Text, Num: c.Num}
	switch c.Kind {
	case decode.Text, decode.Failed:
		out.Kind, out.Text = shop.Text, strings.TrimSpace(c.Text)
		if out.Text == "" {
			out.Kind = shop.Blank
		}
	case decode.Number:
		out.Kind = shop.Number
		if strings.Contains(c.Format, "%") {
			out.Kind = shop.Percent
		}
	case decode.Bool:
		out.Kind, out.Text = shop.Text, map[bool]string{true: "yes", false: "no"}[c.Num != 0]
	case decode.Date:
		if day, ok := parse.Serial(c.Num); ok {
			out.Kind, out.Date, out.Text = shop.Day, day, day.Format("2006-01-02")
		}
	default:
	}
	return out
}
