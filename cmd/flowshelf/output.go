package main

import (
	"context"
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path"

	"flowshelf/analysis/source"
	"flowshelf/export/publish"
	"flowshelf/ingest/watch"
)

// publish puts the workbooks into the output folder, which is made when it is
// missing. Where it cannot be made, or another instance writes now, every
// workbook is blocked for that reason.
func (a *app) publish(ctx context.Context, p pass, docs []publish.Document) []publish.Outcome {
	out := make([]publish.Outcome, 0, len(docs))
	root, err := watch.Through(ctx, p.door, func() (*os.Root, error) {
		root, err := outputFolder(p.folder, a.config.Output.Folder)
		if err == nil {
			p.publisher.Open(root, p.date)
		}
		return root, err
	})
	if err != nil {
		for _, d := range docs {
			out = append(out, publish.Outcome{Name: d.Name, State: publish.Blocked,
				Message: fmt.Sprintf("the folder %s cannot be made or opened (%v)", a.config.Output.Folder, err),
				Hint:    "see that " + a.config.Output.Folder + " is a folder and that this user may write to it"})
		}
		return out
	}
	defer root.Close()
	for _, d := range docs {
		out = append(out, publishOne(ctx, p, d))
	}
	return out
}

// publishOne writes one workbook, unless another instance writes now.
func publishOne(ctx context.Context, p pass, d publish.Document) publish.Outcome {
	if err := p.mayWrite(ctx); err != nil {
		return publish.Outcome{Name: d.Name, State: publish.Blocked, Message: fmt.Sprintf("%s is left to another instance: %v", d.Name, err),
			Hint: "nothing needs to be done: the other one writes it"}
	}
	out, err := watch.Through(ctx, p.door, func() (publish.Outcome, error) { return p.publisher.Publish(ctx, d), nil })
	if err != nil {
		return publish.Outcome{Name: d.Name, State: publish.Blocked, Message: fmt.Sprintf("%s could not be written: %v", d.Name, err),
			Hint: "see whether the share answers"}
	}
	return out
}

// outputProblems tells of workbooks that do not stand as they should, or whose
// edits were put aside.
func (a *app) outputProblems(outcomes []publish.Outcome) source.Problems {
	var out source.Problems
	for _, o := range outcomes {
		kind := "output-edited"
		switch {
		case o.State == publish.Blocked:
			kind = "output-not-written"
		case o.State == publish.Numbered:
			kind = "output-name-taken"
		case o.Kept == "":
			continue
		}
		out.Add(source.Problem{At: source.Ref{File: path.Join(a.config.Output.Folder, o.Name)},
			Severity: source.Noted, Kind: kind, Message: o.Message, Hint: o.Hint})
	}
	return out
}

func outputFolder(folder, name string) (*os.Root, error) {
	root, err := os.OpenRoot(folder)
	if err != nil {
		return nil, err
	}
	defer root.Close()
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
