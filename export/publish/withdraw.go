package publish

import (
	"context"
	"errors"
	"fmt"
	"io/fs"
	"path"
	"regexp"
	"slices"
	"strings"
)

// Sort is a sort of outputs that come and go with what they were made of.
type Sort struct {
	Folder string // below the output folder, "" for the output folder itself
	// Written reports whether a workbook with this id is of the sort and stands
	// under a name that we give it: a copy under a name of a person's own is his.
	Written func(name, id string) bool
}

// ByName returns the Written of a sort whose ids are a prefix and what the
// workbook is of, and whose file is the stem of the latter, with a mark behind
// it where two would share a name.
func ByName(prefix string, stem func(of string) string) func(name, id string) bool {
	return func(name, id string) bool {
		of, ok := strings.CutPrefix(id, prefix)
		if !ok {
			return false
		}
		rest, ok := strings.CutPrefix(strings.TrimSuffix(name, path.Ext(name)), stem(of))
		return ok && (rest == "" || apart.MatchString(rest))
	}
}

// apart is what tells two files of one name apart: a number, or some letters of
// a hash.
var apart = regexp.MustCompile(`^ \([0-9a-f]{1,8}\)$`)

// keptMark stands in the name of a version that somebody changed.
var keptMark = regexp.MustCompile(` \(kept \d{4}-\d\d-\d\d(, \d+)?\)$`)

// largest is the size from which on a file is no output of ours.
const largest = 256 << 20

// Withdraw removes the workbooks of a sort that a whole pass did not produce.
// Keep holds every name below the output folder that the pass produced, tried
// to, or left standing. Only what is as we wrote it goes: a workbook with
// somebody's changes in it is left, and the outcome says so. One that people
// type into is never withdrawn. Unread names a file that could not be read, ""
// for none: with one nothing goes, because it may be what the workbook stands for,
// and the outcome says that it is out of date.
func (p *Publisher) Withdraw(ctx context.Context, s Sort, keep []string, unread string) []Outcome {
	folder := path.Join(".", s.Folder)
	entries, err := fs.ReadDir(p.folder.FS(), folder)
	if err != nil {
		return nil // nothing was ever written there, or nothing can be seen there now
	}
	var out []Outcome
	for _, e := range entries {
		name := path.Join(folder, e.Name())
		same := func(kept string) bool { return strings.EqualFold(kept, name) }
		if ctx.Err() != nil || !mayBeOurs(e) || slices.ContainsFunc(keep, same) {
			continue
		}
		if o, ok := p.withdraw(name, s, unread); ok {
			out = append(out, o)
		}
	}
	return out
}

func mayBeOurs(e fs.DirEntry) bool {
	ext := strings.ToLower(path.Ext(e.Name()))
	if !e.Type().IsRegular() || ext != ".xlsx" && ext != ".xlsm" || strings.HasPrefix(e.Name(), openMark) ||
		keptMark.MatchString(strings.TrimSuffix(e.Name(), path.Ext(e.Name()))) {
		return false
	}
	info, err := e.Info()
	return err == nil && info.Size() <= largest
}

// openMark begins the name of the file that a spreadsheet program puts beside a
// workbook while it is open.
const openMark = "~$"

// withdraw removes one workbook, and reports whether it is one of the sort.
func (p *Publisher) withdraw(name string, s Sort, unread string) (Outcome, bool) {
	there, err := p.occupant(name)
	if err != nil || there.kind != ours || there.stamp.Theirs != "" || !s.Written(path.Base(name), there.stamp.ID) {
		return Outcome{}, false
	}
	if there.content == nil { // known by size and time only, which is not enough here
		if there, err = p.surely(name); err != nil || there.kind != ours {
			return Outcome{}, false
		}
	}
	out := Outcome{Name: name, State: Left, At: name}
	switch {
	case there.edited:
		out.Message = fmt.Sprintf("nothing in the folder stands for %s any more; it stays because somebody changed it", name)
		out.Hint = "delete it if it is of no use"
	case unread != "":
		out.Message = fmt.Sprintf("nothing that was read stands for %s any more; it stays, out of date, because %s cannot be read now and may be what it was made of", name, unread)
		out.Hint = fmt.Sprintf("see to %s or take it out of the folder; or delete %s", unread, path.Base(name))
	case p.open(name):
		out.Message = fmt.Sprintf("nothing in the folder stands for %s any more; it is open somewhere and goes once it is closed", name)
		out.Hint = "close it"
	case !p.stillThere(name, there.info):
		return Outcome{}, false // the next pass looks at it anew
	default:
		out = p.remove(out)
	}
	return out, true
}

func (p *Publisher) remove(out Outcome) Outcome {
	err := p.folder.Remove(out.Name)
	if err != nil && !errors.Is(err, fs.ErrNotExist) {
		out.Message = fmt.Sprintf("nothing in the folder stands for %s any more, and it cannot be removed (%v)", out.Name, plain(err))
		out.Hint = "close it wherever it is open, or delete it"
		return out
	}
	delete(p.seen, out.Name)
	delete(p.known, out.Name)
	delete(p.blocked, out.Name)
	return Outcome{Name: out.Name, State: Withdrawn}
}

// open reports whether a spreadsheet program says that it has the workbook open.
func (p *Publisher) open(name string) bool {
	_, err := p.folder.Lstat(path.Join(path.Dir(name), openMark+path.Base(name)))
	return err == nil
}
