//go:build unix

package faults_test

import (
	"archive/zip"
	"bytes"
	"fmt"
	"strings"
)

// sheet is a flow sheet of the own bench with a known number of readings.
type sheet struct {
	head    string
	version int // changes how many lifts there are, and so how many readings
}

const lifts = 6 // of version 0

// readings is how many flow readings the sheet holds.
func (s sheet) readings() int { return 2 * len(s.lifts()) }

func (s sheet) lifts() []float64 {
	var out []float64
	for i := range lifts + s.version%7 {
		out = append(out, 0.05*float64(i+2))
	}
	return out
}

// rows are the cells of the sheet. The flows are made up: a curve that flattens.
func (s sheet) rows() [][]any {
	rows := [][]any{
		{s.head}, {"Serial", fmt.Sprintf("S%d", s.version), "Date", "2026-02-10"},
		{"Bore", 4.0, "Test press.", "28 inH2O"}, {"Bench", "Shop bench", "Ports", 1}, {},
		{"Lift", "Int cfm", "Exh cfm"},
	}
	for _, lift := range s.lifts() {
		in := 250 * lift / (lift + 0.35)
		rows = append(rows, []any{lift, float64(int(in)), float64(int(0.72 * in))})
	}
	return rows
}

// xlsx returns the sheet as a workbook (ECMA-376 part 1, the parts that every
// workbook has, with inline strings).
func (s sheet) xlsx() []byte { return pack("Sheet1", s.rows()) }

const (
	contentTypes = `<?xml version="1.0" encoding="UTF-8"?><Types xmlns="http://schemas.openxmlformats.org/package/2006/content-types"><Default Extension="rels" ContentType="application/vnd.openxmlformats-package.relationships+xml"/><Default Extension="xml" ContentType="application/xml"/><Override PartName="/xl/workbook.xml" ContentType="application/vnd.openxmlformats-officedocument.spreadsheetml.sheet.main+xml"/><Override PartName="/xl/worksheets/sheet1.xml" ContentType="application/vnd.openxmlformats-officedocument.spreadsheetml.worksheet+xml"/></Types>`
	topRels      = `<?xml version="1.0" encoding="UTF-8"?><Relationships xmlns="http://schemas.openxmlformats.org/package/2006/relationships"><Relationship Id="rId1" Type="http://schemas.openxmlformats.org/officeDocument/2006/relationships/officeDocument" Target="xl/workbook.xml"/></Relationships>`
	bookRels     = `<?xml version="1.0" encoding="UTF-8"?><Relationships xmlns="http://schemas.openxmlformats.org/package/2006/relationships"><Relationship Id="rId1" Type="http://schemas.openxmlformats.org/officeDocument/2006/relationships/worksheet" Target="worksheets/sheet1.xml"/></Relationships>`
	bookXML      = `<?xml version="1.0" encoding="UTF-8"?><workbook xmlns="http://schemas.openxmlformats.org/spreadsheetml/2006/main" xmlns:r="http://schemas.openxmlformats.org/officeDocument/2006/relationships"><sheets><sheet name="%s" sheetId="1" r:id="rId1"/></sheets></workbook>`
)

// pack makes a workbook of one sheet.
func pack(name string, rows [][]any) []byte {
	var cells strings.Builder
	cells.WriteString(`<?xml version="1.0" encoding="UTF-8"?><worksheet xmlns="http://schemas.openxmlformats.org/spreadsheetml/2006/main"><sheetData>`)
	for r, row := range rows {
		fmt.Fprintf(&cells, `<row r="%d">`, r+1)
		for c, v := range row {
			at := fmt.Sprintf("%c%d", 'A'+c, r+1)
			if text, ok := v.(string); ok {
				fmt.Fprintf(&cells, `<c r="%s" t="inlineStr"><is><t xml:space="preserve">%s</t></is></c>`, at, escape(text))
			} else {
				fmt.Fprintf(&cells, `<c r="%s"><v>%v</v></c>`, at, v)
			}
		}
		cells.WriteString("</row>")
	}
	cells.WriteString("</sheetData></worksheet>")
	return zipped([]part{
		{"[Content_Types].xml", contentTypes}, {"_rels/.rels", topRels}, {"xl/_rels/workbook.xml.rels", bookRels},
		{"xl/workbook.xml", fmt.Sprintf(bookXML, escape(name))}, {"xl/worksheets/sheet1.xml", cells.String()},
	})
}

type part struct{ name, content string }

func zipped(parts []part) []byte {
	var b bytes.Buffer
	z := zip.NewWriter(&b)
	for _, p := range parts {
		w, err := z.Create(p.name)
		if err == nil {
			_, err = w.Write([]byte(p.content))
		}
		if err != nil {
			panic(err) // a buffer never fails
		}
	}
	if err := z.Close(); err != nil {
		panic(err)
	}
	return b.Bytes()
}

func escape(text string) string {
	return strings.NewReplacer("&", "&amp;", "<", "&lt;", ">", "&gt;", `"`, "&quot;").Replace(text)
}
