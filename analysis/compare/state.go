package compare

import (
	"cmp"
	"slices"
	"strings"

	"flowshelf/analysis/head"
	"flowshelf/analysis/source"
)

// state is what was done to a head since it was delivered.
type state struct {
	key     string         // equal for states that are the same work
	words   string         // "valve job + blend"; "" for as delivered
	lines   []*head.Rework // the lines of the shop's menu it is made of
	unknown []string       // words that no single line of the menu answers to
	at      source.Ref     // where it was first read
}

// delivered reports whether nothing was done to the head.
func (s state) delivered() bool { return s.key == "" }

// menu is the shop's list of rework, by place.
type menu []*head.Rework

func newMenu(rework []head.Rework) menu {
	var m menu
	for i := range rework {
		if r := &rework[i]; r.Status == head.Used {
			m = append(m, r)
		}
	}
	slices.SortStableFunc(m, func(a, b *head.Rework) int {
		return cmp.Or(a.At.Compare(b.At), cmp.Compare(a.Name, b.Name), a.Price.Value.Amount.Cmp(b.Price.Value.Amount))
	})
	return m
}

// asDelivered reports whether the words mean a head nobody has touched. Common
// practice, no source.
func asDelivered(words string) bool {
	switch words {
	case "", "as delivered", "as del", "as del.", "delivered", "as received", "stock", "box stock",
		"out of the box", "before", "untouched", "as is":
		return true
	}
	return false
}

// pieces splits the words of a state where one kind of work ends.
func pieces(words string) []string {
	split := strings.NewReplacer("+", "|", "&", "|", ",", "|", ";", "|", "/", "|",
		" and ", "|", " with ", "|", " plus ", "|", "v.j.", "valve job", "short side", "short-side")
	return strings.Split(split.Replace(words), "|")
}

// resolve reads a state's words against the menu. Each piece must answer to
// exactly one line; what does not is left unknown and has no price.
func (m menu) resolve(words string) state {
	plain := strings.Join(strings.Fields(strings.ToLower(words)), " ")
	if asDelivered(plain) {
		return state{}
	}
	var s state
	var said, keys []string
	for _, piece := range pieces(plain) {
		piece = spellOut(piece)
		if piece == "" || slices.Contains(said, piece) {
			continue
		}
		said = append(said, piece)
		line, ok := m.line(piece)
		if !ok {
			s.unknown = append(s.unknown, piece)
			keys = append(keys, "?"+piece)
			continue
		}
		if !slices.Contains(s.lines, line) {
			s.lines = append(s.lines, line)
			keys = append(keys, nameKey(line.Name))
		}
	}
	slices.Sort(keys)
	s.key = strings.Join(keys, "|")
	s.words = strings.Join(said, " + ")
	return s
}

// spellOut drops words that say nothing about the work and expands "vj".
func spellOut(piece string) string {
	var kept []string
	for _, w := range strings.Fields(piece) {
		switch w = strings.Trim(w, ".()"); w {
		case "", "after", "our", "with":
		case "vj":
			kept = append(kept, "valve", "job")
		case "ss":
			kept = append(kept, "short-side")
		default:
			kept = append(kept, w)
		}
	}
	return strings.Join(kept, " ")
}

// line returns the one line of the menu that has every word of the piece. A line
// with no other words wins over longer ones.
func (m menu) line(piece string) (*head.Rework, bool) {
	words := tokens(piece)
	var exact, partial []*head.Rework
	for _, r := range m {
		name := tokens(r.Name)
		if !allIn(words, name) {
			continue
		}
		partial = append(partial, r)
		if len(name) == len(words) {
			exact = append(exact, r)
		}
	}
	switch {
	case len(exact) == 1:
		return exact[0], true
	case len(partial) == 1:
		return partial[0], true
	}
	return nil, false
}

func tokens(s string) []string {
	return strings.FieldsFunc(strings.ToLower(s), func(r rune) bool { return strings.ContainsRune(" -_.()", r) })
}

func allIn(words, name []string) bool {
	for _, w := range words {
		if !slices.ContainsFunc(name, func(n string) bool { return sameWord(w, n) }) {
			return false
		}
	}
	return len(words) > 0
}

// sameWord takes "blended" for "blend" and "valves" for "valve".
func sameWord(a, b string) bool {
	const stem = 4
	return a == b || len(a) >= stem && strings.HasPrefix(b, a) || len(b) >= stem && strings.HasPrefix(a, b)
}

// stateTests are the tests of one head in one state.
type stateTests struct {
	state
	tests []*head.Test
}

// byState parts tests by state, as delivered first, then by the amount of work.
func (m menu) byState(tests []*head.Test) []stateTests {
	found := make(map[string]*stateTests)
	for _, t := range tests {
		s := m.resolve(t.State)
		known := found[s.key]
		if known == nil {
			s.at = t.At
			known = &stateTests{state: s}
			found[s.key] = known
		}
		// Of two spellings of one state the shorter names it.
		if cmp.Or(cmp.Compare(len(s.words), len(known.words)), cmp.Compare(s.words, known.words)) < 0 {
			s.at = known.at
			known.state = s
		}
		known.tests = append(known.tests, t)
	}
	out := make([]stateTests, 0, len(found))
	for _, s := range found {
		out = append(out, *s)
	}
	slices.SortFunc(out, func(a, b stateTests) int {
		return cmp.Or(cmp.Compare(len(a.lines)+len(a.unknown), len(b.lines)+len(b.unknown)), cmp.Compare(a.key, b.key))
	})
	return out
}
