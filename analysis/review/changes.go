package review

import (
	"slices"
	"strconv"
	"strings"

	"flowshelf/analysis/compare"
	"flowshelf/analysis/history"
)

// Change is a place that moved since the month before, or an input that changed
// and moved none.
type Change struct {
	Family        string
	Label         string
	Before, After string // places: "2=", "-" for none
	Moved         bool
	Causes        []Cause
	Together      bool // none of the causes alone explains it, all of them do
}

// changes explains every place that moved, and lists what else changed. It is
// empty without a month before.
func (m *month) changes() []Change {
	if m.before == nil {
		return nil
	}
	var out []Change
	for i := range m.Families {
		out = append(out, m.familyChanges(m.Families[i].Family.Name)...)
	}
	return out
}

// difference is all that one set of causes changed.
type difference struct {
	causes []Cause
	atoms  map[atom]bool
	undone map[string]compare.Place // the places now with it undone
	alone  map[string]compare.Place // the places before with it alone
	moved  bool                     // some place by it
}

func (m *month) familyChanges(family string) []Change {
	s := m.model(family)
	differences := m.differences(family, s)
	before := s.mixed(func(atom) side { return old })
	after := s.mixed(func(atom) side { return now })
	for _, d := range differences {
		d.undone = s.mixed(d.pick(old, now))
		d.alone = s.mixed(d.pick(now, old))
	}
	var out []Change
	for _, label := range s.labels {
		was, is := before[label], after[label]
		if samePlace(was, is) {
			continue
		}
		c := Change{Family: family, Label: label, Before: place(was), After: place(is), Moved: true}
		for _, d := range differences {
			if !samePlace(d.undone[label], is) || !samePlace(d.alone[label], was) {
				c.Causes, d.moved = append(c.Causes, d.causes...), true
			}
		}
		if len(c.Causes) == 0 { // no one of them, only all of them
			c.Together = true
			for _, d := range differences {
				c.Causes, d.moved = append(c.Causes, d.causes...), true
			}
		}
		out = append(out, c)
	}
	for _, d := range differences {
		if !d.moved {
			label := d.label()
			out = append(out, Change{Family: family, Label: label, Before: place(before[label]), After: place(after[label]), Causes: d.causes})
		}
	}
	return append(out, m.leftOut(family, s)...)
}

// leftOut lists the entries that are not ranked for another reason than before.
func (m *month) leftOut(family string, s *shelfModel) []Change {
	in := &inputs{before: m.before, after: &m.facts, family: family}
	var out []Change
	for _, label := range s.labels {
		was, is := s.before[label], s.after[label]
		if is == nil || is.Why == "" || was != nil && was.Why == is.Why || canRank(was) {
			continue
		}
		c := Change{Family: family, Label: label, Before: place(compare.Place{}), After: place(compare.Place{})}
		c.Causes = in.listingCauses(is.Head, "", was, is)
		c.Causes = append(c.Causes, Cause{NotRanked, is.Head, "not ranked: " + is.Why})
		out = append(out, c)
	}
	return out
}

// pick takes the difference from one month and everything else from another.
func (d *difference) pick(it, others side) picker {
	return func(a atom) side {
		if d.atoms[a] {
			return it
		}
		return others
	}
}

func samePlace(a, b compare.Place) bool { return a.Number == b.Number && a.Shared == b.Shared }

func place(p compare.Place) string { return placeWords(p.Number, p.Shared) }

// label names the one entry that a difference touches, or several.
func (d *difference) label() string {
	var out []string
	for a := range d.atoms {
		if a.label != "" && !slices.Contains(out, a.label) {
			out = append(out, a.label)
		}
	}
	slices.Sort(out)
	const mostNamed = 4
	if len(out) > mostNamed {
		return plural(len(out), "head")
	}
	return list(out)
}

// model takes what the places of a family rested on in both months.
func (m *month) model(family string) *shelfModel {
	s := &shelfModel{before: make(map[string]*history.Place), after: make(map[string]*history.Place)}
	for i, f := range []*history.Facts{m.before, &m.facts} {
		into := []map[string]*history.Place{s.before, s.after}[i]
		for j := range f.Places {
			p := &f.Places[j]
			if p.Family != family {
				continue
			}
			into[p.Label] = p
			if !slices.Contains(s.labels, p.Label) {
				s.labels = append(s.labels, p.Label)
			}
		}
		s.worths[i] = figure(f, familyScope+" / "+family, "Worth of a cfm")
		s.levels[i] = figure(f, shopScope, "Tie until") / 100
	}
	slices.SortStableFunc(s.labels, func(a, b string) int { return rank(s.after[a]) - rank(s.after[b]) })
	return s
}

// rank orders the labels as the ranking now stands, those without a place last.
func rank(p *history.Place) int {
	const last = 1 << 20
	if p == nil || p.Number == 0 {
		return last
	}
	return p.Number
}

// figure reads a setting that is a number, 0 for none.
func figure(f *history.Facts, scope, name string) float64 {
	text, _ := f.Setting(scope, name)
	x, err := strconv.ParseFloat(text, 64)
	if err != nil || !(x > 0) {
		return 0
	}
	return x
}

// differences gathers what differs between the two months by its causes.
func (m *month) differences(family string, s *shelfModel) []*difference {
	in := &inputs{before: m.before, after: &m.facts, family: family}
	byCause := make(map[string]*difference)
	add := func(a atom, was, is *history.Place) {
		causes := in.of(a, was, is)
		keys := make([]string, len(causes))
		for i, c := range causes {
			keys[i] = c.key()
		}
		key := strings.Join(keys, "\n")
		if byCause[key] == nil {
			byCause[key] = &difference{causes: causes, atoms: make(map[atom]bool)}
		}
		byCause[key].atoms[a] = true
	}
	for _, label := range s.labels {
		for _, d := range differing(s.before[label], s.after[label]) {
			add(atom{label, d}, s.before[label], s.after[label])
		}
	}
	if s.worths[old] != s.worths[now] {
		add(atom{driver: worth}, nil, nil)
	}
	if s.levels[old] != s.levels[now] {
		add(atom{driver: ties}, nil, nil)
	}
	keys := make([]string, 0, len(byCause))
	for k := range byCause {
		keys = append(keys, k)
	}
	slices.Sort(keys)
	out := make([]*difference, len(keys))
	for i, k := range keys {
		out[i] = byCause[k]
	}
	return out
}

// differing lists the drivers of an entry that differ. One that cannot be ranked
// in either month has none.
func differing(was, is *history.Place) []driver {
	switch {
	case !canRank(was) && !canRank(is):
		return nil
	case !canRank(was) || !canRank(is):
		return []driver{listing}
	}
	var out []driver
	if !sameNumber(was.Working, is.Working) || !sameNumber(was.WorkingU, is.WorkingU) || was.BoreHow != is.BoreHow {
		out = append(out, flow)
	}
	if !sameMoney(was.Sell, is.Sell) {
		out = append(out, sell)
	}
	if !sameMoney(was.Extras, is.Extras) {
		out = append(out, extras)
	}
	if !sameMoney(was.Springs, is.Springs) {
		out = append(out, springs)
	}
	if !sameMoney(was.Rework, is.Rework) {
		out = append(out, rework)
	}
	return out
}
