package flowsheet_test

import (
	"fmt"
	"slices"
	"strings"
	"testing"
)

// TestClaims reads claims in sentences and in tables of one lift a column. want lists
// head, port, lift and status of each, and "said" for a problem where no claim is read.
func TestClaims(t *testing.T) {
	const table = "Head | Inlet @ 300 thou | Exhaust @ .350\"\nTA-70 | 75 | 63\nnumber 6 iron | 73 | 59\nAverage | 74 | 61\n"
	for _, c := range []struct{ name, sheet, want string }{
		{"a table under a word for claims", "Cold Creek Castings - advertised flow, cfm @ 10 inH2O\n" + table,
			"TA-70 exhaust .350 used; TA-70 intake .300 used; number 6 iron exhaust .350 used; number 6 iron intake .300 used"},
		{"the same in Spanish", "Valores de catálogo, CFM a 25 inH2O\nCulata | Admisión @ .400\" | Escape @ .400\"\nTA-70 | 203 | 166\n",
			"TA-70 exhaust .400 used; TA-70 intake .400 used"},
		{"a table that nothing calls claims", "Flow, cfm @ 10 inH2O\n" + table, "said"},
		{"claims without a flow unit", "Advertised flow\n" + table, "said"},
		{"a table without a lift", "Advertised flow, cfm\nHead | Inlet | Exhaust\nTA-70 | 75 | 63\n", ""},
		{"a sentence whose name is not known", "Advertised flow, cfm\nTA-70 flows 240 cfm intake @ .600\"\nnumber 6 iron flows 214 cfm intake @ .600\"\n",
			" intake .600 asked; TA-70 intake .600 used"},
		{"the same without a heading", "TA-70 flows 240 cfm intake @ .600\"\nnumber 6 iron flows 214 cfm intake @ .600\"\n",
			" intake .600 asked; TA-70 intake .600 used"},
		{"a claim that is no figure", "Advertised flow, cfm @ 28 inH2O\nHead | Inlet @ .400\" | Exhaust @ .400\"\nTA-70 | on request | on request\n", "said"},
		{"air in a room", "the hall flows 300 cfm intake @ .600\"\nthe other one 214 cfm intake @ .600\"\n", "said"},
		{"air in a duct", "the hall flows 300 cfm at .600\"\n", ""},

		{"the head in the cell before", "Katalogangaben, cfm bei 28 inH2O\nTA-70 | Einlass 281 cfm bei 12,7 mm\nTA-70 | Auslass 205 cfm bei 12,7 mm\n",
			"TA-70 exhaust .500 used; TA-70 intake .500 used"},
		{"the head and the port in cells before", "TA-70 | Einlass | 281 cfm bei 12,7 mm | 28 inH2O\n", "TA-70 intake .500 used"},
		{"a word that is no name in the cell before", "Smith | Einlass 281 cfm bei 12,7 mm\n", "said"},
		{"both ports in one sentence", "TA-70 Einlass 281 cfm bei 12,7 mm, Auslass 205,5 cfm bei 12,7 mm, 28 inH2O\n",
			"TA-70 exhaust .500 used; TA-70 intake .500 used"},
		{"both behind the name and a colon", "TA-70: Int 281 cfm @ .500\", Exh 205 cfm @ .500\"\n", "TA-70 exhaust .500 used; TA-70 intake .500 used"},
		{"both ports named once", "TA-70: 281 cfm intake @ .500\" and 205 cfm @ .500\", exhaust with pipe\n", "said"},
		{"no head at all", "Der Einlass macht 281 cfm bei 12,7 mm\n", "said"},
		{"words in another order", "TA-70 Einlass: 281 cfm (12,7 mm Hub, 28 inH2O)\n", "said"},
	} {
		t.Run(c.name, func(t *testing.T) {
			got := readSheet(t, c.sheet)
			var claims []string
			for _, test := range got.Tests {
				claims = append(claims, fmt.Sprintf("%s %s %s %s", test.Head, test.Port, strings.TrimPrefix(fmt.Sprintf("%.3f", test.Readings[0].Lift.Value.In()), "0"), test.Status))
			}
			if slices.Sort(claims); len(claims) == 0 && len(got.Problems) > 0 {
				claims = []string{"said"}
			}
			if list := strings.Join(claims, "; "); list != c.want {
				t.Errorf("claims %q, want %q\n%v", list, c.want, got.Problems)
			}
		})
	}
}
