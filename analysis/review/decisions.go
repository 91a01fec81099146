package review

import (
	"cmp"
	"fmt"
	"slices"
	"strings"

	"flowshelf/analysis/compare"
	"flowshelf/analysis/engine"
	"flowshelf/analysis/quantity"
	"flowshelf/analysis/source"
)

// Action is what to do about a head.
type Action string

// The actions, the most urgent first.
const (
	Reorder  Action = "reorder"
	Reprice  Action = "reprice"
	ClearOut Action = "clear out"
	Stop     Action = "stop buying"
	Show     Action = "show it"
	TestNext Action = "test next"
	Keep     Action = "keep"
)

// Decision is one thing to do, why, and the money it is about.
type Decision struct {
	Head, Family string
	Action       Action
	What         string // "5 sets", "to $2,413"
	Reason       string
	Dollars      source.Stated[quantity.Money]
	About        string // what the money is: "this order", "tied up"
}

// mostTests is how many tests a month's page asks for.
const mostTests = 3

// decisions draws the page of decisions from the rest of the review.
func (m *month) decisions(r *Review) []Decision {
	var out []Decision
	for i := range r.Stock {
		out = append(out, m.stockDecision(&r.Stock[i]))
	}
	out = append(out, repricings(r)...)
	for i, t := range r.Tests {
		if i == mostTests {
			break
		}
		out = append(out, Decision{Head: t.Head, Family: t.Family, Action: TestNext, What: t.What, Reason: t.Reason, Dollars: t.Dollars, About: t.About})
	}
	urgency := []Action{Reorder, Reprice, ClearOut, Stop, Show, TestNext, Keep}
	slices.SortStableFunc(out, func(a, b Decision) int {
		return cmp.Or(cmp.Compare(slices.Index(urgency, a.Action), slices.Index(urgency, b.Action)),
			b.Dollars.Value.Amount.Cmp(a.Dollars.Value.Amount))
	})
	return out
}

// repricings are the prices to be raised: a cost went up, or the margin is below
// the shop's minimum. A head that has both is named once, with the higher price;
// one that is to be cleared out is not made dearer.
func repricings(r *Review) []Decision {
	var out []Decision
	for i := range r.Prices {
		if d, ok := repricing(&r.Prices[i]); ok {
			out = append(out, d)
		}
	}
	for i := range r.Stock {
		h := &r.Stock[i]
		if !h.Least.Known || h.Class == Dead {
			continue
		}
		at := slices.IndexFunc(out, func(d Decision) bool { return d.Head == h.Head })
		more := h.Least.Value.Amount.Sub(h.Sell.Value.Amount)
		switch {
		case at < 0:
			out = append(out, Decision{Head: h.Head, Family: h.Family, Action: Reprice, What: "to " + price(h.Least.Value), Reason: joined(h.Remarks),
				Dollars: source.Say(quantity.Of(more, h.Sell.Value.Currency), source.Trace{}), About: "more a set"})
		case more.GreaterThan(out[at].Dollars.Value.Amount):
			out[at].What, out[at].Dollars = "to "+price(h.Least.Value), source.Say(quantity.Of(more, h.Sell.Value.Currency), source.Trace{})
			out[at].Reason += "; " + joined(h.Remarks)
		}
	}
	return out
}

func repricing(p *PriceMove) (Decision, bool) {
	if !p.InForce || !p.costMoved || !p.rise || !p.Hold.Known || !p.Sell.Known || p.Hold.Value.Amount.LessThanOrEqual(p.Sell.Value.Amount) {
		return Decision{}, false
	}
	more := quantity.Of(p.Hold.Value.Amount.Sub(p.Sell.Value.Amount), p.Sell.Value.Currency)
	d := Decision{Head: p.Head, Family: p.Family, Action: Reprice, What: "to " + price(p.Hold.Value), Reason: p.Words(),
		Dollars: source.Say(more, source.Trace{}), About: "more a set"}
	if p.PlaceAtHold != "-" {
		d.Reason += fmt.Sprintf("; place %s at that price, %s now", p.PlaceAtHold, p.PlaceNow)
	}
	return d, true
}

// stockDecision decides about one head in stock.
func (m *month) stockDecision(h *Health) Decision {
	d := Decision{Head: h.Head, Family: h.Family, Action: Keep, Dollars: h.Cash, About: "tied up"}
	reasons := []string{m.supplyWords(h)}
	if h.Order.Heads > 0 {
		d.Action, d.Dollars, d.About = Reorder, h.Order.Cost, "this order"
		d.What, d.About = h.Order.What(), "for "+plural(h.Order.Heads, "head")
		d.Reason = joined(append(append(reasons, m.orderReason(h)), h.others()...))
		return d
	}
	switch h.Class {
	case Dead, Slow:
		d.Action, d.What, reasons = m.unsold(h, reasons)
	case Order:
		reasons = append(reasons, fmt.Sprintf("special order only: fewer than %s sets a year are not worth stocking", plain(m.rules.StockFrom)))
		if h.LeadWeeks.Known {
			reasons = append(reasons, plain(h.LeadWeeks.Value)+" weeks")
		}
	case Unknown:
		reasons = []string{"cannot be judged: sales or stock not known"}
	case Mover, Steady:
		if s, ok := m.ranked(h.Head); ok && s.IsBase {
			reasons = append(reasons, "the base head")
		}
	}
	d.Reason = joined(append(reasons, h.Remarks...))
	return d
}

// unsold decides about a head that hardly sells by what it is as a buy, as the
// grid of value and movement does: a good one is shown, not given up.
func (m *month) unsold(h *Health, reasons []string) (do Action, what string, because []string) {
	s, ok := m.ranked(h.Head)
	if quality, words := m.quality(h.Head); quality == goodValue {
		reasons = append(reasons, words)
		if s.Place.Group > 1 { // it is behind the leader at what a cfm is worth here
			reasons = append(reasons, m.clearing(h)...)
		}
		return Show, "do not reorder yet", reasons
	}
	switch {
	case h.Class == Slow && ok && s.IsBase:
		return Keep, "", append(reasons, "the base head: it stays")
	case h.Class == Dead:
		do = ClearOut
	default:
		do = Stop
	}
	return do, "", append(reasons, m.clearing(h)...)
}

func joined(reasons []string) string {
	return strings.Join(slices.DeleteFunc(reasons, func(s string) bool { return s == "" }), "; ")
}

func (m *month) supplyWords(h *Health) string {
	switch {
	case h.Class == Order:
		return "none on hand, " + plain(h.Sold12.Value) + " sets sold in twelve months"
	case h.nothingSold() && h.OnHand.Value > 0:
		return "nothing sold in twelve months"
	case h.Months.Known:
		words := h.MonthsWords() + " months of supply"
		if h.LastSale.Known && (h.Class == Dead) {
			words += fmt.Sprintf(", nothing sold for %.1f months", h.LastSale.Value)
		}
		return words
	}
	return ""
}

func (m *month) orderReason(h *Health) string {
	var there []string
	there = append(there, plural(h.Sets, "set"))
	if h.Odd > 0 {
		there = append(there, fmt.Sprintf("%d odd", h.Odd))
	}
	words := fmt.Sprintf("%s on hand, reorder point %.1f sets (%.1f in the lead time of %s weeks + %s months)", strings.Join(there, " + "),
		h.ReorderPoint.Value, h.LeadDemand.Value, plain(h.LeadWeeks.Value), plain(m.rules.SafetyMonths))
	return words
}

// clearing says who beats a head, and at which price it would still sell.
func (m *month) clearing(h *Health) []string {
	s, ok := m.ranked(h.Head)
	if !ok {
		return []string{m.noPlace(h.Head)}
	}
	leader := s.family.Ranked[0].Label
	var out []string
	if extra := needs(s.Entry); extra != "" {
		out = append(out, fmt.Sprintf("quote it all-in: %s with %s", m.cash(s.Cost.Usable.Value), extra))
	}
	switch {
	case !s.TiePrice.Known:
	case s.TieBelow == compare.BelowLanded:
		out = append(out, fmt.Sprintf("no price above its cost of %s beats %s: it would take %s", m.cash(h.Landed.Value), leader, m.amount(s.TiePrice.Value)))
	case s.TieBelow == compare.AboveLanded:
		out = append(out, fmt.Sprintf("at %s it ties %s, %s above its cost", m.amount(s.TiePrice.Value), leader, m.amount(s.TiePrice.Value-h.Landed.Value.Float())))
	}
	if s.Air.Verdict == "lazy" {
		out = append(out, suits(s))
	}
	return out
}

// noPlace says why a head has no place.
func (m *month) noPlace(name string) string {
	if len(m.entries[name]) == 0 {
		return "never tested here"
	}
	e := m.entries[name][0]
	if p := m.facts.Place(e.family.Family.Name, e.Label); p != nil && p.Why != "" {
		return "no place: " + p.Why
	}
	return "no place: " + string(e.list) + " only"
}

// needs names what has to be bought beside the head.
func needs(e *compare.Entry) string {
	total := quantity.Zero(e.Cost.Usable.Value.Currency)
	for _, l := range e.Cost.Lines {
		if l.Kind == compare.ExtraCost || l.Kind == compare.SpringCost {
			total, _ = total.Add(l.Amount)
		}
	}
	if total.Amount.IsZero() {
		return ""
	}
	return Cash(total) + " of extras"
}

// suits says from which speed on the family's engine is large enough for a port
// that is lazy in it.
func suits(s standing) string {
	f := s.family.Family
	of := engine.Engine{Bore: f.EngineBore.Value, Stroke: f.EngineStroke.Value, Cylinders: f.Cylinders.Value, RPM: f.EngineRPM.Value}
	if s.Dimensions == nil || !s.Air.Speed.Known || s.Air.Speed.Value <= 0 {
		return "its port is lazy in the family's engine"
	}
	lazy := engine.DefaultSpeedWindow().Lazy
	if f.Lazy.Known {
		lazy = f.Lazy.Value
	}
	const step = 50 // rpm: nobody speaks of less
	rpm := of.RPM * lazy.FtS() / s.Air.Speed.Value
	return fmt.Sprintf("offer it for engines that want a section of %.2f in2: %.3f x %.3f from about %.0f rpm", s.Dimensions.MinSection.Value.In2(),
		of.Bore.In(), of.Stroke.In(), roundUp(rpm, step))
}

func roundUp(x, step float64) float64 {
	n := float64(int(x / step))
	if n*step < x {
		n++
	}
	return n * step
}
