package flowsheet_test

import (
	"strings"
	"testing"

	"github.com/rogpeppe/go-internal/txtar"

	"flowshelf/analysis/source"
	"flowshelf/ingest/decode"
)

// TestStatedSomewhere reads sheets that state what a test needs in a place or in
// words that are easily taken for something else, and their neighbours that must be
// asked. want tells of each test what TestConditions does, before it the head and
// the state.
func TestStatedSomewhere(t *testing.T) {
	const two = "Lift | Intake | Exhaust\n.200 | 114 | 94\n.300 | 170 | 127\n.400 | 212 | 148\n"
	const mm = "Alzada mm | Admisión | Escape\n2 | 41 | 32\n4 | 88 | 66\n6 | 131 | 97\n"
	const heads = "MH-156 | 41 | 88 | 131\nTS-25 | 43 | 90 | 135\n"
	const across = " | .200 | .300 | .400\nIntake | 114 | 170 | 212\nExhaust | 94 | 127 | 148\n"
	const both = "TA-70 intake 4.030 28.0 3; TA-70 exhaust 4.030 28.0 3"
	const ld = "Head: TA-70\n4.030 bore, 28 inH2O, cfm\n"
	const overD = "L/D | Intake | Exhaust\n.05 | 70 | 51\n.10 | 139 | 102\n.15 | 195 | 142\n"
	for _, c := range []struct{ name, sheet, want string }{
		{"a bore over a base that is stated", "Head: LKC-41\n28 inH2O, cfm\nBore fixture: +.030 over 4.000\n" + two,
			"LKC-41 intake 4.030 28.0 3; LKC-41 exhaust 4.030 28.0 3"},
		{"a bore over the family's own", "Head: LKC-41\n28 inH2O, cfm\nBore fixture: .030 over\n" + two,
			"LKC-41 intake 4.340 28.0 3; LKC-41 exhaust 4.340 28.0 3"},
		{"a bore and what it is over in a note", "Head: LKC-41\n28 inH2O, cfm\n" + two + "·\n4.000 bore, .030 over\n",
			"LKC-41 intake 4.030 28.0 3; LKC-41 exhaust 4.030 28.0 3"},
		{"the same in two lines", "Head: LKC-41\n28 inH2O, cfm\n4.000 bore\n.030 over\n" + two, "LKC-41 intake 4.030 28.0 3; LKC-41 exhaust 4.030 28.0 3"},
		{"the same behind a key", "Head: LKC-41\n28 inH2O, cfm\nBore | 4.000, .030 over\n" + two, "LKC-41 intake 4.030 28.0 3; LKC-41 exhaust 4.030 28.0 3"},
		{"the same over one column", "Head: LKC-41\n28 inH2O, cfm, 4.000 bore\n" + strings.Replace(two, "Exhaust", "Exhaust .030 over", 1), "LKC-41 intake 4.000 28.0 3; LKC-41 exhaust 4.030 28.0 3"},
		{"the same without the word of the bore", "LKC-41 4.000 .030 over 28 inH2O cfm\n" + two, "LKC-41 intake 4.030 28.0 3; LKC-41 exhaust 4.030 28.0 3"},
		{"a bore and what is added", "LKC-41, 4.000 +.030, 28 inH2O cfm\n" + two, "LKC-41 intake 4.030 28.0 3; LKC-41 exhaust 4.030 28.0 3"},
		{"what it is over within the bore", "Head: LKC-41\n28 inH2O, cfm\n4.030 bore (.030 over)\n" + two, "LKC-41 intake 4.030 28.0 3; LKC-41 exhaust 4.030 28.0 3"},
		{"the same over the family's own", "Head: LKC-41\n28 inH2O, cfm\n4.340 bore (.030 over)\n" + two, "LKC-41 intake 4.340 28.0 3; LKC-41 exhaust 4.340 28.0 3"},
		{"a bore that may be either", "Head: LKC-41\n28 inH2O, cfm\n4.060 bore, .030 over\n" + two, "LKC-41 intake 0.000 28.0 3; LKC-41 exhaust 0.000 28.0 3"},
		{"a name that ends in a figure before the bore", "Quillan 90 alesaggio 96 mm\n28 inH2O, cfm\n" + two,
			"Quillan 90 intake 3.780 28.0 3; Quillan 90 exhaust 3.780 28.0 3"},
		{"the size of the cylinder", "Culata: TA-70\nCilindro mm: | 100\n28 inH2O, cfm\n" + mm, "TA-70 intake 3.937 28.0 3; TA-70 exhaust 3.937 28.0 3"},
		{"the number of the cylinder", "Culata: TA-70\nCilindro: | 3\n28 inH2O, cfm\n" + mm, "TA-70 intake #3 0.000 28.0 3; TA-70 exhaust #3 0.000 28.0 3"},
		{"a pressure before the word of the bore", "Head: TA-70\nCFM @ 28\" bore 4.030\n" + two, both},
		{"a tab with another casting's number", "tab 96-4441A\nHead | TA-70\n4.030 bore, 28 inH2O, cfm\n\n" + two, " intake 4.030 28.0 0; exhaust 4.030 28.0 0"},
		{"a form in French", "tab Modèle\nEXEMPLE\nCulasse | TA-70\n4.030 bore, 28 inH2O, cfm\n" + two, ""},
		{"the model of a head", "tab A\nModèle | TA-70\n4.030 bore, 28 inH2O, cfm\n" + two, both},

		{"the angles of the seats are no port", "Head: TA-70\n4.030 bore, 28 inH2O, l/s\nLift | Inlet as received | Inlet 3-angle seats\n.200 | 54 | 56\n.300 | 80 | 82\n.400 | 100 | 103\n",
			"TA-70 intake 4.030 28.0 3; TA-70 3-angle seats intake 4.030 28.0 3"},
		{"seats that were worked on", "Head: TA-70\n4.030 bore, 28 inH2O, cfm\n\n· | Serie | · | Sitze bearbeitet | ·\nHub | Einlass | Auslass | Einlass | Auslass\n.200 | 114 | 94 | 116 | 95\n.300 | 170 | 127 | 174 | 129\n.400 | 212 | 148 | 217 | 150\n",
			both + "; TA-70 Sitze bearbeitet intake 4.030 28.0 3; TA-70 Sitze bearbeitet exhaust 4.030 28.0 3"},
		{"what both ways of a table are", "cfm at 28\", 4.030 bore\n\n· | In | ⟷ | ⟷\nHead / Lift [mm] | 2 | 4 | 6\n" + heads + "\n· | Exhaust | ⟷ | ⟷\nSpecimen / Valve lift [mm] | 2 | 4 | 6\n" + heads,
			"MH-156 intake 4.030 28.0 3; TS-25 intake 4.030 28.0 3; MH-156 exhaust 4.030 28.0 3; TS-25 exhaust 4.030 28.0 3"},
		{"the unit alone beside the heads", "cfm at 28\", 4.030 bore\nAdmisión\nCulata / mm | 2 | 4 | 6\n" + heads, "MH-156 intake 4.030 28.0 3; TS-25 intake 4.030 28.0 3"},
		{"no unit beside the heads", "cfm at 28\", 4.030 bore\nAdmisión\nCulata / alzada | 2 | 4 | 6\n" + heads, "MH-156 intake 4.030 28.0 0; TS-25 intake 4.030 28.0 0"},
		{"the unit of the flows before the word of the lifts", "Head: TA-70\n4.030 bore, 28 inH2O\nCFM / Valve Lift (in)" + across, both},
		{"a flow by the area of the valve", "Head: TA-70\n4.030 bore, 28 inH2O\nCFM / valve area" + across, "TA-70 intake 4.030 28.0 0; TA-70 exhaust 4.030 28.0 0"},

		{"keys right before the table", "Head | TA-70 | Lift | In | Exhaust\nBore | 4.030 | .200 | 114 | 94\nPressure | 28 inH2O | .300 | 170 | 127\nUnit | cfm | .400 | 212 | 148\n", both},
		{"keys right behind the table", "Lift | Intake | Exhaust | Head | TA-70\n.200 | 114 | 94 | Bore | 4.030\n.300 | 170 | 127 | Pressure | 28 inH2O\n.400 | 212 | 148 | Unit | cfm\n", both},
		{"a unit nobody knows there", "Lift | Intake | Exhaust | Head | TA-70\n.200 | 114 | 94 | Bore | 4.030\n.300 | 170 | 127 | Pressure | 28 inH2O\n.400 | 212 | 148 | Unit | 12\n",
			"TA-70 intake 4.030 28.0 0; TA-70 exhaust 4.030 28.0 0"},
		{"a list of heads and ports", "4.030 bore, 28 inH2O, cfm\nHead | Port | Lift | Flow\nTA-70 | Int | .200 | 114\nTA-70 | Int | .300 | 170\nTA-70 | Int | .400 | 212\n", "TA-70 intake 4.030 28.0 3"},
		{"the valves with their unit", ld + "Intake valve (in): | 1.94\nExhaust valve (in): | 1.60\n" + overD, both},
		{"the valves in millimetres", ld + "Einlassventil (mm) | 46\nAuslassventil mm | 39\n" + overD, both},
		{"the stems of the valves", ld + "Intake stem (mm): | 8\nExhaust stem (mm): | 8\n" + overD, "TA-70 intake 4.030 28.0 0; TA-70 exhaust 4.030 28.0 0"},

		{"a short intake with its unit", ld + "Lift | Advertised In (cfm) | Advertised Exhaust (cfm)\n.200 | 114 | 94\n.300 | 170 | 127\n.400 | 212 | 148\n", both},
		{"a short intake over another table", ld + "\nIN\nLift | Cyl 1 | Cyl 3\n.200 | 114 | 115\n.300 | 170 | 171\n.400 | 212 | 213\n\nEXH\nLift | Cyl 1 | Cyl 3\n.200 | 94 | 95\n.300 | 127 | 128\n.400 | 148 | 149\n",
			"TA-70 intake #1 4.030 28.0 3; TA-70 intake #3 4.030 28.0 3; TA-70 exhaust #1 4.030 28.0 3; TA-70 exhaust #3 4.030 28.0 3"},
		{"a short intake over a stacked table", ld + "Lift | IN\n.200 | 114\n.300 | 170\n.400 | 212\n\n" + ld + "Lift | EX\n.200 | 94\n.300 | 127\n.400 | 148\n", both},
		{"the lifts in inches over a stacked table", ld + "Lift mm | In | Flow\n5 | .197 | 94\n7 | .276 | 127\n10 | .394 | 148\n\n" + ld + "Lift mm | In | Exhaust\n5 | .197 | 94\n7 | .276 | 127\n10 | .394 | 148\n",
			"TA-70 4.030 28.0 0; TA-70 exhaust 4.030 28.0 3"},
		{"the lifts in inches once more", ld + "Lift mm | In | Exhaust\n5 | .197 | 94\n7 | .276 | 127\n10 | .394 | 148\n", "TA-70 exhaust 4.030 28.0 3"},
		{"an Italian exhaust cut short", ld + "Alzata mm | ASP | SCA\n5 | 114 | 94\n7 | 170 | 127\n10 | 212 | 148\n", both},
		{"words that are events of a camshaft as well", ld + "Hub mm | EÖ | AÖ\n5 | 114 | 94\n7 | 170 | 127\n10 | 212 | 148\n", "TA-70 4.030 28.0 0"},

		{"one claim for each head", "Advertised flow, cfm @ 28\"\nHead | Lift | Intake | Exhaust\nTA-70 | .600 | 248 | 178\nTS-25 | .500 | 262 | 190\n",
			"TA-70 intake 0.000 28.0 1; TA-70 exhaust 0.000 28.0 1; TS-25 intake 0.000 28.0 1; TS-25 exhaust 0.000 28.0 1"},
		{"facts of heads", "Our heads, cfm @ 28\"\nHead | Lift | Intake | Exhaust\nTA-70 | .600 | 248 | 178\nTS-25 | .500 | 262 | 190\n", ""},
	} {
		t.Run(c.name, func(t *testing.T) {
			got := readSheet(t, c.sheet)
			var list []string
			for _, test := range got.Tests {
				list = append(list, strings.TrimSpace(test.Head+" "+test.State)+" "+set(test))
			}
			if read := strings.Join(list, "; "); strings.ReplaceAll(read, "  ", " ") != c.want {
				t.Errorf("read %q, want %q\n%s", read, c.want, describe(got))
			}
		})
	}
}

// TestFormulasNobodyWorkedOut reads a column of formulas without stored results: the
// readings are there, so each is refused and none passed over.
func TestFormulasNobodyWorkedOut(t *testing.T) {
	const sheet = "Head: TA-70\n4.030 bore, 28 inH2O, cfm\nLift | Exhaust | Intake\n.200 | 94 | =B4*1.058=\n.300 | 127 | =B5*1.058=\n.400 | 148 | =B6*1.058=\n"
	path, shop, book := fixture(t, &txtar.Archive{Files: []txtar.File{{Name: "tab Sheet1", Data: []byte(sheet)}}})
	for i, c := range book.Sheets[0].Cells {
		if c.Formula != "" {
			book.Sheets[0].Cells[i].Kind = decode.Empty // as a workbook has it that a program wrote
		}
	}
	got, _ := readBook(path, book, shop)
	refused := 0
	for _, p := range got.Problems {
		if p.Severity == source.Refused && strings.HasPrefix(p.At.Cell, "C") {
			refused++
		}
	}
	if refused != 3 {
		t.Errorf("%d formulas without a result are refused, want 3\n%s", refused, describe(got))
	}
}
