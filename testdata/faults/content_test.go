//go:build unix

package faults_test

import (
	"bytes"
	"compress/flate"
	"crypto/sha256"
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"strings"
	"syscall"
	"testing"
	"time"

	"flowshelf/export/book"
)

// poison drops what hangs, fills the memory or breaks a reader among good files.
func poison(t *testing.T) tally {
	const good = 100
	heads := names(good)
	f := newFolder(t, heads...)
	want := make(map[string]int)
	for i, h := range heads {
		want[copyName(i)] = sheet{h, i}.readings()
		f.put(t, copyName(i), sheet{h, i}.xlsx())
	}
	bad := poisons(t)
	for name, content := range bad {
		f.put(t, "bad/"+name, content)
		want["bad/"+name] = -1
	}
	before := sums(t, f)
	s := f.watch(t)
	out := tally{trials: len(bad)}
	out.seconds = s.wait(t, "all files", 10*time.Minute, func(c condition) bool { return c.Files == len(want)+1 && c.LastPass != nil }).Seconds()
	out.lost, out.short = f.account(t, want)
	out.invalid = f.invalidOutputs(t)
	for name, sum := range sums(t, f) {
		if before[name] != sum {
			out.invalid++
			t.Errorf("%s was changed", name)
		}
	}
	out.note = fmt.Sprintf("%d of %d good read beside %d bad, at most %d MB", good-out.short-out.lost, good, len(bad), s.peak(t))
	return out
}

func sums(t *testing.T, f *shopFolder) map[string][32]byte {
	t.Helper()
	out := make(map[string][32]byte)
	must(t, filepath.WalkDir(f.path, func(name string, d fs.DirEntry, err error) error {
		if err != nil || !d.Type().IsRegular() {
			return err
		}
		if strings.HasPrefix(name, f.at("Ranked")) {
			return nil
		}
		content, err := os.ReadFile(name)
		out[name] = sha256.Sum256(content)
		return err
	}))
	return out
}

// poisons are files that a reader without budgets does not survive.
func poisons(t *testing.T) map[string][]byte {
	t.Helper()
	sheetXML := func(rows string) []byte {
		return zipped([]part{{"[Content_Types].xml", contentTypes}, {"_rels/.rels", topRels}, {"xl/_rels/workbook.xml.rels", bookRels},
			{"xl/workbook.xml", fmt.Sprintf(bookXML, "S")},
			{"xl/worksheets/sheet1.xml", `<worksheet xmlns="http://schemas.openxmlformats.org/spreadsheetml/2006/main"><sheetData>` + rows + `</sheetData></worksheet>`}})
	}
	var manyCells strings.Builder
	for i := range 600_000 {
		fmt.Fprintf(&manyCells, `<row r="%d"><c r="A%d"><v>1</v></c></row>`, i+1, i+1)
	}
	return map[string][]byte{
		"blank gigabyte.xlsx": sheetXML(strings.Repeat(" ", 300<<20)),
		"many cells.xlsx":     sheetXML(manyCells.String()),
		"far corner.xlsx":     sheetXML(`<row r="1"><c r="A1"><v>1</v></c></row><row r="1048576"><c r="XFD1048576"><v>1</v></c></row>`),
		"deep.xlsx":           sheetXML(strings.Repeat("<a>", 2_000_000) + strings.Repeat("</a>", 2_000_000)),
		"long text.xlsx":      sheetXML(`<row r="1"><c r="A1" t="inlineStr"><is><t>` + strings.Repeat("lift cfm ", 5<<20) + `</t></is></c></row>`),
		"lying strings.xlsx":  sheetXML(`<row r="1"><c r="A1" t="s"><v>999999999</v></c></row>`),
		"laughs.xlsx": sheetXML(`<!DOCTYPE l [<!ENTITY a "ha"><!ENTITY b "&a;&a;&a;&a;&a;&a;&a;&a;"><!ENTITY c "&b;&b;&b;&b;&b;&b;&b;&b;">]>` +
			`<row r="1"><c r="A1" t="inlineStr"><is><t>&c;</t></is></c></row>`),
		"many parts.xlsx":  zipped(manyParts(60_000)),
		"no end.xlsx":      sheet{"X", 1}.xlsx()[:900],
		"half.xlsx":        sheet{"X", 1}.xlsx()[:400],
		"empty.xlsx":       {},
		"zeros.xlsx":       make([]byte, 1<<20),
		"deflated.xlsx":    deflated(t),
		"old garbage.xls":  append([]byte{0xd0, 0xcf, 0x11, 0xe0, 0xa1, 0xb1, 0x1a, 0xe1}, bytes.Repeat([]byte{0xff}, 1<<16)...),
		"one line.csv":     bytes.Repeat([]byte("lift,"), 5<<20),
		"many lines.csv":   bytes.Repeat([]byte("0.1,100\n"), 3<<20),
		"quotes.csv":       []byte(`"` + strings.Repeat(`""`, 5<<20)),
		"brackets.csv":     []byte(strings.Repeat("(", 1<<20) + "lift" + strings.Repeat(")", 1<<20)),
		"wide numbers.csv": []byte("lift,cfm\n" + strings.Repeat("9", 1<<20) + "," + strings.Repeat("9", 1<<20) + "\n"),
	}
}

func manyParts(n int) []part {
	out := make([]part, n)
	for i := range out {
		out[i] = part{fmt.Sprintf("xl/worksheets/sheet%d.xml", i), "<a/>"}
	}
	return out
}

// deflated is a workbook within a workbook's name that is only compressed zeros.
func deflated(t *testing.T) []byte {
	t.Helper()
	var b bytes.Buffer
	w, err := flate.NewWriter(&b, flate.BestCompression)
	must(t, err)
	_, err = w.Write(make([]byte, 64<<20))
	must(t, errors.Join(err, w.Close()))
	return b.Bytes()
}

// identity is about what is the same file: the same bytes twice, a new name, a
// new content with the old size and time, and clocks that are wrong.
func identity(t *testing.T) tally {
	heads := names(12)
	f := newFolder(t, heads...)
	f.set("WATCH_REHASH", "2s")
	s := f.watch(t)
	out, want := tally{}, make(map[string]int)
	check := func(what string, readings int) {
		t.Helper()
		out.trials++
		out.seconds = max(out.seconds, s.readings(t, readings, patience).Seconds())
		lost, short := f.account(t, want)
		if lost+short > 0 {
			t.Error(what)
		}
		out.lost, out.short = out.lost+lost, out.short+short
	}
	one := sheet{heads[0], 0}
	f.put(t, "bench/a.xlsx", long(one))
	f.put(t, "bench/b.xlsx", long(one))
	want["bench/a.xlsx"], want["bench/b.xlsx"] = one.readings(), one.readings()
	check("the same bytes twice", one.readings())
	if got := f.statusOf(t)["bench/b.xlsx"]; !strings.Contains(got.why, "same as bench/a.xlsx") {
		out.invalid++
		t.Errorf("the second is not shown as the same: %+v", got)
	}
	must(t, errors.Join(os.Remove(f.at("bench/b.xlsx")), os.Rename(f.at("bench/a.xlsx"), f.at("bench/c.xlsx"))))
	want = map[string]int{"bench/c.xlsx": one.readings()}
	s.wait(t, "the new name", patience, func(c condition) bool { return c.Files == 2 })
	check("a new name", one.readings())
	for i := range scaled(2, 10) {
		// The same size and time, another content: another head's sheet.
		info, err := os.Stat(f.at("bench/c.xlsx"))
		must(t, err)
		other := long(sheet{heads[1+i], 0})
		if int64(len(other)) != info.Size() {
			t.Fatalf("%d bytes take the place of %d", len(other), info.Size())
		}
		// Put there at once: with another time for a moment it would be like any other.
		beside := filepath.Join(filepath.Dir(f.path), "c.xlsx")
		must(t, os.WriteFile(beside, other, 0o666))
		must(t, os.Chtimes(beside, info.ModTime(), info.ModTime()))
		must(t, os.Rename(beside, f.at("bench/c.xlsx")))
		out.trials++
		start := time.Now()
		for strings.Count(s.said(), "another content with the same size and time") <= i {
			if time.Since(start) > patience {
				t.Fatal("another content with the same size and time was never seen")
			}
			time.Sleep(poll)
		}
		out.seconds = max(out.seconds, time.Since(start).Seconds())
	}
	wrong := sheet{heads[5], 5}
	for name, clock := range map[string]time.Duration{"bench/tomorrow.xlsx": 24 * time.Hour, "bench/yesterday.xlsx": -24 * time.Hour, "bench/old.xlsx": -20 * 365 * 24 * time.Hour} {
		wrong.version++
		f.put(t, name, wrong.xlsx())
		must(t, os.Chtimes(f.at(name), time.Now().Add(clock), time.Now().Add(clock)))
		want[name] = wrong.readings()
	}
	total := 0
	for _, readings := range want {
		total += readings
	}
	check("clocks that are wrong", total)
	out.invalid += f.invalidOutputs(t) + f.sameAsClean(t)
	return out
}

// long is a sheet as a workbook of a length that does not hang on what is in it.
func long(s sheet) []byte {
	content := s.xlsx()
	return append(content, make([]byte, 4096-len(content))...)
}

const secret = "LKC-SECRET-31415"

// hostile drops links that lead out, pipes, paths that climb and texts that a
// spreadsheet program would run.
func hostile(t *testing.T) tally {
	heads := append(names(3), `=HYPERLINK("http://example.invalid/","LKC-1")`, "@SUM(1+1)*cmd|' /C calc'!A0")
	f := newFolder(t, heads...)
	outside := t.TempDir()
	must(t, os.WriteFile(filepath.Join(outside, "secret.xlsx"), sheet{secret, 1}.xlsx(), 0o666))
	want := make(map[string]int)
	for i, h := range heads {
		want[copyName(i)] = sheet{h, i}.readings()
		f.put(t, copyName(i), sheet{h, i}.xlsx())
	}
	must(t, os.Symlink(filepath.Join(outside, "secret.xlsx"), f.at("bench/link.xlsx")))
	must(t, os.Symlink(outside, f.at("bench/folder")))
	must(t, os.Symlink("/etc/passwd", f.at("passwd.csv")))
	must(t, os.Symlink("link.xlsx", f.at("bench/itself.xlsx")))
	must(t, os.Symlink("..", f.at("bench/up")))
	must(t, syscall.Mkfifo(f.at("bench/pipe.xlsx"), 0o666))
	climbing := zipped([]part{{"[Content_Types].xml", contentTypes}, {"_rels/.rels", topRels},
		{"xl/_rels/workbook.xml.rels", strings.Replace(bookRels, "worksheets/sheet1.xml", "../../../../../../"+outside+"/secret.xlsx", 1)},
		{"xl/workbook.xml", fmt.Sprintf(bookXML, "S")}, {"../../climbed.xml", "<a/>"}})
	f.put(t, "bench/climbing.xlsx", climbing)
	external := zipped([]part{{"[Content_Types].xml", contentTypes}, {"_rels/.rels", topRels}, {"xl/workbook.xml", fmt.Sprintf(bookXML, "S")},
		{"xl/_rels/workbook.xml.rels", strings.Replace(bookRels, `Target="worksheets/sheet1.xml"`, `Target="file://`+outside+`/secret.xlsx" TargetMode="External"`, 1)}})
	f.put(t, "bench/external.xlsx", external)
	for _, name := range []string{"bench/link.xlsx", "passwd.csv", "bench/climbing.xlsx", "bench/external.xlsx"} {
		want[name] = -1
	}
	must(t, os.MkdirAll(f.at("Ranked"), 0o777))
	must(t, os.Symlink(outside, f.at("Ranked/Head cards"))) // where we write
	s := f.watch(t)
	out := tally{trials: len(want) + 5}
	total := 0
	for _, readings := range want {
		total += max(0, readings)
	}
	out.seconds = s.readings(t, total, patience).Seconds()
	out.lost, out.short = f.account(t, want)
	out.invalid = f.runnable(t)
	entries, err := os.ReadDir(outside)
	must(t, err)
	if len(entries) != 1 {
		out.invalid++
		t.Errorf("something was written outside: %v", entries)
	}
	if _, err := os.Stat(filepath.Join(filepath.Dir(f.path), "climbed.xml")); err == nil {
		out.invalid++
		t.Error("a part climbed out")
	}
	return out
}

// runnable counts cells of our workbooks in which a text from outside became a
// formula, or that hold what stands outside of the folder.
func (f *shopFolder) runnable(t *testing.T) (n int) {
	t.Helper()
	must(t, filepath.WalkDir(f.at("Ranked"), func(name string, d fs.DirEntry, err error) error {
		if err != nil || !d.Type().IsRegular() || filepath.Ext(name) != ".xlsx" {
			return err
		}
		content, err := os.ReadFile(name)
		must(t, err)
		cells, err := book.Cells(content)
		must(t, err)
		for _, c := range cells {
			if strings.Contains(c.Formula, "example.invalid") || strings.Contains(c.Formula, "cmd|") || strings.Contains(c.Value, secret) || strings.Contains(c.Value, "root:x:") {
				n++
				t.Logf("%s: %+v", filepath.Base(name), c)
			}
		}
		return nil
	}))
	return n
}
