// Package pricing works out what happens to the heads of one family when the
// figures behind their prices change: margin, usable cost, place with its ties,
// and the prices and costs at which something turns. It defines each result
// once; the what-if workbook has the same definitions as live formulas.
package pricing

import (
	"cmp"

	"github.com/shopspring/decimal"

	"flowshelf/analysis/compare"
	"flowshelf/analysis/head"
	"flowshelf/analysis/quantity"
)

// Input is one figure of a head that a person may change.
type Input uint8

// The inputs. An input that is not known leaves what rests on it unknown, except
// that a freight nobody states is none, as in the ranking.
const (
	Each    Input = iota // what a head costs the shop, in the money it is bought in
	Freight              // a head, in the money it is asked in
	Sell                 // a set of heads, to the customer
	Extras               // a set, to the customer
	Springs              // a set, to the customer
	Rework               // parts and work of the shop, a set, to the customer
	Hours                // of the shop's work, a set
	Parts                // what parts and tooling cost the shop, a set
	Minimum              // a set: nobody may advertise it for less
	Margin               // target margin, a share of the sell price
	inputEnd
)

// Inputs returns every input in the order of the workbook.
func Inputs() []Input {
	return []Input{Each, Freight, Sell, Extras, Springs, Rework, Hours, Parts, Minimum, Margin}
}

// Figures are the inputs of one head; an input that is not known is not valid.
type Figures [inputEnd]decimal.NullDecimal

// Terms are the figures that hold for every head of the family.
type Terms struct {
	Worth   decimal.NullDecimal // of a cfm of working average; not valid: the going rate of the shelf
	Margin  decimal.NullDecimal // target margin, a share of the sell price
	Minimum decimal.NullDecimal // lowest margin that is sold at, a share of the sell price
	Labour  decimal.NullDecimal // what an hour of the shop's work costs it
	Ending  head.Ending
	Rates   []Rate
}

// Rate is what one unit of a foreign currency is worth in the shop's.
type Rate struct {
	Currency string
	Value    decimal.NullDecimal
}

// Row is one head in one state with the figures it starts from and those a
// person has typed over them.
type Row struct {
	Label string
	Head  string
	First int // row whose cost, freight, sell price and minimum this one follows: its casting's first
	Base  bool
	Bare  bool // comes bare: what is charged for the parts that go in stands with the rework

	Places    bool   // takes a place once it has a flow, a usable cost and a worth
	Aside     string // why it takes none
	Flow      compare.Maybe
	FlowU     float64 // cfm
	Apart     bool    // not brought over to the reference bore: a small difference decides nothing
	Sold      compare.Maybe
	Foreign   string    // currency of Each, "" for the shop's own
	Carried   string    // the same of Freight
	Surcharge Surcharge // in other money than Each

	Start    Figures
	Typed    Figures
	Proposed bool         // the shop has set no sell price: it follows the target margin
	Cost     compare.Cost // where the figures come from
}

// Surcharge is what is asked for a head in money of its own, beside its cost and
// its freight. Nobody types over it; it moves with its rate.
type Surcharge struct {
	Each     decimal.NullDecimal
	Currency string // "" for the shop's own
}

// Sheet is the what-if of one family.
type Sheet struct {
	Comparison compare.Comparison
	Currency   string
	Heads      int // a set
	Start      Terms
	Typed      Terms
	Rows       []Row
}

// Typed are the figures a person has typed over those of an earlier sheet.
type Typed struct {
	Terms Terms
	Rows  []TypedRow
}

// TypedRow are those of one head.
type TypedRow struct {
	Label   string
	Foreign string // currency that Each was typed in, "" for the shop's own
	Carried string // the same of Freight
	Figures Figures
}

// Apply puts typed figures over those the sheet starts from. A head that is no
// longer in the comparison, or is bought in other money now, keeps its typed
// figures in a row of its own, so that none is lost.
func (s Sheet) Apply(t Typed) Sheet {
	s.Typed = t.Terms
	s.Rows = append([]Row(nil), s.Rows...)
	for _, typed := range t.Rows {
		at := s.find(typed.Label)
		if at < 0 {
			s.Rows = append(s.Rows, orphan(typed, len(s.Rows), "not in this comparison"))
			continue
		}
		row := &s.Rows[at]
		var left TypedRow
		row.Typed, left = s.otherMoney(typed, *row)
		if left.Label != "" {
			s.Rows = append(s.Rows, orphan(left, len(s.Rows), "bought in other money now"))
		}
	}
	return s
}

// otherMoney parts the figures that hold for a row from those that were typed in
// money it is no longer bought in; those have no label when there are none.
func (s Sheet) otherMoney(t TypedRow, row Row) (mine Figures, left TypedRow) {
	mine, left = t.Figures, TypedRow{Foreign: t.Foreign, Carried: t.Carried}
	for _, in := range []struct {
		Input
		was, is string
	}{{Each, t.Foreign, row.Foreign}, {Freight, t.Carried, row.Carried}} {
		if mine[in.Input].Valid && in.was != in.is {
			left.Label = t.Label + ", in " + cmp.Or(in.was, s.Currency)
			left.Figures[in.Input], mine[in.Input] = mine[in.Input], decimal.NullDecimal{}
		}
	}
	return mine, left
}

func orphan(t TypedRow, at int, why string) Row {
	return Row{Label: t.Label, First: at, Foreign: t.Foreign, Carried: t.Carried, Typed: t.Figures, Aside: why, Flow: compare.Maybe{Why: why}}
}

func (s Sheet) find(label string) int {
	for i := range s.Rows {
		if s.Rows[i].Label == label {
			return i
		}
	}
	return -1
}

// Follows reports whether a row's input is, unless typed over, that of its
// casting's first row.
func (s Sheet) Follows(row int, in Input) bool {
	return s.Rows[row].First != row && (in == Each || in == Freight || in == Sell || in == Minimum)
}

// money returns an amount as a figure, not valid when it is not known.
func money(known bool, m quantity.Money) decimal.NullDecimal {
	return decimal.NullDecimal{Decimal: m.Amount, Valid: known}
}

func either(typed, start decimal.NullDecimal) decimal.NullDecimal {
	if typed.Valid {
		return typed
	}
	return start
}
