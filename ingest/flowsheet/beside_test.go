package flowsheet_test

import (
	"strings"
	"testing"

	"github.com/rogpeppe/go-internal/txtar"

	"flowshelf/analysis/head"
)

// TestBesideTheTable reads sheets with a list of keys beside the readings, and
// others of which only what stands around the readings is in question. want tells
// each test as TestConditions does, with its state and valve where it has one.
func TestBesideTheTable(t *testing.T) {
	const head1 = "Head: TA-70\n4.030 bore, 28 inH2O, cfm\n"
	const metric = "Head: TA-70\nBohrung 96 mm, 28 inH2O, l/s\nEinlass\nLift | Durchfluss\n1 | 10\n2 | 21\n4 | 40\n6 | 55\n8 | 64\n"
	const short = "·\nAuslass\nLift | Durchfluss\n1 | 9\n2 | 19\n4 | 35\n6 | 44\n"
	for _, c := range []struct{ name, sheet, want string }{
		{"measures of the head", head1 + "Lift | Int | Exh | · | Weight | 21.1 lb\n.200 | 114 | 94 | · | Stem | 11/32\n.300 | 170 | 127 | · | Chamber: 58 cc\n.400 | 212 | 148\n",
			"intake 4.030 28.0 3; exhaust 4.030 28.0 3"},
		{"measures that look like conditions", head1 + "Lift | Int | Exh | · | Spring | 130 @ 10\n.200 | 114 | 94 | · | Runner: 4.1 in\n.300 | 170 | 127 | · | Deck | 4.155\n.400 | 212 | 148\n",
			"intake 4.030 28.0 3; exhaust 4.030 28.0 3"},
		{"measures that are called as a port is", head1 + "Lift | Int cfm | Exh cfm | · | Runner | 224 cc\n.200 | 114 | 94 | · | Valve job: 5-angle\n.300 | 170 | 127\n.400 | 212 | 148\n",
			"intake 4.030 28.0 3; exhaust 4.030 28.0 3"},
		{"the word of a measure over an empty column", head1 + "Lift | Weight | Int | Exh\n.200 | · | 114 | 94\n.300 | · | 170 | 127\n.400 | · | 212 | 148\n",
			"intake 4.030 28.0 3; exhaust 4.030 28.0 3"},
		{"the same over the ports of a list", "4.030 bore, 28 inH2O\nHead | Runner | Lift | cfm\nTA-70 | Int | .200 | 114\nTA-70 | Int | .300 | 170\nTA-70 | Int | .400 | 212\nTA-70 | Exh | .200 | 94\nTA-70 | Exh | .300 | 127\nTA-70 | Exh | .400 | 148\n",
			"intake 4.030 28.0 3; exhaust 4.030 28.0 3"},
		{"figures that nobody names", head1 + "Lift | Int | Exh | · | Smith | 21.1 lb\n.200 | 114 | 94 | · | Jones | 11/32\n.300 | 170 | 127\n.400 | 212 | 148\n",
			"intake 4.030 28.0 3; exhaust 4.030 28.0 3"},
		{"conditions, each in one cell", "Head: TA-70\nLift | Int | Exh | · | Bore: 4.030 in\n.200 | 114 | 94 | · | Test pressure: 28 inH2O\n.300 | 170 | 127 | · | Flow in cfm\n.400 | 212 | 148\n",
			"intake 4.030 28.0 3; exhaust 4.030 28.0 3"},
		{"another bore than over the table", head1 + "Lift | Int | Exh | · | Bore: 4.155 in\n.200 | 114 | 94 | · | Customer: Smith\n.300 | 170 | 127\n.400 | 212 | 148\n",
			"intake 0.000 28.0 3; exhaust 0.000 28.0 3"}, // the bore is asked
		{"conditions without the pressure", "Head: TA-70\nLift | Int | Exh | · | Bore: 4.030 in\n.200 | 114 | 94 | · | Flow in cfm\n.300 | 170 | 127\n.400 | 212 | 148\n",
			"intake 4.030 0.0 0; exhaust 4.030 0.0 0"},
		{"a chamber of the head is no cylinder", head1 + "Chamber | 58 cc\nLift | Int | Exh\n.200 | 114 | 94\n.300 | 170 | 127\n.400 | 212 | 148\n",
			"intake 4.030 28.0 3; exhaust 4.030 28.0 3"},

		{"the usual pressure behind the bore on a tab", "tab TA-70 4.030 28\nLift | Int cfm | Exh cfm\n.200 | 114 | 94\n.300 | 170 | 127\n.400 | 212 | 148\n",
			"intake 4.030 28.0 3; exhaust 4.030 28.0 3"},
		{"another figure there", "tab TA-70 4.030 12\nLift | Int cfm | Exh cfm\n.200 | 114 | 94\n.300 | 170 | 127\n.400 | 212 | 148\n",
			"intake 4.030 0.0 0; exhaust 4.030 0.0 0"},
		{"the same where the unit of the flows is another", "tab TA-70 4.030 28\nLift | Int l/s | Exh l/s\n.200 | 54 | 44\n.300 | 80 | 60\n.400 | 100 | 70\n",
			"intake 4.030 0.0 0; exhaust 4.030 0.0 0"},

		{"a good and a bad port", head1 + "Lift | Int (Good) | Int (Bad) | Exh\n.200 | 114 | 110 | 94\n.300 | 170 | 165 | 127\n.400 | 212 | 206 | 148\n",
			"intake #good 4.030 28.0 3; intake #bad 4.030 28.0 3; exhaust 4.030 28.0 3"},
		{"a bad one alone", head1 + "Lift | Int (Bad) | Exh\n.200 | 114 | 94\n.300 | 170 | 127\n.400 | 212 | 148\n",
			"intake 4.030 28.0 0; exhaust 4.030 28.0 3"},

		{"lifts that stop before another list of the same steps", metric + "10 | 70\n12 | 73\n" + short, "intake 3.780 28.0 7; exhaust 3.780 28.0 4"},
		{"the same where that one stops as well", metric + short, "intake 3.780 28.0 0; exhaust 3.780 28.0 0"},
	} {
		t.Run(c.name, func(t *testing.T) {
			got := readSheet(t, c.sheet)
			var list []string
			for _, test := range got.Tests {
				list = append(list, set(test))
			}
			if set := strings.Join(list, "; "); set != c.want {
				t.Errorf("read %q, want %q\n%s", set, c.want, describe(got))
			}
		})
	}
}

// TestValveSizes reads the sizes of the valves in the orders they are written in.
func TestValveSizes(t *testing.T) {
	const table = "Head: TA-70\n4.030 bore, 28 inH2O, cfm\nL/D | Int | Exh\n.05 | 70 | 51\n.10 | 139 | 102\n.15 | 195 | 142\n.20 | 228 | 167\n"
	for _, c := range []struct {
		line string
		want [2]float64 // the highest lift of the intake and the exhaust, 0 for one that waits
	}{
		{"Valves: 2.020 int 1.620 exh", [2]float64{.404, .324}},
		{"Valves 1.620 exh, 2.020 int", [2]float64{.404, .324}},
		{"Valves 2.02/1.60", [2]float64{.404, .32}},
		{"Springs: 2.020 int 1.620 exh", [2]float64{}},
	} {
		t.Run(c.line, func(t *testing.T) {
			path, shop, book := fixture(t, &txtar.Archive{Files: []txtar.File{{Name: "tab Sheet1", Data: []byte(c.line + "\n" + table)}}})
			got, _ := readBook(path, book, shop)
			var lifts [2]float64
			for i, test := range got.Tests {
				if last := test.Readings[len(test.Readings)-1]; last.Status == head.Used && test.Status == head.Used {
					lifts[i] = last.Lift.Value.In()
				}
			}
			for i := range lifts {
				if d := lifts[i] - c.want[i]; d > 1e-9 || d < -1e-9 {
					t.Errorf("highest lifts %v, want %v\n%s", lifts, c.want, describe(got))
				}
			}
		})
	}
}
