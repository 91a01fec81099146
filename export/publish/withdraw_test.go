package publish_test

import (
	"bytes"
	"cmp"
	"os"
	"path"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	gocmp "github.com/google/go-cmp/cmp"

	"flowshelf/export/book"
	"flowshelf/export/publish"
)

// cards is the sort of outputs that the tests withdraw.
func cards() publish.Sort {
	return publish.Sort{Folder: "Head cards", Written: publish.ByName("head card/", func(head string) string { return strings.ReplaceAll(head, "/", "-") })}
}

// TestWithdraw puts one file into the folder and withdraws what a pass that
// produced only the card of LKC-12 did not.
func TestWithdraw(t *testing.T) {
	card := func(head string) func(*testing.T) []byte {
		return func(t *testing.T) []byte { return workbook(t, "head card/"+head, "x") }
	}
	typing := func(t *testing.T) []byte {
		b := book.New(book.Properties{ID: "head card/PW-99"})
		b.Sheet("Card").Theirs(2)
		content, err := b.Bytes()
		if err != nil {
			t.Fatal(err)
		}
		return content
	}
	for _, c := range []struct {
		what    string
		name    string // in Head cards, PW-99.xlsx where it is left out
		content func(*testing.T) []byte
		edit    bool
		beside  string // another file in the folder
		unread  string // a file that cannot be read
		gone    bool
		states  []publish.State
	}{
		{what: "a card whose head is gone", content: card("PW-99"), gone: true, states: []publish.State{publish.Withdrawn}},
		{what: "a numbered one", name: "PW-99 (2).xlsx", content: card("PW-99"), gone: true, states: []publish.State{publish.Withdrawn}},
		{what: "a name that a share refuses", name: "PW-9-9.xlsx", content: card("PW-9/9"), gone: true, states: []publish.State{publish.Withdrawn}},
		{what: "with somebody's changes in it", content: card("PW-99"), edit: true, states: []publish.State{publish.Left}},
		{what: "open in a spreadsheet program", content: card("PW-99"), beside: "~$PW-99.xlsx", states: []publish.State{publish.Left}},
		{what: "while a book cannot be read", content: card("PW-99"), unread: "locked.xlsx", states: []publish.State{publish.Left}},
		{what: "the card that this pass wrote", name: "LKC-12.xlsx", content: card("LKC-12")},
		{what: "the same, spelled by the share", name: "lkc-12.XLSX", content: card("LKC-12")},
		{what: "a copy under a name of a person's own", name: "for Ann.xlsx", content: card("PW-99")},
		{what: "a kept version", name: "PW-99 (kept 2026-03-16).xlsx", content: card("PW-99")},
		{what: "another kept version", name: "PW-99 (kept 2026-03-16, 2).xlsx", content: card("PW-99")},
		{what: "another sort", content: func(t *testing.T) []byte { return workbook(t, "history/PW-99", "x") }},
		{what: "one that people type into", content: typing},
		{what: "a person's own workbook", content: func(t *testing.T) []byte { return personal(t) }},
		{what: "half a workbook", content: func(t *testing.T) []byte { c := workbook(t, "head card/PW-99", "x"); return c[:len(c)/2] }},
		{what: "a text", name: "PW-99.txt", content: card("PW-99")},
	} {
		t.Run(c.what, func(t *testing.T) {
			f := newFolder(t)
			mkdir(t, filepath.Join(f.path, "Head cards"))
			name := path.Join("Head cards", cmp.Or(c.name, "PW-99.xlsx"))
			f.put(t, name, c.content(t))
			if c.edit {
				f.edit(t, name, "mine")
			}
			if c.beside != "" {
				f.put(t, path.Join("Head cards", c.beside), []byte("lock"))
			}
			got := f.publisher(t, publish.Options{}).Withdraw(t.Context(), cards(), []string{"Head cards/LKC-12.xlsx"}, c.unread)
			checkWithdrawn(t, got, name, c.states)
			_, err := os.Stat(filepath.Join(f.path, name))
			if gone := os.IsNotExist(err); gone != c.gone {
				t.Errorf("gone is %v, want %v", gone, c.gone)
			}
		})
	}
}

func checkWithdrawn(t *testing.T, got []publish.Outcome, name string, want []publish.State) {
	t.Helper()
	var states []publish.State
	for _, o := range got {
		states = append(states, o.State)
		if o.Name != name || (o.State == publish.Left) != (o.Message != "" && o.Hint != "" && o.At == name) {
			t.Errorf("%+v", o)
		}
	}
	if !slices.Equal(states, want) {
		t.Errorf("states %v, want %v", states, want)
	}
}

// TestWithdrawLooksAgain holds that a workbook which was as we wrote it at the
// last pass is read again before it goes: a program can keep size and time.
func TestWithdrawLooksAgain(t *testing.T) {
	f := newFolder(t)
	mkdir(t, filepath.Join(f.path, "Head cards"))
	const name = "Head cards/PW-99.xlsx"
	p := f.publisher(t, publish.Options{})
	p.Publish(t.Context(), publish.Document{Name: name, Content: workbook(t, "head card/PW-99", "x")})
	before, err := os.Stat(filepath.Join(f.path, name))
	if err != nil {
		t.Fatal(err)
	}
	content, err := os.ReadFile(filepath.Join(f.path, name))
	if err != nil {
		t.Fatal(err)
	}
	f.put(t, name, content[:len(content)/2])
	if err := os.Truncate(filepath.Join(f.path, name), before.Size()); err != nil {
		t.Fatal(err)
	}
	if err := os.Chtimes(filepath.Join(f.path, name), before.ModTime(), before.ModTime()); err != nil {
		t.Fatal(err)
	}
	checkWithdrawn(t, p.Withdraw(t.Context(), cards(), nil, ""), name, nil)
	if diff := gocmp.Diff([]string{"Head cards"}, f.names(t)); diff != "" {
		t.Error(diff)
	}
	if _, err := os.Stat(filepath.Join(f.path, name)); err != nil {
		t.Error(err)
	}
}

// TestWithdrawWithoutAFolder holds that nothing is made or removed where nothing
// was ever written.
func TestWithdrawWithoutAFolder(t *testing.T) {
	f := newFolder(t)
	if got := f.publisher(t, publish.Options{}).Withdraw(t.Context(), cards(), nil, ""); got != nil || len(f.names(t)) != 0 {
		t.Errorf("%+v, %v", got, f.names(t))
	}
}

// keptTime saves as a program does that keeps a file's size and time: it changes
// as little as the last byte.
func (f folder) keptTime(t *testing.T, name string) (content []byte) {
	t.Helper()
	path := filepath.Join(f.path, name)
	info, err := os.Stat(path)
	if err != nil {
		t.Fatal(err)
	}
	if content, err = os.ReadFile(path); err != nil {
		t.Fatal(err)
	}
	content[len(content)-1] ^= 1
	f.put(t, name, content)
	if err := os.Chtimes(path, info.ModTime(), info.ModTime()); err != nil {
		t.Fatal(err)
	}
	return content
}

// TestSizeAndTimeAreNoProof holds that what stands under a name is read again
// before it is replaced, whatever its size and time say.
func TestSizeAndTimeAreNoProof(t *testing.T) {
	f := newFolder(t)
	p := f.publisher(t, publish.Options{})
	one := publish.Document{Name: name, Content: workbook(t, "a", "one")}
	p.Publish(t.Context(), one)
	check(t, p.Publish(t.Context(), one), publish.Outcome{Name: name, State: publish.Unchanged, At: name})
	saved := f.keptTime(t, name)
	out := p.Publish(t.Context(), publish.Document{Name: name, Content: workbook(t, "a", "two")})
	for _, where := range []string{name, out.Kept} {
		if now, err := f.root.ReadFile(where); err == nil && bytes.Equal(now, saved) {
			return
		}
	}
	t.Errorf("what was saved is gone: %+v, %v", out, f.names(t))
}

// TestSizeAndTimeOfACopyAreNoProof is the same of a copy that stood in for a
// workbook.
func TestSizeAndTimeOfACopyAreNoProof(t *testing.T) {
	f := newFolder(t)
	f.put(t, name, []byte("mine"))
	p := f.publisher(t, publish.Options{})
	doc := publish.Document{Name: name, Content: workbook(t, "a", "one")}
	p.Publish(t.Context(), doc)
	copied := p.Publish(t.Context(), doc).At
	saved := f.keptTime(t, copied)
	stands := func(when string) {
		t.Helper()
		if now, err := f.root.ReadFile(copied); err != nil || !bytes.Equal(now, saved) {
			t.Errorf("%s what was saved is gone: %v", when, err)
		}
	}
	p.Publish(t.Context(), publish.Document{Name: name, Content: workbook(t, "a", "two")})
	stands("written anew,")
	if err := f.root.Remove(name); err != nil {
		t.Fatal(err)
	}
	p.Publish(t.Context(), doc)
	stands("with the name free again,")
}
