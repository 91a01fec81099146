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
