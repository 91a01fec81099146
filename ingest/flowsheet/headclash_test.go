package flowsheet_test

import "testing"

// TestNameChangedInOnePlace reads copied sheets whose title or tab names one head and
// whose columns name another. want is as for TestHeadNames; the shop lists PW-33. The
// examples are invented (common practice, no source).
func TestNameChangedInOnePlace(t *testing.T) {
	columns := func(head string) string {
		return "28 inH2O, 4.030 bore\nLift (in) | " + head + " Intake (cfm) | " + head + " Exhaust (cfm)\n.200 | 114 | 94\n.300 | 170 | 127\n.400 | 212 | 148\n.500 | 230 | 160\n"
	}
	reference := func(name string) string {
		return "LKC-18, 28 inH2O, 4.030 bore, cfm\nLift (in) | Int | " + name + " Int (for reference)\n.200 | 114 | 118\n.300 | 170 | 175\n.400 | 212 | 219\n.500 | 230 | 238\n"
	}
	for _, c := range []struct{ name, sheet, want string }{
		{"a code in the title", "Flow test PW-52B\n" + columns("PW-71"), "?"},
		{"a word and a figure in the title", "Reiher 5\n" + columns("PW-71"), "?"},
		{"the same behind the title of a sheet", "Prueba de flujo Reiher 5\n" + columns("PW-71"), "?"},
		{"two words in the title", "Prueba de flujo Dunmore S2\n" + columns("PW-71"), "?"},
		{"behind the head's key", "Head: PW-52B\n" + columns("PW-71"), "?"},
		{"on the tab", "tab PW-52B\n" + columns("PW-71"), "?"},
		{"a listed head in the columns", "Flow test PW-52B\n" + columns("PW-33"), "?"},
		{"one name in both places", "Flow test PW-71\n" + columns("PW-71"), "PW-71"},
		{"the name and words of its own", "Flow test PW-71\n" + columns("PW-71 Pro"), "PW-71 Pro"},
		{"no name in the title", "Flow test, own bench\n" + columns("PW-71"), "PW-71"},
		{"an address in the title", "12 Quay Road\n" + columns("PW-71"), "PW-71"},
		{"another address", "Gartenweg 7\n" + columns("PW-71"), "PW-71"},
		{"another thing in the title", "Cam: CW-88\n" + columns("PW-71"), "PW-71"},
		{"heads compared in the title", "PW-71 against OB-3\n28 inH2O, 4.030 bore\nLift (in) | PW-71 Int cfm | OB-3 Int cfm\n.200 | 114 | 118\n.300 | 170 | 175\n.400 | 212 | 219\n.500 | 230 | 238\n", "OB-3 PW-71"},
		{"a column of another head", reference("VR-12"), "LKC-18 VR-12"},
		{"a name over one port of the two", "Flow test PW-52B\n28 inH2O, 4.030 bore\nLift (in) | PW-71 Intake (cfm) | Exhaust (cfm)\n.200 | 114 | 94\n.300 | 170 | 127\n.400 | 212 | 148\n", "? PW-52B"},
		{"one that is called like a serial number", reference("SN-9"), "?"},
	} {
		t.Run(c.name, func(t *testing.T) {
			got := readSheet(t, c.sheet)
			if heads := headsOf(got); heads != c.want {
				t.Errorf("read as %q, want %q\n%s", heads, c.want, describe(got))
			}
		})
	}
}
