// Package headcard writes the card of one head in stock: sizes, both curves with
// their picture, states, prices, extras, notes as they were written, tests and
// cautions. It is the shop's own: it shows cost.
package headcard

import (
	"cmp"
	"fmt"
	"math"
	"slices"
	"strings"
	"time"

	"flowshelf/analysis/compare"
	"flowshelf/analysis/head"
	"flowshelf/analysis/quantity"
	"flowshelf/export/book"
)

// Folder is where the cards lie, below the output folder.
const Folder = "Head cards"

// Card is what is known of one head.
type Card struct {
	compare.OnShelf
	Entries  []*compare.Entry // its states that have a curve, as delivered first
	NotYet   []string         // why a state or the head has no place
	Currency string
	Cautions []string
	Shop     string
	Date     time.Time
	Paper    head.Paper
	Basis    string
	Up       string // the way from the card's folder to the watched folder
}

// Of makes the cards of every head in stock. What has no curve has a card too.
func Of(families []compare.Comparison, shelf []compare.OnShelf, currency, up string) []Card {
	var out []Card
	for _, h := range shelf {
		if h.Stock == nil {
			continue
		}
		c := Card{OnShelf: h, Currency: currency, Up: up}
		for i := range families {
			f := &families[i]
			if f.Family.Name != h.Family.Name {
				continue
			}
			c.Cautions, c.Shop, c.Date, c.Paper = f.Cautions, f.Shop, f.Date, f.Rules.Paper
			c.Basis = fmt.Sprintf("cfm at %g inH2O, bore %.3f", f.Rules.Reference.InH2O(), f.Family.ReferenceBore.In())
			c.gather(f)
		}
		if c.Date.IsZero() {
			continue // of no family: nothing is known of its set
		}
		out = append(out, c)
	}
	return out
}

func (c *Card) gather(f *compare.Comparison) {
	for _, list := range [][]compare.Entry{f.Ranked, f.Unpriced, f.BelowLine, f.Advertised} {
		for i := range list {
			if list[i].Head == c.Listed.Name {
				c.Entries = append(c.Entries, &list[i])
			}
		}
	}
	for _, n := range f.NotRanked {
		if n.Head != c.Listed.Name || n.Stray {
			continue
		}
		c.NotYet = append(c.NotYet, n.Reason)
		if n.Entry != nil {
			c.Entries = append(c.Entries, n.Entry)
		}
	}
	slices.SortStableFunc(c.Entries, func(a, b *compare.Entry) int { return len(a.State) - len(b.State) + asDelivered(a) - asDelivered(b) })
}

// asDelivered puts the head as delivered before what was done to it.
func asDelivered(e *compare.Entry) int {
	const before = -1000 // longer than any state's name
	if e.State == "as delivered" || e.State == "" {
		return before
	}
	return 0
}

// ID is how a head's card is known among our outputs.
func ID(head string) string { return "head card/" + head }

// Write returns the card.
func Write(c Card) ([]byte, error) {
	b := book.New(book.Properties{ID: ID(c.Listed.Name), Title: "Head card: " + c.Listed.Name, Shop: c.Shop, Dated: c.Date, Paper: c.Paper})
	w := &writer{Card: c, s: b.Sheet("Card"), dollars: book.Money(c.Currency, 0)}
	w.s.Width(1, 15, 13, 12, 15, 13, 12, 15, 12, 12)
	w.s.Say(1, 1, c.Listed.Name, book.Title)
	w.s.Say(2, 1, fmt.Sprintf("%s, %s, %s. %s.", c.Shop, c.Family.Name, c.Date.Format(time.DateOnly), c.Basis), book.Subtitle)
	w.row = 4
	for _, why := range c.NotYet {
		w.prose("Not ranked: "+why, book.Prose.Strong())
	}
	for _, part := range []func(){w.sizes, w.money, w.curves, w.states, w.needs, w.notes, w.tests, w.cautions} {
		from := w.row
		part()
		w.s.Keep(from, w.row-1)
	}
	w.s.Print(book.Print{Upright: true, Basis: "for the shop only: shows cost"})
	return b.Bytes()
}

type writer struct {
	Card
	s       *book.Sheet
	row     int
	dollars book.Format
}

const columns = 9

func (w *writer) prose(words string, style book.Style) {
	style.Wrap = true
	w.s.Across(w.row, 1, columns, book.Cell{Value: book.Text(words), Style: style})
	w.row++
}

func (w *writer) section(title string) {
	w.s.Say(w.row, 1, title, book.Section)
	w.row++
}

// pair is one fact with its name.
type pair struct{ name, value string }

// pairs lays facts out three to a row.
func (w *writer) pairs(facts []pair) {
	const across = 3
	for i, f := range facts {
		row, col := w.row+i/across, 1+i%across*3
		w.s.Say(row, col, f.name, book.Note)
		w.s.Across(row, col+1, col+2, book.Cell{Value: book.Text(f.value), Style: book.Body})
	}
	w.row += (len(facts)+across-1)/across + 1
}

func (w *writer) sizes() {
	w.section("Sizes")
	d := w.Dimensions
	if d == nil {
		w.prose("No dimension sheet names it.", book.Prose)
		w.row++
		return
	}
	inch := func(known bool, l quantity.Length) string {
		if !known {
			return "not stated"
		}
		return fmt.Sprintf("%.3f in", l.In())
	}
	cc := func(known bool, v quantity.Volume) string {
		if !known {
			return "not stated"
		}
		return fmt.Sprintf("%.0f cc", v.CC())
	}
	section, weight := "not stated", "not stated"
	if d.MinSection.Known {
		section = fmt.Sprintf("%.2f in2", d.MinSection.Value.In2())
	}
	if d.Weight.Known {
		weight = fmt.Sprintf("%.1f lb", d.Weight.Value.Lb())
	}
	stem := d.StemWords
	if stem == "" {
		stem = inch(d.Stem.Known, d.Stem.Value)
	}
	facts := []pair{
		{"Intake valve", inch(d.IntakeValve.Known, d.IntakeValve.Value)}, {"Exhaust valve", inch(d.ExhaustValve.Known, d.ExhaustValve.Value)}, {"Stem", stem},
		{"Throat", inch(d.Throat.Known, d.Throat.Value)}, {"Min section", section}, {"Intake runner", cc(d.Runner.Known, d.Runner.Value)},
		{"Chamber", cc(d.Chamber.Known, d.Chamber.Value)}, {"Springs to", inch(d.MaxLift.Known, d.MaxLift.Value)}, {"Weight", weight},
		{"Material", orNot(d.Material)}, {"Process", orNot(d.Process)}, {"Measured on", measuredOn(d)},
	}
	for _, o := range d.Other {
		facts = append(facts, pair{o.Name, o.Value})
	}
	w.pairs(facts)
}

// measuredOn says which samples the sizes were taken from, as the books have it.
func measuredOn(d *head.Dimensions) string {
	if d.Samples.Known && !d.Measured {
		return "not here: as its supplier says"
	}
	return orNot(d.Samples.Value)
}

func orNot(words string) string { return cmp.Or(words, "not stated") }

// counted is a number of things in words: 1 set, 2.5 sets.
func counted(x float64, what string) string {
	if x != 1 {
		what += "s"
	}
	return fmt.Sprintf("%.4g %s", x, what)
}

func (w *writer) money() {
	w.section("Price and stock")
	set := func(known bool, m quantity.Money, times int) string {
		if !known {
			return "not known"
		}
		return cash(m.Times(times))
	}
	n, s := w.Family.HeadsPerSet, w.Stock
	onHand := "not stated"
	if s.OnHand.Known && n > 0 {
		sets, odd := s.Sets(n)
		onHand = fmt.Sprintf("%s = %s", counted(float64(s.OnHand.Value), "head"), counted(float64(sets), "set"))
		if odd != 0 {
			onHand += fmt.Sprintf(" + %d", odd)
		}
		if s.Handed() {
			onHand += fmt.Sprintf(" (%d left, %d right)", s.Left.Value, s.Right.Value)
		}
	}
	number := func(known bool, x float64, unit string) string {
		if !known {
			return "not stated"
		}
		return counted(x, unit)
	}
	w.pairs([]pair{
		{"Sell a set", set(w.Cost.Sell.Known, w.Cost.Sell.Value, 1)}, {"Landed a set", set(w.Cost.Landed.Known, w.Cost.Landed.Value, n)},
		{"Cost from", orNot(w.Cost.List)}, {"On hand", onHand}, {"Sold in 12 months", number(s.Sold12.Known, s.Sold12.Value, "set")},
		{"Lead time", number(s.LeadWeeks.Known, s.LeadWeeks.Value, "week")},
	})
	for _, e := range w.Entries {
		if e.Cost.Usable.Known && len(e.Cost.Lines) > 1 {
			var parts []string
			for _, l := range e.Cost.Lines {
				parts = append(parts, l.Item+" "+cash(l.Amount))
			}
			w.prose(fmt.Sprintf("%s all-in: %s = %s", e.Label, strings.Join(parts, " + "), cash(e.Cost.Usable.Value)), book.Prose)
		}
	}
	w.row++
}

func cash(m quantity.Money) string {
	text := m.Amount.StringFixed(0)
	for i := len(text) - 3; i > 0 && text[i-1] != '-'; i -= 3 {
		text = text[:i] + "," + text[i:]
	}
	if m.Currency == "USD" || m.Currency == "" {
		return "$" + text
	}
	return text + " " + m.Currency
}

// tidy drops the last bits that a unit conversion leaves.
func tidy(x float64) float64 { return math.Round(x*1e6) / 1e6 }

func dayOf(t *head.Test) string {
	if !t.Date.Known {
		return "no date"
	}
	return t.Date.Value.Format(time.DateOnly)
}
