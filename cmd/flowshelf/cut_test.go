package main

import (
	"io/fs"
	"os"
	"path/filepath"
	"slices"
	"strconv"
	"strings"
	"testing"

	"flowshelf/export/book/booktest"
)

// TestNothingIsCut holds that every text of every workbook of the demo shows
// whole.
func TestNothingIsCut(t *testing.T) {
	eachBook(t, func(name string, content []byte) {
		for _, c := range booktest.Cut(t, content) {
			t.Errorf("%s: %s", name, c)
		}
	})
}

// eachBook runs the demo and its review and hands over every workbook, but for
// the marked copies: those look as their owners made them.
func eachBook(t *testing.T, look func(name string, content []byte)) {
	t.Helper()
	folder := demoFolder(t)
	runOn(t, folder, demoDay)
	reviewOn(t, folder, demoDay)
	ranked := os.DirFS(filepath.Join(folder, "Ranked"))
	books := 0
	err := fs.WalkDir(ranked, ".", func(name string, d fs.DirEntry, err error) error {
		if err != nil || d.IsDir() || strings.HasPrefix(name, "Marked copies/") {
			return err
		}
		content, err := fs.ReadFile(ranked, name)
		if err != nil {
			return err
		}
		books++
		look(name, content)
		return nil
	})
	const least = 30 // three families, fourteen cards, five suppliers, four customers and what stands once
	if err != nil || books < least {
		t.Fatalf("%d workbooks, want at least %d: %v", books, least, err)
	}
}

// TestRepeatedTitlesAreTheTables holds that a sheet whose titles stand again on
// each page has no table below them with other titles.
func TestRepeatedTitlesAreTheTables(t *testing.T) {
	repeated := 0
	eachBook(t, func(name string, content []byte) {
		f := booktest.Open(t, content)
		for _, n := range f.GetDefinedName() {
			if n.Name != "_xlnm.Print_Titles" || !strings.Contains(n.RefersTo, "$") {
				continue
			}
			row, err := strconv.Atoi(n.RefersTo[strings.LastIndex(n.RefersTo, "$")+1:])
			if err != nil {
				continue // columns alone
			}
			repeated++
			rows, err := f.GetRows(n.Scope)
			if err != nil {
				t.Fatal(err)
			}
			for below := row + 1; below <= len(rows); below++ {
				if booktest.Titles(t, f, n.Scope, below) > 1 && !slices.Equal(rows[below-1], rows[row-1]) {
					t.Errorf("%s: %q repeats %q, and row %d is titled %q", name, n.Scope, rows[row-1], below, rows[below-1])
				}
			}
		}
	})
	const least = 30
	if repeated < least {
		t.Errorf("%d sheets repeat their titles, want at least %d", repeated, least)
	}
}
