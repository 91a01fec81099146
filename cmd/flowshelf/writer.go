package main

import (
	"context"
	"crypto/rand"
	"errors"
	"os"
	"time"

	"flowshelf/ingest/watch"
)

// holder is the right to write into a folder, kept up with signs of life while
// it is held.
type holder struct {
	*app
	right *watch.Writer
	ended chan struct{}
	stop  context.CancelFunc
}

// claim takes the right to write into a folder, which must carry a mark where one
// is given. Lost is called when another instance has taken it over.
func (a *app) claim(ctx context.Context, folder, mark string, s *state, door *watch.Door, lost func(error)) (*holder, error) {
	machine, err := os.Hostname()
	if err != nil {
		machine = "a machine without a name"
	}
	right := watch.NewWriter(folder,
		watch.Identity{Machine: machine, Process: os.Getpid(), Run: rand.Text(), Home: s.home},
		watch.WriterOptions{Reserved: a.config.Output.Folder, Mark: mark, Every: a.config.Watch.Heartbeat,
			Takeover: a.config.Watch.Takeover, Door: door, Lone: s.home != ""})
	err = right.Claim(ctx, func(by watch.Identity) {
		a.log.Info().Str("machine", by.Machine).Int("process", by.Process).Dur("at_most", a.config.Watch.Takeover).
			Msg("another instance has been at work here; waiting whether it is alive")
	})
	var taken *watch.TakenError
	switch {
	case errors.As(err, &taken):
		return nil, &failure{exitFailed, err, taken.Hint()}
	case ctx.Err() != nil:
		return nil, &failure{exitFailed, errors.New("interrupted while waiting for another instance"), ""}
	case err != nil: // a folder that may not be written: the workbooks will say so
		a.log.Debug().Err(err).Msg("no sign of life can be given")
	}
	ctx, stop := context.WithCancel(context.WithoutCancel(ctx))
	h := &holder{app: a, right: right, ended: make(chan struct{}), stop: stop}
	go h.keep(ctx, lost)
	return h, nil
}

// keep gives signs of life until the context ends.
func (h *holder) keep(ctx context.Context, lost func(error)) {
	defer close(h.ended)
	tick := time.NewTicker(h.config.Watch.Heartbeat)
	defer tick.Stop()
	for {
		select {
		case <-ctx.Done():
			return
		case <-tick.C:
		}
		err := h.right.Beat(ctx)
		if taken := (*watch.TakenError)(nil); errors.As(err, &taken) {
			lost(&failure{exitFailed, errors.New("while this instance stood still another one took its place: " + err.Error()), taken.Hint()})
			return
		}
		if err != nil && ctx.Err() == nil {
			h.log.Debug().Err(err).Msg("no sign of life could be given")
		}
	}
}

// check reports that another instance writes now. Anything else that keeps the
// sign from being read keeps the workbooks from being written too, and is told
// there.
func (h *holder) check(ctx context.Context) error {
	err := h.right.Check(ctx)
	if taken := (*watch.TakenError)(nil); errors.As(err, &taken) {
		return err
	}
	return nil
}

// release gives the right up.
func (h *holder) release() {
	h.stop()
	<-h.ended
	if err := h.right.Release(context.Background()); err != nil {
		h.log.Debug().Err(err).Msg("the sign of life stays behind")
	}
}
