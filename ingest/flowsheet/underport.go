package flowsheet

import (
	"slices"

	"flowshelf/analysis/head"
	"flowshelf/analysis/source"
	"flowshelf/ingest/decode"
	"flowshelf/ingest/layout"
	"flowshelf/ingest/parse"
	"flowshelf/ingest/words"
)

// underOnePort takes the columns of a table for flows of the one port that the
// lines over it name, with their unit, when no column names a port itself: what
// stands over a column is then a name for it, known or not.
func underOnePort(b *builder, t *table) {
	for _, ln := range t.lanes {
		if len(ln.facts.port)+len(ln.section.port) > 0 || ln.facts.ambiguous != "" {
			return
		}
	}
	for _, ln := range t.lanes {
		if ln.role != laneUnknown && ln.role != laneFact || len(ln.headers) == 0 || !t.flows(ln) {
			continue
		}
		if ln.facts.says(words.Date, words.Leak, words.Supposed) {
			continue
		}
		_, all := b.scoped(t, ln.facts)
		if _, one := all.port.one(); one && len(all.flowUnit) == 1 {
			ln.role, ln.why = laneFlow, ""
		}
	}
}

// flows reports whether the figures of a lane run as a flow does, or keep close
// to those of a lane that do.
func (t *table) flows(ln *lane) bool {
	if t.curved(ln) {
		return t.passable(ln)
	}
	own := t.points(ln)
	return slices.ContainsFunc(t.curves(), func(o *lane) bool {
		other := t.points(o)
		return len(other) == len(own) && t.passable(o) && slices.EqualFunc(own, other, func(a, b point) bool {
			return a.lift == b.lift && a.flow > b.flow/closeBy && a.flow < b.flow*closeBy
		})
	})
}

// closeBy is how far two columns of one port and one lift may be apart: a
// rework can bring that much (common practice, no source).
const closeBy = 1.5

// settleOver lets the tables of a page decide what a lone "IN" over one of them
// means: the intake, where another one is the exhaust's.
func (s *surroundings) settleOver(page *layout.Page, tables []*table) {
	said, over := map[string]bool{}, map[*table]decode.Cell{}
	for _, t := range tables {
		port := s.blocks[t].declaredPort().and(t.corner.port)
		for _, ln := range t.lanes {
			port = port.and(ln.facts.port)
		}
		for _, p := range port {
			said[p.Value.String()] = true
		}
		if c, word := t.lonePort(page, tables); word != "" && len(port) == 0 {
			over[t] = c
			said[word] = true
		}
	}
	for _, t := range tables {
		c, ok := over[t]
		if !ok {
			continue
		}
		_, word := t.lonePort(page, tables)
		port, ok := settled(word, said)
		step := "told from the table beside it"
		if !ok && c.Text == "IN" && t.liftsHaveUnit() {
			port, ok, step = head.Intake, true, "the lifts have their unit, so that this is none"
		}
		if ok {
			f := newFacts()
			f.port.add(port, source.Trace{At: page.Ref(c), Text: c.Text, Steps: []string{step}})
			s.blocks[t] = join(s.blocks[t], scope{statements: []statement{{facts: f}}})
		}
	}
}

// liftsHaveUnit reports whether words over the lifts of a table say their unit.
func (t *table) liftsHaveUnit() bool {
	_, labelled := parse.FindLiftUnit(t.axis.label.Text)
	return labelled || len(t.corner.liftUnit) > 0
}

// lonePort returns the short word for a port that is all that the line right
// over a table says: IN, EV, A.
func (t *table) lonePort(page *layout.Page, tables []*table) (decode.Cell, string) {
	area := t.area()
	lines := ownLines(layout.Lines(page, decode.Area{Top: area.Top - 1, Left: 1, Bottom: area.Top - 1, Right: 1 << 20}), t, tables)
	if area.Top < 2 || len(lines) != 1 || len(lines[0].Cells) != 1 || lines[0].Cells[0].Kind != decode.Text {
		return decode.Cell{}, ""
	}
	c := lines[0].Cells[0]
	tokens := words.Tokens(c.Text)
	hits := words.FlowSheet().Find(tokens)
	if len(tokens) != 1 || len(hits) != 1 || hits[0].Role != words.AmbiguousPort {
		return decode.Cell{}, ""
	}
	return c, hits[0].Phrase
}
