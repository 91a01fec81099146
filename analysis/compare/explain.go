package compare

import (
	"fmt"
	"math"
	"strings"

	"flowshelf/analysis/head"
)

// explain writes each entry's sentence and reasons.
func (f *family) explain(c *Comparison) {
	for _, entries := range [][]Entry{c.Ranked, c.Unpriced, c.BelowLine, c.Advertised} {
		for i := range entries {
			e := &entries[i]
			e.Verdict = f.sentence(e)
			e.Reasons = f.reasons(c, e)
		}
	}
	for i := range c.NotRanked {
		if e := c.NotRanked[i].Entry; e != nil {
			e.Verdict = "not ranked: " + c.NotRanked[i].Reason
			e.Reasons = f.reasons(c, e)
		}
	}
}

// sentence is what the counter man can read out: number, price, condition.
func (f *family) sentence(e *Entry) string {
	var parts []string
	flow := "no working average: " + e.Intake.Working.Why
	if e.Intake.Working.Known {
		flow = fmt.Sprintf("%.0f cfm over %s-%s", e.Intake.Working.Value, inches(f.RangeFrom), inches(f.RangeTo))
	}
	switch {
	case e.Grade == GradeD:
		flow = "advertised: " + flow
	case e.Cost.Usable.Known:
		flow += " for " + f.money(e.Cost.Usable.Value.Float()) + " usable"
	case e.Cost.Missing != "":
		flow += "; " + e.Cost.Without() + ": " + e.Cost.Missing
	}
	parts = append(parts, flow, e.Intake.Course())
	if e.SpringsTo.Known {
		parts = append(parts, "springs "+e.SpringsTo.Words)
	}
	if e.Air.Verdict != "" && e.Air.Verdict != "right" {
		parts = append(parts, fmt.Sprintf("air speed %.0f ft/s: %s", e.Air.Speed.Value, e.Air.Verdict))
	}
	return e.Label + ": " + strings.Join(parts, "; ") + "."
}

// reasons say why an entry stands where it stands.
func (f *family) reasons(c *Comparison, e *Entry) []string {
	var out []string
	add := func(format string, args ...any) { out = append(out, fmt.Sprintf(format, args...)) }
	if e.Place.Number > 0 {
		f.placeReasons(c, e, add)
	}
	f.costReasons(e, add)
	f.flowReasons(e, add)
	for _, n := range e.Notes {
		if n.For != head.Neither {
			add("%s: %s", n.For, n.Text)
		}
	}
	return out
}

type adder func(format string, args ...any)

func (f *family) placeReasons(c *Comparison, e *Entry, add adder) {
	if e.Place.Shared {
		add("tied with %s: the difference is inside the noise", list(e.Place.TiedWith))
	}
	if leader := &c.Ranked[0]; leader.Label != e.Label {
		cost := e.Cost.Usable.Value.Float() - leader.Cost.Usable.Value.Float()
		flow := f.moreFlow(e, leader)
		if strings.HasSuffix(flow, insideNoise) {
			flow += ","
		}
		add("against %s: %s and %s", leader.Label, flow, f.dearer(cost))
	}
	if e.BestBuy != nil && len(c.Ranked) > 1 {
		add("best buy while a cfm is worth %s", f.interval(*e.BestBuy))
	}
	if len(e.BeatenBy) > 0 {
		add("beaten by %s: at least as much flow for no more money", list(e.BeatenBy))
	}
	if e.TiePrice.Known {
		words := f.money(e.TiePrice.Value)
		switch e.TieBelow {
		case BelowLanded:
			words += ", below its landed cost of " + f.money(e.Cost.Landed.Value.Float())
		case AboveLanded:
			words += ", above its landed cost of " + f.money(e.Cost.Landed.Value.Float())
		case BelowUnknown:
		}
		add("ties %s at a sell price of %s", c.Ranked[0].Label, words)
	}
}

// insideNoise follows a difference that is none.
const insideNoise = ", inside the noise"

// moreFlow says what an entry flows more than another in working average: "+14
// cfm", "-4 cfm, inside the noise", "the same flow".
func (f *family) moreFlow(e, other *Entry) string {
	more := e.Intake.Working.Value - other.Intake.Working.Value
	if math.Round(more) == 0 {
		return "the same flow"
	}
	return fmt.Sprintf("%+.0f cfm", more) + f.unlessBeyond(more, e.Intake.WorkingU, other.Intake.WorkingU)
}

// unlessBeyond is what follows a difference of two flows in cfm: nothing when it
// is beyond the noise.
func (f *family) unlessBeyond(d, u1, u2 float64) string {
	if Beyond(f.rules, d, u1, u2) {
		return ""
	}
	return insideNoise
}

func (f *family) dearer(cost float64) string {
	switch {
	case math.Abs(cost) < 0.5:
		return "the same price"
	case cost > 0:
		return f.money(cost) + " dearer"
	}
	return f.money(-cost) + " cheaper"
}

// interval words a range of worth.
func (f *family) interval(i Interval) string {
	switch {
	case i.To < 0 && i.From == 0:
		return "anything"
	case i.To < 0:
		return "more than " + f.cents(i.From)
	case i.From == 0:
		return "less than " + f.cents(i.To)
	}
	return f.cents(i.From) + " to " + f.cents(i.To)
}

func (f *family) costReasons(e *Entry, add adder) {
	for _, l := range e.Cost.Lines {
		switch l.Kind {
		case ExtraCost:
			add("needs %s, %s", l.Item, f.money(l.Amount.Float()))
		case SpringCost:
			add("springs %s", e.SpringsTo.Words)
		case ReworkCost:
			add("takes our %s, %s", strings.ToLower(l.Item), f.money(l.Amount.Float()))
		case HeadsCost, FreightCost:
		}
	}
	if e.Bare {
		add("comes bare; the springs we put in %s; check installed height and coil bind", e.SpringsTo.Words)
	}
	for _, x := range e.Extras {
		if allowFor(f, x) {
			words := x.Words
			if words == "" {
				words = "depends on the engine"
			}
			price := ""
			if m, why := f.aSet(x.Price, x.Basis); why == "" {
				price = ", " + f.money(m.Float())
			}
			add("allow for %s%s (%s)", x.Item, price, words)
		}
	}
	if e.Cost.Proposed {
		add("sell price proposed: landed cost / (1 - target margin)")
	}
}

// allowFor reports whether an extra may be needed, by the customer's own engine.
func allowFor(f *family, x head.Extra) bool {
	return !x.Springs && x.Need != head.WhenBare && x.Status == head.Used && !f.applies(x)
}

func (f *family) flowReasons(e *Entry, add adder) {
	in := e.Intake
	if in.BoreNote != "" {
		add("%s", in.BoreNote)
	}
	if in.Spread.Known {
		which := ", " + in.WorstAt + " the worst"
		if in.Spread.Value <= f.rules.SmallestStep.CFM() || in.SpreadPC.Value <= 100*f.rules.Repeatability {
			which = insideNoise
		}
		add("its ports lie up to %.0f cfm (%.1f %%) apart%s", in.Spread.Value, in.SpreadPC.Value, which)
	}
	if e.EI.Known {
		add("exhaust %.0f %% of intake, %s", 100*e.EI.Value, e.EI.Pipe.Words())
	}
	if e.Air.Verdict != "" {
		add("air speed %.0f ft/s at its smallest section: %s", e.Air.Speed.Value, e.Air.Verdict)
	}
	if e.Shape.Known && e.Shape.StallLift > 0 {
		add("stall part of the shape at %s", f.stallWords(e.Shape))
	}
	if in.Ports == 1 && in.Class == head.Own && in.WorkingU > 0 {
		add("one port of one sample: another casting may differ by 2 to 3 %%")
	}
}
