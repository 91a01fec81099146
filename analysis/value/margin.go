package value

import (
	"errors"

	"github.com/shopspring/decimal"

	"flowshelf/analysis/quantity"
)

// ErrMargin is returned for margins, markups and prices that cannot be.
var ErrMargin = errors.New("margin must be below 1, markup above -1, price and cost positive")

// PriceAtMargin returns the price that leaves a margin, a share of the price:
// cost/(1 - margin). Domain: cost positive, margin below 1.
func PriceAtMargin(cost quantity.Money, margin decimal.Decimal) (quantity.Money, error) {
	one := decimal.NewFromInt(1)
	if !cost.Amount.IsPositive() || margin.GreaterThanOrEqual(one) {
		return quantity.Money{}, ErrMargin
	}
	return quantity.Of(cost.Amount.Div(one.Sub(margin)), cost.Currency), nil
}

// PriceAtMarkup returns the price with a markup, a share of the cost:
// cost (1 + markup). Domain: cost positive, markup above -1.
func PriceAtMarkup(cost quantity.Money, markup decimal.Decimal) (quantity.Money, error) {
	one := decimal.NewFromInt(1)
	if !cost.Amount.IsPositive() || markup.LessThanOrEqual(one.Neg()) {
		return quantity.Money{}, ErrMargin
	}
	return cost.Scale(one.Add(markup)), nil
}

// Earned is what a price leaves over its cost.
type Earned struct {
	Amount quantity.Money
	Margin float64 // share of the price
	Markup float64 // share of the cost
}

// Earn returns what a price leaves over a cost: (P - C), (P - C)/P, (P - C)/C.
// Both must be positive and in one currency.
func Earn(price, cost quantity.Money) (Earned, error) {
	if !price.Amount.IsPositive() || !cost.Amount.IsPositive() {
		return Earned{}, ErrMargin
	}
	left, ok := price.Add(quantity.Of(cost.Amount.Neg(), cost.Currency))
	if !ok {
		return Earned{}, ErrCurrency
	}
	return Earned{
		Amount: left,
		Margin: left.Amount.Div(price.Amount).InexactFloat64(),
		Markup: left.Amount.Div(cost.Amount).InexactFloat64(),
	}, nil
}

// MarkupOf returns the markup that equals a margin, m/(1 - m); a margin below 1.
func MarkupOf(margin float64) float64 { return margin / (1 - margin) }

// MarginOf returns the margin that equals a markup, k/(1 + k); a markup above -1.
func MarginOf(markup float64) float64 { return markup / (1 + markup) }
