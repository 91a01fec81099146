package main

import (
	"context"
	"crypto/sha256"
	"encoding/hex"
	"io/fs"
	"os"
	"path"
	"slices"

	"flowshelf/export/publish"
	"flowshelf/ingest/watch"
)

// answered reports whether somebody has saved a questions workbook since its
// answers were read. A pass may write one and somebody may type into it within one
// moment, so size and time only say when to look, and its content decides.
func (s *keeper) answered(ctx context.Context) bool {
	for name, now := range s.answersNow(ctx) {
		if was, known := s.typed[name]; known && now.Size() == was.Size() && now.ModTime().Equal(was.ModTime()) {
			continue
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
func (s *keeper) answersNow(ctx context.Context) map[string]os.FileInfo {
	out := make(map[string]os.FileInfo)
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
		out[info.Name()] = info
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
