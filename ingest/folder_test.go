package ingest_test

import (
	"bytes"
	"context"
	"errors"
	"io/fs"
	"os"
	"strings"
	"testing"
	"testing/fstest"

	"github.com/google/go-cmp/cmp"
	"github.com/google/go-cmp/cmp/cmpopts"
	"github.com/xuri/excelize/v2"

	"flowshelf/analysis/head"
	"flowshelf/analysis/source"
	"flowshelf/ingest"
)

const pricesCSV = "Larkmoor prices effective 2026-01-01;\nPart;Net each, assembled USD\nLKC-07;268,00\nLKC-12;452,00\n"

func file(content string) *fstest.MapFile { return &fstest.MapFile{Data: []byte(content)} }

// withSetup adds the demo shop's setup to a folder.
func withSetup(t *testing.T, folder fstest.MapFS) fstest.MapFS {
	t.Helper()
	setup, err := os.ReadFile(demoFolder + "/Shop setup.xlsx")
	if err != nil {
		t.Fatal(err)
	}
	folder["Shop setup.xlsx"] = &fstest.MapFile{Data: setup}
	return folder
}

func read(t *testing.T, folder fs.FS) ingest.Reading {
	t.Helper()
	got, err := ingest.ReadFolder(context.Background(), folder, ingest.DefaultOptions())
	if err != nil {
		t.Fatal(err)
	}
	return got
}

func states(r ingest.Reading) map[string]string {
	out := make(map[string]string)
	for _, f := range r.Files {
		out[f.Path] = f.State.String() + " " + f.Kind
	}
	return out
}

func TestWhatBecomesOfEachFile(t *testing.T) {
	folder := withSetup(t, fstest.MapFS{
		"prices.csv":              file(pricesCSV),
		"Copy of prices.csv":      file(pricesCSV),
		"old/prices (1).csv":      file(pricesCSV),
		"~$prices.xlsx":           file("x"),
		".~lock.prices.xlsx#":     file("x"),
		"lu12345.tmp":             file("x"),
		".hidden/prices.csv":      file(pricesCSV + "\n"),
		"Ranked/prices.csv":       file(pricesCSV + "\n\n"),
		"photo.JPG":               file("\xff\xd8\xff"),
		"empty.xlsx":              file(""),
		"half.xlsx":               file("PK\x03\x04 and no more"),
		"staff.csv":               file("Name,Desk\nA,1\nB,2\n"),
		"sub/Shop setup.xlsx":     &fstest.MapFile{Data: changedSetup(t)},
		"link.xlsx":               {Mode: fs.ModeSymlink, Data: []byte("prices.csv")},
		"sub/deeper/pipe/nothing": {Mode: fs.ModeNamedPipe},
	})
	want := map[string]string{
		"Shop setup.xlsx": "read setup", "prices.csv": "read ", "Copy of prices.csv": "set aside same-as", "old/prices (1).csv": "set aside same-as",
		"photo.JPG": "set aside not-a-workbook", "empty.xlsx": "waiting empty", "staff.csv": "set aside nothing-found",
		"sub/Shop setup.xlsx": "set aside second-setup", "link.xlsx": "set aside link",
	}
	got := states(read(t, folder))
	if half := got["half.xlsx"]; !strings.HasPrefix(half, "waiting ") && !strings.HasPrefix(half, "refused ") {
		t.Errorf("half.xlsx is %s", half)
	}
	delete(got, "half.xlsx")
	if diff := cmp.Diff(want, got); diff != "" {
		t.Errorf("states (-want +got):\n%s", diff)
	}
	if n := len(read(t, folder).Records.Prices); n != 2 {
		t.Errorf("%d prices; the copies count once", n)
	}
}

// changedSetup is the demo's setup with one cell changed.
func changedSetup(t *testing.T) []byte {
	t.Helper()
	book, err := excelize.OpenFile(demoFolder + "/Shop setup.xlsx")
	if err != nil {
		t.Fatal(err)
	}
	return saved(t, book, "Shop", "B5", "Somebody else")
}

func saved(t *testing.T, book *excelize.File, sheet, cell string, value any) []byte {
	t.Helper()
	var out bytes.Buffer
	if err := errors.Join(book.SetCellValue(sheet, cell, value), book.Write(&out), book.Close()); err != nil {
		t.Fatal(err)
	}
	return out.Bytes()
}

func priceBook(t *testing.T) *excelize.File {
	t.Helper()
	book := excelize.NewFile()
	for cell, value := range map[string]any{"A1": "Part", "B1": "Net each, USD", "A2": "LKC-07"} {
		if err := book.SetCellValue("Sheet1", cell, value); err != nil {
			t.Fatal(err)
		}
	}
	return book
}

func TestOurOwnOutputIsNeverRead(t *testing.T) {
	book := priceBook(t)
	if err := book.SetCustomProps(excelize.CustomProperty{Name: ingest.OutputProperty, Value: "ranking"}); err != nil {
		t.Fatal(err)
	}
	got := read(t, withSetup(t, fstest.MapFS{"renamed by somebody.xlsx": &fstest.MapFile{Data: saved(t, book, "Sheet1", "B2", 268)}}))
	if s := states(got)["renamed by somebody.xlsx"]; s != "set aside own-output" || len(got.Records.Prices) > 0 {
		t.Errorf("it is %s and gave %d prices", s, len(got.Records.Prices))
	}
}

func TestHiddenSheetsAndFormsAreListedAndNotRead(t *testing.T) {
	book := priceBook(t)
	for _, name := range []string{"old", "MASTER", "blank"} {
		if _, err := book.NewSheet(name); err != nil {
			t.Fatal(err)
		}
		for cell, value := range map[string]any{"A1": "Part", "B1": "Net each, USD", "A2": "LKC-12", "B2": 452} {
			if err := book.SetCellValue(name, cell, value); err != nil {
				t.Fatal(err)
			}
		}
	}
	if err := book.SetSheetVisible("old", false); err != nil {
		t.Fatal(err)
	}
	got := read(t, withSetup(t, fstest.MapFS{"list.xlsx": &fstest.MapFile{Data: saved(t, book, "Sheet1", "B2", 268)}}))
	if len(got.Records.Prices) != 1 || got.Records.Prices[0].Head != "LKC-07" {
		t.Errorf("prices: %+v", got.Records.Prices)
	}
	var kinds []string
	for _, p := range got.Problems {
		kinds = append(kinds, p.At.Sheet+" "+p.Kind)
	}
	if diff := cmp.Diff([]string{"MASTER template", "blank template", "old hidden-sheet"}, kinds); diff != "" {
		t.Error(diff)
	}
}

func TestNamesOfHeads(t *testing.T) {
	got := read(t, withSetup(t, fstest.MapFS{
		"prices.csv": file("Larkmoor\nPart,\"Net each, USD\"\nlkc-07 ,268\nLKC12,452\nLKC-41B,410\nZZ-99,1\n4471,178\n"),
		"names.csv":  file("Our name,Supplier,Their number\nLKC-90,Larkmoor,4471\n"),
	}))
	var names []string
	for _, p := range got.Records.Prices {
		names = append(names, p.Head+" "+p.Status.String())
	}
	if diff := cmp.Diff([]string{"LKC-07 used", "LKC-12 used", "LKC-41B asked", "ZZ-99 used", "LKC-90 used"}, names); diff != "" {
		t.Error(diff)
	}
	var problems []string
	for _, p := range got.Problems {
		problems = append(problems, p.Severity.String()+" "+p.Kind+" "+p.Found)
	}
	if diff := cmp.Diff([]string{"asked head-name-similar LKC-41B", "noted head-unknown ZZ-99"}, problems); diff != "" {
		t.Error(diff)
	}
}

func TestNoSetup(t *testing.T) {
	got := read(t, fstest.MapFS{"staff.csv": file("Name,Desk\nA,1\n")})
	if got.Shop.Found || len(got.Problems) != 1 || got.Problems[0].Kind != "no-setup" {
		t.Errorf("%+v", got.Problems)
	}
}

func TestASetupThatCannotBeReadIsNotAMissingOne(t *testing.T) {
	for what, folder := range map[string]fs.FS{
		"damaged":  fstest.MapFS{"Shop setup.xlsx": file("PK\x03\x04 and no more")},
		"unopened": faulty{fstest.MapFS{"Shop setup.xlsx": file("x")}, "Shop setup.xlsx"},
	} {
		got := read(t, folder)
		if got.Shop.Found || len(got.Problems) != 2 {
			t.Fatalf("%s: %v", what, got.Problems)
		}
		for _, p := range got.Problems {
			if p.Kind == "no-setup" || strings.Contains(p.Hint, "init") {
				t.Errorf("%s: %s", what, p)
			}
		}
	}
}

// faulty fails to open one file.
type faulty struct {
	fs.FS
	name string
}

func (f faulty) Open(name string) (fs.File, error) {
	if name == f.name {
		return nil, &fs.PathError{Op: "open", Path: name, Err: errors.New("input/output error")}
	}
	return f.FS.Open(name)
}

func TestOneUnreadableFileHoldsUpNoOther(t *testing.T) {
	folder := withSetup(t, fstest.MapFS{"prices.csv": file(pricesCSV), "broken.xlsx": file("x")})
	got := read(t, faulty{folder, "broken.xlsx"})
	if s := states(got)["broken.xlsx"]; s != "waiting unreadable" {
		t.Errorf("the broken file is %s", s)
	}
	if len(got.Records.Prices) != 2 {
		t.Errorf("%d prices", len(got.Records.Prices))
	}
	if _, err := ingest.ReadFolder(context.Background(), faulty{folder, "."}, ingest.DefaultOptions()); err == nil {
		t.Error("a folder that cannot be listed gives no error")
	}
}

func TestAFaultOfOursRefusesOneFile(t *testing.T) {
	got := ingest.Guarded("bad.xlsx", func(f *ingest.FileRead) {
		f.Records.Prices = append(f.Records.Prices, head.Price{})
		panic("index out of range")
	})
	if got.State != ingest.Refused || got.Kind != "internal" || len(got.Records.Prices) > 0 || len(got.Records.Problems) != 1 {
		t.Errorf("%+v", got)
	}
}

func TestTheSameFolderReadsTheSame(t *testing.T) {
	var first ingest.Reading
	for i, workers := range []int{1, 8} {
		opt := ingest.DefaultOptions()
		opt.Workers = workers
		got, err := ingest.ReadFolder(context.Background(), os.DirFS(demoFolder), opt)
		if err != nil {
			t.Fatal(err)
		}
		if i == 0 {
			first = got
		} else if diff := cmp.Diff(first, got, cmpopts.EquateNaNs()); diff != "" {
			t.Errorf("eight workers read something else:\n%s", diff)
		}
	}
}

func TestCancelled(t *testing.T) {
	ctx, cancel := context.WithCancel(context.Background())
	cancel()
	if _, err := ingest.ReadFolder(ctx, os.DirFS(demoFolder), ingest.DefaultOptions()); !errors.Is(err, context.Canceled) {
		t.Errorf("err = %v", err)
	}
}

// remembered keeps in a map and counts.
type remembered struct {
	kept     map[string]ingest.FileRead
	recalled int
}

func (m *remembered) Recall(key string) (ingest.FileRead, bool) {
	read, ok := m.kept[key]
	if ok {
		m.recalled++
	}
	return read, ok
}

func (m *remembered) Keep(key string, read ingest.FileRead) { m.kept[key] = read }

func TestMemoryGivesTheSameAndForgetsWithTheSetup(t *testing.T) {
	memory := &remembered{kept: make(map[string]ingest.FileRead)}
	opt := ingest.DefaultOptions()
	opt.Workers, opt.Memory = 1, memory
	folder := withSetup(t, fstest.MapFS{"prices.csv": file(pricesCSV), "staff.csv": file("Name,Desk\nA,1\n")})
	run := func() ingest.Reading {
		got, err := ingest.ReadFolder(context.Background(), folder, opt)
		if err != nil {
			t.Fatal(err)
		}
		return got
	}
	first := run()
	if memory.recalled != 0 || len(memory.kept) != 2 {
		t.Fatalf("recalled %d, kept %d", memory.recalled, len(memory.kept))
	}
	if diff := cmp.Diff(first, run()); diff != "" || memory.recalled != 2 {
		t.Errorf("recalled %d, and:\n%s", memory.recalled, diff)
	}
	folder["Shop setup.xlsx"] = &fstest.MapFile{Data: changedSetup(t)}
	if run(); memory.recalled != 2 {
		t.Error("a changed setup did not bring the files to be read again")
	}
}

func TestProblemsAreSortedAndPointSomewhere(t *testing.T) {
	got := readDemo(t)
	if diff := cmp.Diff(got.Problems.Sorted(), got.Problems); diff != "" {
		t.Error(diff)
	}
	for _, p := range got.Problems {
		if p.At == (source.Ref{}) || p.Kind == "" || p.Message == "" {
			t.Errorf("a problem without place, kind or words: %+v", p)
		}
	}
}
