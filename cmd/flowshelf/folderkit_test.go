package main

import (
	"bytes"
	"encoding/json"
	"fmt"
	"path/filepath"
	"testing"

	"github.com/xuri/excelize/v2"
)

// cells are values of a sheet by the name of the cell.
type cells map[string]any

// change lets a person change cells of a sheet of one of the folder's books. A
// nil clears the cell.
func change(t *testing.T, folder, file, sheet string, to cells) {
	t.Helper()
	path := filepath.Join(folder, filepath.FromSlash(file))
	f, err := excelize.OpenFile(path)
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	put(t, f, sheet, to)
	if err := f.Save(); err != nil {
		t.Fatal(err)
	}
}

// newBook drops a book of one sheet into the folder: one row a line of cells.
func newBook(t *testing.T, folder, file string, rows ...[]any) {
	t.Helper()
	f := excelize.NewFile()
	defer f.Close()
	for i := range rows {
		if err := f.SetSheetRow("Sheet1", fmt.Sprintf("A%d", i+1), &rows[i]); err != nil {
			t.Fatal(err)
		}
	}
	if err := f.SaveAs(filepath.Join(folder, filepath.FromSlash(file))); err != nil {
		t.Fatal(err)
	}
}

func put(t *testing.T, f *excelize.File, sheet string, to cells) {
	t.Helper()
	if i, err := f.GetSheetIndex(sheet); i < 0 || err != nil {
		t.Fatalf("no sheet %q: %v", sheet, err)
	}
	for cell, value := range to {
		if err := f.SetCellValue(sheet, cell, value); err != nil {
			t.Fatal(err)
		}
	}
}

// ran runs the folder and returns what `run --output json` prints.
func ran(t *testing.T, folder, date string) resultJSON {
	t.Helper()
	var stdout, stderr bytes.Buffer
	if code := execute([]string{"run", folder, "--date", date, "--output", "json"}, &stdout, &stderr); code != exitQuestions && code != 0 {
		t.Fatalf("run ended with %d\n%s%s", code, stdout.String(), stderr.String())
	}
	var out resultJSON
	if err := json.Unmarshal(stdout.Bytes(), &out); err != nil {
		t.Fatal(err)
	}
	return out
}

// places are the places of all rankings by label, as the sheets spell them.
func (r resultJSON) places() map[string]string {
	out := make(map[string]string)
	for _, f := range r.Families {
		for _, row := range f.Rows {
			if row.Place == nil {
				continue
			}
			out[row.Label] = fmt.Sprint(*row.Place)
			if row.Shared {
				out[row.Label] += "="
			}
		}
	}
	return out
}
