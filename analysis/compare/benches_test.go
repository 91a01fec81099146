package compare_test

import (
	"fmt"
	"math"
	"slices"
	"strings"
	"testing"
	"time"

	"flowshelf/analysis/compare"
	"flowshelf/analysis/compare/comparetest"
	"flowshelf/analysis/head"
	"flowshelf/analysis/quantity"
	"flowshelf/analysis/source"
)

func record(c compare.Comparison, supplier string, class head.Class, port head.Port) *compare.BenchRecord {
	i := slices.IndexFunc(c.Benches, func(r compare.BenchRecord) bool { return r.Bench == supplier && r.Class == class && r.Port == port })
	if i < 0 {
		return nil
	}
	return &c.Benches[i]
}

// TestSuppliersBenchAgainstOurs: log ratios of the means over .200 to .560,
// scipy's PchipInterpolator and quad, and Student's t of scipy.stats.
func TestSuppliersBenchAgainstOurs(t *testing.T) {
	c := smallEight(nil)
	r := record(c, "Pellworth Foundry", head.Advertised, head.Intake)
	if r == nil || !r.Linked || !r.Indicative || len(r.Pairs) != 2 {
		t.Fatalf("record %+v", r)
	}
	near(t, "reads", r.Percent.Value, 13.308513316742943, 1e-5)
	near(t, "95 % from", r.Low.Value, 9.881549934660553, 1e-5)
	near(t, "95 % to", r.High.Value, 16.842356134263923, 1e-5)
	if r.Drawn.Value >= r.Percent.Value || r.Drawn.Value <= 0 {
		t.Errorf("drawn toward zero: %+v", r.Drawn)
	}
	if want := "reads +13.3 % (95 % +9.9 to +16.8, n = 2): indicative, fewer than three heads"; r.Words != want {
		t.Errorf("words %q, want %q", r.Words, want)
	}
	if !strings.HasPrefix(r.Bores, "on 2 of 2 heads the bores differ") {
		t.Errorf("bores %q", r.Bores)
	}
	if other := record(c, "Pellworth Foundry", head.Supplier, head.Intake); other == nil || len(other.Pairs) != 1 || other.Low.Known {
		t.Errorf("the supplier's own sheet is another record: %+v", other)
	}
}

// A refused reading of ours, another pipe and a low test pressure make no pair.
func TestWhatIsNoPair(t *testing.T) {
	all := compare.All(comparetest.Shelf())
	if r := record(all[1], "Pellworth Foundry", head.Advertised, head.Intake); len(r.Pairs) != 2 || r.Other != 1 {
		t.Errorf("PW-46 has a refused reading: %d pairs, %d others", len(r.Pairs), r.Other)
	}
	c := smallEight(func(r *head.Records, _ *head.Shop) {
		tests(r, "PW-33", head.Exhaust, func(t *head.Test) { t.Pipe = head.WithoutPipe })
		tests(r, "PW-31", head.Intake, func(t *head.Test) {
			*t = lower(*t, math.Sqrt(10.0/28))
			t.Pressure.Value = quantity.InchesOfWater(10)
		})
	})
	if r := record(c, "Pellworth Foundry", head.Advertised, head.Exhaust); len(r.Pairs) != 1 {
		t.Errorf("exhausts with two pipes were paired: %+v", r.Pairs)
	}
	if r := record(c, "Pellworth Foundry", head.Advertised, head.Intake); len(r.Pairs) != 1 {
		t.Errorf("10 and 28 inH2O were paired: %+v", r.Pairs)
	}
}

func TestBenchThatNoHeadTiesToOurs(t *testing.T) {
	c := compare.All(comparetest.Shelf())[2]
	r := record(c, "Tidewell", head.Supplier, head.Intake)
	if r == nil || r.Linked || !strings.HasPrefix(r.Words, "not linked") || r.Other != 2 {
		t.Fatalf("record %+v", r)
	}
	if e := find(c, "TD-22"); e.Equivalent.Known || !strings.HasPrefix(e.Equivalent.Words, "can't say") {
		t.Errorf("equivalent %+v", e.Equivalent)
	}
}

// An untested head gets the range that its supplier's record implies, and no
// place. Two heads link Pellworth, so it is indicative.
func TestUntestedHeadOnOurBench(t *testing.T) {
	c := smallEight(func(r *head.Records, s *head.Shop) {
		s.Heads = append(slices.Clone(s.Heads), head.Listed{Name: "PW-35", Family: "Small Eight", Supplier: "Pellworth Foundry"})
		for _, test := range slices.Clone(r.Tests) {
			if test.Head == "PW-33" && test.Class == head.Advertised && test.Port == head.Intake {
				test.Head = "PW-35"
				r.Tests = append(r.Tests, test)
			}
		}
	})
	e := find(c, "PW-35")
	if e == nil || e.Place.Number != 0 || e.Grade != compare.GradeD {
		t.Fatalf("PW-35 %+v", e)
	}
	q := e.Equivalent
	if !q.Known || !(q.Low < q.Value && q.Value < q.High) || q.High > e.Intake.Working.Value || !strings.Contains(q.Words, "indicative") {
		t.Errorf("equivalent %+v of %.1f advertised", q, e.Intake.Working.Value)
	}
	for _, ranked := range c.Ranked {
		if ranked.Head == "PW-35" {
			t.Error("an untested head is ranked")
		}
	}
}

// A bench is tied to ours through a third one: heads A and B were flowed by both
// suppliers, and C by the second and here.
func TestBenchTiedThroughAnother(t *testing.T) {
	c := smallEight(func(r *head.Records, s *head.Shop) {
		s.Benches = []head.Bench{{Name: "North bench"}}
		s.Heads = append(slices.Clone(s.Heads), head.Listed{Name: "PW-36", Family: "Small Eight", Supplier: "Pellworth Foundry"})
		for _, test := range slices.Clone(r.Tests) {
			if test.Head != "PW-31" || test.Class != head.Advertised || test.Port != head.Intake {
				continue
			}
			test.Head = "PW-36"
			north := inFile(lower(test, 0.95), "north.xlsx")
			north.By, north.Class = "North bench", head.Supplier
			r.Tests = append(r.Tests, test, north)
		}
	})
	r := record(c, "North bench", head.Supplier, head.Intake)
	if r == nil || !r.Linked || !r.Indicative || !strings.Contains(r.Words, "through other benches") {
		t.Fatalf("record %+v", r)
	}
	// 5 % below Pellworth, which reads 13.3085 % above ours.
	near(t, "reads", r.Percent.Value, 100*(1.13308513316742943*0.95-1), 1e-5)
}

func TestBenchDays(t *testing.T) {
	c := smallEight(nil)
	if len(c.BenchDays) != 4 || c.BenchWords != "4 checks of the plate: mean +0.5 %, from -0.2 to +1.4 %; 1 flagged or held" {
		t.Fatalf("%d days, %q", len(c.BenchDays), c.BenchWords)
	}
	january := c.BenchDays[3]
	near(t, "drift on January 20", january.Drift, 253.5/250-1, 1e-12)
	if january.Standing != "flagged" || !slices.Equal(january.Heads, []string{"LKC-12"}) || c.BenchDays[0].Standing != "in order" {
		t.Errorf("days %+v", c.BenchDays)
	}
	none := smallEight(func(r *head.Records, _ *head.Shop) { r.Bench = nil })
	if len(none.BenchDays) != 0 || !strings.HasPrefix(none.BenchWords, "no bench log") {
		t.Errorf("without a log: %q", none.BenchWords)
	}
}

// repeated adds n runs of LKC-07's intake that differ from the first by the
// given shares at every lift.
func repeated(shares ...float64) func(r *head.Records, s *head.Shop) {
	return func(r *head.Records, _ *head.Shop) {
		for _, test := range slices.Clone(r.Tests) {
			if test.Head != "LKC-07" || test.Class != head.Own || test.Port != head.Exhaust {
				continue
			}
			for day := range 10 {
				for i, share := range shares {
					run := inFile(lower(test, share), fmt.Sprintf("repeats %02d.xlsx", day))
					run.Run, run.Sample = fmt.Sprint(i+1), "r"
					run.Date = source.Say(time.Date(2025, time.June, 1+day, 0, 0, 0, 0, time.UTC), source.Trace{})
					r.Tests = append(r.Tests, run)
				}
			}
		}
	}
}

func repeatability(c compare.Comparison) compare.Setting {
	i := slices.IndexFunc(c.Settings, func(s compare.Setting) bool { return s.Name == "repeatability of a reading" })
	return c.Settings[i]
}

// TestOwnRepeats: two runs 0.4 % apart have a standard deviation of
// 0.004/sqrt2/mean, ten pairs of them ten degrees of freedom, and r = 2.8 s_r
// (ISO 5725-6:1994, 4.1, clause from memory).
func TestOwnRepeats(t *testing.T) {
	c := smallEight(repeated(1.002, 0.998))
	near(t, "repeatability", c.Rules.Repeatability, 2.8*0.004/math.Sqrt2, 1e-9)
	if s := repeatability(c); s.Origin != "own repeats, 10 degrees of freedom" || s.Value != "0.79 %" {
		t.Errorf("setting %+v", s)
	}
	near(t, "never below .3 %", smallEight(repeated(1.0001, 0.9999)).Rules.Repeatability, 0.003, 1e-12)
	few := smallEight(func(r *head.Records, s *head.Shop) {
		repeated(1.002, 0.998)(r, s)
		r.Tests = r.Tests[:len(r.Tests)-2] // nine pairs
	})
	if few.Rules.Repeatability != head.DefaultRules().Repeatability || repeatability(few).Origin != "default" {
		t.Errorf("nine degrees of freedom: %v, %+v", few.Rules.Repeatability, repeatability(few))
	}
	set := smallEight(func(r *head.Records, s *head.Shop) {
		repeated(1.002, 0.998)(r, s)
		s.Rules.Repeatability = 0.015
	})
	if set.Rules.Repeatability != 0.015 || repeatability(set).Origin != "set by the shop" {
		t.Errorf("what the shop has set: %v, %+v", set.Rules.Repeatability, repeatability(set))
	}
}

// An isentropic law asked for in the setup reaches the curve, with its words in
// the trail: from 25 to 28 inH2O it is 0.995762 of the square root's (nozzle
// expansibility of python3-fluids). The exhaust, blown, keeps the square root.
func TestIsentropicFromTheSetup(t *testing.T) {
	law := func(l head.PressureLaw) *compare.Entry {
		return find(smallEight(func(_ *head.Records, s *head.Shop) { s.Rules.PressureLaw = l }), "VR-81")
	}
	root, isentropic := law(head.SquareRoot), law(head.Isentropic)
	near(t, "isentropic over square root", isentropic.Intake.Working.Value/root.Intake.Working.Value, 0.995762463941069, 1e-6)
	steps := isentropic.Intake.Points[0].From[0].Steps
	if len(steps) == 0 || !strings.Contains(steps[0], "isentropic") {
		t.Errorf("steps %q", steps)
	}
	near(t, "exhaust keeps the square root", isentropic.Exhaust.Working.Value, root.Exhaust.Working.Value, 0)
}

// Where our own tests are taken away, the supplier's test on 4.125 is brought to
// 4.030 by the estimate, marked as such, and stands below the line.
func TestEstimatedFromTheSuppliersBore(t *testing.T) {
	c := smallEight(func(r *head.Records, s *head.Shop) {
		s.Rules.EstimateBore = head.MayEstimate
		r.Tests = slices.DeleteFunc(slices.Clone(r.Tests), func(t head.Test) bool { return t.Head == "PW-33" && t.Class != head.Supplier })
	})
	e := find(c, "PW-33")
	if e == nil || e.Grade != compare.GradeC || e.Place.Number != 0 || e.Intake.BoreHow != compare.Estimated || !hasFlag(*e, "E", "estimated from 4.125") {
		t.Fatalf("PW-33 %+v", e)
	}
	if !strings.Contains(e.Intake.BoreNote, "u ") || e.Intake.WorkingU < 0.003*e.Intake.Working.Value {
		t.Errorf("note %q, u %.2f", e.Intake.BoreNote, e.Intake.WorkingU)
	}
	// 4.155 is more than 3 % from 4.030: refused, in words, and shown as tested.
	far := smallEight(func(r *head.Records, s *head.Shop) {
		s.Rules.EstimateBore = head.MayEstimate
		tests(r, "PW-33", head.Intake, func(t *head.Test) { t.Bore.Value = quantity.Inches(4.155) })
		tests(r, "PW-33", head.Exhaust, func(t *head.Test) { t.Bore.Value = quantity.Inches(4.125) })
	})
	e = find(far, "PW-33")
	if e.Intake.BoreHow != compare.NotBroughtOver || !strings.Contains(e.Intake.BoreNote, "3") || e.Exhaust.BoreHow != compare.NotBroughtOver {
		t.Errorf("intake %v %q, exhaust %v", e.Intake.BoreHow, e.Intake.BoreNote, e.Exhaust.BoreHow)
	}
}

// A head whose curves are another's times one figure on both ports is asked
// about; one that is so on one port only is not.
func TestConstantRatio(t *testing.T) {
	copied := func(intake, exhaust float64) func(r *head.Records, s *head.Shop) {
		return func(r *head.Records, s *head.Shop) {
			s.Heads = append(slices.Clone(s.Heads), head.Listed{Name: "XX-1", Family: "Small Eight"})
			for _, test := range slices.Clone(r.Tests) {
				if test.Head != "OB-4" || test.Class != head.Own {
					continue
				}
				by := map[head.Port]float64{head.Intake: intake, head.Exhaust: exhaust}[test.Port]
				made := inFile(lower(test, by), "XX-1.xlsx")
				made.Head = "XX-1"
				for i := range made.Readings {
					made.Readings[i].Flow.Value = quantity.CFM(math.Round(made.Readings[i].Flow.Value.CFM()))
				}
				r.Tests = append(r.Tests, made)
			}
		}
	}
	for _, tc := range []struct {
		name            string
		intake, exhaust float64
		asked           int
	}{
		{"0.945 on both ports", 0.945, 0.945, 1},
		{"larger on both ports", 1.058, 1.058, 1},
		{"two ratios", 0.945, 0.90, 0},
		{"one port only", 0.945, 1, 0},
	} {
		c := smallEight(copied(tc.intake, tc.exhaust))
		if got := kinds(questions(c))["constant-ratio"]; got != tc.asked {
			t.Errorf("%s: asked %d times, want %d", tc.name, got, tc.asked)
		}
	}
	for _, c := range compare.All(comparetest.Shelf()) {
		if kinds(c.Problems)["constant-ratio"] != 0 {
			t.Errorf("%s: two honest heads are asked about", c.Family.Name)
		}
	}
}
