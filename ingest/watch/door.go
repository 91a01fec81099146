package watch

import (
	"context"
	"errors"
	"time"
)

// ErrStuck says that a call into the folder has not come back in time.
var ErrStuck = errors.New("the folder does not answer")

// Door lets one call at a time into a shared folder. A share that hangs blocks a
// call for good and nothing can end it: whoever waits is sent away after the
// deadline, and nobody else goes in until the stuck call has come back, so that
// no more than one is ever out.
type Door struct {
	deadline time.Duration
	inside   chan struct{}
}

// NewDoor returns the door of one folder.
func NewDoor(deadline time.Duration) *Door {
	return &Door{deadline: deadline, inside: make(chan struct{}, 1)}
}

// Through makes one call into the folder. The error is the call's own, ErrStuck,
// or the context's. After the last two the call may still be running: it must
// not touch anything that its caller goes on using.
func Through[T any](ctx context.Context, d *Door, call func() (T, error)) (T, error) {
	type answer struct {
		value T
		err   error
	}
	var none T
	timer := time.NewTimer(d.deadline)
	defer timer.Stop()
	select {
	case d.inside <- struct{}{}:
	case <-timer.C:
		return none, ErrStuck
	case <-ctx.Done():
		return none, ctx.Err()
	}
	out := make(chan answer, 1)
	go func() {
		defer func() { <-d.inside }()
		value, err := call()
		out <- answer{value, err}
	}()
	select {
	case a := <-out:
		return a.value, a.err
	case <-timer.C:
		return none, ErrStuck
	case <-ctx.Done():
		return none, ctx.Err()
	}
}
