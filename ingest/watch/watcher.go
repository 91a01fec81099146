package watch

import (
	"context"
	"errors"
	"fmt"
	"io/fs"
	"slices"
	"time"
)

// Options say how patient a Watcher is.
type Options struct {
	Reserved   string // our own folder below the watched one
	Instance   string // the mark that the folder must carry
	Settle     time.Duration
	SettleText time.Duration
	Poll       time.Duration   // longest pause between two looks
	Deadline   time.Duration   // how long one look may take before the folder counts as away
	Hints      <-chan struct{} // something may have changed; nil for none
}

// Watcher looks at one folder again and again.
type Watcher struct {
	folder  fs.FS
	options Options
	settler *Settler
	stuck   chan look // a look that has not come back yet
}

// NewWatcher returns a watcher that has seen nothing, so that its first batch
// holds every file.
func NewWatcher(folder fs.FS, options Options) *Watcher {
	return &Watcher{folder: folder, options: options, settler: NewSettler(options.Settle, options.SettleText)}
}

// Batch is what is new since the batch before.
type Batch struct {
	Change
	Folders []string // every folder seen by the last look
	Unread  []Unread
	Away    error // why the folder cannot be looked at; nothing below it counts as gone
}

// Next looks at the folder until something is ready or gone and nothing is
// being written any more, or until a poll pause has passed. A batch may thus
// be empty: a moment for the caller to try again what failed. A folder that is away is such a batch too. The error is the context's.
func (w *Watcher) Next(ctx context.Context) (Batch, error) {
	var batch Batch
	end := time.Now().Add(w.options.Poll)
	for {
		found := w.look(ctx)
		if ctx.Err() != nil {
			return Batch{}, ctx.Err()
		}
		batch.Away = found.err
		pause := time.Until(end)
		if found.err == nil {
			batch.Folders, batch.Unread = found.scan.Folders, found.scan.Unread
			batch.add(w.settler.Observe(found.scan))
			if batch.news() && len(batch.Waiting) == 0 {
				return batch, nil
			}
			if batch.Next > 0 {
				pause = min(pause, batch.Next)
			}
		}
		if time.Until(end) <= 0 {
			return batch, nil
		}
		if err := w.pause(ctx, pause); err != nil {
			return Batch{}, err
		}
	}
}

// Again makes the watcher report a file once more after it settled anew.
func (w *Watcher) Again(name string) { w.settler.Again(name) }

func (b *Batch) news() bool { return len(b.Ready)+len(b.Vanished) > 0 }

// add takes the newest look into a batch that may hold earlier ones: what was
// ready and is now being written again waits.
func (b *Batch) add(c Change) {
	waiting := make(map[string]bool, len(c.Waiting))
	for _, e := range c.Waiting {
		waiting[e.Path] = true
	}
	b.Ready = slices.DeleteFunc(b.Ready, func(e Entry) bool { return waiting[e.Path] })
	b.Ready = append(b.Ready, c.Ready...)
	b.Vanished = append(b.Vanished, c.Vanished...)
	b.Waiting, b.Next = c.Waiting, c.Next
}

// breath is the shortest pause: a writer that causes a storm of events does not
// cause a storm of looks.
const breath = 100 * time.Millisecond

func (w *Watcher) pause(ctx context.Context, d time.Duration) error {
	if err := sleep(ctx, breath, nil); err != nil {
		return err
	}
	return sleep(ctx, d-breath, w.options.Hints)
}

// sleep returns after a time, earlier when woken, with an error when the
// context ends.
func sleep(ctx context.Context, d time.Duration, wake <-chan struct{}) error {
	if d <= 0 {
		return ctx.Err()
	}
	timer := time.NewTimer(d)
	defer timer.Stop()
	select {
	case <-ctx.Done():
		return ctx.Err()
	case <-timer.C:
	case <-wake:
	}
	return nil
}

type look struct {
	scan Scan
	err  error
}

var errStuck = errors.New("the folder does not answer")

// look scans the folder behind a deadline. A share that hangs blocks a call for
// good and nothing can end it, so at most one call is ever out: until it comes
// back the folder is away.
func (w *Watcher) look(ctx context.Context) look {
	if w.stuck == nil {
		w.stuck = make(chan look, 1)
		go func(out chan<- look) { out <- w.scan(ctx) }(w.stuck)
	}
	timer := time.NewTimer(w.options.Deadline)
	defer timer.Stop()
	select {
	case found := <-w.stuck:
		w.stuck = nil
		return found
	case <-ctx.Done():
		return look{err: ctx.Err()}
	case <-timer.C:
		return look{err: errStuck}
	}
}

// scan looks once, and only believes what it saw when the folder carried its
// mark before and after.
func (w *Watcher) scan(ctx context.Context) look {
	if err := w.identify(); err != nil {
		return look{err: err}
	}
	scan, err := Look(ctx, w.folder, w.options.Reserved)
	if err == nil {
		err = w.identify()
	}
	return look{scan, err}
}

func (w *Watcher) identify() error {
	id, err := Marker(w.folder, w.options.Reserved)
	if err != nil {
		return err
	}
	if id != w.options.Instance {
		return fmt.Errorf("%w: it carries another one's", ErrNoMarker)
	}
	return nil
}
