package decode_test

import (
	"fmt"
	"html"
	"os/exec"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
	"github.com/xuri/excelize/v2"
	"pgregory.net/rapid"

	"flowshelf/analysis/source"
	"flowshelf/ingest/decode"
)

func TestCellValues(t *testing.T) {
	for name, test := range map[string]struct {
		cell string // of A1
		want decode.Cell
	}{
		"number":             {`<c><v>0.300</v></c>`, decode.Cell{Kind: decode.Number, Num: 0.3, Text: "0.300"}},
		"exponent":           {`<c t="n"><v>1.5E-3</v></c>`, decode.Cell{Kind: decode.Number, Num: 0.0015, Text: "1.5E-3"}},
		"seventeen digits":   {`<c><v>0.30000000000000004</v></c>`, decode.Cell{Kind: decode.Number, Num: 0.30000000000000004, Text: "0.3"}},
		"fifteen digits":     {`<c><v>0.300000000000001</v></c>`, decode.Cell{Kind: decode.Number, Num: 0.300000000000001, Text: "0.300000000000001"}},
		"small, in digits":   {`<c><v>8.5000000000000006E-2</v></c>`, decode.Cell{Kind: decode.Number, Num: 0.085, Text: "0.085"}},
		"shared text":        {`<c t="s"><v>1</v></c>`, decode.Cell{Kind: decode.Text, Text: "cfm"}},
		"inline text":        {`<c t="inlineStr"><is><t xml:space="preserve"> a&amp;b </t></is></c>`, decode.Cell{Kind: decode.Text, Text: " a&b "}},
		"escaped return":     {`<c t="str"><v>a_x000D__x000a_b</v></c>`, decode.Cell{Kind: decode.Text, Text: "a\r\nb"}},
		"escaped underscore": {`<c t="str"><v>_x005F_x0041_</v></c>`, decode.Cell{Kind: decode.Text, Text: "_x0041_"}},
		"surrogate pair":     {`<c t="str"><v>_xD83D__xDE00_</v></c>`, decode.Cell{Kind: decode.Text, Text: "\U0001f600"}},
		"runs without readings": {`<c t="inlineStr"><is><r><t>0.</t></r><r><rPr><b/></rPr><t>300</t></r><rPh sb="0" eb="1"><t>no</t></rPh><phoneticPr/></is></c>`,
			decode.Cell{Kind: decode.Text, Text: "0.300"}},
		"struck run":          {`<c t="inlineStr"><is><r><rPr><strike/></rPr><t>0.3</t></r><r><t> 0.4</t></r></is></c>`, decode.Cell{Kind: decode.Text, Text: "0.3 0.4", Struck: true}},
		"true":                {`<c t="b"><v>1</v></c>`, decode.Cell{Kind: decode.Bool, Num: 1}},
		"false":               {`<c t="b"><v>0</v></c>`, decode.Cell{Kind: decode.Bool}},
		"error":               {`<c t="e"><v>#REF!</v></c>`, decode.Cell{Kind: decode.Failed, Text: "#REF!"}},
		"ISO date":            {`<c t="d"><v>2026-03-16</v></c>`, decode.Cell{Kind: decode.Date, Num: 46097, Text: "2026-03-16"}},
		"formula":             {`<c><f>B1*2</f><v>8</v></c>`, decode.Cell{Kind: decode.Number, Num: 8, Text: "8", Formula: "B1*2"}},
		"formula, no v":       {`<c><f>B1*2</f></c>`, decode.Cell{Formula: "B1*2", Stored: false}},
		"formula, empty v":    {`<c><f>B1*2</f><v/></c>`, decode.Cell{Formula: "B1*2", Stored: false}},
		"formula, no text":    {`<c t="str"><f>T(B1)</f><v></v></c>`, decode.Cell{Formula: "T(B1)", Stored: true}},
		"share of no formula": {`<c><f t="shared" si="4"/><v>2</v></c>`, decode.Cell{Kind: decode.Number, Num: 2, Text: "2", Formula: decode.UnreadFormula}},
		"data table":          {`<c><f t="dataTable" ref="A1:A3" r1="B1" r2="B2"/><v>8</v></c>`, decode.Cell{Kind: decode.Number, Num: 8, Text: "8", Formula: "TABLE(B1,B2)"}},
	} {
		t.Run(name, func(t *testing.T) {
			book := mustDecode(t, pack(t, workbookParts(sheetWith(`<row>`+test.cell+`</row>`))))
			want := test.want
			want.Row, want.Col = 1, 1
			want.Stored = want.Stored || want.Formula == "" || want.Kind != decode.Empty
			if diff := cmp.Diff([]decode.Cell{want}, book.Sheets[0].Cells); diff != "" {
				t.Errorf("(-want +got):\n%s", diff)
			}
		})
	}
}

// TestBlankCells are there and hold nothing: blank is not zero.
func TestBlankCells(t *testing.T) {
	for name, cell := range map[string]string{
		"no value":    `<c r="A1" s="0"/>`,
		"empty value": `<c r="A1"><v/></c>`,
		"empty text":  `<c r="A1" t="inlineStr"><is><t/></is></c>`,
		"spaces only": `<c r="A1"><v> </v></c>`,
	} {
		t.Run(name, func(t *testing.T) {
			book := mustDecode(t, pack(t, workbookParts(sheetWith(`<row r="1">`+cell+`</row>`))))
			if cells := book.Sheets[0].Cells; len(cells) > 0 {
				t.Errorf("got %+v", cells)
			}
		})
	}
}

func TestCellsThatAreRefused(t *testing.T) {
	for name, rows := range map[string]string{
		"a word as a number":        `<row><c><v>abc</v></c></row>`,
		"hexadecimal":               `<row><c><v>0x1p4</v></c></row>`,
		"infinity":                  `<row><c><v>1e999</v></c></row>`,
		"not a number":              `<row><c><v>NaN</v></c></row>`,
		"text beyond the table":     `<row><c t="s"><v>2</v></c></row>`,
		"negative text":             `<row><c t="s"><v>-1</v></c></row>`,
		"half a text":               `<row><c t="s"><v>0.5</v></c></row>`,
		"neither true nor false":    `<row><c t="b"><v>2</v></c></row>`,
		"unheard-of type":           `<row><c t="x"><v>2</v></c></row>`,
		"no such day":               `<row><c t="d"><v>2026-02-30</v></c></row>`,
		"style beyond the table":    `<row><c s="1"><v>2</v></c></row>`,
		"cell of another row":       `<row r="1"><c r="A2"><v>2</v></c></row>`,
		"cell without a row":        `<row r="1"><c r="A"><v>2</v></c></row>`,
		"column beyond the last":    `<row r="1"><c r="XFE1"><v>2</v></c></row>`,
		"row zero":                  `<row r="0"/>`,
		"row beyond the last":       `<row r="1048577"/>`,
		"a cell twice":              `<row r="1"><c r="A1"><v>2</v></c><c r="A1"><v>3</v></c></row>`,
		"a row twice":               `<row r="1"><c r="A1"><v>2</v></c></row><row r="1"><c r="A1"><v>3</v></c></row>`,
		"a drawing that is missing": `</sheetData><legacyDrawing r:id="r7"/><sheetData>`,
		"a merge of nothing":        `</sheetData><mergeCells><mergeCell ref="B2:A1"/></mergeCells><sheetData>`,
	} {
		t.Run(name, func(t *testing.T) {
			r := refusal(t, pack(t, workbookParts(sheetWith(rows))), decode.Defaults())
			if r.Kind != decode.Damaged || r.Retry {
				t.Errorf("refused as %s, retry %v: %s", r.Kind, r.Retry, r.Message)
			}
		})
	}
}

// TestNumberFormats tells dates from lengths. What is a date follows ECMA-376
// part 1, section 18.8.31 (number format codes).
func TestNumberFormats(t *testing.T) {
	for code, date := range map[string]bool{
		"0.000": false, `0.000" in"`: false, `0.0\m\m`: false, "0.00 mm": false, "#,##0.00 [$€-407]": false,
		"[Red]0.0": false, "General": false, `"day" 0`: false, "0.00E+00": false, "# ?/?": false, "@": false,
		`_("$"* #,##0.00_);_("$"* \(#,##0.00\);_("$"* "-"??_);_(@_)`: false, "General;[Red]-0": false,
		"yyyy-mm-dd": true, "d mmm yy": true, "[$-409]d-mmm-yy;@": true, "h:mm AM/PM": true, "[h]:mm": true,
		"mm:ss.0": true, "[ss].00": true, `yyyy"y"`: true, "dddd": true, `[Blue]d\.m\.yyyy`: true,
	} {
		t.Run(code, func(t *testing.T) {
			f := excelize.NewFile()
			style, err := f.NewStyle(&excelize.Style{CustomNumFmt: &code})
			if err != nil {
				t.Fatal(err)
			}
			book := mustDecode(t, write(t, f, func() error {
				if err := f.SetCellStyle("Sheet1", "A1", "A1", style); err != nil {
					return err
				}
				return f.SetCellValue("Sheet1", "A1", 46097.5)
			}))
			cell := book.Sheets[0].At(1, 1)
			if (cell.Kind == decode.Date) != date || cell.Num != 46097.5 {
				t.Errorf("got %+v, want a date: %v", cell, date)
			}
			if cell.Format != code && code != "General" {
				t.Errorf("format %q", cell.Format)
			}
		})
	}
}

// TestBuiltInFormats asks openpyxl's table (by way of excelize, which shares
// no code with it) which of the numbered formats are dates.
func TestBuiltInFormats(t *testing.T) {
	dates := map[int]bool{14: true, 15: true, 16: true, 17: true, 18: true, 19: true, 20: true, 21: true, 22: true,
		27: true, 30: true, 36: true, 45: true, 46: true, 47: true, 50: true, 58: true} // ECMA-376 part 1, 18.8.30
	for _, id := range []int{0, 1, 2, 3, 4, 9, 10, 11, 12, 13, 14, 15, 16, 17, 18, 19, 20, 21, 22, 27, 30, 36,
		37, 38, 39, 40, 41, 42, 43, 44, 45, 46, 47, 48, 49, 50, 58} {
		parts := workbookParts(sheetWith(`<row><c s="1"><v>40000</v></c></row>`))
		parts = replaced(parts, `<xf numFmtId="0"/>`, fmt.Sprintf(`<xf numFmtId="0"/><xf numFmtId="%d"/>`, id))
		if cell := mustDecode(t, pack(t, parts)).Sheets[0].At(1, 1); (cell.Kind == decode.Date) != dates[id] {
			t.Errorf("format %d, %q: %+v", id, cell.Format, cell)
		}
	}
}

// TestSharedFormulas compares the shifted text with what openpyxl's formula
// translator makes of it.
func TestSharedFormulas(t *testing.T) {
	needProgram(t, debianPython)
	formulas := []string{
		"A1*2", "$A1+A$1+$A$1", "SUM(A1:B3)", "LOG10(A1)", `"A1"&A1`, "'A1 sheet'!A1", "A1%", "AB1!A1+1",
		`IF(A1>0,"it's A1",'a''b'!A1)`, "A1:$C4", "-A1^2", "TAX2026+1",
	}
	const translate = `
import sys
from openpyxl.formula.translate import Translator
for formula in sys.argv[1:]:
    for row in (5, 6, 7):
        for col in "DEF":
            print(Translator("=" + formula, origin="D5").translate_formula(col + str(row))[1:])
`
	out, err := exec.Command(debianPython, append([]string{"-c", translate}, formulas...)...).Output()
	if err != nil {
		t.Fatal(err)
	}
	want := strings.Split(string(out), "\n")
	for i, formula := range formulas {
		var rows strings.Builder
		for row := 5; row <= 7; row++ {
			fmt.Fprintf(&rows, `<row r="%d">`, row)
			for col := 4; col <= 6; col++ {
				text := ""
				if row == 5 && col == 4 {
					text = html.EscapeString(formula)
				}
				fmt.Fprintf(&rows, `<c r="%s"><f t="shared" ref="D5:F7" si="3">%s</f><v>1</v></c>`, source.CellName(row, col), text)
			}
			rows.WriteString("</row>")
		}
		for j, cell := range mustDecode(t, pack(t, workbookParts(sheetWith(rows.String())))).Sheets[0].Cells {
			if cell.Formula != want[9*i+j] {
				t.Errorf("%s shared to %s is %q, openpyxl says %q", formula, source.CellName(cell.Row, cell.Col), cell.Formula, want[9*i+j])
			}
		}
	}
}

// TestWrittenGridsComeBack writes random grids with excelize, which stores
// fifteen digits.
func TestWrittenGridsComeBack(t *testing.T) {
	thousandths := rapid.Map(rapid.IntRange(-1e9, 1e9), func(n int) float64 { return float64(n) / 1000 })
	rapid.Check(t, func(rt *rapid.T) {
		f := excelize.NewFile()
		want := make(map[[2]int]any)
		for range rapid.IntRange(0, 40).Draw(rt, "cells") {
			row, col := rapid.IntRange(1, 2000).Draw(rt, "row"), rapid.IntRange(1, 200).Draw(rt, "col")
			value := rapid.OneOf(
				thousandths.AsAny(), rapid.IntRange(-100000, 100000).AsAny(), rapid.Bool().AsAny(),
				rapid.StringMatching(`[ -~é°Ø]{1,20}`).AsAny(),
			).Draw(rt, "value")
			if err := f.SetCellValue("Sheet1", source.CellName(row, col), value); err != nil {
				rt.Fatal(err)
			}
			want[[2]int{row, col}] = value
		}
		sheet := &mustDecode(t, write(t, f, func() error { return nil })).Sheets[0]
		if len(sheet.Cells) != len(want) {
			rt.Fatalf("%d cells came back of %d", len(sheet.Cells), len(want))
		}
		for at, value := range want {
			cell := sheet.At(at[0], at[1])
			switch v := value.(type) {
			case float64:
				if cell.Kind != decode.Number || cell.Num != v {
					rt.Fatalf("%v came back as %+v", v, cell)
				}
			case int:
				if cell.Kind != decode.Number || cell.Num != float64(v) {
					rt.Fatalf("%v came back as %+v", v, cell)
				}
			case bool:
				if cell.Kind != decode.Bool || (cell.Num == 1) != v {
					rt.Fatalf("%v came back as %+v", v, cell)
				}
			case string:
				if cell.Kind != decode.Text || cell.Text != v {
					rt.Fatalf("%q came back as %+v", v, cell)
				}
			}
		}
	})
}

// write fills a new book and returns its bytes.
func write(t testing.TB, f *excelize.File, fill func() error) []byte {
	t.Helper()
	if err := fill(); err != nil {
		t.Fatal(err)
	}
	buffer, err := f.WriteToBuffer()
	if err != nil {
		t.Fatal(err)
	}
	return buffer.Bytes()
}
