package decode_test

import (
	"bytes"
	"encoding/json"
	"fmt"
	"io/fs"
	"math"
	"os"
	"os/exec"
	"path/filepath"
	"slices"
	"sort"
	"strconv"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
	"github.com/xuri/excelize/v2"

	"flowshelf/analysis/source"
	"flowshelf/ingest/decode"
)

// The books in testdata were written by openpyxl, xlsxwriter and LibreOffice
// (testdata/decode-src/books.py). Two readers that share no code with this
// package, excelize and openpyxl, judge what is read from them.

const debianPython = "/usr/bin/python3"

// secondOf is the tolerance of a serial day: openpyxl rounds to microseconds.
const secondOf = 1.0 / 86400 / 1000

type seenCell struct {
	Row, Col     int
	Kind         string
	Value        any
	Formula      bool
	Format, Note string
	Struck, Bold bool
}

type seenSheet struct {
	Name                   string
	Hidden                 bool
	Cells                  []seenCell
	Merges                 []string
	HiddenRows, HiddenCols []int
}

func TestAgreesWithOpenpyxl(t *testing.T) {
	needProgram(t, debianPython)
	names := []string{"openpyxl.xlsx", "isodates-1904.xlsx", "numbers-1904.xlsx", "xlsxwriter.xlsx",
		"inline.xlsx", "formulas.xlsx", "macros.xlsm", "utf16.xlsx"}
	args := []string{filepath.Join("..", "..", "testdata", "decode-src", "dump.py")}
	for _, name := range names {
		args = append(args, filepath.Join("testdata", name))
	}
	out, err := exec.Command(debianPython, args...).Output()
	if err != nil {
		t.Fatal(err)
	}
	var seen map[string][]seenSheet
	if err := json.Unmarshal(out, &seen); err != nil {
		t.Fatal(err)
	}
	for _, name := range names {
		t.Run(name, func(t *testing.T) {
			theirs := seen[filepath.Join("testdata", name)]
			var ours []decode.Sheet
			for _, sheet := range open(t, name).Sheets {
				listed := slices.ContainsFunc(theirs, func(s seenSheet) bool { return s.Name == sheet.Name })
				if listed || len(sheet.Cells) > 0 || sheet.Charts == 0 { // openpyxl lists chart sheets elsewhere
					ours = append(ours, sheet)
				}
			}
			if len(ours) != len(theirs) {
				t.Fatalf("%d sheets, openpyxl sees %d", len(ours), len(theirs))
			}
			for i := range ours {
				compareWithOpenpyxl(t, &ours[i], theirs[i])
			}
		})
	}
}

func compareWithOpenpyxl(t *testing.T, ours *decode.Sheet, theirs seenSheet) {
	t.Helper()
	if ours.Name != theirs.Name || ours.Hidden != theirs.Hidden {
		t.Errorf("sheet %q hidden %v, openpyxl sees %q hidden %v", ours.Name, ours.Hidden, theirs.Name, theirs.Hidden)
	}
	merges := []string{}
	for _, m := range ours.Merges {
		merges = append(merges, source.CellName(m.Top, m.Left)+":"+source.CellName(m.Bottom, m.Right))
	}
	sort.Strings(merges)
	if diff := cmp.Diff(theirs.Merges, merges); diff != "" {
		t.Errorf("merges (-openpyxl +ours):\n%s", diff)
	}
	if diff := cmp.Diff(theirs.HiddenRows, sorted(ours.HiddenRows)); diff != "" {
		t.Errorf("hidden rows (-openpyxl +ours):\n%s", diff)
	}
	if diff := cmp.Diff(theirs.HiddenCols, sorted(ours.HiddenCols)); diff != "" {
		t.Errorf("hidden columns (-openpyxl +ours):\n%s", diff)
	}
	if len(ours.Cells) != len(theirs.Cells) {
		t.Fatalf("%d cells, openpyxl sees %d", len(ours.Cells), len(theirs.Cells))
	}
	for i, c := range ours.Cells {
		compareCell(t, c, theirs.Cells[i])
	}
}

func compareCell(t *testing.T, ours decode.Cell, theirs seenCell) {
	t.Helper()
	at := source.CellName(ours.Row, ours.Col)
	if ours.Row != theirs.Row || ours.Col != theirs.Col {
		t.Fatalf("cell %s, openpyxl sees %s", at, source.CellName(theirs.Row, theirs.Col))
	}
	kinds := map[decode.Kind]string{decode.Empty: "empty", decode.Number: "number", decode.Text: "text",
		decode.Bool: "bool", decode.Date: "date", decode.Failed: "error"}
	if kinds[ours.Kind] != theirs.Kind {
		t.Errorf("%s is %s, openpyxl sees %s (%v)", at, kinds[ours.Kind], theirs.Kind, theirs.Value)
		return
	}
	same := false
	switch value := theirs.Value.(type) {
	case nil:
		same = true
	case bool:
		same = value == (ours.Num == 1)
	case float64:
		same = value == ours.Num || ours.Kind == decode.Date && math.Abs(value-ours.Num) < secondOf
	case string:
		// openpyxl leaves the escapes of ST_Xstring as they are.
		same = strings.ReplaceAll(value, "_x005F_", "_") == ours.Text
	}
	if !same {
		t.Errorf("%s holds %v %q, openpyxl sees %v", at, ours.Num, ours.Text, theirs.Value)
	}
	format := theirs.Format
	if format == "General" {
		format = ""
	}
	if ours.Blank() && ours.Formula == "" {
		format = "" // a cell that is there for its note only
	}
	if format != ours.Format && ours.Kind != decode.Empty {
		t.Errorf("%s has format %q, openpyxl sees %q", at, ours.Format, format)
	}
	if theirs.Formula != (ours.Formula != "") {
		t.Errorf("%s has formula %q, openpyxl sees %v", at, ours.Formula, theirs.Formula)
	}
	if theirs.Note != ours.Note {
		t.Errorf("%s has note %q, openpyxl sees %q", at, ours.Note, theirs.Note)
	}
	// Marks on runs inside of a text are ours only.
	if theirs.Bold && !ours.Bold || theirs.Struck && !ours.Struck {
		t.Errorf("%s bold %v struck %v, openpyxl sees %v %v", at, ours.Bold, ours.Struck, theirs.Bold, theirs.Struck)
	}
}

func sorted(set map[int]bool) []int {
	numbers := []int{}
	for n := range set {
		numbers = append(numbers, n)
	}
	sort.Ints(numbers)
	return numbers
}

func TestAgreesWithExcelize(t *testing.T) {
	for _, path := range workbooks(t) {
		t.Run(path, func(t *testing.T) {
			content, err := os.ReadFile(path)
			if err != nil {
				t.Fatal(err)
			}
			compareWithExcelize(t, content)
		})
	}
	t.Run("its own", func(t *testing.T) { compareWithExcelize(t, largeBook(t, 200)) })
}

// workbooks are all those in this project that excelize can read: those of
// openpyxl, xlsxwriter, LibreOffice and of no program at all beside this file, and
// the demo's.
func workbooks(t *testing.T) []string {
	t.Helper()
	var paths []string
	for _, root := range []string{"testdata", filepath.Join("..", "..", "testdata", "demo")} {
		err := filepath.WalkDir(root, func(path string, d fs.DirEntry, err error) error {
			ext := filepath.Ext(path)
			unread := d.Name() == "utf16.xlsx" || strings.HasPrefix(d.Name(), "~$") // a part in UTF-16, which excelize does not read; no workbook
			if err == nil && !d.IsDir() && (ext == ".xlsx" || ext == ".xlsm") && !unread {
				paths = append(paths, path)
			}
			return err
		})
		if err != nil {
			t.Fatal(err)
		}
	}
	if len(paths) < 40 {
		t.Fatalf("%d workbooks: they are not where they were", len(paths))
	}
	return paths
}

// compareWithExcelize compares values, formulas, merges, visibility and notes.
func compareWithExcelize(t *testing.T, content []byte) {
	t.Helper()
	judge, err := excelize.OpenReader(bytes.NewReader(content), excelize.Options{RawCellValue: true})
	if err != nil {
		t.Fatal(err)
	}
	defer func() { _ = judge.Close() }()
	book := mustDecode(t, content)
	var names []string
	for i := range book.Sheets {
		sheet := &book.Sheets[i]
		names = append(names, sheet.Name)
		if visible, err := judge.GetSheetVisible(sheet.Name); err != nil || visible == sheet.Hidden {
			t.Errorf("sheet %q hidden %v, excelize sees visible %v (%v)", sheet.Name, sheet.Hidden, visible, err)
		}
		rows, err := judge.GetRows(sheet.Name)
		if err != nil {
			t.Error(err)
		}
		if merges, err := judge.GetMergeCells(sheet.Name); err != nil {
			if len(sheet.Cells) > 0 || sheet.Charts != 1 {
				t.Errorf("%s is not a chart sheet: %v", sheet.Name, err)
			}
			continue
		} else if len(merges) != len(sheet.Merges) {
			t.Errorf("%s has %d merges, excelize sees %d", sheet.Name, len(sheet.Merges), len(merges))
		}
		compareRows(t, judge, sheet, rows)
	}
	if diff := cmp.Diff(judge.GetSheetList(), names); diff != "" {
		t.Errorf("sheets (-excelize +ours):\n%s", diff)
	}
}

func compareRows(t *testing.T, judge *excelize.File, sheet *decode.Sheet, rows [][]string) {
	t.Helper()
	last := 0
	for _, c := range sheet.Cells {
		if !c.Blank() || c.Formula != "" {
			last = c.Row
		}
	}
	for row := 1; row <= max(len(rows), sheet.Rows()); row++ {
		for col := 1; col <= sheet.Cols()+1; col++ {
			want := ""
			if row <= len(rows) && col <= len(rows[row-1]) {
				want = rows[row-1][col-1]
			}
			at := source.CellName(row, col)
			cell := sheet.At(row, col)
			if got := rawText(cell); got != want && !sameNumber(got, want) {
				t.Errorf("%s!%s holds %q, excelize sees %q", sheet.Name, at, got, want)
			}
			formula, err := judge.GetCellFormula(sheet.Name, at)
			if err != nil || formula != cell.Formula {
				t.Errorf("%s!%s has formula %q, excelize sees %q (%v)", sheet.Name, at, cell.Formula, formula, err)
			}
		}
		// Below the last row that is written, where a note may hang, excelize takes all for hidden.
		if visible, err := judge.GetRowVisible(sheet.Name, row); err != nil || row <= last && visible == sheet.HiddenRows[row] {
			t.Errorf("%s row %d hidden %v, excelize sees visible %v (%v)", sheet.Name, row, sheet.HiddenRows[row], visible, err)
		}
	}
}

// rawText is a cell the way excelize returns raw values.
func rawText(c decode.Cell) string {
	if c.Kind == decode.Bool {
		return fmt.Sprint(c.Num)
	}
	return c.Text
}

func sameNumber(a, b string) bool {
	x, errX := strconv.ParseFloat(a, 64)
	y, errY := strconv.ParseFloat(b, 64)
	return errX == nil && errY == nil && x == y
}
