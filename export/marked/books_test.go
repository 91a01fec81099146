package marked_test

import (
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"flowshelf/analysis/source"
	"flowshelf/export/book"
	"flowshelf/export/marked"
)

// keptCells fails where a cell of the copy differs from the original's.
func keptCells(t *testing.T, path string, was, is []byte) {
	t.Helper()
	before, err := book.Cells(was)
	must(t, err)
	after, err := book.Cells(is)
	must(t, err)
	cells := func(all []book.Content) map[string]string {
		out := make(map[string]string)
		for _, c := range all {
			if c.On == "" && !strings.HasPrefix(c.Sheet, "Findings") {
				out[c.Sheet+"!"+c.Cell] = c.Formula + "|" + c.Value
			}
		}
		return out
	}
	if diff := cmp.Diff(cells(before), cells(after)); diff != "" {
		t.Errorf("%s (-want +got):\n%s", path, diff)
	}
}

// Books of many programs, in both dialects, with conversations and with parts
// in another encoding: a copy, or a reason why there is none.
func TestManyBooks(t *testing.T) {
	refused := map[string]string{"utf16.xlsx": "invalid UTF-8"}
	paths, err := filepath.Glob("../../ingest/decode/testdata/*.xls[xm]")
	must(t, err)
	if len(paths) == 0 {
		t.Fatal("the books are not where they were")
	}
	copies := make(map[string][]byte)
	for _, path := range paths {
		name := filepath.Base(path)
		t.Run(name, func(t *testing.T) {
			content, err := os.ReadFile(path)
			must(t, err)
			cells, err := book.Cells(content)
			if err != nil {
				t.Logf("cells: %v", err)
			}
			sheets := map[string]bool{}
			var found []marked.Finding
			for _, c := range cells {
				if c.Cell != "" && !sheets[c.Sheet] {
					sheets[c.Sheet] = true
					for _, cell := range []string{c.Cell, "ZZ999"} {
						found = append(found, marked.Finding{Sheet: c.Sheet, Cell: cell, Severity: source.Asked, Message: "is this a lift"})
					}
				}
			}
			out, err := marked.Make(marked.Original{Path: name, Content: content}, found, limits)
			if why := refused[name]; why != "" {
				if err == nil || !strings.Contains(err.Error(), why) {
					t.Errorf("refused with %v, want a word about %s", err, why)
				}
				return
			}
			if err != nil {
				t.Fatal(err)
			}
			notes := 0
			for at, text := range sheetNotes(t, out) {
				// excelize shows the notes of some other sheet for one that is a chart
				if sheet, _, _ := strings.Cut(at, "!"); sheets[sheet] && strings.Contains(text, "is this a lift") {
					notes++
				}
			}
			if notes != len(found) {
				t.Errorf("%d notes for %d findings: %v", notes, len(found), sheetNotes(t, out))
			}
			keptCells(t, name, content, out)
			copies[name] = out
		})
	}
	for name, saved := range office(t, copies) {
		if cells, err := book.Cells(saved); err != nil || len(cells) == 0 {
			t.Errorf("%s after LibreOffice: %d cells, %v", name, len(cells), err)
		}
	}
}
