package marked_test

import (
	"archive/zip"
	"bytes"
	"cmp"
	"context"
	"encoding/json"
	"fmt"
	"io"
	"maps"
	"os"
	"os/exec"
	"path/filepath"
	"slices"
	"strings"
	"testing"
	"time"

	"github.com/xuri/excelize/v2"

	"flowshelf/analysis/source"
	"flowshelf/export/book/booktest"
	"flowshelf/export/marked"
)

var limits = marked.Limits{UnzippedBytes: 64 << 20, Tags: 4_000_000, Findings: 500}

// findings are about places that every writer's workbook has; books.py says
// which.
func findings() []marked.Finding {
	return []marked.Finding{
		{Sheet: "Intake", Cell: "B7", Severity: source.Refused, Head: "PW-46", Found: "300", Message: "the flow is more than the valve can pass", Hint: "correct the reading"},
		{Sheet: "Intake", Cell: "B7", Severity: source.Noted, Message: "read as cfm"},
		{Sheet: "Intake", Cell: "B3", Severity: source.Asked, Found: `=HYPERLINK("http://a")`, Message: "=1+1 is not a lift", Hint: "type the lift <in> inches & mm"},
		{Sheet: "Intake", Cell: "D40", Severity: source.Noted, Message: "a lift is missing _x0041_ here"},
		{Sheet: "Intake", Cell: "C9", Severity: source.Asked, Message: "inside of a merged area"},
		{Sheet: "Exhaust", Cell: "A2", Severity: source.Noted, Message: "on a table"},
		{Sheet: "Exhaust", Cell: "B2", Severity: source.SetAside, Message: "listed, not marked"},
		{Sheet: "No such sheet", Cell: "A1", Severity: source.Asked, Message: "nowhere to go"},
		{Severity: source.Refused, Message: "about the whole workbook"},
	}
}

// ours lists the notes that findings put, by sheet and cell.
var ours = map[string]string{
	"Intake!B7":  "Refused: the flow is more than the valve can pass\nCorrect the reading\n\nNoted: read as cfm",
	"Intake!D40": "Noted: a lift is missing _x0041_ here",
	"Intake!B9":  "Asked: inside of a merged area",
	"Exhaust!A2": "Noted: on a table",
}

var fills = map[string]string{"Intake!B7": "F2A58E", "Intake!B3": "FFD966", "Intake!D40": "D6E6F2", "Intake!B9": "FFD966", "Exhaust!A2": "D6E6F2"}

// writer is a workbook of some program with the parts that a copy changes.
type writer struct {
	name    string
	content []byte
	theirs  map[string]string // notes that are there already
	ours    map[string]string // notes that are to come
	bare    bool              // has no cell formats
	changed []string
	added   []string
}

// writers makes a workbook with each program, everything in it.
func writers(t *testing.T) []writer {
	t.Helper()
	dir := t.TempDir()
	run(t, booktest.Need(t, "/usr/bin/python3", "python3, python3-openpyxl, python3-xlsxwriter"), "testdata/books.py", dir)
	read := func(name string) []byte {
		content, err := os.ReadFile(filepath.Join(dir, name))
		must(t, err)
		return content
	}
	always := []string{"[Content_Types].xml", "xl/_rels/workbook.xml.rels", "xl/styles.xml", "xl/workbook.xml"}
	with := func(more ...string) []string { return slices.Concat(always, more) }
	return []writer{
		{
			"openpyxl", read("openpyxl.xlsx"), map[string]string{"Intake!B3": "pipe on", "Intake!A5": "second note"}, ours, false,
			with("_rels/.rels", "xl/comments/comment1.xml", "xl/drawings/commentsDrawing1.vml", "xl/worksheets/sheet1.xml", "xl/worksheets/sheet2.xml", "xl/worksheets/_rels/sheet2.xml.rels"),
			[]string{"docProps/custom.xml", "xl/comments1.xml", "xl/drawings/vmlDrawing1.vml", "xl/worksheets/sheet5.xml"},
		},
		{
			"xlsxwriter", read("xlsxwriter.xlsx"), map[string]string{"Intake!B3": "pipe on"}, ours, false,
			with("docProps/app.xml", "docProps/custom.xml", "xl/comments1.xml", "xl/drawings/vmlDrawing2.vml", "xl/worksheets/sheet2.xml", "xl/worksheets/sheet3.xml", "xl/worksheets/_rels/sheet3.xml.rels"),
			[]string{"xl/comments2.xml", "xl/drawings/vmlDrawing4.vml", "xl/worksheets/sheet5.xml"},
		},
		{
			"macros", read("macros.xlsm"), map[string]string{"Intake!B3": "pipe on"}, ours, false,
			with("docProps/app.xml", "docProps/custom.xml", "xl/comments1.xml", "xl/drawings/vmlDrawing2.vml", "xl/worksheets/sheet2.xml", "xl/worksheets/sheet3.xml", "xl/worksheets/_rels/sheet3.xml.rels"),
			[]string{"xl/comments2.xml", "xl/drawings/vmlDrawing4.vml", "xl/worksheets/sheet5.xml"},
		},
		{
			"LibreOffice", office(t, map[string][]byte{"": read("openpyxl.xlsx")})[""], map[string]string{"Intake!B3": "pipe on", "Intake!A5": "second note"}, ours, false,
			with("docProps/custom.xml", "xl/comments1.xml", "xl/drawings/vmlDrawing1.vml", "xl/worksheets/sheet1.xml", "xl/worksheets/sheet2.xml", "xl/worksheets/_rels/sheet2.xml.rels"),
			[]string{"xl/comments2.xml", "xl/drawings/vmlDrawing2.vml", "xl/worksheets/sheet5.xml"},
		},
		{
			"excelize", excelizeBook(t), map[string]string{"Intake!B3": "pipe on"}, ours, false,
			with("_rels/.rels", "xl/comments1.xml", "xl/drawings/vmlDrawing1.vml", "xl/worksheets/sheet1.xml", "xl/worksheets/sheet2.xml"),
			[]string{"docProps/custom.xml", "xl/comments2.xml", "xl/drawings/vmlDrawing2.vml", "xl/worksheets/_rels/sheet2.xml.rels", "xl/worksheets/sheet3.xml"},
		},
		{
			"by hand", handMade(t), nil, together(ours, map[string]string{"Intake!B3": "Asked: =1+1 is not a lift\nType the lift <in> inches & mm"}), true,
			[]string{"[Content_Types].xml", "_rels/.rels", "xl/_rels/workbook.xml.rels", "xl/workbook.xml", "xl/worksheets/a.xml", "xl/worksheets/b.xml"},
			[]string{
				"docProps/custom.xml", "xl/styles.xml", "xl/comments1.xml", "xl/comments2.xml", "xl/drawings/vmlDrawing1.vml", "xl/drawings/vmlDrawing2.vml",
				"xl/worksheets/_rels/a.xml.rels", "xl/worksheets/_rels/b.xml.rels", "xl/worksheets/sheet1.xml",
			},
		},
	}
}

func excelizeBook(t testing.TB) []byte {
	t.Helper()
	f := excelize.NewFile()
	defer f.Close()
	must(t, f.SetSheetName("Sheet1", "Intake"))
	_, err := f.NewSheet("Exhaust")
	must(t, err)
	for cell, v := range map[string]any{"A1": "Lift", "B3": 60, "B7": 300, "B9": "merged"} {
		must(t, f.SetCellValue("Intake", cell, v))
	}
	must(t, f.SetCellValue("Exhaust", "A2", .3))
	must(t, f.MergeCell("Intake", "B9", "C9"))
	must(t, f.AddComment("Intake", excelize.Comment{Cell: "B3", Author: "the shop", Text: "pipe on"}))
	must(t, f.AddChart("Intake", "F2", &excelize.Chart{Type: excelize.Line, Series: []excelize.ChartSeries{{Values: "Intake!$B$3:$B$7"}}}))
	buf, err := f.WriteToBuffer()
	must(t, err)
	return buf.Bytes()
}

// handMade is a workbook as the smallest exporters write it: no cell formats,
// prefixed names, cells that do not say where they are.
func handMade(t *testing.T) []byte {
	t.Helper()
	const (
		ns  = `xmlns:x="http://schemas.openxmlformats.org/spreadsheetml/2006/main" xmlns:q="http://schemas.openxmlformats.org/officeDocument/2006/relationships"`
		rel = "http://schemas.openxmlformats.org/officeDocument/2006/relationships/"
		pkg = "http://schemas.openxmlformats.org/package/2006/"
		typ = "application/vnd.openxmlformats-officedocument.spreadsheetml."
	)
	row := func(cells string) string { return "<x:row>" + cells + "</x:row>" }
	two := row("<x:c><x:v>1</x:v></x:c><x:c><x:v>300</x:v></x:c>")
	var b bytes.Buffer
	z := zip.NewWriter(&b)
	for _, part := range [][2]string{
		{"[Content_Types].xml", `<Types xmlns="` + pkg + `content-types"><Default Extension="rels" ContentType="application/vnd.openxmlformats-package.relationships+xml"/><Default Extension="xml" ContentType="` + typ + `worksheet+xml"/><Override PartName="/xl/workbook.xml" ContentType="` + typ + `sheet.main+xml"/></Types>`},
		{"_rels/.rels", `<Relationships xmlns="` + pkg + `relationships"><Relationship Id="a" Type="` + rel + `officeDocument" Target="xl/workbook.xml"/></Relationships>`},
		{"xl/workbook.xml", `<x:workbook ` + ns + `><x:sheets><x:sheet name="Intake" sheetId="9" q:id="a"/><x:sheet name="Exhaust" sheetId="2" q:id="b"/></x:sheets></x:workbook>`},
		{"xl/_rels/workbook.xml.rels", `<Relationships xmlns="` + pkg + `relationships"><Relationship Id="a" Type="` + rel + `worksheet" Target="worksheets/a.xml"/><Relationship Id="b" Type="` + rel + `worksheet" Target="/xl/worksheets/b.xml"/></Relationships>`},
		{"xl/worksheets/a.xml", `<x:worksheet ` + ns + `><x:sheetData>` + strings.Repeat(two, 8) + `<x:row r="9"><x:c r="B9"><x:v>9</x:v></x:c></x:row></x:sheetData><x:mergeCells count="1"><x:mergeCell ref="B9:C9"/></x:mergeCells></x:worksheet>`},
		{"xl/worksheets/b.xml", `<x:worksheet ` + ns + `><x:sheetData/></x:worksheet>`},
	} {
		w, err := z.Create(part[0])
		must(t, err)
		_, err = io.WriteString(w, part[1])
		must(t, err)
	}
	must(t, z.Close())
	return b.Bytes()
}

// office lets LibreOffice open workbooks and save them again, all in one go: it
// is slow to start.
func office(t *testing.T, workbooks map[string][]byte) map[string][]byte {
	t.Helper()
	dir := t.TempDir()
	args := []string{"-env:UserInstallation=file://" + filepath.Join(dir, "profile"), "--headless", "--convert-to", "xlsx", "--outdir", filepath.Join(dir, "out")}
	names := slices.Sorted(maps.Keys(workbooks))
	for i, name := range names {
		path := filepath.Join(dir, fmt.Sprintf("%d.xlsx", i))
		must(t, os.WriteFile(path, workbooks[name], 0o644))
		args = append(args, path)
	}
	run(t, booktest.Need(t, "soffice", "libreoffice-calc"), args...)
	out := make(map[string][]byte)
	for i, name := range names {
		content, err := os.ReadFile(filepath.Join(dir, "out", fmt.Sprintf("%d.xlsx", i)))
		must(t, err)
		out[name] = content
	}
	return out
}

func run(t *testing.T, program string, args ...string) []byte {
	t.Helper()
	ctx, cancel := context.WithTimeout(context.Background(), 2*time.Minute) // a program that hangs must not take the whole run with it
	defer cancel()
	cmd := exec.CommandContext(ctx, program, args...)
	cmd.WaitDelay = time.Second
	var said strings.Builder
	cmd.Stderr = &said
	out, err := cmd.Output()
	if err != nil {
		t.Fatalf("%s: %v\n%s", program, err, said.String())
	}
	return out
}

func must(t testing.TB, err error) {
	t.Helper()
	if err != nil {
		t.Fatal(err)
	}
}

// partsOf returns the parts of a workbook as they unpack.
func partsOf(t *testing.T, workbook []byte) map[string]string {
	t.Helper()
	z, err := zip.NewReader(bytes.NewReader(workbook), int64(len(workbook)))
	must(t, err)
	out := make(map[string]string)
	for _, f := range z.File {
		r, err := f.Open()
		must(t, err)
		data, err := io.ReadAll(r)
		must(t, err)
		r.Close()
		out[f.Name] = string(data)
	}
	return out
}

// seen is what a program other than ours sees of a workbook.
type seen struct {
	Notes  map[string]string // by sheet and cell
	Values map[string]string
	Charts int
	Fills  map[string]string
}

const pythonReader = `
import json, sys, openpyxl
wb = openpyxl.load_workbook(sys.argv[1], keep_vba=True)
out = dict(Notes={}, Values={}, Charts=0, Fills={})
for ws in wb.worksheets:
    out["Charts"] += len(ws._charts)
    for row in ws.iter_rows():
        for c in row:
            at = ws.title + "!" + c.coordinate
            if c.value is not None: out["Values"][at] = c.data_type + " " + str(c.value)
            if c.comment: out["Notes"][at] = c.comment.text
            if c.fill.fill_type == "solid": out["Fills"][at] = c.fill.fgColor.rgb[2:]
json.dump(out, sys.stdout)
`

// byPython is what openpyxl sees.
func byPython(t *testing.T, workbook []byte) seen {
	t.Helper()
	path := filepath.Join(t.TempDir(), "book.xlsm")
	must(t, os.WriteFile(path, workbook, 0o644))
	var out seen
	must(t, json.Unmarshal(run(t, booktest.Need(t, "/usr/bin/python3", "python3-openpyxl"), "-W", "ignore", "-c", pythonReader, path), &out))
	return out
}

// sheetNotes is what excelize sees of the notes.
func sheetNotes(t *testing.T, workbook []byte) map[string]string {
	t.Helper()
	f, err := excelize.OpenReader(bytes.NewReader(workbook))
	must(t, err)
	defer f.Close()
	out := make(map[string]string)
	for _, sheet := range f.GetSheetList() {
		comments, err := f.GetComments(sheet)
		must(t, err)
		for _, c := range comments {
			text := c.Text
			for _, run := range c.Paragraph {
				text = cmp.Or(strings.TrimSuffix(text, run.Text), "") + run.Text
			}
			out[sheet+"!"+c.Cell] = text
		}
	}
	return out
}

// together joins maps.
func together(all ...map[string]string) map[string]string {
	out := make(map[string]string)
	for _, m := range all {
		maps.Copy(out, m)
	}
	return out
}
