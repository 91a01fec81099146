package watch

import (
	"context"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"os"
	"path"
)

// ErrChanged says that a file changed while it was copied.
var ErrChanged = errors.New("the file changed while it was read")

// Mirror is a local copy of the last complete content of every file. Passes
// read the mirror, so that a file being rewritten, or a share that is away,
// leaves what was read before in force.
type Mirror struct {
	root    *os.Root
	largest int64
}

// NewMirror returns an empty mirror in an existing local folder, which it has
// for itself. A file above the largest size worth reading is mirrored as an
// empty one of its size, which costs no disk and is refused for it later.
func NewMirror(local string, largest int64) (*Mirror, error) {
	root, err := os.OpenRoot(local)
	if err != nil {
		return nil, err
	}
	return &Mirror{root, largest}, nil
}

// FS returns the mirrored files.
func (m *Mirror) FS() fs.FS { return m.root.FS() }

// Close lets go of the local folder.
func (m *Mirror) Close() error { return m.root.Close() }

// Take copies the file of an entry. What was there stays unless the whole file
// came over while size and time stood still; ErrChanged says that they did not.
func (m *Mirror) Take(ctx context.Context, folder fs.FS, e Entry) error {
	const incoming = ".incoming"
	if err := m.copyTo(ctx, incoming, folder, e); err != nil {
		return errors.Join(err, m.discard(incoming))
	}
	if err := m.root.MkdirAll(path.Dir(e.Path), 0o700); err != nil {
		return err
	}
	if err := m.root.Chtimes(incoming, e.ModTime, e.ModTime); err != nil {
		return err
	}
	return m.root.Rename(incoming, e.Path)
}

// Drop forgets a file that is gone from the folder, and the subfolders that
// are empty without it.
func (m *Mirror) Drop(name string) error {
	if err := m.discard(name); err != nil {
		return err
	}
	empty := true
	for up := path.Dir(name); up != "." && empty; up = path.Dir(up) {
		empty = m.root.Remove(up) == nil
	}
	return nil
}

func (m *Mirror) copyTo(ctx context.Context, local string, folder fs.FS, e Entry) (err error) {
	from, err := folder.Open(e.Path)
	if err != nil {
		return err
	}
	defer from.Close()
	to, err := m.root.OpenFile(local, os.O_WRONLY|os.O_CREATE|os.O_TRUNC, 0o600)
	if err != nil {
		return err
	}
	defer func() { err = errors.Join(err, to.Close()) }()
	if e.Size > m.largest {
		return to.Truncate(e.Size)
	}
	if _, err := io.Copy(to, reader{ctx, from}); err != nil {
		return fmt.Errorf("copy %s: %w", e.Path, err)
	}
	info, err := fs.Stat(folder, e.Path)
	if err != nil {
		return err
	}
	if !e.same(Entry{Size: info.Size(), ModTime: info.ModTime()}) {
		return ErrChanged
	}
	return nil
}

func (m *Mirror) discard(name string) error {
	if err := m.root.Remove(name); !errors.Is(err, fs.ErrNotExist) {
		return err
	}
	return nil
}

// reader stops between two reads when the context ends.
type reader struct {
	ctx  context.Context
	from io.Reader
}

func (r reader) Read(p []byte) (int, error) {
	if err := r.ctx.Err(); err != nil {
		return 0, err
	}
	return r.from.Read(p)
}
