package comparison_test

import (
	"os"
	"path/filepath"
	"strings"
	"testing"

	"flowshelf/analysis/compare"
	"flowshelf/analysis/compare/comparetest"
	"flowshelf/export/book"
	"flowshelf/export/book/booktest"
	"flowshelf/export/comparison"
)

// TestDemoFamilies writes the families of the demonstration as the calculation
// gives them and lets LibreOffice work them out and print them.
func TestDemoFamilies(t *testing.T) {
	all := compare.All(comparetest.Shelf())
	if len(all) != 3 {
		t.Fatalf("%d families, want 3", len(all))
	}
	for _, c := range all {
		t.Run(c.Family.Name, func(t *testing.T) {
			out := written(t, c, up)
			if dir := os.Getenv("SCRATCH_DEMO"); dir != "" {
				if err := os.WriteFile(filepath.Join(dir, comparison.FileName(c.Family.Name)), out, 0o644); err != nil {
					t.Fatal(err)
				}
			}
			if _, ok, edited, err := book.Identity(out); !ok || edited || err != nil {
				t.Errorf("ok %v, edited %v, %v", ok, edited, err)
			}
			booktest.SameResults(t, out, booktest.Resave(t, out))
			paper := booktest.Print(t, out)
			if strings.Contains(paper.Text, "###") {
				t.Error("a figure does not fit its column and prints as ###")
			}
			for _, sheet := range []string{"Summary", "Side by side"} {
				if paper.Pages[sheet] != 1 {
					t.Errorf("%s prints on %d pages, want 1", sheet, paper.Pages[sheet])
				}
			}
		})
	}
}

// TestNoReadingIsLost counts, on the demonstration, the readings of the tests
// behind each curve against the rows of Sources: each stands there, used or not
// used with its reason.
func TestNoReadingIsLost(t *testing.T) {
	for _, c := range compare.All(comparetest.Shelf()) {
		listed := map[string]string{}
		f := booktest.Open(t, written(t, c, up))
		rows, err := f.GetRows("Sources")
		if err != nil {
			t.Fatal(err)
		}
		for _, r := range rows {
			if len(r) > 12 && strings.HasPrefix(r[3], "flow") {
				listed[r[10]+r[11]+r[12]] = r[3]
				if r[3] == "flow, not used" && (len(r) < 16 || r[15] == "") {
					t.Errorf("%s: left out without a reason: %q", c.Family.Name, r)
				}
			}
		}
		n := 0
		for _, e := range c.Ranked {
			for _, p := range []*compare.PortResult{e.Intake, e.Exhaust} {
				if p == nil {
					continue
				}
				for _, test := range p.Tests {
					for i := range test.Readings {
						at := test.Readings[i].Flow.Trace.At
						n++
						if listed[at.File+at.Sheet+at.Cell] == "" {
							t.Errorf("%s: the reading at %v is not in Sources", c.Family.Name, at)
						}
					}
				}
			}
		}
		if n == 0 {
			t.Errorf("%s: no readings at all", c.Family.Name)
		}
	}
}
