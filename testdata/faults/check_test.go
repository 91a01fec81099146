//go:build unix

package faults_test

import (
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"slices"
	"strconv"
	"strings"
	"testing"
	"time"

	"github.com/xuri/excelize/v2"

	"flowshelf/analysis/head"
	"flowshelf/analysis/quantity"
	"flowshelf/analysis/shop"
	"flowshelf/analysis/source"
	"flowshelf/export/book"
	"flowshelf/export/setup"
)

// familySize is how many heads a family here has: as many as a shop has.
const familySize = 12

// setupBook is a setup with these heads, in families.
func setupBook(t testing.TB, heads []string) []byte {
	t.Helper()
	s := shop.Missing(source.Ref{}).Shop
	s.Name = "Test shop"
	s.Benches = []head.Bench{{Name: "Shop bench", Owner: "own", Own: true, Folder: "bench"}}
	for i, name := range heads {
		if i%familySize == 0 {
			s.Families = append(s.Families, head.Family{
				Name: fmt.Sprintf("Family %d", i/familySize+1), HeadsPerSet: 1, ReferenceBore: quantity.Inches(4),
				RangeFrom: quantity.Inches(0.1), RangeTo: quantity.Inches(0.35), BandFrom: quantity.Inches(0.2), BandTo: quantity.Inches(0.3),
				Worth: source.Say(quantity.Dollars(10), source.Trace{}),
			})
		}
		s.Heads = append(s.Heads, head.Listed{Name: name, Family: s.Families[len(s.Families)-1].Name, Supplier: "Larkmoor"})
	}
	content, err := setup.Write(s, time.Date(2026, 1, 5, 0, 0, 0, 0, time.UTC))
	must(t, err)
	return content
}

// names returns n names of heads.
func names(n int) []string {
	var out []string
	for i := range n {
		out = append(out, fmt.Sprintf("LKC-%d", 100+i))
	}
	return out
}

// row is one file in the status workbook.
type row struct {
	state, why string
	readings   int
}

// statusOf reads the status workbook of a folder.
func (f *shopFolder) statusOf(t testing.TB) map[string]row {
	t.Helper()
	b, err := excelize.OpenFile(f.at("Ranked/Folder status.xlsx"))
	must(t, err)
	defer b.Close()
	rows, err := b.GetRows("Files", excelize.Options{RawCellValue: true})
	must(t, err)
	column := make(map[string]int)
	out := make(map[string]row)
	for _, cells := range rows {
		if len(column) == 0 {
			if i := slices.Index(cells, "Readings in"); i >= 0 {
				for c, title := range cells {
					column[title] = c
				}
			}
			continue
		}
		cell := func(title string) string {
			if c := column[title]; c < len(cells) {
				return cells[c]
			}
			return ""
		}
		n, _ := strconv.Atoi(cell("Readings in")) // blank for a file without any
		out[cell("File")] = row{cell("State"), cell("Why") + cell("Remark"), n}
	}
	delete(out, "All files")
	return out
}

// tally is what a fault came to.
type tally struct {
	trials  int
	lost    int // contents that are neither read nor listed with a reason
	short   int // files read with fewer readings than they hold, or an older version
	invalid int // workbooks of ours that cannot be opened
	seconds float64
	note    string
}

// account compares the status with what is in the folder: want is how many
// readings each file holds, less than 0 for one that must be listed with a reason.
// A running service is given time: the numbers that it was waited for may be those
// of an older state that adds up to the same.
func (f *shopFolder) account(t testing.TB, want map[string]int) (lost, short int) {
	t.Helper()
	var said []string
	f.inTime(func() bool {
		lost, short, said = accounts(f.statusOf(t), want)
		return lost+short == 0
	})
	for _, line := range said {
		t.Log(line)
	}
	return lost, short
}

func accounts(status map[string]row, want map[string]int) (lost, short int, said []string) {
	for name, readings := range want {
		got, listed := status[name]
		switch {
		case !listed, readings < 0 && got.why == "":
			lost++
			said = append(said, "lost: "+name)
		case readings >= 0 && got.readings != readings && !strings.HasPrefix(got.why, "same as "):
			short++
			said = append(said, fmt.Sprintf("short: %s has %d readings, read are %d (%s, %s)", name, readings, got.readings, got.state, got.why))
		}
	}
	return lost, short, said
}

// inTime waits until a check comes out well, as long as a service of the folder
// runs and there is patience.
func (f *shopFolder) inTime(well func() bool) {
	for end := time.Now().Add(patience); !well() && f.runs() && time.Now().Before(end); {
		time.Sleep(poll)
	}
}

// invalidOutputs counts workbooks of ours that are not as we wrote them, and
// temporary files left behind.
func (f *shopFolder) invalidOutputs(t testing.TB) int {
	t.Helper()
	invalid := 0
	err := filepath.WalkDir(f.at("Ranked"), func(name string, d fs.DirEntry, err error) error {
		if errors.Is(err, fs.ErrNotExist) {
			return nil // being replaced
		}
		if err != nil || d.IsDir() || filepath.Ext(name) != ".xlsx" {
			return err
		}
		content, err := os.ReadFile(name)
		if errors.Is(err, fs.ErrNotExist) {
			return nil // withdrawn since
		}
		if err != nil {
			return err
		}
		if _, ours, edited, err := book.Identity(content); err != nil || !ours || edited {
			invalid++
			t.Logf("invalid: %s (ours %v, edited %v, %v)", name, ours, edited, err)
		}
		return nil
	})
	must(t, err)
	return invalid
}

// leftovers counts temporary files in our folder that stay there.
func (f *shopFolder) leftovers(t testing.TB) int {
	t.Helper()
	var left []string
	f.inTime(func() bool {
		left = nil
		must(t, filepath.WalkDir(f.at("Ranked"), func(name string, _ fs.DirEntry, err error) error {
			if errors.Is(err, fs.ErrNotExist) {
				return nil
			}
			if strings.HasSuffix(name, ".tmp") {
				left = append(left, name)
			}
			return err
		}))
		return len(left) == 0
	})
	for _, name := range left {
		t.Logf("left behind: %s", name)
	}
	return len(left)
}

// sameAsClean runs one pass over a copy of the users' files, on another state,
// and counts the workbooks whose cells differ. A service that was stopped and
// started, killed and cut off must come to the same in time.
func (f *shopFolder) sameAsClean(t testing.TB) int {
	t.Helper()
	base := t.TempDir()
	clean := &shopFolder{path: filepath.Join(base, filepath.Base(f.path)), env: slices.Clone(f.env)}
	clean.set("STATE_FOLDER", filepath.Join(base, "state"))
	must(t, os.MkdirAll(clean.path, 0o777))
	entries, err := os.ReadDir(f.path)
	must(t, err)
	for _, e := range entries {
		if e.Name() != "Ranked" {
			must(t, copyAll(filepath.Join(f.path, e.Name()), filepath.Join(clean.path, e.Name())))
		}
	}
	_ = clean.command("run", clean.path).Run() // questions and files set aside are no failure here
	var said []string
	f.inTime(func() bool {
		said = f.unlike(t, clean)
		return len(said) == 0
	})
	for _, line := range said {
		t.Log(line)
	}
	return len(said)
}

// unlike says what differs in the workbooks of a clean run.
func (f *shopFolder) unlike(t testing.TB, clean *shopFolder) (said []string) {
	t.Helper()
	must(t, filepath.WalkDir(clean.at("Ranked"), func(name string, d fs.DirEntry, err error) error {
		if err != nil || d.IsDir() || filepath.Ext(name) != ".xlsx" {
			return err
		}
		rel, err := filepath.Rel(clean.path, name)
		must(t, err)
		if diff := differentCells(t, name, filepath.Join(f.path, rel)); diff != "" {
			said = append(said, rel+": "+diff)
		}
		return nil
	}))
	return said
}

func differentCells(t testing.TB, want, got string) string {
	t.Helper()
	a, err := os.ReadFile(want)
	must(t, err)
	b, err := os.ReadFile(got)
	if err != nil {
		return err.Error()
	}
	first, err := book.Cells(a)
	must(t, err)
	second, err := book.Cells(b)
	if err != nil {
		return err.Error()
	}
	for i := range min(len(first), len(second)) {
		if first[i] != second[i] {
			return fmt.Sprintf("%+v, in a clean run %+v", second[i], first[i])
		}
	}
	if len(first) != len(second) {
		return fmt.Sprintf("%d cells, in a clean run %d", len(second), len(first))
	}
	return ""
}

// copyAll copies a file or a folder, links as links, pipes not at all.
func copyAll(from, to string) error {
	return filepath.WalkDir(from, func(name string, d fs.DirEntry, err error) error {
		if err != nil {
			return err
		}
		rel, err := filepath.Rel(from, name)
		if err != nil {
			return err
		}
		target := filepath.Join(to, rel)
		switch {
		case d.IsDir():
			return os.MkdirAll(target, 0o777)
		case d.Type()&fs.ModeSymlink != 0:
			where, err := os.Readlink(name)
			return errors.Join(err, os.Symlink(where, target))
		case !d.Type().IsRegular():
			return nil
		}
		content, err := os.ReadFile(name)
		if err != nil {
			return err
		}
		return os.WriteFile(target, content, 0o666)
	})
}
