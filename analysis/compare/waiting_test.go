package compare_test

import (
	"slices"
	"strings"
	"testing"

	"flowshelf/analysis/compare"
	"flowshelf/analysis/compare/comparetest"
	"flowshelf/analysis/head"
	"flowshelf/analysis/source"
)

// asked is a question of the flow unit of two sheets of one sender, as a reader
// raises it: on each sheet once, with the first head of the sheet.
func asked(r *head.Records) {
	q := &source.Question{Key: "flow unit|bench", Text: "In which unit are the flows of bench?"}
	seen := make(map[string]int)
	for i := range r.Tests {
		t := &r.Tests[i]
		if t.Class != head.Own || !slices.Contains([]string{"PW-31", "OB-4", "VR-81"}, t.Head) {
			continue
		}
		for k := range t.Readings {
			t.Readings[k].Status, t.Readings[k].Why = head.Asked, "its flow unit is not sure"
		}
		sheet := t.At.File
		if t.Head != "PW-31" {
			sheet, t.At.File = "bench/pair.xlsx", "bench/pair.xlsx"
		}
		if at, again := seen[sheet]; again {
			r.Problems[at].Also = append(r.Problems[at].Also, t.At)
			continue
		}
		seen[sheet] = len(r.Problems)
		r.Problems.Add(source.Problem{At: t.At, Severity: source.Asked, Kind: "flow-unit-not-stated", Head: t.Head, Question: q, Message: "the flow unit is not stated"})
	}
}

// TestHeldByAQuestion holds that heads whose readings wait for one answer say so
// in their row, that the family's open questions name it, once, and that it
// weighs as much as they do, before a question about one of the ranked heads.
func TestHeldByAQuestion(t *testing.T) {
	r, s, d := comparetest.SmallEight()
	asked(&r)
	r.Problems.Add(source.Problem{At: source.Ref{File: "a.xlsx"}, Severity: source.Asked, Head: "LKC-12", Question: &source.Question{Key: "b"}})
	all := compare.All(r, s, d)
	c := all[0]
	for _, name := range []string{"PW-31", "OB-4", "VR-81"} {
		n := leftOut(c, name)
		if n == nil || !n.Held || !strings.Contains(n.Reason, "wait for an answer in Questions.xlsx: its flow unit is not sure") {
			t.Fatalf("%s: %+v", name, n)
		}
		if !slices.ContainsFunc(n.Problems, func(p source.Problem) bool { return p.Question != nil && p.Question.Key == "flow unit|bench" }) {
			t.Errorf("%s: its question is not beside it: %+v", name, n.Problems)
		}
	}
	if len(c.Questions) < 2 || c.Questions[0].Question.Key != "flow unit|bench" {
		t.Errorf("the family's open questions are %+v", c.Questions)
	}
	stakes := compare.NewStakes(r, all)
	open := r.Problems.Open()
	i := slices.IndexFunc(open, func(p source.Problem) bool { return p.Question.Key == "flow unit|bench" })
	if len(open) != 2 || stakes.Of(open[i]) != compare.TopThree || len(stakes.Heads(open[i])) != 3 {
		t.Errorf("%d open; weighs %v, about %v", len(open), stakes.Of(open[i]), stakes.Heads(open[i]))
	}
}

// TestFlagOfAQuestion holds that a ranked head is flagged for a question that
// reading its books raised, and that the flag counts nothing.
func TestFlagOfAQuestion(t *testing.T) {
	c := smallEight(func(r *head.Records, _ *head.Shop) {
		at := source.Ref{File: "bench/shootout.xlsx", Sheet: "S", Cell: "H6"}
		for _, key := range []string{"hidden|PW-33", "hidden|PW-33", "other|PW-33"} {
			r.Problems.Add(source.Problem{At: at, Severity: source.Asked, Kind: key, Head: "PW-33", Question: &source.Question{Key: key}})
		}
	})
	for _, e := range c.Ranked {
		i := slices.IndexFunc(e.Flags, func(f compare.Flag) bool { return f.Code == "?" })
		if (i >= 0) != (e.Head == "PW-33") {
			t.Errorf("%s: flags %v", e.Label, e.Flags)
		}
		if i >= 0 && strings.ContainsAny(e.Flags[i].Words, "0123456789") {
			t.Errorf("the flag's words are %q, and stand once for all heads", e.Flags[i].Words)
		}
	}
	if len(c.Questions) != 2 {
		t.Errorf("%d open questions, want 2", len(c.Questions))
	}
}
