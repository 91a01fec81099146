package source

import (
	"cmp"
	"fmt"
	"slices"
	"strings"
)

// Severity says what became of the value a Problem is about.
type Severity uint8

// From the mildest to the worst.
const (
	Noted    Severity = iota // used; the inference or remark is shown
	Asked                    // not used until somebody answers
	SetAside                 // understood, and not data
	Refused                  // never used
)

// String returns the stable word of a severity.
func (s Severity) String() string {
	return [...]string{"noted", "asked", "set_aside", "refused"}[s]
}

// Problem is one thing a person should know about a place in a file. Kind is a
// stable word that tests and answers rely on; the wording is free.
type Problem struct {
	At       Ref
	Also     []Ref
	Severity Severity
	Kind     string // "pressure-not-stated", "impossible-reading", ...
	Head     string // our name of the head concerned, "" for none
	Family   string
	Found    string // what stood there
	Message  string // what is wrong, in one sentence
	Hint     string // what to do about it
	Question *Question
}

// String prints `may.xlsx, sheet "Intake", cell AB14: lift is not a number
// (found "x"); type the lift in inches or mm`.
func (p Problem) String() string {
	var b strings.Builder
	fmt.Fprintf(&b, "%s: %s", p.At, p.Message)
	if p.Found != "" {
		fmt.Fprintf(&b, " (found %q)", p.Found)
	}
	switch sentence := p.Found == "" && strings.HasSuffix(p.Message, "."); {
	case p.Hint == "":
	case sentence:
		b.WriteString(" " + p.Hint)
	default:
		b.WriteString("; " + p.Hint)
	}
	return b.String()
}

// Problems collects what was found; reading goes on.
type Problems []Problem

// Add appends a problem.
func (ps *Problems) Add(p Problem) { *ps = append(*ps, p) }

// Sorted returns the problems by place, then kind, then message, equal ones
// once.
func (ps Problems) Sorted() Problems {
	out := slices.Clone(ps)
	slices.SortStableFunc(out, func(a, b Problem) int {
		return cmp.Or(a.At.Compare(b.At), cmp.Compare(a.Kind, b.Kind), cmp.Compare(a.Message, b.Message))
	})
	return slices.CompactFunc(out, func(a, b Problem) bool {
		return a.At == b.At && a.Kind == b.Kind && a.Message == b.Message
	})
}

// Open returns the open questions in order, each once however often it is
// raised: the other places stand with the first. What is asked without a question
// of its own stands for itself.
func (ps Problems) Open() Problems {
	var out Problems
	first := make(map[string]int)
	for _, p := range ps.Sorted() {
		if p.Severity != Asked {
			continue
		}
		if p.Question == nil {
			out.Add(p)
			continue
		}
		i, seen := first[p.Question.Key]
		if !seen {
			first[p.Question.Key] = len(out)
			p.Also = slices.Clone(p.Also)
			out.Add(p)
			continue
		}
		for _, at := range append([]Ref{p.At}, p.Also...) {
			if at != out[i].At && !slices.Contains(out[i].Also, at) {
				out[i].Also = append(out[i].Also, at)
			}
		}
	}
	return out
}

// Worst returns the highest severity, Noted for none.
func (ps Problems) Worst() Severity {
	worst := Noted
	for _, p := range ps {
		worst = max(worst, p.Severity)
	}
	return worst
}
