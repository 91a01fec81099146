package main

import (
	"strings"
	"testing"

	"github.com/shopspring/decimal"

	"flowshelf/analysis/compare"
	"flowshelf/analysis/compare/comparetest"
	"flowshelf/analysis/quantity"
)

func TestAmount(t *testing.T) {
	tests := []struct {
		amount   string
		currency string
		places   int32
		want     string
	}{
		{"999", "USD", whole, "$999"},
		{"1249.4", "USD", whole, "$1,249"},
		{"1234567.895", "USD", cents, "$1,234,567.90"},
		{"-12.5", "USD", cents, "-$12.50"},
		{"5.889", "EUR", cents, "5.89 EUR"},
		{"1000", "", whole, "1,000"},
	}
	for _, test := range tests {
		if got := amount(quantity.Of(decimal.RequireFromString(test.amount), test.currency), test.places); got != test.want {
			t.Errorf("amount(%s %s, %d) = %q, want %q", test.amount, test.currency, test.places, got, test.want)
		}
	}
}

func TestPlainName(t *testing.T) {
	for name, want := range map[string]string{
		"Heads ranked - Small Eight.xlsx": "Heads ranked - Small Eight.xlsx",
		"Heads ranked - 331/355.xlsx":     "Heads ranked - 331-355.xlsx",
		`a\b:c*d?e"f<g>h|i` + "\n":        "a-b-c-d-e-f-g-h-i-",
	} {
		if got := plainName(name); got != want {
			t.Errorf("plainName(%q) = %q, want %q", name, got, want)
		}
	}
}

// TestNoPlacesWithoutAWorth prints a family whose worth of a cfm is not set and
// cannot be had from the shelf: no head has a place, and it is said why.
func TestNoPlacesWithoutAWorth(t *testing.T) {
	records, shop, date := comparetest.OpposedFour()
	shop.Families[0].Worth.Known = false
	var out strings.Builder
	reportFamily(&out, compare.All(records, shop, date)[0])
	for _, words := range []string{"Opposed Four: 1 head in the order of flow, without places: what a cfm is worth is not set", "\n  -   LKC-90: "} {
		if !strings.Contains(out.String(), words) {
			t.Errorf("does not say %q:\n%s", words, out.String())
		}
	}
	if strings.Contains(out.String(), "\n  0") {
		t.Errorf("a place of nought:\n%s", out.String())
	}
}
