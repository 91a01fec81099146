package enquiry

import (
	"fmt"
	"regexp"
	"slices"
	"strings"
	"time"

	"flowshelf/analysis/compare"
	"flowshelf/analysis/head"
	"flowshelf/analysis/quantity"
	"flowshelf/analysis/review"
	"flowshelf/analysis/source"
)

// Sheet is all that a customer is shown. It has no field for cost, margin,
// suppliers, scores or the depth of stock, so that no writer can let them out.
type Sheet struct {
	Shop, Phone string
	Date        time.Time
	ValidUntil  time.Time
	Paper       head.Paper
	For         string // his engine and use
	Currency    string
	HeadsPerSet int
	Lift        quantity.Length // his
	Heads       []Shown
	Lifts       []quantity.Length
	Cautions    []string
	Taken       []string
}

// Shown is one head as a customer is shown it.
type Shown struct {
	Name, Role   string
	What         string // in words: material, process, work done
	Price        quantity.Money
	Needs        []Need
	AllIn        quantity.Money
	Allow        []string
	Intake       []compare.FlowAt // at the sheet's lifts; zero where it was not tested
	Exhaust      []compare.FlowAt
	Valves       string
	Runner       string
	Chamber      string
	Springs      string
	Availability string
	Conditions   string   // of the test
	Mind         []string // what speaks against it on his engine: dearer than he said, a port too small or too large
}

// Need is something else he has to buy or have done.
type Need struct {
	Item  string
	Price quantity.Money
}

// Customer returns what the customer is shown, and false when nothing can be
// offered. Heads that were never flowed here are not shown.
func (a *Answer) Customer() (Sheet, bool) {
	f := a.Family
	s := Sheet{
		Shop: a.Shop, Phone: a.Phone, Date: a.Date, ValidUntil: a.Date.AddDate(0, 0, a.rules.QuoteDays), Paper: a.rules.Paper, HeadsPerSet: f.HeadsPerSet, Lift: f.RangeTo,
		For: a.Engine, Taken: a.Taken,
		Cautions: []string{
			"Check valve-to-piston and valve-to-bore clearance on your own engine; milled heads and other valves change them.",
			"Check coil bind, spring loads and retainer-to-seal at your lift: the lift stated is the maker's.",
			"Push-rod length, rocker geometry, compression and the fit of headers, manifold and covers must be measured or tried.",
			"Flow is not power. The figures are of the samples tested, on the bore and at the pressure stated; another casting may differ by 2 to 3 %.",
		},
	}
	if a.Enquiry.Use != "" {
		s.For += ", " + a.Enquiry.Use
	}
	for _, at := range []float64{0.200, 0.300, 0.400, 0.500, 0.550} {
		s.Lifts = append(s.Lifts, quantity.Inches(at))
	}
	if !slices.ContainsFunc(s.Lifts, func(l quantity.Length) bool { return l.Near(s.Lift, sameLift) }) {
		s.Lifts = append(s.Lifts, s.Lift)
		slices.Sort(s.Lifts)
	}
	for i := range a.Offers {
		if o := &a.Offers[i]; o.Role != Unproven && o.AllIn.Known {
			s.Currency = o.AllIn.Value.Currency
			s.Heads = append(s.Heads, a.shown(o, s.Lifts))
			s.soonest(o.Cost.Coming)
		}
	}
	a.unname(&s)
	return s, len(s.Heads) > 0
}

// unname takes the names of suppliers out of everything that somebody typed.
func (a *Answer) unname(s *Sheet) {
	var words []string
	for _, name := range a.suppliers {
		words = append(words, regexp.QuoteMeta(name))
	}
	if len(words) == 0 {
		return
	}
	named := regexp.MustCompile(`(?i)(` + strings.Join(words, "|") + `)`)
	mend := func(text *string) { *text = named.ReplaceAllString(*text, "the maker") }
	mend(&s.For)
	for i := range s.Heads {
		h := &s.Heads[i]
		mend(&h.Name)
		mend(&h.What)
		mend(&h.Conditions)
		for j := range h.Needs {
			mend(&h.Needs[j].Item)
		}
		for j := range h.Allow {
			mend(&h.Allow[j])
		}
	}
	for i := range s.Taken {
		mend(&s.Taken[i])
	}
}

const sameLift quantity.Length = 0.0005

// soonest lets a quote end before a list that is to come.
func (s *Sheet) soonest(coming []head.Price) {
	for _, p := range coming {
		if p.Effective.Known && p.Effective.Value.Before(s.ValidUntil) && p.Effective.Value.After(s.Date) {
			s.ValidUntil = p.Effective.Value.AddDate(0, 0, -1)
		}
	}
}

func (a *Answer) shown(o *Offer, lifts []quantity.Length) Shown {
	h := Shown{Name: o.Label, Role: string(o.Role), What: what(o.Entry), Price: o.Cost.Sell.Value, AllIn: o.AllIn.Value, Allow: o.Allow,
		Availability: availability(o.Entry, a.Family.HeadsPerSet), Conditions: conditions(o.Entry), Mind: a.mind(o.Entry)}
	for _, l := range o.Cost.Lines {
		if l.Kind != compare.HeadsCost {
			h.Needs = append(h.Needs, Need{l.Item, l.Amount})
		}
	}
	for _, at := range lifts {
		in, _ := o.Intake.At(at)
		h.Intake = append(h.Intake, in)
		var ex compare.FlowAt
		if o.Exhaust != nil {
			ex, _ = o.Exhaust.At(at)
		}
		h.Exhaust = append(h.Exhaust, ex)
	}
	h.Valves, h.Runner, h.Chamber, h.Springs = "not stated", "not stated", "not stated", "not stated"
	if d := o.Dimensions; d != nil {
		if d.IntakeValve.Known && d.ExhaustValve.Known {
			h.Valves = fmt.Sprintf("%.3f / %.3f in", d.IntakeValve.Value.In(), d.ExhaustValve.Value.In())
			if d.IntakeValve.Trace.Foreign() == "mm" && d.ExhaustValve.Trace.Foreign() == "mm" {
				h.Valves = fmt.Sprintf("%.4g / %.4g mm (%s)", d.IntakeValve.Value.MM(), d.ExhaustValve.Value.MM(), h.Valves)
			}
		}
		h.Runner, h.Chamber = cc(d.Runner), cc(d.Chamber)
		if d.MaxLift.Known {
			h.Springs = "to " + asHeSays(d.MaxLift, lift(d.MaxLift.Value)) + " by the maker"
		}
	}
	return h
}

// mind is what the customer has to know that speaks against a head.
func (a *Answer) mind(e *compare.Entry) []string {
	var out []string
	if cost, b := e.Cost.Usable.Value, a.Enquiry.Budget; b.Known && cost.Amount.GreaterThan(b.Value.Amount) && (b.Value.Currency == "" || b.Value.Currency == cost.Currency) {
		out = append(out, fmt.Sprintf("%s more than the %s you named", review.Cash(above(cost, b.Value)), review.Cash(b.Value)))
	}
	size := map[string]string{"choked": "small", "lazy": "large"}[e.Air.Verdict]
	if e.Air.Speed.Known && size != "" {
		out = append(out, fmt.Sprintf("its port is %s for your engine: air speed %.0f ft/s at its smallest section (%s)", size, e.Air.Speed.Value, e.Air.Verdict))
	}
	kit := slices.ContainsFunc(e.Cost.Lines, func(l compare.CostLine) bool { return l.Kind == compare.SpringCost })
	if e.SpringsTo.Known && e.SpringsTo.Spare < -1e-6 && !kit {
		out = append(out, "its springs "+e.SpringsTo.Words)
	}
	return out
}

func cc(v source.Stated[quantity.Volume]) string {
	if !v.Known {
		return "not stated"
	}
	return fmt.Sprintf("%.0f cc", v.Value.CC())
}

// what describes a head in words, without who made it.
func what(e *compare.Entry) string {
	var out []string
	if d := e.Dimensions; d != nil {
		out = append(out, d.Material, d.Process)
	}
	if e.State != "" && e.State != "as delivered" {
		out = append(out, "with our "+e.State)
	}
	return strings.Join(slices.DeleteFunc(out, func(s string) bool { return s == "" }), ", ")
}

// availability says whether a set is there, never how many.
func availability(e *compare.Entry, perSet int) string {
	if e.Stock == nil || !e.Stock.OnHand.Known || perSet < 1 {
		return "ask us"
	}
	sets, _ := e.Stock.Sets(perSet)
	free := e.Stock.OnHand.Value - e.Stock.Committed.Value
	switch {
	case sets > 0 && free >= perSet:
		return "in stock"
	case e.Stock.LeadWeeks.Known && e.Stock.LeadWeeks.Value == 1:
		return "1 week"
	case e.Stock.LeadWeeks.Known:
		return fmt.Sprintf("%.4g weeks", e.Stock.LeadWeeks.Value)
	}
	return "to order"
}

func conditions(e *compare.Entry) string {
	p := e.Intake
	out := []string{"tested on our own bench"}
	if p.Pressure.Known {
		words := fmt.Sprintf("%.4g inH2O", p.Pressure.Value.InH2O())
		out = append(out, words)
	}
	if p.Bore.Known {
		words := fmt.Sprintf("bore %.3f", p.Bore.Value.In())
		if p.BoreHow == compare.BetweenOwnPair {
			words = "two bores, stated between them"
		}
		out = append(out, words)
	}
	if p.Entry != "" {
		out = append(out, p.Entry)
	}
	if e.Exhaust != nil {
		out = append(out, "exhaust "+e.Exhaust.Pipe.Words())
	}
	if p.Date.Known {
		out = append(out, p.Date.Value.Format(time.DateOnly))
	}
	return strings.Join(out, ", ")
}
