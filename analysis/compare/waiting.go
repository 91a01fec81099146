package compare

import (
	"slices"

	"flowshelf/analysis/head"
	"flowshelf/analysis/source"
)

// waiting knows which heads' records wait for an answer, by the places that they
// were read from. It is the one place that says of which heads a question is.
type waiting map[source.Ref][]string

func newWaiting(r head.Records) waiting {
	w := make(waiting)
	for i := range r.Tests {
		t := &r.Tests[i]
		if t.Status == head.Asked {
			w.note(t.At, t.Head)
		}
		for k := range t.Readings {
			if reading := &t.Readings[k]; reading.Status == head.Asked && t.Status == head.Used {
				w.note(t.At, t.Head)
				w.note(reading.Flow.Trace.At, t.Head)
			}
		}
	}
	for i := range r.Prices {
		if p := &r.Prices[i]; p.Status == head.Asked {
			w.note(p.At, p.Head)
		}
	}
	for i := range r.Stock {
		if s := &r.Stock[i]; s.Status == head.Asked {
			w.note(s.At, s.Head)
		}
	}
	for i := range r.Extras {
		if x := &r.Extras[i]; x.Status == head.Asked {
			w.note(x.At, x.Head)
		}
	}
	return w
}

// note notes a head under its cell, its sheet and its file.
func (w waiting) note(at source.Ref, name string) {
	if name == "" {
		return
	}
	for _, place := range []source.Ref{at, sheetOf(at), {File: at.File}} {
		if !slices.Contains(w[place], name) {
			w[place] = append(w[place], name)
		}
	}
}

// of returns the heads that a question is about: the one that it names, and those
// whose records wait in the cells where it is asked. Where that is nobody it is
// those that wait on the same sheet, or else in the same file.
func (w waiting) of(p source.Problem) []string {
	var names []string
	add := func(name string) {
		if name != "" && !slices.ContainsFunc(names, func(have string) bool { return nameKey(have) == nameKey(name) }) {
			names = append(names, name)
		}
	}
	add(p.Head)
	places := append([]source.Ref{p.At}, p.Also...)
	for _, widen := range []func(source.Ref) source.Ref{
		func(at source.Ref) source.Ref { return at }, sheetOf, func(at source.Ref) source.Ref { return source.Ref{File: at.File} },
	} {
		for _, at := range places {
			for _, name := range w[widen(at)] {
				add(name)
			}
		}
		if len(names) > 0 {
			break
		}
	}
	return names
}

// ask gives every head the open questions that reading the books raised about it,
// as they were raised about it.
func (w waiting) ask(problems source.Problems, find finder) {
	for _, p := range problems {
		if p.Severity != source.Asked {
			continue
		}
		for _, name := range w.of(p) {
			b := find(name)
			b.read = append(b.read, p)
		}
	}
}

// open are the open questions of the family's heads, those that reading raised
// among them: first those about the most heads.
func (f *family) open(c *Comparison) source.Problems {
	all := slices.Clone(c.Problems)
	heads := make(map[string]int) // by the question's key
	for _, b := range f.families[nameKey(f.Name)] {
		asked := b.read.Open()
		for _, p := range asked {
			if p.Question != nil {
				heads[p.Question.Key]++
			}
		}
		all = append(all, asked...)
	}
	of := func(p source.Problem) int {
		if p.Question == nil {
			return 1
		}
		return max(heads[p.Question.Key], 1)
	}
	out := all.Open()
	slices.SortStableFunc(out, func(a, b source.Problem) int { return of(b) - of(a) })
	return out
}
