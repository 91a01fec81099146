package flowsheet_test

import (
	"strings"
	"testing"

	"flowshelf/analysis/source"
)

// TestStatedTwice reads sheets whose columns say one thing and the lines around them
// another: nothing is used before somebody has told which it is, and the question
// names both cells. want is as for TestThousands, cells what the message names.
func TestStatedTwice(t *testing.T) {
	table := func(intake, exhaust string) string {
		return "Lift | " + intake + " | " + exhaust + "\n.200 | 114 | 94\n.300 | 170 | 127\n.400 | 212 | 148\n"
	}
	const both, none = "intake 3 212.0 exhaust 3 148.0", "intake 0 0.0 exhaust 0 0.0 "
	for _, c := range []struct{ name, sheet, want, cells string }{
		{"the unit of all figures", "TA-70, 28 inH2O, all figures in l/s\n" + table("Int (cfm)", "Exh (cfm)"), none + "| flow-unit-conflict", "A1 B2"},
		{"the unit of a note", "TA-70, 28 inH2O\n" + table("Int cfm", "Exh cfm") + "·\nNB: portate in m3/h\n", none + "| flow-unit-conflict", "B2 A7"},
		{"the unit of a German note", "TA-70, 28 inH2O\n" + table("Int cfm", "Exh cfm") + "·\nalle Werte in m³/h\n", none + "| flow-unit-conflict", "B2 A7"},
		{"one unit twice", "TA-70, 28 inH2O, CFM\n" + table("Int (cfm)", "Exh (cfm)"), both, ""},
		{"a flow in a note", "TA-70, 28 inH2O\n" + table("Int cfm", "Exh cfm") + "·\nbest ever 131 l/s\n", both, ""},
		{"each column in its own", "TA-70, 28 inH2O, cfm\n" + table("Int cfm", "Exh l/s"), "intake 3 212.0 exhaust 3 313.6", ""},

		{"another pressure behind a key", "TA-70, cfm\nTest pressure | 10 in H2O\n" + table("Int @28\"", "Exh @28\""), none + "| pressure-conflict", "B2 B3"},
		{"the same without a unit over the column", "TA-70\nTest pressure | 10 in H2O\n" + table("Int (cfm @ 28)", "Exh (cfm @ 28)"), none + "| pressure-conflict", "B2 B3"},
		{"another pressure in the title", "TA-70, cfm, 25\" H2O\n" + table("Int @28\"", "Exh @28\""), none + "| pressure-conflict", "A1 B2"},
		{"one pressure in two units", "TA-70, cfm\nTest pressure | 70 mbar\n" + table("Int @28\"", "Exh @28\""), both, ""},
		{"read at one, corrected to the other", "TA-70, cfm, tested at 25 in H2O\n" + table("Int corrected to 28\"", "Exh corrected to 28\""), both, ""},
		{"the same in the title", "TA-70, cfm, tested at 25 in H2O, all corrected to 28 in H2O\n" + table("Int", "Exh"), both, ""},
		{"each column at its own", "TA-70, cfm, 28 inH2O\n" + table("Int @28\"", "Exh @20\""), both, ""},
		{"what the bench was checked at", "TA-70, cfm\n" + table("Int @28\"", "Exh @28\"") + "·\nbench calibrated at 10 in H2O\n", both, ""},

		{"what the bench pulls, and what it was read at", "TA-70, cfm\n" + table("Int @28\"", "Exh @28\"") + "·\nbench max 28 in H2O, tested at 20 in H2O\n", none + "| pressure-conflict", "B2 A7"},
		{"a pressure behind what the bench was checked at", "TA-70, cfm\n" + table("Int @28\"", "Exh @28\"") + "·\nbench calibrated at 10 in H2O, tested at 20 in H2O\n", none + "| pressure-conflict", "B2"},

		{"a pipe over the column, none in a note", "TA-70, cfm, 28 inH2O\n" + table("Int", "Exh (pipe)") + "·\nexhaust without pipe\n", both + " | pipe-conflict", "C2 A7"},
		{"the same in German", "TA-70, cfm, 28 inH2O\n" + table("Einlass", "Auslass mit Rohr") + "·\nAuslass ohne Rohr gemessen\n", both + " | pipe-conflict", "C2 A7"},
		{"one pipe twice", "TA-70, cfm, 28 inH2O, exhaust with pipe\n" + table("Int", "Exh (pipe)"), both, ""},
		{"with a pipe and without", "TA-70, cfm, 28 inH2O, exhaust with pipe\nLift | Exh (pipe) | Exh (no pipe)\n.200 | 94 | 90\n.300 | 127 | 121\n.400 | 148 | 141\n", "exhaust 3 148.0 exhaust 3 141.0", ""},
	} {
		t.Run(c.name, func(t *testing.T) {
			got := readSheet(t, c.sheet)
			if peaks(got) != c.want {
				t.Errorf("read %q, want %q\n%s", peaks(got), c.want, describe(got))
			}
			for _, p := range got.Problems {
				for _, cell := range strings.Fields(c.cells) {
					if p.Severity == source.Asked && strings.HasSuffix(p.Kind, "-conflict") && !strings.Contains(p.Message, "cell "+cell) && p.At.Cell != strings.Replace(cell, "B", "C", 1) {
						t.Errorf("the question does not name %s: %s", cell, p.Message)
					}
				}
			}
		})
	}
}
