package ingest_test

import (
	"fmt"
	"math"
	"slices"
	"testing"
	"testing/fstest"

	"flowshelf/analysis/head"
	"flowshelf/analysis/source"
)

const (
	osprey      = "Head;ZZ-99\nDate;2026-03-14\nBore;4.030\nTest pressure;28 inH2O\n;\nLift (in);Intake cfm\n"
	ospreyFirst = osprey + ".100;60\n.200;118\n.300;164\n.400;196\n"
	threeMore   = osprey + ".100;62\n.200;122\n.300;169\n.400;202\n"
	rounded     = osprey + ".100;60.0\n.200;118.2\n.300;164.3\n.400;195.8\n"
	nextDay     = "Head;ZZ-99\nDate;2026-03-15\nBore;4.030\nTest pressure;28 inH2O\n;\nLift (in);Intake cfm\n.100;62\n.200;122\n.300;169\n.400;202\n"
)

// TestContradictions puts two books about one head that the setup does not list
// into a folder: figures that differ for one day are asked about, whatever may be
// ranked.
func TestContradictions(t *testing.T) {
	for _, tc := range []struct {
		name, second string
		want         bool
	}{
		{"three per cent apart", threeMore, true},
		{"the same with other digits", rounded, false},
		{"another day", nextDay, false},
	} {
		t.Run(tc.name, func(t *testing.T) {
			got := read(t, fstest.MapFS{"a.csv": file(ospreyFirst), "b.csv": file(tc.second)})
			if len(got.Records.Tests) != 2 {
				t.Fatalf("%d tests read, want 2", len(got.Records.Tests))
			}
			if asked := slices.ContainsFunc(got.Problems, differ); asked != tc.want {
				t.Errorf("asked %v, want %v", asked, tc.want)
			}
		})
	}
}

func differ(p source.Problem) bool {
	return p.Kind == "two-tests-differ" && p.Severity == source.Asked && p.Question != nil
}

// TestAPercentScaleFromTheSetup reads percent of range on the bench that the
// sheet names, by the scale that the setup's own row of that bench holds:
// q = percent / 100 x the flow of the range.
func TestAPercentScaleFromTheSetup(t *testing.T) {
	const sheet = "LKC-07;4.030 bore;28 inH2O\n%s\nRange cal cfm (int): 1=40.2 2=81.5 3=160.8;\n;\nLift (in);Rng;%% Int\n.100;2;75.8\n.200;3;75.1\n.300;3;92.0\n"
	for _, tc := range []struct {
		name, bench string
		want        []float64 // cfm
	}{
		{"the bench of the setup", "Saltmarsh shop bench", []float64{0.758 * 81.5, 0.751 * 160.8, 0.920 * 160.8}},
		{"a bench it does not know", "Bench: Unknown Works", nil},
	} {
		t.Run(tc.name, func(t *testing.T) {
			got := read(t, withSetup(t, fstest.MapFS{"percent.csv": file(fmt.Sprintf(sheet, tc.bench))}))
			var flows []float64
			for _, test := range got.Records.Tests {
				for _, r := range test.Readings {
					if r.Status == head.Used && r.Flow.Known {
						flows = append(flows, r.Flow.Value.CFM())
					}
				}
			}
			const digits = 1e-6 // the sums of a few products
			same := slices.EqualFunc(flows, tc.want, func(a, b float64) bool { return math.Abs(a-b) < digits })
			if !same {
				t.Errorf("flows %v, want %v; problems %v", flows, tc.want, got.Problems)
			}
		})
	}
}
