package flowsheet_test

import (
	"slices"
	"strings"
	"testing"

	"github.com/rogpeppe/go-internal/txtar"

	"flowshelf/analysis/head"
)

// What stands under the lines that name a head.
const (
	conditions = "CFM at 28 inH2O, 4.030 bore\n"
	oneTable   = "Lift | Int | Exh\n.200 | 114 | 94\n.300 | 170 | 127\n.400 | 212 | 148\n.500 | 230 | 160\n"
	pair       = "Lift | Int | Exh | Int | Exh\n.200 | 114 | 94 | 118 | 97\n.300 | 170 | 127 | 175 | 131\n.400 | 212 | 148 | 219 | 152\n.500 | 230 | 160 | 238 | 166\n"
	grid       = "Lift | Int | Exh | · | Lift | Int | Exh\n.200 | 114 | 94 | · | .200 | 118 | 97\n.300 | 170 | 127 | · | .300 | 175 | 131\n.400 | 212 | 148 | · | .400 | 219 | 152\n.500 | 230 | 160 | · | .500 | 238 | 166\n"
)

// TestHeadNames reads sheets of which only the name of the head is in question.
// want lists the head of each test used, "?" for one that is asked about. The shop
// lists PW-33; it does not list the others.
func TestHeadNames(t *testing.T) {
	for _, c := range []struct{ name, sheet, want string }{
		{"a word behind the code", "TA-70 Pro\n" + conditions + oneTable, "TA-70 Pro"},
		{"behind a title", "Strömungswerte SG 300 R\n" + conditions + oneTable, "SG 300 R"},
		{"before a stroke", "SG 300 R / Bohrung 94 mm / 28 inH2O / cfm\n" + oneTable, "SG 300 R"},
		{"labelled in one cell", "Head: TA-70 Pro\n" + conditions + oneTable, "TA-70 Pro"},
		{"labelled in two cells", "Head | TA-70 sport\n" + conditions + oneTable, "TA-70 sport"},
		{"with a state", "TA-70 Pro CNC\n" + conditions + oneTable, "TA-70 Pro"},
		{"with the noun its last word needs", "TA-70 Big Port\n" + conditions + oneTable, "TA-70 Big Port"},
		{"with a date and initials", "TA-70 3/14/26 JT\n" + conditions + oneTable, "TA-70"},
		{"with a bore in millimetres", "TA-70 96mm 28inH2O cfm\n" + oneTable, "TA-70"},
		{"words that may be said in passing", "TA-70 ran hot\n" + conditions + oneTable, "?"},
		{"a long word that may say what the sheet is", "TA-70 Eingangsbefund\n" + conditions + oneTable, "?"},
		{"a listed head and more", "PW-33 Sport\n" + conditions + oneTable, "?"},
		{"a listed head and more, labelled", "Head | PW-33 Sport\n" + conditions + oneTable, "?"},
		{"a listed head, a state and more", "Head: PW-33 CNC Pro\n" + conditions + oneTable, "?"},
		{"a listed head alone", "PW-33\n" + conditions + oneTable, "PW-33"},
		{"a clipped word opens the name", "Culasse: Gr. A 205\n" + conditions + oneTable, "Gr. A 205"},
		{"a sentence ends behind the name", "Culasse: Merle. Alésage 92 mm\ncfm, 28 inH2O\n" + oneTable, "Merle"},
		{"a word and a mark", "Strömungswerte Marder 4V\n" + conditions + oneTable, "Marder 4V"},

		{"behind an Italian title and a dash", "Prova di flusso - TR 33\n" + conditions + oneTable, "TR 33"},
		{"behind a Spanish title and a colon", "Prueba de flujo: AR-20\n" + conditions + oneTable, "AR-20"},
		{"behind a Spanish title, a word and a figure", "Prueba de flujo: Tejo 23\n" + conditions + oneTable, "Tejo 23"},
		{"behind the title of a bench's report", "Flow Bench Report: TA-70\n" + conditions + oneTable, "TA-70"},
		{"in a box of its own", "Head [ Heron Minor ]\n" + conditions + oneTable, "Heron Minor"},

		{"a plain word alone", "Alouette\n" + conditions + oneTable, "?"},
		{"plain words on a tab of conditions", "tab Osprey II 4.030 28in\nCFM\n" + oneTable, "Osprey II"},
		{"plain words on a tab and in a title", "tab Iron Maple\nIron Maple\n" + conditions + oneTable, "Iron Maple"},
		{"plain words in a row of names", conditions + "· | TA-70 | ⟷ | Currawong | ⟷\n" + pair, "Currawong TA-70"},
		{"under a row of suppliers", conditions + "· | Cold Creek | · | Trois Ponts | ·\n· | TA-70 | · | Currawong | ·\n" + pair, "Currawong TA-70"},
		{"plain words where the others have names", conditions + "·\nTA-70 | · | · | · | Currawong | · | ·\n" + grid, "Currawong TA-70"},
		{"each its own, side by side", conditions + "·\nMerle 16 | · | · | · | SG 221 | · | ·\n" + grid, "Merle 16 SG 221"},
		{"not the head of the table above", "SG 221\n" + conditions + oneTable + "·\nSmith\n" + oneTable, "? SG 221"},
		{"nor a listed one, with conditions of its own", "PW-33\n" + conditions + oneTable + "·\nOsprey\n4.155 bore\n" + oneTable, "? PW-33"},
	} {
		t.Run(c.name, func(t *testing.T) {
			tab, sheet := "Sheet1", c.sheet
			if rest, ok := strings.CutPrefix(sheet, "tab "); ok {
				tab, sheet, _ = strings.Cut(rest, "\n")
			}
			archive := &txtar.Archive{Files: []txtar.File{{Name: "tab " + tab, Data: []byte(sheet)}}}
			path, shop, book := fixture(t, archive)
			got, _ := readBook(path, book, shop)
			if names := headsOf(got); names != c.want {
				t.Errorf("heads %q, want %q\n%s", names, c.want, describe(got))
			}
		})
	}
}

// headsOf lists the heads of the tests in order, each once; "?" for those asked.
func headsOf(got head.Records) string {
	var out []string
	seen := map[string]bool{}
	for _, test := range got.Tests {
		name := test.Head
		if test.Status == head.Asked {
			name = "?"
		}
		if !seen[name] {
			seen[name] = true
			out = append(out, name)
		}
	}
	slices.Sort(out)
	return strings.Join(out, " ")
}
