package watch

import (
	"context"
	"crypto/sha256"
	"encoding/hex"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"os"
	"path"
	"sync"
)

// ErrChanged says that a file changed while it was copied.
var ErrChanged = errors.New("the file changed while it was read")

// Copy is one file in the mirror.
type Copy struct {
	Entry
	Hash string // SHA-256 of the content, in hex; "" for a link, and for a file too large to be read
}

// Ledger remembers, from one start to the next, what the mirror holds.
type Ledger interface {
	Copies() []Copy
	Copied(one Copy)
	Dropped(path string)
}

// Mirror is a local copy of the last complete content of every file. Passes
// read the mirror, so that a file being rewritten, or a share that is away,
// leaves what was read before in force.
type Mirror struct {
	root    *os.Root
	largest int64
	ledger  Ledger // nil for a mirror that is not kept

	mu      sync.RWMutex
	copies  map[string]Copy
	changes int
}

// NewMirror returns the mirror in an existing local folder, which it has for
// itself. It holds what the ledger says and the folder still has, unharmed;
// anything else there is removed. A file above the largest size worth reading is
// mirrored as an empty one of its size, which costs no disk and is refused for
// it later.
func NewMirror(local string, largest int64, ledger Ledger) (*Mirror, error) {
	root, err := os.OpenRoot(local)
	if err != nil {
		return nil, err
	}
	m := &Mirror{root: root, largest: largest, ledger: ledger, copies: make(map[string]Copy)}
	if ledger != nil {
		for _, one := range ledger.Copies() {
			if m.unharmed(one) {
				m.copies[one.Path] = one
			} else {
				ledger.Dropped(one.Path)
			}
		}
	}
	if err := m.sweep(); err != nil {
		return nil, errors.Join(err, root.Close())
	}
	return m, nil
}

// unharmed reports whether a file in the mirror is what was copied: a machine
// that lost its power may have kept the ledger and not the file.
func (m *Mirror) unharmed(one Copy) bool {
	info, err := m.root.Lstat(one.Path)
	switch {
	case err != nil:
		return false
	case one.Link:
		return info.Mode()&fs.ModeSymlink != 0
	case !info.Mode().IsRegular() || info.Size() != one.Size || one.Size > m.largest && one.Hash != "":
		return false
	case one.Hash == "":
		return one.Size > m.largest
	}
	hash, err := sum(m.root.FS(), one.Path)
	return err == nil && hash == one.Hash
}

// sweep removes what the mirror does not know.
func (m *Mirror) sweep() error {
	return fs.WalkDir(m.root.FS(), ".", func(name string, d fs.DirEntry, err error) error {
		if _, known := m.copies[name]; err != nil || known || d.IsDir() {
			return err
		}
		return m.root.Remove(name)
	})
}

// FS returns the mirrored files. It knows their hashes.
func (m *Mirror) FS() fs.FS { return mirrored{m.root.FS(), m} }

type mirrored struct {
	fs.FS
	of *Mirror
}

// Sum returns the SHA-256 of a file, in hex, as it was when it was copied.
func (m mirrored) Sum(name string) (string, bool) {
	one, ok := m.of.copy(name)
	return one.Hash, ok && one.Hash != ""
}

func (m *Mirror) copy(name string) (Copy, bool) {
	m.mu.RLock()
	defer m.mu.RUnlock()
	one, ok := m.copies[name]
	return one, ok
}

// Changes counts the contents that came or went. Whoever reads the mirror tells by
// it whether it is still what was read: a copy that hung comes when nobody waits
// for it any more.
func (m *Mirror) Changes() int {
	m.mu.RLock()
	defer m.mu.RUnlock()
	return m.changes
}

// Entries returns what the mirror holds, as it was seen in the folder.
func (m *Mirror) Entries() []Entry {
	m.mu.RLock()
	defer m.mu.RUnlock()
	out := make([]Entry, 0, len(m.copies))
	for _, one := range m.copies {
		out = append(out, one.Entry)
	}
	return out
}

// Close lets go of the local folder.
func (m *Mirror) Close() error { return m.root.Close() }

// Take copies the file of an entry and reports whether its content is new. What
// was there stays unless the whole file came over while size and time stood
// still; ErrChanged says that they did not.
func (m *Mirror) Take(ctx context.Context, folder fs.FS, e Entry) (news bool, err error) {
	const incoming = ".incoming"
	if e.Link {
		return m.link(e)
	}
	hash, err := m.copyTo(ctx, incoming, folder, e)
	if err != nil {
		return false, errors.Join(err, m.discard(incoming))
	}
	if err := m.root.MkdirAll(path.Dir(e.Path), 0o700); err != nil {
		return false, err
	}
	if err := m.root.Chtimes(incoming, e.ModTime, e.ModTime); err != nil {
		return false, err
	}
	if err := m.root.Rename(incoming, e.Path); err != nil {
		return false, err
	}
	return m.note(Copy{e, hash}), nil
}

// link stands for a link of the folder, so that it is listed as one. It leads
// nowhere. Where links cannot be made it is not listed.
func (m *Mirror) link(e Entry) (bool, error) {
	if old, had := m.copy(e.Path); had && old.Link {
		return false, nil
	}
	if err := errors.Join(m.discard(e.Path), m.root.MkdirAll(path.Dir(e.Path), 0o700)); err != nil {
		return false, err
	}
	if err := m.root.Symlink("nowhere", e.Path); err != nil {
		return false, nil //nolint:nilerr // see above
	}
	return m.note(Copy{Entry: e}), nil
}

// note notes a copy and reports whether its content is new.
func (m *Mirror) note(one Copy) (news bool) {
	m.mu.Lock()
	before, had := m.copies[one.Path]
	if news = !had || before.Hash != one.Hash || before.Size != one.Size || one.Hash == ""; news {
		m.changes++
	}
	m.copies[one.Path] = one
	m.mu.Unlock()
	if m.ledger != nil {
		m.ledger.Copied(one)
	}
	return news
}

// Drop forgets a file that is gone from the folder, and the subfolders that
// are empty without it.
func (m *Mirror) Drop(name string) error {
	if err := m.discard(name); err != nil {
		return err
	}
	m.mu.Lock()
	if _, had := m.copies[name]; had {
		m.changes++
	}
	delete(m.copies, name)
	m.mu.Unlock()
	if m.ledger != nil {
		m.ledger.Dropped(name)
	}
	empty := true
	for up := path.Dir(name); up != "." && empty; up = path.Dir(up) {
		empty = m.root.Remove(up) == nil
	}
	return nil
}

// Stale reports whether the folder holds another content under a name than the
// mirror, whatever size and time say: `cp -p` keeps both.
func (m *Mirror) Stale(folder fs.FS, name string) (bool, error) {
	one, ok := m.copy(name)
	if !ok || one.Hash == "" {
		return false, nil
	}
	hash, err := sum(folder, name)
	return err == nil && hash != one.Hash, err
}

func (m *Mirror) copyTo(ctx context.Context, local string, folder fs.FS, e Entry) (hash string, err error) {
	from, err := folder.Open(e.Path)
	if err != nil {
		return "", err
	}
	defer from.Close()
	to, err := m.root.OpenFile(local, os.O_WRONLY|os.O_CREATE|os.O_TRUNC, 0o600)
	if err != nil {
		return "", err
	}
	defer func() { err = errors.Join(err, to.Close()) }()
	if e.Size > m.largest {
		return "", to.Truncate(e.Size)
	}
	h := sha256.New()
	if _, err := io.Copy(io.MultiWriter(to, h), io.LimitReader(reader{ctx, from}, e.Size+1)); err != nil {
		return "", fmt.Errorf("copy %s: %w", e.Path, err)
	}
	info, err := fs.Stat(folder, e.Path)
	if err != nil {
		return "", err
	}
	if !e.same(Entry{Size: info.Size(), ModTime: info.ModTime()}) {
		return "", ErrChanged
	}
	return hex.EncodeToString(h.Sum(nil)), nil
}

func sum(folder fs.FS, name string) (string, error) {
	f, err := folder.Open(name)
	if err != nil {
		return "", err
	}
	defer f.Close()
	h := sha256.New()
	if _, err := io.Copy(h, f); err != nil {
		return "", err
	}
	return hex.EncodeToString(h.Sum(nil)), nil
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
