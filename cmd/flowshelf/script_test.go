package main

import (
	"errors"
	"fmt"
	"io/fs"
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"testing"
	"time"

	"github.com/rogpeppe/go-internal/testscript"
	"github.com/xuri/excelize/v2"

	"flowshelf/analysis/answers"
	"flowshelf/analysis/head"
	"flowshelf/analysis/quantity"
	"flowshelf/analysis/shop"
	"flowshelf/analysis/source"
	"flowshelf/export/setup"
	"flowshelf/export/status"
)

func TestMain(m *testing.M) {
	testscript.Main(m, map[string]func(){"flowshelf": main, "flowshelf-on": mainOn})
}

// mainOn is `flowshelf-on FILE ARG...`: flowshelf on the day that stands in the
// file, which may change while it runs.
func mainOn() {
	day := func() time.Time {
		content, err := os.ReadFile(os.Args[1])
		if err != nil {
			panic(err)
		}
		day, err := time.Parse(time.DateOnly, strings.TrimSpace(string(content)))
		if err != nil {
			panic(err)
		}
		return day
	}
	os.Exit(executeOn(day, os.Args[2:], os.Stdout, os.Stderr))
}

// TestScripts runs the scripts that say what each command prints and returns.
func TestScripts(t *testing.T) {
	demo, err := filepath.Abs(filepath.Join("..", "..", "testdata", "demo"))
	if err != nil {
		t.Fatal(err)
	}
	testscript.Run(t, testscript.Params{
		Dir:                 filepath.Join("..", "..", "testdata", "script"),
		RequireExplicitExec: true,
		Setup: func(env *testscript.Env) error {
			env.Setenv("DEMO", demo)
			env.Setenv("FLOWSHELF_STATE_FOLDER", filepath.Join(env.WorkDir, ".state"))
			return nil
		},
		Cmds: map[string]func(*testscript.TestScript, bool, []string){
			"book":    bookCommand,
			"type":    typeCommand,
			"cell":    cellCommand,
			"waitfor": waitForCommand,
			"settled": settledCommand,
			"answer":  answerCommand,
			"code":    codeCommand,
			"halve":   halveCommand,
			"shop":    shopCommand,
			"nobody":  nobodyCommand,
			"cpdir":   copyCommand,
		},
	})
}

// bookCommand is `book FILE TEXT`: it makes a workbook from a text. A line
// `[Name]` begins a sheet, every other line is a row with `|` between cells.
func bookCommand(ts *testscript.TestScript, _ bool, args []string) {
	f := excelize.NewFile()
	sheet, row := "", 0
	for line := range strings.Lines(ts.ReadFile(args[1])) {
		line = strings.TrimSpace(line)
		if name, ok := strings.CutPrefix(line, "["); ok {
			sheet, row = strings.TrimSuffix(name, "]"), 0
			_, err := f.NewSheet(sheet)
			ts.Check(err)
			continue
		}
		row++
		for i, text := range strings.Split(line, "|") {
			text = strings.TrimSpace(text)
			at, err := excelize.CoordinatesToCellName(i+1, row)
			ts.Check(err)
			if x, err := strconv.ParseFloat(text, 64); err == nil {
				ts.Check(f.SetCellValue(sheet, at, x))
			} else if text != "" {
				ts.Check(f.SetCellValue(sheet, at, text))
			}
		}
	}
	ts.Check(f.DeleteSheet("Sheet1"))
	ts.Check(f.SaveAs(ts.MkAbs(args[0])))
}

// typeCommand is `type FILE SHEET CELL TEXT`: a person changes one cell.
func typeCommand(ts *testscript.TestScript, _ bool, args []string) {
	f, err := excelize.OpenFile(ts.MkAbs(args[0]))
	ts.Check(err)
	ts.Check(errors.Join(f.SetCellValue(args[1], args[2], args[3]), save(f, ts.MkAbs(args[0])), f.Close()))
}

// save saves as spreadsheet programs do: beside, then renamed over, so that a
// service never meets half of it.
func save(f *excelize.File, name string) error {
	content, err := f.WriteToBuffer()
	if err != nil {
		return err
	}
	return errors.Join(os.WriteFile(name+".tmp", content.Bytes(), 0o666), os.Rename(name+".tmp", name))
}

// cellCommand is `cell FILE SHEET CELL PATTERN`: the cell's text must match.
func cellCommand(ts *testscript.TestScript, neg bool, args []string) {
	f, err := excelize.OpenFile(ts.MkAbs(args[0]))
	ts.Check(err)
	text, err := f.GetCellValue(args[1], args[2])
	ts.Check(errors.Join(err, f.Close()))
	if regexp.MustCompile(args[3]).MatchString(text) == neg {
		ts.Fatalf("%s, sheet %q, cell %s holds %q", args[0], args[1], args[2], text)
	}
}

// halveCommand is `halve FILE`: cuts a file in the middle, as a copy that broke
// off leaves it.
func halveCommand(ts *testscript.TestScript, _ bool, args []string) {
	info, err := os.Stat(ts.MkAbs(args[0]))
	ts.Check(err)
	ts.Check(os.Truncate(ts.MkAbs(args[0]), info.Size()/2))
}

// shopCommand is `shop FOLDER HEAD...`: writes a setup with one family of these
// heads. The first is its base head; with `-` in its place there is none.
func shopCommand(ts *testscript.TestScript, _ bool, args []string) {
	s := shop.Missing(source.Ref{}).Shop
	s.Name = "Test shop"
	f := head.Family{
		Name: "Small Four", HeadsPerSet: 1, ReferenceBore: quantity.Inches(4),
		RangeFrom: quantity.Inches(0.2), RangeTo: quantity.Inches(0.5), BandFrom: quantity.Inches(0.3), BandTo: quantity.Inches(0.4),
		Worth: source.Say(quantity.Dollars(10), source.Trace{}),
		Anchors: head.Anchors{Known: true, MidLow: 100, MidHigh: 200, PeakLow: 120, PeakHigh: 220,
			StallLow: 0.7, WMid: 0.5, WStall: 0.3, WPeak: 0.2},
	}
	if args[1] != "-" {
		f.BaseHead = args[1]
	}
	for _, name := range args[1:] {
		if name != "-" {
			s.Heads = append(s.Heads, head.Listed{Name: name, Family: f.Name, Supplier: "Larkmoor"})
		}
	}
	s.Suppliers = []head.SupplierRule{{Name: "Larkmoor", Cost: head.Net, Basis: head.Each, Currency: "USD"}}
	s.Benches = []head.Bench{{Name: "Shop bench", Owner: "own", Own: true, Folder: "bench"}}
	s.Families = []head.Family{f}
	content, err := setup.Write(s, time.Date(2026, 1, 5, 0, 0, 0, 0, time.UTC))
	ts.Check(err)
	ts.Check(os.MkdirAll(ts.MkAbs(args[0]), 0o777))
	ts.Check(os.WriteFile(filepath.Join(ts.MkAbs(args[0]), setup.FileName), content, 0o666))
}

// patience is how long a script waits for a service on a machine that is busy.
const patience = 4 * time.Minute

// answerCommand is `answer FOLDER WORDS TEXT`: a person waits until a question
// with these words is open, types the text into its yellow cell and saves.
func answerCommand(ts *testscript.TestScript, _ bool, args []string) {
	name := ts.MkAbs(filepath.Join(args[0], "Ranked", answers.FileName))
	for end := time.Now().Add(patience); time.Now().Before(end); time.Sleep(50 * time.Millisecond) {
		f, err := excelize.OpenFile(name)
		if err != nil {
			continue // not there yet
		}
		rows, err := f.GetRows(answers.OpenSheet)
		if cell := yellowCell(rows, args[1]); err == nil && cell != "" {
			ts.Check(errors.Join(f.SetCellStr(answers.OpenSheet, cell, args[2]), save(f, name), f.Close()))
			return
		}
		ts.Check(errors.Join(err, f.Close()))
	}
	ts.Fatalf("%q was never asked", args[1])
}

// yellowCell is where the answer to a question with these words is typed, "" when
// it is not asked.
func yellowCell(rows [][]string, words string) string {
	question, answer := -1, -1
	for r, row := range rows {
		if q := slices.Index(row, answers.QuestionTitle); q >= 0 {
			question, answer = q, slices.Index(row, answers.AnswerTitle)
		}
		if question >= 0 && question < len(row) && strings.Contains(row[question], words) {
			cell, err := excelize.CoordinatesToCellName(answer+1, r+1)
			if err != nil {
				return ""
			}
			return cell
		}
	}
	return ""
}

// waitForCommand is `waitfor FILE SHEET CELL TEXT`: until a service has written
// the text into the cell.
func waitForCommand(ts *testscript.TestScript, _ bool, args []string) {
	for end := time.Now().Add(patience); time.Now().Before(end); time.Sleep(50 * time.Millisecond) {
		f, err := excelize.OpenFile(ts.MkAbs(args[0]))
		if err != nil {
			continue // not there yet
		}
		text, err := f.GetCellValue(args[1], args[2])
		if errors.Join(err, f.Close()) == nil && text == args[3] {
			return
		}
	}
	ts.Fatalf("%s, sheet %q, cell %s never came to hold %q", args[0], args[1], args[2], args[3])
}

// settledCommand is `settled FOLDER`: until the status of a service lists the files
// that are in the folder, those and no others, and waits for none of them.
func settledCommand(ts *testscript.TestScript, _ bool, args []string) {
	folder := ts.MkAbs(args[0])
	var there, listed []string
	for end := time.Now().Add(patience); time.Now().Before(end); time.Sleep(50 * time.Millisecond) {
		f, err := excelize.OpenFile(filepath.Join(folder, "Ranked", status.FileName))
		if err != nil {
			continue // not there yet
		}
		rows, err := f.GetRows("Files")
		ts.Check(errors.Join(err, f.Close()))
		there, listed = filesIn(ts, folder), nil
		for _, row := range rows {
			if len(row) > 1 && slices.Contains([]string{string(status.Read), string(status.Partly), string(status.Skipped), string(status.Refused)}, row[1]) {
				listed = append(listed, row[0])
			}
		}
		if slices.Equal(listed, there) {
			return
		}
	}
	ts.Fatalf("%s holds %q, and of those %q were ever looked into", args[0], there, listed)
}

// filesIn lists what a service should read in a folder.
func filesIn(ts *testscript.TestScript, folder string) []string {
	var out []string
	ts.Check(filepath.WalkDir(folder, func(name string, e fs.DirEntry, err error) error {
		switch {
		case err != nil:
			return err
		case e.IsDir() && e.Name() == "Ranked":
			return fs.SkipDir
		case e.Type().IsRegular():
			name, err = filepath.Rel(folder, name)
			out = append(out, filepath.ToSlash(name))
		}
		return err
	}))
	slices.Sort(out)
	return out
}

// codeCommand is `code N PROGRAM ARG...`: the program must end with that code.
func codeCommand(ts *testscript.TestScript, _ bool, args []string) {
	wantCode(ts, args[0], ts.Exec(args[1], args[2:]...))
}

func wantCode(ts *testscript.TestScript, want string, err error) {
	code := 0
	if exit := (*exec.ExitError)(nil); errors.As(err, &exit) {
		code = exit.ExitCode()
	} else {
		ts.Check(err)
	}
	if fmt.Sprint(code) != want {
		ts.Fatalf("exit code %d, want %s", code, want)
	}
}

// copyCommand is `cpdir FROM TO`: copies a folder with all that is in it.
func copyCommand(ts *testscript.TestScript, _ bool, args []string) {
	ts.Check(os.CopyFS(ts.MkAbs(args[1]), os.DirFS(ts.MkAbs(args[0]))))
}
