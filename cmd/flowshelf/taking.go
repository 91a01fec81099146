package main

import (
	"context"
	"errors"
	"fmt"
	"io/fs"
	"slices"
	"strings"
	"time"

	"flowshelf/analysis/answers"
	"flowshelf/analysis/source"
	"flowshelf/config"
	"flowshelf/ingest"
	"flowshelf/ingest/watch"
)

// answersFile is the workbook that people type answers into.
const answersFile = answers.FileName

// taking is what the service has yet to take over from the folder, and what it
// holds back.
type taking struct {
	poll    time.Duration
	rehash  time.Duration
	settle  time.Duration
	failed  map[string]*failing // files that were complete and could not be taken
	writing []string            // files seen unfinished twice
	last    []string            // files seen unfinished at the last look
	unread  []watch.Unread
	losses  watch.Losses
	kept    map[string]bool // files that are gone and could not be forgotten yet
	noticed time.Time       // the day on which files last vanished all at once
	over    string          // fingerprint of the losses that were last given up
	patient string          // fingerprint of the losses that come back, as somebody has said; "" for none
	checked int             // place of the next file to be compared by content
}

// failing is a file that is tried again, less and less often.
type failing struct {
	why   string
	pause time.Duration
	next  time.Time
}

// longest is the longest pause before a file that could not be taken is tried
// again.
const longest = 5 * time.Minute

func newTaking(c config.Watch, poll time.Duration) taking {
	return taking{poll: poll, rehash: c.Rehash, settle: c.Settle, failed: make(map[string]*failing), kept: make(map[string]bool)}
}

// take brings the mirror up to date and reports whether anything changed that a
// pass would show.
func (s *keeper) take(ctx context.Context, batch watch.Batch) bool {
	t := &s.taking
	changed := t.see(batch)
	for _, u := range batch.Unread {
		s.log.Debug().Str("path", u.Path).Err(u.Err).Msg("cannot be looked at")
	}
	for name := range t.kept {
		changed = s.drop(name) || changed
	}
	// What vanished comes first: it may have come back within the same batch, and a
	// folder may stand where a file stood.
	for _, name := range t.losses.Weigh(len(s.mirror.Entries()), batch.Vanished) {
		changed = s.drop(name) || changed
	}
	for _, e := range batch.Ready {
		if ctx.Err() != nil {
			return changed
		}
		changed = s.takeOne(ctx, e) || changed
	}
	if held := t.losses.Held(); len(batch.Vanished) > 0 && len(held) > 0 {
		s.log.Warn().Int("files", len(held)).Msg("more than half of the files vanished at once; what was read from them stays in force until somebody confirms it")
		t.noticed, changed = s.today(), true
	}
	for name, f := range t.failed {
		if now := time.Now(); now.After(f.next) {
			f.next = now.Add(f.pause)
			s.watcher.Again(name)
		}
	}
	return s.compare(ctx) || changed
}

func (s *keeper) takeOne(ctx context.Context, e watch.Entry) (changed bool) {
	t := &s.taking
	news, err := watch.Through(ctx, s.door, func() (bool, error) { return s.mirror.Take(ctx, watch.Dir(s.folder), e) })
	if errors.Is(err, watch.ErrChanged) || errors.Is(err, watch.ErrStuck) || errors.Is(err, fs.ErrNotExist) || ctx.Err() != nil {
		s.watcher.Again(e.Path)
		return false
	}
	if err != nil {
		return s.failedToTake(e.Path, err)
	}
	_, had := t.failed[e.Path]
	delete(t.failed, e.Path)
	delete(t.kept, e.Path)
	back := t.losses.Back(e.Path)
	if news {
		s.health.set(func(c *condition) { c.Read++ })
		s.log.Info().Str("file", e.Path).Int64("bytes", e.Size).Msg("new or changed")
	}
	return news || had || back
}

// failedToTake puts a file off, each time for longer, and says so once.
func (s *keeper) failedToTake(name string, err error) (changed bool) {
	f := s.taking.failed[name]
	if f == nil {
		f = &failing{pause: s.taking.settle}
		s.taking.failed[name] = f
	}
	changed = f.why != plainCause(err)
	f.why = plainCause(err)
	f.pause = min(2*f.pause, longest)
	f.next = time.Now().Add(f.pause)
	if changed {
		s.log.Warn().Str("file", name).Err(err).Msg("not read yet; will be tried again")
	}
	return changed
}

// plainCause is what went wrong without the path, which stands beside it.
func plainCause(err error) string {
	if p := (*fs.PathError)(nil); errors.As(err, &p) {
		return p.Err.Error()
	}
	return err.Error()
}

// drop forgets a file that is gone. One that cannot be forgotten is tried again at
// the next look: nobody would tell of it once more.
func (s *keeper) drop(name string) bool {
	t := &s.taking
	delete(t.failed, name)
	if err := s.mirror.Drop(name); err != nil {
		if !t.kept[name] {
			s.log.Error().Str("file", name).Err(err).Msg("could not be forgotten; will be tried again")
		}
		t.kept[name] = true
		return false
	}
	delete(t.kept, name)
	s.log.Info().Str("file", name).Msg("gone from the folder")
	return true
}

// compare compares some files with the folder by their content, so many that all
// have been within the stated time: a copy can keep size and time.
func (s *keeper) compare(ctx context.Context) (changed bool) {
	t := &s.taking
	all := s.mirror.Entries()
	if len(all) == 0 {
		return false
	}
	slices.SortFunc(all, func(a, b watch.Entry) int { return strings.Compare(a.Path, b.Path) })
	share := int(int64(len(all))*int64(t.poll)/int64(t.rehash)) + 1
	for range min(share, len(all)) {
		t.checked = (t.checked + 1) % len(all)
		e := all[t.checked]
		stale, err := watch.Through(ctx, s.door, func() (bool, error) { return s.mirror.Stale(watch.Dir(s.folder), e.Path) })
		if err != nil || ctx.Err() != nil {
			return changed // the scan says what is the matter
		}
		if stale {
			s.log.Info().Str("file", e.Path).Msg("another content with the same size and time")
			changed = s.takeOne(ctx, e) || changed
		}
	}
	return changed
}

// see notes what is still being written and reports whether that changed. A file
// seen unfinished once is on its way; one seen so twice is shown as waiting.
func (t *taking) see(batch watch.Batch) (changed bool) {
	var now, twice []string
	for _, e := range batch.Waiting {
		now = append(now, e.Path)
		if slices.Contains(t.last, e.Path) {
			twice = append(twice, e.Path)
		}
	}
	changed = !slices.Equal(twice, t.writing) ||
		!slices.EqualFunc(batch.Unread, t.unread, func(a, b watch.Unread) bool { return a.Path == b.Path && plainCause(a.Err) == plainCause(b.Err) })
	t.last, t.writing, t.unread = now, twice, batch.Unread
	return changed
}

// waiting says of each file that is not taken over in its newest form why not.
func (t *taking) waiting() map[string]string {
	out := make(map[string]string)
	for _, name := range t.writing {
		out[name] = fmt.Sprintf("still being written; looked at again every %v until it stands still", t.poll)
	}
	for _, u := range t.unread {
		out[u.Path] = fmt.Sprintf("cannot be looked at (%s); tried again every %v", plainCause(u.Err), t.poll)
	}
	for name, f := range t.failed {
		out[name] = fmt.Sprintf("cannot be read yet (%s); tried again within %v", f.why, longest)
	}
	return out
}

// notes asks about files that vanished all at once.
func (t *taking) notes() source.Problems {
	held := t.losses.Held()
	if len(held) == 0 {
		return nil
	}
	q, severity := t.question(), source.Asked
	if t.patient == t.losses.Fingerprint() {
		severity = source.Noted
	}
	return source.Problems{{
		At: source.Ref{File: held[0]}, Severity: severity, Kind: "many-gone", Question: &q,
		Message: fmt.Sprintf("%d files vanished at once, this one among them; what was read from them stays in force", len(held)),
		Hint:    "bring them back, or say in " + answersFile + " that they are gone for good",
	}}
}

// The answers to files that vanished all at once.
const goneForGood, backSoon = "gone for good", "they come back"

func (t *taking) question() source.Question {
	return source.Question{
		Key: "many gone|" + t.losses.Fingerprint(), Choices: []string{goneForGood, backSoon},
		Text:    fmt.Sprintf("%d files vanished at once: are they gone for good?", len(t.losses.Held())),
		Changes: "whether what was read from them is still used",
	}
}

// hear takes note of what somebody has said about files that vanished at once, and
// returns what there is still to be said of them, and whether any are held. Each
// pass has it hear the answers that it goes by itself: they may have been given
// while no service ran, or at the last moment. Files that were given up once, are
// there again and vanish anew are another matter, and somebody is asked again.
func (s *keeper) hear(replies ingest.Replies) (notes source.Problems, held bool) {
	t := &s.taking
	if len(t.losses.Held()) > 0 {
		t.patient = ""
		reply, ok := replies.Answers.Reply(t.question())
		switch {
		case ok && reply.Is(backSoon):
			t.patient = t.losses.Fingerprint()
		case ok && reply.Is(goneForGood) && !reply.On.Before(t.noticed) && t.losses.Fingerprint() != t.over:
			t.over = t.losses.Fingerprint()
			for _, name := range t.losses.Confirm() {
				s.drop(name)
			}
		}
	}
	return t.notes(), len(t.losses.Held()) > 0
}

// awaited adds the files that are not there yet to what was read.
func awaited(files []ingest.FileRead, waiting map[string]string) []ingest.FileRead {
	at := make(map[string]bool, len(files))
	for _, f := range files {
		at[f.Path] = true
	}
	for name, why := range waiting {
		if !at[name] {
			files = append(files, ingest.FileRead{Path: name, State: ingest.Waiting, Kind: "waiting", Reason: why})
		}
	}
	slices.SortFunc(files, func(a, b ingest.FileRead) int { return strings.Compare(a.Path, b.Path) })
	return files
}
