package booktest

import (
	"encoding/json"
	"math"
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"strconv"
	"strings"
	"testing"

	"flowshelf/export/book"
)

// Need finds a program; without it the test is skipped by name, and fails where
// CI=true says that everything must be there.
func Need(t *testing.T, program, debianPackage string) string {
	t.Helper()
	path, err := exec.LookPath(program)
	switch {
	case err == nil:
		return path
	case os.Getenv("CI") == "true":
		t.Fatalf("%s is missing: install %s", program, debianPackage)
	}
	t.Skipf("%s is missing: install %s", program, debianPackage)
	return ""
}

// always makes LibreOffice recalculate every formula of a workbook it opens,
// where it would otherwise believe the stored results.
const always = `<?xml version="1.0" encoding="UTF-8"?>
<oor:items xmlns:oor="http://openoffice.org/2001/registry" xmlns:xs="http://www.w3.org/2001/XMLSchema" xmlns:xsi="http://www.w3.org/2001/XMLSchema-instance">
<item oor:path="/org.openoffice.Office.Calc/Formula/Load"><prop oor:name="OOXMLRecalcMode" oor:op="fuse"><value>0</value></prop></item>
</oor:items>`

// convert lets LibreOffice open a workbook, recalculate it and save it in
// another format. Its profile is the test's own: several may run at once.
func convert(t *testing.T, workbook []byte, format string) []byte {
	t.Helper()
	soffice := Need(t, "soffice", "libreoffice-calc")
	dir := t.TempDir()
	in, out := filepath.Join(dir, "book.xlsx"), filepath.Join(dir, "out")
	must(t, os.WriteFile(in, workbook, 0o644))
	must(t, os.MkdirAll(filepath.Join(dir, "profile", "user"), 0o755))
	must(t, os.WriteFile(filepath.Join(dir, "profile", "user", "registrymodifications.xcu"), []byte(always), 0o644))
	cmd := exec.Command(soffice, "-env:UserInstallation=file://"+filepath.Join(dir, "profile"),
		"--headless", "--convert-to", format, "--outdir", out, in)
	if said, err := cmd.CombinedOutput(); err != nil {
		t.Fatalf("LibreOffice: %v\n%s", err, said)
	}
	converted, err := os.ReadFile(filepath.Join(out, "book."+format))
	must(t, err)
	return converted
}

// Resave returns the workbook as LibreOffice saves it, recalculated.
func Resave(t *testing.T, workbook []byte) []byte {
	t.Helper()
	return convert(t, workbook, "xlsx")
}

// With returns the workbook with some cells set, by sheet and cell, and the old
// results still stored.
func With(t *testing.T, workbook []byte, sheet string, values map[string]string) []byte {
	t.Helper()
	f := Open(t, workbook)
	for cell, v := range values {
		must(t, f.SetCellStr(sheet, cell, v))
	}
	buf, err := f.WriteToBuffer()
	must(t, err)
	return buf.Bytes()
}

const typing = `
import json, sys, openpyxl
path, sheet, typed = sys.argv[1], sys.argv[2], json.loads(sys.argv[3])
wb = openpyxl.load_workbook(path)
for cell, value in typed.items():
    wb[sheet][cell] = value
wb.save(path)
`

// TypedByOpenPyXL returns the workbook with some cells of a sheet typed over and
// saved by openpyxl, which keeps no result of any formula and no seal.
func TypedByOpenPyXL(t *testing.T, workbook []byte, sheet string, values map[string]any) []byte {
	t.Helper()
	typed, err := json.Marshal(values)
	must(t, err)
	path := filepath.Join(t.TempDir(), "book.xlsx")
	must(t, os.WriteFile(path, workbook, 0o644))
	python(t, typing, path, sheet, string(typed))
	saved, err := os.ReadFile(path)
	must(t, err)
	return saved
}

// Typed returns the workbook with some cells of a sheet typed over, the old
// results of its formulas still stored.
func Typed(t *testing.T, workbook []byte, sheet string, values map[string]any) []byte {
	t.Helper()
	f := Open(t, workbook)
	for cell, v := range values {
		must(t, f.SetCellValue(sheet, cell, v))
	}
	buf, err := f.WriteToBuffer()
	must(t, err)
	return buf.Bytes()
}

// SameResults fails where a formula's stored result in one workbook is not what
// stands there in another, and returns how many formulas it compared.
func SameResults(t *testing.T, stored, recalculated []byte) int {
	t.Helper()
	want := map[[2]string]string{}
	for _, c := range contents(t, recalculated) {
		want[[2]string{c.Sheet, c.Cell}] = c.Value
	}
	n := 0
	for _, c := range contents(t, stored) {
		if c.Formula == "" {
			continue
		}
		n++
		if got := want[[2]string{c.Sheet, c.Cell}]; !sameValue(c.Value, got) {
			t.Errorf("%s!%s: stored %q, recalculated %q, by =%s", c.Sheet, c.Cell, c.Value, got, c.Formula)
		}
	}
	return n
}

func contents(t *testing.T, workbook []byte) []book.Content {
	t.Helper()
	cells, err := book.Cells(workbook)
	must(t, err)
	return cells
}

// recalculation is how far two programs' binary arithmetic may drift apart.
const recalculation = 1e-9

func sameValue(a, b string) bool {
	x, errA := strconv.ParseFloat(a, 64)
	y, errB := strconv.ParseFloat(b, 64)
	if errA != nil || errB != nil {
		return a == b
	}
	return math.Abs(x-y) <= recalculation*math.Max(1, math.Abs(y))
}

// Paper is a workbook as LibreOffice prints it.
type Paper struct {
	Pages map[string]int // by sheet
	Text  string
}

// Print prints a workbook. Every page of ours names its sheet in its footer.
func Print(t *testing.T, workbook []byte) Paper {
	t.Helper()
	pdftotext := Need(t, "pdftotext", "poppler-utils")
	path := filepath.Join(t.TempDir(), "book.pdf")
	must(t, os.WriteFile(path, convert(t, workbook, "pdf"), 0o644))
	text, err := exec.Command(pdftotext, "-layout", path, "-").Output()
	must(t, err)
	paper := Paper{Pages: map[string]int{}, Text: string(text)}
	for _, m := range regexp.MustCompile(`(?m) {2,}(\S[^\n]*?), page \d+ of \d+ *$`).FindAllStringSubmatch(paper.Text, -1) {
		words := regexp.MustCompile(` {2,}`).Split(m[1], -1)
		paper.Pages[words[len(words)-1]]++
	}
	return paper
}

// Sheet is what openpyxl sees of a sheet.
type Sheet struct {
	Name      string
	Rows      int
	Columns   int
	Filled    int // cells with a value
	Formulas  int
	Empty     []string // formulas whose stored result it finds empty
	Streaming int      // cells with a value seen by its streaming reader
	Charts    int
}

const reading = `
import json, sys, openpyxl
path = sys.argv[1]
formulas = openpyxl.load_workbook(path)
values = openpyxl.load_workbook(path, data_only=True)
stream = openpyxl.load_workbook(path, data_only=True, read_only=True)
out = []
for ws in formulas:
    vs = values[ws.title]
    s = dict(Name=ws.title, Rows=ws.max_row, Columns=ws.max_column, Filled=0, Formulas=0, Empty=[], Streaming=0, Charts=len(ws._charts))
    for row in ws.iter_rows():
        for c in row:
            if c.value is None: continue
            s["Filled"] += 1
            if c.data_type == "f":
                s["Formulas"] += 1
                if vs[c.coordinate].value is None: s["Empty"].append(c.coordinate)
    for row in stream[ws.title].iter_rows():
        s["Streaming"] += sum(1 for c in row if c.value is not None)
    out.append(s)
json.dump(out, sys.stdout)
`

// OpenPyXL reads a workbook with openpyxl.
func OpenPyXL(t *testing.T, workbook []byte) []Sheet {
	t.Helper()
	path := filepath.Join(t.TempDir(), "book.xlsx")
	must(t, os.WriteFile(path, workbook, 0o644))
	var out []Sheet
	must(t, json.Unmarshal(python(t, reading, path), &out))
	return out
}

// python runs a script that needs openpyxl and returns what it prints.
func python(t *testing.T, script string, args ...string) []byte {
	t.Helper()
	program := Need(t, "/usr/bin/python3", "python3")
	if err := exec.Command(program, "-c", "import openpyxl").Run(); err != nil {
		Need(t, "openpyxl for "+program, "python3-openpyxl")
	}
	cmd := exec.Command(program, append([]string{"-W", "ignore", "-c", script}, args...)...)
	var complaint strings.Builder
	cmd.Stderr = &complaint
	raw, err := cmd.Output()
	if err != nil {
		t.Fatalf("openpyxl: %v\n%s", err, complaint.String())
	}
	return raw
}
