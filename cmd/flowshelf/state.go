package main

import (
	"crypto/rand"
	"crypto/sha256"
	"encoding/hex"
	"errors"
	"fmt"
	"io"
	"os"
	"path/filepath"
	"strings"

	"github.com/rs/zerolog"

	"flowshelf/ingest"
	"flowshelf/ingest/cache"
	"flowshelf/ingest/watch"
)

// state is what this machine's own disk keeps of one watched folder. Nothing in
// it is needed for a result; all of it saves time.
type state struct {
	dir   string
	cache *cache.Cache // nil where nothing can be kept
	home  string       // a random word that only one process at a time holds; "" where nothing can be kept
}

// openState opens what is kept of the folder with an identity. Where nothing can
// be kept the state is a temporary one, and the log says why at the given level.
// The error says that another process has it.
func (a *app) openState(identity string, level zerolog.Level) (*state, error) {
	s, err := a.keptState(identity)
	if err == nil {
		return s, nil
	}
	if errors.Is(err, cache.ErrInUse) {
		return nil, &failure{exitFailed, err, "stop it first, or let it do the work: it sees what changes in the folder"}
	}
	a.log.WithLevel(level).Err(err).Msg("nothing can be kept on this machine; everything is read again at each start")
	dir, err := os.MkdirTemp("", "flowshelf-")
	if err != nil {
		return nil, err
	}
	return &state{dir: dir}, nil
}

func (a *app) keptState(identity string) (*state, error) {
	root, err := a.stateRoot()
	if err != nil {
		return nil, err
	}
	// The identity was written by whoever may write into the folder, so it is not
	// used as a path.
	sum := sha256.Sum256([]byte(identity))
	const enough = 12
	s := &state{dir: filepath.Join(root, hex.EncodeToString(sum[:enough]))}
	if err := os.MkdirAll(s.dir, 0o700); err != nil {
		return nil, err
	}
	program, err := programSum()
	if err != nil {
		return nil, err
	}
	var lost error
	if s.cache, lost, err = cache.Open(s.dir, program); err != nil {
		return nil, err
	}
	if lost != nil {
		a.log.Warn().Err(lost).Msg("what was kept of earlier readings cannot be used; everything is read again")
	}
	if s.home, err = homeWord(s.dir); err != nil {
		return nil, errors.Join(err, s.cache.Close())
	}
	return s, nil
}

// stateRoot is the folder of all states: as set, as the service manager says
// (systemd.exec(5), CacheDirectory=), or the platform's own place.
func (a *app) stateRoot() (string, error) {
	if a.config.State.Folder != "" {
		return a.config.State.Folder, nil
	}
	if given, _, _ := strings.Cut(os.Getenv("CACHE_DIRECTORY"), ":"); given != "" {
		return given, nil
	}
	caches, err := os.UserCacheDir()
	if err != nil {
		return "", err
	}
	return filepath.Join(caches, "flowshelf"), nil
}

// homeWord returns the word by which a state knows itself, made once.
func homeWord(dir string) (string, error) {
	name := filepath.Join(dir, "home")
	word, err := os.ReadFile(name) //nolint:gosec // the state folder is the service's own
	if err == nil && len(word) > 0 {
		return string(word), nil
	}
	made := rand.Text()
	return made, os.WriteFile(name, []byte(made), 0o600)
}

// programSum tells one build of this program from another: what another build
// has read is read again, so that no reading outlives a change of the reader.
func programSum() (string, error) {
	path, err := os.Executable()
	if err != nil {
		return "", err
	}
	f, err := os.Open(path) //nolint:gosec // it is this very program
	if err != nil {
		return "", err
	}
	defer f.Close() //nolint:errcheck // only read
	h := sha256.New()
	if _, err := io.Copy(h, f); err != nil {
		return "", err
	}
	return hex.EncodeToString(h.Sum(nil)), nil
}

// memory is the cache as a pass uses it.
func (s *state) memory() ingest.Memory {
	if s.cache == nil {
		return nil
	}
	return s.cache
}

// outputs is what the cache knows of the workbooks.
func (s *state) outputs() made {
	if s.cache == nil {
		return nil
	}
	return s.cache
}

// mirror opens the local copy of the folder.
func (s *state) mirror(largest int64) (*watch.Mirror, error) {
	dir := filepath.Join(s.dir, "mirror")
	if err := os.MkdirAll(dir, 0o700); err != nil {
		return nil, err
	}
	if s.cache == nil {
		return watch.NewMirror(dir, largest, nil)
	}
	return watch.NewMirror(dir, largest, s.cache)
}

// close lets go of the state, and removes a temporary one.
func (s *state) close() error {
	if s.cache == nil {
		return os.RemoveAll(s.dir)
	}
	return s.cache.Close()
}

// identity names a folder for what is kept of it: by its mark, and before it has
// one by its place.
func identity(folder, reserved string) string {
	mark, err := watch.Marker(watch.Dir(folder), reserved)
	if err == nil {
		return mark
	}
	if full, err := filepath.Abs(folder); err == nil {
		folder = full
	}
	return fmt.Sprintf("at %s", folder)
}
