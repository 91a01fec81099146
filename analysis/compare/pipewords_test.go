package compare_test

import (
	"strings"
	"testing"

	"flowshelf/analysis/compare"
	"flowshelf/analysis/compare/comparetest"
	"flowshelf/analysis/head"
)

// TestReasonsInWords holds how a ratio reads whose exhaust was flowed nobody says
// how, and that what beats a head is not called as dear as it.
func TestReasonsInWords(t *testing.T) {
	records, shop, date := comparetest.SmallEight()
	for i := range records.Tests {
		if x := &records.Tests[i]; x.Head == "VR-81" {
			x.Pipe = head.PipeNotStated
		}
	}
	count := map[string]int{}
	for _, e := range compare.All(records, shop, date)[0].Ranked {
		reasons := strings.Join(e.Reasons, "; ")
		for _, words := range []string{"of intake, pipe not stated", "of intake, not stated", "of intake, with pipe", "at least as much flow for no more money"} {
			count[words] += strings.Count(reasons, words)
		}
		if beaten := len(e.BeatenBy) > 0; strings.Contains(reasons, "for no more money") != beaten {
			t.Errorf("%s, beaten %v: %s", e.Label, beaten, reasons)
		}
	}
	if count["of intake, pipe not stated"] != 1 || count["of intake, not stated"] != 0 || count["of intake, with pipe"] == 0 || count["at least as much flow for no more money"] == 0 {
		t.Errorf("the reasons say %v", count)
	}
}
