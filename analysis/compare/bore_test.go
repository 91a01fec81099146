package compare_test

import (
	"testing"

	"flowshelf/analysis/compare"
	"flowshelf/analysis/head"
	"flowshelf/analysis/quantity"
)

func TestBoreRules(t *testing.T) {
	onBore := func(in float64) func(r *head.Records, s *head.Shop) {
		return func(r *head.Records, _ *head.Shop) {
			tests(r, "LKC-12", head.Intake, func(t *head.Test) { t.Bore.Value = quantity.Inches(in) })
		}
	}
	cases := []struct {
		name   string
		change func(r *head.Records, s *head.Shop)
		how    compare.BoreHow
		flag   string
		u      float64 // of the bore, as a share of the flow
		grade  compare.Grade
	}{
		{"at the reference", onBore(4.034), compare.TestedAtReference, "", 0, compare.GradeA},
		{"same class", onBore(4.100), compare.SameClass, "", 0.003, compare.GradeB},
		{"not brought over", onBore(4.125), compare.NotBroughtOver, "B", 0.015, compare.GradeB},
		{"not stated", func(r *head.Records, _ *head.Shop) {
			tests(r, "LKC-12", head.Intake, func(t *head.Test) { t.Bore.Known = false })
		}, compare.BoreUnknown, "B", 0.015, compare.GradeB},
		{"estimated where the setup allows it", func(r *head.Records, s *head.Shop) {
			s.Rules.EstimateBore = head.MayEstimate
			onBore(4.125)(r, s)
		}, compare.Estimated, "E", 0.003, compare.GradeB},
	}
	for _, tc := range cases {
		t.Run(tc.name, func(t *testing.T) {
			e := find(smallEight(tc.change), "LKC-12")
			if e.Intake.BoreHow != tc.how || e.Grade != tc.grade || (tc.flag != "") != hasFlagCode(*e, tc.flag) {
				t.Errorf("%v, grade %c, flags %v: %s", e.Intake.BoreHow, e.Grade, e.Flags, e.Intake.BoreNote)
			}
			got := 0.0
			for _, p := range e.Intake.Parts {
				if p.Name == "bore" {
					got = p.CFM / e.Intake.Working.Value
				}
			}
			if tc.how == compare.Estimated {
				if moved := 1 - e.Intake.Working.Value/211.96; got < tc.u || moved <= 0 || moved > 0.05 {
					t.Errorf("u %.4f, moved %.4f", got, moved)
				}
				return
			}
			near(t, "u of the bore", got, tc.u, 1e-6)
			near(t, "flow stands", e.Intake.Working.Value, 211.96, flowTol)
		})
	}
}

func TestNotBroughtOverDecidesNoPlace(t *testing.T) {
	entry := func(how compare.BoreHow, value float64) *compare.Entry {
		return &compare.Entry{
			Value:  compare.Maybe{Value: value, Known: true},
			Intake: &compare.PortResult{BoreHow: how, Working: compare.Maybe{Value: 200, Known: true}},
		}
	}
	// 3 % of 200 cfm at 25 a cfm is 150.
	a := entry(compare.NotBroughtOver, 1000)
	near(t, "within 3 % of the flow's worth", compare.ProbabilityBeats(a, entry(compare.TestedAtReference, 851), 25), 0.5, 0)
	near(t, "beyond it", compare.ProbabilityBeats(a, entry(compare.TestedAtReference, 849), 25), 1, 0)
	near(t, "both tested at it", compare.ProbabilityBeats(entry(compare.TestedAtReference, 1000), entry(compare.TestedAtReference, 999), 25), 1, 0)

	// PW-33 leads VR-84 as delivered by 2: on another fixture it may not, and
	// LKC-07 is no longer surely behind it.
	c := smallEight(func(r *head.Records, _ *head.Shop) {
		tests(r, "VR-84", head.Intake, func(t *head.Test) {
			if t.State == "Valve job" {
				t.Bore.Value = quantity.Inches(4.200)
			}
		})
	})
	first := c.Ranked[1]
	if first.Label != "VR-84 + valve job" || !hasFlagCode(first, "B") || first.ValueU < 90 {
		t.Fatalf("second is %s, flags %v, u %.1f", first.Label, first.Flags, first.ValueU)
	}
}

// A supplier's own test on 4.125 is told beside the advert, as tested and, where
// the setup allows it, estimated at 4.030. It is never ranked.
func TestAnotherSheetOfTheSupplier(t *testing.T) {
	explained := func(estimate head.BoreEstimate) string {
		c := smallEight(func(_ *head.Records, s *head.Shop) { s.Rules.EstimateBore = estimate })
		for _, g := range c.Gaps {
			if g.Head == "PW-33" && g.Port == head.Intake {
				near(t, "the advert's gap", g.AtPeak.Percent, -14.1, 0.05)
				return g.Explained
			}
		}
		return ""
	}
	if got, want := explained(head.NeverEstimate), "part: bore, 3 of 14 points at most; -0.8 % against another sheet of the supplier's on 4.125"; got != want {
		t.Errorf("explained %q, want %q", got, want)
	}
	if got, want := explained(head.MayEstimate), "part: bore, 3 of 14 points at most; -0.8 % against another sheet of the supplier's on 4.125, -0.8 % once estimated at 4.030"; got != want {
		t.Errorf("explained %q, want %q", got, want)
	}
}
