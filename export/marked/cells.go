package marked

import (
	"cmp"
	"errors"
	"fmt"
	"slices"
	"strconv"
	"strings"

	"flowshelf/analysis/source"
)

// The last row and column a sheet can have (18.3.1.73 and 18.3.1.4 leave them
// open; every program that reads .xlsx has these).
const (
	lastRow = 1_048_576
	lastCol = 16_384
)

// place is a cell's row and column, from 1.
type place struct{ row, col int }

func (p place) String() string { return source.CellName(p.row, p.col) }

func (p place) compare(o place) int {
	return cmp.Or(cmp.Compare(p.row, o.row), cmp.Compare(p.col, o.col))
}

// placeOf reads "AB14", "$AB$14", or the first cell of "AB14:AD14".
func placeOf(cell string) (place, bool) {
	first, _, _ := strings.Cut(strings.ReplaceAll(strings.ToUpper(cell), "$", ""), ":")
	letters := strings.TrimRight(first, "0123456789")
	row, err := strconv.Atoi(first[len(letters):])
	if err != nil || letters == "" || len(letters) > 3 {
		return place{}, false
	}
	col := 0
	for _, r := range letters {
		if r < 'A' || r > 'Z' {
			return place{}, false
		}
		col = col*26 + int(r-'A') + 1
	}
	return place{row, col}, row >= 1 && row <= lastRow && col <= lastCol
}

// area is a rectangle of cells.
type area struct{ from, to place }

func areaOf(ref string) (area, bool) {
	first, last, two := strings.Cut(ref, ":")
	if !two {
		last = first
	}
	from, ok := placeOf(first)
	to, ok2 := placeOf(last)
	return area{from, to}, ok && ok2
}

func (a area) holds(p place) bool {
	return p.row >= a.from.row && p.row <= a.to.row && p.col >= a.from.col && p.col <= a.to.col
}

// page is the part of one sheet that is being marked.
type page struct {
	*document
	styles *styles
}

var (
	errNoCells = errors.New("a sheet has no place for cells")
	errOrder   = errors.New("the cells of a sheet do not stand in order")
)

// anchors moves what stands inside of a merged area to the cell that shows.
func (p *page) anchors(marks []mark) {
	list := p.root.child("mergeCells")
	if list == nil {
		return
	}
	for _, e := range list.children {
		ref, _ := p.attr(e, "ref")
		merged, ok := areaOf(ref)
		for i := range marks {
			if ok && merged.holds(marks[i].at) {
				marks[i].at = merged.from
			}
		}
	}
}

// fill gives the cells of the marks, which are in order and each of another
// cell, their colour. Rows and cells that are not there yet are made.
func (p *page) fill(marks []mark) error {
	data := p.root.child("sheetData")
	if data == nil {
		return errNoCells
	}
	number := 0
	for _, row := range data.named("row") {
		n, err := p.next(row, number, func(text string) (int, bool) {
			n, err := strconv.Atoi(text)
			return n, err == nil
		})
		if err != nil {
			return err
		}
		number = n
		before := span(marks, func(m mark) bool { return m.at.row < number })
		row.ahead += p.newRows(marks[:before])
		marks = marks[before:]
		here := span(marks, func(m mark) bool { return m.at.row == number })
		if err := p.fillRow(row, marks[:here]); err != nil {
			return err
		}
		marks = marks[here:]
	}
	data.tail += p.newRows(marks)
	return nil
}

func (p *page) fillRow(row *element, marks []mark) error {
	if len(marks) == 0 {
		return nil
	}
	col, made := 0, false
	for _, cell := range row.named("c") {
		n, err := p.next(cell, col, func(text string) (int, bool) {
			at, ok := placeOf(text)
			return at.col, ok
		})
		if err != nil {
			return err
		}
		col = n
		before := span(marks, func(m mark) bool { return m.at.col < col })
		cell.ahead += p.newCells(row, marks[:before])
		made = made || before > 0
		marks = marks[before:]
		if len(marks) > 0 && marks[0].at.col == col {
			cell.put("s", strconv.Itoa(p.styles.marked(p.index(cell, "s"), marks[0].severity)))
			marks = marks[1:]
		}
	}
	made = made || len(marks) > 0
	row.tail += p.newCells(row, marks)
	if _, has := p.attr(row, "spans"); has && made {
		row.put("spans", "") // a hint that would be wrong now
	}
	return nil
}

// next returns the number of a row or cell: the one it states, or the one after
// the last. They must rise.
func (p *page) next(e *element, last int, read func(string) (int, bool)) (int, error) {
	text, stated := p.attr(e, "r")
	if !stated {
		return last + 1, nil
	}
	n, ok := read(text)
	if !ok || n <= last {
		return 0, errOrder
	}
	return n, nil
}

// span counts the marks at the front for which a condition holds.
func span(marks []mark, holds func(mark) bool) int {
	if i := slices.IndexFunc(marks, func(m mark) bool { return !holds(m) }); i >= 0 {
		return i
	}
	return len(marks)
}

// newRows spells rows that were not there.
func (p *page) newRows(marks []mark) string {
	var b strings.Builder
	for len(marks) > 0 {
		row := marks[0].at.row
		n := span(marks, func(m mark) bool { return m.at.row == row })
		fmt.Fprintf(&b, `<%[1]srow r="%[2]d">%[3]s</%[1]srow>`, p.prefix, row, p.newCells(nil, marks[:n]))
		marks = marks[n:]
	}
	return b.String()
}

// newCells spells cells that were not there; they look as their column says, or
// their row, nil for one that is new as well.
func (p *page) newCells(row *element, marks []mark) string {
	var b strings.Builder
	for _, m := range marks {
		base := p.columnStyle(m.at.col)
		if row != nil {
			if custom, _ := p.attr(row, "customFormat"); custom == "1" || custom == "true" {
				base = p.index(row, "s")
			}
		}
		fmt.Fprintf(&b, `<%sc r="%s" s="%d"/>`, p.prefix, m.at, p.styles.marked(base, m.severity))
		p.widen(m.at)
	}
	return b.String()
}

func (p *page) columnStyle(col int) int {
	list := p.root.child("cols")
	if list == nil {
		return 0
	}
	for _, e := range list.children {
		if p.index(e, "min") <= col && col <= p.index(e, "max") {
			return p.index(e, "style")
		}
	}
	return 0
}

// index reads a whole number, 0 when it is not given.
func (p *page) index(e *element, name string) int {
	text, _ := p.attr(e, name)
	n, err := strconv.Atoi(text)
	if err != nil {
		return 0
	}
	return n
}

// widen makes the stated extent of the sheet hold a cell.
func (p *page) widen(at place) {
	e := p.root.child("dimension")
	if e == nil {
		return
	}
	ref, _ := p.attr(e, "ref")
	all, ok := areaOf(ref)
	if !ok || all.holds(at) {
		return
	}
	all.from = place{min(all.from.row, at.row), min(all.from.col, at.col)}
	all.to = place{max(all.to.row, at.row), max(all.to.col, at.col)}
	e.put("ref", all.from.String()+":"+all.to.String())
}
