package ingest

import (
	"archive/zip"
	"bytes"
	"crypto/sha256"
	"encoding/hex"
	"fmt"
	"io/fs"
	"path"
	"regexp"
	"slices"
	"strings"

	"flowshelf/analysis/head"
	"flowshelf/ingest/watch"
)

// found is a file of the folder on its way to being read.
type found struct {
	read FileRead
	done bool // decided already: not readable, a copy, the setup
}

// list walks the folder and takes the regular files, each with the hash of its
// content. Links are listed and never followed.
func list(fsys fs.FS, opt Options) ([]found, error) {
	var out []found
	err := fs.WalkDir(fsys, ".", func(name string, d fs.DirEntry, err error) error {
		switch {
		case err != nil && name == ".":
			return err
		case name == ".":
			return nil
		case watch.Ignored(name, opt.Reserved):
			if d != nil && d.IsDir() {
				return fs.SkipDir
			}
			return nil
		case err != nil:
			out = append(out, unreadable(name, err))
			return nil
		case opt.Only != nil && !d.IsDir() && !opt.Only(name) && !strings.EqualFold(name, opt.Setup):
			return nil
		case d.Type().IsRegular():
			out = append(out, hashed(fsys, name, d, opt))
		case d.Type()&fs.ModeSymlink != 0:
			f := found{read: FileRead{Path: name}, done: true}
			f.read.setAside("link", "a link to another place is not followed")
			out = append(out, f)
		}
		return nil
	})
	if err != nil {
		return nil, fmt.Errorf("list the folder: %w", err)
	}
	slices.SortFunc(out, func(a, b found) int { return strings.Compare(a.read.Path, b.read.Path) })
	markCopies(out)
	for i := range out {
		out[i].ignoredBy(opt.Answers)
	}
	return out, nil
}

// ignoredBy sets a file aside that somebody has told us to ignore.
func (f *found) ignoredBy(said head.Answers) {
	if answer, ignored := said.Ignores(f.read.Path); ignored && !f.done {
		f.done = true
		f.read.setAside("ignored", "ignored, "+answer.Per())
	}
}

func unreadable(name string, err error) found {
	f := found{read: FileRead{Path: name}, done: true}
	f.read.refuse(Waiting, "unreadable", "this could not be read: "+err.Error(), "it is tried again")
	return f
}

var notWorkbooks = regexp.MustCompile(`(?i)\.(pdf|jpe?g|png|gif|heic|tiff?|bmp|docx?|pptx?|zip|7z|rar|mp4|mov|eml|msg|exe|lnk|url|db)$`)

func hashed(fsys fs.FS, name string, d fs.DirEntry, opt Options) found {
	f := found{read: FileRead{Path: name}}
	if notWorkbooks.MatchString(name) {
		f.done = true
		f.read.setAside("not-a-workbook", "not a workbook")
		return f
	}
	info, err := d.Info()
	if err != nil {
		return unreadable(name, err)
	}
	if info.Size() > opt.Limits.FileBytes {
		f.done = true
		f.read.refuse(Refused, "too-large", fmt.Sprintf("this file has %d MB and %d MB are the most that is read", info.Size()>>20, opt.Limits.FileBytes>>20),
			"drop a smaller workbook")
		return f
	}
	if sums, ok := fsys.(summing); ok {
		if f.read.Hash, ok = sums.Sum(name); ok {
			return f
		}
	}
	content, err := fs.ReadFile(fsys, name)
	if err != nil {
		return unreadable(name, err)
	}
	f.read.Hash = hashOf(content)
	return f
}

// summing is a file system that knows the SHA-256 of a file, in hex, without
// reading it again.
type summing interface {
	Sum(name string) (hash string, ok bool)
}

// heavy reports whether reading a content may take much memory: it is large, or
// claims to unpack to much.
func heavy(content []byte) bool {
	const large, unpacked = 1 << 20, 8 << 20
	if len(content) > large {
		return true
	}
	z, err := zip.NewReader(bytes.NewReader(content), int64(len(content)))
	if err != nil {
		return false
	}
	var total uint64
	for _, f := range z.File {
		total += min(f.UncompressedSize64, unpacked)
	}
	return total >= unpacked
}

func hashOf(content []byte) string {
	hash := sha256.Sum256(content)
	return hex.EncodeToString(hash[:])
}

var copyName = regexp.MustCompile(`(?i)^copy of |\bcopy\b|\(\d+\)|\bkopie\b`)

// markCopies sets every file aside that holds the same bytes as another. The
// one whose name does not look like a copy's stands.
func markCopies(files []found) {
	first := make(map[string]int)
	for _, copies := range []bool{false, true} {
		for i := range files {
			f := &files[i]
			if f.done || f.read.Hash == hashOf(nil) || copyName.MatchString(path.Base(f.read.Path)) != copies {
				continue
			}
			original, seen := first[f.read.Hash]
			if !seen {
				first[f.read.Hash] = i
				continue
			}
			f.done = true
			f.read.SameAs = files[original].read.Path
			f.read.setAside("same-as", "same as "+f.read.SameAs)
		}
	}
}
