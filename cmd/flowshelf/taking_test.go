package main

import (
	"errors"
	"os"
	"path/filepath"
	"testing"
	"time"

	"flowshelf/ingest/watch"
)

// keeping is a keeper of a folder with a mirror at a local path, and files that it
// has taken over.
func keeping(t *testing.T, local string, files ...string) (s *keeper, seen []watch.Entry) {
	t.Helper()
	folder := t.TempDir()
	m, err := watch.NewMirror(local, 1<<20, nil)
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() { _ = m.Close() })
	a := testApp(t)
	a.today = today
	s = &keeper{app: a, folder: folder, mirror: m, door: watch.NewDoor(time.Minute), taking: newTaking(a.config.Watch, time.Second)}
	s.watcher = watch.NewWatcher(watch.Dir(folder), watch.Options{Door: s.door})
	for _, name := range files {
		path := filepath.Join(folder, name)
		if err := os.WriteFile(path, []byte(name), 0o600); err != nil {
			t.Fatal(err)
		}
		info, err := os.Stat(path)
		if err != nil {
			t.Fatal(err)
		}
		seen = append(seen, watch.Entry{Path: name, Size: info.Size(), ModTime: info.ModTime()})
	}
	if !s.take(t.Context(), watch.Batch{Change: watch.Change{Ready: seen}}) {
		t.Fatal("new files are no change")
	}
	return s, seen
}

// TestAFileThatCameBack holds that a file which vanished and is ready again within
// one batch is there, and counts as there.
func TestAFileThatCameBack(t *testing.T) {
	s, seen := keeping(t, t.TempDir(), "a.csv", "b.csv", "c.csv", "d.csv", "e.csv", "f.csv")
	var all []string
	for _, e := range seen {
		all = append(all, e.Path)
	}
	s.take(t.Context(), watch.Batch{Change: watch.Change{Ready: seen[:1], Vanished: all[:1]}})
	if n := len(s.mirror.Entries()); n != len(seen) {
		t.Errorf("%d of %d files are there", n, len(seen))
	}
	s.take(t.Context(), watch.Batch{Change: watch.Change{Ready: seen, Vanished: all}})
	if held := s.taking.losses.Held(); len(held) > 0 || len(s.mirror.Entries()) != len(seen) {
		t.Errorf("%v are held, there are %v", held, s.mirror.Entries())
	}
}

// TestAFileThatCannotBeForgottenAtOnce holds that it is forgotten later.
func TestAFileThatCannotBeForgottenAtOnce(t *testing.T) {
	local := t.TempDir()
	s, _ := keeping(t, local, "a.csv")
	copied := filepath.Join(local, "a.csv")
	if err := os.Remove(copied); err != nil {
		t.Fatal(err)
	}
	if err := os.MkdirAll(filepath.Join(copied, "in the way"), 0o700); err != nil {
		t.Fatal(err)
	}
	if s.take(t.Context(), watch.Batch{Change: watch.Change{Vanished: []string{"a.csv"}}}) {
		t.Error("a folder that is not empty went")
	}
	if err := os.Remove(filepath.Join(copied, "in the way")); err != nil {
		t.Fatal(err)
	}
	if !s.take(t.Context(), watch.Batch{}) || len(s.mirror.Entries()) > 0 {
		t.Errorf("not forgotten: %v", s.mirror.Entries())
	}
}

// TestAnAnswerWithinTheSameMoment holds that an answer is heard that was saved so
// soon after the last that the size and the time of the workbook are the same.
func TestAnAnswerWithinTheSameMoment(t *testing.T) {
	s, _ := keeping(t, t.TempDir(), "a.csv")
	name := filepath.Join(s.folder, s.config.Output.Folder, answersFile)
	if err := os.Mkdir(filepath.Dir(name), 0o700); err != nil {
		t.Fatal(err)
	}
	at := time.Now()
	save := func(content string) {
		t.Helper()
		if err := errors.Join(os.WriteFile(name, []byte(content), 0o600), os.Chtimes(name, at, at)); err != nil {
			t.Fatal(err)
		}
	}
	save("140")
	s.typed, s.heard = s.answersNow(t.Context()), []string{hashOf([]byte("140"))}
	if s.answered(t.Context()) {
		t.Error("what was heard is heard again")
	}
	save("141")
	if !s.answered(t.Context()) {
		t.Error("an answer was not heard")
	}
}
