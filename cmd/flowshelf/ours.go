package main

import (
	"bytes"
	"context"
	"io/fs"
	"strings"

	"flowshelf/ingest/watch"
)

// ours is the folder as a pass of the service sees it: the users' files from
// the mirror, and what stands in our own folder as it stands there now.
type ours struct {
	mirror           fs.FS
	folder, reserved string
	door             *watch.Door
}

// Open implements fs.FS.
func (o ours) Open(name string) (fs.File, error) {
	if !strings.HasPrefix(name, o.reserved+"/") {
		return o.mirror.Open(name)
	}
	return watch.Through(context.Background(), o.door, func() (fs.File, error) { return load(watch.Dir(o.folder), name) })
}

// ReadDir implements fs.ReadDirFS.
func (o ours) ReadDir(name string) ([]fs.DirEntry, error) {
	if !strings.HasPrefix(name, o.reserved+"/") {
		return fs.ReadDir(o.mirror, name)
	}
	return watch.Through(context.Background(), o.door, func() ([]fs.DirEntry, error) { return fs.ReadDir(watch.Dir(o.folder), name) })
}

// Sum returns the hash of a file as it was when it was taken over.
func (o ours) Sum(name string) (string, bool) {
	sums, ok := o.mirror.(interface{ Sum(string) (string, bool) })
	if !ok {
		return "", false
	}
	return sums.Sum(name)
}

// load reads a file into memory, so that later reads of it cannot get stuck.
func load(folder fs.FS, name string) (fs.File, error) {
	info, err := fs.Stat(folder, name)
	if err != nil {
		return nil, err
	}
	if !info.Mode().IsRegular() {
		return &loaded{bytes.NewReader(nil), info}, nil
	}
	content, err := fs.ReadFile(folder, name)
	if err != nil {
		return nil, err
	}
	return &loaded{bytes.NewReader(content), info}, nil
}

// loaded is a file in memory.
type loaded struct {
	*bytes.Reader
	info fs.FileInfo
}

func (l *loaded) Stat() (fs.FileInfo, error) { return l.info, nil }
func (l *loaded) Close() error               { return nil }
