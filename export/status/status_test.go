package status_test

import (
	"os"
	"strings"
	"testing"
	"time"

	"flowshelf/analysis/source"
	"flowshelf/export/book"
	"flowshelf/export/book/booktest"
	"flowshelf/export/status"
)

var now = time.Date(2026, 3, 16, 7, 30, 0, 0, time.UTC)

func sample() status.Folder {
	return status.Folder{
		Shop: "Saltmarsh Head & Machine", Path: "//server/heads", Dated: now, Reachable: true, Up: "../",
		Files: []status.File{
			{Path: "stock 2026-02-28.xlsx", State: status.Read, Why: "stock of 14 heads", Changed: now, Read: now, Tables: 1},
			{Path: "bench/PW-46.xlsx", State: status.Partly, Why: "one reading refused, one remark noted", Changed: now, Read: now, Tables: 1,
				Readings: status.Readings{Used: 15, Refused: 1}},
			{Path: "bench/Copy of PW-31 adv v tested.xlsx", State: status.Skipped, Why: "the same content as PW-31 adv v tested.xlsx"},
			{Path: "bench/half.xlsx", State: status.Waiting, Why: "still being copied", Note: "next try in 30 s", Changed: now},
			{Path: "=HYPERLINK(1).csv", State: status.Refused, Why: "larger than 64 MB", Readings: status.Readings{SetAside: 2, Asked: 1}},
		},
		Problems: source.Problems{
			{At: source.Ref{File: "bench/PW-46.xlsx", Sheet: "Sheet1", Cell: "B5"}, Severity: source.Refused, Kind: "impossible-reading", Head: "PW-46", Found: "243",
				Message: "no valve of this size passes 243 cfm at .200", Hint: "look at the bench sheet: 143?"},
			{At: source.Ref{File: "Pellworth list 4-1.xlsx", Sheet: "Prices", Cell: "A1"}, Severity: source.Asked, Kind: "date-order", Message: "the list's date can be read two ways"},
		},
	}
}

func written(t *testing.T, f status.Folder) []byte {
	t.Helper()
	out, err := status.Write(f)
	if err != nil {
		t.Fatal(err)
	}
	if path := os.Getenv("SCRATCH_STATUS"); path != "" {
		if err := os.WriteFile(path, out, 0o644); err != nil {
			t.Fatal(err)
		}
	}
	return out
}

func TestSheetsAsKept(t *testing.T) {
	booktest.Golden(t, "testdata/golden", booktest.Dump(t, written(t, sample())))
}

func TestSumsAreRecalculated(t *testing.T) {
	out := written(t, sample())
	if n := booktest.SameResults(t, out, booktest.Resave(t, out)); n != 6 {
		t.Errorf("%d sums, want 6", n)
	}
}

func TestFolderOutOfReach(t *testing.T) {
	f := sample()
	f.Reachable, f.Message = false, "The share does not answer."
	words, err := booktest.Open(t, written(t, f)).GetCellValue("Files", "A3")
	if err != nil || !strings.Contains(words, "cannot be reached") || !strings.Contains(words, "does not answer") {
		t.Errorf("got %q, %v", words, err)
	}
}

func TestEmptyFolder(t *testing.T) {
	out := written(t, status.Folder{Shop: "S", Dated: now, Reachable: true})
	if _, ok, edited, err := book.Identity(out); !ok || edited || err != nil {
		t.Errorf("ok %v, edited %v, %v", ok, edited, err)
	}
}

func TestOnPaper(t *testing.T) {
	paper := booktest.Print(t, written(t, sample()))
	if strings.Contains(paper.Text, "###") || paper.Pages["Files"] != 1 || paper.Pages["Problems"] != 1 {
		t.Errorf("on paper: %v", paper.Pages)
	}
}

// TestOpenQuestionsAreCountedOnce raises one question on two sheets.
func TestOpenQuestionsAreCountedOnce(t *testing.T) {
	f := sample()
	q := &source.Question{Key: "flow unit|bench"}
	for _, file := range []string{"a.xlsx", "b.xlsx"} {
		f.Problems.Add(source.Problem{At: source.Ref{File: file}, Severity: source.Asked, Question: q})
	}
	cells, err := book.Cells(written(t, f))
	if err != nil {
		t.Fatal(err)
	}
	for _, c := range cells {
		if strings.Contains(c.Value, "Open questions: 2.") {
			return
		}
	}
	t.Error("the two open questions are not counted as two")
}
