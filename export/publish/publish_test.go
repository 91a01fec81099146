package publish_test

import (
	"bytes"
	"errors"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"
	"time"

	"github.com/google/go-cmp/cmp"
	"github.com/google/go-cmp/cmp/cmpopts"
	"github.com/xuri/excelize/v2"

	"flowshelf/export/book"
	"flowshelf/export/publish"
)

const name = "Heads ranked - Small Eight.xlsx"

var march = time.Date(2026, 3, 16, 0, 0, 0, 0, time.UTC)

// workbook is one of our own outputs with one cell.
func workbook(t testing.TB, id, cell string) []byte {
	t.Helper()
	b := book.New(book.Properties{ID: id, Title: "test"})
	b.Sheet("Summary").Say(1, 1, cell, book.Style{})
	content, err := b.Bytes()
	if err != nil {
		t.Fatal(err)
	}
	return content
}

// folder is an output folder and what publishes into it.
type folder struct {
	path string
	root *os.Root
}

func newFolder(t testing.TB) folder {
	t.Helper()
	path := t.TempDir()
	root, err := os.OpenRoot(path)
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() { _ = root.Close() })
	return folder{path, root}
}

func (f folder) publisher(t testing.TB, o publish.Options) *publish.Publisher {
	t.Helper()
	p := publish.New(o)
	p.Open(f.root, march)
	return p
}

func (f folder) put(t testing.TB, name string, content []byte) {
	t.Helper()
	if err := os.WriteFile(filepath.Join(f.path, name), content, 0o600); err != nil {
		t.Fatal(err)
	}
}

// cell returns the text of A1 of the first sheet of a workbook in the folder.
func (f folder) cell(t testing.TB, name string) string {
	t.Helper()
	book, err := excelize.OpenFile(filepath.Join(f.path, name))
	if err != nil {
		t.Fatal(err)
	}
	defer book.Close()
	text, err := book.GetCellValue(book.GetSheetName(0), "A1")
	if err != nil {
		t.Fatal(err)
	}
	return text
}

// edit changes A1 as a person does, through another program's save.
func (f folder) edit(t testing.TB, name, text string) {
	t.Helper()
	book, err := excelize.OpenFile(filepath.Join(f.path, name))
	if err != nil {
		t.Fatal(err)
	}
	defer book.Close()
	if err := errors.Join(book.SetCellValue(book.GetSheetName(0), "A1", text), book.Save()); err != nil {
		t.Fatal(err)
	}
}

func (f folder) names(t testing.TB) []string {
	t.Helper()
	entries, err := os.ReadDir(f.path)
	if err != nil {
		t.Fatal(err)
	}
	var out []string
	for _, e := range entries {
		out = append(out, e.Name())
	}
	return out
}

func check(t *testing.T, got, want publish.Outcome) {
	t.Helper()
	if diff := cmp.Diff(want, got, cmpopts.IgnoreFields(publish.Outcome{}, "Message", "Hint")); diff != "" {
		t.Errorf("(-want +got)\n%s", diff)
	}
	if quiet := want.Kept == "" && want.Beside == "" && (want.State == publish.Written || want.State == publish.Unchanged); quiet != (got.Message == "") {
		t.Errorf("message is %q", got.Message)
	}
	if got.State == publish.Blocked && (got.Hint == "" || strings.Contains(got.Message, "\n")) {
		t.Errorf("not one sentence and a hint: %q, %q", got.Message, got.Hint)
	}
}

func TestRewrittenOnlyWhenCellsChange(t *testing.T) {
	f := newFolder(t)
	p := f.publisher(t, publish.Options{})
	check(t, p.Publish(t.Context(), publish.Document{Name: name, Content: workbook(t, "a", "one")}),
		publish.Outcome{Name: name, State: publish.Written, At: name})
	before, err := os.Stat(filepath.Join(f.path, name))
	if err != nil {
		t.Fatal(err)
	}
	check(t, p.Publish(t.Context(), publish.Document{Name: name, Content: workbook(t, "a", "one")}),
		publish.Outcome{Name: name, State: publish.Unchanged, At: name})
	after, err := os.Stat(filepath.Join(f.path, name))
	if err != nil || !os.SameFile(before, after) || !before.ModTime().Equal(after.ModTime()) {
		t.Error("rewritten with the same cells")
	}
	check(t, p.Publish(t.Context(), publish.Document{Name: name, Content: workbook(t, "a", "two")}),
		publish.Outcome{Name: name, State: publish.Written, At: name})
	if got := f.cell(t, name); got != "two" {
		t.Errorf("A1 is %q", got)
	}
}

func TestEditsAreKept(t *testing.T) {
	f := newFolder(t)
	p := f.publisher(t, publish.Options{})
	for i, kept := range []string{
		"Heads ranked - Small Eight (kept 2026-03-16).xlsx",
		"Heads ranked - Small Eight (kept 2026-03-16, 2).xlsx",
	} {
		p.Publish(t.Context(), publish.Document{Name: name, Content: workbook(t, "a", "ours")})
		typed := string(rune('A' + i))
		f.edit(t, name, typed)
		check(t, p.Publish(t.Context(), publish.Document{Name: name, Content: workbook(t, "a", "ours")}),
			publish.Outcome{Name: name, State: publish.Written, At: name, Kept: kept})
		if got := f.cell(t, kept); got != typed {
			t.Errorf("%s holds %q, typed was %q", kept, got, typed)
		}
		if got := f.cell(t, name); got != "ours" {
			t.Errorf("%s holds %q", name, got)
		}
	}
}

// TestWhatIsKnownOfOneContent changes a workbook behind the publisher's
// back and puts an earlier content back: what was found out about one content is
// never taken for another.
func TestWhatIsKnownOfOneContent(t *testing.T) {
	f := newFolder(t)
	p := f.publisher(t, publish.Options{})
	first, second := workbook(t, "a", "one"), workbook(t, "a", "two")
	publishes := func(content []byte, want publish.State, kept bool) {
		t.Helper()
		out := p.Publish(t.Context(), publish.Document{Name: name, Content: content})
		if out.State != want || (out.Kept != "") != kept {
			t.Errorf("%v, kept as %q; want %v, kept %v", out.State, out.Kept, want, kept)
		}
	}
	publishes(first, publish.Written, false)
	publishes(first, publish.Unchanged, false)
	f.edit(t, name, "mine")
	publishes(first, publish.Written, true)
	publishes(second, publish.Written, false)
	f.put(t, name, first)
	publishes(first, publish.Unchanged, false)
	publishes(second, publish.Written, false)
}

func TestAnotherOutputUnderTheNameIsKept(t *testing.T) {
	f := newFolder(t)
	f.put(t, name, workbook(t, "other", "copied here by somebody"))
	out := f.publisher(t, publish.Options{}).Publish(t.Context(), publish.Document{Name: name, Content: workbook(t, "a", "ours")})
	check(t, out, publish.Outcome{Name: name, State: publish.Written, At: name, Kept: "Heads ranked - Small Eight (kept 2026-03-16).xlsx"})
	if got := f.cell(t, out.Kept); got != "copied here by somebody" {
		t.Errorf("kept %q", got)
	}
}

func TestWhatIsNotOursStays(t *testing.T) {
	foreign := map[string]func(t *testing.T, f folder){
		"a text":             func(t *testing.T, f folder) { f.put(t, name, []byte("mine")) },
		"an empty file":      func(t *testing.T, f folder) { f.put(t, name, nil) },
		"half a workbook":    func(t *testing.T, f folder) { c := workbook(t, "a", "x"); f.put(t, name, c[:len(c)/2]) },
		"a person's own":     func(t *testing.T, f folder) { f.put(t, name, personal(t)) },
		"a folder":           func(t *testing.T, f folder) { mkdir(t, filepath.Join(f.path, name)) },
		"a link to a folder": func(t *testing.T, f folder) { link(t, t.TempDir(), filepath.Join(f.path, name)) },
	}
	for what, place := range foreign {
		t.Run(what, func(t *testing.T) {
			f := newFolder(t)
			place(t, f)
			before, err := os.Lstat(filepath.Join(f.path, name))
			if err != nil {
				t.Fatal(err)
			}
			p := f.publisher(t, publish.Options{})
			want := publish.Outcome{Name: name, State: publish.Numbered, At: "Heads ranked - Small Eight (2).xlsx"}
			for _, cell := range []string{"one", "one", "two"} {
				check(t, p.Publish(t.Context(), publish.Document{Name: name, Content: workbook(t, "a", cell)}), want)
				if got := f.cell(t, want.At); got != cell {
					t.Errorf("%s holds %q, want %q", want.At, got, cell)
				}
			}
			after, err := os.Lstat(filepath.Join(f.path, name))
			if err != nil || !os.SameFile(before, after) || !before.ModTime().Equal(after.ModTime()) {
				t.Errorf("touched: %v, %v", after, err)
			}
			if err := os.RemoveAll(filepath.Join(f.path, name)); err != nil {
				t.Fatal(err)
			}
			check(t, p.Publish(t.Context(), publish.Document{Name: name, Content: workbook(t, "a", "two")}),
				publish.Outcome{Name: name, State: publish.Written, At: name})
			if diff := cmp.Diff([]string{name}, f.names(t)); diff != "" {
				t.Errorf("once the name is free (-want +got)\n%s", diff)
			}
		})
	}
}

func TestAnEditedNumberedCopyStays(t *testing.T) {
	f := newFolder(t)
	f.put(t, name, []byte("mine"))
	p := f.publisher(t, publish.Options{})
	second := p.Publish(t.Context(), publish.Document{Name: name, Content: workbook(t, "a", "ours")}).At
	f.edit(t, second, "typed")
	check(t, p.Publish(t.Context(), publish.Document{Name: name, Content: workbook(t, "a", "ours")}),
		publish.Outcome{Name: name, State: publish.Numbered, At: "Heads ranked - Small Eight (3).xlsx"})
	if got := f.cell(t, second); got != "typed" {
		t.Errorf("%s holds %q", second, got)
	}
}

func TestLeftoversAreSwept(t *testing.T) {
	f := newFolder(t)
	f.put(t, ".flowshelf-0123.tmp", []byte("half"))
	mkdir(t, filepath.Join(f.path, "Head cards"))
	f.put(t, "Head cards/.flowshelf-4567.tmp", []byte("half"))
	f.put(t, ".flowshelf", []byte("mark"))
	f.put(t, "mine.tmp", []byte("mine"))
	f.publisher(t, publish.Options{})
	if diff := cmp.Diff([]string{".flowshelf", "Head cards", "mine.tmp"}, f.names(t)); diff != "" {
		t.Errorf("(-want +got)\n%s", diff)
	}
	if left, _ := os.ReadDir(filepath.Join(f.path, "Head cards")); len(left) != 0 {
		t.Errorf("left in the subfolder: %v", left)
	}
}

func TestSubfoldersAreMade(t *testing.T) {
	f := newFolder(t)
	const deep = "Head cards/LKC-12.xlsx"
	check(t, f.publisher(t, publish.Options{}).Publish(t.Context(), publish.Document{Name: deep, Content: workbook(t, "a", "one")}),
		publish.Outcome{Name: deep, State: publish.Written, At: deep})
	if got := f.cell(t, deep); got != "one" {
		t.Errorf("A1 is %q", got)
	}
}

func TestNothingWithoutASealIsWritten(t *testing.T) {
	f := newFolder(t)
	out := f.publisher(t, publish.Options{}).Publish(t.Context(), publish.Document{Name: name, Content: personal(t)})
	if out.State != publish.Blocked || out.Message == "" || len(f.names(t)) != 0 {
		t.Errorf("%+v, folder %v", out, f.names(t))
	}
}

// personal is a workbook that somebody else made.
func personal(t testing.TB) []byte {
	t.Helper()
	f := excelize.NewFile()
	defer f.Close()
	var b bytes.Buffer
	if err := errors.Join(f.SetCellValue("Sheet1", "A1", "mine"), f.Write(&b)); err != nil {
		t.Fatal(err)
	}
	return slices.Clone(b.Bytes())
}

func mkdir(t *testing.T, path string) {
	t.Helper()
	if err := os.Mkdir(path, 0o700); err != nil {
		t.Fatal(err)
	}
}

func link(t *testing.T, to, at string) {
	t.Helper()
	err := os.Symlink(to, at)
	if err == nil {
		_, err = os.Lstat(at) // one may be made in name only
	}
	if err != nil {
		t.Skip("no links here:", err)
	}
}
