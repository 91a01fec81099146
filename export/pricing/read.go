package pricing

import (
	"math"
	"strconv"
	"strings"

	"github.com/shopspring/decimal"

	"flowshelf/analysis/pricing"
	"flowshelf/export/book"
)

// Typed returns the figures that a person has typed into the yellow cells of an
// earlier version of a family's workbook. The working sheet has, in the same
// places, what stood there before. False for a workbook that is none of ours.
func Typed(workbook []byte, family string) (typed pricing.Typed, ours bool, err error) {
	stamp, ours, _, err := book.Identity(workbook)
	if err != nil || !ours || stamp.ID != idPrefix+family {
		return pricing.Typed{}, false, err
	}
	cells, err := book.Cells(workbook)
	if err != nil {
		return pricing.Typed{}, true, err
	}
	t := typing{now: map[string]book.Content{}, before: map[string]book.Content{}}
	for _, c := range cells {
		switch c.Sheet {
		case mainSheet:
			t.now[c.Cell] = c
		case workSheet:
			t.before[c.Cell] = c
		}
	}
	return t.read(), true, nil
}

// typing is the main sheet and the working sheet by their cells.
type typing struct{ now, before map[string]book.Content }

func (t typing) read() pricing.Typed {
	var out pricing.Typed
	row := 1
	for ; t.label(row) != headTitle; row++ {
		if row > mostTerms {
			return out
		}
		t.term(row, &out.Terms)
	}
	columns, bought := t.columns(row), t.bought(row)
	for row++; t.label(row) != ""; row++ {
		head := pricing.TypedRow{Label: t.label(row), Foreign: t.before[book.CellName(row, bought)].Value}
		some := false
		for in, col := range columns {
			head.Figures[in] = t.figure(row, col)
			some = some || head.Figures[in].Valid
		}
		if some {
			out.Rows = append(out.Rows, head)
		}
	}
	return out
}

// mostTerms is below which row the heads' titles stand at the latest.
const mostTerms = 200

// columns finds the column of each input by its title.
func (t typing) columns(header int) map[pricing.Input]int {
	out := map[pricing.Input]int{}
	for col := 2; t.text(header, col) != ""; col++ {
		for _, f := range fields() {
			if t.text(header, col) == f.title {
				out[f.in] = col
			}
		}
	}
	return out
}

// bought finds the column of the money each head is bought in.
func (t typing) bought(header int) int {
	col := 2
	for ; col < mostTerms && t.before[book.CellName(header, col)].Value != boughtTitle; col++ {
	}
	return col
}

func (t typing) term(row int, out *pricing.Terms) {
	switch title := t.label(row); title {
	case worthTitle:
		out.Worth = t.figure(row, 2)
	case marginTitle:
		out.Margin = t.figure(row, 2)
	case minimumTitle:
		out.Minimum = t.figure(row, 2)
	case endingTitle:
		for _, e := range pricing.Endings() {
			if now := t.text(row, 2); now == string(e) && now != t.before[book.CellName(row, 2)].Value {
				out.Ending = e
			}
		}
	default:
		currency, _, isRate := strings.Cut(title, rateWord)
		if rate := t.figure(row, 2); isRate && rate.Valid {
			out.Rates = append(out.Rates, pricing.Rate{Currency: currency, Value: rate})
		}
	}
}

func (t typing) label(row int) string { return t.text(row, 1) }

func (t typing) text(row, col int) string { return t.now[book.CellName(row, col)].Value }

// figure is a number that was typed: no formula, and not what stood there. The
// same to ten digits is the same: programs differ in the last one.
func (t typing) figure(row, col int) decimal.NullDecimal {
	name := book.CellName(row, col)
	x, err := strconv.ParseFloat(t.now[name].Value, 64)
	if err != nil || t.now[name].Formula != "" || math.IsInf(x, 0) || math.IsNaN(x) || x < 0 {
		return decimal.NullDecimal{}
	}
	const same = 1e-10
	if was, err := strconv.ParseFloat(t.before[name].Value, 64); err == nil && math.Abs(x-was) <= same*math.Max(1, math.Abs(was)) {
		return decimal.NullDecimal{}
	}
	return decimal.NullDecimal{Decimal: decimal.NewFromFloat(x), Valid: true}
}
