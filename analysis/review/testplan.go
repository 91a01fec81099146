package review

import (
	"cmp"
	"fmt"
	"math"
	"slices"

	"flowshelf/analysis/compare"
	"flowshelf/analysis/head"
	"flowshelf/analysis/history"
	"flowshelf/analysis/quantity"
	"flowshelf/analysis/source"
	"flowshelf/analysis/stats"
)

// TestIdea is a test that may change a decision.
type TestIdea struct {
	Head, Family string
	What         string // "flow one", "another casting", "retest .200"
	Reason       string
	Chance       compare.Maybe // that it changes a place or a decision
	Dollars      source.Stated[quantity.Money]
	About        string
	held         bool
}

// testPlan lists the tests most likely to change a decision: heads held by a
// reading, untested heads that may lead, ties that rest on single samples, old
// tests, tests of a day the bench was off.
func (m *month) testPlan(stock []Health) []TestIdea {
	cash := make(map[string]source.Stated[quantity.Money], len(stock))
	for _, h := range stock {
		cash[h.Head] = h.Cash
	}
	var out []TestIdea
	for i := range m.Families {
		c := &m.Families[i]
		for _, s := range entriesOf(c) {
			if t, ok := m.idea(s); ok {
				t.Head, t.Family = s.Head, c.Family.Name
				t.Dollars, t.About = cash[s.Head], "tied up"
				out = append(out, t)
			}
		}
	}
	slices.SortStableFunc(out, func(a, b TestIdea) int {
		return cmp.Or(compare.FalseFirst(!a.held, !b.held), cmp.Compare(b.Chance.Value, a.Chance.Value),
			b.Dollars.Value.Amount.Cmp(a.Dollars.Value.Amount))
	})
	return slices.CompactFunc(out, func(a, b TestIdea) bool { return a.Head == b.Head && a.What == b.What })
}

// idea is the test of one entry that could change something, if any.
func (m *month) idea(s standing) (TestIdea, bool) {
	switch s.list {
	case history.NotRanked:
		for _, n := range s.family.NotRanked {
			if n.Label != s.Label || s.Intake == nil {
				continue
			}
			reason := n.Reason
			if n.Held {
				reason = "held: " + reason
			}
			return TestIdea{What: "retest", Reason: reason, Chance: known(1), held: true}, true
		}
	case history.BelowLine, history.Advertised:
		return m.untested(s)
	case history.Ranked:
		return m.retest(s)
	case history.Unpriced:
	}
	return TestIdea{}, false
}

// untested weighs a head that was never flowed here by what its supplier says.
func (m *month) untested(s standing) (TestIdea, bool) {
	c := s.family
	t := TestIdea{What: "flow one", Chance: compare.Maybe{Why: "no figure to weigh it by"}}
	if !s.Value.Known || len(c.Ranked) == 0 {
		t.Reason = string(s.list) + " only: it may be better than the shelf, and nothing is proven"
		return t, s.list == history.BelowLine
	}
	leader := &c.Ranked[0]
	p := stats.Beats(stats.Score{Value: s.Value.Value, U: max(s.ValueU, otherBench*c.Worth.PerCFM*s.Intake.Working.Value)},
		stats.Score{Value: leader.Value.Value, U: leader.ValueU}, 0)
	t.Chance = known(p)
	t.Reason = fmt.Sprintf("by its supplier's own sheet it is worth %s %s %s: better is possible, nothing is proven",
		m.amount(math.Abs(s.Value.Value-leader.Value.Value)), map[bool]string{true: "more than", false: "less than"}[s.Value.Value > leader.Value.Value], leader.Label)
	const hopeless = 0.02
	return t, p > hopeless
}

// otherBench is how far another bench may lie from ours, one standard deviation.
// Common practice, no source.
const otherBench = 0.03

// retest weighs another look at a ranked head: how near it is to changing places
// with the head before it, given that another casting may differ.
func (m *month) retest(s standing) (TestIdea, bool) {
	c, in := s.family, s.Intake
	at := slices.IndexFunc(c.Ranked, func(e compare.Entry) bool { return e.Label == s.Label })
	t := TestIdea{What: "another casting"}
	if at < 0 || !c.Worth.Known || in.Class != head.Own {
		return t, false
	}
	for _, f := range s.Flags {
		if f.Code == "L" {
			return TestIdea{What: "retest", Reason: f.Words, Chance: known(0.5)}, true
		}
	}
	if old := m.Shop.Rules.OldTestMonths; in.Date.Known && old > 0 && in.Date.Value.AddDate(0, int(old), 0).Before(m.Date) {
		return TestIdea{What: "retest", Reason: "its test is of " + dayWords(in.Date) + "; castings change", Chance: known(0.5)}, true
	}
	if in.Ports > 1 || at == 0 {
		return t, false
	}
	first := rivalOf(c, at)
	if first == nil {
		return t, false
	}
	p := compare.ProbabilityBeats(s.Entry, first, c.Worth.PerCFM)
	t.Chance = known(p)
	t.Reason = fmt.Sprintf("one port of one sample, %s behind %s: the castings may vary more than this", m.amount(first.Value.Value-s.Value.Value), first.Label)
	const hopeless = 0.02
	return t, p > hopeless
}

// rivalOf is whom an entry could change places with: the first of its tie group,
// else of the group before it, of another head. nil when there is none.
func rivalOf(c *compare.Comparison, at int) *compare.Entry {
	e := &c.Ranked[at]
	for _, group := range []int{e.Place.Group, e.Place.Group - 1} {
		for i := range at {
			if r := &c.Ranked[i]; r.Place.Group == group && r.Head != e.Head {
				return r
			}
		}
	}
	return nil
}
