package main

import (
	"context"
	"errors"
	"fmt"
	"os"
	"runtime/debug"
	"time"

	"github.com/rs/zerolog"
	"github.com/spf13/cobra"

	"flowshelf/export/publish"
	"flowshelf/ingest/watch"
)

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

// watch looks after a folder until the context ends.
func (a *app) watch(ctx context.Context, folder string) (err error) {
	ctx, stop := context.WithCancelCause(ctx)
	defer stop(nil)
	s := &keeper{app: a, folder: folder, door: watch.NewDoor(a.config.Watch.Deadline), stale: true, unmarkable: make(unmarkable), told: make(map[string]publish.Outcome)}
	s.health.set(func(c *condition) { c.State, c.Folder, c.Process = starting, folder, os.Getpid() })
	if address := a.config.Health.Listen; address != "" {
		wait, err := s.health.serve(ctx, address)
		if err != nil {
			return err
		}
		defer func() { err = errors.Join(err, wait()) }()
	}
	mark, err := watch.Through(ctx, s.door, func() (string, error) { return watch.Marker(watch.Dir(folder), a.config.Output.Folder) })
	if errors.Is(err, watch.ErrNoMarker) {
		return &failure{exitFailed, fmt.Errorf("%s: %w", folder, err),
			"run `flowshelf init` on the folder first; if it lies on a share, see that the share is mounted"}
	}
	if err != nil {
		return &failure{exitFailed, err, "see that the folder is there and may be read"}
	}
	if err := s.open(ctx, mark, stop); err != nil {
		return err
	}
	a.log.Info().Str("folder", folder).Msg("watching")
	err = s.loop(ctx)
	a.log.Info().Str("folder", folder).Msg("stopped")
	if lost := (*failure)(nil); errors.As(context.Cause(ctx), &lost) {
		err = errors.Join(err, lost)
	}
	return errors.Join(err, s.close())
}

// keeper is a folder being watched.
type keeper struct {
	*app
	folder     string
	mark       string // that it carries
	door       *watch.Door
	health     health
	state      *state
	writer     *holder
	mirror     *watch.Mirror
	watcher    *watch.Watcher
	hints      *watch.Hints // nil where the system announces nothing
	publisher  *publish.Publisher
	unmarkable unmarkable

	away    bool
	stale   bool   // something changed since the last pass
	read    int    // changes of the mirror that the last pass has seen
	failed  string // why the last pass failed, "" when it did not
	taking  taking
	typed   map[string]glance // the questions workbooks before the last pass
	heard   []string          // SHA-256, in hex, of their versions whose answers are in force
	day     time.Time         // of the last pass
	docs    documents         // of the last pass, that do not stand as they should
	blocked bool              // some of them do not stand under their names, or a copy stands beside
	told    map[string]publish.Outcome
}

// open takes the folder in hand: the state on this machine, the right to write,
// and the watcher.
func (s *keeper) open(ctx context.Context, mark string, stop context.CancelCauseFunc) (err error) {
	c := s.config
	s.mark = mark
	if s.state, err = s.openState(mark, zerolog.WarnLevel); err != nil {
		return err
	}
	if s.writer, err = s.claim(ctx, s.folder, mark, s.state, s.door, stop); err != nil {
		return errors.Join(err, s.state.close())
	}
	if s.mirror, err = s.state.mirror(c.Limits.FileBytes); err != nil {
		s.writer.release()
		return errors.Join(err, s.state.close())
	}
	s.publisher = publish.New(publish.Options{Retry: c.Output.Retry, NumberedAfter: c.Output.NumberedAfter})
	options := watch.Options{Reserved: c.Output.Folder, Instance: mark, Known: s.mirror.Entries(),
		Settle: c.Watch.Settle, SettleText: c.Watch.SettleText, Poll: c.Watch.Poll, Door: s.door}
	if watch.OnNetwork(s.folder) {
		options.Poll = c.Watch.PollNetwork
	} else if s.hints, err = watch.NewHints(s.folder); err == nil {
		options.Hints = s.hints.C()
	} else {
		s.log.Warn().Err(err).Msg("the system announces no changes; polling alone")
	}
	s.taking = newTaking(c.Watch, options.Poll)
	s.watcher = watch.NewWatcher(watch.Dir(s.folder), options)
	return nil
}

func (s *keeper) close() error {
	s.writer.release()
	return errors.Join(s.mirror.Close(), s.state.close())
}

// loop runs until the context ends; a pass in hand is finished first.
func (s *keeper) loop(ctx context.Context) error {
	if s.hints != nil {
		go func() { _ = s.hints.Run(ctx) }()
	}
	for {
		batch, err := s.watcher.Next(ctx)
		if ctx.Err() != nil {
			s.health.set(func(c *condition) { c.State = stopping })
			return nil //nolint:nilerr // told to stop, which is no failure
		}
		if err != nil {
			return err
		}
		if !s.reachable(batch) {
			continue
		}
		whole := context.WithoutCancel(ctx)
		changed := s.take(ctx, batch)
		s.stale = s.stale || changed || s.mirror.Changes() != s.read || !s.day.Equal(s.today()) || s.answered(whole)
		switch {
		case ctx.Err() != nil:
		case s.stale:
			s.refresh(whole)
		case s.blocked: // nothing new to read, only to be written
			outcomes := s.docs.publish(whole, s.app, s.next(s.day), 0)
			s.docs = s.docs.unsettled()
			if s.tell(outcomes) {
				s.refresh(whole) // the status says how it stands with each workbook
			}
		}
	}
}

// reachable notes whether the folder is there, and says so when that changes.
func (s *keeper) reachable(batch watch.Batch) bool {
	now := time.Now()
	if batch.Away != nil {
		if !s.away {
			s.log.Warn().Err(batch.Away).Msg("folder not reachable; everything stays as it was")
		}
		s.away = true
		s.health.set(func(c *condition) { c.State, c.Reason = away, batch.Away.Error() })
		return false
	}
	if s.away {
		s.log.Info().Msg("folder reachable again")
	}
	s.away = false
	s.health.set(func(c *condition) { c.State, c.Reason, c.LastLook = watching, "", &now })
	if s.hints != nil {
		s.hints.Follow(batch.Folders)
	}
	return true
}

func (s *keeper) next(day time.Time) pass {
	return pass{
		folder: s.folder, mark: s.mark, files: ours{s.mirror.FS(), s.folder, s.config.Output.Folder, s.door}, date: day, publisher: s.publisher,
		memory: s.state.memory(), made: s.state.outputs(), unmarkable: s.unmarkable, waiting: s.taking.waiting(), hear: s.hear, door: s.door, mayWrite: s.writer.check,
	}
}

// refresh reads the mirror and brings the workbooks up to date. A pass that
// fails is tried again on the next look.
func (s *keeper) refresh(ctx context.Context) {
	day, began, changes := s.today(), time.Now(), s.mirror.Changes()
	if !day.Equal(s.day) {
		clear(s.unmarkable) // each is tried again once a day: the machine may have been busy
	}
	p := s.next(day)
	p.review, p.silent = !s.reviewed(ctx, p), true
	typed := s.answersNow(ctx)
	r, err := s.pass(ctx, p)
	s.health.set(func(c *condition) { c.LastPass, c.PassError = &began, "" })
	if err != nil {
		s.health.set(func(c *condition) { c.PassError = err.Error() })
		if s.failed != err.Error() {
			s.log.Error().Err(err).Msg("the pass failed; the workbooks stay as they were, and it is tried again")
		}
		s.failed = err.Error()
		return
	}
	s.failed = ""
	s.day, s.stale, s.read = day, false, changes
	s.tell(r.workbooks)
	s.docs = r.docs.unsettled()
	s.typed, s.heard = typed, r.heard()
	readings, rows := r.sum()
	asked := len(r.asked())
	s.health.set(func(c *condition) {
		c.Files, c.Asked, c.Readings, c.Waiting, c.Held = len(r.files), asked, readings, len(s.taking.waiting()), len(s.taking.losses.Held())
	})
	if s.state.cache != nil {
		if err := s.state.cache.Trouble(); err != nil {
			s.log.Warn().Err(err).Msg("what was read could not be kept or recalled; it is read again")
		}
	}
	s.log.Info().Int("files", len(r.files)).Int("readings", readings.total()).Int("rows", rows.total()).
		Int("questions", asked).Dur("took", time.Since(began)).Msg("pass finished")
	r = result{}
	debug.FreeOSMemory() // what a pass needs is of no use until the next one
}

// tell logs what became of each workbook, what hinders it once as long as nothing
// changes, and reports whether one came to stand elsewhere or lost a copy that stood beside it.
func (s *keeper) tell(outcomes []publish.Outcome) (moved bool) {
	s.blocked = false
	written, blocked := 0, []string(nil)
	for _, o := range outcomes {
		level := zerolog.InfoLevel
		switch o.State {
		case publish.Numbered, publish.Blocked:
			level, s.blocked = zerolog.WarnLevel, true
			blocked = append(blocked, o.Name)
		case publish.Written:
			written++
		case publish.Unchanged, publish.Withdrawn, publish.Left:
		}
		if o.Beside != "" {
			level, s.blocked = zerolog.WarnLevel, true
		}
		if o.State == publish.Written || (o.State != publish.Unchanged || o.Beside != "") && s.told[o.Name] != o {
			s.log.WithLevel(level).Str("workbook", o.Name).Str("state", o.State.String()).
				Str("at", o.At).Str("kept", o.Kept).Msg(sentence(o))
		}
		before, known := s.told[o.Name]
		moved = moved || known && (before.At != o.At || before.Beside != o.Beside)
		s.told[o.Name] = o
	}
	s.health.set(func(c *condition) { c.Written, c.Blocked = c.Written+written, blocked })
	return moved
}

// today is the day by this machine's clock, the only clock reading that
// reaches a result.
func today() time.Time {
	year, month, day := time.Now().Date()
	return time.Date(year, month, day, 0, 0, 0, 0, time.UTC)
}
