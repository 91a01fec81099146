package main

import (
	"archive/zip"
	"bytes"
	"context"
	"errors"
	"fmt"
	"runtime"
	"strings"
	"testing"
	"time"

	"github.com/google/go-cmp/cmp"

	"flowshelf/analysis/source"
	"flowshelf/export/book"
	"flowshelf/export/marked"
)

// plenty is time enough for one copy on a machine that is busy.
const plenty = 10 * time.Minute

// job asks for a copy with one mark.
func job(a *app, path string, content []byte) markJob {
	found := []marked.Finding{{Sheet: "Sheet1", Cell: "A1", Severity: source.Asked, Message: "is this a lift"}}
	return markJob{marked.Original{Path: path, Content: content}, found, a.markLimits()}
}

// swollen is a small file that takes much memory: one cell with so many MB of text.
func swollen(t *testing.T, megabytes int) []byte {
	t.Helper()
	in, err := zip.NewReader(bytes.NewReader(smallBook(t)), int64(len(smallBook(t))))
	if err != nil {
		t.Fatal(err)
	}
	var b bytes.Buffer
	out := zip.NewWriter(&b)
	for _, part := range in.File {
		if part.Name != "xl/worksheets/sheet1.xml" {
			if err := out.Copy(part); err != nil {
				t.Fatal(err)
			}
		}
	}
	w, err := out.Create("xl/worksheets/sheet1.xml")
	if err != nil {
		t.Fatal(err)
	}
	fmt.Fprint(w, `<worksheet xmlns="http://schemas.openxmlformats.org/spreadsheetml/2006/main"><sheetData><row r="1"><c r="A1" t="inlineStr"><is><t>`)
	for range megabytes {
		fmt.Fprint(w, strings.Repeat("x", 1<<20))
	}
	fmt.Fprint(w, `</t></is></c></row></sheetData></worksheet>`)
	if err := out.Close(); err != nil {
		t.Fatal(err)
	}
	return b.Bytes()
}

// Whatever becomes of a workbook, it is a copy or a few plain words, and those
// before and after it get the copies that they get from a process of their own.
func TestOnePoisonedAmongGood(t *testing.T) {
	a := testApp(t)
	good := smallBook(t)
	normal := bounds{a.markMemory(), plenty}
	alone := func(j markJob) []byte {
		var own marker
		defer own.rest()
		out, err := own.mark(t.Context(), j, normal)
		if err != nil {
			t.Fatal(err)
		}
		if id, ours, edited, err := book.Identity(out); err != nil || !ours || edited {
			t.Fatalf("%+v, ours %v, edited %v, %v", id, ours, edited, err)
		}
		return out
	}
	first, last := job(a, "first.xlsx", good), job(a, "last.xlsx", good)
	wantFirst, wantLast := alone(first), alone(last)
	const small = 512 << 20 // enough for the good ones
	for _, c := range []struct {
		name   string
		poison []byte
		within bounds // of the poisoned one
		memory uint64 // of the process
		says   string
	}{
		{"text", []byte("lift,cfm"), normal, normal.memory, "this file is not an .xlsx or .xlsm workbook"},
		{"no time", good, bounds{normal.memory, time.Nanosecond}, normal.memory, errMarkerSlow.Error()},
		{"no memory", swollen(t, 160), bounds{small, plenty}, small, errMarkerDied.Error()},
	} {
		t.Run(c.name, func(t *testing.T) {
			if c.name == "no memory" && runtime.GOOS != "linux" {
				t.Skip("memory is limited on Linux only")
			}
			var m marker
			defer m.rest()
			goods := func() {
				for _, good := range []struct {
					job  markJob
					want []byte
				}{{first, wantFirst}, {last, wantLast}} {
					if got, err := m.mark(t.Context(), good.job, bounds{c.memory, plenty}); err != nil || !bytes.Equal(good.want, got) {
						t.Errorf("%s: %v, another copy than in a process of its own", good.job.Original.Path, err)
					}
				}
			}
			goods()
			if _, err := m.mark(t.Context(), job(a, "poison.xlsx", c.poison), c.within); err == nil || err.Error() != c.says {
				t.Errorf("error %v, want %q", err, c.says)
			}
			goods()
		})
	}
}

// One process marks all copies as long as nothing befalls it.
func TestOneProcessMarksAll(t *testing.T) {
	a := testApp(t)
	processes := make(map[int]bool)
	for i := range 5 {
		j := job(a, fmt.Sprintf("%d.xlsx", i), smallBook(t))
		if _, err := a.marker.mark(t.Context(), j, bounds{a.markMemory(), plenty}); err != nil {
			t.Fatal(err)
		}
		processes[a.marker.child.cmd.Process.Pid] = true
	}
	if len(processes) != 1 {
		t.Errorf("%d processes", len(processes))
	}
}

// A process that was killed between two copies costs none of them; an interrupted
// pass leaves none behind.
func TestAKilledMarkerIsReplaced(t *testing.T) {
	a := testApp(t)
	within := bounds{a.markMemory(), plenty}
	var copies [2][]byte
	for i := range copies {
		var err error
		if copies[i], err = a.marker.mark(t.Context(), job(a, "a.xlsx", smallBook(t)), within); err != nil {
			t.Fatal(err)
		}
		if err := a.marker.child.cmd.Process.Kill(); err != nil {
			t.Fatal(err)
		}
	}
	if diff := cmp.Diff(copies[0], copies[1]); diff != "" {
		t.Errorf("(-first +second)\n%s", diff)
	}
	ctx, cancel := context.WithCancel(t.Context())
	cancel()
	if _, err := a.marker.mark(ctx, job(a, "a.xlsx", smallBook(t)), within); !errors.Is(err, errInterrupted) || a.marker.child != nil {
		t.Errorf("error %v, process %v", err, a.marker.child)
	}
}
