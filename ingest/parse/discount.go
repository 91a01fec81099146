package parse

import (
	"regexp"
	"strings"

	"github.com/shopspring/decimal"
)

const chainDigits = `\d{1,2}(?:[.,]\d+)?(?:\s*/\s*\d{1,2}(?:[.,]\d+)?)*`

var (
	chainAlone = regexp.MustCompile(`^(?i:less\s+)?(` + chainDigits + `)\s*(%|pct|percent)?$`)
	chainSaid  = regexp.MustCompile(`(?i)\b(?:less|minus|discount(?:s)?(?: of)?|abz(?:ü|ue)glich|rabatt)\s*:?\s*(` + chainDigits + `)\s*(%|pct|percent)?`)
	chainOff   = regexp.MustCompile(`(?i)(` + chainDigits + `)\s*(%|pct|percent)\s*(?:off|discount|rabatt)\b`)
	condition  = regexp.MustCompile(`(?i)\b(prepaid|prepay|within|days|if|over|orders?|rebate|quantit(y|ies)|until)\b`)
)

// Discounts finds a discount stated in a note: "dealers less 40 %", "less
// 50/10/5", "40 % off list". The percentages are a chain, taken one after the
// other. A discount that hangs on a condition (prepaid, within 10 days) is not
// one, and neither is a bare number.
func Discounts(note string) ([]decimal.Decimal, bool) {
	if condition.MatchString(note) {
		return nil, false
	}
	for _, pattern := range []*regexp.Regexp{chainSaid, chainOff} {
		m := pattern.FindStringSubmatch(note)
		if m == nil || (m[2] == "" && !strings.Contains(m[1], "/")) {
			continue
		}
		return percents(m[1])
	}
	return nil, false
}

// Chain reads a cell of a discount column: "40 %", "50/10/5", "less 40 %". A
// bare "40" may be a code as well as a percentage and is not read.
func Chain(text string) ([]decimal.Decimal, bool) {
	m := chainAlone.FindStringSubmatch(Squeeze(text))
	if m == nil || (m[2] == "" && !strings.Contains(m[1], "/")) {
		return nil, false
	}
	return percents(m[1])
}

func percents(chain string) ([]decimal.Decimal, bool) {
	var out []decimal.Decimal
	for part := range strings.SplitSeq(chain, "/") {
		d, err := decimal.NewFromString(strings.ReplaceAll(strings.TrimSpace(part), ",", "."))
		if err != nil || d.Sign() <= 0 {
			return nil, false
		}
		out = append(out, d)
	}
	return out, true
}

// Percent returns a stored number as a percentage: 0.4 shown through a percent
// format is 40.
func Percent(num float64, format string) (decimal.Decimal, bool) {
	if !strings.Contains(format, "%") || num <= 0 || num >= 1 {
		return decimal.Zero, false
	}
	d, ok := Stored(num)
	return d.Mul(decimal.NewFromInt(100)), ok
}
