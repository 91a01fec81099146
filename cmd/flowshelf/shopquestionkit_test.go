package main

import (
	"bytes"
	"fmt"
	"math"
	"os"
	"path/filepath"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"testing"

	"github.com/xuri/excelize/v2"
)

// TestShopQuestions looks every answer up in the workbooks of February and March
// as a reader would.
func TestShopQuestions(t *testing.T) {
	folder := twoMonths(t)
	typeWhatIf(t, folder)
	runOn(t, folder, demoDay)
	books := make(map[string]*excelize.File)
	for _, q := range shopQuestions() {
		t.Run(q.asked, func(t *testing.T) {
			for _, a := range q.answers {
				if books[a.book] == nil {
					f, err := excelize.OpenFile(filepath.Join(folder, "Ranked", a.book))
					if err != nil {
						t.Fatal(err)
					}
					books[a.book] = f
				}
				a.check(t, books[a.book])
			}
		})
	}
	for _, f := range books {
		if err := f.Close(); err != nil {
			t.Error(err)
		}
	}
}

func (a answerCell) check(t *testing.T, f *excelize.File) {
	t.Helper()
	got, ok := a.find(t, f)
	at := fmt.Sprintf("%s, sheet %q, %q %q", a.book, a.sheet, a.row, a.column)
	switch x, err := strconv.ParseFloat(got, 64); {
	case !ok:
		t.Errorf("%s is not there", at)
	case a.says != "" && !strings.Contains(got, a.says):
		t.Errorf("%s says %q, want %q", at, got, a.says)
	case a.says == "" && (err != nil || math.Abs(x-a.is) > a.within+1e-9):
		t.Errorf("%s is %s, want %v within %v", at, got, a.is, a.within)
	}
}

// find reads the sheet from its top, as a person does: to the section, to the
// titles, to the row.
func (a answerCell) find(t *testing.T, f *excelize.File) (string, bool) {
	t.Helper()
	lines, err := f.GetRows(a.sheet, excelize.Options{RawCellValue: true})
	if err != nil {
		t.Fatal(err)
	}
	column, inSection := -1, a.section == ""
	begins := func(words string) func(string) bool {
		return func(cell string) bool { return strings.HasPrefix(cell, words) }
	}
	for _, line := range lines {
		switch {
		case !inSection:
			inSection = slices.ContainsFunc(line, begins(a.section))
		case a.column != "" && slices.ContainsFunc(line, begins(a.column)) && !a.inRow(line):
			column = slices.IndexFunc(line, begins(a.column))
			if exact := slices.Index(line, a.column); exact >= 0 {
				column = exact
			}
		case !a.inRow(line):
		case a.column == "":
			return strings.Join(line, "\n"), true
		case column >= 0 && column < len(line):
			return line[column], true
		}
	}
	return "", false
}

// inRow reports whether a line is that of the wanted row: one of its first cells
// is the head's, or the whole of it begins with the words.
func (a answerCell) inRow(line []string) bool {
	const leading = 2
	named := slices.Contains(line[:min(leading, len(line))], a.row) ||
		a.column == "" && len(line) > 0 && strings.HasPrefix(line[0], a.row)
	return named && (a.with == "" || slices.Contains(line, a.with))
}

// twoMonths runs February and then March on the demo, and reviews March.
func twoMonths(t *testing.T) string {
	t.Helper()
	folder := demoFolder(t)
	for _, later := range []string{"bench/LKC-12 cyl 1 and 3.xlsx", "bench/PW-46.xlsx", "Pellworth list 4-1.xlsx", "Oastbridge net.xlsx", "stock 2026-02-28.xlsx"} {
		if err := os.Remove(filepath.Join(folder, later)); err != nil {
			t.Fatal(err)
		}
	}
	runOn(t, folder, "2026-02-16")
	demo := filepath.Join("..", "..", "testdata", "demo")
	for _, later := range []string{"bench/LKC-12 cyl 1 and 3.xlsx", "bench/PW-46.xlsx", "Pellworth list 4-1.xlsx", "Oastbridge net.xlsx", "stock 2026-02-28.xlsx"} {
		content, err := os.ReadFile(filepath.Join(demo, later))
		if err != nil {
			t.Fatal(err)
		}
		if err := os.WriteFile(filepath.Join(folder, later), content, 0o600); err != nil {
			t.Fatal(err)
		}
	}
	runOn(t, folder, demoDay)
	reviewOn(t, folder, demoDay)
	return folder
}

func reviewOn(t *testing.T, folder, date string) {
	t.Helper()
	var stdout, stderr bytes.Buffer
	if code := execute([]string{"review", folder, "--date", date}, &stdout, &stderr); code != 0 {
		t.Fatalf("review ended with %d\n%s%s", code, stdout.String(), stderr.String())
	}
}

// typeWhatIf types into the yellow cells of a what-if: the euro, a freight, a
// cost.
func typeWhatIf(t *testing.T, folder string) {
	t.Helper()
	f, err := excelize.OpenFile(filepath.Join(folder, "Ranked", whatIf))
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	lines, err := f.GetRows("Pricing", excelize.Options{RawCellValue: true})
	if err != nil {
		t.Fatal(err)
	}
	put := func(row, column string, x float64) {
		at := -1
		for i, line := range lines {
			if column != "" && slices.Contains(line, column) {
				at = slices.Index(line, column)
			}
			if len(line) > 0 && line[0] == row {
				if column == "" {
					at = 1
				}
				cell, err := excelize.CoordinatesToCellName(at+1, i+1)
				if err != nil {
					t.Fatal(err)
				}
				if err := f.SetCellFloat("Pricing", cell, x, -1, 64); err != nil {
					t.Fatal(err)
				}
				return
			}
		}
		t.Fatalf("no %q, %q to type into", row, column)
	}
	put("EUR in USD", "", 1.15)
	put("TD-26", "Freight each", 2*19)
	put("LKC-90", "Cost each, net", 178*1.06)
	if err := f.Save(); err != nil {
		t.Fatal(err)
	}
}

// readmeRow is a question's line in README.md: the places of its answers, each
// sheet, section and column once.
func (q shopQuestion) readmeRow() string {
	var places []string
	named := make(map[string][]string)
	for _, a := range q.answers {
		place := fmt.Sprintf("%s, %s", familyName.ReplaceAllString(strings.TrimSuffix(a.book, ".xlsx"), ""), a.sheet)
		if a.sheet == first {
			place = "Enquiries answered, his sheet"
		}
		if !slices.Contains(places, place) {
			places = append(places, place)
		}
		column := a.column
		if strings.HasPrefix(column, "0.") {
			column = "by lift"
		}
		for _, words := range []string{strings.TrimSuffix(a.section, "?"), column} {
			if words != "" && !slices.Contains(named[place], words) {
				named[place] = append(named[place], words)
			}
		}
	}
	for i, place := range places {
		if len(named[place]) > 0 {
			places[i] += ": " + strings.Join(named[place], "; ")
		}
	}
	return fmt.Sprintf("| %s | %s |", q.asked, strings.Join(places, ". "))
}

var familyName = regexp.MustCompile(` - (Small Eight|Large Eight|Opposed Four)$| 2026-03$`)

// TestShopQuestionsAreInTheReadme holds the table of README.md to the questions
// above: the same number, the same words, the same places.
func TestShopQuestionsAreInTheReadme(t *testing.T) {
	readme, err := os.ReadFile(filepath.Join("..", "..", "README.md"))
	if err != nil {
		t.Fatal(err)
	}
	_, after, found := strings.Cut(string(readme), "<!-- questions -->\n")
	table, _, ended := strings.Cut(after, "<!-- end of questions -->")
	if !found || !ended {
		t.Fatal("README.md has no table of questions")
	}
	want := []string{"| a shop asks | the answer stands in |", "| --- | --- |"}
	for _, q := range shopQuestions() {
		want = append(want, q.readmeRow())
	}
	if got := strings.Split(strings.TrimSpace(table), "\n"); !slices.Equal(got, want) {
		t.Errorf("README.md says\n%s\n\nwant\n%s", strings.Join(got, "\n"), strings.Join(want, "\n"))
	}
}
