package watch_test

import (
	"context"
	"os"
	"path/filepath"
	"testing"
	"time"

	"flowshelf/ingest/watch"
)

// TestHintsWake needs the system's real events, so it waits in real time, for
// as long as a busy machine may take.
func TestHintsWake(t *testing.T) {
	folder := t.TempDir()
	if err := os.Mkdir(filepath.Join(folder, "bench"), 0o700); err != nil {
		t.Fatal(err)
	}
	hints, err := watch.NewHints(folder)
	if err != nil {
		t.Fatal(err)
	}
	ctx, stop := context.WithCancel(t.Context())
	ended := make(chan error, 1)
	go func() { ended <- hints.Run(ctx) }()
	hints.Follow([]string{".", "bench", "gone before we came"})
	for _, name := range []string{"bench/b.xlsx"} {
		if err := os.WriteFile(filepath.Join(folder, name), []byte("x"), 0o600); err != nil {
			t.Fatal(err)
		}
		select {
		case <-hints.C():
		case <-time.After(time.Minute):
			t.Fatalf("no hint of %s", name)
		}
	}
	hints.Follow([]string{"."})
	stop()
	if err := <-ended; err == nil {
		t.Error("ended without its context's error")
	}
}
