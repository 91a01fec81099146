// Package comparetest holds the invented shelf of the demonstration, entered by
// hand, for tests of the comparison and of what is written from it.
package comparetest

import (
	"fmt"
	"strconv"
	"strings"
	"time"

	"flowshelf/analysis/head"
	"flowshelf/analysis/quantity"
	"flowshelf/analysis/source"
)

// Date is the day of the demonstration's comparison.
func Date() time.Time { return time.Date(2026, time.March, 16, 0, 0, 0, 0, time.UTC) }

// Sheet is one sheet of an invented book, to be filled cell by cell.
type Sheet struct {
	File, Name string
	row        int
}

// next is the place of the next cell.
func (s *Sheet) next() source.Ref {
	s.row++
	return source.At(s.File, s.Name, s.row, 2)
}

func said[T any](s *Sheet, value T, text, unit string) source.Stated[T] {
	return source.Say(value, source.Trace{At: s.next(), Text: text, Unit: unit})
}

// Inches states a length on the sheet.
func (s *Sheet) Inches(x float64) source.Stated[quantity.Length] {
	return said(s, quantity.Inches(x), fmt.Sprintf("%.3f", x), "in")
}

// InH2O states a pressure on the sheet.
func (s *Sheet) InH2O(x float64) source.Stated[quantity.Pressure] {
	return said(s, quantity.InchesOfWater(x), fmt.Sprint(x), "inH2O")
}

// Dollars states an amount on the sheet.
func (s *Sheet) Dollars(x float64) source.Stated[quantity.Money] {
	return said(s, quantity.Dollars(x), fmt.Sprint(x), "USD")
}

// Day states a date on the sheet.
func (s *Sheet) Day(year int, month time.Month, day int) source.Stated[time.Time] {
	d := time.Date(year, month, day, 0, 0, 0, 0, time.UTC)
	return said(s, d, d.Format(time.DateOnly), "")
}

// Column is a flow test in short.
type Column struct {
	Head, State, Sample, Mark string
	Port                      head.Port
	Class                     head.Class
	Pipe                      head.Pipe
	BoreIn                    float64 // 0 for not stated
	InH2O                     float64
	Lifts                     []float64 // inches
	CFM                       []float64
	Rows                      []float64 // pressure of each row, inH2O
	By                        string
	Day                       source.Stated[time.Time]
}

// Test enters a column on the sheet.
func (s *Sheet) Test(c Column) head.Test {
	t := head.Test{
		Head: c.Head, State: c.State, Sample: c.Sample, PortMark: c.Mark, Port: c.Port, Class: c.Class, Pipe: c.Pipe,
		By: c.By, Date: c.Day, At: s.next(),
	}
	if c.Port == head.Intake {
		t.Entry = "radius plate"
	}
	if c.BoreIn > 0 {
		t.Bore = s.Inches(c.BoreIn)
	}
	if c.InH2O > 0 {
		t.Pressure = s.InH2O(c.InH2O)
	}
	for i, q := range c.CFM {
		r := head.Reading{Lift: s.Inches(c.Lifts[i]), Flow: said(s, quantity.CFM(q), fmt.Sprint(q), "cfm")}
		if len(c.Rows) > i {
			own := s.InH2O(c.Rows[i])
			r.Row = &own
		}
		t.Readings = append(t.Readings, r)
	}
	return t
}

// dims is one row of the dimension sheet in short: inches, square inches, cc.
type dims struct {
	head               string
	intake, exhaust    float64
	stem               string
	throat, section    float64
	runner, chamber    float64
	maxLift, weightLb  float64
	material, samples  string
	clearance, clearOn float64
}

func (s *Sheet) dimensions(d dims) head.Dimensions {
	out := head.Dimensions{
		Head: d.head, At: s.next(), IntakeValve: s.Inches(d.intake), ExhaustValve: s.Inches(d.exhaust), StemWords: d.stem,
		Throat: s.Inches(d.throat), MinSection: said(s, quantity.SquareInches(d.section), fmt.Sprint(d.section), "in2"),
		Runner:  said(s, quantity.CubicCentimetres(d.runner), fmt.Sprint(d.runner), "cc"),
		Chamber: said(s, quantity.CubicCentimetres(d.chamber), fmt.Sprint(d.chamber), "cc"),
		MaxLift: s.Inches(d.maxLift), Weight: said(s, quantity.Pounds(d.weightLb), fmt.Sprint(d.weightLb), "lb"),
		Material: d.material, Measured: true, Samples: said(s, d.samples, d.samples, ""),
	}
	out.Stem = said(s, quantity.Inches(stemIn(d.stem)), d.stem, "")
	if d.clearance > 0 {
		out.WallClearance, out.WallBore = s.Inches(d.clearance), s.Inches(d.clearOn)
	}
	return out
}

// stemIn is a stem's diameter in inches: "11/32", "8 mm".
func stemIn(words string) float64 {
	if mm, ok := strings.CutSuffix(words, " mm"); ok {
		x, _ := strconv.ParseFloat(mm, 64)
		return x / 25.4
	}
	over, under, _ := strings.Cut(words, "/")
	a, _ := strconv.ParseFloat(over, 64)
	b, _ := strconv.ParseFloat(under, 64)
	return a / b
}

// shelfItem is one row of the stock book in short.
type shelfItem struct {
	head             string
	onHand           int
	sold12, lastSale float64
	sellSet          float64
	leadWeeks        float64
}

func (s *Sheet) stock(i shelfItem, day source.Stated[time.Time]) head.StockItem {
	return head.StockItem{
		Head: i.head, At: s.next(), Date: day, OnHand: said(s, i.onHand, fmt.Sprint(i.onHand), "heads"),
		Sold12: said(s, i.sold12, fmt.Sprint(i.sold12), "sets"), LastSale: said(s, i.lastSale, fmt.Sprint(i.lastSale), "months"),
		Sell: s.Dollars(i.sellSet), SellBasis: head.Set, LeadWeeks: said(s, i.leadWeeks, fmt.Sprint(i.leadWeeks), "weeks"),
	}
}

// net enters a net price for each head, assembled.
func (s *Sheet) net(name, supplier string, each, freight float64) head.Price {
	return head.Price{Head: name, Supplier: supplier, Build: "assembled", Rung: head.Net, Basis: head.Each,
		Amount: s.Dollars(each), Freight: s.Dollars(freight), At: s.next()}
}

func (s *Sheet) extra(name, item string, need head.Need, aSet float64) head.Extra {
	return head.Extra{Head: name, Item: item, Need: need, Price: s.Dollars(aSet), Basis: head.Set, At: s.next()}
}

func (s *Sheet) springs(name string, above, aSet float64) head.Extra {
	e := s.extra(name, "spring kit", head.LiftAbove, aSet)
	e.Threshold, e.Springs, e.Words = quantity.Inches(above), true, fmt.Sprintf("lift > %.3f", above)
	return e
}
