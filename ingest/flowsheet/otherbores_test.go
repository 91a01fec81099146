package flowsheet_test

import (
	"fmt"
	"slices"
	"testing"

	"flowshelf/analysis/head"
	"flowshelf/analysis/source"
)

// TestOtherBores reads sheets that speak of cylinders by their numbers and of bores
// that are no fixture's. want is the bore and the state of the head; "-" for a bore
// that is not stated, "?" for one that is asked. The examples are invented (common
// practice, no source).
func TestOtherBores(t *testing.T) {
	for _, c := range []struct{ name, lines, want string }{
		{"a German cylinder", "Zylinder 3", "- "},
		{"a Spanish cylinder", "cilindro 4", "- "},
		{"an English cylinder", "Cylinder 4", "- "},
		{"a French cylinder", "cylindre 4", "- "},
		{"a cylinder beside the bore", "4.030 bore\nCylinder 4", "4.030 "},
		{"how many cylinders", "Bohrung 96 mm\n4 Zylinder geprüft", "3.780 "},
		{"the same in Spanish", "cilindro 102,36 mm, mín y máx de 4 cilindros", "4.030 "},
		{"an engine of four", "4.030 bore\n4-cylinder engine", "4.030 "},
		{"a cylinder's bore in millimetres", "Zylinder 96", "3.780 "},
		{"with decimals", "Cylinder 4.030", "4.030 "},
		{"with a fraction", "cylinder 4 1/8", "4.125 "},
		{"with its unit", "cylinder 4\"", "4.000 "},

		{"the throat", "4.030 bore\nthroat bore 1.79", "4.030 "},
		{"the bowl in two cells", "Bowl bore | 1.790", "- "},
		{"the bowl in one cell", "Bowl bore 1.790", "- "},
		{"a guide", "4.030 bore\nguide bore 8 mm", "4.030 "},
		{"a seat in French", "alésage 92 mm\nalésage du siège 36 mm", "3.622 "},
		{"a seat in German", "Bohrung 96 mm\nSitzbohrung 36 mm", "3.780 "},
		{"the figure first", "4.030 bore\n1.79 throat bore", "4.030 "},
		{"a gauge", "4.030 bore, JT\nbore gauge 4", "4.030 "},
		{"a gauge in two cells", "Bore | 4.030\nBore gauge | no. 7", "4.030 "},
		{"two bores", "4.030 bore\n4.155 bore", "? "},
	} {
		t.Run(c.name, func(t *testing.T) {
			got := readSheet(t, "Head: TA-70\n28 inH2O, cfm\n"+c.lines+"\n"+oneTable)
			if len(got.Tests) == 0 || got.Tests[0].Status != head.Used {
				t.Fatalf("read\n%s", describe(got))
			}
			test := got.Tests[0]
			bore := "-"
			switch {
			case test.Bore.Known:
				bore = fmt.Sprintf("%.3f", test.Bore.Value.In())
			case slices.ContainsFunc(got.Problems, func(p source.Problem) bool { return p.Kind == "bore-conflict" }):
				bore = "?"
			}
			if read := bore + " " + test.State; read != c.want {
				t.Errorf("read %q, want %q\n%s", read, c.want, describe(got))
			}
		})
	}
}
