package flowsheet

import (
	"fmt"
	"math"
	"strconv"

	"flowshelf/analysis/head"
	"flowshelf/analysis/quantity"
	"flowshelf/analysis/source"
	"flowshelf/ingest/parse"
)

// askRun asks about a run that lies off the others.
func (b *builder) askRun(t *head.Test, gap float64) {
	answer, ok := b.p.ask(t.At, kindRunDiffers, t.Head, "", fmt.Sprintf("run %s lies %+.1f %% from the other runs", t.Run, 100*gap), source.Question{
		Key: key("odd-run", t.At.String(), t.Run), Text: t.Head + ": leave run " + t.Run + " out?", Choices: []string{"keep it", leaveOut},
		Evidence: fmt.Sprintf("%+.1f %% over the whole curve", 100*gap), Changes: "the mean of the runs"})
	if ok && answer.Is(leaveOut) {
		t.Status, t.Why = head.SetAside, "a run that lies off the others; left out, "+answer.Per()
	}
}

// askPressures asks which of two blocks stands that were read at two pressures
// and do not agree; until then the one nearest to 28 inH2O does.
func (b *builder) askPressures(t, kept *head.Test, apart float64) {
	mine, theirs := parse.Digits(t.Pressure.Value.InH2O())+" inH2O", parse.Digits(kept.Pressure.Value.InH2O())+" inH2O"
	answer, ok := b.p.ask(t.At, kindOtherPressure, t.Head, "", fmt.Sprintf("the blocks at two pressures do not agree: %.0f %% apart", 100*apart), source.Question{
		Key: key("two pressures", b.page.Path, b.page.Sheet.Name, t.Head, t.Port.String(), t.At.Cell), Text: "Two blocks at two pressures do not agree: which one stands?",
		Choices: []string{theirs, mine}, Evidence: fmt.Sprintf("%.1f %% from the square-root law", 100*apart), Changes: "which curve is used"})
	if !ok {
		return
	}
	stands := kept
	if answer.Is(mine) {
		stands = t
		t.Status, t.Why = head.Used, ""
		kept.Status, kept.Why = head.SetAside, "the block at the other pressure stands, "+answer.Per()
	}
	stamp(stands, answer)
}

// stamp shows with every reading of a test who answered a question about it.
func stamp(t *head.Test, answer head.Reply) {
	for i := range t.Readings {
		mark(&t.Readings[i], answer)
	}
}

// The choices about columns that nothing tells apart.
const (
	repeatsOfOne = "repeats of one port"
	twoPorts     = "two ports"
	firstStands  = "the first stands"
	secondStands = "the second stands"
	noneStands   = "leave them out"
)

// askRepeats asks what tests are that nothing tells apart. Until it is answered
// none of them is used.
func (b *builder) askRepeats(at source.Ref, tests []*head.Test, message, evidence string, why func(i int) string) {
	name := tests[0].Head
	answer, ok := b.p.ask(at, kindRepeats, name, "", message, source.Question{
		Key: key("repeats", b.page.Path, b.page.Sheet.Name, name), Text: "What are these columns: repeats, or several ports?",
		Choices:  []string{repeatsOfOne, twoPorts, firstStands, secondStands, noneStands},
		Evidence: evidence, Changes: "none is used until answered"})
	for i, t := range tests {
		switch {
		case !ok:
			t.Status, t.Why = head.Asked, why(i)
		case answer.Is(repeatsOfOne):
			t.Status, t.Why, t.Run = head.Used, "", strconv.Itoa(i+1)
			stamp(t, answer)
		case answer.Is(twoPorts):
			t.Status, t.Why, t.PortMark = head.Used, "", strconv.Itoa(i+1)
			stamp(t, answer)
		case answer.Is(firstStands) && i == 0, answer.Is(secondStands) && i == 1:
			t.Status, t.Why = head.Used, ""
			stamp(t, answer)
		default:
			t.Status, t.Why = head.SetAside, "left out, "+answer.Per()
		}
	}
}

// askScale returns how the percent scale of the bench is divided: as the setup
// says, else as answered.
func (b *builder) askScale(s *series, out *head.Test) head.RangeScale {
	if scale := b.r.scale(out); scale != head.ScaleNotStated {
		return scale
	}
	if scale, ok := b.scaleStated(); ok {
		return scale
	}
	answer, ok := b.p.ask(b.page.Ref(s.at), kindScale, out.Head, "", "it is not set how this bench's percent scale is divided", source.Question{
		Key: key("scale", b.sender), Text: "Is this bench's percent scale linear in flow or in pressure?",
		Choices: []string{"linear in flow", "linear in pressure"}, Changes: "every reading of the bench waits for it"})
	if !ok {
		return head.ScaleNotStated
	}
	s.answeredBy(answer.Trace(""))
	if answer.Is("linear in pressure") {
		return head.LinearInPressure
	}
	return head.LinearInFlow
}

// linearInPressure takes a flow that was read off a scale as percent of flow for
// what a scale linear in pressure means: q = full x sqrt(percent / 100), since an
// orifice passes the square root of its pressure drop (Bernoulli).
func linearInPressure(flow source.Stated[quantity.Flow], percent float64) source.Stated[quantity.Flow] {
	if !flow.Known || percent <= 0 {
		return flow
	}
	share := percent / 100
	flow.Value = quantity.Flow(float64(flow.Value) * math.Sqrt(share) / share)
	flow.Trace = flow.Trace.Then("scale linear in pressure: square root of the share")
	return flow
}

// askCalibration asks at which pressure flows are whose ranges were calibrated
// at another one than the test's.
func (b *builder) askCalibration(s *series, out *head.Test, at source.Trace) bool {
	answer, ok := b.p.ask(at.At, kindCalibration, out.Head, at.Text, "the ranges were calibrated at another pressure than the test's", source.Question{
		Key: key("calibration pressure", b.sender, b.form), Text: "The ranges were calibrated at another pressure than the test's: at which pressure are these flows?",
		Wants: source.AFigure, Unit: "inH2O", Least: lowestInH2O, Most: highestInH2O, Changes: "every reading of the sheet waits for it"})
	if ok {
		s.facts.pressure = said[quantity.Pressure]{source.Say(quantity.InchesOfWater(answer.Figure), answer.Trace("inH2O"))}
	}
	return ok
}
