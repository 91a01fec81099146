// Package counter writes the page that hangs at the counter, one a family: price,
// flow, fit and what else is needed, in fat type. It shows no cost.
package counter

import (
	"fmt"
	"strings"

	"flowshelf/analysis/compare"
	"flowshelf/analysis/engine"
	"flowshelf/analysis/head"
	"flowshelf/analysis/quantity"
	"flowshelf/analysis/review"
	"flowshelf/export/book"
)

// FileName returns the name of a family's page.
func FileName(family string) string { return fmt.Sprintf("Counter sheet - %s.xlsx", family) }

// ID is how a family's page is known among our outputs.
func ID(family string) string { return "counter sheet/" + family }

const (
	bodyPoints   = 13
	headerPoints = 11
	bodySmall    = 9.5
)

// row is one head on the page.
type row struct {
	*compare.Entry
	untested bool
	why      string // why it cannot be recommended, "" when it can
}

// Write returns the page of a family.
func Write(c compare.Comparison) ([]byte, error) {
	b := book.New(book.Properties{ID: ID(c.Family.Name), Title: "Counter sheet: " + c.Family.Name,
		Subject: "prices, flow and fit", Shop: c.Shop, Dated: c.Date, Paper: c.Rules.Paper})
	p := &page{Comparison: c, s: b.Sheet("Counter"), dollars: book.Money(currency(c), 0)}
	p.s.Say(1, 1, c.Family.Name, book.Style{Bold: true, Points: 20})
	p.s.Say(2, 1, fmt.Sprintf("%s, prices of %s, a set of %d", c.Shop, c.Date.Format("2006-01-02"), c.Family.HeadsPerSet), book.Style{Points: headerPoints, Ink: book.Muted})
	p.table(4)
	p.s.Print(book.Print{Upright: true, OnePage: true, RepeatFrom: 4, RepeatTo: 4, Basis: fmt.Sprintf("cfm at %g inH2O; for the counter", c.Rules.Reference.InH2O())})
	return b.Bytes()
}

func currency(c compare.Comparison) string {
	for _, e := range c.Ranked {
		return e.Cost.Usable.Value.Currency
	}
	for _, n := range c.NotRanked {
		if n.Sell.Known {
			return n.Sell.Value.Currency
		}
	}
	for _, e := range c.Advertised {
		if e.Cost.Sell.Known {
			return e.Cost.Sell.Value.Currency
		}
	}
	return ""
}

type page struct {
	compare.Comparison
	s       *book.Sheet
	dollars book.Format
}

func (p *page) rows() []row {
	var out []row
	for i := range p.Ranked {
		out = append(out, row{Entry: &p.Ranked[i]})
	}
	for i := range p.Unpriced {
		out = append(out, row{Entry: &p.Unpriced[i]})
	}
	for i := range p.BelowLine {
		out = append(out, row{Entry: &p.BelowLine[i], untested: true})
	}
	return out
}

// waits are the heads on the shelf that cannot be recommended, each once and with
// the reason, but no figures.
func (p *page) waits() []row {
	var out []row
	shown := make(map[string]bool)
	for _, r := range p.rows() {
		shown[r.Head] = true
	}
	add := func(e *compare.Entry, why string) {
		if e.Stock != nil && e.Stock.OnHand.Value > 0 && !shown[e.Head] {
			shown[e.Head] = true
			out = append(out, row{Entry: e, why: why})
		}
	}
	for i := range p.NotRanked {
		if n := &p.NotRanked[i]; !n.Stray {
			e := compare.Entry{Head: n.Head, Label: n.Head, Stock: n.Stock}
			e.Cost.Sell = n.Sell
			add(&e, n.Reason)
		}
	}
	for i := range p.Advertised {
		e := p.Advertised[i]
		e.Label = e.Head
		add(&e, "never flowed here, and its maker's figures are a claim")
	}
	return out
}

// column is one figure of a head in fat type.
type column struct {
	title string
	width float64
	style book.Style
	of    func(row) book.Value

	always bool // for a head, too, that cannot be recommended
}

func (p *page) columns() []column {
	fat := book.Style{Points: bodyPoints, Bold: true, Top: book.Thin}
	number := func(f book.Format) book.Style { return fat.As(f).To(book.Right) }
	small := book.Style{Points: headerPoints, Top: book.Thin, Align: book.Right}
	always := func(c column) column { c.always = true; return c }
	return []column{
		always(column{title: "Head", width: 20, style: fat.Wrapped(), of: func(r row) book.Value { return book.Text(r.Label) }}),
		always(column{title: "Set", width: 10, style: number(p.dollars), of: price}),
		{title: ".300", width: 7, style: number(book.Flow), of: at300},
		{title: ".400", width: 7, style: number(book.Flow), of: at400},
		{title: ".500", width: 7, style: number(book.Flow), of: at500},
		{title: "Peak", width: 7, style: number(book.Flow), of: func(r row) book.Value { return book.Number(r.Intake.PeakAll.Flow.CFM()) }},
		{title: "Springs to", width: 10, style: number(book.Lift), of: func(r row) book.Value {
			if !r.SpringsTo.Known {
				return book.Text("ask")
			}
			return book.Number(r.SpringsTo.MaxLift.In())
		}},
		{title: "Runner/ chamber", width: 10, style: small, of: func(r row) book.Value { return book.Text(volumes(r.Dimensions)) }},
		always(column{title: "On hand", width: 17, style: small, of: func(r row) book.Value { return book.Text(p.onHand(r)) }}),
	}
}

// table lays the heads out, best value first: a line of figures, and below it
// what the head needs and fits.
func (p *page) table(at int) {
	columns := p.columns()
	for j, c := range columns {
		head := book.Header.To(book.Right)
		if j == 0 {
			head = book.Header
		}
		head.Points = headerPoints
		p.s.Say(at, 1+j, c.title, head)
		p.s.Width(1+j, c.width)
	}
	line := p.lines(at+1, columns)
	small := book.Style{Points: bodySmall, Ink: book.Muted, Wrap: true}
	for i, note := range []string{
		"Best value for most first; the ranking says who is tied. Fits: the speeds at which its port is neither lazy nor choked on " + p.engine() + " (common practice, no source).",
		"Say to everybody: check valve-to-piston, valve-to-bore and coil bind at your lift. Flow is not power.",
	} {
		p.s.Across(line+1+i, 1, len(columns), book.Cell{Value: book.Text(note), Style: small})
	}
}

// lines writes the heads from a row on, and returns the row behind them.
func (p *page) lines(line int, columns []column) int {
	words := book.Style{Points: headerPoints, Wrap: true}
	rows := append(p.rows(), p.waits()...)
	for _, r := range rows {
		for j, c := range columns {
			value := book.Value{}
			if r.why == "" || c.always {
				value = c.of(r)
			}
			p.s.Set(line, 1+j, value, c.style)
		}
		p.s.Across(line+1, 1, len(columns), book.Cell{Value: book.Text(p.below(r)), Style: words})
		line += 2
	}
	if len(rows) == 0 {
		p.s.Say(line, 1, "No head of this family can be sold yet.", words)
		line++
	}
	return line
}

// below is the line under a head's figures.
func (p *page) below(r row) string {
	if r.why != "" {
		return "cannot be recommended: " + r.why
	}
	allIn := "no all-in price yet"
	if r.Cost.Usable.Known {
		allIn = "all-in " + review.Cash(r.Cost.Usable.Value)
	}
	if r.untested {
		allIn = "NOT FLOWED HERE, its maker's figures; " + allIn
	}
	return fmt.Sprintf("%s; needs %s; fits %s", allIn, needs(r), p.fits(r))
}

func price(r row) book.Value {
	if !r.Cost.Sell.Known {
		return book.Text("ask")
	}
	return book.Number(r.Cost.Sell.Value.Float())
}

func at300(r row) book.Value { return at(r, 0.300) }
func at400(r row) book.Value { return at(r, 0.400) }
func at500(r row) book.Value { return at(r, 0.500) }

func at(r row, liftIn float64) book.Value {
	f, ok := r.Intake.At(quantity.Inches(liftIn))
	if !ok {
		return book.Value{}
	}
	return book.Number(f.Flow.CFM())
}

func volumes(d *head.Dimensions) string {
	if d == nil {
		return "not stated"
	}
	cc := func(known bool, v quantity.Volume) string {
		if !known {
			return "-"
		}
		return fmt.Sprintf("%.0f", v.CC())
	}
	return cc(d.Runner.Known, d.Runner.Value) + " / " + cc(d.Chamber.Known, d.Chamber.Value)
}

// fits is the range of speeds of the family's engine in which the air speed at
// the smallest section is right; the speed is proportional to the engine's.
func (p *page) fits(r row) string {
	if !r.Air.Speed.Known || r.Air.Speed.Value <= 0 || !p.Family.EngineRPM.Known {
		return "size not known"
	}
	w := engine.DefaultSpeedWindow()
	if p.Family.Lazy.Known {
		w.Lazy = p.Family.Lazy.Value
	}
	if p.Family.Choked.Known {
		w.Choked = p.Family.Choked.Value
	}
	const hundred = 100
	rpm := func(v quantity.Speed) int {
		return int(p.Family.EngineRPM.Value*v.FtS()/r.Air.Speed.Value/hundred+0.5) * hundred
	}
	return fmt.Sprintf("%d to %d rpm", rpm(w.Lazy), rpm(w.Choked))
}

func (p *page) engine() string {
	f := p.Family
	if !f.EngineBore.Known || !f.EngineStroke.Known {
		return "the family's engine"
	}
	return fmt.Sprintf("%.3f x %.3f", f.EngineBore.Value.In(), f.EngineStroke.Value.In())
}

func needs(r row) string {
	var out []string
	for _, l := range r.Cost.Lines {
		if l.Kind != compare.HeadsCost {
			out = append(out, l.Item+" "+review.Cash(l.Amount))
		}
	}
	if len(out) == 0 {
		return "nothing"
	}
	return strings.Join(out, ", ")
}

func weeks(n float64) string {
	if n == 1 {
		return "1 week"
	}
	return fmt.Sprintf("%.4g weeks", n)
}

func (p *page) onHand(r row) string {
	n := p.Family.HeadsPerSet
	if r.Stock == nil || !r.Stock.OnHand.Known || n < 1 || r.Stock.OnHand.Value < 0 {
		return "ask"
	}
	sets, odd := r.Stock.Sets(n)
	if sets == 0 && r.Stock.LeadWeeks.Known {
		return "to order, " + weeks(r.Stock.LeadWeeks.Value)
	}
	words := fmt.Sprintf("%d sets", sets)
	if sets == 1 {
		words = "1 set"
	}
	if odd > 0 {
		words += fmt.Sprintf(" + %d", odd)
	}
	return words
}
