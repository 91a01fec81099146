// Package review looks at the shelf once a month: what to keep, reorder, reprice,
// clear out and test next; what every head in stock ties up and earns; which
// places changed since the month before, and because of what. It is pure: the
// month's facts in, the review out.
package review

import (
	"time"

	"flowshelf/analysis/compare"
	"flowshelf/analysis/head"
	"flowshelf/analysis/history"
	"flowshelf/analysis/quantity"
	"flowshelf/analysis/source"
)

// Now is the shelf as it stands on a day.
type Now struct {
	Records  head.Records
	Shop     head.Shop
	Families []compare.Comparison // of the records, the shop and the date
	Problems source.Problems      // of everything that was read
	Date     time.Time
}

// Before is the month before, as it was kept.
type Before struct {
	Facts *history.Facts // nil when it was not kept
	Note  string         // what a reader must know: why there is none, or that somebody changed it
}

// Review is one month's review. A writer only lays it out.
type Review struct {
	Shop     string
	Date     time.Time
	Month    string // "2026-03"
	Paper    head.Paper
	Currency string
	Rules    Yardsticks
	Before   string // in words: which day it is compared with, or why with none

	Decisions  []Decision
	Stock      []Health
	Totals     Totals
	Candidates []Candidate
	Holes      []Hole
	Grid       []Quadrant
	Prices     []PriceMove
	Changes    []Change
	Suppliers  []SupplierRecord
	Bench      BenchHealth
	Tests      []TestIdea
	Questions  source.Problems
	Sources    []Source
}

// Make reviews the shelf against the month before.
func Make(now Now, before Before) Review {
	m := newMonth(now, before)
	r := Review{
		Shop: now.Shop.Name, Date: now.Date, Month: history.Month(now.Date), Paper: now.Shop.Rules.Paper, Currency: m.currency,
		Rules: m.rules, Before: m.beforeWords(),
	}
	for i := range m.heads {
		h := &m.heads[i]
		if h.Stock != nil || h.StockWaits != "" {
			r.Stock = append(r.Stock, m.health(h))
		} else if c, ok := m.candidate(h); ok {
			r.Candidates = append(r.Candidates, c)
		}
	}
	r.Totals = m.totals(r.Stock)
	r.Prices = m.priceMoves()
	r.Tests = m.testPlan(r.Stock)
	r.Holes = m.holes()
	r.Grid = m.grid(r.Stock)
	r.Changes = m.changes()
	r.Suppliers = m.suppliers()
	r.Bench = m.bench()
	r.Decisions = m.decisions(&r)
	r.Questions = now.Problems.Open()
	r.Sources = m.sources()
	return r
}

// Yardsticks are the figures that stock is judged by: the shop's settings, and
// what counts as moving, which is common practice with no source.
type Yardsticks struct {
	SlowMonths   float64 // more months of supply are slow
	DeadMonths   float64 // slow, and nothing sold for as long, is dead
	SafetyMonths float64 // on top of the demand during the lead time
	OrderMonths  float64 // what an order brings the stock up to, on top of the lead time
	StockFrom    float64 // sets a year from which a head is worth stocking
	MoverMonths  float64 // fewer months of supply: it moves
	TargetMargin float64
	LeastMargin  float64     // of the sell price; a price that leaves less is flagged
	Ending       head.Ending // of the prices that are suggested
}

// yardsticks takes the defaults for figures that cannot be.
func yardsticks(r head.Rules) Yardsticks {
	usual := head.DefaultRules()
	sound := func(x, otherwise float64) float64 {
		if x > 0 {
			return x
		}
		return otherwise
	}
	y := Yardsticks{
		SlowMonths: sound(r.SlowMonths, usual.SlowMonths), DeadMonths: sound(r.DeadMonths, usual.DeadMonths),
		OrderMonths: sound(r.OrderMonths, usual.OrderMonths), StockFrom: r.StockFrom, SafetyMonths: r.SafetyMonths,
		MoverMonths: 3, TargetMargin: r.TargetMargin, LeastMargin: r.MinimumMargin, Ending: r.Ending,
	}
	if !(y.SafetyMonths >= 0) {
		y.SafetyMonths = usual.SafetyMonths
	}
	return y
}

// month is a review under construction.
type month struct {
	Now
	before   *history.Facts
	note     string
	facts    history.Facts
	heads    []compare.OnShelf
	entries  map[string][]standing // by head, best place first
	rules    Yardsticks
	currency string
}

// standing is an entry with the list it stands in.
type standing struct {
	*compare.Entry
	list   history.Standing
	family *compare.Comparison
}

func newMonth(now Now, before Before) *month {
	m := &month{
		Now: now, before: before.Facts, note: before.Note, rules: yardsticks(now.Shop.Rules), currency: now.Shop.Currency,
		heads: compare.Shelf(now.Records, now.Shop, now.Date), entries: make(map[string][]standing),
	}
	if m.currency == "" {
		m.currency = "USD"
	}
	m.facts = factsOf(m)
	for i := range now.Families {
		c := &now.Families[i]
		for _, s := range entriesOf(c) {
			m.entries[s.Head] = append(m.entries[s.Head], s)
		}
	}
	return m
}

// entriesOf lists every head of a family that has a curve, the ranked first.
func entriesOf(c *compare.Comparison) []standing {
	var out []standing
	for _, group := range []struct {
		list    history.Standing
		entries []compare.Entry
	}{{history.Ranked, c.Ranked}, {history.Unpriced, c.Unpriced}, {history.BelowLine, c.BelowLine}, {history.Advertised, c.Advertised}} {
		for i := range group.entries {
			out = append(out, standing{&group.entries[i], group.list, c})
		}
	}
	for _, n := range c.NotRanked {
		if n.Entry != nil && !n.Stray {
			out = append(out, standing{n.Entry, history.NotRanked, c})
		}
	}
	return out
}

// ranked returns the best standing of a head as delivered, and false when it is
// not ranked. Reworked states are the shop's work, not the head on the shelf; a
// head that comes bare only stands as it is with the shop's parts in it.
func (m *month) ranked(name string) (standing, bool) {
	var bare *standing
	for i, s := range m.entries[name] {
		switch {
		case s.list != history.Ranked:
		case !reworked(s.Entry):
			return s, true
		case s.Bare && bare == nil:
			bare = &m.entries[name][i]
		}
	}
	if bare == nil {
		return standing{}, false
	}
	return *bare, true
}

func reworked(e *compare.Entry) bool {
	for _, l := range e.Cost.Lines {
		if l.Kind == compare.ReworkCost {
			return true
		}
	}
	return false
}

func (m *month) beforeWords() string {
	if m.before == nil {
		if m.note != "" {
			return m.note
		}
		return "No earlier month was kept, so nothing can be said about what changed."
	}
	words := "Compared with " + m.before.Date.Format(time.DateOnly) + ", the last run that was kept."
	if m.note != "" {
		words += " " + m.note
	}
	return words
}

func (m *month) zero() quantity.Money { return quantity.Zero(m.currency) }
