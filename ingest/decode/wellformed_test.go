package decode_test

import (
	"context"
	"encoding/xml"
	"errors"
	"io"
	"strings"
	"testing"

	"flowshelf/ingest/decode"
)

// illFormed are sheet parts that no XML reader may accept.
var illFormed = map[string]string{
	"cut off":                `<worksheet><sheetData><row r="1"><c r="A1"><v>1</v></c></row>`,
	"cut in a tag":           `<worksheet><sheetData><row r="1"><c r="A1`,
	"crossed tags":           `<worksheet><sheetData><row></sheetData></row></worksheet>`,
	"closed twice":           `<worksheet><sheetData/></worksheet></worksheet>`,
	"two roots":              `<worksheet><sheetData/></worksheet><worksheet/>`,
	"text behind the root":   `<worksheet><sheetData/></worksheet>x`,
	"nothing":                ` `,
	"no quotes":              `<worksheet a=1/>`,
	"open quote":             `<worksheet a="1/>`,
	"attribute twice":        `<worksheet a="1" a="2"/>`,
	"attributes not spaced":  `<worksheet a="1"b="2"/>`,
	"tag in attribute":       `<worksheet a="<"/>`,
	"unknown entity":         `<worksheet>&nbsp;</worksheet>`,
	"unknown entity in data": `<worksheet a="&x;"/>`,
	"open entity":            `<worksheet>&amp</worksheet>`,
	"character zero":         `<worksheet>&#0;</worksheet>`,
	"control character":      "<worksheet>\x01</worksheet>",
	"not UTF-8":              "<worksheet>\xff\xfe\xfd</worksheet>",
	"open comment":           `<worksheet><!-- </worksheet>`,
	"dashes in comment":      `<worksheet><!-- a -- b --></worksheet>`,
	"section ends":           `<worksheet>]]></worksheet>`,
	"open section":           `<worksheet><![CDATA[x</worksheet>`,
	"late declaration":       `<worksheet><?xml version="1.0"?></worksheet>`,
	"empty instruction":      `<?>`,
	"nameless tag":           `<worksheet>< a/></worksheet>`,
	"number as a name":       `<worksheet><1a/></worksheet>`,
	"document type":          `<!DOCTYPE worksheet [<!ENTITY x "1">]><worksheet>&x;</worksheet>`,
	"document type, SYSTEM":  `<!DOCTYPE worksheet SYSTEM "http://localhost/x"><worksheet/>`,
	"another version":        `<?xml version="1"?><worksheet/>`,
	"misspelt encoding":      `<?xml version="1.0" encodinerg="utf-8"?><worksheet/>`,
	"other encoding":         `<?xml version="1.0" encoding="shift_jis"?><worksheet/>`,
}

func TestIllFormedPartsAreRefused(t *testing.T) {
	for name, sheet := range illFormed {
		t.Run(name, func(t *testing.T) {
			if r := refusal(t, pack(t, workbookParts(sheet)), decode.Defaults()); r.Kind != decode.Damaged {
				t.Errorf("refused as %s", r.Kind)
			}
		})
	}
}

func TestWellFormedOddities(t *testing.T) {
	for name, sheet := range map[string]string{
		"declaration and mark": "\ufeff" + `<?xml version='1.0' encoding='utf-8' standalone="yes" ?>` + sheetWith(`<row r="1"><c r="A1"><v>7</v></c></row>`),
		"comment in a value":   sheetWith(`<row r="1"><c r="A1"><v><!-- - -->7</v></c></row>`),
		"section in a value":   sheetWith(`<row r="1"><c r="A1"><v><![CDATA[7]]></v></c></row>`),
		"reference in a value": sheetWith(`<row r="1"><c r="A1"><v>&#x37;</v></c></row>`),
		"blanks everywhere":    sheetWith("<row\n r = '1' >\n<c r='A1' ><v > 7\n</v ></c >\n</row >"),
		"no positions":         sheetWith(`<row><c><v>7</v></c></row>`),
		"foreign elements":     sheetWith(`<x:y xmlns:x="u"><row r="1"/></x:y><row r="1"><c r="A1"><extLst><v>8</v></extLst><v>7</v></c></row>`),
		"instruction":          `<?xml-stylesheet href="x"?>` + sheetWith(`<row r="1"><?pi?><c r="A1"><v>7</v></c></row>`),
	} {
		t.Run(name, func(t *testing.T) {
			book := mustDecode(t, pack(t, workbookParts(sheet)))
			if cell := book.Sheets[0].At(1, 1); cell.Kind != decode.Number || cell.Num != 7 {
				t.Errorf("A1 is %+v, want 7", cell)
			}
		})
	}
}

// TestDeepNesting must end in a refusal, not in a stack overflow.
func TestDeepNesting(t *testing.T) {
	deep := strings.Repeat("<a>", 1_000_000)
	if r := refusal(t, pack(t, workbookParts("<worksheet>"+deep)), decode.Defaults()); r.Kind != decode.Damaged {
		t.Errorf("refused as %s", r.Kind)
	}
}

// FuzzSheetPart feeds any bytes as a sheet part: what is read must be
// well-formed by the standard library's parser too, and must come out of every
// fault as a Refusal.
func FuzzSheetPart(f *testing.F) {
	for _, sheet := range illFormed {
		f.Add([]byte(sheet))
	}
	f.Add([]byte(sheetWith(oneRow)))
	f.Add([]byte(sheetWith(`<row r="2" hidden="1"><c r="A2" t="inlineStr"><is><r><t>a</t></r><rPh><t>b</t></rPh></is></c>` +
		`<c r="B2" t="str"><f t="shared" ref="B2:B3" si="0">A1&amp;"x"</f><v>x</v></c></row><row r="3"><c r="B3" t="e"><f t="shared" si="0"/><v>#N/A</v></c></row>`)))
	limits := decode.Defaults()
	limits.UnzippedBytes, limits.Cells = 1<<20, 1000
	f.Fuzz(func(t *testing.T, sheet []byte) {
		content := pack(t, workbookParts(string(sheet)))
		book, err := decode.Open(context.Background(), "book", content, limits)
		var refused *decode.Refusal
		if err != nil {
			if !errors.As(err, &refused) {
				t.Fatalf("not a Refusal: %v", err)
			}
			return
		}
		checkGrid(t, book, limits)
		if hasUTF16Mark(sheet) || hasHighBytes(sheet) {
			return // the standard library reads UTF-8 only, and fewer names
		}
		tokens := xml.NewDecoder(strings.NewReader(string(sheet)))
		tokens.CharsetReader = func(_ string, in io.Reader) (io.Reader, error) { return in, nil }
		for {
			if _, err := tokens.Token(); errors.Is(err, io.EOF) {
				return
			} else if err != nil {
				t.Fatalf("accepted what encoding/xml refuses: %v", err)
			}
		}
	})
}

func hasUTF16Mark(data []byte) bool {
	return len(data) > 1 && (data[0] == 0 || data[1] == 0 || data[0] >= 0xfe)
}

func hasHighBytes(data []byte) bool {
	for _, b := range data {
		if b >= 0x80 {
			return true
		}
	}
	return false
}

// checkGrid holds for every decoded book: cells in order, once each, within the
// limits, with a value that fits their kind.
func checkGrid(t *testing.T, book *decode.Book, limits decode.Limits) {
	t.Helper()
	cells := 0
	for _, sheet := range book.Sheets {
		for i, c := range sheet.Cells {
			cells++
			if i > 0 {
				before := sheet.Cells[i-1]
				if before.Row > c.Row || before.Row == c.Row && before.Col >= c.Col {
					t.Fatalf("cell %d,%d stands behind %d,%d", c.Row, c.Col, before.Row, before.Col)
				}
			}
			if c.Row < 1 || c.Col < 1 || c.Row > limits.Rows || c.Col > limits.Cols {
				t.Fatalf("cell %d,%d is off the sheet", c.Row, c.Col)
			}
			if c.Num != c.Num || len(c.Text) > limits.TextBytes || (c.Kind == decode.Text && c.Text == "") {
				t.Fatalf("cell %+v", c)
			}
			if c.Blank() && c.Note == "" && c.Formula == "" {
				t.Fatalf("blank cell %d,%d", c.Row, c.Col)
			}
		}
	}
	if cells > limits.Cells {
		t.Fatalf("%d cells", cells)
	}
}
