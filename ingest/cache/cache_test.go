package cache_test

import (
	"bytes"
	"errors"
	"io/fs"
	"maps"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"
	"testing/synctest"
	"time"

	"github.com/google/go-cmp/cmp"

	"flowshelf/analysis/head"
	"flowshelf/analysis/source"
	"flowshelf/ingest"
	"flowshelf/ingest/cache"
	"flowshelf/ingest/watch"
	"flowshelf/testdata"
)

func open(t *testing.T, folder, reader string) (*cache.Cache, error) {
	t.Helper()
	c, lost, err := cache.Open(folder, reader)
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() {
		if err := c.Close(); err != nil {
			t.Error(err)
		}
	})
	return c, lost
}

// counting is a memory that counts how often it could help.
type counting struct {
	ingest.Memory
	recalled, kept int
}

func (c *counting) Recall(key string) (ingest.FileRead, bool) {
	read, ok := c.Memory.Recall(key)
	if ok {
		c.recalled++
	}
	return read, ok
}

func (c *counting) Keep(key string, read ingest.FileRead) {
	c.kept++
	c.Memory.Keep(key, read)
}

func read(t *testing.T, folder fs.FS, memory ingest.Memory) ingest.Reading {
	t.Helper()
	options := ingest.DefaultOptions()
	options.Workers, options.Memory = 1, memory
	out, err := ingest.ReadFolder(t.Context(), folder, options)
	if err != nil {
		t.Fatal(err)
	}
	return out
}

func demo(t *testing.T) fs.FS {
	t.Helper()
	folder, err := testdata.Demo()
	if err != nil {
		t.Fatal(err)
	}
	return folder
}

// TestTheCacheChangesNothing reads the demo folder without a cache, with an
// empty one and from a full one: what comes out is the same each time.
func TestTheCacheChangesNothing(t *testing.T) {
	want := read(t, demo(t), nil)
	state := t.TempDir()
	for _, start := range []string{"first", "second"} {
		c, lost, err := cache.Open(state, "reader 1")
		if lost != nil || err != nil {
			t.Fatal(lost, err)
		}
		memory := &counting{Memory: c}
		got := read(t, demo(t), memory)
		if first := start == "first"; first != (memory.kept > 20) || first == (memory.recalled > 20) {
			t.Errorf("%s start: %d kept, %d recalled", start, memory.kept, memory.recalled)
		}
		if diff := cmp.Diff(want, got); diff != "" {
			t.Errorf("%s start: (-without +with a cache)\n%s", start, diff)
		}
		if err := errors.Join(c.Trouble(), c.Close()); err != nil {
			t.Error(err)
		}
	}
}

// TestAnAnswerReadsAgainWhatLookedForIt answers the questions of the demo one by
// one. Each answer has nothing read again but the files that it concerns, and
// what comes out is what is read without a cache.
func TestAnAnswerReadsAgainWhatLookedForIt(t *testing.T) {
	c, _ := open(t, t.TempDir(), "reader")
	reading := read(t, demo(t), c)
	var said []head.Answer
	for {
		next := slices.IndexFunc(reading.Problems, func(p source.Problem) bool {
			return p.Severity == source.Asked && p.Question != nil && len(p.Question.Choices) > 0 &&
				!strings.HasPrefix(p.Question.Key, "head name") && // settled after reading
				!slices.ContainsFunc(said, func(a head.Answer) bool { return a.Key == p.Question.Key })
		})
		if next < 0 {
			break
		}
		q := reading.Problems[next].Question
		said = append(said, head.Answer{Key: q.Key, Text: q.Choices[0], On: time.Date(2026, 3, 16, 0, 0, 0, 0, time.UTC)})
		memory := &counting{Memory: c}
		reading = readTold(t, memory, said)
		if diff := cmp.Diff(readTold(t, nil, said), reading); diff != "" {
			t.Errorf("%q answered: (-without +with a cache)\n%s", q.Key, diff)
		}
		const most = 2 // of one sender, with one layout
		if memory.kept == 0 || memory.kept > most {
			t.Errorf("%q answered: %d of %d files were read again", q.Key, memory.kept, len(reading.Files))
		}
	}
	if len(said) < 2 {
		t.Errorf("%d questions were asked, too few to show anything", len(said))
	}
}

func readTold(t *testing.T, memory ingest.Memory, said []head.Answer) ingest.Reading {
	t.Helper()
	options := ingest.DefaultOptions()
	options.Workers, options.Memory, options.Answers = 1, memory, head.NewAnswers(said)
	out, err := ingest.ReadFolder(t.Context(), demo(t), options)
	if err != nil {
		t.Fatal(err)
	}
	return out
}

func TestAnotherReaderReadsAgain(t *testing.T) {
	state := t.TempDir()
	for _, reader := range []string{"reader 1", "reader 2"} {
		c, _, err := cache.Open(state, reader)
		if err != nil {
			t.Fatal(err)
		}
		memory := &counting{Memory: c}
		read(t, demo(t), memory)
		if memory.recalled != 0 || memory.kept == 0 {
			t.Errorf("%s recalled %d, kept %d", reader, memory.recalled, memory.kept)
		}
		if err := c.Close(); err != nil {
			t.Fatal(err)
		}
	}
}

func TestOnlyOneHoldsIt(t *testing.T) {
	state := t.TempDir()
	if _, err := open(t, state, "reader"); err != nil {
		t.Fatal(err)
	}
	if _, _, err := cache.Open(state, "reader"); !errors.Is(err, cache.ErrInUse) {
		t.Errorf("opened twice: %v", err)
	}
}

// TestADamagedCacheIsMadeAnew damages the database in the ways a disk does. The
// next start says so once, has an empty cache and reads everything again.
func TestADamagedCacheIsMadeAnew(t *testing.T) {
	damages := map[string]func(content []byte) []byte{
		"no database":         func([]byte) []byte { return []byte("this is no database, and long enough to look like one") },
		"cut":                 func(c []byte) []byte { return c[:len(c)/2] },
		"overwritten in part": func(c []byte) []byte { return slices.Concat(c[:100], bytes.Repeat([]byte{0xff}, len(c)-100)) },
		"from the future":     func(c []byte) []byte { c[63] = 99; return c }, // user_version, sqlite.org/fileformat.html 1.3.12
	}
	for name, damage := range damages {
		t.Run(name, func(t *testing.T) {
			state := t.TempDir()
			c, _, err := cache.Open(state, "reader")
			if err != nil {
				t.Fatal(err)
			}
			want := read(t, demo(t), c)
			if err := c.Close(); err != nil {
				t.Fatal(err)
			}
			file := filepath.Join(state, "state.db")
			content, err := os.ReadFile(file)
			if err != nil {
				t.Fatal(err)
			}
			if err := os.WriteFile(file, damage(content), 0o600); err != nil {
				t.Fatal(err)
			}
			again, lost := open(t, state, "reader")
			got := read(t, demo(t), again)
			if trouble := again.Trouble(); (lost == nil) == (trouble == nil) {
				t.Errorf("said at the start %v, later %v; want one of them", lost, trouble)
			}
			if diff := cmp.Diff(want, got); diff != "" {
				t.Errorf("(-before +after)\n%s", diff)
			}
		})
	}
}

// TestAFlippedBitIsNoReading flips each bit of some bytes of a kept reading:
// what is recalled is what was kept, or nothing.
func TestAFlippedBitIsNoReading(t *testing.T) {
	state := t.TempDir()
	c, _, err := cache.Open(state, "reader")
	if err != nil {
		t.Fatal(err)
	}
	const figure = "the figure is 231.4"
	c.Keep("key", ingest.FileRead{Path: "a.xlsx", Reason: figure})
	if err := c.Close(); err != nil {
		t.Fatal(err)
	}
	file := filepath.Join(state, "state.db")
	content, err := os.ReadFile(file)
	if err != nil {
		t.Fatal(err)
	}
	at := bytes.Index(content, []byte(figure))
	if at < 0 {
		t.Fatal("the reading is not in the file")
	}
	content[at+len(figure)-1] ^= 1 // 231.4 becomes 231.5
	if err := os.WriteFile(file, content, 0o600); err != nil {
		t.Fatal(err)
	}
	again, _ := open(t, state, "reader")
	if got, ok := again.Recall("key"); ok {
		t.Errorf("recalled %q", got.Reason)
	}
	if again.Trouble() == nil {
		t.Error("said nothing")
	}
}

func TestTheLedgerOutlivesAStart(t *testing.T) {
	state := t.TempDir()
	c, _, err := cache.Open(state, "reader")
	if err != nil {
		t.Fatal(err)
	}
	at := time.Date(2026, 3, 16, 9, 30, 0, 123456700, time.UTC)
	for _, name := range []string{"a.xlsx", "bench/b.xlsx", "gone.xlsx"} {
		c.Copied(watch.Copy{Entry: watch.Entry{Path: name, Size: 7, ModTime: at}, Hash: "ab"})
	}
	c.Dropped("gone.xlsx")
	c.Make(cache.Output{Name: "Summary.xlsx", Input: "i", ID: "summary", Content: "c"})
	c.FoundWhole("Summary.xlsx", "f")
	if err := errors.Join(c.Trouble(), c.Close()); err != nil {
		t.Fatal(err)
	}
	again, _ := open(t, state, "another reader")
	got := make(map[string]watch.Copy)
	for _, one := range again.Copies() {
		got[one.Path] = one
	}
	if names := slices.Sorted(maps.Keys(got)); !slices.Equal(names, []string{"a.xlsx", "bench/b.xlsx"}) || !got["a.xlsx"].ModTime.Equal(at) {
		t.Errorf("the ledger holds %v", got)
	}
	if made, ok := again.Made("Summary.xlsx"); ok {
		t.Errorf("another program made %v", made)
	}
	if again.Whole("Summary.xlsx", "f") {
		t.Error("another program knows the file")
	}
}

// TestWhatIsUsedIsKept holds that a reading which a service recalls day after day is
// there when that service is started again, however long it ran.
func TestWhatIsUsedIsKept(t *testing.T) {
	synctest.Test(t, func(t *testing.T) {
		state := t.TempDir()
		c, _, err := cache.Open(state, "reader")
		if err != nil {
			t.Fatal(err)
		}
		for _, key := range []string{"used", "forgotten"} {
			c.Keep(key, ingest.FileRead{Path: "a.xlsx"})
		}
		for range 90 {
			time.Sleep(24 * time.Hour)
			c.Recall("used")
		}
		if err := errors.Join(c.Trouble(), c.Close()); err != nil {
			t.Fatal(err)
		}
		again, _, err := cache.Open(state, "reader")
		if err != nil {
			t.Fatal(err)
		}
		for key, want := range map[string]bool{"used": true, "forgotten": false} {
			if _, ok := again.Recall(key); ok != want {
				t.Errorf("%s: recalled %v", key, ok)
			}
		}
		if err := again.Close(); err != nil {
			t.Error(err)
		}
	})
}
