package main

import (
	"cmp"
	"context"
	"errors"
	"fmt"
	"slices"

	"flowshelf/analysis/compare"
	"flowshelf/analysis/head"
	"flowshelf/analysis/source"
	"flowshelf/export/publish"
	"flowshelf/export/questions"
	"flowshelf/ingest"
)

// answers reads what people have written into the questions workbook. Without
// it nothing is read: going on would take every answer back.
func (a *app) answers(ctx context.Context, p pass) (ingest.Replies, error) {
	replies, err := ingest.ReadAnswers(ctx, p.files, publish.Names(answersFile), a.ingestOptions(), p.date)
	switch {
	case errors.Is(err, context.Canceled):
		return replies, &failure{exitFailed, errors.New("interrupted while reading; no workbook was touched"), ""}
	case err != nil:
		return replies, &failure{exitFailed, err, "open " + questions.FileName + " in a spreadsheet program and save it again; without it everything is asked anew"}
	}
	return replies, nil
}

// takeAnswers notes what the answers of a pass came to: those that settle
// nothing are problems, and of the others the words of the choice stand.
func (r *result) takeAnswers(replies ingest.Replies) {
	r.replies = replies
	r.problems = append(r.problems, replies.Problems...)
	r.answers = replies.Answers.Worded(r.problems)
	r.problems = append(r.problems, replies.Answers.Refusals(r.problems)...).Sorted()
}

// questions lays out what is open and what has been answered.
func (r result) questions(shop head.Shop, stakes *compare.Stakes) questions.List {
	l := questions.List{Shop: shop.Name, Dated: r.date, Paper: shop.Rules.Paper, Most: shop.Rules.MaximumQuestions, Up: up}
	for _, p := range r.asked() {
		item := questions.Item{Problem: p, First: r.date, Heads: stakes.Heads(p)}
		item.Weight, item.Stake = weigh(stakes.Of(p))
		if q := p.Question; q != nil {
			typed, _ := r.replies.Answers.To(q.Key)
			item.Answer, item.Name = typed.Text, typed.By
			if first, known := r.replies.First[q.Key]; known {
				item.First = first
			}
		}
		l.Open = append(l.Open, item)
	}
	l.Given = r.given()
	return l
}

// asked returns the open questions, each once however often it is raised.
func (r result) asked() source.Problems { return r.problems.Open() }

// asking returns what was read with the open questions about it, so that a head
// that waits for an answer can say so.
func asking(read ingest.Reading) head.Records {
	records := read.Records
	records.Problems = slices.DeleteFunc(slices.Clone(read.Problems), func(p source.Problem) bool { return p.Severity != source.Asked })
	return records
}

func weigh(s compare.Stake) (weight int, words string) {
	return int(s), "hangs on it: " + s.String()
}

// given returns the answers that settle their questions, the newest first.
func (r result) given() []questions.Given {
	used := make(map[string]bool)
	for _, p := range r.having(source.Noted) {
		if p.Question != nil {
			used[p.Question.Key] = true
		}
	}
	for _, f := range r.files {
		used[head.IgnoreKey(f.path)] = f.read.Kind == "ignored"
	}
	var out []questions.Given
	for _, a := range r.answers.All() {
		first, known := r.replies.First[a.Key]
		if !known {
			first = a.On
		}
		out = append(out, questions.Given{Answer: a, InUse: used[a.Key], First: first})
	}
	slices.SortStableFunc(out, func(x, y questions.Given) int {
		return cmp.Or(y.On.Compare(x.On), x.About.Compare(y.About), cmp.Compare(x.Key, y.Key))
	})
	return out
}

// answersInWords says how many answers were taken over, "" when there are none.
func (r result) answersInWords() string {
	n := r.replies.Answers.Len()
	words := ""
	switch {
	case n > 0 && r.replies.New > 0:
		words = fmt.Sprintf("%s taken over, %d of them new", plural(n, "answer"), r.replies.New)
	case n > 0:
		words = plural(n, "answer") + " taken over"
	}
	if r.replies.Withdrawn > 0 {
		if words != "" {
			words += ", "
		}
		words += plural(r.replies.Withdrawn, "answer") + " taken back"
	}
	return words
}
