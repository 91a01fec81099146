package flowsheet_test

import (
	"strings"
	"testing"

	"flowshelf/analysis/head"
	"flowshelf/analysis/source"
)

// TestNotesAgainstReadings reads sheets with a note beside or under the table. Those
// that deny or qualify what stands there are asked about; the readings of the port they
// speak of wait. want is as for TestThousands.
func TestNotesAgainstReadings(t *testing.T) {
	const both, none = "intake 4 230.0 exhaust 4 160.0", "intake 0 0.0 exhaust 0 0.0 | tester-warning"
	const onlyIntake, onlyExhaust = "intake 4 230.0 exhaust 0 0.0 | tester-warning", "intake 0 0.0 exhaust 4 160.0 | tester-warning"
	for _, c := range []struct{ note, want string }{
		{"do not use - wrong plate", none}, {"estimated, not flowed", none}, {"above .400 calculated", none},
		{"old numbers, superseded by the March test", none}, {"numbers copied from catalog", none}, {"bench reads 2 % high, subtract", none},
		{"NB: columns swapped, first is exhaust", none}, {"leak at the plate", none}, {"lifts include .012 lash", none}, {"lifts are at the lobe", none},
		{"nicht verwenden", none}, {"geschätzt", none}, {"Werte aus dem Katalog, nicht gemessen", none}, {"Leck an der Platte", none}, {"Spalten vertauscht", none},
		{"ne pas utiliser", none}, {"à refaire, fuite au joint", none}, {"valeurs estimées", none}, {"colonnes inversées", none},
		{"non usare", none}, {"valori del catalogo, non misurati", none}, {"da rifare", none}, {"colonne scambiate", none},
		{"no usar, fuga en la placa", none}, {"valores estimados", none}, {"columnas cambiadas", none},
		{"intake numbers are the PW-71", onlyExhaust}, {"exhaust numbers from the old casting", onlyIntake}, {"intake fine, exhaust not flowed", onlyIntake},

		{"values are the mean of 3 runs", both}, {"le joint est neuf", both}, {"válvulas cambiadas", both}, {"no leak", both}, {"leak 1.2 cfm", both}, {"leak checked", both}, {"checked leak first, 1 cfm", both}, {"keine Leckage, Leck 0", both}, {"nothing wrong", both},
		{"better than the catalog", both}, {"meglio del catalogo", both}, {"advertised 260 at .600", both}, {"Katalogwert wäre 260", both}, {"el catálogo dice 270", both},
		{"lobe clearance checked", both}, {"static plate 12 used", both}, {"duration 240 cam in the engine", both}, {"valve lash .012", both},
	} {
		t.Run(c.note, func(t *testing.T) {
			if got := readSheet(t, "TA-70\n"+conditions+oneTable+"·\n"+c.note+"\n"); peaks(got) != c.want {
				t.Errorf("read %q, want %q\n%s", peaks(got), c.want, describe(got))
			}
		})
	}
}

// TestNotesElsewhere reads notes that stand columns away from the table, above it, in a
// row of it or behind a mark.
func TestNotesElsewhere(t *testing.T) {
	const both, none = "intake 4 230.0 exhaust 4 160.0", "intake 0 0.0 exhaust 0 0.0 | tester-warning"
	beside := func(what string) string {
		return "TA-70\n" + conditions + strings.Replace(oneTable, "127\n", "127"+what+"\n", 1)
	}
	for _, c := range []struct{ name, sheet, want string }{
		{"right beside", beside(" | do not use, clay fell off"), none},
		{"three columns away", beside(" | · | · | do not use, clay fell off"), none},
		{"in the header of a column", strings.Replace("TA-70\n"+conditions+oneTable, "Exh", "Exh (do not use)", 1), "intake 4 230.0 exhaust 0 0.0 | state-unclear"},
		{"estimated by the header of a column", strings.Replace("TA-70\n"+conditions+oneTable, "Exh", "Exh estimated", 1), "intake 4 230.0"},
		{"above the table", "TA-70\ndo not use, clay fell off\n" + conditions + oneTable, none},
		{"words of no weight", beside(" | · | · | somebody dropped a spanner"), both},
		{"a claim above the table", "TA-70\nadvertised 260 at .600\n" + conditions + oneTable, both},
		{"a comparison above the table", "TA-70\nbetter than the catalog\n" + conditions + oneTable, both},
		{"a pressure of its row", beside(" | 22 in H2O"), "intake 3 230.0 exhaust 3 160.0 | pressure-conflict"},
		{"the same columns away", beside(" | · | · | 22 in H2O"), "intake 3 230.0 exhaust 3 160.0 | pressure-conflict"},
		{"the pressure of all", beside(" | 28 in H2O"), both},
		{"a footnote that tells of work", strings.Replace("TA-70\n"+conditions+oneTable+"·\n(1) nach Rückschnitt\n", "| 230", "| '230 (1)", 1), "intake 3 212.0 exhaust 4 160.0 | footnote-condition"},
		{"a footnote that nothing points at", "TA-70\n" + conditions + oneTable + "·\n* estimated from neighbours\n", none},
		{"a footnote that one reading points at", strings.Replace("TA-70\n"+conditions+oneTable+"·\n* estimated from neighbours\n", "| 230", "| '230*", 1), "intake 3 212.0 exhaust 4 160.0 | footnote-condition"},
		{"a footnote of no weight", strings.Replace("TA-70\n"+conditions+oneTable+"·\n(1) re-checked\n", "| 230", "| '230 (1)", 1), both},
	} {
		t.Run(c.name, func(t *testing.T) {
			if got := readSheet(t, c.sheet); peaks(got) != c.want {
				t.Errorf("read %q, want %q\n%s", peaks(got), c.want, describe(got))
			}
		})
	}
}

// TestClaimsAboveATable: a line that compares with a claim makes no claim of the sheet,
// one that calls the figures a claim does.
func TestClaimsAboveATable(t *testing.T) {
	for line, want := range map[string]head.Class{
		"advertised 260 at .600": head.Own, "better than the catalog": head.Own, "besser als der Katalog": head.Own, "advertised figures": head.Advertised, "catalogue values": head.Advertised,
	} {
		for _, test := range readSheet(t, "TA-70\n"+line+"\n"+conditions+oneTable).Tests {
			if test.Class != want {
				t.Errorf("%q makes the sheet %v, want %v", line, test.Class, want)
			}
		}
	}
}

// TestWordsNotUnderstood: what stands by the readings and is not understood is quoted,
// once a sheet.
func TestWordsNotUnderstood(t *testing.T) {
	for _, c := range []struct{ name, sheet, want string }{
		{"under the table", "TA-70\n" + conditions + oneTable + "·\nthe pushrod pinch was left alone here\n", `"the pushrod pinch was left alone here"`},
		{"beside the table", "TA-70\n" + conditions + strings.Replace(oneTable, "127\n", "127 | · | somebody dropped a spanner\n", 1), `"somebody dropped a spanner"`},
		{"conditions", "TA-70\n" + conditions + oneTable + "·\nexhaust with pipe\n", ""},
		{"initials", "TA-70\n" + conditions + oneTable + "·\nJT\n", ""},
	} {
		t.Run(c.name, func(t *testing.T) {
			said := ""
			for _, p := range readSheet(t, c.sheet).Problems {
				if p.Kind == "note-not-understood" && p.Severity == source.Noted {
					said += p.Message
				}
			}
			if !strings.HasSuffix(said, c.want) || c.want == "" && said != "" {
				t.Errorf("said %q, want %q", said, c.want)
			}
		})
	}
}
