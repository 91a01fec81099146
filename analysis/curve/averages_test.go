package curve_test

import (
	"testing"

	"flowshelf/analysis/curve"
)

// TestTrapezoid: the trapezoidal rule by hand.
func TestTrapezoid(t *testing.T) {
	for _, tt := range []struct {
		name           string
		points         []curve.Point
		from, to       float64
		mean, coverage float64
	}{
		{"generic", generic(), .2, .6, 216.750, 1},
		{"generic", generic(), .3, .7, 240.875, 1},
		{"generic between readings", generic(), .25, .55, 222.33333333333337, 1},
		{"fine", fine(), .2, .6, 216.125, 1},
		{"fine", fine(), .3, .7, 238.625, 1},
		{"fine between readings", fine(), .25, .55, 221.66666666666663, 1},
		{"past the last reading", generic(), .3, .8, 240.875, .8},
		{"from the closed valve", generic(), 0, .1, 32.5, 1},
	} {
		mean, coverage := mustNew(t, tt.points).Trapezoid(in(tt.from), in(tt.to))
		rel(t, tt.name, mean.CFM(), tt.mean)
		rel(t, tt.name+" coverage", coverage, tt.coverage)
	}
	if mean, share := mustNew(t, generic()).Trapezoid(in(.8), in(.9)); mean != 0 || share != 0 {
		t.Error("a mean off the curve")
	}
}

// TestRows: the plain average of one curve drifts with the steps it is read at.
func TestRows(t *testing.T) {
	c := mustNew(t, generic())
	mean, n := c.Rows(in(.2), in(.6))
	if n != 5 {
		t.Errorf("%d rows", n)
	}
	rel(t, "rows", mean.CFM(), 212)
	for step, want := range map[float64]float64{.2: 206.0, .05: 214.96, .025: 216.47} {
		var p []curve.Point
		for lift := step; lift < .7+1e-9; lift += step {
			q, ok := c.At(in(lift))
			if !ok {
				t.Fatal("off the curve")
			}
			p = append(p, curve.Point{Lift: in(lift), Flow: q})
		}
		mean, _ := mustNew(t, p).Rows(in(.2), in(.6))
		near(t, "rows", mean.CFM(), want, 0.006)
	}
	if mean, n := c.Rows(in(.71), in(.9)); mean != 0 || n != 0 {
		t.Error("an average of no rows")
	}
}
