package main

import (
	"os"
	"path/filepath"
	"regexp"
	"strings"
	"testing"
)

var (
	testNamed   = regexp.MustCompile(`\bTest[A-Z]\w+|\bFuzz[A-Z]\w+`)
	faultNamed  = regexp.MustCompile(`\bfaults? (\d+)(?: and (\d+))?`)
	scriptNamed = regexp.MustCompile("`(testdata/script/[\\w-]+\\.txtar)`")
)

// TestSecurityTableNamesTests holds that each attempt in the table for developers
// names what shows it failing, and that this exists.
func TestSecurityTableNamesTests(t *testing.T) {
	top := filepath.Join("..", "..")
	content, err := os.ReadFile(filepath.Join(top, "DEVELOPERS.md"))
	if err != nil {
		t.Fatal(err)
	}
	_, table, found := strings.Cut(string(content), "| attempt | what stands against it | test |\n| --- | --- | --- |\n")
	if !found {
		t.Fatal("DEVELOPERS.md has no table of attempts")
	}
	table, _, _ = strings.Cut(table, "\n\n")
	code := testCode(t, top)
	rows := 0
	for row := range strings.Lines(table) {
		rows++
		cells := strings.Split(strings.ReplaceAll(strings.Trim(row, "| \n"), `\|`, "/"), "|")
		if len(cells) != 3 {
			t.Errorf("%d cells in %q", len(cells), row)
			continue
		}
		named := 0
		check := func(what string, there bool) {
			if named++; !there {
				t.Errorf("%s: there is no %s", cells[0], what)
			}
		}
		for _, name := range testNamed.FindAllString(cells[2], -1) {
			check(name, strings.Contains(code, "\nfunc "+name+"("))
		}
		for _, m := range faultNamed.FindAllStringSubmatch(cells[2], -1) {
			for _, number := range m[1:] {
				if number != "" {
					check("fault "+number, strings.Contains(code, "\n\t\t{"+number+", \""))
				}
			}
		}
		for _, m := range scriptNamed.FindAllStringSubmatch(cells[2], -1) {
			_, err := os.Stat(filepath.Join(top, filepath.FromSlash(m[1])))
			check(m[1], err == nil)
		}
		if named == 0 {
			t.Errorf("%s: no test is named in %q", cells[0], cells[2])
		}
	}
	if rows < 10 {
		t.Errorf("the table has %d rows", rows)
	}
}

// testCode is the code of all tests.
func testCode(t *testing.T, top string) string {
	t.Helper()
	var all strings.Builder
	err := filepath.WalkDir(top, func(name string, _ os.DirEntry, err error) error {
		if err != nil || !strings.HasSuffix(name, "_test.go") {
			return err
		}
		content, err := os.ReadFile(name)
		all.Write(content)
		return err
	})
	if err != nil {
		t.Fatal(err)
	}
	return all.String()
}
