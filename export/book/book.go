// Package book writes workbooks: styles, tables, charts, links and print set-up
// over excelize, and the seal by which the service knows its own outputs and a
// person's edits in them. It is the only package that writes through excelize.
//
// A Book is built in memory, cell by cell, and turned into bytes at the end:
// the caller decides where they go. The same book gives the same cells.
package book

import (
	"fmt"
	"strings"
	"time"
	"unicode/utf8"

	"flowshelf/analysis/head"
)

// Book is a workbook under construction.
type Book struct {
	props  Properties
	sheets []*Sheet
}

// Properties are what the workbook says about itself.
type Properties struct {
	ID      string    // which output this is, the same from run to run; "" for one that becomes the reader's own
	Title   string    //
	Shop    string    // the author
	Dated   time.Time // the day the figures stand for
	Subject string
	Paper   head.Paper // that it is printed on
}

// New returns an empty workbook.
func New(p Properties) *Book { return &Book{props: p} }

// Sheet appends a sheet. Names that a spreadsheet refuses are mended: forbidden
// signs become spaces, long names are cut, a name already taken gets a number.
func (b *Book) Sheet(name string) *Sheet {
	s := &Sheet{
		name:   b.freeName(name),
		widths: map[int]float64{}, heights: map[int]float64{}, outline: map[int]uint8{}, hidden: map[int]bool{},
		merged: map[place]Range{}, styles: map[Style]*Style{},
	}
	b.sheets = append(b.sheets, s)
	return s
}

// maxSheetName is the longest name of a sheet that programs accept.
const maxSheetName = 31

func (b *Book) freeName(name string) string {
	name = strings.Map(func(r rune) rune {
		if strings.ContainsRune(`:\/?*[]`, r) {
			return ' '
		}
		return r
	}, clean(name))
	name = strings.Trim(strings.Join(strings.Fields(name), " "), "'")
	if name == "" {
		name = "Sheet"
	}
	for n := 1; ; n++ {
		tail := ""
		if n > 1 {
			tail = fmt.Sprintf(" (%d)", n)
		}
		free := cut(name, maxSheetName-len(tail)) + tail
		if b.find(free) == nil {
			return free
		}
	}
}

func cut(s string, runes int) string {
	if utf8.RuneCountInString(s) <= runes {
		return s
	}
	return strings.TrimSpace(string([]rune(s)[:runes]))
}

// find returns the sheet of that name; names differ by more than case.
func (b *Book) find(name string) *Sheet {
	for _, s := range b.sheets {
		if strings.EqualFold(s.name, name) {
			return s
		}
	}
	return nil
}
