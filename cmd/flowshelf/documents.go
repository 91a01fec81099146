package main

import (
	"context"
	"fmt"

	"flowshelf/analysis/compare"
	"flowshelf/export/book"
	"flowshelf/export/comparison"
	"flowshelf/export/publish"
	"flowshelf/export/questions"
	"flowshelf/ingest"
	"flowshelf/ingest/cache"
	"flowshelf/ingest/watch"
)

// made remembers which facts a workbook was last laid out from, and how its file
// stood.
type made interface {
	publish.Memory
	Made(name string) (cache.Output, bool)
	Make(o cache.Output)
}

// documents are the workbooks of a pass, in the order in which they are wanted.
type documents struct {
	made  made // what was laid out before, nil for none
	ready []document
	tried []string // names of those that could not be made
}

// document is a workbook that is laid out when its turn comes to be published,
// and only if it does not stand there from an earlier pass.
type document struct {
	publish.Document // without content until it is laid out, and again once it stands
	input            string
	stamp            book.Stamp              // what it carried when it was laid out from the same facts; zero for never
	written          string                  // SHA-256, in hex, of what was written in this pass, "" for nothing
	write            func() ([]byte, error)  // nil once the workbook stands as it should: all that it is made of is let go
	took             func(*publish.Document) // notes, once it is laid out, what of the version that stands there it holds; nil for none
}

// add adds a workbook that depends on nothing but its facts.
func (d *documents) add(name string, facts any, write func() ([]byte, error)) {
	d.addRead(name, nil, facts, write)
}

// addRead adds one that people type into; what they typed was read from the
// versions with these hashes.
func (d *documents) addRead(name string, read []string, facts any, write func() ([]byte, error)) {
	one := document{Document: publish.Document{Name: name, Read: read}, input: fingerprint(facts), write: write}
	if d.made != nil {
		if was, ok := d.made.Made(name); ok && was.Input == one.input {
			one.stamp = book.Stamp{ID: was.ID, Content: was.Content}
		}
	}
	d.ready = append(d.ready, one)
}

// addIfMade adds a workbook if it was laid out from the same facts before, and
// reports whether it was.
func (d *documents) addIfMade(name string, facts any, write func() ([]byte, error)) bool {
	d.add(name, facts, write)
	last := len(d.ready) - 1
	if d.ready[last].stamp == (book.Stamp{}) {
		d.ready = d.ready[:last]
		return false
	}
	return true
}

// addMade adds a workbook that is laid out already; write lays it out again.
func (d *documents) addMade(name string, facts any, content []byte, write func() ([]byte, error)) {
	d.add(name, facts, write)
	d.ready[len(d.ready)-1].Content = content
}

// lay lays a workbook out where that is not done yet, and notes from what.
func (d *document) lay(m made) (err error) {
	if d.Content == nil {
		if d.Content, err = d.write(); err != nil {
			return err
		}
	}
	if d.took != nil {
		d.took(&d.Document)
	}
	stamp, ok, err := book.StampOf(d.Content)
	if !ok || err != nil {
		return nil //nolint:nilerr // the publisher says so
	}
	d.stamp = stamp
	if m != nil {
		m.Make(cache.Output{Name: d.Name, Input: d.input, ID: stamp.ID, Content: stamp.Content})
	}
	return nil
}

// addFamilies adds what is waited for: the rankings, then the questions.
func (d *documents) addFamilies(r result, read ingest.Reading) {
	for i, c := range r.families {
		d.add(plainName(comparison.FileName(c.Family.Name)), r.sums[i], func() ([]byte, error) {
			return comparison.Write(c, comparison.Options{Up: up})
		})
	}
	list := r.questions(read.Shop, compare.NewStakes(read.Records, r.families))
	d.addRead(questions.FileName, r.replies.Read, list, func() ([]byte, error) { return questions.Write(list) })
}

// publish brings the documents that were added since the first of them into the
// output folder, laid out where that is needed, and returns what became of them.
func (d *documents) publish(ctx context.Context, a *app, p pass, first int) []publish.Outcome {
	defer a.marker.rest() // copies were marked before, or are marked anew here
	docs := d.ready[first:]
	out := make([]publish.Outcome, 0, len(docs))
	end, err := a.openOutput(ctx, p)
	if err != nil {
		for i := range docs {
			out = append(out, publish.Outcome{Name: docs[i].Name, State: publish.Blocked,
				Message: fmt.Sprintf("the folder %s cannot be made or opened (%v)", a.config.Output.Folder, err),
				Hint:    "see that " + a.config.Output.Folder + " is a folder and that this user may write to it"})
		}
		return out
	}
	defer end()
	for i := range docs {
		out = append(out, docs[i].publish(ctx, p, d.made))
	}
	return out
}

// publish writes one workbook unless it stands there, or another instance writes
// now.
func (d *document) publish(ctx context.Context, p pass, m made) publish.Outcome {
	if out, ok := d.stands(ctx, p); ok {
		d.settle(out)
		return out
	}
	if d.Content == nil || d.stamp == (book.Stamp{}) {
		if err := d.lay(m); err != nil {
			return publish.Outcome{Name: d.Name, State: publish.Blocked,
				Message: fmt.Sprintf("%s could not be laid out: %v", d.Name, err), Hint: "please report it with the folder's books"}
		}
	}
	if err := p.mayWrite(ctx); err != nil {
		return publish.Outcome{Name: d.Name, State: publish.Blocked, Message: fmt.Sprintf("%s is left to another instance: %v", d.Name, err),
			Hint: "nothing needs to be done: the other one writes it"}
	}
	doc := d.Document // a call that hangs must not see what is changed here
	out, err := watch.Through(ctx, p.door, func() (publish.Outcome, error) { return p.publisher.Publish(ctx, doc), nil })
	if err != nil {
		return publish.Outcome{Name: d.Name, State: publish.Blocked, Message: fmt.Sprintf("%s could not be written: %v", d.Name, err),
			Hint: "see whether the share answers"}
	}
	if out.State == publish.Written {
		d.written = hashOf(d.Content)
	}
	d.settle(out)
	return out
}

// settle lets go of what a workbook is made of once it stands as it should. One
// that is to hold what somebody has just typed is laid out anew.
func (d *document) settle(out publish.Outcome) {
	if out.Typed {
		d.Content = nil
	}
	if out.State != publish.Written && out.State != publish.Unchanged {
		return
	}
	d.Content = nil // it can be laid out again
	if out.Beside == "" {
		d.write, d.took = nil, nil
	}
}

// unsettled are the documents that do not stand as they should.
func (d *documents) unsettled() documents {
	out := documents{made: d.made}
	for _, one := range d.ready {
		if one.write != nil {
			out.ready = append(out.ready, one)
		}
	}
	return out
}

// stands reports whether the workbook stands there from an earlier pass.
func (d *document) stands(ctx context.Context, p pass) (publish.Outcome, bool) {
	if d.stamp == (book.Stamp{}) {
		return publish.Outcome{}, false
	}
	doc, stamp := d.Document, d.stamp
	type found struct {
		out publish.Outcome
		ok  bool
	}
	f, err := watch.Through(ctx, p.door, func() (found, error) {
		out, ok := p.publisher.Stands(doc, stamp)
		return found{out, ok}, nil
	})
	return f.out, err == nil && f.ok
}
