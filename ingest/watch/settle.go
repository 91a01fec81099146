package watch

import (
	"maps"
	"path"
	"slices"
	"strings"
	"time"
)

// Settler tells complete files from those still being written: a file is ready
// once two looks, at least the settle time apart on our own clock, saw the same
// size and time. The machine that wrote the file may have another clock, so its
// time is only ever compared with itself.
type Settler struct {
	settle, settleText time.Duration
	files              map[string]*sighting
}

type sighting struct {
	entry Entry
	since time.Time // when this size and time were first seen, monotonic
	ready bool      // reported as ready
	known bool      // some earlier content was reported as ready
	gone  time.Time // when a complete scan first did not see it, zero while it is there
}

// told reports whether the file was reported as ready at any time.
func (f *sighting) told() bool { return f.ready || f.known }

// NewSettler returns a settler that has seen nothing. Text files, which do not
// show where they end, get a settle time of their own.
func NewSettler(settle, settleText time.Duration) *Settler {
	return &Settler{settle: settle, settleText: settleText, files: make(map[string]*sighting)}
}

// Know counts files as reported already, as they were seen by an earlier start.
func (s *Settler) Know(files []Entry) {
	for _, e := range files {
		s.files[e.Path] = &sighting{entry: e, ready: true}
	}
}

// Change is what one look made of the folder.
type Change struct {
	Ready    []Entry  // complete, and new or different since it was last reported
	Waiting  []Entry  // still being written, or not yet seen twice
	Vanished []string // reported before, missing in looks a settle time apart; may be ready anew since
	Next     time.Duration
}

// Observe takes one scan into account. Next is how soon another look can
// decide something, 0 when nothing is open.
func (s *Settler) Observe(scan Scan) Change {
	now := time.Now()
	var c Change
	present := make(map[string]bool, len(scan.Files))
	for _, e := range scan.Files {
		present[e.Path] = true
		f := s.files[e.Path]
		if f == nil || !f.entry.same(e) {
			f = &sighting{entry: e, since: now, known: f != nil && f.told()}
			s.files[e.Path] = f
		}
		f.gone = time.Time{}
		wait := s.quiet(e.Path) - now.Sub(f.since)
		switch {
		case f.ready:
		case wait <= 0:
			f.ready = true
			c.Ready = append(c.Ready, e)
		default:
			c.Waiting = append(c.Waiting, e)
			c.sooner(wait)
		}
	}
	var gone []string
	certain := true
	for _, name := range slices.Sorted(maps.Keys(s.files)) {
		switch {
		case present[name] || scan.hides(name):
		case s.missing(name, now, &c):
			gone = append(gone, name)
		case s.files[name].told():
			certain = false
		}
	}
	if certain { // else the deletion goes on: how many go at once tells a slip of the hand
		s.forget(gone, &c)
	}
	return c
}

// missing takes a look without the file into account and reports whether it is
// gone. One look proves nothing, nor do two within a moment: an editor that saves
// by renaming leaves one without the file.
func (s *Settler) missing(name string, now time.Time, c *Change) (gone bool) {
	f := s.files[name]
	if f.gone.IsZero() {
		f.gone = now
		c.sooner(s.settle)
		return false
	}
	if wait := s.settle - now.Sub(f.gone); wait > 0 {
		c.sooner(wait)
		return false
	}
	return true
}

func (s *Settler) forget(gone []string, c *Change) {
	for _, name := range gone {
		if s.files[name].told() {
			c.Vanished = append(c.Vanished, name)
		}
		delete(s.files, name)
	}
}

// Again makes a file that was reported as ready wait anew: its content turned
// out to change while it was taken.
func (s *Settler) Again(name string) {
	if f := s.files[name]; f != nil {
		f.ready, f.known, f.since = false, f.told(), time.Now()
	}
}

func (s *Settler) quiet(name string) time.Duration {
	switch strings.ToLower(path.Ext(name)) {
	case ".csv", ".txt", ".tsv":
		return s.settleText
	}
	return s.settle
}

func (c *Change) sooner(d time.Duration) {
	if c.Next == 0 || d < c.Next {
		c.Next = d
	}
}
