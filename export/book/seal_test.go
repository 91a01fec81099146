package book_test

import (
	"bytes"
	"testing"

	"github.com/xuri/excelize/v2"

	"flowshelf/export/book"
	"flowshelf/export/book/booktest"
)

// sealed is a book with texts, figures and a formula.
func sealed(t *testing.T) []byte {
	t.Helper()
	b := book.New(properties)
	s := b.Sheet("Bob's sheet")
	s.Say(1, 1, "=not a formula", book.Body)
	s.Set(2, 1, book.Number(1.0/3), book.Body.As(book.Tenth))
	s.Set(3, 1, book.Number(2), book.Body)
	s.Formula(4, 1, "SUM(A2:A3)", book.Number(1.0/3+2), book.Body)
	s.Formula(5, 1, `IF(A3=2,"","x")`, book.Value{}, book.Body)
	b.Sheet("Empty")
	return finished(t, b)
}

func TestIdentity(t *testing.T) {
	original := sealed(t)
	tests := []struct {
		name       string
		workbook   []byte
		ok, edited bool
	}{
		{"as written", original, true, false},
		{"a text changed", edit(t, original, func(f *excelize.File) error { return f.SetCellStr("Bob's sheet", "A1", "mine") }), true, true},
		{"a figure changed", edit(t, original, func(f *excelize.File) error { return f.SetCellFloat("Bob's sheet", "A3", 2.001, -1, 64) }), true, true},
		{"a formula changed", edit(t, original, func(f *excelize.File) error { return f.SetCellFormula("Bob's sheet", "A4", "SUM(A2:A2)") }), true, true},
		{"a cell added", edit(t, original, func(f *excelize.File) error { return f.SetCellStr("Empty", "H9", "call him") }), true, true},
		{"a note written", edit(t, original, func(f *excelize.File) error {
			return f.AddComment("Bob's sheet", excelize.Comment{Cell: "A3", Author: "me", Paragraph: []excelize.RichTextRun{{Text: "why?"}}})
		}), true, true},
		{"only the colour changed", edit(t, original, func(f *excelize.File) error { return f.SetColWidth("Bob's sheet", "A", "A", 40) }), true, false},
		{"somebody else's", foreign(t), false, false},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			id, ok, edited, err := book.Identity(tt.workbook)
			if err != nil || ok != tt.ok || edited != tt.edited {
				t.Errorf("ok %v, edited %v, %v; want %v, %v", ok, edited, err, tt.ok, tt.edited)
			}
			if ok && id.ID != properties.ID {
				t.Errorf("id %q, want %q", id.ID, properties.ID)
			}
		})
	}
}

func foreign(t *testing.T) []byte {
	t.Helper()
	return edit(t, sealed(t), func(f *excelize.File) error {
		return f.SetCustomProps(excelize.CustomProperty{Name: book.PropertyID, Value: nil})
	})
}

func TestIdentityOfDamage(t *testing.T) {
	if _, ok, _, err := book.Identity([]byte("PK but no more")); ok || err == nil {
		t.Errorf("ok %v, %v; want an error", ok, err)
	}
	whole := sealed(t)
	if _, _, edited, err := book.Identity(whole[:len(whole)/2]); err == nil {
		t.Errorf("half a workbook: edited %v and no error", edited)
	}
}

// TestResavedUnchangedIsNotEdited lets LibreOffice rewrite every byte.
func TestResavedUnchangedIsNotEdited(t *testing.T) {
	id, ok, edited, err := book.Identity(booktest.Resave(t, sealed(t)))
	if err != nil || !ok || edited {
		t.Errorf("%v: ok %v, edited %v, %v", id, ok, edited, err)
	}
}

func TestSealForeign(t *testing.T) {
	out, err := book.Seal(foreign(t), "marked/one")
	if err != nil {
		t.Fatal(err)
	}
	id, ok, edited, err := book.Identity(out)
	if err != nil || !ok || edited || id.ID != "marked/one" {
		t.Errorf("%v, ok %v, edited %v, %v", id, ok, edited, err)
	}
}

func TestNoIDNoStamp(t *testing.T) {
	p := properties
	p.ID = ""
	b := book.New(p)
	b.Sheet("S").Say(1, 1, "yours now", book.Body)
	if _, ok, _, err := book.Identity(finished(t, b)); ok || err != nil {
		t.Errorf("ok %v, %v", ok, err)
	}
}

func FuzzIdentity(f *testing.F) {
	b := book.New(properties)
	b.Sheet("S").Say(1, 1, "x", book.Body)
	whole, err := b.Bytes()
	if err != nil {
		f.Fatal(err)
	}
	f.Add(whole)
	f.Add(bytes.Repeat([]byte("PK\x03\x04"), 8))
	f.Fuzz(func(t *testing.T, data []byte) {
		if _, ok, _, err := book.Identity(data); err == nil && ok && len(data) == 0 {
			t.Error("nothing has an identity")
		}
	})
}
