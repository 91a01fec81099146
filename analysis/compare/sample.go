package compare

import (
	"cmp"
	"fmt"
	"slices"
	"time"

	"flowshelf/analysis/head"
	"flowshelf/analysis/quantity"
	"flowshelf/analysis/source"
)

// session is one sample flowed on one day on one bore: the columns that may be
// averaged with one another.
type session struct {
	sample string
	date   source.Stated[time.Time]
	bore   source.Stated[quantity.Length]
	cols   []*column
}

// choice is which sessions the curve of a port is made of, and which are history.
type choice struct {
	pair    []session // of one sample: one bore, or several
	earlier []session
	asked   source.Problems
	held    string // why the port waits for an answer, "" when it does not
}

// choose finds the newest sample. Copies of one column count once, two columns
// that contradict one another are asked about, other samples and other days are
// history: they are never averaged into the curve.
func (f *family) choose(b *bundle, cols []*column) choice {
	var c choice
	cols = withoutCopies(cols)
	cols = f.settle(b, cols, &c)
	sessions := sessionsOf(cols)
	sessions = f.unmarked(b, sessions, &c)
	if len(sessions) == 0 {
		return c
	}
	newest := sessions[0]
	for _, s := range sessions {
		sameDay := compareDates(s.date, newest.date) == 0
		switch {
		case s.sample == newest.sample && !sameBore(s.bore, newest.bore) && (s.sample != "" || sameDay) && !hasBore(c.pair, s.bore):
			c.pair = append(c.pair, s)
			if s.sample == "" {
				c.asked.Add(f.noted(b, sheetOf(s.cols[0].test.At), "pair-unmarked", "two bores on one day without a sample mark: taken as one sample"))
			}
		case s.sample == newest.sample && sameBore(s.bore, newest.bore) && sameDay && len(c.pair) == 0:
			c.pair = append(c.pair, s)
		case sameDay && sameBore(s.bore, newest.bore) && len(c.pair) > 0:
			// Two castings flowed on one day: neither is newer, both count.
			c.pair[0].cols = append(slices.Clone(c.pair[0].cols), s.cols...)
		default:
			c.earlier = append(c.earlier, s)
		}
	}
	return c
}

func hasBore(sessions []session, bore source.Stated[quantity.Length]) bool {
	return slices.ContainsFunc(sessions, func(s session) bool { return sameBore(s.bore, bore) })
}

func sameBore(a, b source.Stated[quantity.Length]) bool {
	return a.Known == b.Known && a.Value.Near(b.Value, atReference)
}

// withoutCopies drops columns whose numbers another column holds too, of the
// same port, sample and day as far as both say: the same sheet dropped twice.
func withoutCopies(cols []*column) []*column {
	var kept []*column
	for _, c := range cols {
		i := slices.IndexFunc(kept, func(k *column) bool { return couldBeOne(k.test, c.test) && k.sameNumbers(c) })
		switch {
		case i < 0:
			kept = append(kept, c)
		case fuller(c, kept[i]):
			c.confirmed = kept[i].confirmed + otherFile(c, kept[i])
			kept[i] = c
		default:
			kept[i].confirmed += otherFile(c, kept[i])
		}
	}
	return kept
}

func otherFile(a, b *column) int {
	if a.test.At.File == b.test.At.File {
		return 0
	}
	return 1
}

// couldBeOne reports whether nothing stated speaks against two columns being one.
func couldBeOne(a, b *head.Test) bool {
	same := func(x, y string) bool { return x == y || x == "" || y == "" }
	return a.PortMark == b.PortMark && a.Run == b.Run && same(a.Sample, b.Sample) &&
		(!a.Date.Known || !b.Date.Known || compareDates(a.Date, b.Date) == 0) &&
		(!a.Bore.Known || !b.Bore.Known || sameBore(a.Bore, b.Bore))
}

// fuller reports whether a says more than b.
func fuller(a, b *column) bool {
	score := func(c *column) int {
		n := len(c.points) * 8
		for _, known := range []bool{c.test.Bore.Known, c.test.Date.Known, c.test.Sample != "", c.test.Ports > 0} {
			if known {
				n++
			}
		}
		return n
	}
	return score(a) > score(b)
}

// settle looks for columns of one port, sample, day and run whose numbers
// differ. Within one book and within the noise they are repeats. Otherwise
// somebody must say which stands; until then the one that more books agree on does, then the one with
// more readings, and when neither tells them apart the head is held.
func (f *family) settle(b *bundle, cols []*column, out *choice) []*column {
	var kept []*column
	for _, c := range cols {
		i := slices.IndexFunc(kept, func(k *column) bool {
			return k.test.PortMark == c.test.PortMark && k.test.Run == c.test.Run && k.test.Sample == c.test.Sample &&
				k.test.Ports == c.test.Ports && compareDates(k.test.Date, c.test.Date) == 0 && sameBore(k.test.Bore, c.test.Bore)
		})
		if i < 0 || otherFile(kept[i], c) == 0 && kept[i].withinNoise(c, f.rules.Repeatability) {
			kept = append(kept, c)
			continue
		}
		other := kept[i]
		if pressuresDiffer(other.test, c.test) && other.withinNoise(c, onePull) {
			kept[i] = f.nearerReference(other, c)
			continue
		}
		p, answer, ok := f.answered(f.whichStands(b, other, c))
		out.asked.Add(p)
		if ok {
			kept = stands(kept, i, c, p.Question.Choices, answer)
			continue
		}
		switch d := cmp.Or(cmp.Compare(c.confirmed, other.confirmed), cmp.Compare(len(c.points), len(other.points))); {
		case d == 0:
			out.held = "two tests of one sample and day differ; which of them stands waits for an answer in Questions.xlsx"
		case d > 0:
			kept[i] = c
		}
	}
	return kept
}

// onePull is how far the blocks of one pull taken at two pressures may lie apart
// once converted. Common practice, no source.
const onePull = 0.03

// pressuresDiffer reports whether two columns were taken at two test pressures.
func pressuresDiffer(a, b *head.Test) bool {
	return a.Pressure.Known && b.Pressure.Known &&
		relative(quantity.Flow(a.Pressure.Value), quantity.Flow(b.Pressure.Value)) > samePressure
}

// nearerReference is of one pull at two pressures the block that was measured
// nearest to the reference; the other is only a cross-check.
func (f *family) nearerReference(a, b *column) *column {
	off := func(c *column) float64 {
		return relative(quantity.Flow(c.test.Pressure.Value), quantity.Flow(f.rules.Reference))
	}
	if off(b) < off(a) {
		return b
	}
	return a
}

func (f *family) whichStands(b *bundle, x, y *column) source.Problem {
	p := head.WhichStands(b.listed.Name, x.test, y.test, difference(x, y), "the curve of "+b.listed.Name)
	p.Family = f.Name
	return p
}

// stands does what somebody has said of the column at i and another that
// contradicts it.
func stands(kept []*column, i int, c *column, choices []string, answer head.Reply) []*column {
	switch answer.Choice {
	case choices[1]:
		kept[i] = c
	case choices[2]:
		kept = append(kept, c)
	case choices[3]:
		test, other := *c.test, *c
		test.Sample += " (second)"
		other.test = &test
		kept = append(kept, &other)
	}
	return kept
}

// sheetOf is the sheet a cell stands on: a question about a test is asked once
// for both its ports.
func sheetOf(at source.Ref) source.Ref { return source.Ref{File: at.File, Sheet: at.Sheet} }

// difference says how far two columns lie apart where they differ most.
func difference(x, y *column) string {
	words, worst := "no lift in common", -1.0
	for _, p := range x.points {
		for _, q := range y.points {
			if apart := relative(p.Flow, q.Flow); p.Lift.Near(q.Lift, sameLift) && apart > worst {
				worst = apart
				words = fmt.Sprintf("at %s: %.0f and %.0f cfm", inches(p.Lift), p.Flow.CFM(), q.Flow.CFM())
			}
		}
	}
	return words
}

func relative(a, b quantity.Flow) float64 {
	if a == 0 && b == 0 {
		return 0
	}
	return max(float64(a-b), float64(b-a)) / float64(max(a, b))
}

// sessionsOf groups columns, the newest session first.
func sessionsOf(cols []*column) []session {
	var out []session
	for _, c := range cols {
		i := slices.IndexFunc(out, func(s session) bool {
			return s.sample == c.test.Sample && compareDates(s.date, c.test.Date) == 0 && sameBore(s.bore, c.test.Bore)
		})
		if i < 0 {
			out = append(out, session{sample: c.test.Sample, date: c.test.Date, bore: c.test.Bore})
			i = len(out) - 1
		}
		out[i].cols = append(out[i].cols, c)
	}
	slices.SortStableFunc(out, func(a, b session) int {
		return cmp.Or(compareDates(b.date, a.date), cmp.Compare(a.sample, b.sample), cmp.Compare(a.bore.Value, b.bore.Value))
	})
	return out
}

// unmarked sets aside tests without a sample mark that are no newer than a
// marked one: nobody can tell whether they are the same casting.
func (f *family) unmarked(b *bundle, sessions []session, out *choice) []session {
	i := slices.IndexFunc(sessions, func(s session) bool { return s.sample != "" })
	if i < 0 {
		return sessions
	}
	marked := sessions[i]
	var kept, older []session
	for _, s := range sessions {
		if s.sample != "" || compareDates(s.date, marked.date) > 0 {
			kept = append(kept, s)
			continue
		}
		t := s.cols[0].test
		p, answer, ok := f.answered(source.Problem{
			At: sheetOf(t.At), Also: []source.Ref{sheetOf(marked.cols[0].test.At)}, Severity: source.Asked, Kind: "same-sample",
			Head: b.listed.Name, Family: f.Name, Message: "the test has no sample mark and differs from sample " + marked.sample,
			Hint: "write the sample's mark on the sheet",
			Question: &source.Question{
				Key:      fmt.Sprintf("same-sample|%s|%s", b.listed.Name, sheetOf(t.At)),
				Text:     fmt.Sprintf("%s: is the test in %s of sample %s, or of another casting?", b.listed.Name, t.At.File, marked.sample),
				Choices:  []string{"same sample, older test", "another casting", "ignore this test"},
				Evidence: difference(s.cols[0], marked.cols[0]), Changes: "the casting spread shown for " + b.listed.Name,
				Reach: source.ReachesWords,
			},
		})
		out.asked.Add(p)
		switch {
		case !ok, answer.Is("ignore"):
		case answer.Is("same sample"):
			s.sample, s.date = marked.sample, source.Stated[time.Time]{} // older than every dated one
			older = append(older, s)
		default:
			kept = append(kept, s)
		}
	}
	return append(kept, older...)
}
