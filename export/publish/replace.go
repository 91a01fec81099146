package publish

import (
	"bytes"
	"context"
	"crypto/sha256"
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path"
	"strings"
	"time"
)

// Temporary files are named so that whoever finds one knows whose it was, and
// hidden so that nobody opens it.
const tempPrefix, tempSuffix = ".flowshelf-", ".tmp"

var (
	errNotThere  = errors.New("the share reported success, and the file is not what was written")
	errMeanwhile = errors.New("somebody changed the file meanwhile")
)

// replace puts content under a name, all or nothing, and tries again for a
// while: on a share every error of a write may pass. Seen is what stood there
// when it was decided to replace it.
func (p *Publisher) replace(ctx context.Context, name string, content []byte, seen fs.FileInfo) error {
	deadline := time.Now().Add(p.options.Retry)
	for pause := 50 * time.Millisecond; ; pause *= 2 {
		err := p.attempt(name, content, seen)
		left := time.Until(deadline)
		if err == nil || hopeless(err) || left <= 0 {
			return err
		}
		select {
		case <-ctx.Done():
			return errors.Join(err, ctx.Err())
		case <-time.After(min(pause, left)):
		}
	}
}

// attempt writes a temporary file in the same folder, forces it to the disk,
// renames it over the name, and looks whether that really happened.
func (p *Publisher) attempt(name string, content []byte, seen fs.FileInfo) error {
	temp := path.Join(path.Dir(name), fmt.Sprintf("%s%x%s", tempPrefix, sha256.Sum256([]byte(name)), tempSuffix))
	err := p.write(temp, content)
	if err == nil && !p.stillThere(name, seen) {
		err = errMeanwhile
	}
	if err == nil {
		err = p.files.Rename(temp, name)
	}
	if err != nil {
		if gone := p.folder.Remove(temp); gone != nil && !errors.Is(gone, fs.ErrNotExist) {
			err = errors.Join(err, gone)
		}
		return err
	}
	p.syncFolder(path.Dir(name))
	stands, err := p.folder.ReadFile(name)
	if err == nil && !bytes.Equal(stands, content) {
		err = errNotThere
	}
	return err
}

// stillThere reports whether what was seen under the name is what is there now.
func (p *Publisher) stillThere(name string, seen fs.FileInfo) bool {
	now, err := p.folder.Lstat(name)
	if seen == nil {
		return errors.Is(err, fs.ErrNotExist)
	}
	return err == nil && now.Size() == seen.Size() && now.ModTime().Equal(seen.ModTime()) && now.Mode() == seen.Mode()
}

func (p *Publisher) write(temp string, content []byte) error {
	f, err := p.files.OpenFile(temp, os.O_WRONLY|os.O_CREATE|os.O_TRUNC, 0o666)
	if err != nil {
		return err
	}
	if _, err = f.Write(content); err == nil {
		err = f.Sync()
	}
	return errors.Join(err, f.Close())
}

// syncFolder makes a rename last. Shares and Windows do not offer it, and the
// look at the result afterwards does not rest on it.
func (p *Publisher) syncFolder(name string) {
	if f, err := p.folder.Open(name); err == nil {
		_ = f.Sync()
		_ = f.Close()
	}
}

// sweep removes temporary files of an earlier, interrupted pass and notes what
// else stands there. A place that cannot be looked into holds nothing that could
// be removed, and a file that stays is swept next time.
func (p *Publisher) sweep() {
	p.names = make(map[string]bool)
	_ = fs.WalkDir(p.folder.FS(), ".", func(name string, _ fs.DirEntry, _ error) error {
		if base := path.Base(name); strings.HasPrefix(base, tempPrefix) && strings.HasSuffix(base, tempSuffix) {
			_ = p.folder.Remove(name)
		}
		p.names[name] = true
		return nil
	})
}
