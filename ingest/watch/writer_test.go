package watch_test

import (
	"context"
	"errors"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"testing/synctest"
	"time"

	"flowshelf/ingest/watch"
)

const every, takeover = 10 * time.Second, time.Minute

func writer(folder, machine string, lone bool) *watch.Writer {
	return watch.NewWriter(folder, watch.Identity{Machine: machine, Process: 7, Run: "run on " + machine, Home: "home of " + machine},
		watch.WriterOptions{Reserved: "Ranked", Every: every, Takeover: takeover, Door: watch.NewDoor(time.Minute), Lone: lone})
}

func claim(t *testing.T, w *watch.Writer) error {
	t.Helper()
	return w.Claim(t.Context(), func(watch.Identity) {})
}

func TestASecondWriterNamesTheFirst(t *testing.T) {
	synctest.Test(t, func(t *testing.T) {
		folder := t.TempDir()
		first, second := writer(folder, "bench-pc", false), writer(folder, "office-pc", false)
		if err := claim(t, first); err != nil {
			t.Fatal(err)
		}
		go func() {
			for range 3 {
				time.Sleep(every)
				if err := first.Beat(context.Background()); err != nil {
					t.Error(err)
				}
			}
		}()
		start, err := time.Now(), claim(t, second)
		var taken *watch.TakenError
		if !errors.As(err, &taken) || taken.By.Machine != "bench-pc" || !strings.Contains(err.Error(), "process 7 on bench-pc") {
			t.Errorf("the second claims with %v", err)
		}
		if waited := time.Since(start); waited > 2*every {
			t.Errorf("refused only after %v", waited)
		}
		time.Sleep(3 * every)
	})
}

func TestASilentWriterIsReplacedAndNotices(t *testing.T) {
	synctest.Test(t, func(t *testing.T) {
		folder := t.TempDir()
		first, second := writer(folder, "bench-pc", false), writer(folder, "office-pc", false)
		if err := claim(t, first); err != nil {
			t.Fatal(err)
		}
		start, err := time.Now(), claim(t, second)
		if waited := time.Since(start); err != nil || waited != takeover {
			t.Errorf("took over after %v, %v", waited, err)
		}
		var taken *watch.TakenError
		if err := first.Beat(t.Context()); !errors.As(err, &taken) || taken.By.Machine != "office-pc" {
			t.Errorf("the first goes on: %v", err)
		}
		if err := first.Release(t.Context()); !errors.As(err, &taken) {
			t.Errorf("the first gives up what it has not: %v", err)
		}
		if err := second.Beat(t.Context()); err != nil {
			t.Error(err)
		}
	})
}

func TestOnesOwnDeadPredecessorIsReplacedAtOnce(t *testing.T) {
	synctest.Test(t, func(t *testing.T) {
		folder := t.TempDir()
		if err := claim(t, writer(folder, "bench-pc", false)); err != nil {
			t.Fatal(err)
		}
		again := watch.NewWriter(folder, watch.Identity{Machine: "bench-pc", Run: "the next run", Home: "home of bench-pc"},
			watch.WriterOptions{Reserved: "Ranked", Every: every, Takeover: takeover, Door: watch.NewDoor(time.Minute), Lone: true})
		start, err := time.Now(), claim(t, again)
		if waited := time.Since(start); err != nil || waited != 0 {
			t.Errorf("took over after %v, %v", waited, err)
		}
	})
}

func TestAReleasedFolderIsFree(t *testing.T) {
	synctest.Test(t, func(t *testing.T) {
		folder := t.TempDir()
		first := writer(folder, "bench-pc", false)
		if err := errors.Join(claim(t, first), first.Release(t.Context())); err != nil {
			t.Fatal(err)
		}
		start, err := time.Now(), claim(t, writer(folder, "office-pc", false))
		if waited := time.Since(start); err != nil || waited != 0 {
			t.Errorf("claimed after %v, %v", waited, err)
		}
	})
}

func TestHalfASignOfLifeNamesNobody(t *testing.T) {
	synctest.Test(t, func(t *testing.T) {
		folder := t.TempDir()
		w := writer(folder, "bench-pc", false)
		mark := filepath.Join(folder, "Ranked", ".flowshelf-writer")
		if err := errors.Join(os.Mkdir(filepath.Dir(mark), 0o700), os.WriteFile(mark, []byte(`{"machine":"off`), 0o600)); err != nil {
			t.Fatal(err)
		}
		start, err := time.Now(), claim(t, w)
		if waited := time.Since(start); err != nil || waited != takeover {
			t.Errorf("claimed after %v, %v", waited, err)
		}
		if err := os.Remove(mark); err != nil {
			t.Fatal(err)
		}
		if err := w.Beat(t.Context()); err != nil {
			t.Errorf("a swept sign of life: %v", err)
		}
	})
}

// TestABeatIsNoTakeover holds that a sign of life does not take the place back that
// another instance took since it was last looked at.
func TestABeatIsNoTakeover(t *testing.T) {
	synctest.Test(t, func(t *testing.T) {
		folder, door, hold := t.TempDir(), watch.NewDoor(time.Minute), make(chan struct{})
		first := watch.NewWriter(folder, watch.Identity{Run: "first"}, watch.WriterOptions{Reserved: "Ranked", Every: every, Takeover: takeover, Door: door})
		if err := claim(t, first); err != nil {
			t.Fatal(err)
		}
		mark := filepath.Join(folder, "Ranked", ".flowshelf-writer")
		steps := []func() error{ // one after another through the door
			func() error { <-hold; return nil },
			nil, // the sign of life
			func() error { return os.WriteFile(mark, []byte(`{"run":"second"}`), 0o600) },
		}
		for _, step := range steps {
			go func() {
				if step == nil {
					_ = first.Beat(t.Context()) // whatever it says, it says before or after
					return
				}
				if _, err := watch.Through(t.Context(), door, func() (struct{}, error) { return struct{}{}, step() }); err != nil {
					t.Error(err)
				}
			}()
			synctest.Wait()
		}
		close(hold)
		synctest.Wait()
		if content, err := os.ReadFile(mark); err != nil || !strings.Contains(string(content), "second") {
			t.Errorf("it was taken back: %s, %v", content, err)
		}
	})
}

// TestNoSignOfLifeInAnotherFolder holds that none is given in what stands in the
// place of the folder.
func TestNoSignOfLifeInAnotherFolder(t *testing.T) {
	folder := t.TempDir()
	w := watch.NewWriter(folder, watch.Identity{Run: "run"}, watch.WriterOptions{Reserved: "Ranked", Mark: "its mark", Door: watch.NewDoor(time.Minute)})
	if err := w.Beat(t.Context()); !errors.Is(err, watch.ErrNoMarker) {
		t.Errorf("error is %v", err)
	}
	if entries, err := os.ReadDir(folder); len(entries) > 0 || err != nil {
		t.Errorf("left there: %v, %v", entries, err)
	}
}
