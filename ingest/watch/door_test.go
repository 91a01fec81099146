package watch_test

import (
	"context"
	"errors"
	"sync/atomic"
	"testing"
	"testing/synctest"
	"time"

	"flowshelf/ingest/watch"
)

func TestOneStuckCallKeepsTheOthersOut(t *testing.T) {
	synctest.Test(t, func(t *testing.T) {
		door, hang := watch.NewDoor(time.Second), make(chan struct{})
		var calls atomic.Int32
		call := func() (int, error) {
			<-hang
			return int(calls.Add(1)), nil
		}
		for range 3 {
			if _, err := watch.Through(t.Context(), door, call); !errors.Is(err, watch.ErrStuck) {
				t.Errorf("error is %v", err)
			}
		}
		close(hang)
		synctest.Wait()
		if n := calls.Load(); n != 1 {
			t.Errorf("%d calls went in, want the one that got stuck", n)
		}
		if n, err := watch.Through(t.Context(), door, call); n != 2 || err != nil {
			t.Errorf("after it came back: %d, %v", n, err)
		}
	})
}

func TestADoorEndsWithItsContext(t *testing.T) {
	synctest.Test(t, func(t *testing.T) {
		ctx, stop := context.WithTimeout(t.Context(), time.Second)
		defer stop()
		hang := make(chan struct{})
		defer close(hang)
		_, err := watch.Through(ctx, watch.NewDoor(time.Hour), func() (int, error) {
			<-hang
			return 0, nil
		})
		if !errors.Is(err, context.DeadlineExceeded) {
			t.Errorf("error is %v", err)
		}
	})
}
