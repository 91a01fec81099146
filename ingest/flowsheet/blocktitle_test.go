package flowsheet_test

import (
	"cmp"
	"fmt"
	"slices"
	"strings"
	"testing"

	"flowshelf/analysis/head"
)

// TestBlocksKeepTheirConditions reads sheets of stacked blocks of which the first
// title says more than the second. want lists each head of the sheet with what it was
// flowed under: state, bore, pipe, pressure; "-" for what is not stated, "?" for a head
// or a pressure that is asked. The examples are invented (common practice, no source).
func TestBlocksKeepTheirConditions(t *testing.T) {
	const full = " | 4.030 bore | 10 inH2O | exhaust without pipe | CNC ported\n" + blockTable
	for _, c := range []struct{ name, sheet, want string }{
		{"a code", "VR-12" + full + "·\n·\nCW-88 | 28 inH2O\n" + blockTable, "VR-12 CNC ported 4.030 no pipe 10; CW-88 - - - 28"},
		{"a word and one figure", "VR-12" + full + "·\n·\nWharf 7 | 28 inH2O\n" + blockTable, "VR-12 CNC ported 4.030 no pipe 10; Wharf 7 - - - 28"},
		{"the same without a pressure", "VR-12" + full + "·\n·\nWharf 7 | 4.125 bore\n" + blockTable, "VR-12 CNC ported 4.030 no pipe 10; Wharf 7 - 4.125 - ?"},
		{"the same alone", "VR-12" + full + "·\n·\nWharf 7\n" + blockTable, "VR-12 CNC ported 4.030 no pipe 10; Wharf 7 - - - ?"},
		{"a letter behind the figures", "VR-12" + full + "·\n·\nB41C | 4.030 bore | 28 inH2O | exhaust with pipe\n" + blockTable, "VR-12 CNC ported 4.030 no pipe 10; B41C - 4.030 with pipe 28"},
		{"two words", "VR-12" + full + "·\n·\nOastbridge S2 | 28 inH2O\n" + blockTable, "VR-12 CNC ported 4.030 no pipe 10; Oastbridge S2 - - - 28"},
		{"a title before the name", "VR-12" + full + "·\n·\nFlow test | Wharf 7 | 28 inH2O\n" + blockTable, "VR-12 CNC ported 4.030 no pipe 10; Wharf 7 - - - 28"},
		{"a date before the name", "VR-12" + full + "·\n·\n2026-02-17 | B41C | 28 inH2O\n" + blockTable, "VR-12 CNC ported 4.030 no pipe 10; ?"},
		{"the number of a run before the name", "VR-12" + full + "·\n·\nRun 2: Wharf 7 | 28 inH2O\n" + blockTable, "VR-12 CNC ported 4.030 no pipe 10; ?"},
		{"the conditions before the name", "VR-12" + full + "·\n·\n28 inH2O, Wharf 7\n" + blockTable, "VR-12 CNC ported 4.030 no pipe 10; Wharf 7 - - - 28"},
		{"what may be a serial number", "VR-12" + full + "·\n·\nSN-9 | 28 inH2O\n" + blockTable, "VR-12 CNC ported 4.030 no pipe 10; ?"},
		{"a word of the trade and a figure", "VR-12" + full + "·\n·\nMax 3 | 28 inH2O\n" + blockTable, "VR-12 CNC ported 4.030 no pipe 10; Max 3 - - - 28"},
		{"small letters", "VR-12" + full + "·\n·\nwharf 7 | 28 inH2O\n" + blockTable, "VR-12 CNC ported 4.030 no pipe 10; ?"},
		{"two odd names", "Reiher 5" + full + "·\n·\nWharf 7 | 28 inH2O\n" + blockTable, "Reiher 5 CNC ported 4.030 no pipe 10; Wharf 7 - - - 28"},
		{"an odd name without a bore", "Reiher 5 | 10 inH2O | exhaust without pipe\n" + blockTable + "·\n·\nWharf 7\n" + blockTable, "Reiher 5 - - no pipe 10; Wharf 7 - - - ?"},
		{"the same with nothing but a pressure", "Reiher 5 | 10 inH2O\n" + blockTable + "·\n·\nWharf 7\n" + blockTable, "Reiher 5 - - - 10; Wharf 7 - - - ?"},
		{"a blank row below each title", "VR-12 | 4.030 bore | 10 inH2O\n·\n" + blockTable + "·\n·\nWharf 7 | 4.125 bore\n·\n" + blockTable, "VR-12 - 4.030 - 10; Wharf 7 - 4.125 - ?"},
		{"a line of its own below each title", "Reiher 5 | 4.030 bore\n10 inH2O\n" + blockTable + "·\n·\nWharf 7 | 4.125 bore\nbench 2\n" + blockTable, "Reiher 5 - 4.030 - 10; Wharf 7 - 4.125 - ?"},
		{"a title, a blank row and a line of its own", "VR-12 | 4.030 bore\n·\nrun 1, 10 inH2O\n" + blockTable + "·\n·\nWharf 7 | 4.125 bore\n·\nrun 1\n" + blockTable, "VR-12 - 4.030 - 10; Wharf 7 - 4.125 - ?"},

		{"conditions of the sheet in a part of their own", "All heads: 28 inH2O, exhaust with pipe\n·\nVR-12 | 4.030 bore\n" + blockTable + "·\n·\nWharf 7 | 4.125 bore\n" + blockTable, "VR-12 - 4.030 with pipe 28; Wharf 7 - 4.125 with pipe 28"},
		{"conditions of the sheet right over the first title", "CFM at 28 inH2O\nReiher 5 | 4.030 bore\n" + blockTable + "·\n·\nWharf 7 | 4.125 bore\n" + blockTable, "Reiher 5 - 4.030 - 28; Wharf 7 - 4.125 - 28"},
		{"a note below the first table", "28 inH2O, exhaust with pipe\n·\nHead: | TA-70\n·\n" + blockTable + "·\nseats a little wide\n·\nHead: | SG-221\n" + blockTable, "TA-70 - - with pipe 28; SG-221 - - with pipe 28"},
		{"a unit over the second table", "28 inH2O\n·\nVR-12 | 4.030 bore\n" + blockTable + "·\nCFM\n" + blockTable, "VR-12 - 4.030 - 28; ?"},
		{"another customer", "Head | Wharf 7\nBore | 4.030\nState | CNC\nPressure | 10 inH2O\n·\n" + blockTable + "·\nCustomer | Marsh 2\nBore | 4.125\n·\n" + blockTable, "Wharf 7 CNC 4.030 - 10; ?"},
		{"another job", "Head: Wharf 7\nBore: 4.030\n10 inH2O\nJob: 4471\n·\n" + blockTable + "·\nJob: 4472\nBore: 4.125\n·\n" + blockTable, "Wharf 7 - 4.030 - 10; ?"},
		{"one customer twice", "Head | Wharf 7\nBore | 4.030\nCustomer | Marsh 2\n10 inH2O\n·\n" + blockTable + "·\nCustomer | Marsh 2\nBore | 4.125\n·\n" + blockTable, "Wharf 7 - 4.030 - 10; Wharf 7 - 4.125 - 10"},
		{"one head on two bores", "VR-12 | 4.030 bore | 28 inH2O | exhaust with pipe\n" + blockTable + "·\n·\n4.125 bore\n" + blockTable, "VR-12 - 4.030 with pipe 28; VR-12 - 4.125 with pipe 28"},
		{"one odd head in two states", "Kopf Wharf 7 | 4.030 bore | 28 inH2O | exhaust with pipe\nZustand: wie geliefert\n" + blockTable + "·\nZustand: nach Bearbeitung\n" + blockTable, "Wharf 7 - 4.030 with pipe 28; Wharf 7 nach Bearbeitung 4.030 with pipe 28"},
	} {
		t.Run(c.name, func(t *testing.T) {
			got := readSheet(t, c.sheet)
			if conditions := conditionsOf(got); conditions != c.want {
				t.Errorf("read %s\nwant %s\n%s", conditions, c.want, describe(got))
			}
		})
	}
}

// blockTable is a table whose title stands over it.
const blockTable = "Lift (in) | Int cfm | Exh cfm\n.200 | 114 | 94\n.300 | 170 | 127\n.400 | 212 | 148\n.500 | 230 | 160\n"

// conditionsOf lists what each exhaust was flowed under.
func conditionsOf(got head.Records) string {
	var out []string
	for _, test := range got.Tests {
		if test.Port != head.Exhaust {
			continue
		}
		if test.Status == head.Asked {
			out = append(out, "?")
			continue
		}
		list := []string{test.Head, cmp.Or(test.State, "-"), "-", "-", "?"}
		if test.Bore.Known {
			list[2] = fmt.Sprintf("%.3f", test.Bore.Value.In())
		}
		if test.Pipe != head.PipeNotStated {
			list[3] = test.Pipe.String()
		}
		if slices.ContainsFunc(test.Readings, func(r head.Reading) bool { return r.Status == head.Used }) {
			list[4] = fmt.Sprintf("%.3g", test.Pressure.Value.InH2O())
		}
		out = append(out, strings.Join(list, " "))
	}
	return strings.Join(out, "; ")
}
