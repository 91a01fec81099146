package watch

import (
	"context"
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
	Door       *Door           // through which the folder is looked at
	Hints      <-chan struct{} // something may have changed; nil for none
	Known      []Entry         // what an earlier start has reported already
}

// Watcher looks at one folder again and again.
type Watcher struct {
	folder  fs.FS
	options Options
	settler *Settler
	begun   bool   // what an earlier start left is in hand
	left    Change // found before the folder went away, and not told yet
}

// NewWatcher returns a watcher that has seen nothing but what is known, so that
// its first batch holds every other file.
func NewWatcher(folder fs.FS, options Options) *Watcher {
	settler := NewSettler(options.Settle, options.SettleText)
	settler.Know(options.Known)
	return &Watcher{folder: folder, options: options, settler: settler, begun: len(options.Known) == 0}
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
// be empty: a moment for the caller to try again what failed. A folder that is
// away is such a batch too; what was found before it went comes with the next.
// Where files are known from an earlier start, the first batch does not wait for
// news. The error is the context's.
func (w *Watcher) Next(ctx context.Context) (Batch, error) {
	batch := Batch{Change: w.left}
	w.left = Change{}
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
			if (batch.news() || !w.begun) && len(batch.Waiting) == 0 {
				w.begun = true
				return batch, nil
			}
			if batch.Next > 0 {
				pause = min(pause, batch.Next)
			}
		}
		if time.Until(end) <= 0 {
			if batch.Away != nil {
				w.left, batch.Change = batch.Change, Change{}
			}
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

func (w *Watcher) look(ctx context.Context) look {
	scan, err := Through(ctx, w.options.Door, func() (Scan, error) { return w.scan(ctx) })
	return look{scan, err}
}

// scan looks once, and only believes what it saw when the folder carried its
// mark before and after.
func (w *Watcher) scan(ctx context.Context) (Scan, error) {
	if err := w.identify(); err != nil {
		return Scan{}, err
	}
	scan, err := Look(ctx, w.folder, w.options.Reserved)
	if err == nil {
		err = w.identify()
	}
	return scan, err
}

func (w *Watcher) identify() error {
	return Carries(w.folder, w.options.Reserved, w.options.Instance)
}
