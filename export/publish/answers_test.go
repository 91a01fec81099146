package publish_test

import (
	"bytes"
	"crypto/sha256"
	"encoding/hex"
	"strings"
	"testing"

	"github.com/xuri/excelize/v2"

	"flowshelf/export/book"
	"flowshelf/export/publish"
)

const questions = "Questions.xlsx"

// sheetToTypeIn is a workbook of ours whose second column people type into.
func sheetToTypeIn(t *testing.T, asked string) []byte {
	t.Helper()
	b := book.New(book.Properties{ID: "questions", Title: "test"})
	s := b.Sheet("Questions")
	s.Say(1, 1, asked, book.Style{})
	s.Theirs(2)
	content, err := b.Bytes()
	if err != nil {
		t.Fatal(err)
	}
	return content
}

func typedInto(t *testing.T, content []byte, cells map[string]string) []byte {
	t.Helper()
	f, err := excelize.OpenReader(bytes.NewReader(content))
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	for cell, text := range cells {
		if err := f.SetCellStr("Questions", cell, text); err != nil {
			t.Fatal(err)
		}
	}
	buf, err := f.WriteToBuffer()
	if err != nil {
		t.Fatal(err)
	}
	return buf.Bytes()
}

func sum(content []byte) string {
	s := sha256.Sum256(content)
	return hex.EncodeToString(s[:])
}

// unsealed takes the properties out of a workbook, as programs do that know
// nothing of them.
func unsealed(t *testing.T, content []byte) []byte {
	t.Helper()
	f, err := excelize.OpenReader(bytes.NewReader(content))
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	out := excelize.NewFile()
	defer out.Close()
	cell, err := f.GetCellValue("Questions", "A1")
	if err != nil {
		t.Fatal(err)
	}
	if err := out.SetCellStr("Sheet1", "A1", cell); err != nil {
		t.Fatal(err)
	}
	buf, err := out.WriteToBuffer()
	if err != nil {
		t.Fatal(err)
	}
	return buf.Bytes()
}

// TestTypedAnswers holds that a workbook people type into is replaced once its
// answers have been read and not a moment before, and that only other edits are
// kept aside.
func TestTypedAnswers(t *testing.T) {
	first, second := sheetToTypeIn(t, "one?"), sheetToTypeIn(t, "two?")
	typed := typedInto(t, first, map[string]string{"B1": "yes"})
	scribbled := typedInto(t, first, map[string]string{"B1": "yes", "A1": "one or two?"})
	bare := unsealed(t, typed)
	for _, c := range []struct {
		name    string
		there   []byte
		doc     []byte
		read    []string
		state   publish.State
		kept    bool
		stays   bool // what stood there still does
		message string
	}{
		{"read: replaced, nothing to keep", typed, second, []string{sum(typed)}, publish.Written, false, false, ""},
		{"typed since it was read: left", typed, second, []string{sum(first)}, publish.Blocked, false, true, "typed"},
		{"never read: left", typed, second, nil, publish.Blocked, false, true, "typed"},
		{"nothing new to write: left", typed, first, nil, publish.Unchanged, false, true, ""},
		{"other cells edited: kept aside", scribbled, second, []string{sum(scribbled)}, publish.Written, true, false, "kept"},
		{"the seal is gone: kept aside", bare, second, []string{sum(bare)}, publish.Written, true, false, "kept"},
		{"the seal is gone, not read: a stranger's", bare, second, nil, publish.Numbered, false, true, "not written by us"},
	} {
		t.Run(c.name, func(t *testing.T) {
			f := newFolder(t)
			f.put(t, questions, c.there)
			got := f.publisher(t, publish.Options{}).Publish(t.Context(), publish.Document{Name: questions, Content: c.doc, Read: c.read})
			if got.State != c.state || (got.Kept != "") != c.kept || !strings.Contains(got.Message, c.message) {
				t.Errorf("%+v", got)
			}
			now, err := f.root.ReadFile(questions)
			if err != nil || bytes.Equal(now, c.there) != c.stays {
				t.Errorf("what stood there stays: %v, want %v (%v)", bytes.Equal(now, c.there), c.stays, err)
			}
			if c.kept {
				if kept, err := f.root.ReadFile(got.Kept); err != nil || !bytes.Equal(kept, c.there) {
					t.Errorf("%s does not hold what stood there: %v", got.Kept, err)
				}
			}
		})
	}
}

// TestANumberedCopyWithAnswersStays holds that a copy which stood in for the
// workbook is only removed once what was typed into it has been read.
func TestANumberedCopyWithAnswersStays(t *testing.T) {
	const copied = "Questions (2).xlsx"
	doc := sheetToTypeIn(t, "one?")
	typed := typedInto(t, doc, map[string]string{"B1": "yes"})
	f := newFolder(t)
	f.put(t, copied, typed)
	p := f.publisher(t, publish.Options{})
	next := sheetToTypeIn(t, "two?")
	stamp, _, err := book.StampOf(doc)
	if err != nil {
		t.Fatal(err)
	}
	for what, publish := range map[string]func(){
		"another version": func() { p.Publish(t.Context(), publish.Document{Name: questions, Content: next}) },
		"the same cells":  func() { p.Publish(t.Context(), publish.Document{Name: questions, Content: doc}) },
		"as it stands":    func() { p.Stands(publish.Document{Name: questions, Read: []string{sum(doc)}}, stamp) },
	} {
		f.put(t, questions, doc)
		publish()
		if _, err := f.root.Stat(copied); err != nil {
			t.Errorf("%s: the copy is gone with its answers: %v", what, err)
			f.put(t, copied, typed)
		}
	}
	p.Publish(t.Context(), publish.Document{Name: questions, Content: next, Read: []string{sum(doc), sum(next), sum(typed)}})
	if _, err := f.root.Stat(copied); err == nil {
		t.Error("the copy is still there")
	}
}

// meanwhile is a memory that is asked while a workbook is being looked at.
type meanwhile func(name string)

func (m meanwhile) Whole(name, _ string) bool { m(name); return false }

func (m meanwhile) FoundWhole(string, string) {}

// TestACopySavedWhileItIsLookedAtStays holds that what somebody saves into a copy
// between the look at it and its removal is not lost.
func TestACopySavedWhileItIsLookedAtStays(t *testing.T) {
	const copied = "Questions (2).xlsx"
	doc := sheetToTypeIn(t, "one?")
	typed := typedInto(t, doc, map[string]string{"B1": "yes"})
	f := newFolder(t)
	f.put(t, copied, doc)
	p := f.publisher(t, publish.Options{})
	p.Remember(meanwhile(func(name string) {
		if name == copied {
			f.put(t, copied, typed)
		}
	}))
	p.Publish(t.Context(), publish.Document{Name: questions, Content: sheetToTypeIn(t, "two?"), Read: []string{sum(doc)}})
	if now, err := f.root.ReadFile(copied); err != nil || !bytes.Equal(now, typed) {
		t.Errorf("the copy is gone with its answers: %v", err)
	}
}

// TestAnswersTypedIntoACopyComeFirst holds that a copy which stands in for the
// workbook is not left for another one because somebody has just typed into it.
func TestAnswersTypedIntoACopyComeFirst(t *testing.T) {
	const copied = "Questions (2).xlsx"
	first, second := sheetToTypeIn(t, "one?"), sheetToTypeIn(t, "two?")
	typed := typedInto(t, first, map[string]string{"B1": "yes"})
	f := newFolder(t)
	f.put(t, questions, []byte("mine"))
	p := f.publisher(t, publish.Options{})
	check(t, p.Publish(t.Context(), publish.Document{Name: questions, Content: first}), publish.Outcome{Name: questions, State: publish.Numbered, At: copied})
	f.put(t, copied, typed)
	check(t, p.Publish(t.Context(), publish.Document{Name: questions, Content: second, Read: []string{sum(first)}}),
		publish.Outcome{Name: questions, State: publish.Blocked, At: copied, Typed: true})
	check(t, p.Publish(t.Context(), publish.Document{Name: questions, Content: second, Read: []string{sum(typed)}}),
		publish.Outcome{Name: questions, State: publish.Numbered, At: copied})
}
