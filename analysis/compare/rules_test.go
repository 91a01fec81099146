package compare_test

import (
	"strings"
	"testing"
	"time"

	"flowshelf/analysis/compare"
	"flowshelf/analysis/compare/comparetest"
	"flowshelf/analysis/head"
	"flowshelf/analysis/quantity"
	"flowshelf/analysis/source"
)

// smallEight compares the Small Eight after a change.
func smallEight(change func(r *head.Records, s *head.Shop)) compare.Comparison {
	r, s, d := comparetest.SmallEight()
	if change != nil {
		change(&r, &s)
	}
	return compare.All(r, s, d)[0]
}

// tests changes the own tests of one head and port.
func tests(r *head.Records, name string, port head.Port, change func(t *head.Test)) {
	for i := range r.Tests {
		if t := &r.Tests[i]; t.Head == name && t.Port == port && t.Class == head.Own {
			change(t)
		}
	}
}

func find(c compare.Comparison, label string) *compare.Entry {
	for _, list := range [][]compare.Entry{c.Ranked, c.Unpriced, c.BelowLine, c.Advertised} {
		for i := range list {
			if list[i].Label == label {
				return &list[i]
			}
		}
	}
	return nil
}

func leftOut(c compare.Comparison, label string) *compare.NotRanked {
	for i := range c.NotRanked {
		if c.NotRanked[i].Label == label {
			return &c.NotRanked[i]
		}
	}
	return nil
}

func TestEvidenceRules(t *testing.T) {
	untouched := smallEight(nil)
	cases := []struct {
		name   string
		change func(r *head.Records, s *head.Shop)
		check  func(t *testing.T, c compare.Comparison)
	}{
		{"with pipe before no pipe", nil, func(t *testing.T, c compare.Comparison) {
			e := find(c, "PW-31")
			if e.Exhaust.Pipe != head.WithPipe || e.NoPipe == nil || e.NoPipe.Pipe != head.WithoutPipe || hasFlagCode(*e, "X") {
				t.Errorf("pipes %v, %v, flags %v", e.Exhaust.Pipe, e.NoPipe, e.Flags)
			}
		}},
		{"pipe not stated", func(r *head.Records, _ *head.Shop) {
			tests(r, "OB-4", head.Exhaust, func(t *head.Test) { t.Pipe = head.PipeNotStated })
		}, func(t *testing.T, c compare.Comparison) {
			e := find(c, "OB-4")
			near(t, "band", e.EI.High-e.EI.Low, 0.10, 1e-9)
			if !hasFlagCode(*e, "X") {
				t.Errorf("flags %v", e.Flags)
			}
		}},
		{"one sheet dropped twice", func(r *head.Records, _ *head.Shop) {
			for _, test := range r.Tests {
				if test.Head == "PW-33" && test.Class == head.Own {
					test.At.File = "Copy of it.xlsx"
					test.Sample = ""
					r.Tests = append(r.Tests, test)
				}
			}
		}, func(t *testing.T, c compare.Comparison) {
			e := find(c, "PW-33")
			if len(e.Intake.Tests) != 1 || e.Intake.Sample != "33-A" || len(questions(c)) != 0 {
				t.Errorf("%d tests of sample %q, questions %v", len(e.Intake.Tests), e.Intake.Sample, questions(c))
			}
			near(t, "u", e.ValueU, find(untouched, "PW-33").ValueU, 1e-9)
		}},
		{"an unmarked test that differs", func(r *head.Records, _ *head.Shop) {
			for _, test := range r.Tests {
				if test.Head == "VR-84" && test.State == "As del." {
					test = lower(test, 0.99)
					test.At.File, test.Sample, test.Date = "VR-84 old.xls", "", source.Stated[time.Time]{}
					r.Tests = append(r.Tests, test)
				}
			}
		}, func(t *testing.T, c compare.Comparison) {
			near(t, "as delivered", find(c, "VR-84 as delivered").Intake.Working.Value, 191.89, flowTol)
			if q := questions(c); len(q) != 1 || q[0].Kind != "same-sample" {
				t.Errorf("questions %v", q)
			}
		}},
		{"two books contradict a third", func(r *head.Records, _ *head.Shop) {
			for _, test := range r.Tests {
				if test.Head == "VR-84" && test.State == "As del." {
					r.Tests = append(r.Tests, inFile(test, "shootout 2.xlsx"), inFile(lower(test, 0.99), "VR-84 old.xls"))
				}
			}
		}, func(t *testing.T, c compare.Comparison) {
			near(t, "as delivered", find(c, "VR-84 as delivered").Intake.Working.Value, 191.89, flowTol)
			if q := questions(c); len(q) != 1 || q[0].Kind != "two-tests-differ" {
				t.Errorf("questions %v", q)
			}
		}},
		{"two books that contradict one another", func(r *head.Records, _ *head.Shop) {
			for _, test := range r.Tests {
				if test.Head == "PW-33" && test.Class == head.Own {
					r.Tests = append(r.Tests, inFile(lower(test, 0.97), "other.xlsx"))
				}
			}
		}, func(t *testing.T, c compare.Comparison) {
			if n := leftOut(c, "PW-33"); n == nil || !n.Held {
				t.Errorf("PW-33 is not held: %v", c.NotRanked)
			}
		}},
		{"two castings on one day are averaged like ports", func(r *head.Records, _ *head.Shop) {
			for _, test := range r.Tests {
				if test.Head == "PW-33" && test.Class == head.Own {
					test = inFile(lower(test, 0.98), "sample B.xlsx")
					test.Sample = "33-B"
					r.Tests = append(r.Tests, test)
				}
			}
		}, func(t *testing.T, c compare.Comparison) {
			e := find(c, "PW-33")
			near(t, "mean of both", e.Intake.Working.Value, 207.95*0.99, flowTol)
			if e.Intake.Ports != 2 || e.Grade != compare.GradeA || hasFlagCode(*e, "H") || len(questions(c)) != 0 {
				t.Errorf("ports %d, grade %c, flags %v, questions %v", e.Intake.Ports, e.Grade, e.Flags, questions(c))
			}
		}},
		{"one pull at two pressures counts once", func(r *head.Records, _ *head.Shop) {
			for _, test := range r.Tests {
				if test.Head == "PW-33" && test.Class == head.Own {
					test = inFile(lower(test, 1.01*0.5976143046671968), "at 10.xlsx")
					test.Pressure.Value = quantity.InchesOfWater(10)
					r.Tests = append(r.Tests, test)
				}
			}
		}, func(t *testing.T, c compare.Comparison) {
			e := find(c, "PW-33")
			near(t, "the block at 28", e.Intake.Working.Value, 207.95, flowTol)
			if len(e.Intake.Tests) != 1 || len(questions(c)) != 0 || hasFlagCode(*e, "P") {
				t.Errorf("%d tests, flags %v, questions %v", len(e.Intake.Tests), e.Flags, questions(c))
			}
		}},
		{"dated after the comparison", func(r *head.Records, _ *head.Shop) {
			tests(r, "OB-4", head.Intake, func(t *head.Test) { t.Date.Value = t.Date.Value.AddDate(1, 0, 0) })
			tests(r, "OB-4", head.Exhaust, func(t *head.Test) { t.Date.Value = t.Date.Value.AddDate(1, 0, 0) })
		}, func(t *testing.T, c compare.Comparison) {
			if e := find(c, "OB-4"); e == nil || e.Grade != compare.GradeD || kinds(c.Problems)["dated-later"] == 0 {
				t.Errorf("OB-4 %+v", e)
			}
		}},
		{"high for the valve is noted, not refused", func(r *head.Records, _ *head.Shop) {
			for i := range r.Dimensions {
				if r.Dimensions[i].Head == "OB-4" {
					r.Dimensions[i].IntakeValve.Value = quantity.Inches(1.70)
					r.Dimensions[i].MinSection.Value = quantity.SquareInches(1.9)
				}
			}
		}, func(t *testing.T, c compare.Comparison) {
			if k := kinds(c.Problems); find(c, "OB-4").Place.Number == 0 || k["high-for-valve"] != 1 || k["section-doubted"] != 1 || len(questions(c)) != 0 {
				t.Errorf("problems %v", c.Problems)
			}
		}},
		{"pressure not stated", func(r *head.Records, _ *head.Shop) {
			tests(r, "OB-4", head.Intake, func(t *head.Test) { t.Pressure.Known = false })
		}, func(t *testing.T, c compare.Comparison) {
			if n := leftOut(c, "OB-4"); n == nil || n.Missing[0] != "test pressure" {
				t.Errorf("left out %+v", c.NotRanked)
			}
		}},
		{"tested at 10 inH2O", func(r *head.Records, _ *head.Shop) {
			tests(r, "OB-4", head.Intake, func(t *head.Test) {
				*t = lower(*t, 0.5976143046671968) // sqrt(10/28)
				t.Pressure.Value = quantity.InchesOfWater(10)
			})
		}, func(t *testing.T, c compare.Comparison) {
			e := find(c, "OB-4")
			near(t, "working", e.Intake.Working.Value, 231.52, flowTol)
			if e.Shape.Known || !strings.HasPrefix(e.Intake.Words, "can't say") || !hasFlagCode(*e, "P") || e.Grade != compare.GradeB {
				t.Errorf("shape %+v words %q flags %v grade %c", e.Shape, e.Intake.Words, e.Flags, e.Grade)
			}
			// An isentropic nozzle puts the conversion's uncertainty at 1.46 %.
			if last := e.Intake.Parts[len(e.Intake.Parts)-1]; !last.Shared || last.CFM/231.52 < 0.0145 || last.CFM/231.52 > 0.0147 {
				t.Errorf("conversion %+v", last)
			}
		}},
		{"range short", func(r *head.Records, _ *head.Shop) {
			tests(r, "OB-4", head.Intake, func(t *head.Test) { t.Readings = t.Readings[:6] })
		}, func(t *testing.T, c compare.Comparison) {
			n := leftOut(c, "OB-4")
			if n == nil || !strings.HasPrefix(n.Reason, "range short") || !n.Entry.Shape.Known || !n.Entry.Shape.AtLeast || n.Entry.AtTop.Known {
				t.Fatalf("left out %+v", c.NotRanked)
			}
			near(t, "stall part, at least (.500/.560 - .70)/.30", n.Entry.Shape.Stall, 64.3, pointTol)
		}},
		{"two steps missing", func(r *head.Records, _ *head.Shop) {
			tests(r, "OB-4", head.Intake, func(t *head.Test) { t.Readings[2].Status, t.Readings[3].Status = head.Asked, head.Asked })
		}, func(t *testing.T, c compare.Comparison) {
			if n := leftOut(c, "OB-4"); n == nil || n.Reason != "no reading between .200 and .450" {
				t.Errorf("left out %+v", c.NotRanked)
			}
		}},
		{"off the scale above .500", func(r *head.Records, _ *head.Shop) {
			tests(r, "OB-4", head.Intake, func(t *head.Test) {
				for i := 6; i < 9; i++ {
					t.Readings[i].AtLeast = true
				}
			})
		}, func(t *testing.T, c compare.Comparison) {
			if n := leftOut(c, "OB-4"); n == nil || len(n.Entry.Intake.SetAside) != 3 {
				t.Errorf("left out %+v", c.NotRanked)
			}
		}},
		{"a slip of the key that is still possible", func(r *head.Records, _ *head.Shop) {
			tests(r, "OB-4", head.Intake, func(t *head.Test) { t.Readings[4].Flow.Value = 364 })
		}, func(t *testing.T, c compare.Comparison) {
			if kinds(c.Problems)["odd-reading"] == 0 || !hasFlagCode(*find(c, "OB-4"), "?") {
				t.Errorf("problems %v", c.Problems)
			}
		}},
		{"a sheet copied under another name", func(r *head.Records, _ *head.Shop) {
			for i := range r.Tests {
				for j := range r.Tests {
					if a, b := &r.Tests[i], r.Tests[j]; a.Head == "PW-31" && b.Head == "PW-33" && a.Port == b.Port && a.Pipe == b.Pipe && a.Class == head.Own && b.Class == head.Own {
						a.Readings = b.Readings
					}
				}
			}
		}, func(t *testing.T, c compare.Comparison) {
			if kinds(c.Problems)["same-sheet"] != 1 {
				t.Errorf("problems %v", c.Problems)
			}
		}},
		{"bench too far off that day", func(r *head.Records, _ *head.Shop) {
			for i := range r.Bench {
				if r.Bench[i].Date.Value.Day() == 9 {
					r.Bench[i].Read.Value = quantity.CFM(256)
				}
			}
		}, func(t *testing.T, c compare.Comparison) {
			if n := leftOut(c, "LKC-12"); n == nil || !n.Held {
				t.Errorf("left out %+v", c.NotRanked)
			}
		}},
		{"a run off the others", func(r *head.Records, _ *head.Shop) {
			for _, test := range r.Tests {
				if test.Head == "OB-4" && test.Port == head.Intake && test.Class == head.Own {
					for i, by := range []float64{1.03, 0.94} {
						again := lower(test, by)
						again.Run = []string{"2", "3"}[i]
						r.Tests = append(r.Tests, again)
					}
				}
			}
			tests(r, "OB-4", head.Intake, func(t *head.Test) {
				if t.Run == "" {
					t.Run = "1"
				}
			})
		}, func(t *testing.T, c compare.Comparison) {
			e := find(c, "OB-4")
			near(t, "mean of three runs", e.Intake.Working.Value, 231.52*(1+1.03+0.94)/3, flowTol)
			if e.Intake.Runs != 3 || kinds(c.Problems)["odd-run"] != 2 { // 1.030 and .940 of a mean of .990
				t.Errorf("runs %d, problems %v", e.Intake.Runs, c.Problems)
			}
		}},
		{"claims only", func(r *head.Records, _ *head.Shop) {
			*r = comparetest.Without(*r, func(string) bool { return false })
			var kept []head.Test
			for _, test := range r.Tests {
				if test.Head != "VR-81" || test.Class == head.Advertised {
					kept = append(kept, test)
				}
			}
			r.Tests = kept
		}, func(t *testing.T, c compare.Comparison) {
			if len(c.Advertised) != 1 || c.Advertised[0].Grade != compare.GradeD || c.Advertised[0].Value.Known {
				t.Errorf("advertised %+v", c.Advertised)
			}
		}},
		{"air speed is a must", func(_ *head.Records, s *head.Shop) { s.Families[0].AirIsMust = true },
			func(t *testing.T, c compare.Comparison) {
				if leftOut(c, "LKC-07") == nil || leftOut(c, "PW-33") == nil || len(c.NotRanked) != 2 {
					t.Errorf("left out %+v", c.NotRanked)
				}
			}},
		{"springs are a must", func(_ *head.Records, s *head.Shop) { s.Families[0].SpringsAreMust = true },
			func(t *testing.T, c compare.Comparison) {
				if leftOut(c, "LKC-07") == nil || leftOut(c, "PW-31") == nil || len(c.NotRanked) != 2 {
					t.Errorf("left out %+v", c.NotRanked)
				}
			}},
		{"no test at all", func(r *head.Records, _ *head.Shop) { r.Tests = nil }, func(t *testing.T, c compare.Comparison) {
			if len(c.NotRanked) != 7 || c.Summary.Counts.NotRanked != 7 || len(c.Summary.BestBuy) != 1 {
				t.Errorf("left out %+v, %v", c.NotRanked, c.Summary)
			}
		}},
		{"a head without a family", func(r *head.Records, _ *head.Shop) {
			test := r.Tests[0]
			test.Head = "XX-1"
			r.Tests = append(r.Tests, test)
		}, func(t *testing.T, c compare.Comparison) {
			if n := leftOut(c, "XX-1"); n == nil || !n.Stray || c.Summary.Counts.NotRanked != 0 || len(c.Ranked) != 9 {
				t.Errorf("left out %+v", c.NotRanked)
			}
		}},
		{"a test of which nobody has said whose it is", func(r *head.Records, _ *head.Shop) {
			test := r.Tests[0]
			test.Head = ""
			r.Tests = append(r.Tests, test)
		}, func(t *testing.T, c compare.Comparison) {
			if len(c.NotRanked) != 0 || len(c.Ranked) != 9 {
				t.Errorf("left out %+v", c.NotRanked)
			}
		}},
	}
	for _, tc := range cases {
		t.Run(tc.name, func(t *testing.T) { tc.check(t, smallEight(tc.change)) })
	}
}

func lower(test head.Test, by float64) head.Test {
	readings := make([]head.Reading, len(test.Readings))
	copy(readings, test.Readings)
	for i := range readings {
		readings[i].Flow.Value *= quantity.Flow(by)
	}
	test.Readings = readings
	return test
}

func inFile(test head.Test, file string) head.Test {
	test.At.File = file
	return test
}
