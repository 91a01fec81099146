package main

import (
	"io/fs"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/rs/zerolog"
)

// TestAMarkIsNoPath opens the state of folders whose marks were written by
// somebody who wants it elsewhere: each has its own place below the folder of
// states, and nothing is made outside of it.
func TestAMarkIsNoPath(t *testing.T) {
	base := t.TempDir()
	root := filepath.Join(base, "states")
	a := testApp(t)
	a.config.State.Folder = root
	seen := make(map[string]string)
	for _, mark := range []string{
		"../../climbed", "..", ".", "", "/climbed", filepath.Join(base, "climbed"), `..\..\climbed`, `C:\climbed`,
		"a/b", "states\x00climbed", "con", strings.Repeat("x", 5000),
	} {
		s, err := a.openState(mark, zerolog.ErrorLevel)
		if err != nil {
			t.Fatalf("%q: %v", mark, err)
		}
		if s.cache == nil || filepath.Dir(s.dir) != root {
			t.Errorf("%q: the state is kept in %s", mark, s.dir)
		}
		if other, taken := seen[s.dir]; taken {
			t.Errorf("%q has the state of %q", mark, other)
		}
		seen[s.dir] = mark
		if err := s.close(); err != nil {
			t.Error(err)
		}
	}
	entries, err := os.ReadDir(base)
	if err != nil || len(entries) != 1 {
		t.Errorf("beside the folder of states stands something: %v, %v", entries, err)
	}
	err = filepath.WalkDir(base, func(name string, d fs.DirEntry, err error) error {
		if strings.Contains(filepath.Base(name), "climbed") {
			t.Errorf("%s was made", name)
		}
		return err
	})
	if err != nil {
		t.Error(err)
	}
}
