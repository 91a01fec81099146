// Package watch decides which files of a shared folder are there, complete and
// worth reading. The scan is the truth; events only shorten the wait for it.
package watch

import (
	"context"
	"io/fs"
	"slices"
	"strings"
	"time"
)

// Entry is one file as a scan saw it.
type Entry struct {
	Path    string // below the watched folder, with forward slashes
	Size    int64
	ModTime time.Time
	Link    bool // a link to another place: listed, and never followed
}

// same reports whether the file looks untouched between two scans.
func (e Entry) same(o Entry) bool {
	return e.Size == o.Size && e.ModTime.Equal(o.ModTime) && e.Link == o.Link
}

// Scan is one look at the whole folder.
type Scan struct {
	Files   []Entry // by path
	Folders []string
	Unread  []Unread // places that could not be looked into: nothing below them is gone
}

// Unread is a file or folder that could not be looked at.
type Unread struct {
	Path string
	Err  error
}

// Look walks the folder. Links are listed and not followed; pipes and devices
// are passed over, and so is what Ignored names. The error is for the folder itself or for the context;
// trouble further down is listed in the scan.
func Look(ctx context.Context, folder fs.FS, reserved string) (Scan, error) {
	var scan Scan
	err := fs.WalkDir(folder, ".", func(name string, d fs.DirEntry, err error) error {
		switch {
		case ctx.Err() != nil:
			return ctx.Err()
		case err != nil && name == ".":
			return err
		case name != "." && Ignored(name, reserved):
			return skip(d)
		case err != nil:
			scan.Unread = append(scan.Unread, Unread{name, err})
			return skip(d)
		case d.IsDir():
			scan.Folders = append(scan.Folders, name)
			return nil
		case d.Type()&fs.ModeSymlink != 0:
			scan.Files = append(scan.Files, Entry{Path: name, Link: true})
			return nil
		case !d.Type().IsRegular():
			return nil
		}
		scan.add(name, d)
		return nil
	})
	slices.SortFunc(scan.Files, func(a, b Entry) int { return strings.Compare(a.Path, b.Path) })
	return scan, err
}

func (s *Scan) add(name string, d fs.DirEntry) {
	info, err := d.Info()
	if err != nil {
		s.Unread = append(s.Unread, Unread{name, err})
		return
	}
	s.Files = append(s.Files, Entry{Path: name, Size: info.Size(), ModTime: info.ModTime()})
}

func skip(d fs.DirEntry) error {
	if d != nil && d.IsDir() {
		return fs.SkipDir
	}
	return nil
}

// hides reports whether the scan could not look at the place of a file, so
// that its absence proves nothing.
func (s Scan) hides(name string) bool {
	return slices.ContainsFunc(s.Unread, func(u Unread) bool {
		return u.Path == name || strings.HasPrefix(name, u.Path+"/")
	})
}
