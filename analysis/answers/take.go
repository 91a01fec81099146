package answers

import (
	"fmt"
	"strings"
	"time"

	"flowshelf/analysis/head"
	"flowshelf/analysis/source"
)

// Taken is what the rows of the questions workbook come to.
type Taken struct {
	Answers   head.Answers
	New       int                  // answers that were not in the record yet, or not so
	Withdrawn int                  // answers of the record that were taken back
	First     map[string]time.Time // when each question was first asked, by its key
	Problems  source.Problems
}

// Take reads the rows on a day. An answer counts from the day on which it was
// first taken over; one that is cleared, or marked as taken back, no longer
// counts; a question answered in two ways is answered in none.
func Take(rows []Row, on time.Time) Taken {
	t := taking{on: on, given: make(map[string][]given), out: Taken{First: make(map[string]time.Time)}}
	for _, r := range rows {
		if first, ok := dayOf(r.First); ok && r.Key != "" {
			if known, seen := t.out.First[r.Key]; !seen || first.Before(known) {
				t.out.First[r.Key] = first
			}
		}
	}
	for _, r := range rows {
		if r.Key != "" {
			t.row(r)
		}
	}
	settled := make([]head.Answer, 0, len(t.keys))
	for _, key := range t.keys {
		if g, ok := t.settle(t.given[key]); ok {
			settled = append(settled, g.Answer)
			if g.fresh {
				t.out.New++
			}
		}
	}
	t.out.Answers = head.NewAnswers(settled)
	return t.out
}

// taking collects what the rows say, by the keys of their questions.
type taking struct {
	on    time.Time
	keys  []string // in the order of the rows
	given map[string][]given
	out   Taken
}

type given struct {
	head.Answer
	fresh bool // typed since the record was written
}

func (t *taking) row(r Row) {
	text := strings.TrimSpace(r.Answer)
	switch {
	case r.Given && (text == "" || takenBack(r.TakeBack)):
		t.out.Withdrawn++
		return
	case text == "":
		return
	}
	if r.Given && strings.TrimSpace(r.TakeBack) != "" {
		t.out.Problems.Add(source.Problem{At: r.AnswerAt, Severity: source.Refused, Kind: "take-back-not-understood", Found: r.TakeBack,
			Message: "this does not take the answer back, so it stands", Hint: "write “" + TakeBack + "”, or clear the answer"})
	}
	a := given{Answer: head.Answer{Key: r.Key, Text: text, By: strings.TrimSpace(r.Name), On: t.on, At: r.AnswerAt,
		Question: r.Question, Head: headOf(r.Head), About: r.About}, fresh: true}
	if day, ok := dayOf(r.On); r.Given && ok && text == r.Taken {
		a.On, a.fresh = day, a.By != r.By
	}
	a = ignoring(a)
	if len(t.given[a.Key]) == 0 {
		t.keys = append(t.keys, a.Key)
	}
	t.given[a.Key] = append(t.given[a.Key], a)
}

// headOf undoes the dash that stands where a question is about no one head.
func headOf(name string) string {
	if name == NoHead {
		return ""
	}
	return name
}

func takenBack(mark string) bool {
	return strings.EqualFold(strings.Join(strings.Fields(mark), " "), TakeBack)
}

// ignoring turns "ignore this file" into an answer about the file itself: the
// question it was written beside may be asked of other files too.
func ignoring(a given) given {
	if !strings.EqualFold(strings.Join(strings.Fields(a.Text), " "), head.IgnoreFile) || a.About.File == "" {
		return a
	}
	a.Key, a.Text = head.IgnoreKey(a.About.File), head.IgnoreFile
	a.Question = "Is this file to be read?"
	a.About.Sheet, a.About.Cell = "", ""
	return a
}

// settle finds the one answer among those with one key: what was typed since
// the record was written stands before it, and the newest record before older
// ones. Two of equal standing that differ are no answer.
func (t *taking) settle(all []given) (given, bool) {
	best := all[:1:1]
	for _, g := range all[1:] {
		switch order := g.standing(best[0]); {
		case order > 0:
			best = []given{g}
		case order == 0:
			best = append(best, g)
		}
	}
	stands := best[0]
	for _, g := range best[1:] {
		if !strings.EqualFold(g.Text, stands.Text) {
			t.out.Problems.Add(source.Problem{At: g.At, Also: []source.Ref{stands.At}, Severity: source.Refused, Kind: "answered-twice",
				Head: g.Head, Found: g.Text, Message: fmt.Sprintf("“%s” has two answers, this and %q; neither is used", g.Question, stands.Text),
				Hint: "clear one of them"})
			return given{}, false
		}
	}
	for _, g := range all { // typed once more as it is on record: nothing new
		if stands.fresh && !g.fresh && strings.EqualFold(g.Text, stands.Text) && g.By == stands.By {
			stands = g
		}
	}
	return stands, true
}

// standing is above 0 when g stands before o, 0 when neither does.
func (g given) standing(o given) int {
	switch {
	case g.fresh == o.fresh:
		return g.On.Compare(o.On)
	case g.fresh:
		return 1
	}
	return -1
}
