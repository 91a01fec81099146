package source_test

import (
	"testing"

	"flowshelf/analysis/source"
)

func TestProblemInWords(t *testing.T) {
	at := source.At("list.xlsx", "List", 3, 2)
	for _, c := range []struct {
		problem source.Problem
		want    string
	}{
		{source.Problem{At: at, Message: "no price"}, `list.xlsx, sheet "List", cell B3: no price`},
		{source.Problem{At: at, Message: "no price", Hint: "type one"}, `list.xlsx, sheet "List", cell B3: no price; type one`},
		{source.Problem{At: at, Message: "no price", Found: "call", Hint: "type one"}, `list.xlsx, sheet "List", cell B3: no price (found "call"); type one`},
		{source.Problem{At: source.Ref{File: "list.xlsx"}, Message: "Its end is missing.", Hint: "Copy it again."}, `list.xlsx: Its end is missing. Copy it again.`},
	} {
		if got := c.problem.String(); got != c.want {
			t.Errorf("got  %s\nwant %s", got, c.want)
		}
	}
}

// TestOpenQuestions holds that a question is open once however often it is raised,
// with every place, and that what is noted or refused is none.
func TestOpenQuestions(t *testing.T) {
	a, b, c := source.At("a.xlsx", "S", 1, 1), source.At("b.xlsx", "S", 1, 1), source.At("c.xlsx", "S", 1, 1)
	q := &source.Question{Key: "unit|bench"}
	ps := source.Problems{
		{At: b, Also: []source.Ref{c}, Severity: source.Asked, Question: q, Head: "B"}, {At: a, Severity: source.Asked, Question: q, Head: "A"},
		{At: c, Severity: source.Asked, Message: "settled elsewhere"}, {At: a, Severity: source.Noted, Question: &source.Question{Key: "answered"}},
		{At: a, Severity: source.Refused},
	}
	open := ps.Open()
	if len(open) != 2 || open[0].At != a || len(open[0].Also) != 2 || open[0].Also[0] != b || open[0].Also[1] != c || open[1].Message != "settled elsewhere" {
		t.Errorf("%+v", open)
	}
	if len(ps[0].Also) != 1 || len(ps[1].Also) != 0 {
		t.Errorf("the problems themselves changed: %+v", ps)
	}
}
