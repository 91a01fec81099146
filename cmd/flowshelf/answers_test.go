package main

import (
	"math"
	"path/filepath"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"flowshelf/analysis/answers"
)

// allFour are answers to what the demo asks, as a person words them.
var allFour = map[string]string{
	"Which date is 4/1": "April 1", "reads 243": "143", "hidden column": "no", "VR-84 old.xls": "another casting",
}

// heldWorking is the working average of PW-46 with 143 for 243, worked out apart
// from this project with scipy's PchipInterpolator over the demo's readings.
const heldWorking = 271.17

// TestAnswersRoundTrip types answers in three programs and holds that each is
// applied, shown where it was used, and never asked again.
func TestAnswersRoundTrip(t *testing.T) {
	for name, write := range map[string]writer{"excelize": withExcelize, "LibreOffice": withLibreOffice, "openpyxl": withPython} {
		t.Run(name, func(t *testing.T) {
			folder := demoFolder(t)
			runOn(t, folder, demoDay)
			if n := len(asked(t, folder, answers.OpenSheet)); n != len(allFour) {
				t.Fatalf("%d questions are open, want %d", n, len(allFour))
			}
			write.answer(t, folder, allFour)
			write.sign(t, folder, map[string]string{"reads 243": "JT"})
			if out := runOn(t, folder, demoDay); !strings.Contains(out, "4 answers taken over, 4 of them new") || strings.Contains(out, "\nQuestions (") {
				t.Errorf("the second run says\n%s", out)
			}
			if open := asked(t, folder, answers.OpenSheet); len(open) != 0 {
				t.Errorf("still open: %v", open)
			}
			checkHeldHead(t, folder, "per JT "+demoDay)
			given := asked(t, folder, answers.GivenSheet)
			if len(given) != len(allFour) {
				t.Errorf("the record holds %v", given)
			}
			if name == "openpyxl" { // the workbook has lost its seal, so that what it was is kept once
				runOn(t, folder, demoDay)
			}
			second := contents(t, folder)
			out := runOn(t, folder, demoDay)
			if strings.Contains(out, "\nQuestions (") || !strings.Contains(out, "4 answers taken over\n") || strings.Contains(out, "  written ") {
				t.Errorf("the third run says\n%s", out)
			}
			if diff := cmp.Diff(second, contents(t, folder)); diff != "" {
				t.Errorf("the third run changed cells:\n%s", diff)
			}
		})
	}
}

// checkHeldHead holds that the head with the impossible reading is ranked, tied
// with the leader, and that Sources names who said so.
func checkHeldHead(t *testing.T, folder, per string) {
	t.Helper()
	f := openBook(t, filepath.Join(folder, "Ranked", "Heads ranked - Large Eight.xlsx"))
	ranking := rowsByHead(t, f, "Ranking", "Head")["PW-46"]
	if ranking == nil {
		t.Fatal("PW-46 is not ranked")
	}
	if got := ranking.number(t, "Working avg intake"); math.Abs(got-heldWorking) > tolAverage {
		t.Errorf("working average %.2f, want %.2f", got, heldWorking)
	}
	// 40 x 271.17 - 2,635 = 8,212 is within the noise of VR-49's 8,466, the first.
	if got := ranking.number(t, "Place"); got != 1 {
		t.Errorf("place %v, want a shared 1", got)
	}
	rows, err := f.GetRows("Sources")
	if err != nil {
		t.Fatal(err)
	}
	for _, r := range rows {
		if line := strings.Join(r, " | "); strings.Contains(line, "243 read as 143") {
			if !strings.Contains(line, per) {
				t.Errorf("Sources does not say who answered: %s", line)
			}
			return
		}
	}
	t.Error("Sources does not show the corrected reading")
}

// TestAnswersAreTakenBack holds that an answer can be changed, cleared and taken
// back, and that the question keeps the day on which it was first asked.
func TestAnswersAreTakenBack(t *testing.T) {
	folder := demoFolder(t)
	runOn(t, folder, demoDay)
	writer(withExcelize).answer(t, folder, map[string]string{"reads 243": "143", "hidden column": "yes"})
	runOn(t, folder, later)
	checkHeldHead(t, folder, "per answer of "+later)

	given := func(title string, said map[string]string) {
		withExcelize(t, questionsOf(folder), answers.GivenSheet, cellsFor(t, folder, answers.GivenSheet, title, said))
	}
	given(answers.TakeBackTitle, map[string]string{"reads 243": "perhaps"})
	if out := runOn(t, folder, later); !strings.Contains(out, "does not take the answer back") || !strings.Contains(out, "2 answers taken over") {
		t.Errorf("a mark that says nothing: %s", out)
	}
	given(answers.TakeBackTitle, map[string]string{"reads 243": "Take back"})
	given(answers.AnswerTitle, map[string]string{"hidden column": ""})
	if out := runOn(t, folder, later); !strings.Contains(out, "2 answers taken back") || !strings.Contains(out, "Questions (4)") {
		t.Errorf("after taking back: %s", out)
	}
	for _, q := range asked(t, folder, answers.OpenSheet) {
		if q[answers.FirstTitle] != demoDay {
			t.Errorf("%q was first asked on %s, want %s", q[answers.QuestionTitle], q[answers.FirstTitle], demoDay)
		}
	}
	f := openBook(t, filepath.Join(folder, "Ranked", "Heads ranked - Large Eight.xlsx"))
	if got := rowsByHead(t, f, "Ranking", "Head")["PW-46"].text("Place"); got != "" {
		t.Errorf("PW-46 still has place %s", got)
	}
}

// TestListDate holds that the day which is meant by 4/1 decides which list is in
// force on the day after the first of April: the list of 4 January came before
// the February list.
func TestListDate(t *testing.T) {
	const april, february, after = "Pellworth list 4-1.xlsx", "Pellworth list Feb.xlsx", "2026-04-02"
	for said, want := range map[string]string{"": february, "4 January": february, "April 1": april} {
		t.Run(said, func(t *testing.T) {
			folder := demoFolder(t)
			runOn(t, folder, demoDay)
			if said != "" {
				writer(withExcelize).answer(t, folder, map[string]string{"Which date is 4/1": said})
				runOn(t, folder, demoDay)
			}
			if got := listInForce(t, folder); got != february {
				t.Errorf("on %s the list in force is %q", demoDay, got)
			}
			runOn(t, folder, after)
			if got := listInForce(t, folder); got != want {
				t.Errorf("on %s the list in force is %q, want %q", after, got, want)
			}
		})
	}
}

func listInForce(t *testing.T, folder string) string {
	t.Helper()
	rows, err := openBook(t, filepath.Join(folder, "Ranked", "Heads ranked - Small Eight.xlsx")).GetRows("Sources")
	if err != nil {
		t.Fatal(err)
	}
	for _, r := range rows {
		line := strings.Join(r, " | ")
		if strings.HasPrefix(line, "PW-31") && strings.Contains(line, "heads, net") {
			for _, name := range []string{"Pellworth list 4-1.xlsx", "Pellworth list Feb.xlsx"} {
				if strings.Contains(line, name) {
					return name
				}
			}
		}
	}
	return ""
}

// TestWrongAnswersAreTold holds that what is no answer leaves its question open,
// is kept as typed, and is told with what can be answered.
func TestWrongAnswersAreTold(t *testing.T) {
	folder := demoFolder(t)
	runOn(t, folder, demoDay)
	// 600 is a number and still more than the valve can pass.
	writer(withExcelize).answer(t, folder, map[string]string{"reads 243": "600", "hidden column": "maybe", "Which date is 4/1": "1"})
	out := runOn(t, folder, demoDay)
	if !strings.Contains(out, "Questions (4)") || strings.Count(out, "this does not settle the question") != 3 ||
		!strings.Contains(out, "“yes, use them”") {
		t.Errorf("the wrong answers are not told:\n%s", out)
	}
	for _, q := range asked(t, folder, answers.OpenSheet) {
		if strings.Contains(q[answers.QuestionTitle], "hidden column") &&
			(q[answers.AnswerTitle] != "maybe" || !strings.Contains(q["Evidence"], "does not settle it")) {
			t.Errorf("kept as %q beside %q", q[answers.AnswerTitle], q["Evidence"])
		}
	}
}

// TestOtherEditsAreKeptAside holds that an edit of anything but a yellow cell
// changes nothing, and is not lost.
func TestOtherEditsAreKeptAside(t *testing.T) {
	folder := demoFolder(t)
	runOn(t, folder, demoDay)
	writer(withExcelize).answer(t, folder, map[string]string{"reads 243": "143"})
	withExcelize(t, questionsOf(folder), answers.OpenSheet, map[string]string{"C6": "scribbled", "M6": "1999-01-01"})
	runOn(t, folder, demoDay)
	checkHeldHead(t, folder, "per answer of "+demoDay)
	for _, q := range asked(t, folder, answers.OpenSheet) {
		if q[answers.QuestionTitle] == "scribbled" || q["First asked"] != "2026-03-16" {
			t.Errorf("an edit came through: %v", q)
		}
	}
	kept := openBook(t, filepath.Join(folder, "Ranked", "Questions (kept 2026-03-16).xlsx"))
	if got, err := kept.GetCellValue(answers.OpenSheet, "C6"); got != "scribbled" || err != nil {
		t.Errorf("kept %q, %v", got, err)
	}
}

// TestIgnoreThisFile holds the answer that every question takes.
func TestIgnoreThisFile(t *testing.T) {
	folder := demoFolder(t)
	runOn(t, folder, demoDay)
	writer(withExcelize).answer(t, folder, map[string]string{"VR-84 old.xls": "Ignore this file"})
	if out := runOn(t, folder, demoDay); !strings.Contains(out, "Questions (3)") || !strings.Contains(out, "VR-84 old.xls: ignored") {
		t.Errorf("not ignored:\n%s", out)
	}
	withExcelize(t, questionsOf(folder), answers.GivenSheet, cellsFor(t, folder, answers.GivenSheet, answers.TakeBackTitle,
		map[string]string{"Is this file to be read": answers.TakeBack}))
	if out := runOn(t, folder, demoDay); !strings.Contains(out, "Questions (4)") {
		t.Errorf("still ignored:\n%s", out)
	}
}
