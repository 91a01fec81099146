package watch_test

import (
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"testing"
	"testing/synctest"
	"time"

	"github.com/google/go-cmp/cmp"
	"pgregory.net/rapid"

	"flowshelf/ingest/watch"
)

func mirror(t testing.TB, largest int64) *watch.Mirror {
	t.Helper()
	m, err := watch.NewMirror(t.TempDir(), largest, nil)
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() {
		if err := m.Close(); err != nil {
			t.Error(err)
		}
	})
	return m
}

// contents returns what a folder holds, our own files left out.
func contents(t testing.TB, folder fs.FS) map[string]string {
	t.Helper()
	out := make(map[string]string)
	scan, err := watch.Look(t.Context(), folder, "Ranked")
	if err != nil {
		t.Fatal(err)
	}
	for _, e := range scan.Files {
		if e.Link {
			continue
		}
		content, err := fs.ReadFile(folder, e.Path)
		if err != nil {
			t.Fatal(err)
		}
		out[e.Path] = string(content)
	}
	return out
}

func TestMirrorKeepsTheLastGoodContent(t *testing.T) {
	s, m := newShare(), mirror(t, 1<<20)
	s.write("bench/a.xlsx", "good")
	scan, err := watch.Look(t.Context(), s, "Ranked")
	if err != nil {
		t.Fatal(err)
	}
	if _, err := m.Take(t.Context(), s, scan.Files[0]); err != nil {
		t.Fatal(err)
	}
	s.write("bench/a.xlsx", "half writ")
	if _, err := m.Take(t.Context(), s, scan.Files[0]); !errors.Is(err, watch.ErrChanged) {
		t.Errorf("taking a file that changed: %v", err)
	}
	s.leave(fs.ErrPermission)
	if _, err := m.Take(t.Context(), s, scan.Files[0]); !errors.Is(err, fs.ErrPermission) {
		t.Errorf("taking a file that is away: %v", err)
	}
	if diff := cmp.Diff(map[string]string{"bench/a.xlsx": "good"}, contents(t, m.FS())); diff != "" {
		t.Errorf("(-want +got)\n%s", diff)
	}
	info, err := fs.Stat(m.FS(), "bench/a.xlsx")
	if err != nil || !info.ModTime().Equal(scan.Files[0].ModTime) {
		t.Errorf("the mirror's time is %v, %v", info, err)
	}
}

func TestMirrorSpendsNothingOnAGiant(t *testing.T) {
	s, m := newShare(), mirror(t, 8)
	s.write("a.csv", "123456789")
	scan, err := watch.Look(t.Context(), s, "Ranked")
	if err != nil {
		t.Fatal(err)
	}
	if _, err := m.Take(t.Context(), s, scan.Files[0]); err != nil {
		t.Fatal(err)
	}
	if got := contents(t, m.FS())["a.csv"]; got != string(make([]byte, 9)) {
		t.Errorf("holds %q, want nine empty bytes", got)
	}
}

func TestMirrorForgets(t *testing.T) {
	s, m := newShare(), mirror(t, 1<<20)
	s.write("bench/old/a.xlsx", "a")
	scan, err := watch.Look(t.Context(), s, "Ranked")
	if err != nil {
		t.Fatal(err)
	}
	if _, err := m.Take(t.Context(), s, scan.Files[0]); err != nil {
		t.Fatal(err)
	}
	for range 2 { // twice is no error
		if err := m.Drop("bench/old/a.xlsx"); err != nil {
			t.Fatal(err)
		}
	}
	if _, err := fs.Stat(m.FS(), "bench"); !errors.Is(err, fs.ErrNotExist) {
		t.Errorf("the empty folder stays: %v", err)
	}
}

// TestNothingIsLost drops, rewrites, renames and deletes files at random
// moments, with the share away now and then. Whatever happened, once the folder
// stands still the mirror holds exactly what the folder holds.
func TestNothingIsLost(t *testing.T) {
	rapid.Check(t, func(r *rapid.T) {
		steps := rapid.SliceOfN(rapid.IntRange(0, 1_000_000), 1, 60).Draw(r, "steps")
		synctest.Test(t, func(t *testing.T) {
			s, m := newShare(), mirror(t, 1<<20)
			done := make(chan struct{})
			go func() {
				defer close(done)
				for i, step := range steps {
					disturb(s, i, step)
				}
				s.leave(nil)
			}()
			w := watcher(s)
			for quiet := 0; quiet < 3; {
				batch := next(t, w)
				for _, name := range batch.Vanished {
					if err := m.Drop(name); err != nil {
						t.Error(err)
					}
				}
				for _, e := range batch.Ready {
					if _, err := m.Take(t.Context(), s, e); err != nil {
						w.Again(e.Path)
					}
				}
				select {
				case <-done:
					quiet++
				default:
				}
			}
			if diff := cmp.Diff(contents(t, s), contents(t, m.FS())); diff != "" {
				t.Errorf("steps %v: (-folder +mirror)\n%s", steps, diff)
			}
		})
		if t.Failed() {
			r.FailNow()
		}
	})
}

// disturb does one of five things to the share, then lets some time pass.
func disturb(s *share, i, step int) {
	name := fmt.Sprintf("f%d.xlsx", step/8%4)
	switch step % 8 {
	case 0, 1, 2:
		s.write(name, fmt.Sprintf("content %d", i))
	case 3:
		s.remove(name)
	case 4: // saved beside and renamed
		s.remove(name)
		time.Sleep(time.Duration(step%500) * time.Millisecond)
		s.write(name, fmt.Sprintf("renamed %d", i))
	case 5:
		s.leave(fs.ErrPermission)
	default:
		s.leave(nil)
	}
	time.Sleep(time.Duration(step%7000) * time.Millisecond)
}

func TestMarkIsMadeOnceAndKept(t *testing.T) {
	folder := t.TempDir()
	root, err := os.OpenRoot(folder)
	if err != nil {
		t.Fatal(err)
	}
	defer root.Close()
	if _, err := watch.Marker(watch.Dir(folder), "Ranked"); !errors.Is(err, watch.ErrNoMarker) {
		t.Errorf("a new folder: %v", err)
	}
	first, err := watch.Mark(root, "Ranked")
	if err != nil || first == "" {
		t.Fatal(first, err)
	}
	again, err := watch.Mark(root, "Ranked")
	if err != nil || again != first {
		t.Errorf("marked again: %q, %v, want %q", again, err, first)
	}
	if read, err := watch.Marker(watch.Dir(folder), "Ranked"); err != nil || read != first {
		t.Errorf("read back: %q, %v, want %q", read, err, first)
	}
}

func TestDirStaysInside(t *testing.T) {
	outside, folder := t.TempDir(), t.TempDir()
	secret := filepath.Join(outside, "secret.xlsx")
	if err := os.WriteFile(secret, []byte("secret"), 0o600); err != nil {
		t.Fatal(err)
	}
	if err := os.Symlink(secret, filepath.Join(folder, "link.xlsx")); err != nil {
		t.Skip("no links here:", err)
	}
	if _, err := fs.ReadFile(watch.Dir(folder), "link.xlsx"); err == nil {
		t.Error("a link that leads out was followed")
	}
	if got := contents(t, watch.Dir(folder)); len(got) != 0 {
		t.Errorf("listed %v", got)
	}
}

// TestACopyThatComesLateIsNews holds that a file which came over after its caller
// had given up waiting is not taken for one that a pass has read.
func TestACopyThatComesLateIsNews(t *testing.T) {
	synctest.Test(t, func(t *testing.T) {
		s, m, door := newShare(), mirror(t, 1<<20), watch.NewDoor(time.Second)
		s.write("a.xlsx", "a")
		e := watch.Entry{Path: "a.xlsx", Size: 1, ModTime: time.Now()}
		take := func() (bool, error) {
			return watch.Through(t.Context(), door, func() (bool, error) { return m.Take(t.Context(), s, e) })
		}
		read := m.Changes()
		s.hang = make(chan struct{})
		if _, err := take(); !errors.Is(err, watch.ErrStuck) {
			t.Fatal(err)
		}
		close(s.hang)
		synctest.Wait()
		if _, err := take(); err != nil {
			t.Fatal(err)
		}
		if m.Changes() == read {
			t.Error("what came late was never told")
		}
		if read = m.Changes(); m.Drop("a.xlsx") != nil || m.Changes() == read {
			t.Error("what went was never told")
		}
	})
}
