package compare

import (
	"cmp"
	"fmt"
	"slices"
	"strings"

	"flowshelf/analysis/head"
	"flowshelf/analysis/quantity"
	"flowshelf/analysis/source"
)

// answerReadings lets answers decide over a column: at which pressure or in
// which unit it was taken, and what single readings should be. Nothing on a
// sheet is changed; a corrected reading keeps what stood there and says who
// corrected it.
func (f *family) answerReadings(b *bundle, c *column, valve source.Stated[quantity.Length], valves int) *column {
	if f.answers.Len() == 0 {
		return c
	}
	c = f.answerPressure(b, c, valve, valves)
	for _, bad := range c.impossible {
		f.answerImpossible(b, c, bad, valve, valves)
	}
	for _, p := range f.kinks(b, c) {
		if noted, answer, ok := f.answered(p); ok {
			f.answerOdd(c, noted, answer)
		}
	}
	return c
}

// answerPressure redoes a column that was taken at another pressure, or in
// another unit, than its sheet says.
func (f *family) answerPressure(b *bundle, c *column, valve source.Stated[quantity.Length], valves int) *column {
	for _, p := range f.lowPressure(b, c) {
		noted, answer, ok := f.answered(p)
		if !ok {
			continue
		}
		redone := *c.test
		redone.Readings = slices.Clone(c.test.Readings)
		switch {
		case answer.Is("at 10"):
			redone.Pressure = source.Say(quantity.InchesOfWater(10), answer.Trace("inH2O"))
			for i := range redone.Readings {
				redone.Readings[i].Row = nil
			}
		case answer.Is("in L/s"):
			for i := range redone.Readings {
				r := &redone.Readings[i]
				r.Flow.Value = quantity.LitresPerSecond(r.Flow.Value.CFM())
				r.Flow.Trace = r.Flow.Trace.Then("read in L/s: x 2.118880 = cfm")
			}
		}
		for i := range redone.Readings {
			redone.Readings[i].Flow.Trace.Answered = answer.Per()
		}
		c = f.column(&redone, valve, valves)
		c.answered.Add(noted)
	}
	return c
}

// answerImpossible takes an impossible reading for what somebody says it should
// be, if that can be.
func (f *family) answerImpossible(b *bundle, c *column, bad impossible, valve source.Stated[quantity.Length], valves int) {
	p := f.refused(b, c, bad)[1]
	noted, answer, ok := f.answered(p)
	if !ok {
		return
	}
	at := bad.used.Reading.Flow.Trace.At
	step := "left out, " + answer.Per()
	if !answer.Is(leaveOut) {
		r := retyped(bad.used.Reading, answer)
		used := Used{Test: c.test, Reading: &r, Flow: r.Flow.Value * quantity.Flow(bad.factor), Steps: bad.used.Steps}
		if _, over := f.overCeiling(c.test, used.Flow, r.Lift.Value, valve, valves); over {
			return // still more than the valve can pass: the question stays
		}
		step = ""
		c.points = append(c.points, LiftPoint{Lift: r.Lift.Value, Flow: used.Flow, From: []Used{used}, Remark: r.Remark})
		slices.SortStableFunc(c.points, func(a, b LiftPoint) int { return cmp.Compare(a.Lift, b.Lift) })
		c.points = sameLiftOnce(c.points)
		c.why = ""
	}
	c.impossible = slices.DeleteFunc(slices.Clone(c.impossible), func(x impossible) bool { return x.used.Reading == bad.used.Reading })
	c.aside = slices.DeleteFunc(c.aside, func(u Used) bool { return u.Reading == bad.used.Reading })
	if step != "" {
		c.leaveOut(bad.used, step)
	}
	noted.At = at
	c.answered.Add(noted)
}

// answerOdd does what somebody says of a reading off the line of its neighbours.
func (f *family) answerOdd(c *column, noted source.Problem, answer head.Reply) {
	i := slices.IndexFunc(c.points, func(p LiftPoint) bool { return p.From[0].Reading.Flow.Trace.At == noted.At })
	if i < 0 {
		return
	}
	used := c.points[i].From[0]
	switch {
	case answer.Is(leaveOut):
		c.points = slices.Delete(slices.Clone(c.points), i, i+1)
		c.leaveOut(used, "left out, "+answer.Per())
	case answer.Choice == "":
		r := retyped(used.Reading, answer)
		factor := float64(used.Flow / used.Reading.Flow.Value)
		c.points = slices.Clone(c.points)
		c.points[i].Flow = r.Flow.Value * quantity.Flow(factor)
		c.points[i].From = []Used{{Test: used.Test, Reading: &r, Flow: c.points[i].Flow, Steps: used.Steps}}
	default:
		r := *used.Reading
		r.Flow.Trace.Answered = answer.Per()
		c.points = slices.Clone(c.points)
		c.points[i].From = slices.Clone(c.points[i].From)
		c.points[i].From[0].Reading = &r
	}
	c.answered.Add(noted)
}

// retyped is a reading with the figure that somebody says should stand there, in
// the unit of the sheet.
func retyped(r *head.Reading, answer head.Reply) head.Reading {
	out := *r
	a := 1.0
	if stood := parsed(strings.TrimSpace(r.Flow.Trace.Text)); stood > 0 && r.Flow.Value > 0 {
		a = r.Flow.Value.CFM() / stood
	}
	out.Flow.Value = quantity.CFM(answer.Figure * a)
	out.Flow.Trace = r.Flow.Trace.Then(fmt.Sprintf("%s read as %s", reading(r), number(answer.Figure)))
	out.Flow.Trace.Answered = answer.Per()
	return out
}

// isSettled reports whether somebody has said what a reading should be.
func (c *column) isSettled(at source.Ref) bool {
	return slices.ContainsFunc(c.answered, func(p source.Problem) bool { return p.At == at && p.Kind == "odd-reading" })
}

// What is taken for a reading, in the unit of the sheet.
const leastTyped, mostTyped = 0.1, 5000

// typedReading lets a question about a reading be answered by a figure.
func typedReading(q *source.Question) {
	q.Wants, q.Least, q.Most = source.AFigure, leastTyped, mostTyped
}
