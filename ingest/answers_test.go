package ingest_test

import (
	"bytes"
	"strings"
	"testing"
	"testing/fstest"
	"time"

	"github.com/xuri/excelize/v2"

	"flowshelf/analysis/answers"
	"flowshelf/ingest"
)

// questionsBook is a workbook with one sheet of rows, the first being titles.
// This test writes it apart from the writer, with the columns wherever it likes.
func questionsBook(t *testing.T, rows [][]any) []byte {
	t.Helper()
	f := excelize.NewFile()
	defer f.Close()
	for i, row := range rows {
		at, err := excelize.CoordinatesToCellName(2, i+3)
		if err != nil {
			t.Fatal(err)
		}
		if err := f.SetSheetRow("Sheet1", at, &row); err != nil {
			t.Fatal(err)
		}
	}
	buf, err := f.WriteToBuffer()
	if err != nil {
		t.Fatal(err)
	}
	return buf.Bytes()
}

var day = time.Date(2026, 3, 16, 0, 0, 0, 0, time.UTC)

func readAnswers(t *testing.T, files map[string][]byte) (ingest.Replies, error) {
	t.Helper()
	fsys := fstest.MapFS{}
	for name, content := range files {
		fsys[name] = &fstest.MapFile{Data: content}
	}
	return ingest.ReadAnswers(t.Context(), fsys, []string{"Questions.xlsx", "Questions (2).xlsx"}, ingest.DefaultOptions(), day)
}

// TestReadAnswers holds that a row is known by its key wherever it has been
// moved, that its columns are known by their titles, and that a cell a program
// has made a number or a date of says what a person sees.
func TestReadAnswers(t *testing.T) {
	april := time.Date(2026, 4, 1, 0, 0, 0, 0, time.UTC)
	content := questionsBook(t, [][]any{
		{answers.KeyTitle, "Own column", answers.AnswerTitle, answers.NameTitle, answers.FirstTitle, answers.FileTitle},
		{"second", "x", 143, "JT", "2026-03-02", "a.xlsx"},
		{"", "a row of a person's own", "yes"},
		{"first", "", " yes, use it "},
		{"date", "", april},
		{"open", "", "", "JT"},
	})
	got, err := readAnswers(t, map[string][]byte{"Ranked/Questions.xlsx": content})
	if err != nil {
		t.Fatal(err)
	}
	for key, want := range map[string]string{"second": "143", "first": "yes, use it", "date": "1 April 2026"} {
		if a, ok := got.Answers.To(key); !ok || a.Text != want {
			t.Errorf("%s: %q, %v; want %q", key, a.Text, ok, want)
		}
	}
	if got.Answers.Len() != 3 || got.New != 3 {
		t.Errorf("%d answers, %d new", got.Answers.Len(), got.New)
	}
	a, _ := got.Answers.To("second")
	if a.By != "JT" || a.About.File != "a.xlsx" || a.At.String() != `Ranked/Questions.xlsx, sheet "Sheet1", cell D4` {
		t.Errorf("%+v", a)
	}
	if len(got.Read) != 1 || got.First["second"].Format(time.DateOnly) != "2026-03-02" {
		t.Errorf("read %v, first asked %v", got.Read, got.First)
	}
}

// TestAnswersUnderANumberedName holds that answers typed into the copy that
// stood in for a held workbook count too.
func TestAnswersUnderANumberedName(t *testing.T) {
	titles := []any{answers.KeyTitle, answers.AnswerTitle}
	got, err := readAnswers(t, map[string][]byte{
		"Ranked/Questions.xlsx":     questionsBook(t, [][]any{titles, {"a", "yes"}}),
		"Ranked/Questions (2).xlsx": questionsBook(t, [][]any{titles, {"b", "no"}}),
		"Questions.xlsx":            questionsBook(t, [][]any{titles, {"c", "no"}}), // not in our folder
	})
	if err != nil || got.Answers.Len() != 2 || len(got.Read) != 2 {
		t.Errorf("%d answers from %d workbooks, %v", got.Answers.Len(), len(got.Read), err)
	}
}

// TestAnswersThatCannotBeRead holds that a damaged workbook is an error, never
// no answers, and that a stranger's is passed over.
func TestAnswersThatCannotBeRead(t *testing.T) {
	whole := questionsBook(t, [][]any{{answers.KeyTitle, answers.AnswerTitle}, {"a", "yes"}})
	if _, err := readAnswers(t, map[string][]byte{"Ranked/Questions.xlsx": whole[:len(whole)/2]}); err == nil || !strings.Contains(err.Error(), "Ranked/Questions.xlsx") {
		t.Errorf("half a workbook: %v", err)
	}
	stranger := questionsBook(t, [][]any{{"What shall we ask the supplier?"}, {"freight"}})
	if got, err := readAnswers(t, map[string][]byte{"Ranked/Questions.xlsx": stranger}); err != nil || len(got.Read) != 0 || got.Answers.Len() != 0 {
		t.Errorf("a stranger's workbook: %+v, %v", got, err)
	}
	if got, err := readAnswers(t, map[string][]byte{"Ranked/Questions.xlsx/other.txt": nil}); err != nil || len(got.Read) != 0 {
		t.Errorf("a folder of that name: %+v, %v", got, err)
	}
	if got, err := readAnswers(t, nil); err != nil || got.Answers.Len() != 0 {
		t.Errorf("none: %+v, %v", got, err)
	}
}

// FuzzReadAnswers holds that no content makes the reading of answers panic.
func FuzzReadAnswers(f *testing.F) {
	f.Add([]byte("PK"))
	f.Add(bytes.Repeat([]byte{0}, 100))
	f.Fuzz(func(t *testing.T, content []byte) {
		_, _ = readAnswers(t, map[string][]byte{"Ranked/Questions.xlsx": content})
	})
}
