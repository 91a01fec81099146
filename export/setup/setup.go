// Package setup writes Shop setup.xlsx, which the shop fills in and keeps: one
// sheet a subject, yellow cells to type in, drop-downs where only some words are
// understood. Its layout is that of package shop, which also reads it.
package setup

import (
	"fmt"
	"time"

	"flowshelf/analysis/head"
	"flowshelf/analysis/shop"
	"flowshelf/export/book"
)

// FileName is the workbook's name.
const FileName = shop.FileName

// spareRows is how many empty yellow rows a table offers.
const spareRows = 12

// helpRow holds a sentence of help above each column.
const helpRow = shop.HeaderRow - 1

// Write returns the setup workbook of a shop, with what is already known filled
// in. It carries no stamp: from now on it is the shop's own.
func Write(s head.Shop, dated time.Time) ([]byte, error) {
	b := book.New(book.Properties{Title: "Shop setup", Subject: "what the shop knows and the service has to be told", Shop: s.Name, Dated: dated, Paper: s.Rules.Paper})
	rows := shop.Write(s)
	for i, layout := range shop.Sheets() {
		sheet := b.Sheet(layout.Name)
		sheet.Say(shop.TitleRow, 1, layout.Title, book.Title)
		sheet.Say(shop.ExplanationRow, 1, layout.Explanation, book.Subtitle)
		if layout.Name == shop.SettingsSheet {
			settings(sheet, rows[i])
		} else {
			table(sheet, layout, rows[i])
		}
		sheet.Print(book.Print{RepeatFrom: shop.HeaderRow, RepeatTo: shop.HeaderRow, Basis: "yellow cells are the shop's to fill in"})
	}
	return b.Bytes()
}

// The columns of the settings sheet.
const (
	nameColumn = iota + 1
	valueColumn
	unitColumn
	helpColumn
	defaultColumn
)

// settings writes one setting a row.
func settings(s *book.Sheet, rows shop.Rows) {
	s.Width(nameColumn, 34, 22, 9, 84, 16)
	for col, title := range rows.Titles {
		s.Say(shop.HeaderRow, col+1, title.Text, book.Header)
	}
	for i, setting := range shop.Settings() {
		row := shop.FirstRow + i
		for col, cell := range rows.Rows[i] {
			s.Set(row, col+1, value(cell), settingLook(col+1, cell))
		}
		if len(setting.Choices) > 0 {
			s.Choose(s.Area(row, valueColumn, row, valueColumn), setting.Choices...)
		}
	}
	s.Freeze(shop.HeaderRow, 1)
}

func settingLook(col int, cell shop.Cell) book.Style {
	switch col {
	case nameColumn:
		return book.Body.Strong()
	case valueColumn:
		return input(cell)
	case helpColumn:
		return book.Body.Wrapped()
	case defaultColumn:
		return book.Style{Ink: book.Muted, Bottom: book.Hair, Align: book.Left}
	}
	return book.Body
}

// table writes one record a row, and empty rows to go on with.
func table(s *book.Sheet, layout shop.Sheet, rows shop.Rows) {
	last := shop.FirstRow + len(rows.Rows) + spareRows - 1
	for i, c := range layout.Columns {
		col := i + 1
		s.Width(col, width(c))
		s.Say(helpRow, col, help(c), book.Style{Italic: true, Ink: book.Muted, Wrap: true, Points: 8})
		s.Say(shop.HeaderRow, col, title(c), book.Header)
		for row := shop.FirstRow; row <= last; row++ {
			cell := shop.Cell{}
			if r := row - shop.FirstRow; r < len(rows.Rows) {
				cell = rows.Rows[r][i]
			}
			s.Set(row, col, value(cell), input(cell))
		}
		if len(c.Choices) > 0 {
			s.Choose(s.Area(shop.FirstRow, col, last, col), c.Choices...)
		}
	}
	s.Freeze(shop.HeaderRow, 1)
}

// title is the column's title with its unit, as the reader understands it.
func title(c shop.Column) string {
	if c.Unit == "" {
		return c.Title
	}
	return fmt.Sprintf("%s, %s", c.Title, c.Unit)
}

func help(c shop.Column) string {
	if c.Default == "" {
		return c.Help
	}
	if c.Help == "" {
		return "Blank: " + c.Default + "."
	}
	return fmt.Sprintf("%s Blank: %s.", c.Help, c.Default)
}

// width leaves room for names; a column of figures or of set words is narrow,
// so that the many columns of a family still fit a page.
func width(c shop.Column) float64 {
	if c.Unit == "" && len(c.Choices) == 0 && c.Default == "" {
		return 17
	}
	return 9.5
}

func value(c shop.Cell) book.Value {
	switch c.Kind {
	case shop.Number, shop.Percent:
		return book.Number(c.Num)
	case shop.Day:
		return book.Day(c.Date)
	case shop.Text:
		return book.Text(c.Text)
	case shop.Blank:
	}
	return book.Value{}
}

func input(c shop.Cell) book.Style {
	style := book.Style{Fill: book.Input, Bottom: book.Hair, Align: book.Left, Wrap: true}
	if c.Kind == shop.Percent {
		style.Format = book.PercentOne
	}
	if c.Kind == shop.Day {
		style.Format = book.Date
	}
	return style
}
