package watch

import (
	"context"
	"path/filepath"
	"slices"

	"github.com/fsnotify/fsnotify"
)

// Hints turns the system's change events into wake-up calls. They are only
// that: events are lost under load, and none come from other machines.
type Hints struct {
	events *fsnotify.Watcher
	path   string
	wake   chan struct{}
}

// NewHints listens below a folder. Where the system cannot, the error says so
// and polling alone does the work.
func NewHints(path string) (*Hints, error) {
	events, err := fsnotify.NewWatcher()
	if err != nil {
		return nil, err
	}
	return &Hints{events: events, path: path, wake: make(chan struct{}, 1)}, nil
}

// C is signalled when something may have changed.
func (h *Hints) C() <-chan struct{} { return h.wake }

// Follow listens to the folders that a scan found, and to no others.
func (h *Hints) Follow(folders []string) {
	var want []string
	for _, f := range folders {
		want = append(want, filepath.Join(h.path, filepath.FromSlash(f)))
	}
	have := h.events.WatchList()
	for _, f := range want {
		if !slices.Contains(have, f) {
			_ = h.events.Add(f) // a folder that cannot be followed is polled
		}
	}
	for _, f := range have {
		if !slices.Contains(want, f) {
			_ = h.events.Remove(f) // gone already is as good
		}
	}
}

// Run passes events on until the context ends.
func (h *Hints) Run(ctx context.Context) error {
	defer h.events.Close() //nolint:errcheck // nothing is lost with it
	for {
		select {
		case <-ctx.Done():
			return ctx.Err()
		case _, open := <-h.events.Events:
			if !open {
				return nil
			}
		case _, open := <-h.events.Errors: // an overflow: look now
			if !open {
				return nil
			}
		}
		select {
		case h.wake <- struct{}{}:
		default:
		}
	}
}
