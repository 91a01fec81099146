// Package history says what is kept of a month, so that the next month can say
// what changed and why, and how it stands in a workbook. The writer turns a
// month's facts into plain rows and the reader turns rows back by the one
// description of the columns, so that the two cannot drift apart. It knows no
// file format.
package history

import (
	"fmt"
	"path"
	"strings"
	"time"

	"flowshelf/analysis/quantity"
	"flowshelf/analysis/source"
)

// Folder is where the months lie, below the output folder.
const Folder = "History"

// Facts are what is kept of one month: the state of the shelf on its last run.
type Facts struct {
	Shop     string
	Date     time.Time // the day they stand for
	Currency string

	Heads    []Head
	Places   []Place
	Settings []Setting
	Answers  []Answer
}

// Head is one head as stocked and priced. Money is in the shop's currency.
type Head struct {
	Name, Family, Supplier string
	HeadsPerSet            source.Stated[int]
	OnHand                 source.Stated[int]     // heads
	Sold12                 source.Stated[float64] // sets in twelve months
	LastSale               source.Stated[float64] // months ago
	LeadWeeks              source.Stated[float64]
	StockBook              string
	Net, Freight, Landed   source.Stated[quantity.Money] // a head
	Sell                   source.Stated[quantity.Money] // a set
	CostList               string                        // the book the cost stands in
	CostText               string                        // as it stands there, with its unit and currency
	CostSteps              string                        // how it came to the net cost
	Dimensions             string                        // the sizes that a curve or a cost rests on
}

// Place is one head in one state as compared.
type Place struct {
	Label, Head, State, Family string
	Standing                   Standing
	Why                        string // why it has no place
	Number                     int    // 0 for no place
	Shared                     bool
	TiedWith                   string

	Working, WorkingU source.Stated[float64] // cfm
	Shape             source.Stated[float64]
	Verdict           string
	BoreHow           string
	Sample            string
	Tested            source.Stated[time.Time]
	Readings          string // what the curve is made of: a fingerprint of the readings used
	Sheets            string // a fingerprint of all that the sheets say, used or not

	Sell, Extras, Springs source.Stated[quantity.Money] // a set
	Rework, Usable        source.Stated[quantity.Money]
	Proposed              bool // the sell price is a proposal
	Needs                 string
	Value, ValueU         source.Stated[float64]
	Reasons               string
}

// Standing says in which list of a comparison an entry stands.
type Standing string

// The standings.
const (
	Ranked     Standing = "ranked"
	Unpriced   Standing = "no price"
	BelowLine  Standing = "supplier sheet"
	Advertised Standing = "advertised"
	NotRanked  Standing = "not ranked"
)

// Setting is one figure that the month was worked out with.
type Setting struct {
	Scope string // "shop", a family, "rate" or a supplier
	Name  string
	Value string
}

// Answer is what somebody had answered.
type Answer struct{ Key, Head, Answer string }

// Month spells the month of a day as "2026-02".
func Month(day time.Time) string { return day.Format("2006-01") }

// FileName is where a month's facts lie, below the output folder.
func FileName(month string) string { return path.Join(Folder, month+".xlsx") }

// ID is how the workbook of a month is known, whatever it is called.
func ID(month string) string { return "history/" + month }

// MonthOf returns the month that an ID is of, and false for that of another
// workbook.
func MonthOf(id string) (string, bool) {
	month, ours := strings.CutPrefix(id, "history/")
	_, err := time.Parse("2006-01", month)
	return month, ours && err == nil
}

// Before returns the month before a month spelled "2026-03".
func Before(month string) (string, error) {
	first, err := time.Parse("2006-01", month)
	if err != nil {
		return "", fmt.Errorf("a month is spelled like 2026-03, not %q", month)
	}
	return Month(first.AddDate(0, -1, 0)), nil
}

// Place returns the entry of a label, nil when the month has none.
func (f *Facts) Place(family, label string) *Place {
	for i := range f.Places {
		if p := &f.Places[i]; p.Family == family && p.Label == label {
			return p
		}
	}
	return nil
}

// Head returns the head of a name, nil when the month has none.
func (f *Facts) Head(name string) *Head {
	for i := range f.Heads {
		if f.Heads[i].Name == name {
			return &f.Heads[i]
		}
	}
	return nil
}

// Setting returns a figure that the month was worked out with.
func (f *Facts) Setting(scope, name string) (string, bool) {
	for _, s := range f.Settings {
		if s.Scope == scope && s.Name == name {
			return s.Value, true
		}
	}
	return "", false
}
