package compare

import (
	"fmt"

	"flowshelf/analysis/head"
	"flowshelf/analysis/source"
)

// hands are the lines of a head that comes as left and right parts.
type hands struct{ left, right *head.StockItem }

// take keeps a part's line in its newest book, and reports whether it is a part.
func (h *hands) take(item *head.StockItem) bool {
	at := &h.left
	switch item.Hand {
	case head.EitherSide:
		return false
	case head.RightHand:
		at = &h.right
	case head.LeftHand:
	}
	if *at == nil {
		*at = item
	}
	return true
}

// joined is one line for both parts, nil when there is none. A part without a
// line in the newest of the two books leaves its count unknown, never none.
func (h *hands) joined() *head.StockItem {
	left, right := h.left, h.right
	switch {
	case left == nil && right == nil:
		return nil
	case left == nil || right != nil && compareDates(left.Date, right.Date) < 0:
		left = nil
	case right == nil || compareDates(right.Date, left.Date) < 0:
		right = nil
	}
	if left == nil || right == nil {
		return alone(left, right)
	}
	out := *left
	out.Hand, out.Left, out.Right = head.EitherSide, left.OnHand, right.OnHand
	out.OnHand = both(left.OnHand, right.OnHand)
	out.Committed, out.OnOrder = both(left.Committed, right.Committed), both(left.OnOrder, right.OnOrder)
	share := 1.0
	if left.SoldIn == head.Set {
		share = 0.5 // each part's line counts the sets
	}
	out.Sold12, out.Sold90 = together(left.Sold12, right.Sold12, share), together(left.Sold90, right.Sold90, share)
	if right.LastSale.Known && (!out.LastSale.Known || right.LastSale.Value < out.LastSale.Value) {
		out.LastSale = right.LastSale
	}
	if right.LeadWeeks.Known && (!out.LeadWeeks.Known || right.LeadWeeks.Value > out.LeadWeeks.Value) {
		out.LeadWeeks = right.LeadWeeks
	}
	return &out
}

// alone is the line of a part whose counterpart has none.
func alone(left, right *head.StockItem) *head.StockItem {
	if left != nil {
		out := *left
		out.Hand, out.Left = head.EitherSide, left.OnHand
		return &out
	}
	out := *right
	out.Hand, out.Right = head.EitherSide, right.OnHand
	return &out
}

// both adds two counts; one that is not stated leaves the sum unknown unless
// neither is.
func both(a, b source.Stated[int]) source.Stated[int] {
	if !a.Known || !b.Known {
		return source.Stated[int]{}
	}
	return source.Say(a.Value+b.Value, a.Trace.Then(fmt.Sprintf("left %d + right %d, %s", a.Value, b.Value, b.Trace.At)))
}

// together brings two sales figures to those of the head: their sum times a
// share.
func together(a, b source.Stated[float64], share float64) source.Stated[float64] {
	if !a.Known || !b.Known {
		return source.Stated[float64]{}
	}
	return source.Say((a.Value+b.Value)*share, a.Trace.Then(fmt.Sprintf("left %g and right %g, %s", a.Value, b.Value, b.Trace.At)))
}
