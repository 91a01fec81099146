package head_test

import (
	"testing"
	"time"

	"github.com/google/go-cmp/cmp"
	"pgregory.net/rapid"

	"flowshelf/analysis/head"
	"flowshelf/analysis/source"
)

var day = time.Date(2026, 3, 14, 0, 0, 0, 0, time.UTC)

func said(text string) head.Answers {
	return head.NewAnswers([]head.Answer{{Key: "k", Text: text, By: "JT", On: day}})
}

// TestReply holds which words answer a question: its choices as people shorten
// them, and what may be typed instead. What fits two choices answers nothing.
func TestReply(t *testing.T) {
	dates := []string{"month first: 1 April 2026", "day first: 4 January 2026"}
	use := []string{"no, leave them out", "yes, use them"}
	reading := []string{"143", "leave it out"}
	for _, c := range []struct {
		name    string
		choices []string
		wants   source.Want
		unit    string
		text    string
		want    string // the choice, or what was typed
		ok      bool
	}{
		{"in full", use, 0, "", "yes, use them", "yes, use them", true},
		{"other case and blanks", use, 0, "", "  YES,  use them ", "yes, use them", true},
		{"a drop-down has no commas", use, 0, "", "yes; use them", "yes, use them", true},
		{"first word", use, 0, "", "no", "no, leave them out", true},
		{"nothing of the kind", use, 0, "", "perhaps", "", false},
		{"part of a word", use, 0, "", "ye", "", false},
		{"blank", use, 0, "", "  ", "", false},
		{"the day", dates, source.ADay, "", "April 1", dates[0], true},
		{"the day the other way round", dates, source.ADay, "", "4 January", dates[1], true},
		{"the day with its year", dates, source.ADay, "", "1 April 2026", dates[0], true},
		{"the name of the choice", dates, source.ADay, "", "day first", dates[1], true},
		{"the choice of another list", dates, source.ADay, "", "day first: 2 May 2026", dates[1], true},
		{"a figure is no day", dates, source.ADay, "", "1", "", false},
		{"another day", dates, source.ADay, "", "2026-03-01", "2026-03-01", true},
		{"a day that is none", dates, source.ADay, "", "2026-02-30", "", false},
		{"the guess", reading, source.AFigure, "", "143", "143", true},
		{"a figure", reading, source.AFigure, "", "144.5", "144.5", true},
		{"a comma", reading, source.AFigure, "", "144,5", "144,5", true},
		{"thousands or decimals", reading, source.AFigure, "", "1,445", "", false},
		{"with its unit", nil, source.AFigure, "cfm", "143 CFM", "143 CFM", true},
		{"with another unit", nil, source.AFigure, "cfm", "143 L/s", "", false},
		{"money", nil, source.AFigure, "USD", "$180", "$180", true},
		{"words for a figure", nil, source.AFigure, "", "about 143", "", false},
		{"below nothing", nil, source.AFigure, "", "-3", "", false},
		{"a name", []string{"PW-31"}, source.Words, "", "PW-33", "PW-33", true},
		{"two that begin alike", []string{"two runs: mean", "two ports: mean"}, 0, "", "two", "", false},
	} {
		q := source.Question{Key: "k", Choices: c.choices, Wants: c.wants, Unit: c.unit}
		got, ok := said(c.text).Reply(q)
		if ok != c.ok || ok && got.Said() != c.want {
			t.Errorf("%s: %q answers %q, %v; want %q, %v", c.name, c.text, got.Said(), ok, c.want, c.ok)
		}
	}
}

func TestFigureWithinLimits(t *testing.T) {
	q := source.Question{Key: "k", Choices: []string{"28 inH2O"}, Wants: source.AFigure, Unit: "inH2O", Least: 3, Most: 60}
	for text, want := range map[string]float64{"28 inH2O": 28, "28": 28, "25": 25, "61": 0, "2.9": 0} {
		got, ok := said(text).Reply(q)
		if ok != (want > 0) || ok && got.Figure != want {
			t.Errorf("%q: %v, %v; want %v", text, got.Figure, ok, want)
		}
	}
}

func TestPer(t *testing.T) {
	a := head.Answer{By: "JT", On: day}
	if got := a.Per(); got != "per JT 2026-03-14" {
		t.Error(got)
	}
	a.By = ""
	if got := a.Per(); got != "per answer of 2026-03-14" {
		t.Error(got)
	}
}

// TestWorded holds that answers come out in the words of the choices, that the
// words answer the same question again, and that what settles nothing is told.
func TestWorded(t *testing.T) {
	q := &source.Question{Key: "k", Text: "Use them?", Choices: []string{"no, leave them out", "yes, use them"}}
	used := source.Problems{{Severity: source.Noted, Head: "PW-31", Question: q}}
	worded := said("yes").Worded(used)
	if got, _ := worded.To("k"); got.Text != "yes, use them" || got.Head != "PW-31" || got.By != "JT" {
		t.Errorf("worded as %+v", got)
	}
	if diff := cmp.Diff(worded, worded.Worded(used)); diff != "" {
		t.Errorf("worded twice differs:\n%s", diff)
	}
	asked := head.NewAnswers([]head.Answer{{Key: "k", Text: "yes", Question: "Use those of a.xlsx?", Head: "OB-4", About: source.Ref{File: "a.xlsx"}}})
	if got, _ := asked.Worded(used).To("k"); got.Question != "Use those of a.xlsx?" || got.Head != "OB-4" || got.About.File != "a.xlsx" || got.Text != "yes, use them" {
		t.Errorf("what was asked is written over: %+v", got)
	}
	open := source.Problems{{Severity: source.Asked, Question: q, At: source.Ref{File: "a.xlsx"}}}
	if n := said("perhaps").Worded(open).Len(); n != 0 {
		t.Errorf("%d answers settle an open question", n)
	}
	refused := said("perhaps").Refusals(open)
	if len(refused) != 1 || refused[0].Kind != "answer-not-understood" || refused[0].Found != "perhaps" {
		t.Errorf("told %v", refused)
	}
	if n := len(said("yes").Refusals(used)); n != 0 {
		t.Errorf("%d complaints about an answer that is used", n)
	}
}

// TestAChoiceAnswersItself holds for any choices that differ in their words.
func TestAChoiceAnswersItself(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		word := rapid.StringMatching(`[a-z0-9]{1,6}`)
		choices := rapid.SliceOfNDistinct(rapid.Custom(func(t *rapid.T) string {
			return word.Draw(t, "a") + " " + word.Draw(t, "b")
		}), 1, 4, rapid.ID[string]).Draw(t, "choices")
		pick := rapid.SampledFrom(choices).Draw(t, "pick")
		got, ok := said(pick).Reply(source.Question{Key: "k", Choices: choices})
		if !ok || got.Choice != pick {
			t.Fatalf("%q of %q is %q, %v", pick, choices, got.Choice, ok)
		}
	})
}
