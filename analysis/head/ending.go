package head

import "github.com/shopspring/decimal"

// Ending is how the shop likes its prices to end.
type Ending string

// The endings. The zero Ending is "not typed" and counts as NoEnding.
const (
	NoEnding       Ending = "none"
	ToOne          Ending = "to 1"
	ToFive         Ending = "to 5"
	ToTen          Ending = "to 10"
	EndNine        Ending = "ends in 9"
	EndFortyNine   Ending = "ends in 49"
	EndNinetyNine  Ending = "ends in 99"
	EndCents95     Ending = "ends in .95"
	EndCents99     Ending = "ends in .99"
	placesOfEnding        = 2
)

// Endings returns the choices in the order that people are shown.
func Endings() []Ending {
	return []Ending{NoEnding, ToOne, ToFive, ToTen, EndNine, EndFortyNine, EndNinetyNine, EndCents95, EndCents99}
}

// Step returns the distance of two prices that end so, and where in it they
// lie: 100 and 49 for "ends in 49". Both are zero for no ending.
func (e Ending) Step() (every, at decimal.Decimal) {
	of := func(every, atCents int64) (decimal.Decimal, decimal.Decimal) {
		return decimal.NewFromInt(every), decimal.New(atCents, -placesOfEnding)
	}
	switch e {
	case ToOne:
		return of(1, 0)
	case ToFive:
		return of(5, 0)
	case ToTen:
		return of(10, 0)
	case EndNine:
		return of(10, 900)
	case EndFortyNine:
		return of(100, 4900)
	case EndNinetyNine:
		return of(100, 9900)
	case EndCents95:
		return of(1, 95)
	case EndCents99:
		return of(1, 99)
	case NoEnding:
	}
	return decimal.Zero, decimal.Zero
}

// Up returns the lowest price that ends so and is not below x, x being taken to
// the cent first:
//
//	ceil((x - at)/every) every + at.
//
// Up, because a margin that was aimed at is not to be rounded away. A price that
// is not positive has no ending and stays.
func (e Ending) Up(x decimal.Decimal) decimal.Decimal {
	x = x.Round(placesOfEnding)
	every, at := e.Step()
	if every.IsZero() || !x.IsPositive() {
		return x
	}
	return x.Sub(at).Div(every).Ceil().Mul(every).Add(at)
}
