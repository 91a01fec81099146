package cache_test

import (
	"database/sql"
	"errors"
	"path/filepath"
	"testing"

	"flowshelf/ingest/cache"
)

// What is known of a workbook's file stays when the workbook is laid out anew,
// until another file is found whole.
func TestTheFileOfAnOutput(t *testing.T) {
	c, _ := open(t, t.TempDir(), "reader")
	const name = "Summary.xlsx"
	whole := func(of, hash string, want bool) {
		t.Helper()
		if c.Whole(of, hash) != want {
			t.Errorf("%s with %q is whole: %v", of, hash, !want)
		}
	}
	c.FoundWhole(name, "before it was made")
	whole(name, "before it was made", true)
	if made, ok := c.Made(name); ok {
		t.Errorf("not made yet, but known as %v", made)
	}
	c.Make(cache.Output{Name: name, Input: "i"})
	whole(name, "one", false)
	c.FoundWhole(name, "one")
	c.Make(cache.Output{Name: name, Input: "j"})
	whole(name, "one", true)
	whole("Other.xlsx", "one", false)
	c.FoundWhole(name, "two")
	whole(name, "one", false)
	whole(name, "two", true)
	if made, ok := c.Made(name); !ok || made.Input != "j" {
		t.Errorf("made %v %v", made, ok)
	}
	if err := c.Trouble(); err != nil {
		t.Error(err)
	}
}

// TestAnEarlierForm opens a cache whose outputs have no file yet: they are known
// as before, and their files from now on.
func TestAnEarlierForm(t *testing.T) {
	state := t.TempDir()
	c, _, err := cache.Open(state, "reader")
	if err != nil {
		t.Fatal(err)
	}
	const name = "Summary.xlsx"
	c.Make(cache.Output{Name: name, Input: "i"})
	if err := errors.Join(c.Trouble(), c.Close()); err != nil {
		t.Fatal(err)
	}
	db, err := sql.Open("sqlite", filepath.Join(state, "state.db"))
	if err != nil {
		t.Fatal(err)
	}
	_, err = db.ExecContext(t.Context(), "ALTER TABLE output DROP COLUMN file; PRAGMA user_version = 3")
	if err := errors.Join(err, db.Close()); err != nil {
		t.Fatal(err)
	}
	again, lost := open(t, state, "reader")
	if lost != nil {
		t.Fatal(lost)
	}
	if made, ok := again.Made(name); !ok || made.Input != "i" || again.Whole(name, "") || again.Whole(name, "one") {
		t.Errorf("made %v %v, or its file is known", made, ok)
	}
	again.FoundWhole(name, "one")
	if !again.Whole(name, "one") || again.Trouble() != nil {
		t.Error("its file is not known")
	}
}
