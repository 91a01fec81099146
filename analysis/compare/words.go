package compare

import (
	"fmt"
	"math"
	"strconv"
	"strings"

	"github.com/shopspring/decimal"

	"flowshelf/analysis/quantity"
)

// inches writes a lift as the trade does: three decimals, no leading zero.
func inches(l quantity.Length) string {
	return strings.TrimPrefix(fmt.Sprintf("%.3f", l.In()), "0")
}

// size writes a bore: "4.030", and in a metric family "96 mm".
func (f *family) size(l quantity.Length) string {
	mm := l.MM()
	ref := f.ReferenceBore.MM()
	if math.Abs(ref-math.Round(ref)) < 1e-6 && math.Abs(mm-math.Round(mm)) < 1e-6 {
		return fmt.Sprintf("%.0f mm", mm)
	}
	return fmt.Sprintf("%.3f", l.In())
}

// number writes a figure with as many decimals as it has, two at most.
func number(x float64) string {
	return strconv.FormatFloat(math.Round(x*100)/100, 'f', -1, 64)
}

// money writes whole money of the shop: "$1,249", "1,249 EUR".
func (f *family) money(x float64) string { return f.coins(x, 0) }

// cents writes money with two decimals.
func (f *family) cents(x float64) string { return f.coins(x, 2) }

func (f *family) coins(x float64, decimals int32) string {
	if math.IsNaN(x) || math.IsInf(x, 0) {
		return "no figure"
	}
	digits := decimal.NewFromFloat(math.Abs(x)).StringFixed(decimals)
	whole, fraction, _ := strings.Cut(digits, ".")
	var grouped []string
	for len(whole) > 3 {
		grouped = append([]string{whole[len(whole)-3:]}, grouped...)
		whole = whole[:len(whole)-3]
	}
	digits = strings.Join(append([]string{whole}, grouped...), ",")
	if fraction != "" {
		digits += "." + fraction
	}
	sign := ""
	if x < 0 && strings.Trim(digits, "0.,") != "" {
		sign = "-"
	}
	if f.currency() == "USD" {
		return sign + "$" + digits
	}
	return sign + digits + " " + f.currency()
}

// list joins names: "a", "a and b", "a, b and c".
func list(names []string) string {
	switch n := len(names); n {
	case 0:
		return ""
	case 1:
		return names[0]
	default:
		return strings.Join(names[:n-1], ", ") + " and " + names[n-1]
	}
}

// count writes "1 head", "3 heads".
func count(n int, what string) string {
	if n == 1 {
		return "1 " + what
	}
	return fmt.Sprintf("%d %ss", n, what)
}
