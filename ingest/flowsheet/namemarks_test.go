package flowsheet_test

import "testing"

// TestMarksOfNames reads sheets on which the name of a head has a mark behind it. Two
// products must never become one. want is as for TestHeadNames; the shop lists PW-33.
// The examples are invented (common practice, no source).
func TestMarksOfNames(t *testing.T) {
	const over = "Bore 4.030, 28 inH2O, cfm\n"
	for _, c := range []struct{ name, sheet, want string }{
		{"a figure behind a stroke, labelled", "Head | KR14/2\n" + conditions + oneTable, "KR14/2"},
		{"the same alone in its cell", "KR14/2\n" + conditions + oneTable, "KR14/2"},
		{"the same before conditions", "KR14/2   4.030 bore, 28 inH2O, cfm\n" + oneTable, "KR14/2"},
		{"the same over the columns", over + "· | KR14/2 | ⟷ | KR14 | ⟷\n" + pair, "KR14 KR14/2"},
		{"the same beside a port", over + "Lift | KR14/2 Int | KR14/2 Exh\n.200 | 114 | 94\n.300 | 170 | 127\n.400 | 212 | 148\n.500 | 230 | 160\n", "?"},
		{"a letter behind a stroke", "Head | PW-52B/C\n" + conditions + oneTable, "PW-52B/C"},
		{"behind a listed name", "Head | PW-33/2\n" + conditions + oneTable, "?"},
		{"a letter in brackets", "Head | TD-30 [A]\n" + conditions + oneTable, "TD-30 [A]"},
		{"the same in a title", "TD-30 [A] | 4.030 bore | 28 inH2O | cfm\n" + oneTable, "?"},
		{"a number in brackets", "Head | VR-12 (4471)\n" + conditions + oneTable, "VR-12 (4471)"},
		{"the same in a title", "VR-12 (4471)\n" + conditions + oneTable, "?"},
		{"words in brackets", "Head: OB-9 (2nd design)\n" + conditions + oneTable, "OB-9 (2nd design)"},
		{"a small part in brackets", "Head | LKC-18 (small chamber)\n" + conditions + oneTable, "LKC-18 (small chamber)"},
		{"an age in brackets", "Head | TA-70 (late)\n" + conditions + oneTable, "TA-70 (late)"},
		{"the same of a listed head", "Head | PW-33 (late)\n" + conditions + oneTable, "?"},
		{"four figures behind a stroke", "Head | VR-12/4471\n" + conditions + oneTable, "VR-12/4471"},
		{"the same in a title", "VR-12/4471\n" + conditions + oneTable, "?"},
		{"the same over the columns", over + "· | VR-12/4471 | ⟷ | SG-221 | ⟷\n" + pair, "? SG-221"},
		{"a letter behind a gap", "Head | TD-30 A\n" + conditions + oneTable, "TD-30 A"},
		{"the same in a title", "TD-30 A | 4.030 bore | 28 inH2O | cfm\n" + oneTable, "?"},
		{"a second letter", "PW-52B & C\n" + conditions + oneTable, "?"},
		{"an old one", "OB-9 (old)\n" + conditions + oneTable, "?"},
		{"a design of a later number", "OB-9 2nd design\n" + conditions + oneTable, "?"},
		{"a number over the columns", over + "· | OB-9 64 | ⟷ | SG-221 | ⟷\n" + pair, "? SG-221"},
		{"words behind a comma, labelled", "Head: OB-9, 2nd design\n" + conditions + oneTable, "?"},
		{"a number behind a stroke and a gap, labelled", "Head: OB-9 / 64\n" + conditions + oneTable, "?"},
		{"conditions behind commas, labelled", "Head: OB-9, 4.030 bore, CNC\n28 inH2O, cfm\n" + oneTable, "OB-9"},
		{"a bore in brackets, labelled", "Head | TA-70 (4.030 bore)\n" + conditions + oneTable, "TA-70"},
		{"a state in brackets, labelled", "Head | TA-70 (CNC)\n" + conditions + oneTable, "TA-70"},
		{"initials in brackets, labelled", "Head | TA-70 (JT)\n" + conditions + oneTable, "TA-70"},
		{"another head in brackets", "LKC-18 (same port as LKC-55) | 4.030 bore | 28 inH2O | cfm\n" + oneTable, "?"},
	} {
		t.Run(c.name, func(t *testing.T) {
			got := readSheet(t, c.sheet)
			if heads := headsOf(got); heads != c.want {
				t.Errorf("read as %q, want %q\n%s", heads, c.want, describe(got))
			}
		})
	}
}
