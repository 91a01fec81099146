package decode_test

import (
	"archive/zip"
	"bytes"
	"context"
	"errors"
	"fmt"
	"math/rand/v2"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"

	"github.com/xuri/excelize/v2"

	"flowshelf/ingest/decode"
)

// needProgram skips a test whose independent judge is not installed; in
// continuous integration that is a failure.
func needProgram(t testing.TB, path string) {
	t.Helper()
	if _, err := exec.LookPath(path); err == nil {
		return
	}
	if os.Getenv("CI") == "true" {
		t.Fatalf("%s is not installed", path)
	}
	t.Skipf("%s is not installed", path)
}

func fixture(t testing.TB, name string) []byte {
	t.Helper()
	content, err := os.ReadFile(filepath.Join("testdata", name))
	if err != nil {
		t.Fatal(err)
	}
	return content
}

func open(t testing.TB, name string) *decode.Book {
	t.Helper()
	return mustDecode(t, fixture(t, name))
}

func mustDecode(t testing.TB, content []byte) *decode.Book {
	t.Helper()
	book, err := decode.Open(context.Background(), "book", content, decode.Defaults())
	if err != nil {
		t.Fatalf("refused: %v", err)
	}
	return book
}

// refusal decodes content that must be refused.
func refusal(t testing.TB, content []byte, limits decode.Limits) *decode.Refusal {
	t.Helper()
	_, err := decode.Open(context.Background(), "book", content, limits)
	var refused *decode.Refusal
	if !errors.As(err, &refused) {
		t.Fatalf("got error %v, want a Refusal", err)
	}
	if message := refused.Message; !strings.HasSuffix(message, ".") || strings.Contains(message, "\n") {
		t.Errorf("message %q is not one plain sentence", message)
	}
	return refused
}

// part is one entry of a container made by a test.
type part struct{ name, text string }

// The parts of the smallest workbook, with one sheet to be filled.
func workbookParts(sheetXML string, more ...part) []part {
	const main = `http://schemas.openxmlformats.org/spreadsheetml/2006/main`
	const rels = `http://schemas.openxmlformats.org/officeDocument/2006/relationships`
	parts := []part{
		{"[Content_Types].xml", `<Types xmlns="http://schemas.openxmlformats.org/package/2006/content-types">` +
			`<Default Extension="rels" ContentType="application/vnd.openxmlformats-package.relationships+xml"/>` +
			`<Default Extension="xml" ContentType="application/xml"/>` +
			`<Override PartName="/xl/workbook.xml" ContentType="application/vnd.openxmlformats-officedocument.spreadsheetml.sheet.main+xml"/></Types>`},
		{"_rels/.rels", `<Relationships><Relationship Id="r1" Type="` + rels + `/officeDocument" Target="xl/workbook.xml"/></Relationships>`},
		{"xl/workbook.xml", `<workbook xmlns="` + main + `" xmlns:r="` + rels + `"><sheets><sheet name="Flow" sheetId="1" r:id="r1"/></sheets></workbook>`},
		{"xl/_rels/workbook.xml.rels", `<Relationships>` +
			`<Relationship Id="r1" Type="` + rels + `/worksheet" Target="worksheets/sheet1.xml"/>` +
			`<Relationship Id="r2" Type="` + rels + `/sharedStrings" Target="sharedStrings.xml"/>` +
			`<Relationship Id="r3" Type="` + rels + `/styles" Target="styles.xml"/></Relationships>`},
		{"xl/worksheets/sheet1.xml", sheetXML},
		{"xl/sharedStrings.xml", `<sst xmlns="` + main + `"><si><t>lift</t></si><si><t>cfm</t></si></sst>`},
		{"xl/styles.xml", `<styleSheet xmlns="` + main + `"><cellXfs count="1"><xf numFmtId="0"/></cellXfs></styleSheet>`},
	}
	return append(parts, more...)
}

// pack zips parts in order.
func pack(t testing.TB, parts []part) []byte {
	t.Helper()
	var buffer bytes.Buffer
	w := zip.NewWriter(&buffer)
	for _, p := range parts {
		f, err := w.Create(p.name)
		if err != nil {
			t.Fatal(err)
		}
		if _, err := f.Write([]byte(p.text)); err != nil {
			t.Fatal(err)
		}
	}
	if err := w.Close(); err != nil {
		t.Fatal(err)
	}
	return buffer.Bytes()
}

// sheetWith wraps rows into a worksheet part.
func sheetWith(rows string) string {
	return `<worksheet xmlns="http://schemas.openxmlformats.org/spreadsheetml/2006/main"><sheetData>` + rows + `</sheetData></worksheet>`
}

// largeBook is a flow log of many rows, written by excelize.
func largeBook(t testing.TB, rows int) []byte {
	t.Helper()
	f := excelize.NewFile()
	w, err := f.NewStreamWriter("Sheet1")
	if err != nil {
		t.Fatal(err)
	}
	rng := rand.New(rand.NewPCG(2, 2))
	for row := range rows {
		flow := 60 + 200*rng.Float64()
		record := []any{fmt.Sprintf("run %d", row), float64(rng.IntN(700)) / 1000, flow, flow * 0.73, rng.IntN(2) == 0,
			excelize.Cell{Formula: fmt.Sprintf("D%d/C%d", row+1, row+1), Value: 0.73}}
		if err := w.SetRow(fmt.Sprintf("A%d", row+1), record); err != nil {
			t.Fatal(err)
		}
	}
	if err := w.Flush(); err != nil {
		t.Fatal(err)
	}
	buffer, err := f.WriteToBuffer()
	if err != nil {
		t.Fatal(err)
	}
	return buffer.Bytes()
}
