// Package shop describes the shop's own setup workbook once: its sheets, their
// columns, the settings with unit, default and help. The reader turns plain
// cells into a head.Shop by this description and the writer of a new setup
// turns a head.Shop into plain cells by the same one, so that the two cannot
// drift apart. It knows no file format.
package shop

import (
	"strings"
	"time"

	"flowshelf/analysis/source"
)

// FileName is the name under which the setup workbook is written and looked
// for.
const FileName = "Shop setup.xlsx"

// Where things stand on every sheet of the setup, 1-based.
const (
	TitleRow       = 1
	ExplanationRow = 2
	HeaderRow      = 4
	FirstRow       = 5
)

// Column is one column of a sheet, or one setting of the Shop sheet.
type Column struct {
	Title   string
	Also    []string // other titles understood; one that ends in * stands for any ending
	Unit    string   // "in", "cfm", "%", "" for none
	Help    string   // one sentence for the person who fills it in
	Default string   // what counts while the cell is blank, "" for nothing
	Choices []string // the words that can be typed, nil for anything
}

// Sheet is one sheet of the setup workbook.
type Sheet struct {
	Name        string
	Title       string
	Explanation string
	Columns     []Column
}

// Kind is what a plain cell holds.
type Kind uint8

// The kinds.
const (
	Blank Kind = iota
	Text
	Number
	Percent // a number shown as a percentage: 0.01 shows 1 %
	Day
)

// Cell is one plain cell of the setup.
type Cell struct {
	Kind Kind
	Text string // Text: the text; others: as a person sees or would type it
	Num  float64
	Date time.Time
	At   source.Ref // where it stands; zero when it is about to be written
}

// Rows are the rows of one sheet below its header, under the titles of it.
type Rows struct {
	Sheet  string
	At     source.Ref // the sheet
	Titles []Cell
	Rows   [][]Cell // each as long as Titles
}

// Normal is how titles and words are compared: case, white space and
// punctuation do not matter.
func Normal(title string) string {
	return strings.Join(strings.FieldsFunc(strings.ToLower(title), func(r rune) bool {
		return strings.ContainsRune(" \t\u00a0.,:;()-_/'\"", r)
	}), " ")
}

func (c Column) called(title string) bool {
	title = Normal(title)
	if title == "" {
		return false
	}
	for _, name := range append([]string{c.Title, c.Title + " " + c.Unit}, c.Also...) {
		stem, open := strings.CutSuffix(name, "*")
		if title == Normal(stem) || open && strings.HasPrefix(title, Normal(stem)+" ") {
			return true
		}
	}
	return false
}

// Sheets returns the whole layout, in the order of the workbook.
func Sheets() []Sheet {
	return []Sheet{
		settingsSheet(),
		describe(familySheet(), familyFields()), describe(headSheet(), headFields()),
		describe(supplierSheet(), supplierFields()), describe(benchSheet(), benchFields()),
		describe(orificeSheet(), orificeFields()),
		describe(rateSheet(), rateFields()), describe(wordSheet(), wordFields()),
	}
}

func describe[T any](s Sheet, fields []field[T]) Sheet {
	for _, f := range fields {
		s.Columns = append(s.Columns, f.Column)
	}
	return s
}
