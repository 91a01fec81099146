package flowsheet_test

import (
	"fmt"
	"strings"
	"testing"

	"flowshelf/analysis/head"
)

// firstLifts lists the lifts of the first test in inches, "?" for readings that are not
// used, with the kinds of problem as peaks does.
func firstLifts(got head.Records) string {
	var out []string
	if len(got.Tests) > 0 {
		for _, r := range got.Tests[0].Readings {
			lift := "?"
			if r.Lift.Known && r.Status == head.Used && got.Tests[0].Status == head.Used {
				lift = fmt.Sprintf("%.3f", r.Lift.Value.In())
			}
			out = append(out, lift)
		}
	}
	_, kinds, asked := strings.Cut(peaks(got), "| ")
	if asked {
		out = append(out, "| "+kinds)
	}
	return strings.Join(out, " ")
}

// TestLiftsOfOtherKinds reads lifts in centimetres and in fractions, lifts of the cam,
// and lifts that stand in two columns. 1 in is 2.54 cm (its definition).
func TestLiftsOfOtherKinds(t *testing.T) {
	column := func(label string, lifts ...string) string {
		sheet := "TA-70\n" + conditions + label + " | Int\n"
		for i, lift := range lifts {
			sheet += fmt.Sprintf("%s | %d\n", lift, []int{114, 170, 212, 230}[i])
		}
		return sheet
	}
	for _, c := range []struct{ name, sheet, want string }{
		{"centimetres", column("Lift (cm)", "0.4", "0.6", "0.8", "1.2"), "0.157 0.236 0.315 0.472"},
		{"centimetres in French", column("Levée cm", "'0,4", "'0,6", "'0,8", "'1,2"), "0.157 0.236 0.315 0.472"},
		{"centimetres beside each", column("Lift", "'0.4 cm", "'0.6 cm", "'0.8 cm", "'1.2 cm"), "0.157 0.236 0.315 0.472"},
		{"centimetres that are millimetres", column("Lift (cm)", "4", "6", "8", "12"), "? ? ? ? | lift-unit"},
		{"fractions of an inch", column("Lift (in)", "'1/8", "'1/4", "'3/8", "'1/2"), "0.125 0.250 0.375 0.500"},
		{"the lift of the cam", column("Cam lift (in)", ".1", ".2", ".3", ".4"), "? ? ? ? | lift-unit"},
		{"the lift of the lobe", column("Lobe lift", ".1", ".2", ".3", ".4"), "? ? ? ? | lift-unit"},
		{"the lift of a German cam", column("Nockenhub mm", "4", "6", "8", "11"), "? ? ? ? | lift-unit"},
		{"the ratio multiplied in", column("Gross lift (lobe x 1.6)", ".1", ".2", ".3", ".4"), "0.100 0.200 0.300 0.400"},
		{"the lift of the lobe beside that of the valve", "TA-70\n" + conditions + "Lobe lift | Valve lift | Int\n.125 | .200 | 114\n.188 | .300 | 170\n.250 | .400 | 212\n.313 | .500 | 230\n", "0.200 0.300 0.400 0.500"},
		{"two columns that agree", "TA-70\n" + conditions + "Lift in | Lift mm | Int\n.200 | 5.08 | 114\n.300 | 7.62 | 170\n.400 | 10.16 | 212\n.500 | 12.7 | 230\n", "0.200 0.300 0.400 0.500"},
		{"two columns of which one row does not", "TA-70\n" + conditions + "Lift in | Lift mm | Int\n.200 | 5.08 | 114\n.300 | 8.62 | 170\n.400 | 10.16 | 212\n.500 | 12.7 | 230\n", "0.200 ? 0.400 0.500 | lift-unit"},
		{"the units alone over them", "TA-70\n" + conditions + "mm | in | Int\n5.08 | .200 | 114\n7.62 | .300 | 170\n10.16 | .410 | 212\n12.7 | .500 | 230\n", "0.200 0.300 ? 0.500 | lift-unit"},
	} {
		t.Run(c.name, func(t *testing.T) {
			if got := readSheet(t, c.sheet); firstLifts(got) != c.want {
				t.Errorf("read %q, want %q\n%s", firstLifts(got), c.want, describe(got))
			}
		})
	}
}

// TestNotLostForAWord reads flow sheets on which one word speaks of another trade, or a
// column is headed by a day.
func TestNotLostForAWord(t *testing.T) {
	const both = "intake 4 230.0 exhaust 4 160.0"
	for _, c := range []struct{ name, sheet, want string }{
		{"static", "TA-70\nstatic pressure port 25 mm from the flange\n" + conditions + oneTable, both},
		{"static in a note", "TA-70\n" + conditions + oneTable + "·\nstatic plate 12 used\n", both},
		{"lobe", "TA-70\n" + conditions + oneTable + "·\nlobe clearance checked\n", both},
		{"duration", "TA-70\n" + conditions + oneTable + "·\nduration 240 cam in the engine\n", both},
		{"a card of a cam", "TA-70 cam card\nLift | Int duration | Exh duration\n.050 | 240 | 246\n.100 | 210 | 216\n.200 | 160 | 166\n", ""},
		{"the same beside a flow", "TA-70 cam card, heads flow cfm 250\nLift | Int deg | Exh deg\n.050 | 140 | 146\n.100 | 210 | 216\n.200 | 260 | 266\n", ""},
		{"columns headed by a day", "TA-70 intake\n" + conditions + "Lift | 2025-01-10 | 2026-02-10\n.200 | 114 | 115\n.300 | 170 | 171\n.400 | 212 | 214\n.500 | 230 | 231\n", "intake 4 230.0 intake 4 231.0"},
		{"formulas that nobody worked out", "TA-70\n" + conditions + "Lift | Int | Exh\n.200 | =65.3*1.75= | =54*1.75=\n.300 | =97*1.75= | =73*1.75=\n.400 | =121*1.75= | =84*1.75=\n", "intake 0 0.0 exhaust 0 0.0 | formula-without-result"},
		{"dates of the rows", "TA-70\n" + conditions + "Lift | Int | Date\n.200 | 114 | 2026-02-10\n.300 | 170 | 2026-02-10\n.400 | 212 | 2026-02-10\n.500 | 230 | 2026-02-10\n", "intake 4 230.0"},
	} {
		t.Run(c.name, func(t *testing.T) {
			if got := readSheet(t, c.sheet); peaks(got) != c.want {
				t.Errorf("read %q, want %q\n%s", peaks(got), c.want, describe(got))
			}
		})
	}
}

// TestBoresInOtherWords reads bores that are written in less common ways; want is the
// bore in inches and whether the exhaust wore a pipe.
func TestBoresInOtherWords(t *testing.T) {
	for line, want := range map[string]string{
		"Ø92 liner": "3.622", "Liner | 92.0 mm": "3.622", "cilindro de 102,36 mm": "4.030", "Zylinder-Ø | 100": "3.937", "Bohrung | 9,6 cm": "3.780", "Alésage: 10,48 cm": "4.126",
		"Alesaggio | 0,086 m": "3.386", "Engine bore 4.000, flowed on 4.125 fixture": "4.125", "Engine bore | 4.030\nFixture bore | 4.155": "4.155", "Alesaggio motore | 84 mm\nAlesaggio prova | 86 mm": "3.386",
		"flowed on 4.155 sleeve, engine bore 4.030": "4.155", "Engine bore | 4.030": "4.030", "Motorbohrung | 94,0": "3.701",
		"4.030 bore\nNB: no exhaust pipe used": "4.030 no pipe", "4.030 bore\nNote | exhaust with pipe": "4.030 with pipe",
	} {
		t.Run(line, func(t *testing.T) {
			got := readSheet(t, "TA-70\n"+line+"\n28 inH2O, cfm\n"+oneTable)
			for _, test := range got.Tests {
				have := fmt.Sprintf("%.3f", test.Bore.Value.In())
				if test.Port == head.Exhaust && test.Pipe != head.PipeNotStated {
					have += " " + test.Pipe.String()
				}
				if have != want && (test.Port == head.Exhaust || have != strings.Fields(want)[0]) {
					t.Errorf("%v: %q, want %q\n%s", test.Port, have, want, describe(got))
				}
			}
			if len(got.Tests) == 0 {
				t.Error("no test")
			}
		})
	}
}
