package flowsheet_test

import "testing"

// TestCastingNumbers reads sheets whose heads are called by the number of their
// casting, or by letters that are short for something else. want is as for
// TestHeadNames.
func TestCastingNumbers(t *testing.T) {
	for _, c := range []struct{ name, sheet, want string }{
		{"alone", "43.3530A\n" + conditions + oneTable, "43.3530A"},
		{"with a dash", "96-4441A\n" + conditions + oneTable, "96-4441A"},
		{"with a mark", "43.3530A Mk2\n" + conditions + oneTable, "43.3530A Mk2"},
		{"before a bore, which is no range", "43.3530A 4.030 bore\nCFM at 28 inH2O\n" + oneTable, "43.3530A"},
		{"before conditions behind commas", "15.2001A, 4.030 bore, CFM at 28 inH2O\n" + oneTable, "15.2001A"},
		{"before a preposition", "Testa 43.3530A su alesaggio 96 mm\ncfm, 28 inH2O\n" + oneTable, "43.3530A"},
		{"before a state", "15.2001A CNC\n" + conditions + oneTable, "15.2001A"},
		{"a state and words of its own", "15.2001A CNC Pro, 4.030 bore, cfm @ 28 inH2O\n" + oneTable, "?"},
		{"behind the title of a sheet", "Flow test 43.3530A\n" + conditions + oneTable, "43.3530A"},
		{"behind a noun, no sample 43", "Casting 43.3530A\n" + conditions + oneTable, "43.3530A"},
		{"on a tab", "tab 43.3530A\n" + conditions + oneTable, "43.3530A"},
		{"a tab of another head", "tab 96-4441A\nHead | MH35\n" + conditions + oneTable, "?"},
		{"of the file alone", "file bench/43.3530A.xlsx\n" + conditions + oneTable, "?"},
		{"of the file with conditions", "file bench/43.3530A 4.030 28in.xlsx\nCFM\n" + oneTable, "43.3530A"},
		{"in a row of names", conditions + "· | 96-4441A | ⟷ | 43.3530A | ⟷\n" + pair, "43.3530A 96-4441A"},
		{"beside another name", conditions + "· | 96-4441A | ⟷ | TA-70 | ⟷\n" + pair, "96-4441A TA-70"},
		{"serials below the name of the head", "Head: TA-70\n" + conditions + "· | 96-4441A | ⟷ | 96-4442A | ⟷\n" + pair, "?"},
		{"one against another", "43.3530A vs 96-4441A\n" + conditions + oneTable, "?"},
		{"two in cells of their own", "43.3530A 4.030 bore | 96-4441A\nCFM at 28 inH2O\n" + oneTable, "?"},
		{"below another head's table", "TA-70\n" + conditions + oneTable + "·\n96-4441A\n" + oneTable, "96-4441A TA-70"},
		{"two of them", "43.3530A, 43.3531A\n" + conditions + oneTable, "?"},
		{"beside the name of the head", "Head: TA-70\n96-4441A\n" + conditions + oneTable, "TA-70"},

		{"an order", "Order 96-4441A\n" + conditions + oneTable, "?"},
		{"an order behind a colon", "Order: 96-4441A\n" + conditions + oneTable, "?"},
		{"a drawing", "Drawing no. 43.3530A\n" + conditions + oneTable, "?"},
		{"a drawing in two cells", "Drawing | 43.3530A\n" + conditions + oneTable, "?"},
		{"a code that numbers a drawing in two cells", "Zeichnungs-Nr. | MH35\n" + conditions + oneTable, "?"},
		{"a code that numbers a ticket", "Ticket: MH35\n" + conditions + oneTable, "?"},
		{"a serial", "S/N 96-4441A\n" + conditions + oneTable, "?"},
		{"valves", "Valves 43.3530A\n" + conditions + oneTable, "?"},
		{"a bench", "Flow bench 43.3530A\n" + conditions + oneTable, "?"},
		{"a report", "Flow report 96-4441A\n" + conditions + oneTable, "?"},
		{"a telephone", "Cold Creek Engines, Tel 96-4441A\n" + conditions + oneTable, "?"},
		{"a customer's number", "Cold Creek Engines | 96-4441A\n" + conditions + oneTable, "?"},
		{"a paper numbered by the year", "26-0142A\n" + conditions + oneTable, "?"},
		{"a month and a letter", "12.2026A\n" + conditions + oneTable, "?"},

		{"letters of a unit, which stands behind its figure", "WC118\n" + conditions + oneTable, "WC118"},
		{"the same before conditions", "WC118 4.030 bore cfm @ 28 inH2O\n" + oneTable, "WC118"},
		{"the same before a state", "WC118 CNC\n" + conditions + oneTable, "WC118"},
		{"the same behind a key", "Zyl.-Kopf | WC186\n" + conditions + oneTable, "WC186"},
		{"the same in a row of names", conditions + "· | WC118 | ⟷ | 43.3530A | ⟷\n" + pair, "43.3530A WC118"},
		{"a test pressure", "WC28\n" + conditions + oneTable, "?"},
		{"a week", "KW12\n" + conditions + oneTable, "?"},
		{"a chamber", "CC64, 4.030 bore, cfm at 28 inH2O\n" + oneTable, "?"},

		{"in an Italian sentence", "Testata NV285 provata a 500 mmH2O, alesaggio 84,5 mm.\ncfm\n" + oneTable, "NV285"},
		{"in a French sentence", "Culasse Merle 24 essayée à 500 mmH2O, alésage 96 mm.\ncfm\n" + oneTable, "Merle 24"},
		{"in a Spanish sentence", "Culata NV-285 probada a 500 mmH2O, diámetro 96 mm.\ncfm\n" + oneTable, "NV-285"},
		{"in a German sentence", "Zylinderkopf 43.3530A geprüft bei 500 mmH2O, Bohrung 96 mm.\ncfm\n" + oneTable, "43.3530A"},
		{"a word of its own in a sentence", "Testata NV285 sport provata a 500 mmH2O, alesaggio 84,5 mm.\ncfm\n" + oneTable, "?"},

		{"plain words of the file before a bore", "file bench/Osprey Minor flow.xlsx\nOsprey Minor 4.030 bore\nCFM at 28 inH2O\n" + oneTable, "Osprey Minor"},
		{"a firm that the tab is called by", "tab Osprey Minor\nOsprey Minor Engines 4.030 bore\nCFM at 28 inH2O\n" + oneTable, "?"},
		{"plain words of a tab before a state", "tab Osprey Minor\nOsprey Minor, CNC, 4.030 bore, cfm @ 28 inH2O\n" + oneTable, "?"},
	} {
		t.Run(c.name, func(t *testing.T) {
			if got := readSheet(t, c.sheet); headsOf(got) != c.want {
				t.Errorf("heads %q, want %q\n%s", headsOf(got), c.want, describe(got))
			}
		})
	}
}
