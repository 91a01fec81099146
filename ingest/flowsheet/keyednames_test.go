package flowsheet_test

import "testing"

// TestKeyedNames reads sheets on which the name of the head stands behind the head's
// own label: it is stated, whatever it looks like. The examples are invented (common
// practice, no source).
func TestKeyedNames(t *testing.T) {
	names := []string{"Dunlin A", "SN-9", "Pellworth Wide", "RH 44 B", "Larkmoor Heron", "Larkmoor 12-64", "KR14/2", "B41C", "TD-22-16V", "Oastbridge S2",
		"Vintner Gold", "Airone 3", "AX.31", "Q-16", "12-64", "PW-52B/C", "VR-61 \"S\"", "Reiher 5", "Tern 190", "Merle"}
	for _, key := range []string{"Head | ", "Head: | ", "Head: ", "Kopf: ", "Zylinderkopf | ", "culasse : ", "Culasse | ", "Testa | ", "Testata: ", "Culata | ", "CULATA: "} {
		for _, name := range names {
			t.Run(key+name, func(t *testing.T) {
				got := readSheet(t, key+name+"\n"+conditions+oneTable)
				if heads := headsOf(got); heads != name {
					t.Errorf("read as %q, want %q\n%s", heads, name, describe(got))
				}
			})
		}
	}
}

// TestOddNames reads sheets on which a name that is no code of the common kind opens
// the line of the set-up, or stands behind the title of a flow sheet. It counts where a
// figure makes it a name; plain words may be a customer's.
func TestOddNames(t *testing.T) {
	for _, c := range []struct{ name, sheet, want string }{
		{"a letter behind the figures", "B41C | 4.030 bore | 28 inH2O | cfm\n" + oneTable, "B41C"},
		{"the same in one cell", "B41C   4.030 bore, 28 inH2O, cfm\n" + oneTable, "B41C"},
		{"two dashes", "TD-22-16V | 4.030 bore | 28 inH2O | cfm\n" + oneTable, "TD-22-16V"},
		{"a word and two figures", "Dunmore 12-64 | 4.030 bore | 28 inH2O | cfm\n" + oneTable, "Dunmore 12-64"},
		{"a word and a code", "Dunmore S2 | 4.030 bore | 28 inH2O | cfm\n" + oneTable, "Dunmore S2"},
		{"behind the title of a sheet", "Flow test Dunmore 12-64\n" + conditions + oneTable, "Dunmore 12-64"},
		{"behind a German title", "Strömungsmessung TD-22-16V\n" + conditions + oneTable, "TD-22-16V"},
		{"behind a Spanish title", "Prueba de flujo Dunmore S2\n" + conditions + oneTable, "Dunmore S2"},
		{"words without a figure", "Dunmore Wide | 4.030 bore | 28 inH2O | cfm\n" + oneTable, "?"},
		{"the same behind the title", "Flow test Dunmore Wide\n" + conditions + oneTable, "?"},
		{"further on in the line", "4.030 bore | 28 inH2O | Dunmore S2\ncfm\n" + oneTable, "?"},
		{"a room", "Room 12-64 | 4.030 bore | 28 inH2O | cfm\n" + oneTable, "?"},
		{"behind another thing", "Cam B41C | 4.030 bore | 28 inH2O | cfm\n" + oneTable, "?"},
		{"a letterhead alone", "Dunmore S2\n·\n" + conditions + oneTable, "?"},
	} {
		t.Run(c.name, func(t *testing.T) {
			got := readSheet(t, c.sheet)
			if heads := headsOf(got); heads != c.want {
				t.Errorf("read as %q, want %q\n%s", heads, c.want, describe(got))
			}
		})
	}
}
