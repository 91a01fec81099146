package review

import (
	"cmp"
	"fmt"
	"slices"
	"time"

	"github.com/shopspring/decimal"

	"flowshelf/analysis/compare"
	"flowshelf/analysis/head"
	"flowshelf/analysis/pricelist"
	"flowshelf/analysis/quantity"
	"flowshelf/analysis/source"
	"flowshelf/analysis/value"
)

// PriceMove is a cost or a sell price that moved, is about to, or may have.
// Money is a set.
type PriceMove struct {
	Head, Family    string
	State           string // "in force", "from 2026-04-01", "waits: ..."
	InForce         bool
	List            string
	Old, New        source.Stated[quantity.Money] // landed
	Change          compare.Maybe                 // share of the old cost
	OldSell, Sell   source.Stated[quantity.Money]
	MarginBefore    compare.Maybe
	MarginNow       compare.Maybe                 // with the new cost at the present sell price
	Hold            source.Stated[quantity.Money] // sell price that holds the margin
	PlaceBefore     string
	PlaceNow        string
	PlaceAtHold     string // the place at the sell price that holds the margin
	costMoved, rise bool
}

// priceMoves lists what moved since the month before, and the lists that are to
// come or wait for an answer.
func (m *month) priceMoves() []PriceMove {
	var out []PriceMove
	for i := range m.heads {
		h := &m.heads[i]
		if p, ok := m.movedSince(h); ok {
			out = append(out, p)
		}
		out = append(out, m.toCome(h)...)
	}
	slices.SortStableFunc(out, func(a, b PriceMove) int {
		return cmp.Or(compare.FalseFirst(!a.InForce, !b.InForce), cmp.Compare(a.State, b.State))
	})
	return out
}

// movedSince compares a head's cost and sell price with the month before.
func (m *month) movedSince(h *compare.OnShelf) (PriceMove, bool) {
	if m.before == nil {
		return PriceMove{}, false
	}
	old := m.before.Head(h.Listed.Name)
	if old == nil || h.Family.HeadsPerSet < 1 {
		return PriceMove{}, false
	}
	p := PriceMove{Head: h.Listed.Name, Family: h.Family.Name, State: "in force", InForce: true, List: h.Cost.List, OldSell: old.Sell, Sell: h.Cost.Sell}
	if old.Landed.Known {
		perSet := h.Family.HeadsPerSet
		if old.HeadsPerSet.Known {
			perSet = old.HeadsPerSet.Value
		}
		p.Old = source.Say(old.Landed.Value.Times(perSet), old.Landed.Trace)
	}
	m.newCost(&p, h.Cost.Landed, h.Family.HeadsPerSet)
	p.costMoved = p.Old.Known && p.New.Known && !same(p.Old.Value, p.New.Value)
	sellMoved := old.Sell.Known && h.Cost.Sell.Known && !same(old.Sell.Value, h.Cost.Sell.Value)
	if !p.costMoved && !sellMoved {
		return p, false
	}
	m.margins(&p, old.Sell)
	return p, true
}

func same(a, b quantity.Money) bool { return a.Amount.Equal(b.Amount) && a.Currency == b.Currency }

func (m *month) newCost(p *PriceMove, landed source.Stated[quantity.Money], perSet int) {
	if landed.Known {
		p.New = source.Say(landed.Value.Times(perSet), landed.Trace)
	}
	if p.Old.Known && p.New.Known && p.Old.Value.Amount.IsPositive() {
		change := p.New.Value.Amount.Div(p.Old.Value.Amount).Sub(decimal.NewFromInt(1))
		p.Change = known(change.InexactFloat64())
		p.rise = change.IsPositive()
	}
}

// margins works out what is earned before and now, and what would hold it.
func (m *month) margins(p *PriceMove, oldSell source.Stated[quantity.Money]) {
	p.MarginBefore.Why, p.MarginNow.Why = "no cost or sell price", "no cost or sell price"
	var before decimal.Decimal
	if oldSell.Known && p.Old.Known && oldSell.Value.Amount.IsPositive() {
		before = decimal.NewFromInt(1).Sub(p.Old.Value.Amount.Div(oldSell.Value.Amount))
		p.MarginBefore = known(before.InexactFloat64())
	}
	if p.Sell.Known && p.New.Known {
		if e, err := value.Earn(p.Sell.Value, p.New.Value); err == nil {
			p.MarginNow = known(e.Margin)
		}
	}
	if p.MarginBefore.Known && p.New.Known {
		if hold, err := value.PriceAtMargin(p.New.Value, before); err == nil {
			p.Hold = source.Say(m.rules.ended(hold), source.Trace{Steps: []string{"new landed / (1 - margin before)"}})
		}
	}
	m.places(p)
}

// ended is a price that is suggested: one that ends as the shop's prices do, or
// in whole money where the shop has not said how.
func (y Yardsticks) ended(x quantity.Money) quantity.Money {
	if every, _ := y.Ending.Step(); every.IsZero() {
		x.Amount = x.Amount.Round(0)
		return x
	}
	x.Amount = y.Ending.Up(x.Amount)
	return x
}

// places are the head's place before, now, and at the price that holds the margin.
func (m *month) places(p *PriceMove) {
	p.PlaceBefore, p.PlaceNow, p.PlaceAtHold = "not kept", "-", "-"
	s, ranked := m.ranked(p.Head)
	if m.before != nil {
		p.PlaceBefore = "-"
		if ranked {
			if old := m.before.Place(p.Family, s.Label); old != nil {
				p.PlaceBefore = placeWords(old.Number, old.Shared)
			}
		}
	}
	if !ranked {
		return
	}
	p.PlaceNow = placeWords(s.Place.Number, s.Place.Shared)
	if !p.Hold.Known || !p.Sell.Known {
		return
	}
	dearer := p.Hold.Value.Amount.Sub(p.Sell.Value.Amount)
	var offers []compare.Standing
	at := -1
	for i := range s.family.Ranked {
		e := &s.family.Ranked[i]
		o := standingOf(e, s.family.Worth.PerCFM)
		if e.Head == p.Head { // all states of the head sell at its price
			o.Usable.Amount = o.Usable.Amount.Add(dearer)
		}
		if e.Label == s.Label {
			at = len(offers)
		}
		offers = append(offers, o)
	}
	if place := compare.Standings(offers, m.Shop.Rules.TieUntil)[at]; s.family.Worth.Known {
		p.PlaceAtHold = placeWords(place.Number, place.Shared)
	}
}

func standingOf(e *compare.Entry, worth float64) compare.Standing {
	return compare.Standing{Label: e.Label, Working: e.Intake.Working.Value, WorkingU: e.Intake.WorkingU, Usable: e.Cost.Usable.Value,
		Worth: worth, BoreHow: e.Intake.BoreHow}
}

// toCome works out the lists that are not in force: those with a later date, and
// those that wait for an answer.
func (m *month) toCome(h *compare.OnShelf) []PriceMove {
	var out []PriceMove
	for _, coming := range h.Cost.Coming {
		cost := m.costOn(h, h.Prices, coming.Effective.Value)
		if p, ok := m.priceToCome(h, cost, "from "+coming.Effective.Value.Format(time.DateOnly)); ok {
			out = append(out, p)
		}
	}
	prices, why := answered(h.Prices, m.Date)
	if why != "" {
		if p, ok := m.priceToCome(h, m.costOn(h, prices, m.Date), "waits for an answer: "+why); ok {
			out = append(out, p)
		}
	}
	return out
}

// answered returns the prices as if those that wait were in force today, and why
// they wait.
func answered(prices []head.Price, today time.Time) ([]head.Price, string) {
	out, why := slices.Clone(prices), ""
	for i := range out {
		if p := &out[i]; p.Status == head.Asked {
			why = cmp.Or(why, p.Why, "its list is not clear")
			p.Status, p.Effective = head.Used, source.Say(today, p.Effective.Trace)
		}
	}
	return out, why
}

func (m *month) costOn(h *compare.OnShelf, prices []head.Price, on time.Time) pricelist.Cost {
	return pricelist.Find(pricelist.Question{Head: h.Listed, Heads: h.Family.HeadsPerSet, Prices: prices, Stock: h.Stock,
		Shop: m.Shop, On: on, Default: m.Shop.Rules.DefaultFreight})
}

func (m *month) priceToCome(h *compare.OnShelf, cost pricelist.Cost, state string) (PriceMove, bool) {
	p := PriceMove{Head: h.Listed.Name, Family: h.Family.Name, State: state, List: cost.List, OldSell: h.Cost.Sell, Sell: h.Cost.Sell}
	if h.Family.HeadsPerSet < 1 || !cost.Landed.Known {
		return p, false
	}
	if h.Cost.Landed.Known {
		p.Old = source.Say(h.Cost.Landed.Value.Times(h.Family.HeadsPerSet), h.Cost.Landed.Trace)
		if same(h.Cost.Landed.Value, cost.Landed.Value) {
			return p, false
		}
	}
	m.newCost(&p, cost.Landed, h.Family.HeadsPerSet)
	m.margins(&p, h.Cost.Sell)
	return p, true
}

// Words says in one sentence what the move asks for.
func (p *PriceMove) Words() string {
	if !p.New.Known || !p.MarginNow.Known {
		return ""
	}
	words := fmt.Sprintf("cost %s a set", Cash(p.New.Value))
	if p.Old.Known {
		words = fmt.Sprintf("cost %s, was %s a set", Cash(p.New.Value), Cash(p.Old.Value))
	}
	words += fmt.Sprintf("; margin %.1f %%", 100*p.MarginNow.Value)
	if p.MarginBefore.Known {
		words += fmt.Sprintf(", was %.1f %%", 100*p.MarginBefore.Value)
	}
	if p.Hold.Known && p.rise {
		words += fmt.Sprintf("; %s would hold it", price(p.Hold.Value))
	}
	return words
}
