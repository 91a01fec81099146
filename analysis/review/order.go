package review

import (
	"fmt"
	"math"

	"flowshelf/analysis/quantity"
	"flowshelf/analysis/source"
)

// Suggestion is how many heads to order.
type Suggestion struct {
	Heads int // the suggestion, 0 for none
	Sets  int // whole sets that will be on hand with it
	Not   int // the number nearest to the demand, where it would leave an odd head; 0 where it would not
	Left  int // of the suggestion, where a set takes left and right parts
	Right int
	Cost  source.Stated[quantity.Money] // of the suggestion
}

// reorder works out when and how much to order. The reorder point is the demand
// in the lead time plus the safety months; an order brings the stock up to the
// normal months on top of the lead time.
func (m *month) reorder(h *Health) {
	h.LeadDemand.Why, h.ReorderPoint.Why = "sales or lead time not stated", "sales or lead time not stated"
	if !h.Sold12.Known || !h.LeadWeeks.Known || h.HeadsPerSet < 1 {
		return
	}
	rate, lead := h.Sold12.Value/12, h.LeadWeeks.Value/weeksPerMonth
	h.LeadDemand = known(rate * lead)
	h.ReorderPoint = known(rate * (lead + m.rules.SafetyMonths))
	if !h.OnHand.Known || h.Sold12.Value < m.rules.StockFrom || h.Left.Known != h.Right.Known {
		return
	}
	there := h.OnHand.Value + h.OnOrder.Value - h.Committed.Value
	handed := h.Left.Known && h.Right.Known
	if handed { // odd parts of one hand sell nothing
		there -= h.Odd
	}
	h.Below = float64(there)/float64(h.HeadsPerSet) <= h.ReorderPoint.Value
	if !h.Below {
		return
	}
	wanted := rate*(m.rules.OrderMonths+lead)*float64(h.HeadsPerSet) - float64(there)
	h.Order = suggest(wanted, there, h.HeadsPerSet)
	if handed {
		h.Order = h.byHand()
	}
	if h.Order.Heads > 0 && h.Landed.Known {
		cost := h.Landed.Value.Times(h.Order.Heads)
		cost.Amount = cost.Amount.DivRound(whole(h.HeadsPerSet), 2)
		h.Order.Cost = source.Say(cost, h.Landed.Trace.Then(fmt.Sprintf("x %d of %d heads", h.Order.Heads, h.HeadsPerSet)))
	}
}

// byHand brings an order to left and right parts, so many of each that none of
// those on hand is left odd. What is on order is taken to come in sets.
func (h *Health) byHand() Suggestion {
	s := h.Order
	if s.Heads == 0 {
		return s
	}
	each := (h.Sets + s.Heads/h.HeadsPerSet) * max(h.HeadsPerSet/2, 1) // of either hand, on the shelf with the order
	s.Left, s.Right = max(each-h.Left.Value, 0), max(each-h.Right.Value, 0)
	s.Heads, s.Not = s.Left+s.Right, 0
	return s
}

// suggest rounds a wanted number of heads up to one that leaves none odd: whole
// sets of what is there and what comes, and no fewer than are wanted.
func suggest(wanted float64, there, perSet int) Suggestion {
	const (
		mostHeads = 1e6  // beyond it the sales figure is wrong, not the order large
		rounding  = 1e-9 // of a head, which is no head more
	)
	if !(wanted > 0) || wanted > mostHeads {
		return Suggestion{}
	}
	least := max(int(math.Ceil(wanted-rounding)), 1)
	s := Suggestion{Heads: least}
	for mod(there+s.Heads, perSet) != 0 {
		s.Heads++
	}
	s.Sets = (there + s.Heads) / perSet
	if nearest := int(math.Round(wanted)); nearest > 0 && nearest < s.Heads && mod(there+nearest, perSet) != 0 {
		s.Not = nearest
	}
	return s
}

// What words the suggestion: "11 heads, not 10", "4 heads".
func (s Suggestion) What() string {
	switch {
	case s.Heads == 0:
		return ""
	case s.Left+s.Right > 0:
		return fmt.Sprintf("%d left and %d right", s.Left, s.Right)
	case s.Not == 0:
		return plural(s.Heads, "head")
	}
	return fmt.Sprintf("%s, not %d", plural(s.Heads, "head"), s.Not)
}

func mod(a, n int) int { return ((a % n) + n) % n }
