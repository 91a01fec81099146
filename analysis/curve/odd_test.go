package curve_test

import (
	"strings"
	"testing"

	"flowshelf/analysis/curve"
)

func TestOutOfLine(t *testing.T) {
	slip := points(largeEightLifts(), 71, 243, 212, 268, 307, 326, 331, 329)
	got := curve.OutOfLine(slip)
	if len(got) != 1 || !got[0].At.Lift.Near(in(.2), 1e-9) {
		t.Fatalf("243 at .200 between 71 and 212: %+v", got)
	}
	near(t, "its neighbours say", got[0].Expected.CFM(), 143, 1)

	for _, tt := range []struct {
		name    string
		at      float64
		between bool
		flows   []float64
	}{
		{"109 for 190", .3, true, []float64{68, 134, 109, 229, 240, 247, 250, 251, 250}},
		{"292 for 229", .4, true, []float64{68, 134, 190, 292, 240, 247, 250, 251, 250}},
		{"86 for 68", .1, true, []float64{86, 134, 190, 229, 240, 247, 250, 251, 250}},
		{"150 for 250", .65, false, []float64{68, 134, 190, 229, 240, 247, 250, 251, 150}},
	} {
		got := curve.OutOfLine(points(smallEightLifts(), tt.flows...))
		if len(got) != 1 || !got[0].At.Lift.Near(in(tt.at), 1e-9) || got[0].Between != tt.between {
			t.Errorf("%s: %+v", tt.name, got)
		}
	}
	for _, p := range [][]curve.Point{nil, generic()[:1], generic()[:2], generic(), fine()} {
		if got := curve.OutOfLine(p); got != nil {
			t.Errorf("%v: %+v", p, got)
		}
	}
}

// TestNoHeadIsOutOfLine: no true head of the invented shop is asked about.
func TestNoHeadIsOutOfLine(t *testing.T) {
	for _, s := range shelves() {
		for _, h := range s.heads {
			if got := curve.OutOfLine(h.points); (got != nil) != strings.Contains(h.name, "243") {
				t.Errorf("%s: %+v", h.name, got)
			}
		}
	}
}
