package main

import (
	"cmp"
	"context"
	"errors"
	"io/fs"
	"path/filepath"
	"slices"
	"strings"
	"time"

	"flowshelf/analysis"
	"flowshelf/analysis/head"
	"flowshelf/analysis/source"
	"flowshelf/export/publish"
	"flowshelf/export/status"
	"flowshelf/ingest"
	"flowshelf/ingest/decode"
	"flowshelf/ingest/watch"
)

// up is the way from the output folder back to the watched one.
const up = "../"

// pass says what one pass reads and where its workbooks go.
type pass struct {
	folder    string
	mark      string // that the folder must carry to be written into, "" for any
	files     fs.FS
	date      time.Time
	progress  func(done, total int) // nil for nobody
	publisher *publish.Publisher
	review    bool // make the month's review too
	silent    bool // nobody is shown the comparisons afterwards

	memory     ingest.Memory               // what was read before, nil for none
	made       made                        // what was written before, nil for none
	unmarkable unmarkable                  // files that could not be marked before, nil for none
	waiting    map[string]string           // files not taken over in their newest form, and why
	hear       hearing                     // nil for nobody
	held       bool                        // files vanished, and what was read from them is still used
	door       *watch.Door                 // through which the folder is written
	mayWrite   func(context.Context) error // reports that another instance writes now
}

// hearing is told the answers of a pass and returns what the service itself has to
// say or to ask, and whether it holds on to files that vanished.
type hearing func(ingest.Replies) (notes source.Problems, held bool)

// pass reads the files, compares the heads and publishes the workbooks. The
// error is for a folder that cannot be listed and for cancellation.
func (a *app) pass(ctx context.Context, p pass) (result, error) {
	replies, err := a.answers(ctx, p)
	if err != nil {
		return result{}, err
	}
	var notes source.Problems
	if p.hear != nil {
		notes, p.held = p.hear(replies)
	}
	read, err := a.read(ctx, p, replies.Answers)
	if err != nil {
		return result{}, err
	}
	r := result{
		folder: p.folder, output: filepath.Join(p.folder, a.config.Output.Folder), date: p.date, waiting: p.waiting,
		problems: slices.Concat(read.Problems, notes), families: analysis.Compare(asking(read), read.Shop, p.date),
	}
	r.files = filesOf(read, r.families)
	for _, c := range r.families {
		r.sums = append(r.sums, fingerprint(c))
		r.problems = append(r.problems, c.Problems...)
	}
	r.takeAnswers(replies)
	docs := documents{made: p.made}
	docs.addFamilies(r, read)
	r.workbooks = docs.publish(ctx, a, p, 0) // the rankings first: they are waited for
	a.addPricing(&docs, p, r, read.Shop)
	r.problems = append(r.problems, docs.addSheets(r, read)...)
	r.problems = append(r.problems, a.addMonth(ctx, &docs, p, r.month(read))...).Sorted()
	write := func() { r.workbooks = append(r.workbooks, docs.publish(ctx, a, p, len(r.workbooks))...) }
	r.unmarked = marking{a, p.files, p.unmarkable, write}.add(ctx, &docs, r.files, r.problems)
	write()
	gone := a.withdraw(ctx, p, read, r.standing(docs))
	r.problems = append(r.problems, a.outputProblems(slices.Concat(r.workbooks, gone))...).Sorted()
	a.logPass(r)
	if p.silent {
		r.families = nil // much of what a pass holds, and the status of a full folder is the largest workbook
	}
	// The status comes last, because it says what became of the others.
	folder := r.status(read.Shop)
	docs.add(status.FileName, folder, func() ([]byte, error) { return status.Write(folder) })
	r.workbooks = append(r.workbooks, docs.publish(ctx, a, p, len(r.workbooks))...)
	r.workbooks = append(r.workbooks, gone...)
	r.docs = docs
	return r, nil
}

// read reads the folder of a pass.
func (a *app) read(ctx context.Context, p pass, said head.Answers) (ingest.Reading, error) {
	options := a.ingestOptions()
	options.Answers = said
	options.Progress = p.progress
	options.Memory = p.memory
	read, err := ingest.ReadFolder(ctx, p.files, options)
	switch {
	case errors.Is(err, context.Canceled):
		return ingest.Reading{}, &failure{exitFailed, errors.New("interrupted while reading; no workbook was touched"), ""}
	case err != nil:
		return ingest.Reading{}, &failure{exitFailed, err, "see that the folder is there and may be read"}
	}
	read.Files = awaited(read.Files, p.waiting)
	return read, nil
}

func (a *app) ingestOptions() ingest.Options {
	o := ingest.DefaultOptions()
	o.Reserved = a.config.Output.Folder
	o.PerFile = a.config.Limits.FileTime
	o.Limits = decode.Defaults()
	o.Limits.FileBytes = a.config.Limits.FileBytes
	o.Limits.UnzippedBytes = a.config.Limits.UnzippedBytes
	o.Limits.Cells = a.config.Limits.Cells
	o.Limits.Sheets = a.config.Limits.Sheets
	return o
}

func (r result) status(shop head.Shop) status.Folder {
	name := filepath.Base(r.folder)
	if full, err := filepath.Abs(r.folder); err == nil {
		name = filepath.Base(full) // the folder may have been named "."
	}
	f := status.Folder{Shop: shop.Name, Path: name, Dated: r.date, Paper: shop.Rules.Paper, Reachable: true, Problems: r.problems, Answers: r.replies.Answers.Len(), Up: up}
	for _, x := range r.files {
		f.Files = append(f.Files, status.File{
			Path: x.path, State: statusOf(x.read), Why: x.read.Reason, Tables: x.tables,
			Readings: status.Readings(x.readings), Note: together(cmp.Or(r.waiting[x.path], r.unmarked[x.path]), x.read.Unproved()),
		})
	}
	return f
}

// together joins what there is to be said.
func together(parts ...string) string {
	return strings.Join(slices.DeleteFunc(parts, func(s string) bool { return s == "" }), "; ")
}

func statusOf(f ingest.FileRead) status.State {
	switch {
	case f.Kind == "own-output":
		return status.OwnOutput
	case f.State == ingest.SetAside:
		return status.Skipped
	}
	return [...]status.State{status.Read, status.Partly, status.Skipped, status.Refused, status.Unreadable}[f.State]
}

// plainName replaces what Windows and shares refuse in a file name; a family
// may be called anything.
func plainName(name string) string {
	return strings.Map(func(r rune) rune {
		if strings.ContainsRune(`/\:*?"<>|`, r) || r < ' ' {
			return '-'
		}
		return r
	}, name)
}

// logPass logs what the report of `run` tells a person anyway.
func (a *app) logPass(r result) {
	for _, p := range r.problems {
		a.log.Debug().Str("kind", p.Kind).Str("severity", p.Severity.String()).Str("at", p.At.String()).Msg(p.Message)
	}
	ranked := slices.Collect(func(yield func(int) bool) {
		for _, c := range r.families {
			yield(len(c.Ranked))
		}
	})
	a.log.Debug().Int("files", len(r.files)).Ints("ranked", ranked).Msg("pass finished")
}
