package main

import (
	"bytes"
	"encoding/json"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"

	"github.com/xuri/excelize/v2"

	"flowshelf/analysis/answers"
	"flowshelf/export/book"
	"flowshelf/export/book/booktest"
)

// The day of the demo, and one a week later.
const (
	demoDay = "2026-03-16"
	later   = "2026-03-23"
)

// runOn runs the folder and returns what was printed.
func runOn(t *testing.T, folder, date string) string {
	t.Helper()
	var stdout, stderr bytes.Buffer
	if code := execute([]string{"run", folder, "--date", date}, &stdout, &stderr); code != exitQuestions {
		t.Fatalf("run ended with %d\n%s%s", code, stdout.String(), stderr.String())
	}
	return stdout.String()
}

// asked returns the open questions of the folder: the row each stands in and
// its cells by title.
func asked(t *testing.T, folder, sheet string) map[int]map[string]string {
	t.Helper()
	f := openBook(t, questionsOf(folder))
	rows, err := f.GetRows(sheet)
	if err != nil {
		t.Fatal(err)
	}
	var titles []string
	out := make(map[int]map[string]string)
	for i, cells := range rows {
		if len(cells) > 0 && cells[0] == "No." {
			titles = cells
			continue
		}
		if titles == nil || len(cells) < len(titles)-1 {
			continue
		}
		out[i+1] = make(map[string]string)
		for j, text := range cells {
			if j < len(titles) {
				out[i+1][titles[j]] = text
			}
		}
	}
	return out
}

func questionsOf(folder string) string { return filepath.Join(folder, "Ranked", answers.FileName) }

// cellsFor turns answers, by words of their questions, into cells of a sheet. A
// word beginning with the title of another yellow column is for that one.
func cellsFor(t *testing.T, folder, sheet, title string, said map[string]string) map[string]string {
	t.Helper()
	f := openBook(t, questionsOf(folder))
	titles, err := f.GetRows(sheet)
	if err != nil {
		t.Fatal(err)
	}
	column := 0
	for _, row := range titles {
		for j, text := range row {
			if text == title {
				column = j + 1
			}
		}
	}
	out := make(map[string]string)
	for words, text := range said {
		for row, cells := range asked(t, folder, sheet) {
			if strings.Contains(cells[answers.QuestionTitle], words) {
				out[book.CellName(row, column)] = text
			}
		}
	}
	if len(out) != len(said) {
		t.Fatalf("found %v for %v", out, said)
	}
	return out
}

// writer types texts into cells of the questions workbook.
type writer func(t *testing.T, path, sheet string, cells map[string]string)

func withExcelize(t *testing.T, path, sheet string, cells map[string]string) {
	t.Helper()
	f, err := excelize.OpenFile(path)
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	for cell, text := range cells {
		if err := f.SetCellValue(sheet, cell, text); err != nil {
			t.Fatal(err)
		}
	}
	if err := f.Save(); err != nil {
		t.Fatal(err)
	}
}

// withLibreOffice saves the typed workbook as LibreOffice does: every part and
// property is written anew.
func withLibreOffice(t *testing.T, path, sheet string, cells map[string]string) {
	t.Helper()
	withExcelize(t, path, sheet, cells)
	content, err := os.ReadFile(path)
	if err != nil {
		t.Fatal(err)
	}
	if err := os.WriteFile(path, booktest.Resave(t, content), 0o644); err != nil {
		t.Fatal(err)
	}
}

const typeWithPython = `
import json, sys, openpyxl
path, sheet, cells = sys.argv[1], sys.argv[2], json.loads(sys.argv[3])
book = openpyxl.load_workbook(path)
for cell, text in cells.items():
    book[sheet][cell] = int(text) if text.isdigit() else text
book.save(path)
`

// withPython types with Debian's python3-openpyxl, which drops the properties by
// which a workbook of ours is known.
func withPython(t *testing.T, path, sheet string, cells map[string]string) {
	t.Helper()
	const python = "/usr/bin/python3"
	if err := exec.Command(python, "-c", "import openpyxl").Run(); err != nil {
		if os.Getenv("CI") == "true" {
			t.Fatal("python3-openpyxl is missing")
		}
		t.Skip("python3-openpyxl is missing")
	}
	said, err := json.Marshal(cells)
	if err != nil {
		t.Fatal(err)
	}
	if out, err := exec.Command(python, "-c", typeWithPython, path, sheet, string(said)).CombinedOutput(); err != nil {
		t.Fatalf("%v\n%s", err, out)
	}
}

func (w writer) answer(t *testing.T, folder string, said map[string]string) {
	t.Helper()
	w(t, questionsOf(folder), answers.OpenSheet, cellsFor(t, folder, answers.OpenSheet, answers.AnswerTitle, said))
}

func (w writer) sign(t *testing.T, folder string, names map[string]string) {
	t.Helper()
	w(t, questionsOf(folder), answers.OpenSheet, cellsFor(t, folder, answers.OpenSheet, answers.NameTitle, names))
}

// contents returns the cells of every workbook of the folder.
func contents(t *testing.T, folder string) map[string][]book.Content {
	t.Helper()
	out := make(map[string][]book.Content)
	paths, err := filepath.Glob(filepath.Join(folder, "Ranked", "*.xlsx"))
	if err != nil || len(paths) == 0 {
		t.Fatal(paths, err)
	}
	for _, path := range paths {
		content, err := os.ReadFile(path)
		if err != nil {
			t.Fatal(err)
		}
		if out[filepath.Base(path)], err = book.Cells(content); err != nil {
			t.Fatal(err)
		}
	}
	return out
}
