package flowsheet

import (
	"fmt"
	"math"

	"flowshelf/analysis/head"
	"flowshelf/analysis/quantity"
	"flowshelf/analysis/source"
	"flowshelf/ingest/parse"
)

// oversize settles a bore beside which a sheet says how much it is over: "4.000 bore,
// .030 over" is a block's bore and what was taken off it, 4.030; "4.030 bore, .030
// over" is what it came to. The engine's own bore tells the two apart, else which of
// the two is a figure that engines are made to; where neither does, it is asked.
func (b *builder) oversize(s *series, bore source.Stated[quantity.Length], out *head.Test) {
	over, ok := s.facts.over.one()
	whole, under := bore.Value+over.Value, bore.Value-over.Value
	own, known := b.r.engineBore(out.Head)
	isBase, isWhole := near(bore.Value, own), near(under, own)
	if !known {
		standard, listed := b.r.familyBore(out.Head) // which the shop flows on, perhaps bored already
		isBase, isWhole = isRound(bore.Value), isRound(under) || listed && near(under, standard)
	}
	switch {
	case !ok || isBase == isWhole:
		b.askOversize(s, bore, over, out)
	case isBase:
		out.Bore = source.Say(whole, bore.Trace.Then(fmt.Sprintf("%s in + %s in over", parse.Digits(bore.Value.In()), parse.Digits(over.Value.In()))))
		b.p.note(bore.Trace.At, kindBoreOver, out.Head, over.Trace.Text, fmt.Sprintf("the bore is taken for that of the block before it was bored: %.3f in with what it is over", whole.In()))
	default:
		out.Bore = bore
	}
}

// askOversize asks which bore it was when what it is over does not fit it.
func (b *builder) askOversize(s *series, bore, over source.Stated[quantity.Length], out *head.Test) {
	at := b.page.Ref(s.at)
	q := boreQuestion(key("bore over", oneCell(out.Head, at, cellText(s.at))), "On which bore, in inches, was this flowed?")
	q.Evidence = "the sheet states a bore and what it is over, and not whether the one is in the other"
	q.Choices = []string{fmt.Sprintf("%.3f", bore.Value.In())}
	if over.Known {
		q.Choices = append(q.Choices, fmt.Sprintf("%.3f", (bore.Value+over.Value).In()))
	}
	answer, ok := b.p.ask(at, kindBoreClash, out.Head, bore.Trace.Text, "a bore is stated and what it is over; it is not sure whether the one is in the other", q)
	if !ok {
		return
	}
	figure := answer.Figure
	for _, choice := range []quantity.Length{bore.Value, bore.Value + over.Value} {
		if answer.Choice == fmt.Sprintf("%.3f", choice.In()) {
			figure = choice.In()
		}
	}
	out.Bore = source.Say(quantity.Inches(figure), answer.Trace("in"))
}

// near reports whether two bores are one to the last figure that is written.
func near(a, b quantity.Length) bool { return math.Abs(a.In()-b.In()) < 0.0015 }

// isRound reports whether a bore is a multiple of an eighth or a tenth of an inch, as
// most blocks are made to (common practice, no source).
func isRound(bore quantity.Length) bool {
	const most = 0.0005
	for _, step := range []float64{0.125, 0.1} {
		if n := bore.In() / step; math.Abs(n-math.Round(n))*step < most {
			return true
		}
	}
	return false
}

// engineBore returns the bore that the engines of a head's family are made with.
func (r *reader) engineBore(headName string) (quantity.Length, bool) {
	for _, f := range r.about.Shop.Families {
		if listed, ok := r.names.listed[headName]; ok && f.Name == listed.Family && f.EngineBore.Known {
			return f.EngineBore.Value, true
		}
	}
	return 0, false
}
