package pricing

import "github.com/shopspring/decimal"

// Ending is how the shop likes its prices to end.
type Ending string

// The endings. The zero Ending is "not typed" and counts as NoEnding.
const (
	NoEnding      Ending = "none"
	EndNine       Ending = "ends in 9"
	EndFortyNine  Ending = "ends in 49"
	EndNinetyNine Ending = "ends in 99"
)

// Endings returns the choices in the order of the workbook.
func Endings() []Ending { return []Ending{NoEnding, EndNine, EndFortyNine, EndNinetyNine} }

// Step returns the distance of two prices that end so, and where in it they
// lie: 100 and 49 for "ends in 49". Both are zero for no ending.
func (e Ending) Step() (every, at int64) {
	switch e {
	case EndNine:
		return 10, 9
	case EndFortyNine:
		return 100, 49
	case EndNinetyNine:
		return 100, 99
	case NoEnding:
	}
	return 0, 0
}

// Up returns the lowest price that ends so and is not below x, x being taken to
// the cent first:
//
//	ceil((x - at)/every) every + at.
//
// Up, because a margin that was aimed at is not to be rounded away. A price that
// is not positive has no ending and stays.
func (e Ending) Up(x decimal.Decimal) decimal.Decimal {
	x = x.Round(2)
	every, at := e.Step()
	if every == 0 || !x.IsPositive() {
		return x
	}
	n, offset := decimal.NewFromInt(every), decimal.NewFromInt(at)
	return x.Sub(offset).Div(n).Ceil().Mul(n).Add(offset)
}
