package value

import (
	"errors"

	"github.com/shopspring/decimal"

	"flowshelf/analysis/quantity"
)

// Rework is what it takes to turn a casting into a better head.
type Rework struct {
	Hours     decimal.Decimal
	HourRate  quantity.Money
	Materials quantity.Money
	Scrap     decimal.Decimal // share of the castings that are lost in the work
}

// ErrScrap is returned for a scrap share outside 0 to below 1.
var ErrScrap = errors.New("scrap must be 0 or more and below 1")

// Cost returns the expected cost of one good reworked head,
//
//	(casting + hours rate + materials)/(1 - scrap),
//
// all of one currency.
func (r Rework) Cost(casting quantity.Money) (quantity.Money, error) {
	one := decimal.NewFromInt(1)
	if r.Scrap.IsNegative() || r.Scrap.GreaterThanOrEqual(one) {
		return quantity.Money{}, ErrScrap
	}
	sum, ok := casting.Add(r.HourRate.Scale(r.Hours))
	if !ok {
		return quantity.Money{}, ErrCurrency
	}
	if sum, ok = sum.Add(r.Materials); !ok {
		return quantity.Money{}, ErrCurrency
	}
	return quantity.Of(sum.Amount.Div(one.Sub(r.Scrap)), sum.Currency), nil
}

// BreakEvenGain returns the gain in flow, as a share of the base's, at which
// rework buys its cfm at the going price of an extra one:
//
//	(C_reworked - C_base)/(m q_base).
//
// False when the price is not positive or the base flows nothing.
func BreakEvenGain(reworked quantity.Money, base Offer, perExtra Rate) (gain float64, ok bool) {
	if !(perExtra > 0 && base.Flow > 0) || reworked.Currency != base.Cost.Currency {
		return 0, false
	}
	return reworked.Amount.Sub(base.Cost.Amount).InexactFloat64() / perExtra.times(base.Flow), true
}
