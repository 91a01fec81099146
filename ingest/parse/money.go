package parse

import (
	"regexp"
	"strings"

	"github.com/shopspring/decimal"

	"flowshelf/analysis/head"
)

// Dollar is what Currency returns for a bare dollar sign: which dollar it is,
// the shop or the supplier decides.
const Dollar = "$"

// Money is a price as a cell states it.
type Money struct {
	Amount   decimal.Decimal
	Currency string // ISO code, Dollar, or "" when not stated
	Basis    head.Basis
	Rest     string // the words behind the amount
}

var (
	amount      = regexp.MustCompile(`\d[\d.,]*\d|\d`)
	currencies  = regexp.MustCompile(`(?i)\b(USD|EUR|GBP|CAD|AUD|NZD|CHF|JPY|SEK|NOK|DKK|PLN|CZK)\b`)
	euroWord    = regexp.MustCompile(`(?i)\beuros?\b`)
	leadingSign = regexp.MustCompile(`(?i)^(approx\.?|ca\.?|about|net|only)?\s*(\$|€|£|us\$|c\$|a\$|[A-Z]{3})?\s*$`)
)

// ReadMoney reads a price such as "$1,024/pr net", "189,00 EUR" or "452". The
// amount must come first; a text that talks before it names an amount is no
// price. Negative amounts are refused.
func ReadMoney(text string, mark Mark) (Money, bool) {
	text = Squeeze(text)
	at := amount.FindStringIndex(text)
	if at == nil || !leadingSign.MatchString(text[:at[0]]) {
		return Money{}, false
	}
	d, ok := Decimal(text[at[0]:at[1]], mark)
	if !ok {
		return Money{}, false
	}
	rest := strings.TrimSpace(text[at[1]:])
	m := Money{Amount: d, Currency: Currency(text), Rest: rest}
	m.Basis, _ = Basis(rest)
	return m, true
}

// Currency finds the currency a text or a number format names: an ISO code, a
// sign, Dollar for a bare dollar sign, "" for none or for two different ones.
func Currency(text string) string {
	found := map[string]bool{}
	for _, code := range currencies.FindAllString(text, -1) {
		found[strings.ToUpper(code)] = true
	}
	for sign, code := range map[string]string{"€": "EUR", "£": "GBP", "US$": "USD", "C$": "CAD", "A$": "AUD"} {
		if strings.Contains(text, sign) {
			found[code] = true
		}
	}
	if euroWord.MatchString(text) {
		found["EUR"] = true
	}
	if len(found) == 0 && strings.Contains(text, "$") && !onlyLocale(text) {
		return Dollar
	}
	if len(found) != 1 {
		return ""
	}
	for code := range found {
		return code
	}
	return ""
}

// onlyLocale reports whether every dollar sign of a number format belongs to a
// locale tag such as [$-409], which names no currency.
func onlyLocale(format string) bool {
	return !strings.Contains(strings.ReplaceAll(format, "[$-", ""), "$")
}

var (
	onRequest    = regexp.MustCompile(`(?i)^(call|poa|p\.o\.a\.?|on request|price on (request|application)|auf anfrage|sur demande)\b`)
	announced    = regexp.MustCompile(`(?i)^(tbd|tba|t\.b\.[ad]\.?|to be (announced|determined|advised))\b`)
	discontinued = regexp.MustCompile(`(?i)^(disc\.?|discontinued|obsolete|no longer (made|available)|nla)$`)
	nothingThere = regexp.MustCompile(`(?i)^(n/?a|n\.a\.?|not available|-+|–|—|x|\?+)$`)
	noCharge     = regexp.MustCompile(`(?i)^(n/c|no charge)$`)
	superseded   = regexp.MustCompile(`(?i)^(sub|superseded by|see|use|replaced by)\b.+`)
	notNow       = regexp.MustCompile(`(?i)^(out|b/?o|back.?order|temporarily out)\b.*`)
)

// NotAPrice recognises the words that stand where a price would: call, TBD,
// disc., "sub PW-33B", "out til June". It returns what they mean.
func NotAPrice(text string) (string, bool) {
	text = Squeeze(text)
	switch {
	case onRequest.MatchString(text):
		return "price on request", true
	case announced.MatchString(text):
		return "price to be announced", true
	case discontinued.MatchString(text):
		return "discontinued", true
	case nothingThere.MatchString(text):
		return "no price", true
	case noCharge.MatchString(text):
		return "no charge", true
	case superseded.MatchString(text):
		return "superseded", true
	case notNow.MatchString(text):
		return "not available now", true
	}
	return "", false
}
