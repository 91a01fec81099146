package ingest

import (
	"context"
	"io/fs"
	"strconv"
	"strings"
	"sync"

	"flowshelf/analysis/head"
	"flowshelf/analysis/shop"
	"flowshelf/analysis/source"
	"flowshelf/ingest/decode"
	"flowshelf/ingest/layout"
)

// Reading is a whole folder as read. The same folder always gives the same
// Reading.
type Reading struct {
	Files    []FileRead // in order of path
	Shop     head.Shop
	Settings []shop.Setting
	Records  head.Records // of all files, heads by the shop's own names; its Problems are in Problems
	Problems source.Problems
}

// ReadFolder reads every file of a folder. The error is for a folder that
// cannot be listed and for cancellation; a file at fault is that file's state.
func ReadFolder(ctx context.Context, fsys fs.FS, opt Options) (Reading, error) {
	files, err := list(fsys, opt)
	if err != nil {
		return Reading{}, err
	}
	one := &reader{fsys: fsys, opt: opt, all: recognisers()}
	setup := one.readSetup(ctx, files)
	one.about = layout.Context{Shop: known(setup.Shop), Answers: opt.Answers, Shared: new(layout.Shared)}
	one.context = fingerprint(one.about, opt.Limits)
	one.readAll(ctx, files)
	if err := ctx.Err(); err != nil {
		return Reading{}, err
	}
	out := Reading{Shop: setup.Shop, Settings: setup.Settings, Problems: setup.Problems}
	out.gather(files)
	out.Records.Answers = opt.Answers
	out.resolve()
	out.contradictions()
	out.joinSales()
	out.Problems = append(out.Problems, out.Records.Problems...).Sorted()
	out.Records.Problems = nil
	return out, nil
}

// gather joins what the files held. A folder of thousands holds most of its
// memory in tests, so each is kept once, and no room for more.
func (r *Reading) gather(files []found) {
	tests := 0
	for i := range files {
		tests += len(files[i].read.Records.Tests)
	}
	r.Files = make([]FileRead, 0, len(files))
	r.Records.Tests = make([]head.Test, 0, tests)
	for i := range files {
		r.Records.Append(files[i].read.Records)
		files[i].read.Records = head.Records{}
		r.Files = append(r.Files, files[i].read)
	}
}

// reader reads the files of one folder under one setup.
type reader struct {
	fsys    fs.FS
	opt     Options
	all     []layout.Recogniser
	about   layout.Context
	context string // fingerprint of about, "" for none
	heavy   sync.Mutex
}

// readSetup finds and reads the setup workbook at the top of the folder.
func (r *reader) readSetup(ctx context.Context, files []found) shop.Reading {
	setup := shop.Missing(source.Ref{File: r.opt.Setup})
	for i := range files {
		f := &files[i]
		if !strings.EqualFold(f.read.Path, r.opt.Setup) {
			continue
		}
		var book *decode.Book
		if !f.done {
			var err error
			if book, err = r.open(ctx, f); err != nil {
				f.read.undecodable(err)
			}
			f.done = true
		}
		if book == nil {
			setup.Problems = unreadableSetup(f.read)
			continue
		}
		setup = shop.Read(source.Ref{File: f.read.Path}, setupRows(f.read.Path, book))
		f.read.Kind, f.read.Reason = "setup", "the shop's setup"
		if setup.Problems.Worst() >= source.Refused {
			f.read.State = PartlyRead
		}
		return setup
	}
	return setup
}

// unreadableSetup is not the same as none: nobody should start a new one.
func unreadableSetup(f FileRead) source.Problems {
	return source.Problems{{At: source.Ref{File: f.Path}, Severity: source.Refused, Kind: "setup-unreadable",
		Message: "the shop's setup is there and cannot be read, so no head can be put in a family or priced",
		Hint:    "open it in a spreadsheet program and save it again, or bring an earlier copy back"}}
}

func (r *reader) open(ctx context.Context, f *found) (*decode.Book, error) {
	content, err := fs.ReadFile(r.fsys, f.read.Path)
	if err != nil {
		return nil, err
	}
	return decode.Open(ctx, f.read.Path, content, r.opt.Limits)
}

// readAll reads the files that are not decided yet, a few at a time. Each
// writes to its own place, so the order of reading does not show.
func (r *reader) readAll(ctx context.Context, files []found) {
	var group sync.WaitGroup
	next := make(chan *found)
	step := steps(files, r.opt.Progress)
	for range max(1, r.opt.Workers) {
		group.Go(func() {
			for f := range next {
				f.read = r.readOne(ctx, f)
				step()
			}
		})
	}
	for i := range files {
		if !files[i].done && ctx.Err() == nil {
			next <- &files[i]
		}
	}
	close(next)
	group.Wait()
}

// steps returns what tells progress of each file that still has to be read.
func steps(files []found, progress func(done, total int)) func() {
	if progress == nil {
		return func() {}
	}
	total, done, guard := 0, 0, sync.Mutex{}
	for i := range files {
		if !files[i].done {
			total++
		}
	}
	return func() {
		guard.Lock()
		defer guard.Unlock()
		done++
		progress(done, total)
	}
}

func (r *reader) readOne(ctx context.Context, f *found) FileRead {
	key := strings.Join([]string{f.read.Hash, r.context, f.read.Path, strconv.Itoa(ReaderVersion)}, "|")
	remembers := r.opt.Memory != nil && r.context != ""
	if remembers {
		// Another answer than then counts only where the reading looked for it.
		if read, ok := r.opt.Memory.Recall(key); ok && read.Told == r.opt.Answers.Only(read.Asked).Fingerprint() {
			return read
		}
	}
	content, err := fs.ReadFile(r.fsys, f.read.Path)
	switch {
	case err != nil:
		return unreadable(f.read.Path, err).read
	case hashOf(content) != f.read.Hash:
		f.read.refuse(Waiting, "changing", "this file changed while it was read", "it is tried again")
		return f.read
	}
	if heavy(content) {
		r.heavy.Lock() // two at once could take more memory than there is
		defer r.heavy.Unlock()
	}
	if r.opt.PerFile > 0 {
		var cancel context.CancelFunc
		ctx, cancel = context.WithTimeout(ctx, r.opt.PerFile)
		defer cancel()
	}
	read := readWith(ctx, r.all, f.read.Path, content, r.about, r.opt.Limits)
	for i := range read.Pages {
		read.Pages[i].Cells = nil // only the reading of a single file shows them
	}
	if remembers && read.State != Waiting && read.Kind != tooSlow && read.Kind != faulty && ctx.Err() == nil {
		r.opt.Memory.Keep(key, read)
	}
	return read
}
