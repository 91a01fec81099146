package flowsheet_test

import (
	"strings"
	"testing"

	"github.com/rogpeppe/go-internal/txtar"

	"flowshelf/analysis/head"
	"flowshelf/analysis/source"
)

// TestHiddenAndOld holds that readings which stand in a hidden column and are
// called old besides are asked about once, and that the answer decides.
func TestHiddenAndOld(t *testing.T) {
	archive, err := txtar.ParseFile("testdata/shapes/F41-hidden-old.txt")
	if err != nil {
		t.Fatal(err)
	}
	path, shop, book := fixture(t, archive)
	before := readAnswered(path, book, shop, nil)
	q := hiddenQuestion(before)
	if q == nil {
		t.Fatal("nothing is asked")
	}
	for _, words := range []string{"OB-4 old test", "Int", "138 at lift .200", "246 at lift .400"} {
		if !strings.Contains(q.Evidence, words) {
			t.Errorf("the evidence %q lacks %q", q.Evidence, words)
		}
	}
	for said, want := range map[string]head.Status{"": head.Asked, "yes": head.Used, "no": head.SetAside} {
		answers := map[string]string{}
		if said != "" {
			answers[q.Key] = said
		}
		got := readAnswered(path, book, shop, answers)
		if old := got.Tests[len(got.Tests)-1]; old.Status != want {
			t.Errorf("answered %q it is %s (%s), want %s", said, old.Status, old.Why, want)
		}
		about := 0
		for _, p := range got.Problems {
			if p.At.Cell == "D3" {
				about++
			}
		}
		if about != 1 {
			t.Errorf("answered %q, %d things are said of the column, want one: %v", said, about, got.Problems)
		}
	}
}

// TestHiddenRowOfOldTest holds that readings which are out anyway are not asked
// about.
func TestHiddenRowOfOldTest(t *testing.T) {
	path, shop, book := fixture(t, txtar.Parse([]byte(`path: bench/hidden row.xlsx
-- tab old --
%hide-row 5
4.030 bore, 28 inH2O, cfm
OB-4
Lift | Int
.200 | 141
.300 | 203
.400 | 250
`)))
	got := readAnswered(path, book, shop, nil)
	if len(got.Tests) != 1 || got.Tests[0].Status != head.SetAside {
		t.Fatalf("read as %v", got.Tests)
	}
	if hiddenQuestion(got) != nil {
		t.Error("a row of a test that is out is asked about")
	}
}

func hiddenQuestion(r head.Records) *source.Question {
	for _, p := range r.Problems {
		if p.Kind == "hidden-cells" && p.Severity == source.Asked {
			return p.Question
		}
	}
	return nil
}
