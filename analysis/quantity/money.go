package quantity

import "github.com/shopspring/decimal"

// Money is an exact amount in one currency (ISO 4217 code). Sums of money never
// pass through binary fractions; a ratio such as dollars a cfm does, at the end.
type Money struct {
	Amount   decimal.Decimal
	Currency string
}

// Dollars returns x US dollars; handy in tests and for whole settings.
func Dollars(x float64) Money { return Money{decimal.NewFromFloat(x), "USD"} }

// Of returns an amount in the currency.
func Of(amount decimal.Decimal, currency string) Money { return Money{amount, currency} }

// Zero returns nothing in the currency.
func Zero(currency string) Money { return Money{decimal.Zero, currency} }

// Add returns m + other and false when the currencies differ. An empty currency
// with a zero amount adds to anything.
func (m Money) Add(other Money) (Money, bool) {
	if m.Currency == "" && m.Amount.IsZero() {
		return other, true
	}
	if other.Currency == "" && other.Amount.IsZero() {
		return m, true
	}
	if m.Currency != other.Currency {
		return m, false
	}
	return Money{m.Amount.Add(other.Amount), m.Currency}, true
}

// Times returns n times the amount.
func (m Money) Times(n int) Money {
	return Money{m.Amount.Mul(decimal.NewFromInt(int64(n))), m.Currency}
}

// Scale returns the amount times a decimal factor, such as a discount.
func (m Money) Scale(f decimal.Decimal) Money { return Money{m.Amount.Mul(f), m.Currency} }

// Float returns the amount as a binary fraction, for ratios and charts.
func (m Money) Float() float64 { return m.Amount.InexactFloat64() }
