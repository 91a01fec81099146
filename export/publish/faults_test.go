package publish_test

import (
	"errors"
	"io/fs"
	"os"
	"strings"
	"syscall"
	"testing"
	"time"

	"github.com/google/go-cmp/cmp"

	"flowshelf/export/publish"
)

// share fails in the ways a network share was seen to.
type share struct {
	*os.Root
	renames []error // one a call; nil renames
	full    bool
}

var errPretend = errors.New("success without the deed")

func (s *share) Rename(from, to string) error {
	if len(s.renames) == 0 {
		return s.Root.Rename(from, to)
	}
	err := s.renames[0]
	if len(s.renames) > 1 {
		s.renames = s.renames[1:]
	} else if err == nil || errors.Is(err, errPretend) {
		s.renames = nil
	}
	switch {
	case err == nil:
		return s.Root.Rename(from, to)
	case errors.Is(err, errPretend):
		return s.Remove(from)
	}
	return err
}

func (s *share) OpenFile(name string, flag int, perm os.FileMode) (*os.File, error) {
	if s.full {
		return os.OpenFile("/dev/full", os.O_WRONLY, 0)
	}
	return s.Root.OpenFile(name, flag, perm)
}

func TestPassingFaultsAreTriedAgain(t *testing.T) {
	for what, faults := range map[string][]error{
		"held open twice":      {syscall.EIO, syscall.EEXIST, nil},
		"renamed in name only": {errPretend, nil},
	} {
		t.Run(what, func(t *testing.T) {
			f := newFolder(t)
			p := f.publisher(t, publish.Options{Retry: time.Second, Files: &share{Root: f.root, renames: faults}})
			check(t, p.Publish(t.Context(), publish.Document{Name: name, Content: workbook(t, "a", "one")}),
				publish.Outcome{Name: name, State: publish.Written, At: name})
			if got := f.cell(t, name); got != "one" {
				t.Errorf("A1 is %q", got)
			}
		})
	}
}

func TestALastingFaultLeavesTheLastGoodOne(t *testing.T) {
	f := newFolder(t)
	f.publisher(t, publish.Options{}).Publish(t.Context(), publish.Document{Name: name, Content: workbook(t, "a", "good")})
	faults := map[string]*share{
		"held open":   {Root: f.root, renames: []error{syscall.EBUSY}},
		"disk full":   {Root: f.root, full: true},
		"not allowed": {Root: f.root, renames: []error{fs.ErrPermission}},
		"read-only":   {Root: f.root, renames: []error{syscall.EROFS}},
	}
	for what, files := range faults {
		t.Run(what, func(t *testing.T) {
			p := f.publisher(t, publish.Options{Retry: time.Millisecond, NumberedAfter: time.Hour, Files: files})
			check(t, p.Publish(t.Context(), publish.Document{Name: name, Content: workbook(t, "a", "new")}),
				publish.Outcome{Name: name, State: publish.Blocked})
			if got := f.cell(t, name); got != "good" {
				t.Errorf("A1 is %q", got)
			}
			if diff := cmp.Diff([]string{name}, f.names(t)); diff != "" {
				t.Errorf("left behind (-want +got)\n%s", diff)
			}
		})
	}
}

// heldName fails to replace one name only, as a spreadsheet program that has
// the workbook open makes it.
type heldName struct {
	*os.Root
	held string
}

func (h *heldName) Rename(from, to string) error {
	if to == h.held {
		return syscall.EBUSY
	}
	return h.Root.Rename(from, to)
}

func TestAHeldNameGetsANumberedCopyInTime(t *testing.T) {
	f := newFolder(t)
	f.publisher(t, publish.Options{}).Publish(t.Context(), publish.Document{Name: name, Content: workbook(t, "a", "good")})
	files := &heldName{f.root, name}
	p := f.publisher(t, publish.Options{Files: files})
	doc := publish.Document{Name: name, Content: workbook(t, "a", "new")}
	check(t, p.Publish(t.Context(), doc),
		publish.Outcome{Name: name, State: publish.Numbered, At: "Heads ranked - Small Eight (2).xlsx"})
	files.held = ""
	check(t, p.Publish(t.Context(), doc), publish.Outcome{Name: name, State: publish.Written, At: name})
	if diff := cmp.Diff([]string{name}, f.names(t)); diff != "" {
		t.Errorf("after the release (-want +got)\n%s", diff)
	}
}

// heldCopy fails to remove, as a share does where somebody has the file open.
type heldCopy struct {
	heldName
	open bool
}

func (h *heldCopy) Remove(name string) error {
	if h.open {
		return syscall.EBUSY
	}
	return h.Root.Remove(name)
}

// TestACopyHeldOpenIsNamedUntilItGoes holds that a copy which stood in for a
// workbook is not forgotten when it cannot be removed at once.
func TestACopyHeldOpenIsNamedUntilItGoes(t *testing.T) {
	const copied = "Heads ranked - Small Eight (2).xlsx"
	f := newFolder(t)
	f.publisher(t, publish.Options{}).Publish(t.Context(), publish.Document{Name: name, Content: workbook(t, "a", "good")})
	files := &heldCopy{heldName{f.root, name}, true}
	p := f.publisher(t, publish.Options{Files: files})
	doc := publish.Document{Name: name, Content: workbook(t, "a", "new")}
	check(t, p.Publish(t.Context(), doc), publish.Outcome{Name: name, State: publish.Numbered, At: copied})
	files.held = ""
	written := p.Publish(t.Context(), doc)
	check(t, written, publish.Outcome{Name: name, State: publish.Written, At: name, Beside: copied})
	if !strings.Contains(written.Message, copied) || written.Hint == "" {
		t.Errorf("it says %q, %q", written.Message, written.Hint)
	}
	check(t, p.Publish(t.Context(), doc), publish.Outcome{Name: name, State: publish.Unchanged, At: name, Beside: copied})
	files.open = false
	check(t, p.Publish(t.Context(), doc), publish.Outcome{Name: name, State: publish.Unchanged, At: name})
	if diff := cmp.Diff([]string{name}, f.names(t)); diff != "" {
		t.Errorf("after the release (-want +got)\n%s", diff)
	}
}

// lateSave is a person who saves between our look and our rename.
type lateSave struct {
	*os.Root
	save func()
}

func (l *lateSave) OpenFile(name string, flag int, perm os.FileMode) (*os.File, error) {
	if save := l.save; save != nil {
		l.save = nil
		save()
	}
	return l.Root.OpenFile(name, flag, perm)
}

func TestASaveAtTheLastMomentIsKept(t *testing.T) {
	f := newFolder(t)
	f.publisher(t, publish.Options{}).Publish(t.Context(), publish.Document{Name: name, Content: workbook(t, "a", "good")})
	p := f.publisher(t, publish.Options{Files: &lateSave{f.root, func() { f.edit(t, name, "typed just now") }}})
	out := p.Publish(t.Context(), publish.Document{Name: name, Content: workbook(t, "a", "new")})
	check(t, out, publish.Outcome{Name: name, State: publish.Written, At: name, Kept: "Heads ranked - Small Eight (kept 2026-03-16).xlsx"})
	if got := f.cell(t, out.Kept); got != "typed just now" {
		t.Errorf("kept %q", got)
	}
}
