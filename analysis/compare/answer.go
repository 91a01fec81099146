package compare

import (
	"fmt"
	"slices"

	"github.com/shopspring/decimal"

	"flowshelf/analysis/head"
	"flowshelf/analysis/quantity"
	"flowshelf/analysis/source"
)

// answered returns a problem as it stands once its question has been answered:
// noted with the answer, which whoever asked uses. Without an answer the problem
// comes back as it is.
func (s *shelf) answered(p source.Problem) (source.Problem, head.Reply, bool) {
	answer, ok := s.answers.Reply(*p.Question)
	if ok {
		p.Severity, p.Hint = source.Noted, ""
		p.Message += "; answered “" + answer.Said() + "”, " + answer.Per()
	}
	return p, answer, ok
}

// leaveOut is the choice by which a reading, a run or a line of a sum is not
// used.
const leaveOut = "leave it out"

// askPrice asks what something costs a set. It may be answered by a figure,
// which becomes a line of the sum, or by leaving it out; until then the sum is
// not known, for the reason given.
func (f *family) askPrice(c *Cost, p *source.Problem, line CostLine, why string) source.Problem {
	p.Question.Text = fmt.Sprintf("%s. What does %s come to a set, in %s?", capital(p.Message), line.Item, f.currency())
	p.Question.Choices, p.Question.Wants, p.Question.Unit = []string{leaveOut}, source.AFigure, f.currency()
	noted, answer, ok := f.answered(*p)
	switch {
	case !ok:
		c.missing(why, APrice)
	case answer.Choice == "":
		line.Amount = quantity.Of(decimal.NewFromFloat(answer.Figure), f.currency())
		line.Trace = answer.Trace(f.currency() + " a set")
		c.Lines = append(c.Lines, line)
	}
	return noted
}

// maxLiftQuestion asks how far the fitted springs go.
func maxLiftQuestion(name string) source.Question {
	const most = 1.5
	return source.Question{Key: "max-lift-not-stated|" + name, Text: fmt.Sprintf("To which lift, in inches, are the fitted springs of %s good by the maker's statement?", name),
		Wants: source.AFigure, Unit: "in", Least: 0.1, Most: most, Changes: "the usable cost and the place of " + name}
}

// springsAnswered fills in what somebody has said of a head's springs, where its
// dimensions do not state it.
func (s *shelf) springsAnswered(b *bundle) {
	answer, ok := s.answers.Reply(maxLiftQuestion(b.listed.Name))
	if !ok || b.dimensions != nil && b.dimensions.MaxLift.Known {
		return
	}
	d := head.Dimensions{Head: b.listed.Name, At: b.listed.At}
	if b.dimensions != nil {
		d = *b.dimensions
	}
	d.MaxLift = source.Say(quantity.Inches(answer.Figure), answer.Trace("in"))
	b.dimensions = &d
}

// dropAnswered leaves out of repeats the runs that somebody has said to leave
// out.
func (f *family) dropAnswered(b *bundle, group []*column) ([]*column, source.Problems) {
	var noted source.Problems
	kept := slices.DeleteFunc(slices.Clone(group), func(c *column) bool {
		p, answer, ok := f.answered(f.runProblem(b, c))
		if ok && answer.Is(leaveOut) {
			noted.Add(p)
		}
		return ok && answer.Is(leaveOut)
	})
	if len(kept) == 0 {
		return group, nil // no curve is made of nothing
	}
	return kept, noted
}

// standsOut leaves an entry out because an answer says so.
func (x *built) standsOut(answer head.Reply) {
	e := &x.entry
	if x.out == nil {
		x.out = &NotRanked{Head: e.Head, State: e.State, Label: e.Label, Reason: "left out, " + answer.Per(), Entry: e}
	}
}
