package flowsheet_test

import (
	"path/filepath"
	"slices"
	"strings"
	"testing"
	"time"

	"github.com/rogpeppe/go-internal/txtar"

	"flowshelf/analysis/head"
	"flowshelf/analysis/source"
	"flowshelf/ingest/decode"
	"flowshelf/ingest/flowsheet"
	"flowshelf/ingest/layout"
)

var answerDay = time.Date(2026, 3, 14, 0, 0, 0, 0, time.UTC)

// readAnswered reads a book whose questions have been answered, by key.
func readAnswered(path string, book *decode.Book, shop head.Shop, said map[string]string) head.Records {
	var given []head.Answer
	for key, text := range said {
		given = append(given, head.Answer{Key: key, Text: text, By: "JT", On: answerDay, At: source.Ref{File: "Ranked/Questions.xlsx"}})
	}
	var out head.Records
	for i := range book.Sheets {
		page := layout.NewPage(path, book, &book.Sheets[i])
		for _, r := range flowsheet.Recognisers() {
			out.Append(r.Recognise(page, layout.Context{Shop: shop, Path: path, Answers: head.NewAnswers(given)}))
		}
	}
	return out
}

// replies are the answers to try on a question: all of its choices, and what it
// lets people type.
func replies(q source.Question) []string {
	out := slices.Clone(q.Choices)
	switch q.Wants {
	case source.AFigure:
		figure := "28"
		if q.Most > 0 && q.Most < 28 {
			figure = "4.030"
			if q.Most < 4 {
				figure = "2.02"
			}
		}
		out = append(out, figure)
	case source.Words:
		out = append(out, "PW-33")
	case source.AChoice, source.ADay:
	}
	return out
}

// TestEveryQuestionTakesItsAnswers answers each question of every fixture in
// each way it can be answered. The question must be gone and noted with its
// answer, and at least one way must change what is read.
func TestEveryQuestionTakesItsAnswers(t *testing.T) {
	files, err := filepath.Glob("testdata/shapes/*.txt")
	if err != nil {
		t.Fatal(err)
	}
	seen := make(map[string]bool)
	for _, file := range files {
		archive, err := txtar.ParseFile(file)
		if err != nil {
			t.Fatal(err)
		}
		path, shop, book := fixture(t, archive)
		before := readAnswered(path, book, shop, nil)
		for _, p := range before.Problems {
			if p.Severity != source.Asked {
				continue
			}
			if p.Question == nil {
				t.Errorf("%s: %s asks nothing that can be answered", file, p.Kind)
				continue
			}
			seen[p.Kind] = true
			changed := p.Kind == "band-meaning" // the average is used either way
			for _, text := range replies(*p.Question) {
				after := readAnswered(path, book, shop, map[string]string{p.Question.Key: text})
				if why := settled(after.Problems, p.Question.Key); why != "" {
					t.Errorf("%s: %s answered %q: %s", filepath.Base(file), p.Kind, text, why)
				}
				changed = changed || readings(before) != readings(after) || asksMore(before, after)
			}
			if !changed {
				t.Errorf("%s: %s: no answer changes anything (%q)", filepath.Base(file), p.Kind, replies(*p.Question))
			}
		}
	}
	for _, kind := range questionKinds {
		if !seen[kind] {
			t.Errorf("no fixture asks about %s", kind)
		}
	}
}

// questionKinds are the kinds of problem that a flow sheet asks about.
var questionKinds = strings.Fields(`
	hidden-cells orientation-unclear head-not-stated head-conflict head-loose-match head-unclear port-not-stated port-ambiguous
	state-unclear pressure-not-stated pressure-unit pressure-conflict bore-conflict bore-not-stated flow-unit-not-stated
	flow-unit-conflict mass-flow lift-unit lift-over-diameter lift-twice class-unknown conversion-unclear not-a-number two-numbers
	tester-warning struck-through footnote-missing footnote-condition band-meaning unlabelled-row unlabelled-column
	correction-unclear other-pressure-set-aside run-differs calibration-missing scale-not-stated repeats-unclear manifold-not-stated date-ambiguous`)

// asksMore reports whether an answer leads on to another question.
func asksMore(before, after head.Records) bool {
	known := make(map[string]bool)
	for _, p := range before.Problems {
		if p.Question != nil {
			known[p.Question.Key] = true
		}
	}
	return slices.ContainsFunc(after.Problems, func(p source.Problem) bool { return p.Question != nil && !known[p.Question.Key] })
}

func settled(problems source.Problems, key string) string {
	noted := false
	for _, p := range problems {
		if p.Question == nil || p.Question.Key != key {
			continue
		}
		if p.Severity == source.Asked {
			return "it is asked again: " + p.Message
		}
		noted = noted || strings.Contains(p.Message, "per JT 2026-03-14")
	}
	if !noted {
		return "the answer is not noted"
	}
	return ""
}

func readings(r head.Records) string {
	var b strings.Builder
	for _, t := range r.Tests {
		b.WriteString(show(t) + "\n")
	}
	return b.String()
}

// TestAnswersAsRead holds what single answers come to.
func TestAnswersAsRead(t *testing.T) {
	for _, c := range []struct{ fixture, kind, text, want string }{
		{"F01-no-unit-no-pressure", "flow-unit-not-stated", "L/s", ".100=127.1"}, // 60 L/s x 2.118880
		{"F01-no-unit-no-pressure", "pressure-not-stated", "25", "p=25.00"},
		{"ANS-two-pressures-stated", "pressure-conflict", "25 inH2O", "p=25.00"},
		{"ANS-bore-over", "bore-not-stated", "4.000", "bore=4.030"},                   // .030 over
		{"ANS-cell-unit", "flow-unit-conflict", "L/s", ".200=119.9"},                  // 56.6 L/s x 2.118880
		{"ANS-scale-not-set", "scale-not-stated", "linear in flow", ".200=133.9"},     // 83.3 % of 160.8
		{"ANS-scale-not-set", "scale-not-stated", "linear in pressure", ".200=146.8"}, // sqrt(.833) x 160.8
		{"F32-three-digits-two-columns", "not-a-number", "a decimal sign", ".300=1.9 .400=2.3"},
		{"F32-three-digits-two-columns", "not-a-number", "a thousands sign", ".300=1440.0 .400=1670.0"},
		{"F47-supplier-silent", "manifold-not-stated", "with a manifold", "entry=manifold"},
		{"ANS-unit-twice", "flow-unit-conflict", "L/s", ".200=241.6"}, // 114 L/s x 2.118880
		{"ANS-unit-twice", "flow-unit-conflict", "cfm", ".200=114.0"},
		{"ANS-pressure-twice", "pressure-conflict", "10", "p=10.00"},
		{"ANS-pipe-twice", "pipe-conflict", "no pipe", "no pipe used"},
		{"ANS-pipe-twice", "pipe-conflict", "with pipe", "with pipe used"},
		{"ANS-row-pressure", "pressure-conflict", "yes", ".300=170.0@22.0 .400"},
		{"ANS-row-pressure", "pressure-conflict", "no", ".300=170.0 .400"},
		{"ANS-cam-lift", "lift-unit", "1.6", ".160=114.0 .320=170.0 .480=212.0"}, // lift of the cam x 1.6
		{"ANS-two-lifts", "lift-unit", "0.339 in", ".339=170.0 .400"},            // 8.62 mm
		{"ANS-two-lifts", "lift-unit", "0.3 in", ".300=170.0 .400"},
		{"ANS-little-flow", "no-such-flow", "yes", ".200=0.1 .300"},
		{"F41-hidden", "hidden-cells", "yes", " used\n"},
		{"ANS-date-two-ways", "date-ambiguous", "month first: 9 March 2026", "date=2026-03-09"},
		{"ANS-date-two-ways", "date-ambiguous", "day first", "date=2026-09-03"},
		{"ANS-date-two-ways", "date-ambiguous", "2026-03-09", "date=2026-03-09"},
	} {
		archive, err := txtar.ParseFile("testdata/shapes/" + c.fixture + ".txt")
		if err != nil {
			t.Fatal(err)
		}
		path, shop, book := fixture(t, archive)
		for _, p := range readAnswered(path, book, shop, nil).Problems {
			if p.Kind != c.kind || p.Question == nil {
				continue
			}
			after := readAnswered(path, book, shop, map[string]string{p.Question.Key: c.text})
			if got := readings(after); !strings.Contains(got, c.want) {
				t.Errorf("%s answered %q: no %q in\n%s", c.kind, c.text, c.want, got)
			}
			if !answered(after) {
				t.Errorf("%s answered %q: no value says who answered", c.kind, c.text)
			}
		}
	}
}

func answered(r head.Records) bool {
	return slices.ContainsFunc(r.Tests, func(t head.Test) bool {
		return t.Pressure.Trace.Answered+t.Bore.Trace.Answered != "" || slices.ContainsFunc(t.Readings, func(r head.Reading) bool {
			return r.Flow.Trace.Answered == "per JT 2026-03-14"
		})
	})
}
