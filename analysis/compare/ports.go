package compare

import (
	"fmt"
	"slices"
	"strings"
	"time"

	"flowshelf/analysis/curve"
	"flowshelf/analysis/head"
	"flowshelf/analysis/quantity"
	"flowshelf/analysis/source"
)

// columns brings the tests of one port to the reference pressure.
func (f *family) columns(b *bundle, tests []*head.Test, port head.Port) []*column {
	var cols []*column
	for _, t := range tests {
		if t.Port != port {
			continue
		}
		valve := t.Valve
		if d := b.dimensions; d != nil {
			if !valve.Known && port == head.Intake {
				valve = d.IntakeValve
			} else if !valve.Known {
				valve = d.ExhaustValve
			}
		}
		cols = append(cols, f.answerReadings(b, f.column(t, valve, valvesOf(b)), valve, valvesOf(b)))
	}
	return cols
}

// intake draws the intake curve, and finds what holds the head.
func (f *family) intake(x *built, tests []*head.Test) {
	b := x.bundle
	cols := barePorts(f.columns(b, tests, head.Intake))
	usable := usableColumns(cols)
	if len(usable) == 0 {
		for _, c := range cols {
			x.problems = append(x.problems, f.oddities(b, c)...)
			if x.out != nil && x.out.Held {
				continue // what an answer would bring in is said before what none would
			}
			x.out = &NotRanked{Reason: c.why, Missing: []string{missingFor(c)}, Held: len(c.impossible) > 0 || c.waits}
		}
		return
	}
	x.problems = append(x.problems, f.unused(b, cols)...)
	c := f.choose(b, usable)
	x.problems = append(x.problems, c.asked...)
	if len(c.pair) == 0 {
		x.out = &NotRanked{Reason: "its tests wait for an answer in Questions.xlsx", Held: true}
		return
	}
	x.sessions = append(slices.Clone(c.pair), c.earlier...)
	x.entry.Intake, x.problems = f.port(b, c, head.Intake, x.problems)
	x.entry.Earlier = f.history(c, x.entry.Intake)
	if held := f.held(x, c); held != "" {
		x.out = &NotRanked{Reason: held, Held: true}
	}
}

// missingFor names what would bring a column in.
func missingFor(c *column) string {
	switch {
	case c.waits:
		return "an answer in Questions.xlsx"
	case strings.Contains(c.why, "pressure"):
		return "test pressure"
	}
	return "readings"
}

// port draws one port from the sessions chosen for it.
func (f *family) port(b *bundle, c choice, port head.Port, problems source.Problems) (*PortResult, source.Problems) {
	x := f.atBore(b, c.pair, port)
	r := f.portResult(b, x, port)
	problems = append(problems, x.asked...)
	for _, s := range append(slices.Clone(c.pair), c.earlier...) {
		for _, col := range s.cols {
			problems = append(problems, f.oddities(b, col)...)
		}
	}
	return r, problems
}

// held says why an intake waits: an impossible reading, a contradiction, or a
// bench that was off.
func (f *family) held(x *built, c choice) string {
	if c.held != "" {
		return c.held
	}
	for _, s := range c.pair {
		for _, col := range s.cols {
			if len(col.impossible) > 0 {
				bad := col.impossible[0]
				x.entry.Intake.Working = unknown("held: the reading at %s is refused", inches(bad.used.Reading.Lift.Value))
				return fmt.Sprintf("the intake reading at %s cannot be: %.0f cfm, where the valve can pass %.0f; it waits for an answer in Questions.xlsx",
					inches(bad.used.Reading.Lift.Value), bad.used.Flow.CFM(), bad.ceiling.CFM())
			}
			if _, held := f.benchFlag(col.test); held != "" {
				return held
			}
		}
	}
	return ""
}

// exhaust draws the exhaust curve: with a pipe where it was flowed so, and the
// others kept apart.
func (f *family) exhaust(x *built, tests []*head.Test) {
	cols := f.columns(x.bundle, tests, head.Exhaust)
	x.problems = append(x.problems, f.unused(x.bundle, cols)...)
	cols = usableColumns(cols)
	by := make(map[head.Pipe][]*column)
	for _, c := range cols {
		by[c.test.Pipe] = append(by[c.test.Pipe], c)
	}
	draw := func(pipe head.Pipe) *PortResult {
		c := f.choose(x.bundle, by[pipe])
		x.problems = append(x.problems, c.asked...)
		if len(c.pair) == 0 {
			return nil
		}
		var r *PortResult
		r, x.problems = f.port(x.bundle, c, head.Exhaust, x.problems)
		return r
	}
	for _, pipe := range []head.Pipe{head.WithPipe, head.PipeNotStated, head.WithoutPipe} {
		if len(by[pipe]) == 0 {
			continue
		}
		switch {
		case x.entry.Exhaust == nil:
			x.entry.Exhaust = draw(pipe)
		case pipe == head.WithoutPipe:
			x.entry.NoPipe = draw(pipe)
		}
	}
}

// unused notes the tests that no curve can be drawn through.
func (f *family) unused(b *bundle, cols []*column) source.Problems {
	var found source.Problems
	for _, c := range cols {
		if c.why != "" {
			found.Add(f.noted(b, c.test.At, "test-not-used", fmt.Sprintf("the %s test is not used: %s", c.test.Port, c.why)))
		}
	}
	return found
}

func usableColumns(cols []*column) []*column {
	return slices.DeleteFunc(slices.Clone(cols), func(c *column) bool { return c.why != "" || len(c.points) == 0 })
}

// barePorts leaves tests through a manifold out where the port was also flowed
// bare: the bare port is what is compared.
func barePorts(cols []*column) []*column {
	bare := slices.DeleteFunc(slices.Clone(cols), func(c *column) bool { return throughManifold(c.test) })
	if len(bare) == 0 {
		return cols
	}
	return bare
}

func throughManifold(t *head.Test) bool {
	return strings.Contains(strings.ToLower(t.Entry), "manifold")
}

// history says in words what earlier samples and tests of the head read.
func (f *family) history(c choice, now *PortResult) []string {
	var out []string
	for _, s := range c.earlier {
		points := f.average(&bundle{}, s).points
		line, err := curve.New(plain(points))
		if err != nil {
			continue
		}
		mean := f.mean(line, f.RangeFrom, f.RangeTo)
		words := sessionWords(s)
		if !mean.Known {
			out = append(out, words+": "+mean.Why)
			continue
		}
		words += fmt.Sprintf(": %.0f cfm", mean.Value)
		if now.Working.Known && now.Working.Value > 0 {
			words += fmt.Sprintf(" (%+.1f %%%s)", 100*(mean.Value/now.Working.Value-1),
				f.unlessBeyond(mean.Value-now.Working.Value, now.WorkingU, now.WorkingU*mean.Value/now.Working.Value))
		}
		if !sameBore(s.bore, now.Bore) && s.bore.Known {
			words += ", on " + f.size(s.bore.Value)
		}
		for _, col := range s.cols {
			if flag, _ := f.benchFlag(col.test); flag.Code != "" {
				words += "; " + flag.Words
				break
			}
		}
		out = append(out, words)
	}
	return out
}

func sessionWords(s session) string {
	var words []string
	if s.sample != "" {
		words = append(words, "sample "+s.sample)
	}
	if s.date.Known {
		words = append(words, s.date.Value.Format(time.DateOnly))
	}
	if len(words) == 0 {
		return "an undated test"
	}
	return strings.Join(words, ", ")
}

// flowNear is the flow a curve has at a lift, from the readings around it.
func flowNear(points []LiftPoint, lift quantity.Length) (quantity.Flow, bool) {
	line, err := curve.New(plain(points))
	if err != nil {
		return 0, false
	}
	return line.At(lift)
}
