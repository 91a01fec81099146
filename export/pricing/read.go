package pricing

import (
	"math"
	"slices"
	"strconv"
	"strings"

	"github.com/shopspring/decimal"

	"flowshelf/analysis/head"
	"flowshelf/analysis/pricing"
	"flowshelf/export/book"
)

// Earlier is what a person has made of an earlier version of a family's workbook.
type Earlier struct {
	Typed pricing.Typed // the figures in the yellow cells
	Whole bool          // nothing else was changed, and every figure typed is among them
}

// Read returns what a person has typed into an earlier version of a family's
// workbook. The working sheet has, in the same places, what stood there before.
// False for a workbook that is none of ours.
func Read(workbook []byte, family string) (earlier Earlier, ours bool, err error) {
	stamp, ours, err := book.StampOf(workbook)
	if err != nil || !ours || stamp.ID != idPrefix+family {
		return Earlier{}, false, err
	}
	cells, err := book.Cells(workbook)
	if err != nil {
		return Earlier{}, true, err
	}
	t := typing{now: map[string]book.Content{}, before: map[string]book.Content{}, yellow: map[string]bool{}}
	for _, c := range cells {
		switch c.Sheet {
		case mainSheet:
			t.now[c.Cell] = c
		case workSheet:
			t.before[c.Cell] = c
		}
	}
	earlier.Typed = t.read()
	form := book.Form(cells, func(sheet, cell string) bool { return sheet == mainSheet && t.yellow[cell] })
	earlier.Whole = stamp.Form != "" && form == stamp.Form && !t.lost
	return earlier, true, nil
}

// typing is the main sheet and the working sheet by their cells.
type typing struct {
	now, before map[string]book.Content
	yellow      map[string]bool // the cells that a person may type in
	lost        bool            // something was typed that is no figure for its cell
}

func (t *typing) read() pricing.Typed {
	var out pricing.Typed
	row := 1
	for ; t.label(row) != headTitle; row++ {
		if row > mostTerms {
			return out
		}
		t.term(row, &out.Terms)
	}
	columns, bought, carried := t.columns(row), t.find(row, boughtTitle), t.find(row, carriedTitle)
	for row++; t.label(row) != ""; row++ {
		typed := pricing.TypedRow{Label: t.label(row), Foreign: t.before[book.CellName(row, bought)].Value, Carried: t.before[book.CellName(row, carried)].Value}
		some := false
		for in, col := range columns {
			typed.Figures[in] = t.figure(row, col)
			some = some || typed.Figures[in].Valid
		}
		if some {
			out.Rows = append(out.Rows, typed)
		}
	}
	return out
}

// mostTerms is below which row the heads' titles stand at the latest.
const mostTerms = 200

// columns finds the column of each input by its title.
func (t *typing) columns(header int) map[pricing.Input]int {
	out := map[pricing.Input]int{}
	for col := 2; t.text(header, col) != ""; col++ {
		for _, f := range fields() {
			if f.named(t.text(header, col)) {
				out[f.in] = col
			}
		}
	}
	return out
}

// find finds a column of the working sheet by its title; one that an earlier
// version did not have is empty.
func (t *typing) find(header int, title string) int {
	col := 2
	for ; col < mostTerms && t.before[book.CellName(header, col)].Value != title; col++ {
	}
	return col
}

func (t *typing) term(row int, out *pricing.Terms) {
	switch title := t.label(row); title {
	case worthTitle:
		out.Worth = t.figure(row, 2)
	case marginTitle:
		out.Margin = t.figure(row, 2)
	case minimumTitle:
		out.Minimum = t.figure(row, 2)
	case labourTitle:
		out.Labour = t.figure(row, 2)
	case endingTitle:
		t.yellow[book.CellName(row, 2)] = true
		out.Ending = t.ending(t.text(row, 2), t.before[book.CellName(row, 2)].Value)
	default:
		currency, _, isRate := strings.Cut(title, rateWord)
		if !isRate || len(currency) != currencyLetters {
			return
		}
		if rate := t.figure(row, 2); rate.Valid {
			out.Rates = append(out.Rates, pricing.Rate{Currency: currency, Value: rate})
		}
	}
}

// currencyLetters is the length of a currency's code, ISO 4217.
const currencyLetters = 3

func (t *typing) label(row int) string { return t.text(row, 1) }

func (t *typing) text(row, col int) string { return t.now[book.CellName(row, col)].Value }

// ending is how prices end when somebody has chosen it.
func (t *typing) ending(now, before string) head.Ending {
	if now == before || now == "" {
		return ""
	}
	i := slices.Index(head.Endings(), head.Ending(now))
	if i < 0 {
		t.lost = true
		return ""
	}
	return head.Endings()[i]
}

// figure is a number that was typed: no formula, and not what stood there. The
// same to ten digits is the same: programs differ in the last one. A cell that
// was cleared asks for its own figure back.
func (t *typing) figure(row, col int) decimal.NullDecimal {
	name := book.CellName(row, col)
	t.yellow[name] = true
	now, before := t.now[name], t.before[name]
	if now.Value == before.Value || now.Value == "" {
		return decimal.NullDecimal{}
	}
	x, err := strconv.ParseFloat(now.Value, 64)
	const same = 1e-10
	if was, bad := strconv.ParseFloat(before.Value, 64); err == nil && bad == nil && math.Abs(x-was) <= same*math.Max(1, math.Abs(was)) {
		return decimal.NullDecimal{}
	}
	if err != nil || now.Formula != "" || math.IsInf(x, 0) || math.IsNaN(x) || x < 0 {
		t.lost = true
		return decimal.NullDecimal{}
	}
	return decimal.NullDecimal{Decimal: decimal.NewFromFloat(x), Valid: true}
}
