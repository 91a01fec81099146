package marked_test

import (
	"bytes"
	"encoding/xml"
	"fmt"
	"slices"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
	"github.com/google/go-cmp/cmp/cmpopts"
	"github.com/xuri/excelize/v2"

	"flowshelf/export/book"
	"flowshelf/export/marked"
)

func makeCopy(t *testing.T, content []byte) []byte {
	t.Helper()
	out, err := marked.Make(marked.Original{Path: "bench/PW-46.xlsx", Content: content}, findings(), limits)
	must(t, err)
	return out
}

// Every writer's workbook keeps every part but those that carry the marks, and
// other programs see the marks, and everything that was there before.
func TestWriters(t *testing.T) {
	all := writers(t)
	for _, w := range all {
		t.Run(w.name, func(t *testing.T) {
			before := bytes.Clone(w.content)
			marks := makeCopy(t, w.content)
			if !bytes.Equal(before, w.content) {
				t.Fatal("the original was changed")
			}
			if again := makeCopy(t, w.content); !bytes.Equal(marks, again) {
				t.Error("the same input gave other bytes")
			}
			t.Run("parts", func(t *testing.T) { onlyExpectedParts(t, w, marks) })
			t.Run("list of tabs", func(t *testing.T) { tabsAreListed(t, marks) })
			t.Run("order of elements", func(t *testing.T) { inOrder(t, marks) })
			t.Run("openpyxl", func(t *testing.T) { seenByPython(t, w, marks) })
			t.Run("excelize", func(t *testing.T) { seenByExcelize(t, w, marks) })
			if id, ok, edited, err := book.Identity(marks); err != nil || !ok || edited || id.ID != "marked copy of bench/PW-46.xlsx" {
				t.Errorf("stamp %+v, ours %v, edited %v, %v", id, ok, edited, err)
			}
		})
	}
	t.Run("saved again by LibreOffice", func(t *testing.T) { seenByOffice(t, all) })
}

func onlyExpectedParts(t *testing.T, w writer, marks []byte) {
	was, is := partsOf(t, w.content), partsOf(t, marks)
	var changed, added []string
	for name, data := range is {
		switch old, there := was[name]; {
		case !there:
			added = append(added, name)
		case old != data:
			changed = append(changed, name)
		}
		delete(was, name)
	}
	for name := range was {
		t.Errorf("%s is lost", name)
	}
	sorted := cmpopts.SortSlices(strings.Compare)
	if diff := cmp.Diff(w.changed, changed, sorted); diff != "" {
		t.Errorf("changed parts (-want +got):\n%s", diff)
	}
	if diff := cmp.Diff(w.added, added, sorted); diff != "" {
		t.Errorf("added parts (-want +got):\n%s", diff)
	}
}

// tabsAreListed fails where the extended properties count or name the worksheets
// otherwise than they are. Few writers list them.
func tabsAreListed(t *testing.T, marks []byte) {
	var properties struct {
		Counts []string `xml:"HeadingPairs>vector>variant>i4"`
		Titles struct {
			Size  int      `xml:"size,attr"`
			Names []string `xml:"lpstr"`
		} `xml:"TitlesOfParts>vector"`
	}
	part, there := partsOf(t, marks)["docProps/app.xml"]
	if !there {
		return
	}
	must(t, xml.Unmarshal([]byte(part), &properties))
	if len(properties.Counts) == 0 {
		return
	}
	f, err := excelize.OpenReader(bytes.NewReader(marks))
	must(t, err)
	defer f.Close()
	sheets := slices.DeleteFunc(f.GetSheetList(), func(name string) bool { return name == "Plot" }) // a chart
	if got := properties.Titles; got.Size != len(got.Names) || !slices.Equal(got.Names[:len(sheets)], sheets) || properties.Counts[0] != fmt.Sprint(len(sheets)) {
		t.Errorf("the properties list %v and count %v, the worksheets are %v", got, properties.Counts, sheets)
	}
}

// withoutList drops the added sheet, the last one, from what a program sees.
func withoutList(cells map[string]string, sheet string) map[string]string {
	out := make(map[string]string)
	for at, v := range cells {
		if !strings.HasPrefix(at, sheet+"!") {
			out[at] = v
		}
	}
	return out
}

func listName(w writer) string {
	if w.name == "openpyxl" || w.name == "LibreOffice" { // they have a tab of that name
		return "Findings (2)"
	}
	return "Findings"
}

func seenByPython(t *testing.T, w writer, marks []byte) {
	is := byPython(t, marks)
	was := is
	if !w.bare { // openpyxl does not open a workbook without cell formats
		was = byPython(t, w.content)
	}
	if diff := cmp.Diff(together(w.theirs, escaped(w.ours)), is.Notes); diff != "" {
		t.Errorf("notes (-want +got):\n%s", diff)
	}
	if diff := cmp.Diff(withoutList(was.Values, listName(w)), withoutList(is.Values, listName(w))); diff != "" {
		t.Errorf("values (-want +got):\n%s", diff)
	}
	if was.Charts != is.Charts {
		t.Errorf("%d charts, were %d", is.Charts, was.Charts)
	}
	if diff := cmp.Diff(withoutList(together(was.Fills, fills), listName(w)), withoutList(is.Fills, listName(w))); diff != "" {
		t.Errorf("fills (-want +got):\n%s", diff)
	}
	for at, v := range is.Values {
		if strings.HasPrefix(at, listName(w)+"!") && strings.HasPrefix(v, "f ") {
			t.Errorf("%s is a formula: %s", at, v)
		}
	}
}

// escaped spells the texts as openpyxl and LibreOffice show notes: they leave the
// format's own escapes as they are stored.
func escaped(notes map[string]string) map[string]string {
	out := make(map[string]string)
	for at, text := range notes {
		out[at] = strings.ReplaceAll(text, "_x0041_", "_x005F_x0041_")
	}
	return out
}

func seenByExcelize(t *testing.T, w writer, marks []byte) {
	notes := sheetNotes(t, marks)
	for at, text := range together(w.theirs, w.ours) {
		if got := strings.ReplaceAll(notes[at], "_x005F_", "_"); !strings.Contains(got, text) {
			t.Errorf("note at %s is %q, want %q", at, got, text)
		}
	}
	if len(notes) != len(w.theirs)+len(w.ours) {
		t.Errorf("%d notes: %v", len(notes), notes)
	}
	was, err := excelize.OpenReader(bytes.NewReader(w.content))
	must(t, err)
	defer was.Close()
	is, err := excelize.OpenReader(bytes.NewReader(marks))
	must(t, err)
	defer is.Close()
	for at := range fills {
		if w.bare {
			break
		}
		sheet, cell, _ := strings.Cut(at, "!")
		if diff := cmp.Diff(styleOf(t, was, sheet, cell), styleOf(t, is, sheet, cell), cmpopts.IgnoreFields(excelize.Style{}, "Fill")); diff != "" {
			t.Errorf("%s looks otherwise, apart from its fill (-want +got):\n%s", at, diff)
		}
	}
	if diff := cmp.Diff(was.GetDefinedName(), is.GetDefinedName()); diff != "" {
		t.Error(diff)
	}
}

func styleOf(t *testing.T, f *excelize.File, sheet, cell string) *excelize.Style {
	t.Helper()
	id, err := f.GetCellStyle(sheet, cell)
	must(t, err)
	s, err := f.GetStyle(id)
	must(t, err)
	return s
}

// seenByOffice looks at what LibreOffice makes of the copies, with openpyxl.
func seenByOffice(t *testing.T, all []writer) {
	books := make(map[string][]byte)
	for _, w := range all {
		books[w.name], books[w.name+" marked"] = w.content, makeCopy(t, w.content)
	}
	saved := office(t, books)
	for _, w := range all {
		if _, ours, edited, err := book.Identity(saved[w.name+" marked"]); err != nil || !ours || edited {
			t.Errorf("%s: a copy saved as it was: ours %v, edited %v, %v", w.name, ours, edited, err)
		}
		was, is := byPython(t, saved[w.name]), byPython(t, saved[w.name+" marked"])
		if diff := cmp.Diff(together(was.Notes, escaped(w.ours)), is.Notes); diff != "" {
			t.Errorf("%s: notes (-want +got):\n%s", w.name, diff)
		}
		if diff := cmp.Diff(was.Values, withoutList(is.Values, listName(w))); diff != "" {
			t.Errorf("%s: values (-want +got):\n%s", w.name, diff)
		}
		if was.Charts != is.Charts {
			t.Errorf("%s: %d charts, were %d", w.name, is.Charts, was.Charts)
		}
		for at, colour := range fills {
			if is.Fills[at] != colour {
				t.Errorf("%s: %s has the fill %q, want %q", w.name, at, is.Fills[at], colour)
			}
		}
	}
}

// The list names every finding in order, links into the workbook only, and says
// which cells could not carry a note.
func TestList(t *testing.T) {
	marks := makeCopy(t, excelizeBook(t))
	f, err := excelize.OpenReader(bytes.NewReader(marks))
	must(t, err)
	defer f.Close()
	rows, err := f.GetRows("Findings")
	must(t, err)
	const header = 7
	var got []string
	for i, row := range rows[header:] {
		link := ""
		for _, col := range []string{"B", "C"} {
			_, target, err := f.GetCellHyperLink("Findings", fmt.Sprintf("%s%d", col, header+1+i))
			must(t, err)
			link += target
		}
		got = append(got, strings.Join([]string{row[0], row[1], row[2], link, row[7]}, "|"))
	}
	want := []string{
		"refused|Intake|B7|'Intake'!B7|colour and note",
		"noted|Intake|B7|'Intake'!B7|colour and note",
		"asked|Intake|B3|'Intake'!B3|colour only: the cell has a note of its own",
		"noted|Intake|D40|'Intake'!D40|colour and note",
		"asked|Intake|C9|'Intake'!C9|colour and note",
		"noted|Exhaust|A2|'Exhaust'!A2|colour and note",
		"set aside|Exhaust|B2|'Exhaust'!B2|listed here only",
		"asked|No such sheet|A1||listed here only",
		"refused||||listed here only",
	}
	if diff := cmp.Diff(want, got); diff != "" {
		t.Errorf("(-want +got):\n%s", diff)
	}
	for name, part := range partsOf(t, marks) {
		if strings.Contains(part, `TargetMode="External"`) {
			t.Errorf("%s leads outside", name)
		}
	}
}

// What is put into a sheet, to the letter: formats of the marked cells, cells
// and rows that were not there, and the drawing of the notes at its place.
func TestWhatIsPutIn(t *testing.T) {
	was := handMade(t)
	is := partsOf(t, makeCopy(t, was))
	const note = `<x:legacyDrawing xmlns:r="http://schemas.openxmlformats.org/officeDocument/2006/relationships" r:id="rId2"/></x:worksheet>`
	before := partsOf(t, was)
	one := before["xl/worksheets/a.xml"]
	rows := strings.SplitAfter(one, "</x:row>")
	rows[2] = strings.Replace(rows[2], "<x:c><x:v>300", `<x:c s="1"><x:v>300`, 1)
	rows[6] = strings.Replace(rows[6], "<x:c><x:v>300", `<x:c s="2"><x:v>300`, 1)
	rows[8] = strings.Replace(rows[8], `<x:c r="B9">`, `<x:c r="B9" s="1">`, 1)
	rows[9] = strings.Replace(rows[9], "</x:sheetData>", `<x:row r="40"><x:c r="D40" s="3"/></x:row></x:sheetData>`, 1)
	for name, want := range map[string]string{
		"xl/worksheets/a.xml": strings.Replace(strings.Join(rows, ""), "</x:worksheet>", note, 1),
		"xl/worksheets/b.xml": strings.Replace(strings.Replace(before["xl/worksheets/b.xml"], "<x:sheetData/>",
			`<x:sheetData><x:row r="2"><x:c r="A2" s="3"/></x:row></x:sheetData>`, 1), "</x:worksheet>", note, 1),
	} {
		if diff := cmp.Diff(strings.ReplaceAll(want, "<x:", "\n<x:"), strings.ReplaceAll(is[name], "<x:", "\n<x:")); diff != "" {
			t.Errorf("%s (-want +got):\n%s", name, diff)
		}
	}
}

// A workbook that nothing is to be said about any more changes in nothing but
// the added list.
func TestNothingAnyMore(t *testing.T) {
	content := excelizeBook(t)
	out, err := marked.Make(marked.Original{Path: "a.xlsx", Content: content}, nil, limits)
	must(t, err)
	was, is := partsOf(t, content), partsOf(t, out)
	for name := range was {
		if strings.HasPrefix(name, "xl/worksheets/") && was[name] != is[name] {
			t.Errorf("%s has changed", name)
		}
	}
	if diff := cmp.Diff(sheetNotes(t, content)["Intake!B3"], sheetNotes(t, out)["Intake!B3"]); diff != "" {
		t.Error(diff)
	}
	if !strings.Contains(is["xl/worksheets/sheet3.xml"], "Nothing any more.") {
		t.Error("the list does not say so")
	}
}
