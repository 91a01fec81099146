package decode_test

import (
	"context"
	"errors"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"flowshelf/ingest/decode"
)

// document packs the smallest OpenDocument spreadsheet around some tables.
func document(t testing.TB, styles, tables string, more ...part) []byte {
	t.Helper()
	const content = `<office:document-content xmlns:office="o" xmlns:table="t" xmlns:text="x" xmlns:style="s" xmlns:fo="f" ` +
		`xmlns:number="n" xmlns:draw="d" xmlns:calcext="c" xmlns:dc="e">`
	return pack(t, append([]part{
		{"mimetype", "application/vnd.oasis.opendocument.spreadsheet"},
		{"content.xml", content + `<office:automatic-styles>` + styles + `</office:automatic-styles>` +
			`<office:body><office:spreadsheet>` + tables + `</office:spreadsheet></office:body></office:document-content>`},
	}, more...))
}

func TestDocumentCells(t *testing.T) {
	const styles = `<style:style style:name="base" style:family="table-cell"><style:text-properties fo:font-weight="bold"/></style:style>` +
		`<style:style style:name="out" style:family="table-cell" style:parent-style-name="base" style:data-style-name="mm">` +
		`<style:table-cell-properties fo:background-color="#ffff00"/><style:text-properties style:text-line-through-style="solid"/></style:style>` +
		`<style:style style:name="circle" style:family="table-cell" style:parent-style-name="circle"/>` +
		`<style:style style:name="struck" style:family="text"><style:text-properties style:text-line-through-type="single"/></style:style>` +
		`<number:number-style style:name="mm"><number:number number:decimal-places="2" number:min-integer-digits="1"/><number:text> mm</number:text></number:number-style>`
	for name, test := range map[string]struct {
		cell string // of A1
		want decode.Cell
	}{
		"number":       {`office:value-type="float" office:value="0.300"><text:p>.3</text:p>`, decode.Cell{Kind: decode.Number, Num: 0.3, Text: "0.300"}},
		"percentage":   {`office:value-type="percentage" office:value="0.73"><text:p>73%</text:p>`, decode.Cell{Kind: decode.Number, Num: 0.73, Text: "0.73"}},
		"text":         {`office:value-type="string"><text:p>LKC<text:s text:c="2"/>12<text:tab/>x<text:line-break/>y</text:p><text:p>z</text:p>`, decode.Cell{Kind: decode.Text, Text: "LKC  12\tx\ny\nz"}},
		"hidden text":  {`office:value-type="string" office:string-value="x">`, decode.Cell{Kind: decode.Text, Text: "x"}},
		"error":        {`office:value-type="string" office:string-value="" calcext:value-type="error"><text:p>#N/A</text:p>`, decode.Cell{Kind: decode.Failed, Text: "#N/A"}},
		"boolean":      {`office:value-type="boolean" office:boolean-value="true"><text:p>yes</text:p>`, decode.Cell{Kind: decode.Bool, Num: 1}},
		"logical":      {`office:value-type="float" office:value="0" calcext:value-type="float"><text:p>FALSE</text:p>`, decode.Cell{Kind: decode.Bool}},
		"date":         {`office:value-type="date" office:date-value="2026-03-16T12:00:00"><text:p>16 Mar</text:p>`, decode.Cell{Kind: decode.Date, Num: 46097.5, Text: "2026-03-16T12:00:00"}},
		"time":         {`office:value-type="time" office:time-value="PT18H00M00S"><text:p>18:00</text:p>`, decode.Cell{Kind: decode.Date, Num: 0.75, Text: "PT18H00M00S"}},
		"formula":      {`table:formula="of:=SUM([.B2:.B3];[$Costs.C$3])*IF([.A2]=&quot;a;[b.&quot;;1;2)" office:value-type="float" office:value="8"><text:p>8</text:p>`, decode.Cell{Kind: decode.Number, Num: 8, Text: "8", Formula: `SUM(B2:B3,$Costs!C$3)*IF(A2="a;[b.",1,2)`}},
		"no result":    {`table:formula="of:=1+1">`, decode.Cell{Formula: "1+1", Stored: false}},
		"empty result": {`table:formula="of:=T([.B1])" office:value-type="string" office:string-value=""><text:p/>`, decode.Cell{Formula: "T(B1)", Stored: true}},
		"style":        {`table:style-name="out" office:value-type="float" office:value="1"><text:p>1</text:p>`, decode.Cell{Kind: decode.Number, Num: 1, Text: "1", Format: `0.00" mm"`, Struck: true, Bold: true, Filled: true}},
		"style circle": {`table:style-name="circle" office:value-type="float" office:value="1"><text:p>1</text:p>`, decode.Cell{Kind: decode.Number, Num: 1, Text: "1"}},
		"struck span":  {`office:value-type="string"><text:p>a <text:span text:style-name="struck">b</text:span></text:p>`, decode.Cell{Kind: decode.Text, Text: "a b", Struck: true}},
		"note":         {`><office:annotation><dc:creator>somebody</dc:creator><text:p>re-run</text:p><text:p>twice</text:p></office:annotation>`, decode.Cell{Note: "re-run\ntwice"}},
	} {
		t.Run(name, func(t *testing.T) {
			book := mustDecode(t, document(t, styles, `<table:table table:name="Flow"><table:table-row><table:table-cell `+test.cell+`</table:table-cell></table:table-row></table:table>`))
			want := test.want
			want.Row, want.Col = 1, 1
			want.Stored = want.Stored || want.Formula == "" || want.Kind != decode.Empty
			if diff := cmp.Diff([]decode.Cell{want}, book.Sheets[0].Cells); diff != "" {
				t.Errorf("(-want +got):\n%s", diff)
			}
		})
	}
}

const oneValue = `<table:table-cell office:value-type="float" office:value="7"/>`

func TestDocumentRepeats(t *testing.T) {
	book := mustDecode(t, document(t, "", `<table:tracked-changes><table:table-row>`+oneValue+`</table:table-row></table:tracked-changes>`+
		`<table:table table:name="Flow"><table:table-column table:number-columns-repeated="2"/><table:table-column table:visibility="collapse" table:number-columns-repeated="16382"/>`+
		`<table:table-row table:number-rows-repeated="2"><table:table-cell/></table:table-row>`+
		`<table:table-row-group><table:table-row table:number-rows-repeated="2" table:visibility="filter"><table:table-cell/>`+
		`<table:table-cell table:number-columns-repeated="2" office:value-type="float" office:value="7"/></table:table-row></table:table-row-group>`+
		`<table:table-row table:number-rows-repeated="1048572"><table:table-cell table:number-columns-repeated="16384"/></table:table-row></table:table>`+
		`<table:table table:name="'file:///x.ods'#$Costs"><table:table-source/><table:table-row>`+oneValue+`</table:table-row></table:table>`))
	if len(book.Sheets) != 1 || book.Links != 1 {
		t.Fatalf("%d sheets, %d links", len(book.Sheets), book.Links)
	}
	sheet := &book.Sheets[0]
	for _, at := range [][2]int{{3, 2}, {3, 3}, {4, 2}, {4, 3}} {
		if sheet.At(at[0], at[1]).Num != 7 {
			t.Errorf("%v is %+v", at, sheet.At(at[0], at[1]))
		}
	}
	if len(sheet.Cells) != 4 || !cmp.Equal(sorted(sheet.HiddenRows), []int{3, 4}) || !cmp.Equal(sorted(sheet.HiddenCols), []int{3}) {
		t.Errorf("%d cells, hidden rows %v, columns %v", len(sheet.Cells), sheet.HiddenRows, sheet.HiddenCols)
	}
}

func TestDocumentsThatAreRefused(t *testing.T) {
	row := func(inside string) []byte {
		return document(t, "", `<table:table table:name="Flow"><table:table-row>`+inside+`</table:table-row></table:table>`)
	}
	for name, test := range map[string]struct {
		content []byte
		kind    string
	}{
		"password": {document(t, "", "", part{"META-INF/manifest.xml", `<manifest><file-entry><encryption-data/></file-entry></manifest>`}), decode.Encrypted},
		"password, new way": {pack(t, []part{{"mimetype", "application/vnd.oasis.opendocument.spreadsheet"},
			{"META-INF/manifest.xml", `<manifest><file-entry full-path="encrypted-package"><encryption-data/></file-entry></manifest>`}, {"encrypted-package", "x"}}), decode.Encrypted},
		"million times": {row(strings.Replace(oneValue, " ", ` table:number-columns-repeated="16384" `, 1) + strings.Repeat(oneValue, 0)), "read"},
		"all cells of a sheet": {document(t, "", `<table:table table:name="Flow"><table:table-row table:number-rows-repeated="1048576">`+
			`<table:table-cell table:number-columns-repeated="16384" office:value-type="float" office:value="7"/></table:table-row></table:table>`), decode.TooLarge},
		"blanks without end":   {row(`<table:table-cell office:value-type="string"><text:p><text:s text:c="999999999"/></text:p></table:table-cell>`), decode.TooLarge},
		"too many columns":     {row(strings.Repeat(`<table:table-cell table:number-columns-repeated="16384"/>`, 2)), decode.Damaged},
		"too many rows":        {document(t, "", `<table:table table:name="F"><table:table-row table:number-rows-repeated="1048576"/><table:table-row/></table:table>`), decode.Damaged},
		"repeated never":       {row(`<table:table-cell table:number-columns-repeated="0"/>`), decode.Damaged},
		"a word as a number":   {row(`<table:table-cell office:value-type="float" office:value="abc"/>`), decode.Damaged},
		"no such day":          {row(`<table:table-cell office:value-type="date" office:date-value="2026-02-30"/>`), decode.Damaged},
		"unheard-of type":      {row(`<table:table-cell office:value-type="void"/>`), decode.Damaged},
		"merged off the sheet": {row(`<table:table-cell table:number-rows-spanned="1048576"/><table:table-cell table:number-columns-spanned="16384"/>`), decode.Damaged},
		"ill-formed":           {row(`<table:table-cell>`), decode.Damaged},
		"a text document":      {pack(t, []part{{"mimetype", "application/vnd.oasis.opendocument.text"}, {"content.xml", "<a/>"}}), decode.UnknownFormat},
	} {
		t.Run(name, func(t *testing.T) {
			if test.kind == "read" {
				if n := len(mustDecode(t, test.content).Sheets[0].Cells); n != 16384 {
					t.Errorf("%d cells", n)
				}
				return
			}
			if r := refusal(t, test.content, decode.Defaults()); r.Kind != test.kind {
				t.Errorf("refused as %s: %s", r.Kind, r.Message)
			}
		})
	}
}

// FuzzDocument feeds any bytes as the content part of a document.
func FuzzDocument(f *testing.F) {
	f.Add([]byte(`<a><automatic-styles><style name="x" family="table-cell" parent-style-name="x"/></automatic-styles><body><spreadsheet>` +
		`<table name="F"><table-column number-columns-repeated="3"/><table-row number-rows-repeated="2"><table-cell value-type="float" value="1" number-columns-repeated="2"/>` +
		`<table-cell value-type="string"><p>a<s c="3"/></p><annotation><p>n</p></annotation></table-cell></table-row></table></spreadsheet></body></a>`))
	limits := decode.Defaults()
	limits.UnzippedBytes, limits.Cells = 1<<20, 1000
	f.Fuzz(func(t *testing.T, content []byte) {
		packed := pack(t, []part{{"mimetype", "application/vnd.oasis.opendocument.spreadsheet"}, {"content.xml", string(content)}})
		book, err := decode.Open(context.Background(), "book", packed, limits)
		var refused *decode.Refusal
		switch {
		case err == nil:
			checkGrid(t, book, limits)
		case !errors.As(err, &refused):
			t.Fatalf("not a Refusal: %v", err)
		}
	})
}

// Programs have written parts beside the document that are no XML to speak of: an
// empty list of shortcuts, macros and a manifest that declare a document type.
// The figures are whole all the same. What the document itself holds is not
// forgiven.
func TestWhatStandsBesideADocument(t *testing.T) {
	const table = `<table:table table:name="Flow"><table:table-row>` + oneValue + `</table:table-row></table:table>`
	book := mustDecode(t, document(t, "", table,
		part{"Configurations2/accelerator/current.xml", ""},
		part{"Basic/script-lc.xml", `<!DOCTYPE library:libraries PUBLIC "-//OpenOffice.org//DTD OfficeDocument 1.0//EN" "libraries.dtd"><library:libraries/>`},
		part{"META-INF/manifest.xml", `<!DOCTYPE manifest:manifest PUBLIC "-//OpenOffice.org//DTD Manifest 1.0//EN" "Manifest.dtd"><manifest:manifest/>`}))
	if len(book.Sheets) != 1 || len(book.Sheets[0].Cells) != 1 {
		t.Errorf("%+v", book.Sheets)
	}
	for name, beside := range map[string]part{
		"empty styles":             {"styles.xml", ""},
		"entities in the manifest": {"META-INF/manifest.xml", `<!DOCTYPE manifest:manifest PUBLIC "x" "y" [<!ENTITY a "b">]><manifest:manifest/>`},
		"a type in the settings":   {"settings.xml", `<!DOCTYPE settings SYSTEM "http://localhost/x"><settings/>`},
	} {
		if r := refusal(t, document(t, "", table, beside), decode.Defaults()); r.Kind != decode.Damaged {
			t.Errorf("%s: refused as %s", name, r.Kind)
		}
	}
}
