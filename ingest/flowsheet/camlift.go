package flowsheet

import (
	"fmt"
	"math"
	"regexp"
	"slices"

	"flowshelf/analysis/head"
	"flowshelf/analysis/quantity"
	"flowshelf/analysis/source"
	"flowshelf/ingest/decode"
	"flowshelf/ingest/parse"
	"flowshelf/ingest/words"
)

// mostCM is how far a valve opens at most, in centimetres.
const mostCM = 2.6

// The ratios of rocker arms (common practice, no source).
const leastRatio, mostRatio = 1, 2.5

// atCam reports whether a label names the lift of the cam, which a rocker arm makes
// another one at the valve.
func atCam(label string) bool {
	return !multiplied.MatchString(label) && slices.ContainsFunc(words.Warnings().Find(words.Tokens(label)), func(h words.Hit) bool { return h.Role == words.AtCam })
}

// multiplied is a ratio that the sheet has multiplied in: "Gross lift (lobe x 1.6)".
var multiplied = regexp.MustCompile(`(?i)[x×*]\s*\d`)

// askRatio asks what makes the lift of the valve of a lift of the cam.
func (b *builder) askRatio(t *table) (source.Stated[float64], bool) {
	at := b.page.Ref(t.lead.label)
	answer, ok := b.p.ask(at, kindLiftUnit, "", cellText(t.lead.label), "the lifts are those of the cam and not of the valve", source.Question{
		Key: key("rocker ratio", b.page.Path, b.page.Sheet.Name, at.Cell), Text: "With which rocker ratio do these lifts become lifts of the valve?",
		Wants: source.AFigure, Least: leastRatio, Most: mostRatio, Evidence: cellText(t.lead.label), Changes: "every reading of the table waits for it"})
	if !ok {
		return source.Stated[float64]{}, false
	}
	return source.Say(answer.Figure, answer.Trace("")), true
}

// notOfCam leaves out the lists of lifts of the cam that stand beside one of lifts of
// the valve.
func notOfCam(all []axis) []axis {
	return slices.DeleteFunc(all, func(a axis) bool {
		return atCam(a.label.Text) && slices.ContainsFunc(all, func(o axis) bool {
			return o.plane.Swapped == a.plane.Swapped && o.col != a.col && o.sure >= labelled && !atCam(o.label.Text) && overlap(a, o)
		})
	})
}

// sameLift is how far one lift in two units may be apart, in inches.
const sameLift = 0.006

// otherLifts asks about readings whose lift stands in two columns in two units that do
// not agree.
func (b *builder) otherLifts(t *table, out *head.Test) {
	for col := max(1, t.axis.col-2); col <= t.right; col++ {
		if col == t.axis.col || t.isFlowLane(col) {
			continue
		}
		label := t.plane().At(t.lead.first()-1, col)
		unit, ok := parse.FindLiftUnit(label.Text)
		if !ok || unit == parse.LiftOverDiameter || atCam(label.Text) || !isLiftLabel(label) && !unitsOnly(label) {
			continue
		}
		var apart []entry
		agree := 0
		for _, e := range t.axis.entries {
			at := slices.IndexFunc(out.Readings, func(r head.Reading) bool { return r.Lift.Known && r.Lift.Trace.At == b.page.Ref(e.cell) })
			other, ok := otherLift(t.plane().At(e.row, col), unit)
			switch {
			case !ok || at < 0:
			case math.Abs(out.Readings[at].Lift.Value.In()-other.In()) > sameLift:
				apart = append(apart, e)
			default:
				agree++
			}
		}
		if agree < len(apart) {
			continue // no lifts: "In" over the readings of the intake
		}
		for _, e := range apart {
			c := t.plane().At(e.row, col)
			other, _ := otherLift(c, unit)
			for i := range out.Readings {
				if r := &out.Readings[i]; r.Status == head.Used && r.Lift.Trace.At == b.page.Ref(e.cell) {
					b.askOtherLift(r, c.Text, b.page.Ref(c), other, out.Head)
				}
			}
		}
	}
}

func otherLift(c decode.Cell, unit parse.LiftUnit) (quantity.Length, bool) {
	x, ok := figure(c)
	if !ok {
		return 0, false
	}
	l, _, known := unit.Length(x)
	return l, known
}

func (t *table) isFlowLane(col int) bool {
	return slices.ContainsFunc(t.lanes, func(ln *lane) bool { return ln.col == col && ln.role == laneFlow })
}

func (b *builder) askOtherLift(r *head.Reading, text string, at source.Ref, other quantity.Length, headName string) {
	choices := []string{parse.Digits(round3(r.Lift.Value.In())) + " in", parse.Digits(round3(other.In())) + " in"}
	answer, ok := b.p.ask(at, kindLiftUnit, headName, text, fmt.Sprintf("the lift in cell %s and the one in cell %s are not the same", r.Lift.Trace.At.Cell, at.Cell), source.Question{
		Key: key("two lifts", oneCell(headName, at, text)), Text: "At which lift was this row read?", Choices: choices,
		Evidence: "the row states two lifts", Changes: "the curve at this lift"})
	switch {
	case !ok:
		demote(r, head.Asked, "its row states two lifts that do not agree")
	case answer.Is(choices[0]):
		mark(r, answer)
	default:
		trace := r.Lift.Trace
		trace.Answered = answer.Per()
		r.Lift = source.Say(other, trace)
		mark(r, answer)
	}
}

func round3(x float64) float64 { return math.Round(1000*x) / 1000 }
