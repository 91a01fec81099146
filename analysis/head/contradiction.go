package head

import (
	"fmt"
	"time"

	"flowshelf/analysis/source"
)

// WhichStands asks which of two tests of one head, port and day stands, whose
// figures differ. Its choices are the first, the second, two runs, two samples;
// evidence says how far they differ and changes what the answer changes. A sheet
// is asked about once for both of its ports.
func WhichStands(name string, x, y *Test, evidence, changes string) source.Problem {
	when := "without a date"
	if x.Date.Known {
		when = "of " + x.Date.Value.Format(time.DateOnly)
	}
	sheet := func(t *Test) source.Ref { return source.Ref{File: t.At.File, Sheet: t.At.Sheet} }
	first, second := sheet(x).String(), sheet(y).String()
	if first == second {
		first, second = x.At.String(), y.At.String()
	}
	return source.Problem{
		At: sheet(y), Also: []source.Ref{sheet(x)}, Severity: source.Asked, Kind: "two-tests-differ", Head: name,
		Message: "this test and another of the same sample and day hold different numbers",
		Hint:    "say which stands, or mark them as samples or runs",
		Question: &source.Question{
			Key: fmt.Sprintf("two-tests-differ|%s|%s|%s", name, first, second), Text: fmt.Sprintf("%s: two tests %s differ. Which stands?", name, when),
			Choices:  []string{first, second, "both: two runs", "both: two samples"},
			Evidence: evidence, Changes: changes,
		},
	}
}
