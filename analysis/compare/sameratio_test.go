package compare_test

import (
	"math"
	"slices"
	"testing"

	"pgregory.net/rapid"

	"flowshelf/analysis/compare"
	"flowshelf/analysis/head"
	"flowshelf/analysis/quantity"
)

// readAt is a port read at some lifts, as much of the shape as scale says with
// each reading off by as many tenths of a cfm, whole as a bench writes it.
func readAt(t *rapid.T, liftsIn []float64, class head.Class, scale float64, tenths int) *compare.PortResult {
	p := &compare.PortResult{Class: class}
	for _, lift := range liftsIn {
		off := float64(rapid.IntRange(-tenths, tenths).Draw(t, "off")) / 10
		q := quantity.CFM(math.Round(scale*260*math.Sin(min(lift, .55)*2.6) + off))
		p.Points = append(p.Points, compare.LiftPoint{Lift: quantity.Inches(lift), Flow: q})
		p.PeakAll.Flow = max(p.PeakAll.Flow, q)
	}
	return p
}

// TestConstantRatioPairwise: the neighbours that the check looks through give the
// verdicts of every head held against every other.
func TestConstantRatioPairwise(t *testing.T) {
	lists := [][]float64{
		{.100, .200, .300, .400, .500, .550},
		{.100, .200, .300, .400, .450, .500, .550, .600},
		{.100, .150, .200, .300, .400, .500, .5504, .600, .650},
		{.200, .300, .400, .500},
	}
	hits := 0
	rapid.Check(t, func(t *rapid.T) {
		entries := make([]compare.Entry, rapid.IntRange(2, 40).Draw(t, "heads"))
		rough := rapid.SampledFrom([]int{0, 3, 5, 8}).Draw(t, "tenths of a cfm")
		for i := range entries {
			class := rapid.SampledFrom([]head.Class{head.Own, head.Own, head.Supplier}).Draw(t, "class")
			scale := rapid.SampledFrom([]float64{.8, .805, .9, .945, 1, 1, 1.1}).Draw(t, "scale")
			exhaust := rapid.SampledFrom([]float64{.7, .74, .74, .74, .743}).Draw(t, "exhaust")
			entries[i] = compare.Entry{
				Head:    rapid.SampledFrom([]string{"A", "B", "C", "D", "E", "F"}).Draw(t, "head"),
				Grade:   rapid.SampledFrom([]compare.Grade{compare.GradeA, compare.GradeA, compare.GradeB, compare.GradeC, compare.GradeD}).Draw(t, "grade"),
				Intake:  readAt(t, rapid.SampledFrom(lists).Draw(t, "intake lifts"), class, scale, rough),
				Exhaust: readAt(t, rapid.SampledFrom(lists).Draw(t, "exhaust lifts"), class, scale*exhaust, rough),
			}
		}
		found, pairwise := compare.RatioPairs(entries, head.DefaultRules())
		if !slices.Equal(found, pairwise) {
			t.Fatalf("found %v, pairwise %v", found, pairwise)
		}
		for i, j := range found {
			if i != j {
				hits++
			}
		}
	})
	if hits < 20 {
		t.Errorf("only %d heads were ever one figure times another: the check proves nothing", hits)
	}
	t.Logf("%d heads were one figure times another", hits)
}
