package parse_test

import (
	"strings"
	"testing"

	"github.com/shopspring/decimal"

	"flowshelf/analysis/head"
	"flowshelf/ingest/parse"
)

func TestReadMoney(t *testing.T) {
	tests := []struct {
		text     string
		mark     parse.Mark
		amount   string // "" when it is no price
		currency string
		basis    head.Basis
	}{
		{"452", parse.MarkUnknown, "452", "", head.BasisNotStated},
		{"$1,024/pr net, add $85 for springs", parse.MarkUnknown, "1024", "$", head.Pair},
		{"189,00 EUR", parse.MarkUnknown, "189", "EUR", head.BasisNotStated},
		{"€ 1.450,00", parse.MarkUnknown, "1450", "EUR", head.BasisNotStated},
		{"1.450", parse.CommaMark, "1450", "", head.BasisNotStated},
		{"1.450", parse.PointMark, "1.45", "", head.BasisNotStated},
		{"1.450", parse.MarkUnknown, "", "", head.BasisNotStated}, // 1450 or 1.45: nobody can say
		{"1,396", parse.MarkUnknown, "1396", "", head.BasisNotStated},
		{"CAD 500 each", parse.MarkUnknown, "500", "CAD", head.Each},
		{"C$500", parse.MarkUnknown, "500", "CAD", head.BasisNotStated},
		{"430 ea", parse.MarkUnknown, "430", "", head.Each},
		{"£904 per set of 4", parse.MarkUnknown, "904", "GBP", head.Set},
		{"about 430", parse.MarkUnknown, "430", "", head.BasisNotStated},
		{"-430", parse.MarkUnknown, "", "", head.BasisNotStated},
		{"call", parse.MarkUnknown, "", "", head.BasisNotStated},
		{"see page 4", parse.MarkUnknown, "", "", head.BasisNotStated},
		{"12,34,56", parse.MarkUnknown, "", "", head.BasisNotStated},
		{"", parse.MarkUnknown, "", "", head.BasisNotStated},
	}
	for _, tt := range tests {
		m, ok := parse.ReadMoney(tt.text, tt.mark)
		if ok != (tt.amount != "") {
			t.Errorf("ReadMoney(%q) ok = %t", tt.text, ok)
			continue
		}
		if ok && (m.Amount.String() != tt.amount || m.Currency != tt.currency || m.Basis != tt.basis) {
			t.Errorf("ReadMoney(%q) = %s %q per %s, want %s %q per %s", tt.text, m.Amount, m.Currency, m.Basis, tt.amount, tt.currency, tt.basis)
		}
	}
}

func TestNotAPrice(t *testing.T) {
	for _, text := range []string{"call", "POA", "TBD", "disc.", "N/A", "N/C", "sub PW-33B", "see PW-46", "out til June", "--", "auf Anfrage"} {
		if _, ok := parse.NotAPrice(text); !ok {
			t.Errorf("%q was not recognised", text)
		}
	}
	for _, text := range []string{"452", "$430 each", "disc brake 40"} {
		if word, ok := parse.NotAPrice(text); ok {
			t.Errorf("%q was taken for %q", text, word)
		}
	}
}

func TestBasisRungBuild(t *testing.T) {
	tests := []struct {
		text  string
		basis head.Basis
		rung  head.Rung
		build string
	}{
		{"Net each, assembled $", head.Each, head.Net, "assembled"},
		{"List, per pair $", head.Pair, head.List, ""},
		{"Dealer /pr", head.Pair, head.Dealer, ""},
		{"Price (2)", head.Pair, head.RungNotStated, ""},
		{"bare, ea", head.Each, head.RungNotStated, "bare"},
		{"Sell $ / set", head.Set, head.Sell, ""},
		{"Price $ / set of 2", head.Pair, head.RungNotStated, ""},
		{"MAP", head.BasisNotStated, head.MinimumAdvertised, ""},
		{"Händlerpreise netto je Stück, komplett montiert", head.Each, head.Net, "assembled"},
		{"dealer net", head.BasisNotStated, head.Net, ""},
		{"each or pair", head.BasisNotStated, head.RungNotStated, ""}, // two are none
		{"list and dealer", head.BasisNotStated, head.RungNotStated, ""},
		{"bare or assembled", head.BasisNotStated, head.RungNotStated, ""},
		{"internet price", head.BasisNotStated, head.RungNotStated, ""},
		{"go ahead", head.BasisNotStated, head.RungNotStated, ""},
		{"a head", head.Each, head.RungNotStated, ""},
		{"kit", head.BasisNotStated, head.RungNotStated, ""},
		{"reset to list", head.BasisNotStated, head.List, ""},
	}
	for _, tt := range tests {
		basis, _ := parse.Basis(tt.text)
		rung, _ := parse.Rung(tt.text)
		if build := parse.Build(tt.text); basis != tt.basis || rung != tt.rung || build != tt.build {
			t.Errorf("%q: %s, %s, %q; want %s, %s, %q", tt.text, basis, rung, build, tt.basis, tt.rung, tt.build)
		}
	}
}

// A chain is multiplied, not added: 50/10/5 leaves 0.5 x 0.9 x 0.95 = 0.4275
// (common practice of the parts trade, no source; the product by hand).
func TestDiscounts(t *testing.T) {
	said := map[string]string{
		"Dealers less 40 %.": "40", "less 50/10/5": "50 10 5", "40% off list": "40", "discount of 12.5 %": "12.5",
		"less 40": "", "2 % discount prepaid": "", "less 5 % over $2,500": "", "24": "", "Eff. 4/1/26": "", "rebate 10 %": "",
	}
	for text, want := range said {
		chain, ok := parse.Discounts(text)
		if got := join(chain); got != want || ok != (want != "") {
			t.Errorf("Discounts(%q) = %q, want %q", text, got, want)
		}
	}
	column := map[string]string{"40 %": "40", "50/10/5": "50 10 5", "less 40 %": "40", "40": "", "C": "", "0 %": ""}
	for text, want := range column {
		chain, _ := parse.Chain(text)
		if got := join(chain); got != want {
			t.Errorf("Chain(%q) = %q, want %q", text, got, want)
		}
	}
	left := decimal.NewFromInt(1)
	chain, _ := parse.Chain("50/10/5")
	for _, d := range chain {
		left = left.Mul(decimal.NewFromInt(100).Sub(d)).Div(decimal.NewFromInt(100))
	}
	if left.String() != "0.4275" {
		t.Errorf("50/10/5 leaves %s", left)
	}
}

func join(chain []decimal.Decimal) string {
	var parts []string
	for _, d := range chain {
		parts = append(parts, d.String())
	}
	return strings.Join(parts, " ")
}

func TestDecideMark(t *testing.T) {
	tests := []struct {
		texts []string
		want  parse.Mark
	}{
		{[]string{"189,00", "1.236,50"}, parse.CommaMark},
		{[]string{"1,396", "1,706.00"}, parse.PointMark},
		{[]string{"1,396", "1,706"}, parse.MarkUnknown},
		{[]string{"0,100", "0,200"}, parse.CommaMark},
		{[]string{"1.396.000"}, parse.CommaMark},
		{[]string{"18,8", "18.8"}, parse.MarkUnknown},
		{[]string{"call", "452"}, parse.MarkUnknown},
	}
	for _, tt := range tests {
		if got := parse.DecideMark(tt.texts); got != tt.want {
			t.Errorf("DecideMark(%q) = %d, want %d", tt.texts, got, tt.want)
		}
	}
}

func TestStoredDropsTheNoiseOfAFormula(t *testing.T) {
	d, ok := parse.Stored(1396 * 0.3) // 418.79999999999995 in binary
	if !ok || d.String() != "418.8" {
		t.Errorf("Stored = %s, %t", d, ok)
	}
}
