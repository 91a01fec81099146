// Package booktest holds what the tests of every workbook share: dumps of cells,
// formulas and styles to compare with kept ones, and independent programs that
// open, recalculate and print a workbook.
package booktest

import (
	"bytes"
	"flag"
	"fmt"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
	"github.com/xuri/excelize/v2"
)

var update = flag.Bool("update", false, "rewrite the kept dumps")

// Open opens a workbook for reading.
func Open(t *testing.T, workbook []byte) *excelize.File {
	t.Helper()
	f, err := excelize.OpenReader(bytes.NewReader(workbook), excelize.Options{RawCellValue: true})
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() {
		if err := f.Close(); err != nil {
			t.Error(err)
		}
	})
	return f
}

// Golden compares dumps with those kept in a folder, by name. A kept dump that
// nothing makes any more fails too.
func Golden(t *testing.T, dir string, dumps map[string]string) {
	t.Helper()
	if *update {
		rewrite(t, dir, dumps)
	}
	kept, err := filepath.Glob(filepath.Join(dir, "*.txt"))
	if err != nil {
		t.Fatal(err)
	}
	for _, path := range kept {
		if _, made := dumps[strings.TrimSuffix(filepath.Base(path), ".txt")]; !made {
			t.Errorf("%s is an orphan: nothing makes it any more", path)
		}
	}
	for name, got := range dumps {
		want, err := os.ReadFile(filepath.Join(dir, name+".txt"))
		if err != nil {
			t.Errorf("%v (run with -update to keep it)", err)
			continue
		}
		if diff := cmp.Diff(strings.Split(string(want), "\n"), strings.Split(got, "\n")); diff != "" {
			t.Errorf("%s differs from the kept dump (-want +got; -update after looking):\n%s", name, diff)
		}
	}
}

func rewrite(t *testing.T, dir string, dumps map[string]string) {
	t.Helper()
	if err := os.RemoveAll(dir); err != nil {
		t.Fatal(err)
	}
	if err := os.MkdirAll(dir, 0o755); err != nil {
		t.Fatal(err)
	}
	for name, text := range dumps {
		if err := os.WriteFile(filepath.Join(dir, name+".txt"), []byte(text), 0o644); err != nil {
			t.Fatal(err)
		}
	}
}

// Dump spells each sheet of a workbook: page set-up, panes, tables, drop-downs,
// then each cell with its value, formula, link and style.
func Dump(t *testing.T, workbook []byte) map[string]string {
	t.Helper()
	f := Open(t, workbook)
	out := map[string]string{}
	for i, sheet := range f.GetSheetList() {
		var b strings.Builder
		about(t, f, sheet, &b)
		cells(t, f, sheet, &b)
		out[fmt.Sprintf("%02d %s", i+1, sheet)] = b.String()
	}
	return out
}

func about(t *testing.T, f *excelize.File, sheet string, b *strings.Builder) {
	t.Helper()
	dimension, err := f.GetSheetDimension(sheet)
	must(t, err)
	layout, err := f.GetPageLayout(sheet)
	must(t, err)
	foot, err := f.GetHeaderFooter(sheet)
	must(t, err)
	panes, err := f.GetPanes(sheet)
	must(t, err)
	fmt.Fprintf(b, "dimension %s\npage %s, %d wide, %d high, footer %s\nfrozen %d rows, %d columns\n",
		dimension, *layout.Orientation, *layout.FitToWidth, *layout.FitToHeight, foot.OddFooter, panes.YSplit, panes.XSplit)
	for _, n := range f.GetDefinedName() {
		if n.Scope == sheet {
			fmt.Fprintf(b, "name %s = %s\n", n.Name, n.RefersTo)
		}
	}
	tables, err := f.GetTables(sheet)
	must(t, err)
	for _, table := range tables {
		fmt.Fprintf(b, "table %s %s\n", table.Name, table.Range)
	}
	lists, err := f.GetDataValidations(sheet)
	must(t, err)
	for _, l := range lists {
		fmt.Fprintf(b, "list %s from %s\n", l.Sqref, l.Formula1)
	}
	widths(t, f, sheet, dimension, b)
}

func widths(t *testing.T, f *excelize.File, sheet, dimension string, b *strings.Builder) {
	t.Helper()
	_, last, _ := strings.Cut(dimension, ":")
	col, _, err := excelize.CellNameToCoordinates(last)
	if last == "" {
		return
	}
	must(t, err)
	b.WriteString("widths")
	for c := 1; c <= col; c++ {
		name, err := excelize.ColumnNumberToName(c)
		must(t, err)
		w, err := f.GetColWidth(sheet, name)
		must(t, err)
		fmt.Fprintf(b, " %g", w)
	}
	b.WriteString("\n")
}

func cells(t *testing.T, f *excelize.File, sheet string, b *strings.Builder) {
	t.Helper()
	rows, err := f.GetRows(sheet)
	must(t, err)
	for r, row := range rows {
		for c := range row {
			name, err := excelize.CoordinatesToCellName(c+1, r+1)
			must(t, err)
			formula, err := f.GetCellFormula(sheet, name)
			must(t, err)
			if row[c] == "" && formula == "" {
				continue
			}
			fmt.Fprintf(b, "%s\t%q", name, row[c])
			if formula != "" {
				fmt.Fprintf(b, "\t=%s", formula)
			}
			if linked, target, err := f.GetCellHyperLink(sheet, name); err == nil && linked {
				fmt.Fprintf(b, "\t-> %s", target)
			}
			fmt.Fprintf(b, "\t%s\n", look(t, f, sheet, name))
		}
	}
}

func look(t *testing.T, f *excelize.File, sheet, cell string) string {
	t.Helper()
	id, err := f.GetCellStyle(sheet, cell)
	must(t, err)
	st, err := f.GetStyle(id)
	must(t, err)
	var out []string
	if st.CustomNumFmt != nil {
		out = append(out, *st.CustomNumFmt)
	} else if st.NumFmt != 0 {
		out = append(out, fmt.Sprintf("format %d", st.NumFmt))
	}
	if st.Font != nil {
		for _, on := range []struct {
			set  bool
			word string
		}{{st.Font.Bold, "bold"}, {st.Font.Italic, "italic"}, {st.Font.Strike, "strike"}} {
			if on.set {
				out = append(out, on.word)
			}
		}
		out = append(out, fmt.Sprintf("%g", st.Font.Size))
	}
	if len(st.Fill.Color) > 0 {
		out = append(out, "on "+strings.Join(st.Fill.Color, ","))
	}
	if st.Alignment != nil && st.Alignment.Horizontal != "" {
		out = append(out, st.Alignment.Horizontal)
	}
	slices.Sort(out)
	return strings.Join(out, " ")
}

func must(t *testing.T, err error) {
	t.Helper()
	if err != nil {
		t.Fatal(err)
	}
}
