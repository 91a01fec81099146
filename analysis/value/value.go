// Package value weighs what a head flows against what it costs: value at a
// worth of a cfm, dollars a cfm, dollars an extra cfm, the efficient frontier,
// prices that tie, margin and rework.
//
// Every figure here takes cost and flow to the same scope: one set of heads,
// ready to use, and the mean flow of one port over the family's working range.
package value

import (
	"errors"
	"fmt"
	"math"

	"github.com/shopspring/decimal"

	"flowshelf/analysis/quantity"
	"flowshelf/analysis/stats"
)

// Offer is one head in one state at a usable cost.
type Offer struct {
	Name string
	Cost quantity.Money
	Flow quantity.Flow // working average
	U    quantity.Flow // its standard uncertainty
}

// Errors of offers that cannot be weighed.
var (
	ErrCurrency = errors.New("offers are in different currencies")
	ErrFlow     = errors.New("working average is not known")
)

// Check refuses an offer without a positive cost and flow.
func (o Offer) Check() error {
	if !o.Cost.Amount.IsPositive() {
		return fmt.Errorf("%s: cost of %s cannot be", o.Name, o.Cost.Amount)
	}
	if !(o.Flow > 0) || math.IsInf(o.Flow.CFM(), 1) || !(o.U >= 0) {
		return fmt.Errorf("%s: %w", o.Name, ErrFlow)
	}
	return nil
}

// checkAll refuses offers that cannot be weighed against one another.
func checkAll(offers []Offer) error {
	for _, o := range offers {
		if err := o.Check(); err != nil {
			return err
		}
		if o.Cost.Currency != offers[0].Cost.Currency {
			return ErrCurrency
		}
	}
	return nil
}

// Rate is an amount of money for a cfm of working average, in the currency of
// the offers it is used with.
type Rate float64

// times returns the money a flow is worth at the rate.
func (r Rate) times(q quantity.Flow) float64 { return float64(r) * q.CFM() }

// At returns the value of an offer at a worth of a cfm, worth x flow less cost,
// with the uncertainty worth x U: a price is exact. More is better; it orders a
// ranking, and only differences between offers mean anything. The offer must
// pass Check.
func (o Offer) At(worth Rate) stats.Score {
	return stats.Score{
		Value: worth.times(o.Flow) - o.Cost.Float(),
		U:     math.Abs(worth.times(o.U)),
	}
}

// PerCFM returns cost over flow and its standard uncertainty. It crowns the
// cheapest casting whatever it flows, so it is shown and never ranks. An error
// as Check.
func (o Offer) PerCFM() (rate, u Rate, err error) {
	if err := o.Check(); err != nil {
		return 0, 0, err
	}
	v, uv := stats.RatioU(o.Cost.Float(), 0, o.Flow.CFM(), o.U.CFM())
	return Rate(v), Rate(uv), nil
}

// PerExtraCFM returns what each cfm over the base costs more,
//
//	(C - C_base)/(q - q_base),
//
// negative when the offer is cheaper and flows more. False when it does not flow
// more than the base, or the currencies differ.
func (o Offer) PerExtraCFM(base Offer) (Rate, bool) {
	if !(o.Flow > base.Flow) || o.Cost.Currency != base.Cost.Currency {
		return 0, false
	}
	return Rate(o.Cost.Amount.Sub(base.Cost.Amount).InexactFloat64() / (o.Flow - base.Flow).CFM()), true
}

// NetBenefit returns what an offer gains over a base at a worth of a cfm,
// worth (q - q_base) - (C - C_base).
func (o Offer) NetBenefit(base Offer, worth Rate) float64 {
	return worth.times(o.Flow-base.Flow) - o.Cost.Amount.Sub(base.Cost.Amount).InexactFloat64()
}

// TieCost returns the usable cost at which an offer's value equals a rival's at
// a worth of a cfm, C_rival + worth (q - q_rival). It can be negative: then no
// price ties. ErrFlow when a flow or the worth is not a number.
func TieCost(flow quantity.Flow, rival Offer, worth Rate) (quantity.Money, error) {
	extra := worth.times(flow - rival.Flow)
	if math.IsNaN(extra) || math.IsInf(extra, 0) {
		return quantity.Money{}, ErrFlow
	}
	return quantity.Of(rival.Cost.Amount.Add(decimal.NewFromFloat(extra)), rival.Cost.Currency), nil
}

// TiePrice is TieCost less everything in the usable cost beside the sell price
// (extras, springs, rework): the sell price that ties.
func TiePrice(flow quantity.Flow, besidePrice quantity.Money, rival Offer, worth Rate) (quantity.Money, error) {
	cost, err := TieCost(flow, rival, worth)
	if err != nil {
		return quantity.Money{}, err
	}
	return lessBeside(cost, besidePrice)
}

// RatioTiePrice is the sell price at which dollars per cfm equal the rival's,
// q C_rival/q_rival less what comes beside the price.
func RatioTiePrice(flow quantity.Flow, besidePrice quantity.Money, rival Offer) (quantity.Money, error) {
	if err := rival.Check(); err != nil {
		return quantity.Money{}, err
	}
	if !(flow > 0) || math.IsInf(flow.CFM(), 1) {
		return quantity.Money{}, ErrFlow
	}
	share := decimal.NewFromFloat(flow.CFM()).Div(decimal.NewFromFloat(rival.Flow.CFM()))
	return lessBeside(rival.Cost.Scale(share), besidePrice)
}

func lessBeside(cost, beside quantity.Money) (quantity.Money, error) {
	price, ok := cost.Add(quantity.Of(beside.Amount.Neg(), beside.Currency))
	if !ok {
		return quantity.Money{}, ErrCurrency
	}
	return price, nil
}
