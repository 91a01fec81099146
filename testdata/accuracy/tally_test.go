package accuracy_test

import (
	"fmt"
	"slices"
	"strings"

	"flowshelf/analysis/source"
	"flowshelf/ingest"
)

// tally adds up one shape.
type tally struct {
	shape     string
	books     int
	stated    int // readings whose sheet states what is needed
	n         [outcomes]int
	lost      int // right readings of which a stated circumstance was lost
	misstated int // right readings with a circumstance that the sheet does not state
	lacking   int // books that leave a fact out
	unasked   int // of them, those that raised nothing
	needless  int // books that state everything and raised a question or refusal
}

// share is the part of the stated readings that is right without a question.
func (t tally) share() float64 {
	if t.stated == 0 {
		return 1
	}
	return float64(t.n[right]) / float64(t.stated)
}

func (t *tally) add(o tally) {
	t.books += o.books
	t.stated += o.stated
	for i := range t.n {
		t.n[i] += o.n[i]
	}
	t.lost += o.lost
	t.misstated += o.misstated
	t.lacking += o.lacking
	t.unasked += o.unasked
	t.needless += o.needless
}

func (t *tally) count(b book, read ingest.FileRead, verdicts []verdict) {
	t.books++
	for _, c := range b.cells {
		if c.Want == wantUsed {
			t.stated++
		}
	}
	for _, v := range verdicts {
		t.n[v.outcome]++
		if len(v.lost) > 0 {
			t.lost++
		}
		if len(v.misstated) > 0 {
			t.misstated++
		}
	}
	if len(b.Lacks) > 0 {
		t.lacking++
		if unasked(b, read) != "" {
			t.unasked++
		}
	} else if onlyUsed(b) && len(questions(read)) > 0 {
		t.needless++
	}
}

// asksAbout are the stable words of the questions and refusals that fit a fact
// a sheet leaves out.
var asksAbout = map[string][]string{
	"pressure":        {"pressure", "correct"},
	"flow unit":       {"flow-unit"},
	"lift unit":       {"lift"},
	"port":            {"port"},
	"column":          {"column"},
	"head":            {"head"},
	"valve size":      {"valve", "lift"},
	"calibration":     {"calibration", "range"},
	"density":         {"mass", "density", "flow-unit"},
	"bench constants": {"manometer", "bench", "flow-unit"},
}

// unasked returns the fact that a book leaves out and no question or refusal is
// about, "" for none.
func unasked(b book, read ingest.FileRead) string {
	for _, fact := range b.Lacks {
		fits := func(p source.Problem) bool {
			return slices.ContainsFunc(asksAbout[fact], func(word string) bool { return strings.Contains(p.Kind, word) })
		}
		if !slices.ContainsFunc(questions(read), fits) {
			return fact
		}
	}
	return ""
}

func kinds(read ingest.FileRead) string {
	var out []string
	for _, p := range questions(read) {
		out = append(out, p.Kind)
	}
	slices.Sort(out)
	return fmt.Sprintf("(asked about %s)", strings.Join(slices.Compact(out), ", "))
}

// onlyUsed reports whether every reading of a book is stated and plain.
func onlyUsed(b book) bool {
	for _, c := range b.cells {
		if c.Want != wantUsed && c.Want != wantAside {
			return false
		}
	}
	return true
}

// questions are the questions and refusals that one file raised. Whose bench a
// sheet is from is no matter of this measure: the sheets do not say it.
func questions(read ingest.FileRead) []source.Problem {
	var out []source.Problem
	for _, p := range read.Records.Problems {
		if (p.Severity == source.Asked || p.Severity == source.Refused) && p.Kind != "class-unknown" {
			out = append(out, p)
		}
	}
	return out
}

// table prints the tallies for people.
func table(shapes []tally, total tally) string {
	var b strings.Builder
	fmt.Fprintf(&b, "%-46s %5s %7s %7s %6s %6s %6s %6s | %6s %5s %6s %7s %8s\n",
		"shape", "books", "stated", "right", "asked", "aside", "missed", "WRONG", "leftout", "lost", "MISST.", "unasked", "needless")
	for _, t := range append(shapes, total) {
		fmt.Fprintf(&b, "%-46s %5d %7d %6.1f%% %6d %6d %6d %6d | %6d %5d %6d %3d/%-3d %8d\n",
			t.shape, t.books, t.stated, 100*t.share(), t.n[asked], t.n[setAside], t.n[missed], t.n[silent],
			t.n[leftOut], t.lost, t.misstated, t.unasked, t.lacking, t.needless)
	}
	return b.String()
}

// inOrder sorts the tallies by shape and adds them up.
func inOrder(order []string, shapes map[string]*tally) (list []tally, total tally) {
	slices.Sort(order)
	for _, s := range order {
		list = append(list, *shapes[s])
		total.add(*shapes[s])
	}
	total.shape = "all"
	return list, total
}
