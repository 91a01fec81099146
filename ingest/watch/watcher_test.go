package watch_test

import (
	"context"
	"errors"
	"io/fs"
	"maps"
	"slices"
	"sync"
	"testing"
	"testing/fstest"
	"testing/synctest"
	"time"

	"github.com/google/go-cmp/cmp"

	"flowshelf/ingest/watch"
)

// share is a folder in memory that other people write to, that can be away and
// that can hang.
type share struct {
	mu    sync.Mutex
	files fstest.MapFS
	away  error
	hang  chan struct{}
}

func newShare() *share {
	return &share{files: fstest.MapFS{"Ranked/.flowshelf": {Data: []byte("mark\nPlease leave it here.\n")}}}
}

func (s *share) Open(name string) (fs.File, error) {
	if s.hang != nil {
		<-s.hang
	}
	s.mu.Lock()
	defer s.mu.Unlock()
	if s.away != nil {
		return nil, &fs.PathError{Op: "open", Path: name, Err: s.away}
	}
	return maps.Clone(s.files).Open(name)
}

func (s *share) write(name, content string) {
	s.mu.Lock()
	defer s.mu.Unlock()
	s.files[name] = &fstest.MapFile{Data: []byte(content), ModTime: time.Now()}
}

func (s *share) remove(names ...string) {
	s.mu.Lock()
	defer s.mu.Unlock()
	for _, name := range names {
		delete(s.files, name)
	}
}

func (s *share) leave(err error) {
	s.mu.Lock()
	defer s.mu.Unlock()
	s.away = err
}

const settle, poll = 2 * time.Second, time.Minute

func watcher(s *share) *watch.Watcher {
	return watch.NewWatcher(s, watch.Options{
		Reserved: "Ranked", Instance: "mark",
		Settle: settle, SettleText: 3 * settle, Poll: poll, Door: watch.NewDoor(10 * time.Second),
	})
}

func next(t *testing.T, w *watch.Watcher) watch.Batch {
	t.Helper()
	batch, err := w.Next(t.Context())
	if err != nil {
		t.Fatal(err)
	}
	return batch
}

func names(entries []watch.Entry) []string {
	var out []string
	for _, e := range entries {
		out = append(out, e.Path)
	}
	return out
}

func expect(t *testing.T, what string, got []string, want ...string) {
	t.Helper()
	if diff := cmp.Diff(want, got); diff != "" {
		t.Errorf("%s (-want +got)\n%s", what, diff)
	}
}

func TestFilesAreReadyOnceTheyStandStill(t *testing.T) {
	synctest.Test(t, func(t *testing.T) {
		s, start := newShare(), time.Now()
		s.write("bench/a.xlsx", "one")
		s.write("b.csv", "one")
		s.write("Ranked/Heads ranked.xlsx", "ours")
		s.write("~$a.xlsx", "lock")
		w := watcher(s)
		batch := next(t, w)
		expect(t, "ready", names(batch.Ready), "bench/a.xlsx", "b.csv")
		if waited := time.Since(start); waited < 3*settle || waited > 4*settle {
			t.Errorf("a text file was ready after %v, its settle time is %v", waited, 3*settle)
		}
		expect(t, "ready again without a change", names(next(t, w).Ready))
	})
}

func TestAnEarlierStartIsTakenUpAtOnce(t *testing.T) {
	synctest.Test(t, func(t *testing.T) {
		s, start := newShare(), time.Now()
		s.write("a.xlsx", "one")
		w := watch.NewWatcher(s, watch.Options{
			Reserved: "Ranked", Instance: "mark", Settle: settle, SettleText: settle, Poll: poll, Door: watch.NewDoor(poll),
			Known: []watch.Entry{{Path: "a.xlsx", Size: 3, ModTime: start}},
		})
		expect(t, "ready", names(next(t, w).Ready))
		if waited := time.Since(start); waited >= settle {
			t.Errorf("the first batch came after %v, with nothing to wait for", waited)
		}
		next(t, w)
		if waited := time.Since(start); waited < poll {
			t.Errorf("the second empty batch came after %v, the poll pause is %v", waited, poll)
		}
	})
}

func TestAFileBeingWrittenWaits(t *testing.T) {
	synctest.Test(t, func(t *testing.T) {
		s := newShare()
		s.write("a.xlsx", "")
		done := make(chan time.Time)
		go func() {
			for i := range 20 {
				time.Sleep(settle * 3 / 4)
				s.write("a.xlsx", string(make([]byte, i+1)))
			}
			done <- time.Now()
		}()
		w := watcher(s)
		batch := next(t, w)
		written := <-done
		expect(t, "ready", names(batch.Ready), "a.xlsx")
		if batch.Ready[0].Size != 20 || time.Since(written) < settle {
			t.Errorf("read with %d bytes, %v after the last write", batch.Ready[0].Size, time.Since(written))
		}
	})
}

func TestAnEndlessWriterHoldsNobodyUpForever(t *testing.T) {
	synctest.Test(t, func(t *testing.T) {
		s := newShare()
		s.write("good.xlsx", "good")
		go func() {
			for i := range 600 {
				s.write("log.csv", string(make([]byte, i)))
				time.Sleep(time.Second)
			}
		}()
		batch := next(t, watcher(s))
		time.Sleep(10 * time.Minute)
		expect(t, "ready", names(batch.Ready), "good.xlsx")
		expect(t, "waiting", names(batch.Waiting), "log.csv")
	})
}

func TestSavingByRenameIsNoDeletion(t *testing.T) {
	synctest.Test(t, func(t *testing.T) {
		s := newShare()
		s.write("a.xlsx", "old")
		w := watcher(s)
		next(t, w)
		s.remove("a.xlsx")
		go func() {
			time.Sleep(settle / 2)
			s.write("a.xlsx", "newer")
		}()
		batch := next(t, w)
		expect(t, "vanished", batch.Vanished)
		expect(t, "ready", names(batch.Ready), "a.xlsx")
	})
}

func TestDeletionIsSeenTwice(t *testing.T) {
	synctest.Test(t, func(t *testing.T) {
		s := newShare()
		s.write("a.xlsx", "a")
		s.write("b.xlsx", "b")
		w := watcher(s)
		next(t, w)
		s.remove("a.xlsx")
		removed := time.Now()
		batch := next(t, w)
		expect(t, "vanished", batch.Vanished, "a.xlsx")
		if time.Since(removed) < settle {
			t.Errorf("believed after %v", time.Since(removed))
		}
		s.write("a.xlsx", "a")
		expect(t, "ready when it is back", names(next(t, w).Ready), "a.xlsx")
	})
}

func TestAFolderThatIsAwayLosesNothing(t *testing.T) {
	faults := map[string]func(*share){
		"unreachable":          func(s *share) { s.leave(errors.New("host is down")) },
		"unmounted":            func(s *share) { s.files = fstest.MapFS{} },
		"another folder there": func(s *share) { s.files = fstest.MapFS{"Ranked/.flowshelf": {Data: []byte("else\n")}} },
	}
	for name, fault := range faults {
		t.Run(name, func(t *testing.T) {
			synctest.Test(t, func(t *testing.T) {
				s := newShare()
				s.write("a.xlsx", "a")
				w := watcher(s)
				next(t, w)
				before := s.files
				fault(s)
				for range 3 {
					batch := next(t, w)
					expect(t, "vanished", batch.Vanished)
					if batch.Away == nil {
						t.Error("the folder does not count as away")
					}
				}
				s.files, s.away = before, nil
				batch := next(t, w)
				expect(t, "vanished", batch.Vanished)
				expect(t, "ready", names(batch.Ready))
				if batch.Away != nil {
					t.Errorf("still away: %v", batch.Away)
				}
			})
		})
	}
}

func TestAHungShareAnswersLater(t *testing.T) {
	synctest.Test(t, func(t *testing.T) {
		s := newShare()
		s.write("a.xlsx", "a")
		s.hang = make(chan struct{})
		w := watcher(s)
		if batch := next(t, w); batch.Away == nil {
			t.Error("a share that hangs does not count as away")
		}
		close(s.hang)
		expect(t, "ready", names(next(t, w).Ready), "a.xlsx")
	})
}

func TestAFolderThatCannotBeReadHidesItsFiles(t *testing.T) {
	s := watch.NewSettler(0, 0)
	all := []watch.Entry{{Path: "bench/a.xlsx"}, {Path: "b.xlsx"}}
	expect(t, "ready", names(s.Observe(watch.Scan{Files: all}).Ready), "bench/a.xlsx", "b.xlsx")
	locked := watch.Scan{Unread: []watch.Unread{{Path: "bench", Err: fs.ErrPermission}}}
	s.Observe(locked)
	expect(t, "vanished", s.Observe(locked).Vanished, "b.xlsx")
}

// An editor that saves by renaming leaves a moment without the file, and looks
// may follow one another at once.
func TestTwoLooksInAMomentProveNothing(t *testing.T) {
	synctest.Test(t, func(t *testing.T) {
		s := watch.NewSettler(settle, settle)
		s.Know([]watch.Entry{{Path: "a.xlsx"}})
		for range 3 {
			expect(t, "vanished", s.Observe(watch.Scan{}).Vanished)
		}
		time.Sleep(settle)
		expect(t, "vanished", s.Observe(watch.Scan{}).Vanished, "a.xlsx")
	})
}

func TestAHintShortensTheWait(t *testing.T) {
	synctest.Test(t, func(t *testing.T) {
		s, hints := newShare(), make(chan struct{}, 1)
		w := watch.NewWatcher(s, watch.Options{Reserved: "Ranked", Instance: "mark", Settle: settle,
			SettleText: settle, Poll: time.Hour, Door: watch.NewDoor(time.Minute), Hints: hints})
		go func() {
			time.Sleep(time.Minute)
			s.write("a.xlsx", "a")
			hints <- struct{}{}
		}()
		start := time.Now()
		expect(t, "ready", names(next(t, w).Ready), "a.xlsx")
		if waited := time.Since(start); waited > time.Minute+2*settle {
			t.Errorf("ready %v after the start, written after a minute", waited)
		}
	})
}

func TestNextEndsWithItsContext(t *testing.T) {
	ctx, stop := context.WithCancel(t.Context())
	stop()
	if _, err := watcher(newShare()).Next(ctx); !errors.Is(err, context.Canceled) {
		t.Errorf("error is %v", err)
	}
}

func TestLookPassesOverWhatIsNoFile(t *testing.T) {
	folder := fstest.MapFS{
		"a.xlsx":       {},
		"link.xlsx":    {Mode: fs.ModeSymlink},
		"pipe.xlsx":    {Mode: fs.ModeNamedPipe},
		"sub/b.xlsx":   {},
		"~$a.xlsx":     {},
		".git/objects": {},
	}
	scan, err := watch.Look(t.Context(), folder, "Ranked")
	if err != nil {
		t.Fatal(err)
	}
	expect(t, "files", names(scan.Files), "a.xlsx", "link.xlsx", "sub/b.xlsx")
	expect(t, "folders", slices.Sorted(slices.Values(scan.Folders)), ".", "sub")
}

// TestWhatWasFoundBeforeTheFolderWentIsNotForgotten holds that the news of a batch
// which ends with the folder away comes with the one after.
func TestWhatWasFoundBeforeTheFolderWentIsNotForgotten(t *testing.T) {
	synctest.Test(t, func(t *testing.T) {
		s := newShare()
		s.write("gone.xlsx", "gone")
		w := watcher(s)
		next(t, w)
		s.write("a.xlsx", "a")
		s.remove("gone.xlsx")
		go func() {
			for i := range 20 { // somebody writes, so that the batch stays open
				s.write("log.csv", string(make([]byte, i)))
				time.Sleep(time.Second)
			}
			s.leave(errors.New("host is down"))
		}()
		if batch := next(t, w); batch.Away == nil || len(batch.Ready)+len(batch.Vanished) > 0 {
			t.Errorf("away: %v, ready %v, vanished %v", batch.Away, names(batch.Ready), batch.Vanished)
		}
		s.leave(nil)
		batch := next(t, w)
		expect(t, "ready", names(batch.Ready), "a.xlsx", "log.csv")
		expect(t, "vanished", batch.Vanished, "gone.xlsx")
	})
}

// TestFilesThatGoOneAfterAnotherGoTogether holds that a deletion which takes a
// while is seen as one: how many files went at once decides whether anybody asks.
func TestFilesThatGoOneAfterAnotherGoTogether(t *testing.T) {
	synctest.Test(t, func(t *testing.T) {
		s := newShare()
		all := files(8)
		for _, name := range all {
			s.write(name, "x")
		}
		w := watcher(s)
		next(t, w)
		go func() {
			for _, name := range all {
				s.remove(name)
				time.Sleep(settle / 2)
			}
		}()
		time.Sleep(settle / 4)
		expect(t, "vanished", next(t, w).Vanished, all...)
	})
}
