package review

import (
	"fmt"
	"math"

	"github.com/shopspring/decimal"

	"flowshelf/analysis/compare"
	"flowshelf/analysis/quantity"
	"flowshelf/analysis/source"
	"flowshelf/analysis/value"
)

// Class is how a head in stock moves.
type Class string

// The classes.
const (
	Mover   Class = "mover"
	Steady  Class = "steady"
	Slow    Class = "slow"
	Dead    Class = "dead"
	Order   Class = "to order" // none on hand, and too few sold to keep one
	Unknown Class = "not known"
)

// Health is one head in stock. Counts are heads and sets as named; money is in
// the shop's currency.
type Health struct {
	Head, Family, Supplier string
	HeadsPerSet            int

	OnHand    source.Stated[int] // heads
	Sets, Odd int                // whole sets, and heads left over
	Left      source.Stated[int] // of them, where a set takes left and right parts
	Right     source.Stated[int]
	OnOrder   source.Stated[int]
	Committed source.Stated[int]
	Sold12    source.Stated[float64] // sets
	Sold90    source.Stated[float64] // sets
	LastSale  source.Stated[float64] // months ago

	Months    compare.Maybe // of supply at the year's rate
	Landed    source.Stated[quantity.Money]
	Sell      source.Stated[quantity.Money]
	Cash      source.Stated[quantity.Money] // tied up in the heads on hand
	Margin    compare.Maybe                 // share of the sell price
	Markup    compare.Maybe                 // share of the landed cost
	MarginSet source.Stated[quantity.Money] // a set
	Least     source.Stated[quantity.Money] // sell price that leaves the minimum margin, where the present one leaves less
	Turns     compare.Maybe                 // a year
	Return    compare.Maybe                 // yearly margin money for each of money in stock

	LeadWeeks    source.Stated[float64]
	LeadDemand   compare.Maybe // sets sold during the lead time
	ReorderPoint compare.Maybe // sets
	Below        bool          // what is there and on order is below the reorder point
	Order        Suggestion
	Class        Class
	Remarks      []string // what a person should look at, in plain sentences
}

// weeksPerMonth is 52 weeks over 12 months.
const weeksPerMonth = 52.0 / 12

// MonthsWords prints the months of supply: "1.7", "99+" where nothing sells.
func (h *Health) MonthsWords() string {
	const most = 99
	switch {
	case h.Months.Known && h.Months.Value <= most:
		return fmt.Sprintf("%.1f", h.Months.Value)
	case h.Months.Known || h.nothingSold() && h.OnHand.Known && h.OnHand.Value > 0:
		return "99+"
	}
	return "not known"
}

func (h *Health) nothingSold() bool { return h.Sold12.Known && h.Sold12.Value == 0 }

// health works out one head in stock.
func (m *month) health(s *compare.OnShelf) Health {
	h := Health{
		Head: s.Listed.Name, Family: s.Family.Name, Supplier: s.Listed.Supplier, HeadsPerSet: s.Family.HeadsPerSet, Class: Unknown,
	}
	if s.StockWaits != "" {
		h.remark("its stock line is not used: %s", s.StockWaits)
	}
	if h.HeadsPerSet < 1 {
		h.remark("the setup does not say how many heads make a set, so sets cannot be counted")
	}
	if i := s.Stock; i != nil {
		h.OnHand, h.OnOrder, h.Committed = i.OnHand, i.OnOrder, i.Committed
		h.Left, h.Right = i.Left, i.Right
		h.Sold12, h.Sold90, h.LastSale, h.LeadWeeks = i.Sold12, i.Sold90, i.LastSale, i.LeadWeeks
	}
	h.check()
	m.money(&h, s)
	if h.OnHand.Known && h.HeadsPerSet > 0 {
		h.Sets, h.Odd = s.Stock.Sets(h.HeadsPerSet)
		m.supply(&h)
	} else {
		h.Months.Why = "heads on hand or heads a set not known"
	}
	m.reorder(&h)
	h.Class = m.rules.class(&h)
	m.remarks(&h)
	return h
}

// others are the remarks beside that on odd heads, which an order speaks of.
func (h *Health) others() []string {
	var out []string
	for _, r := range h.Remarks {
		if r != h.oddWords() {
			out = append(out, r)
		}
	}
	return out
}

// oddWords names the heads that make no set: "1 odd head", "1 odd head: 3 left
// and 2 right make 2 sets".
func (h *Health) oddWords() string {
	words := plural(h.Odd, "odd head")
	if h.Left.Known && h.Right.Known {
		words += fmt.Sprintf(": %d left and %d right make %s", h.Left.Value, h.Right.Value, plural(h.Sets, "set"))
	}
	return words
}

func (h *Health) remark(format string, args ...any) {
	h.Remarks = append(h.Remarks, fmt.Sprintf(format, args...))
}

// check sets figures aside that cannot be.
func (h *Health) check() {
	if h.OnHand.Known && h.OnHand.Value < 0 {
		h.remark("the book says %d heads on hand, less than nothing: count them", h.OnHand.Value)
		h.OnHand = source.Stated[int]{}
	}
	for _, x := range []*source.Stated[float64]{&h.Sold12, &h.Sold90, &h.LastSale, &h.LeadWeeks} {
		if x.Known && !(x.Value >= 0 && !math.IsInf(x.Value, 1)) {
			h.remark("a figure of the stock book cannot be (%v) and is not used", x.Value)
			*x = source.Stated[float64]{}
		}
	}
}

// money works out what a set costs, earns and ties up, in exact sums.
func (m *month) money(h *Health, s *compare.OnShelf) {
	landed := s.Cost.Landed
	if h.HeadsPerSet > 0 && landed.Known {
		h.Landed = source.Say(landed.Value.Times(h.HeadsPerSet), landed.Trace.Then(fmt.Sprintf("x %d heads", h.HeadsPerSet)))
	}
	if landed.Known && h.OnHand.Known {
		h.Cash = source.Say(landed.Value.Times(h.OnHand.Value), landed.Trace.Then(fmt.Sprintf("x %d heads on hand", h.OnHand.Value)))
	}
	if !landed.Known {
		h.remark("no landed cost: %s", s.Cost.Missing)
	}
	h.Sell = s.Cost.Sell
	if !h.Sell.Known {
		words := "no sell price is set"
		if p, err := value.PriceAtMargin(h.Landed.Value, decimal.NewFromFloat(m.rules.TargetMargin)); err == nil && h.Landed.Known {
			words += fmt.Sprintf("; %s would leave the target margin of %.0f %%", m.cash(p), 100*m.rules.TargetMargin)
		}
		h.remark("%s", words)
	}
	h.Margin.Why, h.Markup.Why = "no landed cost or no sell price", "no landed cost or no sell price"
	if !h.Landed.Known || !h.Sell.Known {
		return
	}
	earned, err := value.Earn(h.Sell.Value, h.Landed.Value)
	if err != nil {
		h.Margin.Why, h.Markup.Why = err.Error(), err.Error()
		return
	}
	h.Margin, h.Markup = known(earned.Margin), known(earned.Markup)
	h.MarginSet = source.Say(earned.Amount, source.Trace{Steps: []string{"sell less landed, a set"}})
	m.thin(h)
}

// thin flags a margin below the shop's minimum, and says which price would leave
// it.
func (m *month) thin(h *Health) {
	least := decimal.NewFromFloat(m.rules.LeastMargin)
	p, err := value.PriceAtMargin(h.Landed.Value, least)
	if h.MarginSet.Value.Amount.IsNegative() {
		h.remark("it sells below its landed cost")
	}
	if err != nil || h.Margin.Value >= m.rules.LeastMargin {
		return
	}
	h.Least = source.Say(m.rules.ended(p), source.Trace{Steps: []string{"landed / (1 - minimum margin)"}})
	h.remark("its margin of %.1f %% is below the minimum of %s %%", 100*h.Margin.Value, plain(100*m.rules.LeastMargin))
}

// supply is what the stock lasts and earns at the year's rate:
//
//	months = heads on hand / heads a set / sets sold in 12 months x 12
//	turns = 12/months, return = yearly margin money / money in stock
func (m *month) supply(h *Health) {
	switch {
	case !h.Sold12.Known:
		h.Months.Why = "sales of twelve months not stated"
	case h.Sold12.Value == 0:
		h.Months.Why = "nothing sold in twelve months"
	default:
		h.Months = known(float64(h.OnHand.Value) / float64(h.HeadsPerSet) / h.Sold12.Value * 12)
	}
	h.Turns.Why, h.Return.Why = h.Months.Why, h.Months.Why
	if !h.Sold12.Known {
		return
	}
	if h.OnHand.Value == 0 {
		h.Turns.Why, h.Return.Why = "none on hand", "none on hand"
		return
	}
	h.Turns = known(h.Sold12.Value * float64(h.HeadsPerSet) / float64(h.OnHand.Value))
	if !h.MarginSet.Known || !h.Cash.Known || !h.Cash.Value.Amount.IsPositive() {
		h.Return.Why = h.Margin.Why
		return
	}
	h.Return = known(h.Sold12.Value * h.MarginSet.Value.Float() / h.Cash.Value.Float())
}

// class sorts a head by how it moves.
func (y Yardsticks) class(h *Health) Class {
	switch {
	case !h.OnHand.Known || !h.Sold12.Known:
		return Unknown
	case h.OnHand.Value == 0 && h.Sold12.Value < y.StockFrom:
		return Order
	}
	slow := h.nothingSold() && h.OnHand.Value > 0 || h.Months.Known && h.Months.Value > y.SlowMonths
	quiet := h.LastSale.Known && h.LastSale.Value >= y.DeadMonths || h.nothingSold() && !h.LastSale.Known
	switch {
	case slow && quiet:
		return Dead
	case slow:
		return Slow
	case h.Months.Known && h.Months.Value < y.MoverMonths:
		return Mover
	}
	return Steady
}

// surelyStopped is the chance below which a silence is no accident.
const surelyStopped = 0.05

// remarks names what the figures of a head hint at.
func (m *month) remarks(h *Health) {
	switch {
	case h.Left.Known != h.Right.Known:
		h.remark("only one of its two parts has a line in the newest stock book, so sets cannot be counted")
	case h.Odd != 0:
		h.remark("%s", h.oddWords())
	}
	if !h.Sold12.Known || !h.LastSale.Known || h.Sold12.Value < m.rules.StockFrom {
		return
	}
	// Sales that come by chance at the year's rate leave a gap as long as this
	// with probability exp(-rate x gap) (Poisson process).
	if rate := h.Sold12.Value / 12; math.Exp(-rate*h.LastSale.Value) < surelyStopped {
		h.remark("%s sets sold in twelve months and none for %.1f months: season, or lost to another head?", plain(h.Sold12.Value), h.LastSale.Value)
	}
}
