package main

import (
	"context"
	"crypto/sha256"
	"encoding/hex"
	"io/fs"
	"os"
	"path"
	"slices"
	"time"

	"flowshelf/export/publish"
	"flowshelf/ingest/watch"
)

// glance is how a questions workbook looked.
type glance struct {
	fs.FileInfo
	since time.Time // when it was first seen so, on our own clock
	sure  bool      // its content was heard, and can only have changed with its size or time
}

// coarsest is how far apart two saves may be that a share gives the same time: FAT
// keeps 2 s (Microsoft, FAT: General Overview of On-Disk Format 1.03, date and time formats).
const coarsest = 2 * time.Second

// answered reports whether somebody has saved a questions workbook since its
// answers were read. A pass may write one and somebody may type into it within one
// moment, so size and time only say when to look, and its content decides.
func (s *keeper) answered(ctx context.Context) bool {
	for name, now := range s.answersNow(ctx) {
		if was, known := s.typed[name]; known && now.Size() == was.Size() && now.ModTime().Equal(was.ModTime()) {
			if was.sure {
				continue
			}
			now.sure, now.since = now.since.Sub(was.since) >= coarsest, was.since
		}
		content, err := watch.Through(ctx, s.door, func() ([]byte, error) {
			return fs.ReadFile(watch.Dir(s.folder), path.Join(s.config.Output.Folder, name))
		})
		if err != nil {
			continue // the next look tries again
		}
		if !slices.Contains(s.heard, hashOf(content)) {
			return true
		}
		s.typed[name] = now
	}
	return false
}

// answersNow looks at the questions workbook and at the copies that stand in for
// it, by their names; those that are not to be seen are missing.
func (s *keeper) answersNow(ctx context.Context) map[string]glance {
	out, now := make(map[string]glance), time.Now()
	found, err := watch.Through(ctx, s.door, func() ([]os.FileInfo, error) {
		entries, err := fs.ReadDir(watch.Dir(s.folder), s.config.Output.Folder)
		var found []os.FileInfo
		for _, e := range entries {
			if !e.Type().IsRegular() || !slices.Contains(publish.Names(answersFile), e.Name()) {
				continue
			}
			if info, err := e.Info(); err == nil { // else it is gone since
				found = append(found, info)
			}
		}
		return found, err
	})
	if err != nil {
		return out
	}
	for _, info := range found {
		out[info.Name()] = glance{FileInfo: info, since: now}
	}
	return out
}

// heard returns the versions of the questions workbook whose answers a pass has
// read, and the one that it has laid out, wherever that stands.
func (r result) heard() []string {
	out := slices.Clone(r.replies.Read)
	for _, d := range r.docs.ready {
		switch {
		case d.Name != answersFile:
		case d.Content != nil: // it waits for its name, and a copy may stand in
			out = append(out, hashOf(d.Content))
		case d.written != "":
			out = append(out, d.written)
		}
	}
	return out
}

func hashOf(content []byte) string {
	sum := sha256.Sum256(content)
	return hex.EncodeToString(sum[:])
}
