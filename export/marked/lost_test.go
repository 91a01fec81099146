package marked_test

import (
	"bytes"
	"encoding/xml"
	"image"
	"image/png"
	"regexp"
	"slices"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
	"github.com/xuri/excelize/v2"

	"flowshelf/export/marked"
)

// mayChange are the parts that carry marks or tie new parts to the workbook.
var mayChange = regexp.MustCompile(`^(\[Content_Types\]\.xml|(.*/)?_rels/[^/]*\.rels|docProps/(app|custom)\.xml|xl/(workbook|styles)\.xml|` +
	`xl/worksheets/[^/]+\.xml|xl/(comments/)?comments?\d*\.xml|xl/drawings/[^/]*\.vml)$`)

// grows are the elements of such a part that get something more; all others must
// come out as they went in.
var grows = map[string]bool{
	"sheetData": true, "dimension": true, // of a sheet
	"sheets": true, "fonts": true, "fills": true, "borders": true, "cellXfs": true, "cellStyleXfs": true, "cellStyles": true, // of the workbook and its styles
	"authors": true, "commentList": true, "HeadingPairs": true, "TitlesOfParts": true,
}

// Nothing is lost: every part that carries no marks is the same byte for byte,
// macros, charts, pictures, threads, tables and pivot tables among them, and the
// others keep every element they had: conditional formats, validations, merged
// areas, print settings, defined names, protection.
func TestNothingIsLost(t *testing.T) {
	books := map[string][]byte{"everything by excelize": everything(t)}
	for _, w := range writers(t) {
		books[w.name] = w.content
	}
	books["everything saved by LibreOffice"] = office(t, map[string][]byte{"": books["everything by excelize"]})[""]
	for name, content := range books {
		t.Run(name, func(t *testing.T) {
			was, is := partsOf(t, content), partsOf(t, makeCopy(t, content))
			for part, before := range was {
				after, there := is[part]
				switch {
				case !there:
					t.Errorf("%s is lost", part)
				case before == after:
				case !mayChange.MatchString(part):
					t.Errorf("%s has changed", part)
				case !strings.HasSuffix(part, ".vml"): // drawings of notes are written in a looser syntax
					keepsElements(t, part, before, after)
				}
			}
		})
	}
}

// element is an element of a part with all that stands in it.
type element struct {
	XMLName xml.Name
	Attrs   []xml.Attr `xml:",any,attr"`
	Inner   string     `xml:",innerxml"`
}

func elements(t *testing.T, part, text string) []element {
	t.Helper()
	var root struct {
		All []element `xml:",any"`
	}
	if err := xml.Unmarshal([]byte(text), &root); err != nil {
		t.Fatalf("%s: %v", part, err)
	}
	return root.All
}

// keepsElements fails unless the elements of a part are there again, in order.
func keepsElements(t *testing.T, part, before, after string) {
	t.Helper()
	rest := elements(t, part, after)
	for _, e := range elements(t, part, before) {
		at := slices.IndexFunc(rest, func(o element) bool {
			return o.XMLName == e.XMLName && (grows[e.XMLName.Local] || cmp.Equal(o, e))
		})
		if at < 0 {
			t.Errorf("%s: %s with %v is lost or changed", part, e.XMLName.Local, e.Attrs)
			return
		}
		rest = rest[at+1:]
	}
}

// everything is a workbook with what excelize can put into one.
func everything(t *testing.T) []byte {
	t.Helper()
	f, err := excelize.OpenReader(bytes.NewReader(excelizeBook(t)))
	must(t, err)
	defer f.Close()
	_, err = f.NewSheet("Sales")
	must(t, err)
	for i, row := range [][]any{{"Month", "Head", "Sets"}, {"Jan", "PW-46", 3}, {"Feb", "PW-46", 5}, {"Feb", "OB-44", 2}} {
		cell, err := excelize.CoordinatesToCellName(1, 1+i)
		must(t, err)
		must(t, f.SetSheetRow("Sales", cell, &row))
	}
	must(t, f.AddPivotTable(&excelize.PivotTableOptions{DataRange: "Sales!A1:C4", PivotTableRange: "Sales!F2:I12",
		Rows: []excelize.PivotTableField{{Data: "Head"}}, Columns: []excelize.PivotTableField{{Data: "Month"}}, Data: []excelize.PivotTableField{{Data: "Sets"}}}))
	must(t, f.AddTable("Exhaust", &excelize.Table{Range: "D1:E3", Name: "Pipes"}))
	must(t, f.SetDefinedName(&excelize.DefinedName{Name: "Top", RefersTo: "Intake!$B$7"}))
	must(t, f.AddShape("Intake", &excelize.Shape{Cell: "K2", Type: "rect", Paragraph: []excelize.RichTextRun{{Text: "a text box"}}}))
	must(t, f.AddPictureFromBytes("Intake", "K12", &excelize.Picture{Extension: ".png", File: dot(t), Format: &excelize.GraphicOptions{}}))
	bold, err := f.NewConditionalStyle(&excelize.Style{Font: &excelize.Font{Bold: true}})
	must(t, err)
	must(t, f.SetConditionalFormat("Intake", "B3:B7", []excelize.ConditionalFormatOptions{{Type: "cell", Criteria: ">", Value: "200", Format: &bold}}))
	yes := excelize.NewDataValidation(true)
	yes.Sqref = "D1:D9"
	must(t, yes.SetDropList([]string{"yes", "no"}))
	must(t, f.AddDataValidation("Intake", yes))
	landscape, height := "landscape", 0
	must(t, f.SetPageLayout("Intake", &excelize.PageLayoutOptions{Orientation: &landscape, FitToHeight: &height}))
	must(t, f.SetHeaderFooter("Intake", &excelize.HeaderFooterOptions{OddHeader: "&Lbench"}))
	must(t, f.ProtectSheet("Exhaust", &excelize.SheetProtectionOptions{SelectLockedCells: true}))
	must(t, f.AutoFilter("Sales", "A1:C4", nil))
	must(t, f.InsertPageBreak("Intake", "A20"))
	must(t, f.SetCellHyperLink("Intake", "A1", "Sales!A1", "Location"))
	out, err := f.WriteToBuffer()
	must(t, err)
	return out.Bytes()
}

// dot is a picture of one dot.
func dot(t *testing.T) []byte {
	t.Helper()
	var b bytes.Buffer
	must(t, png.Encode(&b, image.NewGray(image.Rect(0, 0, 1, 1))))
	return b.Bytes()
}

// The check can fail: a part or an element that goes missing is found.
func TestNothingIsLostNotices(t *testing.T) {
	content := everything(t)
	out, err := marked.Make(marked.Original{Path: "a.xlsx", Content: content}, findings(), limits)
	must(t, err)
	was, is := partsOf(t, content), partsOf(t, out)
	const sheet = "xl/worksheets/sheet1.xml"
	for _, lost := range []string{"conditionalFormatting", "dataValidations", "pageSetup", "headerFooter", "drawing", "rowBreaks", "hyperlinks", "mergeCells"} {
		has := func(text string) bool {
			return slices.ContainsFunc(elements(t, sheet, text), func(e element) bool { return e.XMLName.Local == lost })
		}
		if !has(was[sheet]) || !has(is[sheet]) {
			t.Errorf("%s: there %v, in the copy %v; the workbook of this test must have it", lost, has(was[sheet]), has(is[sheet]))
		}
	}
	for _, part := range []string{"xl/pivotTables/pivotTable1.xml", "xl/pivotCache/pivotCacheDefinition1.xml", "xl/tables/table1.xml", "xl/charts/chart1.xml"} {
		if was[part] == "" || was[part] != is[part] {
			t.Errorf("%s is not there, or not the same", part)
		}
	}
}
