package main

import (
	"context"
	"slices"
	"strings"

	"flowshelf/export/counter"
	"flowshelf/export/customer"
	"flowshelf/export/enquiries"
	"flowshelf/export/headcard"
	"flowshelf/export/marked"
	"flowshelf/export/publish"
	"flowshelf/export/supplier"
	"flowshelf/ingest"
	"flowshelf/ingest/watch"
)

// sorts are the outputs that go with what they were made of: an enquiry's row, a
// supplier, a head, a family, a workbook with something to be said about. Months,
// kept versions, rankings and whatever people type into stay for good.
func sorts() []publish.Sort {
	return []publish.Sort{
		{Folder: customer.Folder, Written: customer.Written},
		{Folder: supplier.Folder, Written: publish.ByName(supplier.ID(""), fileStem)},
		{Folder: headcard.Folder, Written: publish.ByName(headcard.ID(""), fileStem)},
		{Written: publish.ByName(counter.ID(""), func(family string) string { return strings.TrimSuffix(plainName(counter.FileName(family)), ".xlsx") })},
		{Folder: marked.Folder, Written: publish.ByName(marked.ID(""), func(of string) string { return marked.Names([]string{of})[of] })},
		{Written: func(name, id string) bool { return name == enquiries.FileName && id == enquiries.ID }},
	}
}

// withdraw removes outputs whose source is gone, after a pass that saw everything
// there is. With a file that cannot be read nobody knows what it stands for, and
// the outputs are only named.
func (a *app) withdraw(ctx context.Context, p pass, read ingest.Reading, standing []string) []publish.Outcome {
	if p.held || !read.Shop.Found || p.mayWrite(ctx) != nil {
		return nil
	}
	out, err := watch.Through(ctx, p.door, func() ([]publish.Outcome, error) {
		root, err := outputFolder(p.folder, a.config.Output.Folder, p.mark)
		if err != nil {
			return nil, err
		}
		defer root.Close()
		p.publisher.Open(root, p.date)
		var out []publish.Outcome
		for _, s := range sorts() {
			out = append(out, p.publisher.Withdraw(ctx, s, standing, unreadable(read.Files))...)
		}
		return out, nil
	})
	if err != nil {
		a.log.Warn().Err(err).Msg("nothing could be withdrawn; the next pass tries again")
	}
	return out
}

// unreadable is the first file that cannot be read now, "" for none.
func unreadable(files []ingest.FileRead) string {
	unread := func(f ingest.FileRead) bool { return f.State == ingest.Refused || f.State == ingest.Waiting }
	if i := slices.IndexFunc(files, unread); i >= 0 {
		return files[i].Path
	}
	return ""
}

// standing are the names of all that this pass wrote, tried to, or put aside.
func (r result) standing(docs documents) []string {
	var out []string
	for _, d := range docs.ready {
		out = append(out, d.Name)
	}
	out = append(out, docs.tried...)
	for _, o := range r.workbooks {
		out = append(out, o.Name, o.At, o.Kept)
	}
	return out
}
