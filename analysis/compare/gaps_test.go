package compare_test

import (
	"strings"
	"testing"

	"flowshelf/analysis/compare"
	"flowshelf/analysis/head"
)

// TestGapSaysWhatWasReadHere holds that a pressure that stands in each row counts
// as stated, and that a reading that was taken and refused is not called missing.
func TestGapSaysWhatWasReadHere(t *testing.T) {
	gaps := make(map[string]compare.Gap)
	for _, g := range comparisons(t)["Large Eight"].Gaps {
		if g.Port == head.Intake {
			gaps[g.Head] = g
		}
	}
	if got := gaps["OB-44"].Tested.Pressure; got != "24 to 28 inH2O, stated row by row" {
		t.Errorf("OB-44 was tested at %q", got)
	}
	if got := gaps["LKC-41"].Tested.Pressure; got != "28 inH2O" {
		t.Errorf("LKC-41 was tested at %q", got)
	}
	for _, g := range gaps {
		for _, r := range g.Rows {
			refused := g.Head == "PW-46" && r.Lift.Near(g.Rows[0].Lift, 1e-6)
			if said := strings.Contains(r.Aside, "243 was read and is not used: more than the valve can pass"); said != refused {
				t.Errorf("%s at %.3f: %q", g.Head, r.Lift.In(), r.Aside)
			}
			if refused && !r.Between {
				t.Errorf("%s at %.3f is said to be measured", g.Head, r.Lift.In())
			}
		}
	}
}
