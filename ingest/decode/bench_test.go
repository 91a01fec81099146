package decode_test

import (
	"bytes"
	"context"
	"testing"

	"github.com/xuri/excelize/v2"

	"flowshelf/ingest/decode"
)

// Whole processes are compared with openpyxl by testdata/bench-src/readers.py.

func BenchmarkXLSXFlowSheet(b *testing.B) { benchmarkOpen(b, fixture(b, "openpyxl.xlsx")) }
func BenchmarkXLSX24000Cells(b *testing.B) {
	benchmarkOpen(b, largeBook(b, 4000))
}

func BenchmarkText(b *testing.B) {
	benchmarkOpen(b, bytes.Repeat([]byte(".100,60.5,48,\"as run\"\n"), 5000))
}

func benchmarkOpen(b *testing.B, content []byte) {
	b.SetBytes(int64(len(content)))
	b.ReportAllocs()
	for b.Loop() {
		if _, err := decode.Open(context.Background(), "book", content, decode.Defaults()); err != nil {
			b.Fatal(err)
		}
	}
}

// BenchmarkExcelize24000Cells is what the same values cost in excelize, without
// formulas, formats and checks.
func BenchmarkExcelize24000Cells(b *testing.B) {
	content := largeBook(b, 4000)
	b.SetBytes(int64(len(content)))
	b.ReportAllocs()
	for b.Loop() {
		f, err := excelize.OpenReader(bytes.NewReader(content), excelize.Options{RawCellValue: true})
		if err != nil {
			b.Fatal(err)
		}
		if _, err := f.GetRows("Sheet1"); err != nil {
			b.Fatal(err)
		}
		if err := f.Close(); err != nil {
			b.Fatal(err)
		}
	}
}
