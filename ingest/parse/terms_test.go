package parse_test

import (
	"fmt"
	"testing"

	"flowshelf/ingest/parse"
)

func TestReadSurcharge(t *testing.T) {
	for text, want := range map[string]string{
		"Metal surcharge 3 % on list":               "metal surcharge 3 % of list",
		"Alloy surcharge: 4,5% on your cost":        "alloy surcharge 4.5 % of net",
		"plus surcharge of 2 percent":               "plus surcharge 2 % of not stated",
		"Energy surcharge $12 per head":             "energy surcharge 12 $ per each",
		"Materialzuschlag 8,50 EUR je Paar":         "materialzuschlag 8.5 EUR per pair",
		"surcharge 3 % on list, 2 % on net of that": "surcharge 3 % of not stated",
		"surcharge 12":                              "",
		"a surcharge may apply":                     "",
		"core charge $50":                           "",
	} {
		got := ""
		if s, ok := parse.ReadSurcharge(text); ok && s.Percent.IsPositive() {
			got = fmt.Sprintf("%s %s %% of %s", s.Name, s.Percent, s.On)
		} else if ok {
			got = fmt.Sprintf("%s %s %s per %s", s.Name, s.Amount, s.Currency, s.Basis)
		}
		if got != want {
			t.Errorf("%q: got %q, want %q", text, got, want)
		}
	}
}

func TestReadQuantity(t *testing.T) {
	for text, want := range map[string]string{
		"1-3": "1 to 3 not stated", "4 to 11 pairs": "4 to 11 pair", "12+": "12 to 0 not stated", "Qty 24 or more": "24 to 0 not stated",
		"12+ heads": "12 to 0 each", "2-4 sets": "2 to 4 set", "11-4": "", "$2,500+": "", "dealer": "", "0-3": "",
	} {
		got := ""
		if q, ok := parse.ReadQuantity(text); ok {
			got = fmt.Sprintf("%d to %d %s", q.From, q.To, q.Unit)
		}
		if got != want {
			t.Errorf("%q: got %q, want %q", text, got, want)
		}
	}
}

func TestTaxIncluded(t *testing.T) {
	for text, want := range map[string]string{"Preise inkl. 19 % MwSt": "19", "incl. 7,5% VAT": "7.5", "inkl. MwSt": "", "plus 19 % MwSt": ""} {
		got := ""
		if x, ok := parse.TaxIncluded(text); ok {
			got = x.String()
		}
		if got != want {
			t.Errorf("%q: got %q, want %q", text, got, want)
		}
	}
}

func TestSpringsTo(t *testing.T) {
	for text, want := range map[string]string{
		"Assembled, springs to .550": "0.550", "assembled up to 0.650\"": "0.650", "komplett bis 12,5 mm": "0.492",
		"max lift .700": "0.700", "assembled": "", "to 2026": "", "list to .050": "",
	} {
		got := ""
		if l, ok := parse.SpringsTo(text); ok {
			got = fmt.Sprintf("%.3f", l.In())
		}
		if got != want {
			t.Errorf("%q: got %q, want %q", text, got, want)
		}
	}
}
