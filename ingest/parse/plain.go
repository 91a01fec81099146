package parse

import (
	"math"
	"strconv"
	"strings"
)

// Plain reads a bare number such as `.100`, `18,8`, `1 450,00` or `257`. Unlike
// Decimal it takes a lone point for a decimal point, because no lift, flow or
// bore is written with points between thousands unless the column's mark says
// so. It fails for signs, words and anything ambiguous.
func Plain(text string, mark Mark) (float64, bool) {
	text = Squeeze(text)
	if mark == MarkUnknown && strings.Count(text, ",") == 0 && strings.Count(text, ".") <= 1 {
		mark = PointMark
	}
	if mark == MarkUnknown && strings.Count(text, ",") == 1 && markOf(text) == MarkUnknown {
		return 0, false // 1,250 alone: the column has to decide
	}
	if mark == CommaMark && strings.HasPrefix(text, ",") {
		text = "0" + text
	}
	d, ok := Decimal(text, mark)
	if !ok {
		return 0, false
	}
	return d.InexactFloat64(), true
}

// Digits prints a number as a spreadsheet shows it: fifteen significant digits,
// no more than needed, so that 0.1+0.2 is 0.3. What is no number stays as it is.
func Digits(num float64) string {
	if short, ok := Fifteen(num); ok {
		num = short
	}
	return strconv.FormatFloat(num, 'f', -1, 64)
}

// Fifteen rounds a stored number to the fifteen significant digits a
// spreadsheet works with. Anything that is no number fails.
func Fifteen(num float64) (float64, bool) {
	if math.IsNaN(num) || math.IsInf(num, 0) {
		return 0, false
	}
	out, err := strconv.ParseFloat(strconv.FormatFloat(num, 'g', 15, 64), 64)
	return out, err == nil
}
