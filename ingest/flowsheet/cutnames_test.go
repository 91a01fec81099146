package flowsheet_test

import (
	"testing"

	"github.com/rogpeppe/go-internal/txtar"

	"flowshelf/analysis/head"
	"flowshelf/analysis/quantity"
	"flowshelf/analysis/source"
)

// TestCutNames reads sheets on which words stand beside the name of a head that the
// shop lists, or beside a code that it does not. Two products must never become one
// head. want is as for TestHeadNames; the examples are invented (common practice, no
// source).
func TestCutNames(t *testing.T) {
	const rows = "4.030 bore, 28 inH2O, cfm\nHead | Port | .200 | .300 | .400\n"
	for _, c := range []struct{ name, sheet, want string }{
		{"a class of racing behind a listed name", "TA-70 Super Stock\n" + conditions + oneTable, "?"},
		{"the same, labelled", "Head | TA-70 Super Stock\n" + conditions + oneTable, "?"},
		{"the same in small letters", "TA-70 Super stock\n" + conditions + oneTable, "?"},
		{"the same behind a code that is not listed", "SG-221 Super Stock\n" + conditions + oneTable, "?"},
		{"the same in a row", rows + "TA-70 Super Stock | Int | 114 | 170 | 212\nTA-70 | Int | 116 | 172 | 214\n", "? TA-70"},
		{"as delivered behind a code", "TA-70 Stock\n" + conditions + oneTable, "TA-70"},
		{"as delivered behind a word, in small letters", "Osprey Minor stock\n" + conditions + oneTable, "Osprey Minor"},
		{"the longer of two listed names", "TA-70 Super, 4.030 bore, cfm @ 28 inH2O\n" + oneTable, "TA-70 Super"},
		{"both of them", conditions + "· | TA-70 Super | ⟷ | TA-70 | ⟷\n" + pair, "TA-70" + " TA-70 Super"},

		{"a word in brackets", "TA-70 (Race)\n" + conditions + oneTable, "?"},
		{"the same, labelled", "Head: TA-70 (Race)\n" + conditions + oneTable, "?"},
		{"the same on a tab", "tab TA-70 (Race)\n" + conditions + oneTable, "?"},
		{"the same behind a code that is not listed", "SG-221 (Race)\n" + conditions + oneTable, "?"},
		{"the same behind a blank in the code", "SG 300 (Race)\n" + conditions + oneTable, "?"},
		{"the same behind a word and a figure", "Merle 210 (Race)\n" + conditions + oneTable, "?"},
		{"the same over the columns", conditions + "· | TA-70 (Race) | ⟷ | TA-70 | ⟷\n" + pair, "? TA-70"},
		{"a state in brackets", "Head: TA-70 (CNC)\n" + conditions + oneTable, "TA-70"},
		{"as delivered in brackets", "TA-70 (as cast)\n" + conditions + oneTable, "TA-70"},
		{"initials in brackets", "TA-70 (JT)\n" + conditions + oneTable, "TA-70"},
		{"a bore in brackets", "TA-70 (4.030 bore)\n" + conditions + oneTable, "TA-70"},
		{"a family in brackets", "TA-70 (Small Eight)\n" + conditions + oneTable, "TA-70"},
		{"a supplier in brackets", "TA-70 (Cold Creek Castings)\n" + conditions + oneTable, "TA-70"},
		{"what the paper is in brackets", "TA-70 (Bericht)\n" + conditions + oneTable, "TA-70"},

		{"a word behind a comma", "TA-70, Race\n" + conditions + oneTable, "?"},
		{"a word behind a dash", "TA-70 - Race\n" + conditions + oneTable, "?"},
		{"a word in small letters behind a dash", "TA-70 - late\n" + conditions + oneTable, "?"},
		{"the same behind a code that is not listed", "SG-221 - late\n" + conditions + oneTable, "?"},
		{"a design behind a comma", "TA-70, 2nd design\n" + conditions + oneTable, "?"},
		{"the same behind a code that is not listed", "SG-221, 2nd design\n" + conditions + oneTable, "?"},
		{"a port in small letters behind a comma", "TA-70, intake\n4.030 bore, 28 inH2O\nLift (in) | cfm\n.200 | 114\n.300 | 170\n.400 | 212\n", "TA-70"},
		{"what was done behind a dash", "TA-70 - ported\n" + conditions + oneTable, "TA-70"},
		{"what the paper is behind a dash", "TA-70 - Report\n" + conditions + oneTable, "TA-70"},
		{"conditions behind a comma", "TA-70, 4.030 bore, cfm @ 28 inH2O\n" + oneTable, "TA-70"},

		{"a word of the trade before a listed name", "Power PS-300\n" + conditions + oneTable, "?"},
		{"the same, labelled", "Head: Power PS-300\n" + conditions + oneTable, "?"},
		{"the same in a row", rows + "Power PS-300 | Int | 114 | 170 | 212\nPS-300 | Int | 116 | 172 | 214\n", "? PS-300"},
		{"an unknown word before", "Big PS-300\n" + conditions + oneTable, "?"},
		{"the title of a flow sheet before", "Flow test PS-300\n" + conditions + oneTable, "PS-300"},
		{"the noun of a head before", "Cylinder head PS-300\n" + conditions + oneTable, "PS-300"},
		{"what the paper is before", "Prüfprotokoll PS-300\n" + conditions + oneTable, "PS-300"},
		{"the supplier before", "Cold Creek PS-300\n" + conditions + oneTable, "PS-300"},
		{"the family before", "Small Eight PS-300\n" + conditions + oneTable, "PS-300"},
		{"a state before", "Ported PS-300\n" + conditions + oneTable, "PS-300"},
	} {
		t.Run(c.name, func(t *testing.T) {
			if got := readListed(t, c.sheet, "TA-70", "TA-70 Super", "PS-300", "Osprey Minor"); headsOf(got) != c.want {
				t.Errorf("heads %q, want %q\n%s", headsOf(got), c.want, describe(got))
			}
		})
	}
}

// readListed reads a sheet for a shop that lists more heads, of a family whose engines
// have a bore of 4.000 in.
func readListed(t *testing.T, sheet string, listed ...string) head.Records {
	t.Helper()
	tab, sheet := tabOf(sheet)
	path, shop, book := fixture(t, &txtar.Archive{Files: []txtar.File{{Name: "tab " + tab, Data: []byte(sheet)}}})
	shop.Families = append(shop.Families, head.Family{Name: "Grand Six", ReferenceBore: quantity.Inches(4.03), EngineBore: source.Say(quantity.Inches(4), source.Trace{})})
	for _, name := range listed {
		shop.Heads = append(shop.Heads, head.Listed{Name: name, Family: "Grand Six", Supplier: "Cold Creek Castings"})
	}
	got, _ := readBook(path, book, shop)
	return got
}

// TestOversizeOfAnEngine holds that the bore of a family's engines tells a bore that
// is still to be bored from one that is.
func TestOversizeOfAnEngine(t *testing.T) {
	for said, want := range map[string]string{
		"4.000 bore, .030 over": "4.030", "4.030 bore, .030 over": "4.030", "4.060 bore (.060 over)": "4.060",
		"4.030 bore, .060 over": "0.000", "4.125 bore, .030 over": "0.000", // of another engine
	} {
		got := readListed(t, "TA-70\n28 inH2O, cfm\n"+oneTable+"·\n"+said+"\n", "TA-70")
		for _, test := range got.Tests {
			if set := set(test); len(got.Tests) != 2 || set != test.Port.String()+" "+want+" 28.0 4" {
				t.Errorf("%s: read %s, want %s\n%s", said, set, want, describe(got))
			}
		}
	}
}
