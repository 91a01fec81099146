package compare

import "fmt"

// onlyIf says when another head than the leader is the one to sell: at another
// worth of a cfm, or to a customer who owns what it needs. A head has one line
// with every condition under which it is.
func (f *family) onlyIf(c *Comparison) []string {
	var out []string
	owned := f.owned(c)
	leader := &c.Ranked[0]
	for _, step := range c.Frontier {
		if step.Label == leader.Label {
			continue
		}
		words := fmt.Sprintf("%s only if a cfm is worth %s to the customer", step.Label, f.interval(step.Range))
		if step.Noise {
			words += " (its step in flow is inside the noise)"
		}
		if owns := owned[step.Label]; owns != "" {
			words += ", or " + owns
		}
		delete(owned, step.Label)
		out = append(out, words+".")
	}
	named := 0
	for i := range c.Ranked[1:] {
		e := &c.Ranked[i+1]
		if owns := owned[e.Label]; owns != "" && named < mostLines {
			named++
			out = append(out, fmt.Sprintf("%s only if %s.", e.Label, owns))
		}
	}
	for i := range c.BelowLine {
		e := &c.BelowLine[i]
		if i < mostLines && e.Value.Known && e.Value.Value > leader.Value.Value {
			out = append(out, fmt.Sprintf("%s may be better by its supplier's own sheet; it is not proven until it is flowed here.", e.Label))
		}
	}
	return out
}

// owned says, by label, of the heads that stand behind the leader for want of
// their extras alone what it takes: without what they cost, the leader no longer
// surely beats them.
func (f *family) owned(c *Comparison) map[string]string {
	out := make(map[string]string)
	leader := &c.Ranked[0]
	for i := range c.Ranked {
		e := &c.Ranked[i]
		extras := 0.0
		var items []string
		for _, l := range e.Cost.Lines {
			if l.Kind == ExtraCost {
				extras += l.Amount.Float()
				items = append(items, l.Item)
			}
		}
		if len(items) == 0 || e.Place.Group == leader.Place.Group {
			continue
		}
		spared := *e
		spared.Value.Value += extras
		ahead := ProbabilityBeats(&spared, leader, c.Worth.PerCFM)
		comes := "it ties"
		switch level := f.tieLevel(); {
		case ahead >= level:
			comes = "it comes before"
		case ahead <= 1-level:
			continue
		}
		out[e.Label] = fmt.Sprintf("the customer owns what it needs: without %s of %s %s %s, with %s",
			f.money(extras), list(items), comes, leader.Label, f.moreFlow(e, leader))
	}
	return out
}
