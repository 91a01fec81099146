package review

import (
	"fmt"

	"flowshelf/analysis/compare"
	"flowshelf/analysis/history"
	"flowshelf/analysis/quantity"
)

// Totals are the money of the whole shelf.
type Totals struct {
	Cash, DeadCash quantity.Money
	DeadShare      compare.Maybe // of the cash
	Dead           []string
	Heads, Odd     int
	Left           []string // heads in stock without a cost, which no sum holds
}

func (m *month) totals(stock []Health) Totals {
	t := Totals{Cash: m.zero(), DeadCash: m.zero()}
	for i := range stock {
		h := &stock[i]
		t.Heads, t.Odd = t.Heads+h.OnHand.Value, t.Odd+h.Odd
		if !h.Cash.Known {
			t.Left = append(t.Left, h.Head)
			continue
		}
		sum, same := t.Cash.Add(h.Cash.Value)
		if !same {
			t.Left = append(t.Left, h.Head)
			continue
		}
		t.Cash = sum
		if h.Class == Dead {
			t.Dead = append(t.Dead, h.Head)
			t.DeadCash, _ = t.DeadCash.Add(h.Cash.Value)
		}
	}
	t.DeadShare.Why = "no money in stock"
	if t.Cash.Amount.IsPositive() {
		t.DeadShare = known(t.DeadCash.Amount.Div(t.Cash.Amount).InexactFloat64())
	}
	return t
}

// Candidate is a head that somebody's sheet offers and the shop does not stock.
type Candidate struct {
	Head, Family, Supplier, Words string
}

// candidate is a head without any stock line of which a sheet or list speaks.
func (m *month) candidate(s *compare.OnShelf) (Candidate, bool) {
	if len(s.Tests) == 0 && len(s.Prices) == 0 {
		return Candidate{}, false
	}
	c := Candidate{Head: s.Listed.Name, Family: s.Family.Name, Supplier: s.Listed.Supplier}
	switch entries := m.entries[s.Listed.Name]; {
	case len(entries) == 0:
		c.Words = "no curve that can be compared"
	case entries[0].list == history.Ranked:
		c.Words = fmt.Sprintf("place %s; %s", placeWords(entries[0].Place.Number, entries[0].Place.Shared), entries[0].Verdict)
	default:
		c.Words = string(entries[0].list) + "; " + entries[0].Verdict
	}
	if c.Family == "" {
		c.Words = "belongs to no family of the setup; " + c.Words
	}
	return c, true
}
