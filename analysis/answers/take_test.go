package answers_test

import (
	"testing"
	"time"

	"pgregory.net/rapid"

	"flowshelf/analysis/answers"
	"flowshelf/analysis/head"
	"flowshelf/analysis/source"
)

var (
	march14 = time.Date(2026, 3, 14, 0, 0, 0, 0, time.UTC)
	march16 = time.Date(2026, 3, 16, 0, 0, 0, 0, time.UTC)
)

func open(key, text string) answers.Row {
	return answers.Row{Key: key, Question: "Q " + key, Head: answers.NoHead, First: "2026-03-02", Answer: text, Name: "JT",
		About: source.Ref{File: "a.xlsx", Sheet: "S", Cell: "B9"}, AnswerAt: source.Ref{File: "Questions.xlsx", Cell: "J6"}}
}

func given(key, text string) answers.Row {
	r := open(key, text)
	r.Given, r.Taken, r.By, r.On = true, text, "JT", "2026-03-14"
	return r
}

func with(r answers.Row, change func(*answers.Row)) answers.Row {
	change(&r)
	return r
}

func TestTake(t *testing.T) {
	for _, c := range []struct {
		name            string
		rows            []answers.Row
		text            string // of the answer to k, "" for none
		on              time.Time
		news, withdrawn int
		problem         string
	}{
		{name: "typed", rows: []answers.Row{open("k", " 143 ")}, text: "143", on: march16, news: 1},
		{name: "not typed", rows: []answers.Row{open("k", "  ")}},
		{name: "on record", rows: []answers.Row{given("k", "143")}, text: "143", on: march14},
		{name: "changed on record", rows: []answers.Row{with(given("k", "143"), func(r *answers.Row) { r.Answer = "144" })}, text: "144", on: march16, news: 1},
		{name: "signed later", rows: []answers.Row{with(given("k", "143"), func(r *answers.Row) { r.Name = "AB" })}, text: "143", on: march14, news: 1},
		{name: "cleared", rows: []answers.Row{with(given("k", "143"), func(r *answers.Row) { r.Answer = "" })}, withdrawn: 1},
		{name: "taken back", rows: []answers.Row{with(given("k", "143"), func(r *answers.Row) { r.TakeBack = " TAKE  back" })}, withdrawn: 1},
		{name: "another mark", rows: []answers.Row{with(given("k", "143"), func(r *answers.Row) { r.TakeBack = "?" })}, text: "143", on: march14, problem: "take-back-not-understood"},
		{name: "without a key", rows: []answers.Row{open("", "143")}},
		{name: "twice the same", rows: []answers.Row{open("k", "Yes"), open("k", "yes")}, text: "Yes", on: march16, news: 1},
		{name: "twice, and not the same", rows: []answers.Row{open("k", "yes"), open("k", "no")}, problem: "answered-twice"},
		{name: "typed anew beside the record", rows: []answers.Row{given("k", "yes"), open("k", "no")}, text: "no", on: march16, news: 1},
		{name: "the same typed beside the record", rows: []answers.Row{open("k", "yes"), given("k", "yes")}, text: "yes", on: march14},
	} {
		t.Run(c.name, func(t *testing.T) {
			got := answers.Take(c.rows, march16)
			a, ok := got.Answers.To("k")
			if ok != (c.text != "") || a.Text != c.text || !a.On.Equal(c.on) {
				t.Errorf("answer %q on %s, %v; want %q on %s", a.Text, a.On, ok, c.text, c.on)
			}
			if got.New != c.news || got.Withdrawn != c.withdrawn {
				t.Errorf("%d new, %d withdrawn; want %d, %d", got.New, got.Withdrawn, c.news, c.withdrawn)
			}
			if kinds := len(got.Problems); c.problem == "" && kinds > 0 || c.problem != "" && (kinds != 1 || got.Problems[0].Kind != c.problem) {
				t.Errorf("problems %v, want %q", got.Problems, c.problem)
			}
		})
	}
}

// TestIgnoreIsAboutTheFile holds that a question many files ask is not answered
// by ignoring one of them.
func TestIgnoreIsAboutTheFile(t *testing.T) {
	got := answers.Take([]answers.Row{open("flow unit|Vintner", "Ignore this  file")}, march16)
	if _, ok := got.Answers.To("flow unit|Vintner"); ok {
		t.Error("the question of the sender is answered")
	}
	if a, ok := got.Answers.Ignores("a.xlsx"); !ok || a.Text != head.IgnoreFile || a.About != (source.Ref{File: "a.xlsx"}) {
		t.Errorf("the file is not ignored: %+v", a)
	}
}

func TestFirstAsked(t *testing.T) {
	first := answers.Take([]answers.Row{open("k", ""), with(open("k", ""), func(r *answers.Row) { r.First = "2026-03-01" })}, march16).First["k"]
	if want := time.Date(2026, 3, 1, 0, 0, 0, 0, time.UTC); !first.Equal(want) {
		t.Errorf("first asked %s, want the earlier of two days, %s", first, want)
	}
}

// TestOrderOfRowsDoesNotMatter holds for the answers themselves: rows may be
// sorted by whatever a person likes.
func TestOrderOfRowsDoesNotMatter(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		rows := rapid.SliceOfDistinct(rapid.Custom(func(t *rapid.T) answers.Row {
			key := rapid.StringMatching(`[a-f]`).Draw(t, "key")
			text := rapid.SampledFrom([]string{"", "yes", "no", "143"}).Draw(t, "text")
			if rapid.Bool().Draw(t, "given") {
				return given(key, text)
			}
			return open(key, text)
		}), func(r answers.Row) string { return r.Key + r.Taken + map[bool]string{true: "g"}[r.Given] }).Draw(t, "rows")
		one := answers.Take(rows, march16)
		two := answers.Take(rapid.Permutation(rows).Draw(t, "sorted"), march16)
		if !one.Answers.Equal(two.Answers) {
			t.Fatalf("%v and %v", one.Answers.All(), two.Answers.All())
		}
	})
}
