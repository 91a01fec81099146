package flowsheet

import (
	"slices"

	"flowshelf/analysis/head"
	"flowshelf/analysis/source"
	"flowshelf/ingest/words"
)

// settlePorts lets the neighbours decide what EV, E or IN means; what they do
// not decide stays ambiguous. "E" beside "I" is English, beside "A" German;
// "EV" beside "AV" is the German intake valve, beside "IV" the English exhaust
// valve (common practice, no source).
func (t *table) settlePorts() {
	said := map[string]bool{}
	marks := 0
	for _, ln := range t.lanes {
		if ln.facts.ambiguous != "" && len(ln.facts.port) == 0 {
			said[ln.facts.ambiguous] = true
		}
		if p, ok := ln.facts.port.one(); ok {
			said[p.Value.String()] = true
		}
		marks += len(ln.facts.mark)
	}
	for _, ln := range t.lanes {
		f := &ln.facts
		if len(f.port) > 0 {
			f.ambiguous = ""
			continue
		}
		if m, ok := f.mark.one(); ok && m.Value == "A" && marks == 1 && said["e"] && !said["exhaust"] {
			f.mark, f.ambiguous = nil, "a"
			delete(f.roles, words.Cylinder)
			said["a"] = true
		}
	}
	for _, ln := range t.lanes {
		port, ok := settled(ln.facts.ambiguous, said)
		if ln.facts.ambiguous == "" || !ok {
			continue
		}
		ln.facts.port.add(port, source.Trace{Text: ln.facts.ambiguous, Steps: []string{"told from the header beside it"}})
		ln.facts.ambiguous = ""
	}
}

// portWords says what an ambiguous word means beside others: it needs one of
// beside and none of against.
type portWords struct {
	word            string
	port            head.Port
	beside, against []string
}

func portTable() []portWords {
	return []portWords{
		{"in", head.Intake, []string{"exhaust", "out"}, nil},
		{"i", head.Intake, []string{"exhaust", "e"}, nil},
		{"e", head.Intake, []string{"a"}, []string{"i", "intake"}},
		{"ev", head.Intake, []string{"exhaust", valveOrAverage, averageOrValve}, []string{"intake"}},
		{"eo", head.Intake, []string{"exhaust"}, []string{"intake"}},
		{"out", head.Exhaust, []string{"intake", "in"}, nil},
		{"e", head.Exhaust, []string{"intake", "i"}, []string{"a"}},
		{"a", head.Exhaust, []string{"e"}, []string{"i"}},
		{"ev", head.Exhaust, []string{"intake"}, []string{"exhaust"}},
		{valveOrAverage, head.Exhaust, []string{"intake", "ev"}, []string{"exhaust"}},
		{averageOrValve, head.Exhaust, []string{"ev"}, []string{"exhaust"}},
		{"eo", head.Exhaust, []string{"intake"}, []string{"exhaust"}},
	}
}

func settled(word string, said map[string]bool) (head.Port, bool) {
	isSaid := func(w string) bool { return said[w] }
	for _, p := range portTable() {
		if p.word == word && slices.ContainsFunc(p.beside, isSaid) && !slices.ContainsFunc(p.against, isSaid) {
			return p.port, true
		}
	}
	return 0, false
}
