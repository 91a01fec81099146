package parse

import (
	"regexp"
	"strings"

	"github.com/shopspring/decimal"
)

var weeksText = regexp.MustCompile(`(?i)^(?:ca\.?|about|~)?\s*(?:\d+(?:[.,]\d+)?\s*(?:-|–|to|bis)\s*)?(\d+(?:[.,]\d+)?)\s*(wks?|weeks?|wochen?|w|days?|tage?|d|months?|mos?|monate?)?\.?$`)

// Weeks reads a lead time: "3", "2-3 wks" (the worst end counts), "stock" and
// "in stock" as none, "10 days" as 10/7, "2 months" at 52/12 weeks a month. It
// fails on "B/O", "?" and dates, which are not a time yet.
func Weeks(text string) (float64, bool) {
	text = Squeeze(text)
	switch strings.ToLower(text) {
	case "stock", "in stock", "ex stock", "lager", "ab lager":
		return 0, true
	}
	m := weeksText.FindStringSubmatch(text)
	if m == nil {
		return 0, false
	}
	d, err := decimal.NewFromString(strings.ReplaceAll(m[1], ",", "."))
	if err != nil {
		return 0, false
	}
	n := d.InexactFloat64()
	switch unit := strings.ToLower(m[2]); {
	case strings.HasPrefix(unit, "d"), strings.HasPrefix(unit, "t"):
		n /= 7
	case strings.HasPrefix(unit, "m"):
		n *= 52.0 / 12
	}
	return n, n <= 520
}
