package main

import (
	"errors"
	"testing"
	"time"

	"flowshelf/ingest/watch"
)

// TestReviewWaitsForNoShare asks for months while a call into the folder hangs:
// whoever asks is sent away, and a review that may stand there is not made anew.
func TestReviewWaitsForNoShare(t *testing.T) {
	door := watch.NewDoor(10 * time.Millisecond)
	release := make(chan struct{})
	defer close(release)
	hang := func() (struct{}, error) { <-release; return struct{}{}, nil }
	if _, err := watch.Through(t.Context(), door, hang); !errors.Is(err, watch.ErrStuck) {
		t.Fatal(err)
	}
	p := pass{folder: t.TempDir(), date: time.Date(2026, 3, 16, 0, 0, 0, 0, time.UTC), door: door}
	a := testApp(t)
	if _, _, err := a.kept(t.Context(), p, "2026-02"); !errors.Is(err, watch.ErrStuck) {
		t.Errorf("what was kept: %v, want %v", err, watch.ErrStuck)
	}
	if !a.reviewed(t.Context(), p) {
		t.Error("the review counts as missing though nobody could look")
	}
	p.door = watch.NewDoor(time.Minute)
	if a.reviewed(t.Context(), p) {
		t.Error("an empty folder counts as reviewed")
	}
}
