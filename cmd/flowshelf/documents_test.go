package main

import (
	"context"
	"errors"
	"io/fs"
	"os"
	"path/filepath"
	"testing"
	"time"

	"flowshelf/export/book"
	"flowshelf/export/publish"
	"flowshelf/ingest/watch"
)

// bookToTypeIn is a workbook whose second column people type into.
func bookToTypeIn(t *testing.T, says string) []byte {
	t.Helper()
	b := book.New(book.Properties{ID: "what-if", Title: "test"})
	s := b.Sheet("Pricing")
	s.Say(1, 1, says, book.Style{})
	s.Theirs(2)
	content, err := b.Bytes()
	if err != nil {
		t.Fatal(err)
	}
	return content
}

func publishing(folder string) pass {
	return pass{folder: folder, publisher: publish.New(publish.Options{}), door: watch.NewDoor(time.Minute),
		date: time.Date(2026, 3, 16, 0, 0, 0, 0, time.UTC), mayWrite: func(context.Context) error { return nil }}
}

// TestWhatIsTypedAtTheLastMoment holds that figures which somebody saves while the
// workbook is laid out anew are taken over at the next attempt, whether or not
// anything else happens.
func TestWhatIsTypedAtTheLastMoment(t *testing.T) {
	a, folder := testApp(t), t.TempDir()
	const name = "What-if.xlsx"
	stands := filepath.Join(folder, a.config.Output.Folder, name)
	if err := errors.Join(os.Mkdir(filepath.Dir(stands), 0o700), os.WriteFile(stands, bookToTypeIn(t, "one"), 0o600)); err != nil {
		t.Fatal(err)
	}
	var docs documents
	var stood standing
	laid := 0
	docs.add(name, "facts", func() ([]byte, error) {
		content, err := os.ReadFile(stands)
		stood = standing{content, true}
		if laid++; laid == 1 {
			change(t, filepath.Dir(stands), name, "Pricing", cells{"B1": 577})
		}
		return bookToTypeIn(t, "two"), err
	})
	docs.ready[0].took = func(d *publish.Document) { stood.note(d) }
	for i, want := range []publish.State{publish.Blocked, publish.Written} {
		if got := docs.publish(t.Context(), a, publishing(folder), 0); got[0].State != want {
			t.Errorf("attempt %d: %+v", i+1, got[0])
		}
	}
	if laid != 2 {
		t.Errorf("laid out %d times", laid)
	}
}

// TestNothingIsWrittenIntoAnotherFolder holds that workbooks go where the mark is:
// a share that is not mounted leaves an empty folder.
func TestNothingIsWrittenIntoAnotherFolder(t *testing.T) {
	a, folder := testApp(t), t.TempDir()
	var docs documents
	docs.add("Any.xlsx", "facts", func() ([]byte, error) { return bookToTypeIn(t, "one"), nil })
	p := publishing(folder)
	p.mark = "the mark of another one"
	if got := docs.publish(t.Context(), a, p, 0); got[0].State != publish.Blocked {
		t.Errorf("%+v", got[0])
	}
	if _, err := os.Stat(filepath.Join(folder, a.config.Output.Folder)); !errors.Is(err, fs.ErrNotExist) {
		t.Errorf("our folder was made there: %v", err)
	}
	root, err := os.OpenRoot(folder)
	if err != nil {
		t.Fatal(err)
	}
	defer root.Close()
	if p.mark, err = watch.Mark(root, a.config.Output.Folder); err != nil {
		t.Fatal(err)
	}
	if got := docs.publish(t.Context(), a, p, 0); got[0].State != publish.Written {
		t.Errorf("with its mark: %+v", got[0])
	}
}
