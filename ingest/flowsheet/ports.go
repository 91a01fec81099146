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
			said[ofIntakes] = said[ofIntakes] || len(ln.facts.entry) > 0
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
	t.settleBy(said)
}

// settleInches takes a column under "In" that holds no figure beyond what a valve
// opens in inches for the lifts once more, in the other unit.
func (t *table) settleInches() {
	for _, ln := range t.lanes {
		if ln.facts.ambiguous != "in" || len(ln.facts.port) > 0 {
			continue
		}
		found, high := false, 0.0
		for _, e := range t.axis.entries {
			if x, ok := figure(t.plane().At(e.row, ln.col)); ok {
				found, high = true, max(high, x)
			}
		}
		if found && high <= highestIn {
			ln.facts.ambiguous = ""
			ln.facts.roles[words.Lift] = true
		}
	}
}

// settleBy takes the ports that the words said beside them settle.
func (t *table) settleBy(said map[string]bool) {
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

// ofIntakes stands for an entry or a manifold, which only an intake has: "IN
// with carb" is no inch.
const ofIntakes = "entry"

func portTable() []portWords {
	return []portWords{
		{"in", head.Intake, []string{"exhaust", "out", ofIntakes}, nil},
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

// portInFull reads the short word that answers the key of a port: there "IN" is
// no inch. The words that are one port in one language and another one in the
// next stay open.
func (f *facts) portInFull(trace source.Trace) {
	switch f.ambiguous {
	case "in", "i":
		f.port.add(head.Intake, trace)
	case "out":
		f.port.add(head.Exhaust, trace)
	default:
		return
	}
	f.ambiguous = ""
}

// isBeside reports whether two tables share a row of the sheet.
func (t *table) isBeside(o *table) bool {
	a, b := t.area(), o.area()
	return a.Bottom >= b.Top && b.Bottom >= a.Top
}

// isStackedOn reports whether two lists of lifts stand in one column under the same
// word, with as many readings beside them.
func (t *table) isStackedOn(o *table) bool {
	return t.plane().Swapped == o.plane().Swapped && t.axis.col == o.axis.col && len(t.lanes) == len(o.lanes) && headOfLifts(t) == headOfLifts(o)
}

// settleAcross lets the tables of a page that stand beside one another, or are
// stacked alike, decide what a short word over their columns means: IN beside a
// table of EXH.
func settleAcross(tables []*table) {
	for _, t := range tables {
		said := map[string]bool{}
		for _, o := range tables {
			if o == t || !t.isBeside(o) && !t.isStackedOn(o) {
				continue
			}
			for _, ln := range o.lanes {
				if p, ok := ln.facts.port.one(); ok {
					said[p.Value.String()] = true
				}
			}
		}
		for _, ln := range t.lanes {
			switch word := ln.facts.ambiguous; {
			case len(ln.facts.port) > 0, word != "" && word != "in" && word != "out":
				said = nil // told by its own columns, or in words that depend on the language
			case said != nil:
				said[word] = true
			}
		}
		t.settleBy(said)
	}
}
