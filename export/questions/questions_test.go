package questions_test

import (
	"fmt"
	"os"
	"strings"
	"testing"
	"time"

	"flowshelf/analysis/answers"
	"flowshelf/analysis/head"
	"flowshelf/analysis/source"
	"flowshelf/export/book"
	"flowshelf/export/book/booktest"
	"flowshelf/export/questions"
)

var day = time.Date(2026, 3, 16, 0, 0, 0, 0, time.UTC)

func asked(key string, weight int) questions.Item {
	return questions.Item{
		First: day, Weight: weight, Stake: "hangs on it: the place of a ranked head",
		Problem: source.Problem{
			At: source.Ref{File: "Pellworth list 4-1.xlsx", Sheet: "Prices", Cell: "A1"}, Severity: source.Asked, Kind: "date-order", Head: "PW-31",
			Found: "Eff. 4/1", Message: "the list's date can be read two ways",
			Question: &source.Question{Key: key, Text: "Is " + key + " the first of April or the fourth of January?", Choices: []string{"month first: 1 April", "=1+1, or so"},
				Wants: source.ADay, Evidence: "the February list of the same sender is dated 2/1", Changes: "which price list is in force for PW-31 and PW-33"},
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
	unsettled := asked("unsettled", 2)
	unsettled.Answer, unsettled.Name = "perhaps", "JT"
	return questions.List{
		Shop: "Saltmarsh Head & Machine", Dated: day, Most: 2, Up: "../",
		Open: []questions.Item{asked("light", 1), asked("heavy", 3), unsettled},
		Given: []questions.Given{{InUse: true, First: day, Answer: head.Answer{Key: "answered", Text: "month first: 1 April", By: "JT", On: day,
			Question: "Which date is 4/1?", Head: "", About: source.Ref{File: "Pellworth list 4-1.xlsx", Sheet: "Prices", Cell: "A1"}}}},
	}
}

func TestSheetsAsKept(t *testing.T) {
	booktest.Golden(t, "testdata/golden", booktest.Dump(t, written(t, sample())))
}

// TestMostImportantFirst holds the order and the limit: the rest is counted and
// listed below.
func TestMostImportantFirst(t *testing.T) {
	f := booktest.Open(t, written(t, sample()))
	rows, err := f.GetRows(answers.OpenSheet)
	if err != nil {
		t.Fatal(err)
	}
	var keys []string
	key := -1
	for i, row := range rows {
		for j, cell := range row {
			switch {
			case cell == answers.KeyTitle:
				key = j
			case key == j && i > questions.HeaderRow-1 && cell != "":
				keys = append(keys, cell)
			}
		}
	}
	if got := strings.Join(keys, " "); got != "heavy unsettled light" {
		t.Errorf("the order is %q", got)
	}
	if got, _ := f.GetCellValue(answers.OpenSheet, "A3"); !strings.Contains(got, "1 more") {
		t.Errorf("the rest is not counted: %q", got)
	}
	if got, _ := f.GetCellValue(answers.OpenSheet, "A9"); got != "1 more when these are answered" {
		t.Errorf("the rest is not listed: %q", got)
	}
}

func TestNothingToAsk(t *testing.T) {
	f := booktest.Open(t, written(t, questions.List{Shop: "S", Dated: day}))
	if got, _ := f.GetCellValue(answers.OpenSheet, "A3"); got != "Nothing is open." {
		t.Errorf("got %q", got)
	}
}

// TestTypingIsNoEdit holds that what is typed into yellow cells leaves the
// workbook as we wrote it, and anything else does not.
func TestTypingIsNoEdit(t *testing.T) {
	out := written(t, sample())
	for _, c := range []struct {
		sheet, cell string
		edited      bool
	}{{answers.OpenSheet, "J6", false}, {answers.OpenSheet, "K6", false}, {answers.GivenSheet, "D6", false}, {answers.GivenSheet, "G6", false},
		{answers.OpenSheet, "C6", true}, {answers.OpenSheet, "N6", true}, {answers.GivenSheet, "C6", true}} {
		changed := booktest.With(t, out, c.sheet, map[string]string{c.cell: "typed"})
		if _, ok, edited, err := book.Identity(changed); !ok || err != nil || edited != c.edited {
			t.Errorf("%s %s: ours %v, edited %v (want %v), %v", c.sheet, c.cell, ok, edited, c.edited, err)
		}
	}
}

func TestReadByOthers(t *testing.T) {
	l := sample()
	for i := range 12 {
		l.Open = append(l.Open, asked(fmt.Sprint("more ", i), 2))
	}
	l.Most = 10
	out := written(t, l)
	sheets := booktest.OpenPyXL(t, out)
	if len(sheets) != 2 {
		t.Fatalf("openpyxl sees %+v", sheets)
	}
	for _, s := range sheets {
		if s.Filled != s.Streaming {
			t.Errorf("openpyxl sees %+v", s)
		}
	}
	paper := booktest.Print(t, out)
	if strings.Contains(paper.Text, "###") || paper.Pages[answers.OpenSheet] == 0 {
		t.Errorf("on paper: %v", paper.Pages)
	}
	if _, ok, edited, err := book.Identity(booktest.Resave(t, out)); !ok || edited || err != nil {
		t.Errorf("saved again unchanged: ok %v, edited %v, %v", ok, edited, err)
	}
}
