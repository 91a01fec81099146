package flowsheet

import (
	"regexp"
	"slices"
	"strings"

	"flowshelf/ingest/layout"
	"flowshelf/ingest/words"
)

// inherit lets the lines over the first table of a page speak of the later
// ones as well, as far as these say nothing themselves: one head flowed on two
// bores is named once. A table with nothing over it after one that names a head
// may be another head's, and two named heads are two tests: they inherit
// nothing. So it is where a later table has a title with words that nobody knows.
func (s *surroundings) inherit(r *reader, page *layout.Page, ordered []*table) {
	if len(ordered) < 2 {
		return
	}
	first, rest := ordered[0], ordered[1:]
	named := s.blocks[first].any().namesHead()
	for _, t := range rest {
		if own := s.blocks[t].any(); own.namesHead() || own.mayNameHead() || named && t.namesHead() || r.opensBlock(page, over(s.blocks[t].lines, t)) ||
			tellsOfOthers(s.blocks[first].lines, over(s.blocks[t].lines, t)) {
			return
		}
	}
	for _, t := range rest {
		if !named || s.blocks[t].any().states() {
			s.heirs[t] = first
		}
	}
}

// over keeps of the lines of a table those that stand over it.
func over(lines []layout.Line, t *table) []layout.Line {
	return slices.DeleteFunc(slices.Clone(lines), func(l layout.Line) bool { return l.Row >= t.area().Top })
}

// maybeHead is a word with a figure behind it that nobody knows.
var maybeHead = regexp.MustCompile(`\pL{2,} ?\d{2,}`)

// mayNameHead reports whether words that nobody knows can be the name of a head.
func (f facts) mayNameHead() bool { return maybeHead.MatchString(strings.Join(f.rest, " ")) }

func (f facts) namesHead() bool { return len(f.head)+len(f.loose)+len(f.unclear) > 0 }

// namesHead reports whether the headers of a table name a head.
func (t *table) namesHead() bool {
	for _, ln := range t.lanes {
		if ln.facts.namesHead() || ln.section.namesHead() {
			return true
		}
	}
	return t.corner.namesHead()
}

// states reports whether lines tell how, on which port or in which state a
// head was flowed.
func (f facts) states() bool {
	return len(f.bore)+len(f.over)+len(f.pressure)+len(f.bare)+len(f.port)+len(f.state)+len(f.pipe)+len(f.entry)+
		len(f.mark)+len(f.run)+len(f.class)+len(f.serial)+len(f.sample)+len(f.date) > 0 || f.is(words.Date)
}
