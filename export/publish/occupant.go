package publish

import (
	"crypto/sha256"
	"encoding/hex"
	"errors"
	"fmt"
	"io/fs"
	"os"
	"slices"
	"syscall"

	"flowshelf/export/book"
)

// kind is who a name belongs to.
type kind uint8

const (
	nobody kind = iota
	ours
	foreign
)

// occupant is what stands under a name.
type occupant struct {
	kind    kind
	edited  bool // ours, and no longer as we wrote it
	stamp   book.Stamp
	content []byte
	info    fs.FileInfo // nil for nobody
}

// disposable reports whether it is an earlier version of the document, just as
// we wrote it: nobody's work is in it.
func (o occupant) disposable(doc sealed) bool {
	return o.kind == ours && !o.edited && o.stamp.ID == doc.stamp.ID
}

// unread reports whether people may have typed there what the document does not
// hold: it is a workbook for them to type into, it stands there in another
// version than those that were read, and it is not the document itself.
func (o occupant) unread(doc sealed) bool {
	typed := doc.stamp.Theirs != "" || doc.stamp.Form != "" && o.edited
	return typed && o.kind == ours && !o.wasRead(doc) && !o.holds(doc)
}

// spent reports whether a copy that stood in for the document can go: it is as we
// wrote it and, where people type into it, as it was written or read. That the
// document's cells stand there says nothing about what was typed beside them.
func (o occupant) spent(doc sealed, written string) bool {
	if !o.disposable(doc) || o.unread(doc) {
		return false
	}
	return o.stamp.Theirs == "" || o.wasRead(doc) || written == hashOf(o.content)
}

// carried reports whether all that was typed there is in the document.
func (o occupant) carried(doc sealed) bool {
	return o.kind == ours && o.edited && slices.Contains(doc.Carried, hashOf(o.content))
}

// wasRead reports whether the document holds the answers typed there. Such a
// workbook is ours, whatever a program has made of its properties.
func (o occupant) wasRead(doc sealed) bool {
	return len(o.content) > 0 && slices.Contains(doc.Read, hashOf(o.content))
}

func hashOf(content []byte) string {
	sum := sha256.Sum256(content)
	return hex.EncodeToString(sum[:])
}

// holds reports whether the document's cells stand there already, laid out for
// the same paper.
func (o occupant) holds(doc sealed) bool {
	return o.disposable(doc) && o.stamp.Content == doc.stamp.Content
}

// surely is occupant without what is known by size and time only, which is not
// enough where something is to be replaced or removed: a program can keep both.
func (p *Publisher) surely(name string) (occupant, error) {
	delete(p.seen, name)
	return p.occupant(name)
}

// instead is what the document would replace, or the document itself.
func (p *Publisher) instead(name string, doc sealed) (occupant, error) {
	there, err := p.occupant(name)
	if err != nil || there.kind != ours || there.content != nil || there.holds(doc) {
		return there, err
	}
	return p.surely(name)
}

// occupant looks at what stands under a name.
func (p *Publisher) occupant(name string) (occupant, error) {
	info, err := p.folder.Lstat(name)
	if errors.Is(err, fs.ErrNotExist) {
		return occupant{}, nil
	}
	if err != nil {
		return occupant{}, err
	}
	if !info.Mode().IsRegular() {
		return occupant{kind: foreign, info: info}, nil
	}
	if v, ok := p.seen[name]; ok && v.size == info.Size() && v.time.Equal(info.ModTime()) {
		return occupant{kind: ours, stamp: v.stamp, info: info}, nil
	}
	delete(p.seen, name)
	content, err := p.folder.ReadFile(name)
	if err != nil {
		return occupant{}, err
	}
	is := p.identify(name, content)
	if !is.stamped {
		return occupant{kind: foreign, content: content, info: info}, nil // also when it cannot be read at all
	}
	if !is.edited && is.stamp.Theirs == "" {
		p.seen[name] = verified{info.Size(), info.ModTime(), is.stamp}
	}
	return occupant{ours, is.edited, is.stamp, content, info}, nil
}

// identity is what a content was found to be. It is looked into once, however
// often it is met under its name: decoding it costs a hundred times its hash.
type identity struct {
	content [sha256.Size]byte
	stamp   book.Stamp
	stamped bool
	edited  bool // or not to be read to its end
}

func (i identity) hash() string { return hex.EncodeToString(i.content[:]) }

func (p *Publisher) identify(name string, content []byte) identity {
	sum := sha256.Sum256(content)
	if is, ok := p.known[name]; ok && is.content == sum {
		return is
	}
	is := identity{content: sum}
	if p.memory != nil && p.memory.Whole(name, is.hash()) {
		is.stamp, is.stamped, _ = book.StampOf(content) // an earlier run has read it to its end
		p.known[name] = is
		return is
	}
	stamp, stamped, edited, err := book.Identity(content)
	is = identity{sum, stamp, stamped, edited || err != nil}
	p.found(name, is)
	return is
}

// found notes what the content of a name is, and for later runs when it is as we
// wrote it.
func (p *Publisher) found(name string, is identity) {
	p.known[name] = is
	if p.memory != nil && is.stamped && !is.edited {
		p.memory.FoundWhole(name, is.hash())
	}
}

// wrote notes that a document stands under a name.
func (p *Publisher) wrote(name string, doc sealed) {
	p.found(name, identity{content: sha256.Sum256(doc.Content), stamp: doc.stamp, stamped: true})
}

// hopeless reports whether trying the same again, or another name, is of no use.
func hopeless(err error) bool {
	return errors.Is(err, fs.ErrPermission) || errors.Is(err, syscall.EROFS) ||
		errors.Is(err, syscall.ENOSPC) || errors.Is(err, errMeanwhile)
}

// plain is what went wrong without the names of files, which are said already or
// are temporary.
func plain(err error) error {
	var link *os.LinkError
	var path *fs.PathError
	switch {
	case errors.As(err, &link):
		return link.Err
	case errors.As(err, &path):
		return path.Err
	}
	return err
}

// complain says in a sentence why a name could not be written, and what helps,
// after whatever the outcome says already.
func (o *Outcome) complain(name string, err error) {
	message := fmt.Sprintf("%s cannot be replaced now (%v); what stood there before is untouched", name, plain(err))
	o.Hint = "close it wherever it is open"
	switch {
	case errors.Is(err, syscall.ENOSPC):
		message = fmt.Sprintf("there is no room left for %s; what stood there before is untouched", name)
		o.Hint = "free some space on the disk"
	case errors.Is(err, fs.ErrPermission), errors.Is(err, syscall.EROFS):
		message = fmt.Sprintf("%s cannot be written: we may not write to the folder", name)
		o.Hint = "allow this user to write to the output folder"
	}
	o.Message = joined(o.Message, message)
}

// typed is the outcome where somebody's figures or answers come first.
func (o Outcome) typed(name string) Outcome {
	o.State, o.At, o.Typed = Blocked, name, true
	o.Message = fmt.Sprintf("somebody has typed into %s since it was read; that is taken over first", name)
	o.Hint = "nothing needs to be done: the next pass reads it"
	return o
}

// joined puts a sentence after whatever is said already.
func joined(said, message string) string {
	if said == "" {
		return message
	}
	return said + "; " + message
}
