package questions_test

import (
	"fmt"
	"os"
	"strings"
	"testing"
	"time"

	"flowshelf/analysis/source"
	"flowshelf/export/book"
	"flowshelf/export/book/booktest"
	"flowshelf/export/questions"
)

var day = time.Date(2026, 3, 16, 0, 0, 0, 0, time.UTC)

func asked(key string, weight float64, answer string) questions.Item {
	return questions.Item{
		First: day, Weight: weight, Answer: answer,
		Problem: source.Problem{
			At: source.Ref{File: "Pellworth list 4-1.xlsx", Sheet: "Prices", Cell: "A1"}, Severity: source.Asked, Kind: "date-order", Head: "PW-31",
			Found: "Eff. 4/1", Message: "the list's date can be read two ways",
			Question: &source.Question{Key: key, Text: "Is " + key + " the first of April or the fourth of January?", Choices: []string{"1 April", "4 January", "=1+1, or so"},
				Evidence: "the February list of the same sender is dated 2/1", Changes: "which price list is in force for PW-31 and PW-33"},
		},
	}
}

func written(t *testing.T, l questions.List) []byte {
	t.Helper()
	out, err := questions.Write(l)
	if err != nil {
		t.Fatal(err)
	}
	if path := os.Getenv("SCRATCH_QUESTIONS"); path != "" {
		if err := os.WriteFile(path, out, 0o644); err != nil {
			t.Fatal(err)
		}
	}
	return out
}

func sample() questions.List {
	return questions.List{Shop: "Saltmarsh Head & Machine", Dated: day, Most: 2, Up: "../", Items: []questions.Item{
		asked("answered", 9, "1 April"), asked("light", 1, ""), asked("heavy", 5, ""), asked("middle", 3, ""),
	}}
}

func TestSheetAsKept(t *testing.T) {
	booktest.Golden(t, "testdata/golden", booktest.Dump(t, written(t, sample())))
}

// TestMostImportantFirst holds the order and the limit, and that an answer once
// given stays to be changed.
func TestMostImportantFirst(t *testing.T) {
	f := booktest.Open(t, written(t, sample()))
	for i, want := range []string{"heavy", "middle", "answered"} {
		got, err := f.GetCellValue(questions.SheetName, book.CellName(questions.FirstRow+i, questions.KeyColumn))
		if err != nil || got != want {
			t.Errorf("row %d is %q, %v; want %q", i+1, got, err, want)
		}
	}
	if got, _ := f.GetCellValue(questions.SheetName, book.CellName(questions.FirstRow+2, questions.AnswerColumn)); got != "1 April" {
		t.Errorf("the answer became %q", got)
	}
	if got, _ := f.GetCellValue(questions.SheetName, "A3"); !strings.Contains(got, "1 more") {
		t.Errorf("the rest is not counted: %q", got)
	}
}

func TestNothingToAsk(t *testing.T) {
	f := booktest.Open(t, written(t, questions.List{Shop: "S", Dated: day}))
	if got, _ := f.GetCellValue(questions.SheetName, "A3"); got != "Nothing is open." {
		t.Errorf("got %q", got)
	}
}

func TestReadByOthers(t *testing.T) {
	l := sample()
	for i := range 12 {
		l.Items = append(l.Items, asked(fmt.Sprint("more ", i), 2, ""))
	}
	l.Most = 10
	out := written(t, l)
	if sheets := booktest.OpenPyXL(t, out); len(sheets) != 1 || sheets[0].Filled != sheets[0].Streaming {
		t.Errorf("openpyxl sees %+v", sheets)
	}
	paper := booktest.Print(t, out)
	if strings.Contains(paper.Text, "###") || paper.Pages[questions.SheetName] == 0 {
		t.Errorf("on paper: %v", paper.Pages)
	}
	if _, ok, edited, err := book.Identity(booktest.Resave(t, out)); !ok || edited || err != nil {
		t.Errorf("saved again unchanged: ok %v, edited %v, %v", ok, edited, err)
	}
}
