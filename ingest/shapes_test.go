package ingest_test

import (
	"bytes"
	"errors"
	"fmt"
	"image"
	"image/png"
	"strings"
	"testing"
	"testing/fstest"
	"time"

	"github.com/google/go-cmp/cmp"
	"github.com/xuri/excelize/v2"

	"flowshelf/analysis/compare"
	"flowshelf/ingest"
)

// fileShape is a shape that shows only in a whole file or a whole folder.
type fileShape struct {
	shape  string
	good   bool
	name   string
	folder func(t *testing.T) fstest.MapFS
	want   []string
}

const (
	flowCSV     = "LKC-12 4.030 bore 28 inH2O cfm radius plate with pipe 2026-03-05;;\nLift in;Int;Exh\n0.100;68;56\n0.200;134;107\n0.300;190;144\n0.400;229;167\n0.500;247;178\n"
	benchExport = "Test pressure;28.0 inH2O\nBore;4.030 in\nHead;LKC-12\nEntry;radius plate\nPipe;yes\n\nLift in;Int cfm;Exh cfm\n0.100;68;56\n0.200;134;107\n0.300;190;144\n0.400;229;167\n"
)

func files(pairs ...string) func(*testing.T) fstest.MapFS {
	return func(*testing.T) fstest.MapFS {
		out := fstest.MapFS{}
		for i := 0; i < len(pairs); i += 2 {
			out[pairs[i]] = file(pairs[i+1])
		}
		return out
	}
}

func fileShapes() []fileShape {
	return []fileShape{
		{"F24", true, "text under the name of an old workbook", files("bench/export.xls", benchExport),
			[]string{"bench/export.xls: read", "LKC-12 intake, 4 readings, used", "LKC-12 exhaust, 4 readings, used"}},
		{"F24", false, "a web page and a damaged old workbook", files("page.xls", "<html><table><tr><td>Lift</td></tr></table></html>", "old.xls", "\xd0\xcf\x11\xe0\xa1\xb1\x1a\xe1 and no more"),
			[]string{"old.xls: waiting damaged", "page.xls: refused old-format", "refused damaged old.xls", "refused old-format page.xls"}},
		{"F42", true, "a photo beside a list", pictured(true),
			[]string{"heads.xlsx: read", "LKC-07 268 USD each, used"}},
		{"F42", false, "a photo of a flow sheet", pictured(false),
			[]string{"heads.xlsx: set aside nothing-found", "set_aside picture-only heads.xlsx"}},
		{"F53", true, "one content under three names", files("prices.csv", pricesCSV, "Copy of prices.csv", pricesCSV, "old/prices (1).csv", pricesCSV),
			[]string{"Copy of prices.csv: set aside same-as", "old/prices (1).csv: set aside same-as", "prices.csv: read", "LKC-07 268 USD each, used", "LKC-12 452 USD each, used"}},
		{"F53", false, "one head and day, other figures", files("bench/a.csv", flowCSV, "bench/b.csv", strings.NewReplacer("229", "259", "247", "281", "190", "215").Replace(flowCSV)),
			[]string{"bench/a.csv: read", "bench/b.csv: read", "LKC-12 intake, 5 readings, used", "LKC-12 exhaust, 5 readings, used", "LKC-12 intake, 5 readings, used",
				"LKC-12 exhaust, 5 readings, used", "asked two-tests-differ bench/b.csv"}},
		{"F54", true, "what only lies about", files("prices.csv", pricesCSV, "~$prices.xlsx", "x", ".~lock.prices.xlsx#", "x", "Ranked/Heads ranked.csv", pricesCSV+"\n", "half.xlsx.part", "PK"),
			[]string{"prices.csv: read", "LKC-07 268 USD each, used", "LKC-12 452 USD each, used"}},
		{"F54", false, "our own output under another name, a half-copied book", renamedOutput,
			[]string{"half.xlsx: waiting damaged", "mine.xlsx: set aside own-output", "refused damaged half.xlsx"}},
		{"F55", true, "a workbook with macros, which nobody runs", macros,
			[]string{"macros.xlsm: read", "LKC-07 268 USD each, used"}},
		{"F55", false, "a password", locked,
			[]string{"locked.xlsx: refused encrypted", "refused encrypted locked.xlsx"}},
		{"P10", true, "part numbers by the matching key", files("prices.csv", "Larkmoor\nPart;Net each, USD\n lkc-12 ;452\n0471;178\n", "names.csv", "Our name;Supplier;Their number\nLKC-90;Larkmoor;0471\n"),
			[]string{"names.csv: read", "prices.csv: read", "LKC-12 452 USD each, used", "LKC-90 178 USD each, used"}},
		{"P10", false, "a letter more than the shop's name", files("prices.csv", "Larkmoor\nPart;Net each, USD\nLKC-41B;410\n"),
			[]string{"prices.csv: read", "LKC-41B 410 USD each, asked", "asked head-name-similar prices.csv"}},
		{"P11", false, "a head under no family", files("prices.csv", "Larkmoor heads\nPart;Net each, USD\nLKC-12;452\nLKC-555;99\n"),
			[]string{"prices.csv: read", "LKC-12 452 USD each, used", "LKC-555 99 USD each, used", "noted head-unknown prices.csv"}},
	}
}

// pictured is a workbook with a picture, beside a price list or alone.
func pictured(list bool) func(t *testing.T) fstest.MapFS {
	return func(t *testing.T) fstest.MapFS {
		t.Helper()
		var dot, out bytes.Buffer
		if err := png.Encode(&dot, image.NewGray(image.Rect(0, 0, 2, 2))); err != nil {
			t.Fatal(err)
		}
		book := excelize.NewFile()
		if list {
			book = priceBook(t)
		}
		err := book.AddPictureFromBytes("Sheet1", "D4", &excelize.Picture{Extension: ".png", File: dot.Bytes(), Format: &excelize.GraphicOptions{}})
		if list {
			err = errors.Join(err, book.SetCellValue("Sheet1", "B2", 268))
		}
		if err := errors.Join(err, book.Write(&out), book.Close()); err != nil {
			t.Fatal(err)
		}
		return fstest.MapFS{"heads.xlsx": file(out.String())}
	}
}

func renamedOutput(t *testing.T) fstest.MapFS {
	t.Helper()
	book := priceBook(t)
	if err := book.SetCustomProps(excelize.CustomProperty{Name: ingest.OutputProperty, Value: "ranking"}); err != nil {
		t.Fatal(err)
	}
	whole := saved(t, book, "Sheet1", "B2", 268)
	return fstest.MapFS{"mine.xlsx": file(string(whole)), "half.xlsx": file(string(whole[:len(whole)/2]))}
}

// macros is a price list that carries something to run.
func macros(t *testing.T) fstest.MapFS {
	t.Helper()
	book := priceBook(t)
	if err := book.AddVBAProject([]byte("\xd0\xcf\x11\xe0\xa1\xb1\x1a\xe1 Sub Workbook_Open()")); err != nil {
		t.Fatal(err)
	}
	return fstest.MapFS{"macros.xlsm": file(string(saved(t, book, "Sheet1", "B2", 268)))}
}

func locked(t *testing.T) fstest.MapFS {
	t.Helper()
	var out bytes.Buffer
	book := priceBook(t)
	if err := errors.Join(book.Write(&out, excelize.Options{Password: "x"}), book.Close()); err != nil {
		t.Fatal(err)
	}
	return fstest.MapFS{"locked.xlsx": file(out.String())}
}

// TestFileShapes reads folders with the demo's setup and compares them as of a
// day in March.
func TestFileShapes(t *testing.T) {
	for _, s := range fileShapes() {
		t.Run(s.shape+" "+s.name, func(t *testing.T) {
			got := read(t, withSetup(t, s.folder(t)))
			var lines []string
			for _, f := range got.Files {
				if f.Kind != "setup" {
					lines = append(lines, strings.TrimSpace(f.Path+": "+f.State.String()+" "+f.Kind))
				}
			}
			for _, test := range got.Records.Tests {
				lines = append(lines, fmt.Sprintf("%s %s, %d readings, %s", test.Head, test.Port, len(test.Readings), test.Status))
			}
			for _, p := range got.Records.Prices {
				lines = append(lines, fmt.Sprintf("%s %s %s %s, %s", p.Head, p.Amount.Value.Amount, p.Amount.Value.Currency, p.Basis, p.Status))
			}
			problems := got.Problems
			for _, c := range compare.All(got.Records, got.Shop, time.Date(2026, 3, 16, 0, 0, 0, 0, time.UTC)) {
				for _, p := range c.Problems {
					if p.Kind == "two-tests-differ" {
						problems = append(problems, p)
					}
				}
			}
			for _, p := range problems {
				lines = append(lines, p.Severity.String()+" "+p.Kind+" "+p.At.File)
			}
			if diff := cmp.Diff(s.want, lines); diff != "" {
				t.Errorf("read differently (-want +got):\n%s", diff)
			}
		})
	}
}
