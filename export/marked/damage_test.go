package marked_test

import (
	"archive/zip"
	"bytes"
	"io"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"flowshelf/analysis/source"
	"flowshelf/export/book"
	"flowshelf/export/marked"
)

// withPart returns the workbook with another content of one part.
func withPart(t testing.TB, workbook []byte, name string, change func(string) string) []byte {
	t.Helper()
	z, err := zip.NewReader(bytes.NewReader(workbook), int64(len(workbook)))
	if err != nil {
		t.Fatal(err)
	}
	var b bytes.Buffer
	w := zip.NewWriter(&b)
	found := false
	for _, f := range z.File {
		if f.Name != name {
			if err := w.Copy(f); err != nil {
				t.Fatal(err)
			}
			continue
		}
		found = true
		r, err := f.Open()
		if err != nil {
			t.Fatal(err)
		}
		data, err := io.ReadAll(r)
		if err != nil {
			t.Fatal(err)
		}
		part, err := w.Create(name)
		if err != nil {
			t.Fatal(err)
		}
		if _, err := io.WriteString(part, change(string(data))); err != nil {
			t.Fatal(err)
		}
	}
	if err := w.Close(); err != nil || !found {
		t.Fatalf("part %s found: %v, %v", name, found, err)
	}
	return b.Bytes()
}

// What cannot be marked is refused in a few words, and never half done.
func TestRefusals(t *testing.T) {
	good := excelizeBook(t)
	sheet := "xl/worksheets/sheet1.xml"
	ours, err := marked.Make(marked.Original{Path: "a.xlsx", Content: good}, findings(), limits)
	must(t, err)
	few := limits
	few.Tags = 100
	small := limits
	small.UnzippedBytes = 1000
	torn := bytes.Clone(good)
	copy(torn[200:], bytes.Repeat([]byte{0}, 64))
	for _, c := range []struct {
		name    string
		content []byte
		limits  marked.Limits
		says    string
	}{
		{"no workbook", []byte("lift,cfm\n.1,60\n"), limits, "not an .xlsx"},
		{"empty", nil, limits, "not an .xlsx"},
		{"too many tags", good, few, "larger"},
		{"too large", good, small, "larger"},
		{"torn", torn, limits, "damaged"},
		{"our own copy", ours, limits, "ours"},
		{"a document type", withPart(t, good, sheet, func(s string) string { return strings.Replace(s, "<worksheet", "<!DOCTYPE x><worksheet", 1) }), limits, "document type"},
		{"cut short", withPart(t, good, sheet, func(s string) string { return s[:len(s)/2] }), limits, "cannot be followed"},
		{"rows out of order", withPart(t, good, sheet, func(s string) string { return strings.Replace(s, `r="7"`, `r="2"`, 1) }), limits, "order"},
		{"formats missing", withPart(t, good, "xl/styles.xml", func(s string) string {
			return `<styleSheet xmlns="http://schemas.openxmlformats.org/spreadsheetml/2006/main"/>`
		}), limits, "formats"},
		{"boxes of another kind", withPart(t, good, "xl/drawings/vmlDrawing1.vml", func(string) string { return "<svg/>" }), limits, "boxes"},
	} {
		t.Run(c.name, func(t *testing.T) {
			out, err := marked.Make(marked.Original{Path: "a.xlsx", Content: c.content}, findings(), c.limits)
			if out != nil || err == nil || !strings.Contains(err.Error(), c.says) {
				t.Errorf("%d bytes, error %v, want one about %q", len(out), err, c.says)
			}
		})
	}
}

// FuzzMake damages a part of a workbook. Whatever comes of it is an error or a
// sealed copy with the same cells.
func FuzzMake(f *testing.F) {
	parts := []string{"xl/worksheets/sheet1.xml", "xl/styles.xml", "xl/workbook.xml", "xl/comments1.xml", "[Content_Types].xml", "xl/drawings/vmlDrawing1.vml", "xl/_rels/workbook.xml.rels"}
	good := excelizeBook(f)
	for i := range parts {
		f.Add(uint8(i), uint16(300), uint16(10), `<c r="B7" s="9"/>`)
		f.Add(uint8(i), uint16(120), uint16(0), `<`)
	}
	f.Fuzz(func(t *testing.T, which uint8, at, length uint16, with string) {
		damaged := withPart(t, good, parts[int(which)%len(parts)], func(s string) string {
			from := int(at) % (len(s) + 1)
			to := min(from+int(length), len(s))
			return s[:from] + with + s[to:]
		})
		checkMake(t, damaged)
	})
}

// FuzzBytes damages the file itself.
func FuzzBytes(f *testing.F) {
	good := excelizeBook(f)
	f.Add(uint16(40), []byte("x"))
	f.Fuzz(func(t *testing.T, at uint16, with []byte) {
		content := bytes.Clone(good)
		copy(content[int(at)%len(content):], with)
		checkMake(t, content)
	})
}

func checkMake(t *testing.T, content []byte) {
	t.Helper()
	small := marked.Limits{UnzippedBytes: 4 << 20, Tags: 200_000, Findings: 100}
	out, err := marked.Make(marked.Original{Path: "a.xlsx", Content: content}, findings(), small)
	if err != nil {
		if out != nil {
			t.Error("an error and a copy")
		}
		return
	}
	if _, ok, edited, err := book.Identity(out); err != nil || !ok || edited {
		t.Errorf("ours %v, edited %v, %v", ok, edited, err)
	}
}

func TestNames(t *testing.T) {
	got := marked.Names([]string{"bench/PW-46.xlsx", "bench - PW-46.xlsx", "list.xlsx", "LIST.xlsm", strings.Repeat("ü", 300) + ".xlsx", "a/b/c:d?.xlsx"})
	want := map[string]string{
		"bench - PW-46.xlsx": "bench - PW-46", "bench/PW-46.xlsx": "bench - PW-46 (PLACE)", "LIST.xlsm": "LIST", "list.xlsx": "list (PLACE)",
		"a/b/c:d?.xlsx": "a - b - c-d-", strings.Repeat("ü", 300) + ".xlsx": strings.Repeat("ü", 90) + " (PLACE)",
	}
	for path, name := range got {
		if open := strings.LastIndex(name, " ("); open > 0 {
			got[path] = name[:open] + " (PLACE)"
		}
	}
	if diff := cmp.Diff(want, got); diff != "" {
		t.Errorf("(-want +got):\n%s", diff)
	}
	if one := marked.Names([]string{"bench/PW-46.xlsx"}); one["bench/PW-46.xlsx"] != "bench - PW-46" {
		t.Errorf("alone: %v", one)
	}
}

func TestExtension(t *testing.T) {
	for _, w := range writers(t) {
		want := map[bool]string{true: ".xlsm", false: ".xlsx"}[w.name == "macros"]
		if got, err := marked.Extension(w.content); err != nil || got != want {
			t.Errorf("%s: %q, %v", w.name, got, err)
		}
	}
	if _, err := marked.Extension([]byte("lift,cfm")); err == nil {
		t.Error("a text got an extension")
	}
}

func TestByFile(t *testing.T) {
	at := func(file, cell string) source.Ref { return source.Ref{File: file, Sheet: "S", Cell: cell} }
	got := marked.ByFile(source.Problems{
		{At: at("a.xlsx", "B2"), Severity: source.Noted, Message: "n"},
		{At: at("b.xlsx", "B2"), Also: []source.Ref{at("a.xlsx", "C3")}, Severity: source.Refused, Message: "r", Found: "x"},
		{At: at("a.xlsx", "A9"), Severity: source.Asked, Message: "q", Found: "y"},
		{At: at("c.xlsx", "A1"), Severity: source.Asked, Message: "elsewhere"},
	})["a.xlsx"]
	want := []marked.Finding{
		{Sheet: "S", Cell: "A9", Severity: source.Asked, Message: "q", Found: "y"},
		{Sheet: "S", Cell: "C3", Severity: source.Refused, Message: "r"},
		{Sheet: "S", Cell: "B2", Severity: source.Noted, Message: "n"},
	}
	if diff := cmp.Diff(want, got); diff != "" {
		t.Errorf("(-want +got):\n%s", diff)
	}
}

// More findings than are shown are counted.
func TestManyFindings(t *testing.T) {
	few := limits
	few.Findings = 3
	out, err := marked.Make(marked.Original{Path: "a.xlsx", Content: excelizeBook(t)}, findings(), few)
	must(t, err)
	cells, err := book.Cells(out)
	must(t, err)
	rows := 0
	for _, c := range cells {
		if c.Sheet == "Findings" && c.Cell == "A4" && !strings.HasPrefix(c.Value, "Findings: 9, of which the first 3 are shown and marked.") {
			t.Errorf("says %q", c.Value)
		}
		if c.Sheet == "Findings" && strings.HasPrefix(c.Cell, "H") {
			rows++
		}
	}
	if rows != few.Findings+1 {
		t.Errorf("%d rows with the header", rows)
	}
}
