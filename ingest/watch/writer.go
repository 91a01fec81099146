package watch

import (
	"context"
	"encoding/json"
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path"
	"time"
)

// writerName is the file, in the reserved folder, by which the one instance that
// writes shows that it is alive. Locks do not do: two machines were seen to hold
// the same lock of one share.
const writerName = ".flowshelf-writer"

// Identity is an instance that writes.
type Identity struct {
	Machine string `json:"machine"`
	Process int    `json:"process"`
	Run     string `json:"run"`  // a random word of this start
	Home    string `json:"home"` // a random word of the local state that only one process at a time holds
}

// beat is what the file holds.
type beat struct {
	Identity
	Beat int    `json:"beat"`
	Note string `json:"note"`
}

// TakenError says that another instance writes into the folder.
type TakenError struct{ By Identity }

func (e *TakenError) Error() string {
	return fmt.Sprintf("the folder is looked after by another flowshelf: process %d on %s", e.By.Process, e.By.Machine)
}

// Hint says what would help.
func (e *TakenError) Hint() string {
	return fmt.Sprintf("stop the one on %s first; if that machine is gone for good, this one takes over once the other has been silent for watch.takeover", e.By.Machine)
}

// WriterOptions say how a Writer behaves.
type WriterOptions struct {
	Reserved string
	Mark     string        // that the folder must carry, "" for any: what stands in its place is nobody's to write
	Every    time.Duration // between two beats
	Takeover time.Duration // of silence, after which another's place may be taken
	Door     *Door
	Lone     bool // nobody else holds the same local state: an earlier holder of it is dead
}

// Writer is the right to write into a folder, held by one instance at a time. It
// goes by the other's signs of life on this machine's own clock, never by times
// that another machine wrote.
type Writer struct {
	folder  string
	self    Identity
	options WriterOptions
	beats   int
}

// NewWriter returns a writer that has not claimed anything yet.
func NewWriter(folder string, self Identity, options WriterOptions) *Writer {
	return &Writer{folder: folder, self: self, options: options}
}

// Claim takes the right to write. Where another instance has it, it is watched:
// a sign of life from it is a *TakenError, and its silence for the stated time
// lets this one take over. Waiting is told whom it is waited for.
func (w *Writer) Claim(ctx context.Context, waiting func(Identity)) error {
	first, err := w.read(ctx)
	if err != nil && !errors.Is(err, fs.ErrNotExist) {
		return err
	}
	if err != nil || w.mayTake(first) {
		return w.write(ctx, nil)
	}
	waiting(first.Identity)
	for end := time.Now().Add(w.options.Takeover); time.Now().Before(end); {
		if err := sleep(ctx, min(w.options.Every/2, time.Until(end)), nil); err != nil {
			return err
		}
		now, err := w.read(ctx)
		switch {
		case errors.Is(err, fs.ErrNotExist):
			return w.write(ctx, nil) // it has ended
		case err == nil && now != first && now.Run != "":
			return &TakenError{now.Identity}
		}
	}
	return w.write(ctx, nil)
}

// mayTake reports whether a sign of life is certain to be an old one: our own,
// or that of an earlier process that held what only one can hold, and now we do.
func (w *Writer) mayTake(b beat) bool {
	return b.Run == w.self.Run || w.options.Lone && b.Home == w.self.Home
}

// Beat gives a sign of life. A *TakenError says that another instance has taken
// over, and that nothing may be written any more. Any other error passes.
func (w *Writer) Beat(ctx context.Context) error { return w.write(ctx, w.judge) }

// Check reports whether the right to write still is ours, and is quick enough to
// be asked before every workbook.
func (w *Writer) Check(ctx context.Context) error { return w.judge(w.read(ctx)) }

// judge says what the last sign of life means for our right to write.
func (w *Writer) judge(b beat, err error) error {
	switch {
	case errors.Is(err, fs.ErrNotExist):
		return nil // swept away by somebody: the next beat writes it again
	case err != nil:
		return err
	case b.Run != "" && b.Run != w.self.Run:
		return &TakenError{b.Identity}
	}
	return nil
}

// Release gives the right up at once, so that the next instance need not wait.
func (w *Writer) Release(ctx context.Context) error {
	if err := w.Check(ctx); err != nil {
		return err
	}
	_, err := Through(ctx, w.options.Door, func() (struct{}, error) {
		return struct{}{}, w.inside(func(root *os.Root) error { return root.Remove(w.file()) })
	})
	if errors.Is(err, fs.ErrNotExist) {
		return nil
	}
	return err
}

func (w *Writer) file() string { return path.Join(w.options.Reserved, writerName) }

// read returns the last sign of life.
func (w *Writer) read(ctx context.Context) (beat, error) {
	return Through(ctx, w.options.Door, func() (b beat, err error) {
		err = w.inside(func(root *os.Root) error {
			b, err = w.stands(root)
			return err
		})
		return b, err
	})
}

// stands is the sign of life in the folder. One that is half written names nobody.
func (w *Writer) stands(root *os.Root) (beat, error) {
	content, err := root.ReadFile(w.file())
	if err != nil {
		return beat{}, err
	}
	var b beat
	if json.Unmarshal(content, &b) != nil {
		return beat{}, nil //nolint:nilerr // half written: it names nobody yet
	}
	return b, nil
}

// write gives a sign of life where the one that stands there allows it; nil asks
// nobody.
func (w *Writer) write(ctx context.Context, allowed func(beat, error) error) error {
	w.beats++
	content, err := json.Marshal(beat{w.self, w.beats,
		"Shows other instances of flowshelf that this one is alive. It is removed when that one ends."})
	if err != nil {
		return err
	}
	_, err = Through(ctx, w.options.Door, func() (struct{}, error) {
		return struct{}{}, w.inside(func(root *os.Root) error {
			if err := root.Mkdir(w.options.Reserved, 0o777); err != nil && !errors.Is(err, fs.ErrExist) {
				return err
			}
			return w.put(root, content, allowed)
		})
	})
	return err
}

// put replaces the file whole, and where the share lets nobody rename over a
// file that another machine is reading, in place. It is asked at the last moment
// whether that is allowed: a machine, or a share, may have stood still until now,
// and another instance taken over.
func (w *Writer) put(root *os.Root, content []byte, allowed func(beat, error) error) error {
	temp := w.file() + ".tmp"
	err := root.WriteFile(temp, content, 0o666)
	if allowed != nil {
		if no := allowed(w.stands(root)); no != nil {
			_ = root.Remove(temp) // one that stays is swept
			return no
		}
	}
	if err == nil {
		err = root.Rename(temp, w.file())
	}
	if err != nil {
		return root.WriteFile(w.file(), content, 0o666)
	}
	return nil
}

func (w *Writer) inside(do func(*os.Root) error) error {
	root, err := os.OpenRoot(w.folder)
	if err != nil {
		return err
	}
	defer root.Close()
	if w.options.Mark != "" {
		if err := Carries(root.FS(), w.options.Reserved, w.options.Mark); err != nil {
			return err
		}
	}
	return do(root)
}
