// Package publish puts finished workbooks into the shared folder so that no
// fault leaves half of one, and so that nothing a person typed or put there is
// overwritten.
package publish

import (
	"bytes"
	"context"
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path"
	"time"

	"flowshelf/export/book"
)

// Document is one finished workbook.
type Document struct {
	Name    string // below the output folder, with forward slashes
	Content []byte
	Read    []string // SHA-256, in hex, of the versions whose answers are in this one; of a workbook that people type into
	Carried []string // of those the ones that were changed in nothing else, so that none needs to be kept
}

// State is what became of a document.
type State uint8

// The states.
const (
	Written   State = iota // stands under its name
	Unchanged              // the same cells stood there already
	Numbered               // stands under a numbered name, because its own is taken or held
	Blocked                // could not be written yet; the last good one is untouched
	Withdrawn              // removed, because nothing stands for it any more
	Left                   // stands, though nothing stands for it any more
)

// String returns the words a status shows.
func (s State) String() string {
	return [...]string{"written", "unchanged", "written beside", "not written", "withdrawn", "left"}[s]
}

// Outcome is what became of one document, in words where a person should know.
type Outcome struct {
	Name    string // as asked for
	State   State
	At      string // where the document stands now, "" for nowhere
	Beside  string // a copy that stood in for it and could not be removed yet, "" for none
	Kept    string // where a person's edits of the one before were put, "" for none
	Typed   bool   // not written, because somebody has typed there since it was read
	Message string
	Hint    string
}

// Files are the steps that a share can fail in ways of its own.
type Files interface {
	OpenFile(name string, flag int, perm os.FileMode) (*os.File, error)
	Rename(oldname, newname string) error
	Remove(name string) error
}

// Options say how hard to try.
type Options struct {
	Retry         time.Duration // how long one document is tried again at once
	NumberedAfter time.Duration // how long a document may stay blocked before a numbered copy is written
	Files         Files         // nil for the folder's own
}

// Memory knows what earlier runs found, so that a restart decodes no file that
// has not changed. Without one the same is found, later.
type Memory interface {
	// Whole reports whether the file of a name, with this SHA-256 in hex, was
	// found to be as we wrote it.
	Whole(name, hash string) bool
	// FoundWhole notes that it was.
	FoundWhole(name, hash string)
}

// Publisher writes into one output folder, pass after pass.
type Publisher struct {
	options Options
	memory  Memory // nil for none
	folder  *os.Root
	files   Files
	date    time.Time
	blocked map[string]time.Time // since when
	seen    map[string]verified
	known   map[string]identity
	names   map[string]bool   // what stood there when the folder was opened, and what was written since
	copies  map[string]string // SHA-256, in hex, of the numbered copies written and not yet removed, whatever a share's listing shows
}

// verified is a workbook that was found to be as we wrote it. As long as its
// size and time stand it is not read again.
type verified struct {
	size  int64
	time  time.Time
	stamp book.Stamp
}

// New returns a publisher that has no folder yet.
func New(options Options) *Publisher {
	return &Publisher{options: options, blocked: make(map[string]time.Time), seen: make(map[string]verified), known: make(map[string]identity), copies: make(map[string]string)}
}

// Open starts a pass: it takes the output folder as it is mounted now and
// sweeps what an interrupted pass left there. The date names the copies of
// edited workbooks.
func (p *Publisher) Open(folder *os.Root, date time.Time) {
	p.folder, p.files, p.date = folder, p.options.Files, date
	if p.files == nil {
		p.files = folder
	}
	p.sweep()
}

// Remember has the publisher use a memory; nil for none.
func (p *Publisher) Remember(m Memory) { p.memory = m }

// Stands reports whether a document with a stamp stands under its name just as we
// wrote it, so that nothing needs to be laid out or written. Its content is not
// looked at.
func (p *Publisher) Stands(doc Document, stamp book.Stamp) (Outcome, bool) {
	d := sealed{doc, stamp}
	there, err := p.occupant(doc.Name)
	if err != nil || !there.holds(d) {
		return Outcome{}, false
	}
	return p.free(d, Outcome{Name: doc.Name, State: Unchanged, At: doc.Name}), true
}

// Publish makes the document stand in the folder. It never fails outright: the
// outcome says what stands where, and why.
func (p *Publisher) Publish(ctx context.Context, doc Document) Outcome {
	out := Outcome{Name: doc.Name}
	stamp, stamped, err := book.StampOf(doc.Content)
	if !stamped {
		out.State = Blocked
		out.Message = fmt.Sprintf("%s carries no seal of ours (%v), so it would not be known again", doc.Name, err)
		return out
	}
	for range mostNumbered {
		done, err := p.publish(ctx, sealed{doc, stamp}, out)
		if !errors.Is(err, errMeanwhile) {
			return done
		}
	}
	out.State, out.Message = Blocked, doc.Name+" is being changed again and again"
	return out
}

// sealed is a document with the stamp that is in it.
type sealed struct {
	Document
	stamp book.Stamp
}

// publish tries once; errMeanwhile asks for another look at what stands there.
func (p *Publisher) publish(ctx context.Context, doc sealed, out Outcome) (Outcome, error) {
	if err := p.folder.MkdirAll(path.Dir(doc.Name), 0o777); err != nil {
		return p.held(ctx, doc, out, err), nil
	}
	there, err := p.instead(doc.Name, doc)
	switch {
	case err != nil:
		return p.held(ctx, doc, out, err), nil
	case there.holds(doc):
		out.State, out.At = Unchanged, doc.Name
		return p.free(doc, out), nil
	case there.unread(doc):
		return out.typed(doc.Name), nil
	case there.kind == foreign && !there.wasRead(doc):
		out.Message = fmt.Sprintf("%s stands there and was not written by us, so it stays", doc.Name)
		out.Hint = "move or rename it to free the name"
		return p.beside(ctx, doc, out, there), nil
	case there.carried(doc):
		out.Message = "what was typed into " + doc.Name + " is taken over"
	case there.kind != nobody && !there.disposable(doc):
		if out.Kept, err = p.keep(ctx, doc.Name, there.content); err != nil {
			return p.held(ctx, doc, out, err), nil
		}
		out.Message = fmt.Sprintf("somebody changed %s; that version is kept as %s", doc.Name, out.Kept)
	}
	if err := p.replace(ctx, doc.Name, doc.Content, there.info); err != nil {
		return p.held(ctx, doc, out, err), err
	}
	p.wrote(doc.Name, doc)
	out.State, out.At = Written, doc.Name
	return p.free(doc, out), nil
}

// held is the way on when the name itself cannot be written: the last good
// workbook stays, and once it has been so for long enough a numbered copy
// stands in.
func (p *Publisher) held(ctx context.Context, doc sealed, out Outcome, cause error) Outcome {
	since, known := p.blocked[doc.Name]
	if !known {
		since = time.Now()
		p.blocked[doc.Name] = since
	}
	out.State = Blocked
	out.complain(doc.Name, cause)
	if hopeless(cause) || ctx.Err() != nil || time.Since(since) < p.options.NumberedAfter {
		return out
	}
	return p.beside(ctx, doc, out, occupant{})
}

// beside writes the document under the first numbered name that is free or
// already ours. Where a stranger has its own name, what people type goes into the
// copy, and is taken over before that is replaced.
func (p *Publisher) beside(ctx context.Context, doc sealed, out Outcome, own occupant) Outcome {
	out.State = Blocked
	for _, name := range Names(doc.Name)[1:] {
		there, err := p.instead(name, doc)
		if err == nil && own.kind == foreign && there.disposable(doc) && there.unread(doc) {
			return out.typed(name)
		}
		if err != nil || there.kind != nobody && !there.disposable(doc) || there.unread(doc) {
			continue
		}
		if there.holds(doc) {
			out.State, out.At = Numbered, name
			return out
		}
		if err := p.replace(ctx, name, doc.Content, there.info); err != nil {
			out.complain(name, err)
			return out
		}
		out.State, out.At = Numbered, name
		p.copies[name] = hashOf(doc.Content)
		p.wrote(name, doc)
		return out
	}
	return out
}

// free forgets that a name was blocked and removes the numbered copies that
// stood in for it: only those that are ours and as we wrote them. One that is
// held open stays, and the outcome names it.
func (p *Publisher) free(doc sealed, out Outcome) Outcome {
	delete(p.blocked, doc.Name)
	for _, copied := range Names(doc.Name)[1:] {
		written := p.copies[copied]
		if !p.names[copied] && written == "" {
			continue
		}
		there, err := p.surely(copied)
		if err == nil && !there.spent(doc, written) || err != nil && written == "" {
			delete(p.copies, copied) // gone, or somebody's
			continue
		}
		if err == nil && !p.stillThere(copied, there.info) {
			continue // somebody saved it meanwhile; it is looked at anew
		}
		if err == nil {
			err = p.files.Remove(copied)
		}
		if err == nil || errors.Is(err, fs.ErrNotExist) {
			delete(p.copies, copied)
			continue
		}
		out.Beside = copied
		out.Message = joined(out.Message, fmt.Sprintf("%s stood in for %s and cannot be removed now (%v)", copied, doc.Name, plain(err)))
		out.Hint = "close it wherever it is open"
	}
	return out
}

// keep puts a person's version aside and returns its name. One that was kept
// before is not kept again.
func (p *Publisher) keep(ctx context.Context, name string, content []byte) (string, error) {
	if kept, ok := p.keptBefore(name, content); ok {
		return kept, nil
	}
	for n := 1; ; n++ {
		kept := keptName(name, p.date, n)
		old, err := p.folder.ReadFile(kept)
		switch {
		case err == nil && bytes.Equal(old, content):
			return kept, nil // an interrupted pass put it there
		case errors.Is(err, fs.ErrNotExist):
			return kept, p.replace(ctx, kept, content, nil)
		case err == nil && n < mostNumbered:
			continue
		case err == nil:
			return "", fs.ErrExist
		default:
			return "", err
		}
	}
}
