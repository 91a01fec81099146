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
	three      = "Lift | Int | Exh | Int | Exh | Int | Exh\n.200 | 114 | 94 | 118 | 97 | 112 | 92\n.300 | 170 | 127 | 175 | 131 | 168 | 125\n.400 | 212 | 148 | 219 | 152 | 209 | 146\n.500 | 230 | 160 | 238 | 166 | 228 | 158\n"
	eight      = "Lift | Int | Exh | Int | Exh | Int | Exh | Int | Exh\n.200 | 114 | 94 | 118 | 97 | 112 | 92 | 116 | 95\n.300 | 170 | 127 | 175 | 131 | 168 | 125 | 172 | 129\n.400 | 212 | 148 | 219 | 152 | 209 | 146 | 215 | 150\n.500 | 230 | 160 | 238 | 166 | 228 | 158 | 235 | 163\n"
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
		{"a word and a figure before a state, labelled", "Head: Merle 187 CNC\n" + conditions + oneTable, "Merle 187"},
		{"the same as cast", "Head | Merle 56 as cast\n" + conditions + oneTable, "Merle 56"},
		{"the same at a stage", "Head: Merle 203 Stage 2\n" + conditions + oneTable, "Merle 203"},
		{"a name that goes on behind a state", "Head: Merle 238 CNC Pro\n" + conditions + oneTable, "Merle 238 CNC Pro"},
		{"a code that goes on behind a state", "Head: TA-70 CNC Pro\n" + conditions + oneTable, "TA-70 CNC Pro"},
		{"a title that goes on behind a state", "TA-70 CNC Pro\n" + conditions + oneTable, "TA-70 CNC Pro"},
		{"the same beside a bore", "TA-70 CNC Pro | 4.030 bore | 28 inH2O | cfm\n" + oneTable, "TA-70 CNC Pro"},
		{"a state and initials", "Head: Merle 238 CNC JT\n" + conditions + oneTable, "?"},
		{"a listed head alone", "PW-33\n" + conditions + oneTable, "PW-33"},
		{"a clipped word opens the name", "Culasse: Gr. A 205\n" + conditions + oneTable, "Gr. A 205"},
		{"a sentence ends behind the name", "Culasse: Merle. Alésage 92 mm\ncfm, 28 inH2O\n" + oneTable, "Merle"},
		{"a word and a mark", "Strömungswerte Marder 4V\n" + conditions + oneTable, "Marder 4V"},

		{"a revision behind the code", "WP4 rev. 2\n" + conditions + oneTable, "WP4 rev. 2"},
		{"a revision, labelled", "Test object | WP4 rev. 2\n" + conditions + oneTable, "WP4 rev. 2"},
		{"a revision by a letter", "Head: TA-70 Rev B\n" + conditions + oneTable, "TA-70 Rev B"},
		{"a revision without a gap", "TA-70 v2\n" + conditions + oneTable, "TA-70 v2"},
		{"a version", "Merle 224 Version 3\n" + conditions + oneTable, "Merle 224 Version 3"},
		{"an issue", "TA-70 issue C 4.030 bore 28 inH2O cfm\n" + oneTable, "TA-70 issue C"},
		{"a German revision", "Kopf: KH 84 Ausf. B\n" + conditions + oneTable, "KH 84 Ausf. B"},
		{"a revision before a state", "Head: TA-70 rev. 2 CNC\n" + conditions + oneTable, "TA-70 rev. 2"},
		{"two revisions over the columns", conditions + "· | WP4 rev. 2 | ⟷ | WP4 rev. 3 | ⟷\n" + pair, "WP4 rev. 2 WP4 rev. 3"},
		{"a revision of a listed head", "PW-33 rev. 2\n" + conditions + oneTable, "?"},
		{"a revision of a listed head over the columns", conditions + "· | PW-33 | ⟷ | PW-33 rev B | ⟷\n" + pair, "? PW-33"},
		{"a revision that a comma parts", "TA-70, rev. 2\n" + conditions + oneTable, "?"},
		{"a revision of the paper", "TA-70 / 4.030 bore / cfm @ 28 inH2O / form FS-12 rev. 2\n" + oneTable, "TA-70"},
		{"an engine of eight cylinders", "TA-70 / V8 / 4.030 bore / cfm @ 28 inH2O\n" + oneTable, "TA-70"},

		{"a state behind the name and others over the columns", conditions + "Merle 227 CNC\n· | Stock | ⟷ | 3-angle | ⟷\n" + pair, "?"},
		{"the same of a code", conditions + "TA-70 CNC\n· | Stock | ⟷ | 3-angle | ⟷\n" + pair, "?"},
		{"no state behind the name", conditions + "Merle 227\n· | Stock | ⟷ | 3-angle | ⟷\n" + pair, "Merle 227"},
		{"the work told by the title", conditions + "Merle 227 CNC\n· | Before | ⟷ | After | ⟷\n" + pair, "Merle 227"},

		{"heads in rows, the word for lift over theirs", "Bohrung 84 mm, 28 inH2O, cfm\nHub mm | Einlass | · | · | · | Auslass | · | · | ·\nKopf | 5 | 6 | 7 | 8 | 5 | 6 | 7 | 8\nTA-70 | 147 | 171 | 190 | 207 | 130 | 149 | 164 | 175\nSG-221 | 143 | 167 | 187 | 203 | 120 | 136 | 150 | 161\n", "SG-221 TA-70"},
		{"the same without the word", "Bohrung 84 mm, 28 inH2O, cfm\n· | Einlass | · | · | · | Auslass | · | · | ·\nKopf | 5 | 6 | 7 | 8 | 5 | 6 | 7 | 8\nTA-70 | 147 | 171 | 190 | 207 | 130 | 149 | 164 | 175\n", ""},
		{"a symbol for the lift", "TA-70, bore 84 mm, 28 inH2O, cfm\nh_v [mm] | Int | Exh\n5 | 114 | 94\n6 | 170 | 127\n7 | 212 | 148\n8 | 230 | 160\n", "TA-70"},

		{"L/D and the valves in German", "TA-70, Bohrung 84 mm, 28 inH2O, cfm\nVentil-Ø Einlass mm | 39,9\nVentil-Ø Auslass mm | 33\n·\nL/D | Einlass | Auslass\n0.10 | 32 | 32\n0.15 | 45 | 38\n0.20 | 54 | 39\n0.25 | 58 | 43\n", "TA-70"},
		{"L/D and the valves in Spanish", "TA-70, 84 mm, 28 inH2O, cfm\nVálvula admisión pulg | 1.84\nVálvula escape pulg | 1.5\n·\nL/D | Admision | Escape\n0.10 | 32 | 32\n0.15 | 45 | 38\n0.20 | 54 | 39\n0.25 | 58 | 43\n", "TA-70"},

		{"letters that are short for a deviation", "SD-33 - Bore 4.030 - 28 inH2O - cfm\n" + oneTable, "SD-33"},
		{"the same without a dash", "SD213 Pro / 4.030 bore / cfm @ 28 inH2O\n" + oneTable, "SD213 Pro"},
		{"the same, labelled and spaced", "Head | SD 52\n" + conditions + oneTable, "SD 52"},
		{"letters that are short for a remark", "NB-31\n" + conditions + oneTable, "NB-31"},
		{"a deviation", "mean 230, SD 12\n" + conditions + oneTable, "?"},
		{"a remark", "NB 3 repeats\n" + conditions + oneTable, "?"},
		{"an average behind the key of a head", "Head | Avg\n" + conditions + oneTable, "?"},

		{"a word and a figure that go on behind a state", "Merle 238 CNC Pro / 4.030 bore / cfm @ 28 inH2O\n" + oneTable, "Merle 238 CNC Pro"},
		{"the same before initials", "Merle 238 CNC JT / 4.030 bore / cfm @ 28 inH2O\n" + oneTable, "?"},
		{"a word and a figure before a state", "Merle 224 Stage 2, bore 4.125, cfm @ 28 inH2O, 2026-02-18 B.H.\n" + oneTable, "Merle 224"},
		{"work in passing", "Merle 224, bore 4.125, cfm @ 28 inH2O, bowls blended today\n" + oneTable, "?"},
		{"seats told beside a state", "Head: Merle 224 CNC\nSeats | 45 deg 5-angle\n" + conditions + oneTable, "Merle 224"},
		{"seats told in one cell", "Head: Merle 224\nValve job: 3-angle\n" + conditions + oneTable, "Merle 224"},
		{"a valve job of somebody", "Head: Merle 224\nValve job: Smith\n" + conditions + oneTable, "?"},

		{"behind an Italian title and a dash", "Prova di flusso - TR 33\n" + conditions + oneTable, "TR 33"},
		{"behind a Spanish title and a colon", "Prueba de flujo: AR-20\n" + conditions + oneTable, "AR-20"},
		{"behind a Spanish title, a word and a figure", "Prueba de flujo: Tejo 23\n" + conditions + oneTable, "Tejo 23"},
		{"behind the title of a bench's report", "Flow Bench Report: TA-70\n" + conditions + oneTable, "TA-70"},
		{"in a box of its own", "Head [ Heron Minor ]\n" + conditions + oneTable, "Heron Minor"},

		{"a word and one figure", "Merle 7\n" + conditions + oneTable, "Merle 7"},
		{"the same over a line of the bench", "Merle 7\nOwn bench\nradius plate, with 1-3/4 x 12 pipe\n" + conditions + oneTable, "Merle 7"},
		{"the same below a letterhead", "Cold Creek Engines\nMill Lane 4, unit 7 | Tel 555-0142\n·\nMerle 7\n" + conditions + oneTable, "Merle 7"},
		{"behind a noun without a mark", "Cylinder head Merle 7\n" + conditions + oneTable, "Merle 7"},
		{"a code whose letters number papers", "QT-48 | Bohrung 99 mm | Prüfdruck 28 inH2O | cfm\n" + oneTable, "QT-48"},
		{"before conditions that two spaces part", "Merle 210  Bore fixture 4.310 in  @ 28 inH2O\nCFM\n" + oneTable, "Merle 210"},
		{"labelled, before conditions that two spaces part", "Cylinder head: Merle 12   Bore fixture 3.898\nAll flow in CFM at 28 inH2O\n" + oneTable, "Merle 12"},
		{"labelled, before conditions behind dashes", "Culasse: Merle 12 - Alésage 96 mm - Pression d'essai 500 mmH2O - JT\ncfm\n" + oneTable, "Merle 12"},
		{"labelled, before conditions behind commas", "Head: Merle 12, 4.030 bore, 28 inH2O, 2026-01-22, JT\ncfm\n" + oneTable, "Merle 12"},
		{"labelled, before a bore in brackets", "Head: Merle 12 (bore 4.030)\n28 inH2O, cfm\n" + oneTable, "Merle 12"},
		{"labelled, before a preposition", "Head: Merle 12 on 4.030 bore at 28 inH2O, cfm\n" + oneTable, "Merle 12"},
		{"labelled, before a serial", "Head: Merle 12, serial 4417\n" + conditions + oneTable, "Merle 12"},
		{"labelled, before valves", "Head: Merle 12, valves 2.02/1.60\n" + conditions + oneTable, "Merle 12"},
		{"labelled, before whose bench", "Head: Merle 12 - own bench\n" + conditions + oneTable, "Merle 12"},
		{"labelled, before a chamber", "Head: Merle 12, chamber 64 cc\n" + conditions + oneTable, "Merle 12"},
		{"labelled, a port behind it", "Head: Merle 240 Int. valve\n" + conditions + "Lift | cfm\n.200 | 114\n.300 | 170\n.400 | 212\n.500 | 230\n", "Merle 240"},
		{"words behind the figure beside conditions", "Merle 200 INSPECTION   4.030 bore   28 inH2O   cfm\n" + oneTable, "?"},
		{"labelled, before a rework", "Head: Merle 12 ported\n" + conditions + oneTable, "Merle 12"},
		{"labelled, initials that may belong to the name", "Head: Merle 12 JT 2026-01-22\n" + conditions + oneTable, "?"},
		{"labelled, words that nobody knows behind a comma", "Head: Merle 12, Smith\n" + conditions + oneTable, "?"},
		{"labelled, a second name behind a stroke", "Head: Merle 12 / Osprey 7\n" + conditions + oneTable, "?"},
		{"labelled, a noun before the figure", "Kopf: Big Bore 12\n" + conditions + oneTable, "Big Bore 12"},
		{"labelled, before conditions behind nothing", "Head: Merle 12 28 inH2O 4.030 bore cfm\n" + oneTable, "Merle 12"},
		{"labelled, not sure how far it goes", "Head: Merle 12 bore 4.030 28 inH2O cfm\n" + oneTable, "?"},
		{"labelled in two cells, with conditions", "Head | Merle 12 / bore 4.030 / 28 inH2O\ncfm\n" + oneTable, "Merle 12"},
		{"labelled, with a word of its own before conditions", "Head: Merle 12 Sport - Bore 4.030\n28 inH2O, cfm\n" + oneTable, "Merle 12 Sport"},
		{"two words and a figure beside conditions", "Heron Minor 23   4.030 bore   28 inH2O   cfm\n" + oneTable, "Heron Minor 23"},
		{"two words and a figure alone may be a street", "Mill Corner 23\n" + conditions + oneTable, "?"},
		{"a street", "Gartenweg 7\n" + conditions + oneTable, "?"},
		{"what counts", "Messreihe 3\n" + conditions + oneTable, "?"},
		{"a paper with a long number", "QT-10482\n" + conditions + oneTable, "?"},
		{"a tab of another head", "tab Merle 9 4.030 28in\nSaltus 64\ncfm\n" + oneTable, "?"},
		{"a tab with a code, a title with a word and a figure", "tab HX-210 4.030 28in\nMerle 9\ncfm\n" + oneTable, "?"},
		{"a tab of plain words, a title of others", "tab Osprey II 4.030 28in\nSaltus 64\ncfm\n" + oneTable, "?"},
		{"a row of names with a paper's letters", conditions + "· | QT-27 | ⟷ | Merle 7 | ⟷ | HX 12 | ⟷\n" + three, "HX 12 Merle 7 QT-27"},
		{"names over readings of one port", conditions + "Exhaust\nLift | Merle 9 | TA-72 | Diff | %\n.200 | 91 | 100 | 9 | 9.6\n.300 | 121 | 134 | 13 | 10.8\n.400 | 138 | 155 | 17 | 11.8\n.500 | 147 | 166 | 19 | 12.5\n", "Merle 9 TA-72"},
		{"a banner over two states of two ports, not merged", conditions + "· | TA-72 | · | · | · | SG 221 | · | · | ·\n· | As cast | · | Ported | · | As cast | · | Ported | ·\n" + eight, "SG 221 TA-72"},

		{"a plain word alone", "Alouette\n" + conditions + oneTable, "?"},
		{"plain words on a tab of conditions", "tab Osprey II 4.030 28in\nCFM\n" + oneTable, "Osprey II"},
		{"plain words on a tab and in a title", "tab Iron Maple\nIron Maple\n" + conditions + oneTable, "Iron Maple"},
		{"a word of the sheet that products are called by", "TA-70 Plus / 4.030 bore / cfm @ 28 inH2O\n" + oneTable, "?"},
		{"the same, labelled", "Head: TA-70 Max\n" + conditions + oneTable, "?"},
		{"the same, and the file says so", "file bench/TA-70 Plus flow.xlsx\nTA-70 Plus / 4.030 bore / cfm @ 28 inH2O\n" + oneTable, "?"},
		{"the same in the file alone", "file bench/TA-70 Plus flow.xlsx\n" + conditions + oneTable, "?"},
		{"the same behind a word and a figure", "Merle 210 Hi-Flow / 4.030 bore / cfm @ 28 inH2O\n" + oneTable, "?"},
		{"and the file without it", "file bench/Merle 210 flow.xlsx\nMerle 210 Hi-Flow / 4.030 bore / cfm @ 28 inH2O\n" + oneTable, "?"},
		{"a code, and the file without it", "file bench/TA-70 flow.xlsx\nTA-70 Hi-Flow / 4.030 bore / cfm @ 28 inH2O\n" + oneTable, "?"},
		{"new, or called so", "TA-70 New / 4.030 bore / cfm @ 28 inH2O\n" + oneTable, "?"},
		{"a noun before a stroke", "TA-70 Big Port / 4.030 bore / cfm @ 28 inH2O\n" + oneTable, "TA-70 Big Port"},
		{"the same behind a spaced code", "SG 300 Max / 4.030 bore / cfm @ 28 inH2O\n" + oneTable, "?"},
		{"the same over one column is no name", conditions + "Lift | TA-70 Int | TA-70 Max\n.200 | 114 | 116\n.300 | 170 | 173\n.400 | 212 | 216\n.500 | 230 | 234\n", "TA-70"},
		{"a type behind the code", "TA-70 Type R / 4.030 bore / cfm @ 28 inH2O\n" + oneTable, "?"},
		{"a word in quotes behind the code", "TA-70 'Race' / 4.030 bore / cfm @ 28 inH2O\n" + oneTable, "?"},
		{"a letter behind a stroke", "TA-70 R/T / 4.030 bore / cfm @ 28 inH2O\n" + oneTable, "?"},
		{"a figure behind a stroke", "TA-70/23 - 4.030 bore - cfm @ 28 inH2O\n" + oneTable, "?"},
		{"what the sheet is", "TA-70 Flow Test / 4.030 bore / cfm @ 28 inH2O\n" + oneTable, "TA-70"},
		{"capitals of a name before a tester's", "Merle 210 HD / 4.030 bore / cfm @ 28 inH2O / 2026-02-18 JT\n" + oneTable, "Merle 210 HD"},
		{"capitals of a name or a tester's", "Merle 210 HD / 4.030 bore / cfm @ 28 inH2O / 2026-02-18\n" + oneTable, "?"},
		{"the same behind a code", "TA-70 HD / 4.030 bore / cfm @ 28 inH2O / 2026-02-18\n" + oneTable, "?"},
		{"a mark in Roman figures and a date", "TA-70 II / 4.030 bore / cfm @ 28 inH2O / 2026-02-18\n" + oneTable, "TA-70 II"},
		{"a serial behind the key of a head", "Head: SN 4417\n" + conditions + oneTable, "?"},
		{"initials before the date", "Merle 210 JT 2026-02-18 / 4.030 bore / cfm @ 28 inH2O\n" + oneTable, "Merle 210"},
		{"letters of a port and of a power, labelled", "Head | EX-220\n" + conditions + oneTable, "EX-220"},
		{"letters of a power, labelled", "Head: HP-180\n" + conditions + oneTable, "HP-180"},
		{"plain words of the file before conditions", "file bench/Osprey Minor flow.xlsx\nOsprey Minor / 4.030 bore / cfm @ 28 inH2O\n" + oneTable, "Osprey Minor"},
		{"a letterhead that the file is called by", "file bench/Osprey Minor.xlsx\nOsprey Minor\n" + conditions + oneTable, "?"},
		{"plain words before conditions alone", "Osprey Minor / 4.030 bore / cfm @ 28 inH2O\n" + oneTable, "?"},
		{"a state in the file that belongs to the name", "file bench/Merle 238 CNC Pro flow.xlsx\nHead: Merle 238 CNC Pro\n" + conditions + oneTable, "Merle 238 CNC Pro"},
		{"a state in the file and none on the sheet", "file bench/Merle 238 CNC flow.xlsx\nHead: Merle 238\n" + conditions + oneTable, "?"},
		{"plain words in a row of names", conditions + "· | TA-70 | ⟷ | Currawong | ⟷\n" + pair, "Currawong TA-70"},
		{"under a row of suppliers", conditions + "· | Cold Creek | · | Trois Ponts | ·\n· | TA-70 | · | Currawong | ·\n" + pair, "Currawong TA-70"},
		{"plain words where the others have names", conditions + "·\nTA-70 | · | · | · | Currawong | · | ·\n" + grid, "Currawong TA-70"},
		{"plain words that end in one that says nothing", conditions + "· | TA-70 | ⟷ | Marlow Point | ⟷\n" + pair, "Marlow Point TA-70"},
		{"words that say nothing", conditions + "· | TA-70 | ⟷ | Data Point | ⟷\n" + pair, "? TA-70"},
		{"a name around a state in a row of names", conditions + "· | TA-70 | ⟷ | GH-90 CNC Pro | ⟷\n" + pair, "GH-90 CNC Pro TA-70"},
		{"a listed head, a state and more in a row of names", conditions + "· | TA-70 | ⟷ | PW-33 CNC Pro | ⟷\n" + pair, "? TA-70"},
		{"plain words before a bore where the others have names", "Iron Maple   4.000 bore   28 inH2O   cfm\n·\n" + oneTable + "·\nTA-70, 4.030 bore, 28 inH2O, cfm\n" + oneTable, "Iron Maple TA-70"},
		{"a remark before a bore where the others have names", "TA-70   4.000 bore   28 inH2O   cfm\n·\n" + oneTable + "·\nRetest   4.030 bore   28 inH2O   cfm\n" + oneTable, "? TA-70"},
		{"a customer before a bore where the others have names", "TA-70   4.000 bore   28 inH2O   cfm\n·\n" + oneTable + "·\nfor Smith Racing   4.030 bore   28 inH2O   cfm\n" + oneTable, "? TA-70"},
		{"the same without a bore", "Iron Maple   28 inH2O   cfm\n·\n" + oneTable + "·\nTA-70, 4.030 bore, 28 inH2O, cfm\n" + oneTable, "? TA-70"},
		{"the same where the others have none", "Iron Maple   4.000 bore   28 inH2O   cfm\n·\n" + oneTable + "·\nGrey Heron, 4.030 bore, 28 inH2O, cfm\n" + oneTable, "?"},
		{"plain words on a tab and before a bore", "tab Iron Maple\nIron Maple   4.030 bore   cfm @ 28 inH2O\n" + oneTable, "Iron Maple"},
		{"each its own, side by side", conditions + "·\nMerle 16 | · | · | · | SG 221 | · | ·\n" + grid, "Merle 16 SG 221"},
		{"not the head of the table above", "SG 221\n" + conditions + oneTable + "·\nSmith\n" + oneTable, "? SG 221"},
		{"nor a listed one, with conditions of its own", "PW-33\n" + conditions + oneTable + "·\nOsprey\n4.155 bore\n" + oneTable, "? PW-33"},
	} {
		t.Run(c.name, func(t *testing.T) {
			got := readSheet(t, c.sheet)
			if names := headsOf(got); names != c.want {
				t.Errorf("heads %q, want %q\n%s", names, c.want, describe(got))
			}
		})
	}
}

// TestBareNumbers reads columns over which nothing stands but a number. want counts
// the tests used; the others wait.
func TestBareNumbers(t *testing.T) {
	const near = ".200 | 114 | 116\n.300 | 170 | 173\n.400 | 212 | 216\n.500 | 230 | 234\n"
	const apart = ".200 | 114 | 125\n.300 | 170 | 187\n.400 | 212 | 233\n.500 | 230 | 253\n"
	for _, c := range []struct {
		name, sheet string
		want        int
	}{
		{"as near as two ports are", "Head: TA-70\n" + conditions + "Intake\nLift | 1 | 2\n" + near, 2},
		{"further apart", "Head: TA-70\n" + conditions + "Intake\nLift | 1 | 2\n" + apart, 0},
		{"further apart, and called cylinders", "Head: TA-70\n" + conditions + "Intake\nCylinders\nLift | 1 | 2\n" + apart, 2},
		{"further apart, each with its word", "Head: TA-70\n" + conditions + "Intake\nLift | Cyl 1 | Cyl 2\n" + apart, 2},
	} {
		t.Run(c.name, func(t *testing.T) {
			path, shop, book := fixture(t, &txtar.Archive{Files: []txtar.File{{Name: "tab Sheet1", Data: []byte(c.sheet)}}})
			got, _ := readBook(path, book, shop)
			used := 0
			for _, test := range got.Tests {
				if test.Status == head.Used {
					used++
				}
			}
			if used != c.want {
				t.Errorf("%d tests used, want %d\n%s", used, c.want, describe(got))
			}
		})
	}
}

// TestNoMeanOfAnotherHead holds that the first column of a second head is no mean
// of the first head's columns, whatever its figures.
func TestNoMeanOfAnotherHead(t *testing.T) {
	for _, second := range []string{"SG-221", "Currawong"} {
		sheet := conditions + "Intake\n· | TA-70 | · | " + second + " | ·\nLift | As cast | Ported | As cast | Ported\n" +
			".200 | 114 | 118 | 116 | 121\n.300 | 170 | 176 | 173 | 180\n.400 | 212 | 220 | 216 | 225\n.500 | 230 | 240 | 235 | 246\n"
		path, shop, book := fixture(t, &txtar.Archive{Files: []txtar.File{{Name: "tab Sheet1", Data: []byte(sheet)}}})
		got, _ := readBook(path, book, shop)
		if len(got.Tests) != 4 {
			t.Errorf("%s: %d tests, want 4\n%s", second, len(got.Tests), describe(got))
		}
	}
}

// readSheet reads a sheet that may begin with the names of its file and its tab.
func readSheet(t *testing.T, sheet string) head.Records {
	t.Helper()
	tab, sheet := tabOf(sheet)
	file := "bench/test.xlsx"
	if rest, ok := strings.CutPrefix(sheet, "file "); ok {
		file, sheet, _ = strings.Cut(rest, "\n")
	}
	path, shop, book := fixture(t, &txtar.Archive{Files: []txtar.File{{Name: "tab " + tab, Data: []byte(sheet)}}, Comment: []byte("path: " + file)})
	got, _ := readBook(path, book, shop)
	return got
}

// tabOf returns the name of the tab that a sheet may begin with, and the sheet.
func tabOf(sheet string) (tab, rest string) {
	if rest, ok := strings.CutPrefix(sheet, "tab "); ok {
		tab, sheet, _ = strings.Cut(rest, "\n")
		return tab, sheet
	}
	return "Sheet1", sheet
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
