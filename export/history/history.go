// Package history writes the facts that are kept of a month as a workbook, by
// the description that they are read back with.
package history

import (
	"flowshelf/analysis/head"
	"flowshelf/analysis/history"
	"flowshelf/analysis/shop"
	"flowshelf/export/book"
)

// Write returns the workbook of a month's facts.
func Write(f history.Facts, paper head.Paper) ([]byte, error) {
	month := history.Month(f.Date)
	b := book.New(book.Properties{
		ID: history.ID(month), Title: "What is kept of " + month, Subject: "prices, stock, places and settings of a month",
		Shop: f.Shop, Dated: f.Date, Paper: paper,
	})
	for _, sheet := range history.Sheets(f) {
		s := b.Sheet(sheet.Name)
		s.Say(history.TitleRow, 1, "What is kept of "+month+": "+sheet.Name, book.Title)
		s.Say(history.NoteRow, 1, "The next monthly review reads this back to say what changed and why. Leave it as it is.", book.Note)
		for j, title := range sheet.Columns {
			s.Say(history.HeaderRow, 1+j, title, book.Header)
			s.Width(1+j, width(sheet, j))
		}
		for i, row := range sheet.Rows {
			for j, cell := range row {
				v, style := value(cell)
				s.Set(history.FirstRow+i, 1+j, v, style)
			}
		}
		s.Freeze(history.HeaderRow, 1)
		s.Print(book.Print{RepeatFrom: history.HeaderRow, RepeatTo: history.HeaderRow, Basis: "kept for the next monthly review"})
	}
	return b.Bytes()
}

// width makes room for a column's longest text, within reason.
func width(s history.Sheet, column int) float64 {
	const least, most = 9, 32
	longest := least
	for _, row := range s.Rows {
		longest = max(longest, len(row[column].Text)+2)
	}
	return float64(min(longest, most))
}

func value(c shop.Cell) (book.Value, book.Style) {
	switch c.Kind {
	case shop.Text:
		return book.Text(c.Text), book.Body
	case shop.Number, shop.Percent:
		return book.Number(c.Num), book.Body
	case shop.Day:
		return book.Day(c.Date), book.Body.As(book.Date)
	case shop.Blank:
	}
	return book.Value{}, book.Body
}
