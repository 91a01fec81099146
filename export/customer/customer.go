// Package customer writes the one page that a customer takes home: what fits,
// what it flows, what it costs all-in, and what to check. It is given nothing
// else: no cost, no margin, no supplier.
package customer

import (
	"crypto/sha256"
	"encoding/hex"
	"fmt"
	"math"
	"regexp"
	"slices"
	"strings"
	"time"

	"flowshelf/analysis/compare"
	"flowshelf/analysis/enquiry"
	"flowshelf/analysis/quantity"
	"flowshelf/export/book"
)

// Folder is where the sheets lie, below the output folder.
const Folder = "For customers"

// The sheet's columns: a label, then two for each head.
const (
	labelWidth  = 21
	headColumns = 2
	headWidth   = 14.5
	mostHeads   = 3
)

// ID is how the sheet in a file is known among our outputs. It goes with the
// sheet to the customer, so it says nothing: some letters of the name's SHA-256.
func ID(file string) string {
	const enough = 8
	sum := sha256.Sum256([]byte(file))
	return "customer sheet/" + hex.EncodeToString(sum[:enough])
}

// Written reports whether a sheet with this id stands under the name that it was
// written under, or under a number of it.
func Written(file, id string) bool {
	return id == ID(file) || id == ID(numbered.ReplaceAllString(file, ".xlsx"))
}

var numbered = regexp.MustCompile(` \(\d\)\.xlsx$`)

// Write returns the page that goes into a file.
func Write(sheet enquiry.Sheet, file string) ([]byte, error) {
	b := book.New(book.Properties{ID: ID(file), Title: "Cylinder heads", Shop: sheet.Shop, Dated: sheet.Date, Paper: sheet.Paper})
	p := &page{Sheet: sheet, s: b.Sheet("Heads"), dollars: book.Money(sheet.Currency, places(sheet))}
	p.s.Width(1, labelWidth)
	for i := range headColumns * mostHeads {
		p.s.Width(2+i, headWidth)
	}
	p.top()
	p.offers()
	p.flow()
	p.chart()
	p.foot()
	p.s.Print(book.Print{Upright: true, OnePage: true, Basis: "prices are for a set of " + fmt.Sprint(sheet.HeadsPerSet) + " heads"})
	return b.Bytes()
}

// places is how many decimal places the prices are shown with: a price that ends
// in cents is not rounded to another one.
func places(sheet enquiry.Sheet) int {
	whole := func(m quantity.Money) bool { return m.Amount.IsInteger() }
	for _, h := range sheet.Heads {
		if !whole(h.Price) || !whole(h.AllIn) || slices.ContainsFunc(h.Needs, func(n enquiry.Need) bool { return !whole(n.Price) }) {
			return cents
		}
	}
	return 0
}

const cents = 2

// page lays the sheet out from the top.
type page struct {
	enquiry.Sheet
	s       *book.Sheet
	row     int
	dollars book.Format
	flows   int // the header row of the flow table
}

// last is the sheet's last column.
func (p *page) last() int { return 1 + headColumns*mostHeads }

// column is a head's first column.
func (p *page) column(i int) int { return 2 + headColumns*i }

func (p *page) top() {
	p.s.Say(1, 1, p.Shop, book.Title)
	line := p.Date.Format(time.DateOnly)
	if p.Phone != "" {
		line = "Phone " + p.Phone + "   " + line
	}
	p.s.Say(2, 1, line, book.Subtitle)
	p.s.Across(4, 1, p.last(), book.Cell{Value: book.Text("For: " + p.For), Style: book.Style{Bold: true, Points: 11.5, Wrap: true}})
	p.row = 6
}

// offers lists, head by head, what it is and costs.
func (p *page) offers() {
	p.line("", book.Header.Wrapped(), func(h enquiry.Shown) book.Value { return book.Text(h.Name) })
	p.line("", book.Note.Wrapped(), func(h enquiry.Shown) book.Value { return book.Text(h.Role) })
	if slices.ContainsFunc(p.Heads, func(h enquiry.Shown) bool { return h.What != "" }) {
		p.line("What it is", book.Body.Wrapped(), func(h enquiry.Shown) book.Value { return book.Text(h.What) })
	}
	p.line(fmt.Sprintf("Set of %d heads", p.HeadsPerSet), book.Body.As(p.dollars).To(book.Left), func(h enquiry.Shown) book.Value { return amount(h.Price) })
	p.line("What else it needs", book.Body.Wrapped(), func(h enquiry.Shown) book.Value { return book.Text(p.needs(h)) })
	p.line("All-in", book.Yellow.As(p.dollars).To(book.Left), func(h enquiry.Shown) book.Value { return amount(h.AllIn) })
	if slices.ContainsFunc(p.Heads, func(h enquiry.Shown) bool { return len(h.Mind) > 0 }) {
		p.line("Please mind", book.Body.Wrapped(), func(h enquiry.Shown) book.Value { return book.Text(strings.Join(h.Mind, "\n")) })
	}
	p.line("Valves, int/exh", book.Body, func(h enquiry.Shown) book.Value { return book.Text(h.Valves) })
	p.line("Intake runner", book.Body, func(h enquiry.Shown) book.Value { return book.Text(h.Runner) })
	p.line("Chamber", book.Body, func(h enquiry.Shown) book.Value { return book.Text(h.Chamber) })
	p.line("Springs good", book.Body, func(h enquiry.Shown) book.Value { return book.Text(h.Springs) })
	p.line("When", book.Body, func(h enquiry.Shown) book.Value { return book.Text(h.Availability) })
	p.row++
}

// line writes one fact of each head.
func (p *page) line(label string, style book.Style, of func(enquiry.Shown) book.Value) {
	first := book.Body.Strong()
	if style.Fill == book.HeadFill {
		first = book.Header
	}
	p.s.Say(p.row, 1, label, first)
	for i, h := range p.Heads {
		p.s.Across(p.row, p.column(i), p.column(i)+headColumns-1, book.Cell{Value: of(h), Style: style})
	}
	p.row++
}

func (p *page) needs(h enquiry.Shown) string {
	out := make([]string, 0, len(h.Needs)+len(h.Allow))
	for _, n := range h.Needs {
		out = append(out, fmt.Sprintf("%s, %s", n.Item, p.cash(n.Price)))
	}
	for _, a := range h.Allow {
		out = append(out, "allow for "+a)
	}
	if len(out) == 0 {
		return "nothing"
	}
	return strings.Join(out, "\n")
}

func (p *page) cash(m quantity.Money) string {
	symbol, _, _ := strings.Cut(string(p.dollars), "#")
	digits := m.Amount.StringFixed(0)
	if places(p.Sheet) > 0 {
		digits = m.Amount.StringFixed(cents)
	}
	return strings.ReplaceAll(symbol, `"`, "") + digits
}

func amount(m quantity.Money) book.Value { return book.Number(m.Float()) }

// flow is the table of intake and exhaust by lift.
func (p *page) flow() {
	p.s.Say(p.row, 1, "Flow, cfm", book.Section)
	p.row++
	p.s.Say(p.row, 1, "Lift at the valve, in", book.Header)
	p.flows = p.row
	for i, h := range p.Heads {
		p.s.Say(p.row, p.column(i), h.Name+" intake", book.Header.To(book.Right))
		p.s.Say(p.row, p.column(i)+1, "exhaust", book.Header.To(book.Right))
	}
	p.row++
	for k, at := range p.Lifts {
		style := book.Body
		if at == p.Lift {
			style = style.Strong()
		}
		p.s.Set(p.row, 1, book.Number(tidy(at.In())), style.As(book.Lift).To(book.Left))
		for i, h := range p.Heads {
			p.s.Set(p.row, p.column(i), reading(h.Intake[k]), style.As(book.Flow))
			p.s.Set(p.row, p.column(i)+1, reading(h.Exhaust[k]), style.As(book.Flow))
		}
		p.row++
	}
	p.s.Say(p.row, 1, "Bold: your lift. A blank was not tested that far; a lift between two readings is read off the curve.", book.Note)
	p.row += 2
}

func reading(f compare.FlowAt) book.Value {
	if f.Flow <= 0 {
		return book.Value{}
	}
	return book.Number(math.Round(f.Flow.CFM()))
}

// tidy drops the last bits that a unit conversion leaves.
func tidy(x float64) float64 { return math.Round(x*1e6) / 1e6 }

// chart draws the intake figures of the table above.
func (p *page) chart() {
	first, last := p.flows+1, p.flows+len(p.Lifts)
	x := p.s.Area(first, 1, last, 1)
	var series []book.Series
	highest := 0.0
	for i, h := range p.Heads {
		col := p.column(i)
		for _, f := range h.Intake {
			highest = max(highest, f.Flow.CFM())
		}
		series = append(series, book.Series{Name: p.s.Area(p.flows, col, p.flows, col), X: x, Y: p.s.Area(first, col, last, col), Look: book.Looks(i)})
	}
	const step, wide, high, rowsTall = 50, 760, 260, 20
	low, top := 0.0, math.Ceil((highest+1)/step)*step
	left, right := 0.1, math.Ceil(slices.Max(p.Lifts).In()*10)/10
	p.s.Draw(book.Chart{
		Title:  "Intake flow",
		X:      book.Axis{Title: "lift at the valve, in", Format: book.Lift, Min: &left, Max: &right, Step: 0.1},
		Y:      book.Axis{Title: "cfm", Format: book.Flow, Min: &low, Max: &top, Step: step},
		Series: series,
	}, p.row, 1, wide, high)
	p.row += rowsTall
}

func (p *page) foot() {
	for _, c := range p.Cautions {
		p.prose(c, book.Prose)
	}
	for _, h := range p.Heads {
		p.prose(fmt.Sprintf("%s: %s.", h.Name, h.Conditions), book.Note.Wrapped())
	}
	for _, t := range p.Taken {
		p.prose("Note: "+t+".", book.Note.Wrapped())
	}
	p.row++
	p.prose(fmt.Sprintf("Prices are for a set of %d heads, valid until %s. Ask us about tax and freight.", p.HeadsPerSet, p.ValidUntil.Format(time.DateOnly)),
		book.Prose.Strong())
}

func (p *page) prose(words string, style book.Style) {
	p.s.Across(p.row, 1, p.last(), book.Cell{Value: book.Text(words), Style: style})
	p.row++
}
