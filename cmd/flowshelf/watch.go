package main

import (
	"context"
	"errors"
	"fmt"
	"os"
	"time"

	"github.com/rs/zerolog"
	"github.com/spf13/cobra"

	"flowshelf/analysis/source"
	"flowshelf/export/publish"
	"flowshelf/ingest/watch"
)

// lookDeadline is how long one look at the folder may take before the folder
// counts as away; a share that hangs blocks for good.
const lookDeadline = time.Minute

func (a *app) watchCommand() *cobra.Command {
	return &cobra.Command{
		Use:   "watch FOLDER",
		Short: "Keep the workbooks of a folder up to date until told to stop",
		Long: "Looks at the folder again and again, reads what is complete and rewrites the workbooks that change.\n" +
			"Ends after the pass in hand when it is interrupted or told to terminate.",
		Args: oneArgument("folder"),
		RunE: func(cmd *cobra.Command, args []string) error { return a.watch(cmd.Context(), args[0]) },
	}
}

func (a *app) watch(ctx context.Context, folder string) error {
	mark, err := watch.Marker(watch.Dir(folder), a.config.Output.Folder)
	if errors.Is(err, watch.ErrNoMarker) {
		return &failure{exitFailed, fmt.Errorf("%s: %w", folder, err),
			"run `flowshelf init` on the folder first; if it lies on a share, see that the share is mounted"}
	}
	if err != nil {
		return &failure{exitFailed, err, "see that the folder is there and may be read"}
	}
	s, err := a.newService(folder, mark)
	if err != nil {
		return err
	}
	a.log.Info().Str("folder", folder).Msg("watching")
	err = s.loop(ctx)
	a.log.Info().Str("folder", folder).Msg("stopped")
	return errors.Join(err, s.close())
}

// service is a folder being watched.
type service struct {
	*app
	folder    string
	local     string
	mirror    *watch.Mirror
	watcher   *watch.Watcher
	hints     *watch.Hints // nil where the system announces nothing
	publisher *publish.Publisher

	away    bool
	stale   bool               // the mirror changed since the last pass
	day     time.Time          // of the last pass
	docs    []publish.Document // of the last pass
	blocked bool               // some of them do not stand under their names
	told    map[string]publish.Outcome
}

func (a *app) newService(folder, mark string) (*service, error) {
	c := a.config
	local, err := os.MkdirTemp("", "flowshelf-mirror-")
	if err != nil {
		return nil, err
	}
	mirror, err := watch.NewMirror(local, c.Limits.FileBytes)
	if err != nil {
		return nil, errors.Join(err, os.RemoveAll(local))
	}
	s := &service{app: a, folder: folder, local: local, mirror: mirror, stale: true, told: make(map[string]publish.Outcome),
		publisher: publish.New(publish.Options{Retry: c.Output.Retry, NumberedAfter: c.Output.NumberedAfter})}
	options := watch.Options{Reserved: c.Output.Folder, Instance: mark,
		Settle: c.Watch.Settle, SettleText: c.Watch.SettleText, Poll: c.Watch.Poll, Deadline: lookDeadline}
	if watch.OnNetwork(folder) {
		options.Poll = c.Watch.PollNetwork
	}
	if s.hints, err = watch.NewHints(folder); err == nil {
		options.Hints = s.hints.C()
	} else {
		a.log.Warn().Err(err).Msg("the system announces no changes; polling alone")
	}
	s.watcher = watch.NewWatcher(watch.Dir(folder), options)
	return s, nil
}

func (s *service) close() error {
	return errors.Join(s.mirror.Close(), os.RemoveAll(s.local))
}

// loop runs until the context ends; a pass in hand is finished first.
func (s *service) loop(ctx context.Context) error {
	if s.hints != nil {
		go func() { _ = s.hints.Run(ctx) }()
	}
	for {
		batch, err := s.watcher.Next(ctx)
		if errors.Is(err, context.Canceled) {
			return nil
		}
		if err != nil {
			return err
		}
		if !s.reachable(batch) {
			continue
		}
		if s.take(ctx, batch) || !s.day.Equal(today()) {
			s.stale = true
		}
		switch whole := context.WithoutCancel(ctx); {
		case s.stale:
			s.refresh(whole)
		case s.blocked: // nothing new to read, only to be written
			s.tell(s.publish(whole, s.next(s.day), s.docs))
		}
	}
}

// reachable notes whether the folder is there, and says so when that changes.
func (s *service) reachable(batch watch.Batch) bool {
	switch away := batch.Away != nil; {
	case away && !s.away:
		s.log.Warn().Err(batch.Away).Msg("folder not reachable; everything stays as it was")
	case !away && s.away:
		s.log.Info().Msg("folder reachable again")
	}
	s.away = batch.Away != nil
	for _, u := range batch.Unread {
		s.log.Warn().Str("path", u.Path).Err(u.Err).Msg("cannot be looked at")
	}
	if s.hints != nil && !s.away {
		s.hints.Follow(batch.Folders)
	}
	return !s.away
}

// take brings the mirror up to date and reports whether that changed it.
func (s *service) take(ctx context.Context, batch watch.Batch) bool {
	changed := false
	for _, e := range batch.Ready {
		if err := s.mirror.Take(ctx, watch.Dir(s.folder), e); err != nil {
			s.log.Warn().Str("file", e.Path).Err(err).Msg("not read yet; will be tried again")
			s.watcher.Again(e.Path)
			continue
		}
		s.log.Info().Str("file", e.Path).Int64("bytes", e.Size).Msg("new or changed")
		changed = true
	}
	for _, name := range batch.Vanished {
		if err := s.mirror.Drop(name); err != nil {
			s.log.Error().Str("file", name).Err(err).Msg("could not be forgotten")
			continue
		}
		s.log.Info().Str("file", name).Msg("gone from the folder")
		changed = true
	}
	return changed
}

func (s *service) next(day time.Time) pass {
	return pass{folder: s.folder, files: s.mirror.FS(), date: day, publisher: s.publisher}
}

// refresh reads the mirror and brings the workbooks up to date. A pass that
// fails is tried again on the next look.
func (s *service) refresh(ctx context.Context) {
	day := today()
	r, err := s.pass(ctx, s.next(day))
	if err != nil {
		s.log.Error().Err(err).Msg("the pass failed; the workbooks stay as they were")
		return
	}
	s.day, s.stale, s.docs = day, false, r.docs
	s.tell(r.workbooks)
	readings, rows := r.sum()
	s.log.Info().Int("files", len(r.files)).Int("readings", readings.total()).Int("rows", rows.total()).
		Int("questions", len(r.having(source.Asked))).Msg("pass finished")
}

// tell logs what became of each workbook, once as long as nothing changes.
func (s *service) tell(outcomes []publish.Outcome) {
	s.blocked = false
	for _, o := range outcomes {
		level := zerolog.InfoLevel
		if o.State == publish.Numbered || o.State == publish.Blocked {
			level, s.blocked = zerolog.WarnLevel, true
		}
		if o.State != publish.Unchanged && s.told[o.Name] != o {
			s.log.WithLevel(level).Str("workbook", o.Name).Str("state", o.State.String()).
				Str("at", o.At).Str("kept", o.Kept).Msg(sentence(o))
		}
		s.told[o.Name] = o
	}
}

// today is the day by this machine's clock, the only clock reading that
// reaches a result.
func today() time.Time {
	year, month, day := time.Now().Date()
	return time.Date(year, month, day, 0, 0, 0, 0, time.UTC)
}
