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
	"flowshelf/analysis/source"
)

type change func(r *head.Records, s *head.Shop)

// answer compares a family after a change whose questions of a kind have been
// answered, those whose keys hold some words, and returns the keys.
func answer(t *testing.T, family string, c change, kind, text string, words ...string) (compare.Comparison, []string) {
	t.Helper()
	all := func() (head.Records, head.Shop, time.Time) {
		r, s, d := map[string]func() (head.Records, head.Shop, time.Time){
			"Small Eight": comparetest.SmallEight, "Large Eight": comparetest.LargeEight}[family]()
		if c != nil {
			c(&r, &s)
		}
		return r, s, d
	}
	r, s, d := all()
	var keys []string
	var given []head.Answer
	for _, p := range compare.All(r, s, d)[0].Problems {
		if p.Kind == kind && p.Severity == source.Asked && strings.Contains(p.Question.Key, strings.Join(words, "")) {
			keys = append(keys, p.Question.Key)
			given = append(given, head.Answer{Key: p.Question.Key, Text: text, By: "JT", On: d, At: source.Ref{File: "Ranked/Questions.xlsx"}})
		}
	}
	if len(keys) == 0 {
		t.Fatalf("%s is not asked", kind)
	}
	r, s, d = all()
	r.Answers = head.NewAnswers(given)
	return compare.All(r, s, d)[0], keys
}

// settled fails when a question is asked again, or not noted with its answer.
func settled(t *testing.T, c compare.Comparison, keys []string) {
	t.Helper()
	for _, key := range keys {
		noted := false
		for _, p := range c.Problems {
			if p.Question == nil || p.Question.Key != key {
				continue
			}
			if p.Severity == source.Asked {
				t.Errorf("asked again: %s", p.Message)
			}
			noted = noted || strings.Contains(p.Message, "per JT 2026-03-16")
		}
		if !noted {
			t.Errorf("the answer to %s is not noted", key)
		}
	}
}

// signed reports whether a reading in a curve says who answered about it.
func signed(r *compare.PortResult) bool {
	return slices.ContainsFunc(r.Points, func(p compare.LiftPoint) bool {
		return slices.ContainsFunc(p.From, func(u compare.Used) bool { return u.Reading.Flow.Trace.Answered == "per JT 2026-03-16" })
	})
}

func slip(r *head.Records, _ *head.Shop) {
	tests(r, "OB-4", head.Intake, func(t *head.Test) {
		t.Readings[4].Flow.Value, t.Readings[4].Flow.Trace.Text = 364, "364"
	})
}

func scaled(by float64) change {
	return func(r *head.Records, _ *head.Shop) {
		tests(r, "OB-4", head.Intake, func(t *head.Test) { *t = lower(*t, by) })
	}
}

// TestAnswersAboutReadings holds what is made of an answer about a reading, a
// run or a whole test. The figures without a comment are those of the demo.
func TestAnswersAboutReadings(t *testing.T) {
	const ob4 = 231.52
	untouched := fmt.Sprint(find(smallEight(nil), "OB-4").Intake.Points[4].Flow.CFM())
	for _, c := range []struct {
		family       string
		change       change
		kind, text   string
		head         string
		working, tol float64
		words        string // in the key of the question
	}{
		{"Large Eight", nil, "impossible-reading-asked", "143", "PW-46", 271.17, 0.1, ""},
		{"Small Eight", slip, "odd-reading", untouched, "OB-4", ob4, 0.1, "|364"},
		{"Small Eight", scaled(0.6), "pressure-doubted", "at 10 inH2O", "OB-4", ob4 * 0.6 * math.Sqrt(2.8), 0.6, ""}, // 28/10
		{"Small Eight", scaled(1 / 2.118880), "pressure-doubted", "in L/s", "OB-4", ob4, 0.1, ""},
		{"Small Eight", threeRuns, "odd-run", "leave it out", "OB-4", ob4, 0.1, ""}, // 1.03 and .94 are left out
		{"Small Eight", threeRuns, "odd-run", "keep it", "OB-4", ob4 * (1 + 1.03 + 0.94) / 3, 0.1, ""},
		{"Small Eight", contradicted, "two-tests-differ", `bench/VR-84 before after.xlsx, sheet "VR-84"`, "VR-84 as delivered", 191.89, 0.1, ""},
	} {
		t.Run(c.kind+" "+c.text, func(t *testing.T) {
			got, keys := answer(t, c.family, c.change, c.kind, c.text, c.words)
			settled(t, got, keys)
			e := find(got, c.head)
			if e == nil {
				t.Fatalf("%s is left out: %+v", c.head, leftOut(got, c.head))
			}
			near(t, "working average", e.Intake.Working.Value, c.working, c.tol)
			if c.kind != "odd-run" && c.kind != "two-tests-differ" && !signed(e.Intake) {
				t.Error("no reading says who answered")
			}
		})
	}
}

func threeRuns(r *head.Records, _ *head.Shop) {
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
}

func contradicted(r *head.Records, _ *head.Shop) {
	for _, test := range r.Tests {
		if test.Head == "VR-84" && test.State == "As del." {
			r.Tests = append(r.Tests, inFile(test, "shootout 2.xlsx"), inFile(lower(test, 0.99), "VR-84 old.xls"))
		}
	}
}

// TestAnImpossibleAnswerStaysOpen holds that a figure which the valve cannot
// pass either settles nothing, and that leaving the reading out lets the head in
// without it.
func TestAnImpossibleAnswerStaysOpen(t *testing.T) {
	still, _ := answer(t, "Large Eight", nil, "impossible-reading-asked", "600")
	if n := leftOut(still, "PW-46"); n == nil || !n.Held || kinds(questions(still))["impossible-reading-asked"] != 1 {
		t.Errorf("PW-46 is %+v", n)
	}
	left, keys := answer(t, "Large Eight", nil, "impossible-reading-asked", "leave it out")
	settled(t, left, keys)
	if n := leftOut(left, "PW-46"); n != nil && n.Held {
		t.Errorf("PW-46 is still held: %s", n.Reason)
	}
}

// TestAnswersAboutCost holds that a figure typed for what nobody priced becomes
// a line of the sum with the name of who typed it, and that leaving it out
// leaves the sum without it.
func TestAnswersAboutCost(t *testing.T) {
	for _, c := range []struct {
		change     change
		kind, text string
		label      string
		usable     float64
	}{
		{noPushRods, "extra-not-priced", "135", "VR-81", 2189},
		{noPushRods, "extra-not-priced", "leave it out", "VR-81", 2189 - 135},
		{noKit, "springs-not-priced", "$210", "PW-31", 1359},
		{noMaxLift, "max-lift-not-stated", ".650", "LKC-12", 1249},
		{unknownWork, "rework-not-known", "260", "VR-84 + laser polish", 1259},
	} {
		t.Run(c.kind+" "+c.text, func(t *testing.T) {
			got, keys := answer(t, "Small Eight", c.change, c.kind, c.text)
			if c.kind != "max-lift-not-stated" {
				settled(t, got, keys)
			}
			e := find(got, c.label)
			if e == nil || !e.Cost.Usable.Known {
				t.Fatalf("%s has no usable cost", c.label)
			}
			near(t, "usable cost", e.Cost.Usable.Value.Float(), c.usable, 1)
			if e.Place.Number == 0 {
				t.Error("it has no place")
			}
		})
	}
}

func noPushRods(r *head.Records, _ *head.Shop) {
	for i := range r.Extras {
		if r.Extras[i].Item == "push-rods" {
			r.Extras[i].Basis = head.BasisNotStated
		}
	}
}

func noKit(r *head.Records, _ *head.Shop) {
	r.Extras = dropExtras(r.Extras, func(e head.Extra) bool { return e.Head == "PW-31" })
}

func noMaxLift(r *head.Records, _ *head.Shop) {
	for i := range r.Dimensions {
		if r.Dimensions[i].Head == "LKC-12" {
			r.Dimensions[i].MaxLift.Known = false
		}
	}
}

func unknownWork(r *head.Records, _ *head.Shop) {
	for i := range r.Tests {
		if t := &r.Tests[i]; t.Head == "VR-84" && strings.Contains(strings.ToLower(t.State), "valve job") && !strings.Contains(strings.ToLower(t.State), "blend") {
			t.State = "laser polish"
		}
	}
}

// TestAnswersAboutSheetsAlike holds that of two heads that read alike the one
// whose test it is not is left out.
func TestAnswersAboutSheetsAlike(t *testing.T) {
	for text, out := range map[string]string{"PW-31": "PW-33", "PW-33": "PW-31", "both": ""} {
		got, keys := answer(t, "Small Eight", copied, "same-sheet", text)
		settled(t, got, keys)
		for _, name := range []string{"PW-31", "PW-33"} {
			n := leftOut(got, name)
			if (n != nil) != (name == out) {
				t.Errorf("answered %q: %s left out: %v", text, name, n != nil)
			}
			if n != nil && !strings.Contains(n.Reason, "per JT") {
				t.Errorf("the reason is %q", n.Reason)
			}
		}
	}
}

func copied(r *head.Records, _ *head.Shop) {
	for i := range r.Tests {
		for j := range r.Tests {
			if a, b := &r.Tests[i], r.Tests[j]; a.Head == "PW-31" && b.Head == "PW-33" && a.Port == b.Port && a.Pipe == b.Pipe && a.Class == head.Own && b.Class == head.Own {
				a.Readings = b.Readings
			}
		}
	}
}

// TestAnswersAboutSamples holds that another casting and an older test of the
// same one are history and no longer asked about, and that an ignored test is
// not.
func TestAnswersAboutSamples(t *testing.T) {
	old := func(r *head.Records, _ *head.Shop) {
		for _, test := range r.Tests {
			if test.Head == "VR-84" && test.State == "As del." {
				test = lower(test, 0.95)
				test.At.File, test.Sample, test.Date = "VR-84 old.xls", "", source.Stated[time.Time]{}
				r.Tests = append(r.Tests, test)
			}
		}
	}
	for text, words := range map[string]string{"same sample": "sample 84-A", "another casting": "an undated test", "ignore this test": ""} {
		got, keys := answer(t, "Small Eight", old, "same-sample", text)
		settled(t, got, keys)
		e := find(got, "VR-84 as delivered")
		near(t, "as delivered", e.Intake.Working.Value, 191.89, flowTol)
		if earlier := strings.Join(e.Earlier, "; "); words == "" && earlier != "" || !strings.Contains(earlier, words) {
			t.Errorf("answered %q, the history is %q", text, earlier)
		}
	}
}

// TestStakes holds what hangs on a question: where the heads it touches stand.
func TestStakes(t *testing.T) {
	r, s, d := comparetest.Shelf()
	stakes := compare.NewStakes(r, compare.All(r, s, d))
	for _, c := range []struct {
		name string
		p    source.Problem
		want compare.Stake
	}{
		{"the leader", source.Problem{Head: "LKC-12"}, compare.TopThree},
		{"the last", source.Problem{Head: "VR-81"}, compare.APlace},
		{"held back", source.Problem{Head: "PW-46"}, compare.TopThree},
		{"below the line", source.Problem{Head: "TD-22"}, compare.WordsOnly},
		{"nobody", source.Problem{Head: "XX-1"}, compare.NothingRanked},
		{"words about the leader", source.Problem{Head: "LKC-12", Question: &source.Question{Reach: source.ReachesWords}}, compare.WordsOnly},
		{"no head, a file about the leader", source.Problem{At: source.Ref{File: fileOf(r, "LKC-12")}}, compare.TopThree},
		{"no head, an unknown file", source.Problem{At: source.Ref{File: "letter.xlsx"}}, compare.NothingRanked},
	} {
		if got := stakes.Of(c.p); got != c.want {
			t.Errorf("%s: %v, want %v", c.name, got, c.want)
		}
	}
}

func fileOf(r head.Records, name string) string {
	for _, t := range r.Tests {
		if t.Head == name {
			return t.At.File
		}
	}
	return ""
}
