package review

import (
	"fmt"
	"strconv"
	"strings"

	"github.com/shopspring/decimal"

	"flowshelf/analysis/compare"
	"flowshelf/analysis/quantity"
)

func known(x float64) compare.Maybe { return compare.Maybe{Value: x, Known: true} }

func whole(n int) decimal.Decimal { return decimal.NewFromInt(int64(n)) }

func plural(n int, what string) string {
	if n == 1 || n == -1 {
		return fmt.Sprintf("%d %s", n, what)
	}
	return fmt.Sprintf("%d %ss", n, what)
}

// plain prints a number without needless digits.
func plain(x float64) string { return strconv.FormatFloat(x, 'g', 6, 64) }

// placeWords prints a place as the sheets do: "2=", "-" for none.
func placeWords(n int, shared bool) string {
	switch {
	case n == 0:
		return "-"
	case shared:
		return fmt.Sprintf("%d=", n)
	}
	return strconv.Itoa(n)
}

// cash prints whole money: "$1,249", "1,249 CHF".
func (m *month) cash(x quantity.Money) string { return Cash(x) }

// Cash prints whole money as a person writes it: "$1,249", "1,249 EUR".
func Cash(x quantity.Money) string { return written(x, 0) }

// price prints an amount that is asked for, with its cents where it has any.
func price(x quantity.Money) string {
	const cents = 2
	if x.Amount.IsInteger() {
		return written(x, 0)
	}
	return written(x, cents)
}

func written(x quantity.Money, places int32) string {
	digits, fraction, some := strings.Cut(x.Amount.Abs().StringFixed(places), ".")
	for i := len(digits) - 3; i > 0; i -= 3 {
		digits = digits[:i] + "," + digits[i:]
	}
	if some {
		digits += "." + fraction
	}
	sign := ""
	if x.Amount.Round(places).IsNegative() {
		sign = "-"
	}
	if x.Currency == "USD" || x.Currency == "" {
		return sign + "$" + digits
	}
	return sign + digits + " " + x.Currency
}

func (m *month) amount(x float64) string {
	return Cash(quantity.Of(decimal.NewFromFloat(x).Round(2), m.currency))
}

// list joins names as a person says them: "A, B and C".
func list(names []string) string {
	if len(names) < 2 {
		return strings.Join(names, "")
	}
	return strings.Join(names[:len(names)-1], ", ") + " and " + names[len(names)-1]
}
