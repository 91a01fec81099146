package main

import (
	"context"
	"errors"
	"io/fs"
	"os"
	"path"

	"flowshelf/analysis/source"
	"flowshelf/export/publish"
	"flowshelf/ingest/watch"
)

// openOutput readies the publisher for the output folder, which is made when it
// is missing, until end is called.
func (a *app) openOutput(ctx context.Context, p pass) (end func(), err error) {
	root, err := watch.Through(ctx, p.door, func() (*os.Root, error) {
		root, err := outputFolder(p.folder, a.config.Output.Folder, p.mark)
		if err == nil {
			p.publisher.Open(root, p.date)
			p.publisher.Remember(p.made)
		}
		return root, err
	})
	return func() { _ = root.Close() }, err
}

// outputProblems tells of workbooks that do not stand as they should, whose edits
// were put aside, or that stand for nothing any more.
func (a *app) outputProblems(outcomes []publish.Outcome) source.Problems {
	var out source.Problems
	for _, o := range outcomes {
		kind := "output-edited"
		switch {
		case o.State == publish.Blocked:
			kind = "output-not-written"
		case o.State == publish.Numbered:
			kind = "output-name-taken"
		case o.State == publish.Left:
			kind = "output-without-source"
		case o.Beside != "":
			kind = "output-copy-stays"
		case o.Kept == "":
			continue
		}
		out.Add(source.Problem{At: source.Ref{File: path.Join(a.config.Output.Folder, o.Name)},
			Severity: source.Noted, Kind: kind, Message: o.Message, Hint: o.Hint})
	}
	return out
}

// outputFolder opens our folder, and makes it when it is missing. Where the watched
// folder must carry a mark it is asked for once more: since the last look another
// one may stand in its place, as the empty one does that a share leaves behind.
func outputFolder(folder, name, mark string) (*os.Root, error) {
	root, err := os.OpenRoot(folder)
	if err != nil {
		return nil, err
	}
	defer root.Close()
	if mark != "" {
		if err := watch.Carries(root.FS(), name, mark); err != nil {
			return nil, err
		}
	}
	if err := root.Mkdir(name, 0o777); err != nil && !errors.Is(err, fs.ErrExist) {
		return nil, err
	}
	return root.OpenRoot(name)
}

// readable reports why a folder cannot be listed.
func readable(folder fs.FS) error {
	_, err := fs.ReadDir(folder, ".")
	return err
}
