package compare

import (
	"slices"

	"flowshelf/analysis/head"
	"flowshelf/analysis/source"
)

// Stake is how much hangs on the answer to a question.
type Stake uint8

// From the least to the most.
const (
	NothingRanked Stake = iota // no head that is ranked, or might be
	WordsOnly                  // what is said about a ranked head
	APlace                     // the place of a ranked head
	TopThree                   // one of the first three places, or a head held back that may take one
)

// String says it in words.
func (s Stake) String() string {
	return [...]string{
		"no head of the ranking", "what is said about a ranked head", "the place of a ranked head", "a place among the first three",
	}[s]
}

// topPlaces are the places that a buyer looks at first.
const topPlaces = 3

// Stakes says what hangs on a question. It changes nothing and asks nothing: it
// looks at which heads a problem touches and at where those stand.
type Stakes struct {
	waiting waiting
	byHead  map[string]Stake
	heads   map[string][]string // by file, the heads that its books speak of
}

// NewStakes looks through the records and the comparisons made from them.
func NewStakes(records head.Records, families []Comparison) *Stakes {
	s := &Stakes{waiting: newWaiting(records), byHead: make(map[string]Stake), heads: make(map[string][]string)}
	s.touch(records)
	raise := func(name string, to Stake) {
		s.byHead[nameKey(name)] = max(s.byHead[nameKey(name)], to)
	}
	for i := range families {
		c := &families[i]
		for _, e := range c.Ranked {
			if e.Place.Best <= topPlaces || e.Place.Number <= topPlaces {
				raise(e.Head, TopThree)
			} else {
				raise(e.Head, APlace)
			}
		}
		for _, e := range slices.Concat(c.Unpriced, c.BelowLine) {
			raise(e.Head, WordsOnly)
		}
		for _, n := range c.NotRanked {
			if n.Held {
				raise(n.Head, TopThree) // nobody knows where it will stand
			}
		}
	}
	return s
}

// touch notes which heads each file speaks of, and what is held up by a record
// that waits.
func (s *Stakes) touch(r head.Records) {
	for _, t := range r.Tests {
		s.note(t.At.File, t.Head)
	}
	for _, p := range r.Prices {
		s.note(p.At.File, p.Head)
	}
	for _, x := range r.Stock {
		s.note(x.At.File, x.Head)
	}
	for _, x := range r.Extras {
		s.note(x.At.File, x.Head)
	}
	for _, x := range r.Dimensions {
		s.note(x.At.File, x.Head)
	}
}

func (s *Stakes) note(file, name string) {
	if name != "" && !slices.Contains(s.heads[file], name) {
		s.heads[file] = append(s.heads[file], name)
	}
}

// Heads returns the heads that a question is about.
func (s *Stakes) Heads(p source.Problem) []string { return s.waiting.of(p) }

// Of returns what hangs on the answer to a problem's question: the most that
// hangs on any head it is about or, when that is none, that its file speaks of.
func (s *Stakes) Of(p source.Problem) Stake {
	names := s.Heads(p)
	if len(names) == 0 {
		names = s.heads[p.At.File]
	}
	most := NothingRanked
	for _, name := range names {
		most = max(most, s.byHead[nameKey(name)])
	}
	if p.Question != nil && p.Question.Reach == source.ReachesWords {
		most = min(most, WordsOnly)
	}
	return most
}
