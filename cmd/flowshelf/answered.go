package main

import (
	"context"
	"crypto/sha256"
	"encoding/hex"
	"io/fs"
	"os"
	"path"
	"slices"

	"flowshelf/ingest/watch"
)

// answered reports whether somebody has saved the questions workbook since its
// answers were read. A pass may write it and somebody may type into it within one
// moment, so size and time only say when to look, and its content decides.
func (s *keeper) answered(ctx context.Context) bool {
	now := s.answersNow(ctx)
	if now == nil || s.typed != nil && now.Size() == s.typed.Size() && now.ModTime().Equal(s.typed.ModTime()) {
		return false
	}
	content, err := watch.Through(ctx, s.door, func() ([]byte, error) {
		return fs.ReadFile(watch.Dir(s.folder), s.questionsAt())
	})
	if err != nil {
		return false // the next look tries again
	}
	if slices.Contains(s.heard, hashOf(content)) {
		s.typed = now
		return false
	}
	return true
}

// answersNow looks at the questions workbook; nil when it is not to be seen.
func (s *keeper) answersNow(ctx context.Context) os.FileInfo {
	info, err := watch.Through(ctx, s.door, func() (os.FileInfo, error) { return fs.Stat(watch.Dir(s.folder), s.questionsAt()) })
	if err != nil {
		return nil
	}
	return info
}

func (s *keeper) questionsAt() string { return path.Join(s.config.Output.Folder, answersFile) }

// heard returns the versions of the questions workbook whose answers a pass has
// read, and the one that it has written.
func (r result) heard() []string {
	out := r.replies.Read
	for _, d := range r.docs.ready {
		if d.Name == answersFile && d.written != "" {
			out = append(slices.Clone(out), d.written)
		}
	}
	return out
}

func hashOf(content []byte) string {
	sum := sha256.Sum256(content)
	return hex.EncodeToString(sum[:])
}
