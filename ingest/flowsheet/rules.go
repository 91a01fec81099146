package flowsheet

import (
	"fmt"
	"math"
	"regexp"
	"strings"

	"flowshelf/analysis/head"
	"flowshelf/analysis/quantity"
	"flowshelf/analysis/source"
	"flowshelf/ingest/decode"
	"flowshelf/ingest/parse"
	"flowshelf/ingest/words"
)

// tableRule looks at the lanes of a table together, before they are read.
type tableRule func(b *builder, t *table)

// tableRules are tried in this order.
func tableRules() []tableRule {
	return []tableRule{manometers, byFormula, loneLane, averagesOfLanes, meansByFigures, underOnePort, bareNumbers, bandsWithout, observedBesideCorrected, unlabelledLanes}
}

// byFormula unmasks columns that only summarise others.
func byFormula(_ *builder, t *table) {
	for _, ln := range t.lanes {
		if ln.role != laneFlow && ln.role != laneUnknown {
			continue
		}
		n, sums, gaps := 0, 0, 0
		for _, e := range t.axis.entries {
			c := t.plane().At(e.row, ln.col)
			if c.Blank() {
				continue
			}
			n++
			switch kind, _ := parse.Formula(c.Formula); kind {
			case parse.Aggregate:
				sums++
			case parse.Difference:
				gaps++
			default:
			}
		}
		switch {
		case n > 0 && gaps == n:
			ln.role, ln.why = laneSummary, "the sheet's own difference"
		case n > 0 && sums == n:
			ln.role, ln.why = laneAverage, "the sheet's own average"
		}
	}
}

// loneLane takes the only column beside the lifts for readings when the lines
// around name its port, though no header stands over it.
func loneLane(b *builder, t *table) {
	if len(t.lanes) != 1 || t.lanes[0].role != laneUnknown || len(t.lanes[0].headers) > 0 {
		return
	}
	_, all := b.scoped(t, t.lanes[0].facts)
	if _, ok := all.port.one(); ok {
		t.lanes[0].role, t.lanes[0].why = laneFlow, ""
	}
}

// averagesOfLanes sets an average aside when the lanes it is the mean of stand
// beside it; an average that stands alone is the curve.
func averagesOfLanes(b *builder, t *table) {
	for i, ln := range t.lanes {
		if ln.role != laneAverage {
			continue
		}
		members := t.membersOf(i)
		if len(members) < 2 && t.meanOfBefore(i) {
			ln.role = laneSummary
			continue
		}
		if len(members) < 2 {
			ln.role, ln.why = laneFlow, ""
			continue
		}
		ln.role = laneSummary
		b.checkAverage(t, ln, members)
	}
}

// membersOf returns the marked lanes an average speaks of: those before it, of
// its own port when it names one.
func (t *table) membersOf(at int) []*lane {
	var out []*lane
	avg := t.lanes[at]
	for i := at - 1; i >= 0; i-- {
		ln := t.lanes[i]
		if ln.role != laneFlow || len(ln.facts.mark)+len(ln.facts.run) == 0 {
			if len(out) > 0 || ln.role == laneFlow {
				break
			}
			continue
		}
		if p, ok := avg.facts.port.one(); ok && len(ln.facts.port) > 0 && !ln.facts.port.has(p.Value) {
			continue
		}
		if len(out) > 0 && len(out[0].facts.port) > 0 && len(ln.facts.port) > 0 && out[0].facts.port[0].Value != ln.facts.port[0].Value {
			break
		}
		out = append(out, ln)
	}
	return out
}

// checkAverage notes where the sheet's average is more than 1 cfm from ours.
func (b *builder) checkAverage(t *table, avg *lane, members []*lane) {
	for _, e := range t.axis.entries {
		given := t.plane().At(e.row, avg.col)
		sum, n := 0.0, 0
		for _, m := range members {
			if c := t.plane().At(e.row, m.col); c.Kind == decode.Number {
				sum += c.Num
				n++
			}
		}
		if given.Kind != decode.Number || n != len(members) {
			continue
		}
		if ours := sum / float64(n); math.Abs(ours-given.Num) > 1 {
			b.p.note(b.page.Ref(given), kindAverageDiffers, "", cellText(given),
				fmt.Sprintf("the sheet's average is not the mean of its columns, which is %.1f; ours is used", ours))
		}
	}
}

// bandOver finds over what a header says that its smallest or largest is taken.
var bandOver = regexp.MustCompile(`(?i)\b(cyl(inder)?s?|ports?|runs?|castings?|samples?|zylindern?)\b`)

// bandsWithout asks once what smallest and largest are taken over.
func bandsWithout(b *builder, t *table) {
	for _, ln := range t.lanes {
		if ln.role != laneBand {
			continue
		}
		if bandOver.MatchString(cellText(ln.headers[len(ln.headers)-1])) {
			return
		}
		at := b.page.Ref(ln.headers[len(ln.headers)-1])
		b.p.ask(at, kindBandMeaning, "", cellText(ln.headers[len(ln.headers)-1]), "a smallest, largest or spread is given; it is not said over what", source.Question{
			Key: key("band", b.sender), Text: "Over what are the smallest and largest of " + b.sender + " taken?",
			Choices: []string{"cylinders", "runs", "castings"}, Changes: "how the band is shown; the average is used either way"})
		return
	}
}

// observedBesideCorrected keeps the corrected one of a pair; readings "as
// read" that stand alone are the curve.
func observedBesideCorrected(b *builder, t *table) {
	for _, ln := range t.lanes {
		if ln.role != laneObserved {
			continue
		}
		other := t.corrected(ln)
		if other == nil {
			ln.role, ln.why = laneFlow, ""
			continue
		}
		ln.role = laneSummary
		ln.why = "as observed; the corrected column beside it is used"
		b.p.setAside(b.page.Ref(firstCell(ln.headers, nil)), kindObserved, "", cellText(ln.headers[0]), "the observed column is set aside, the corrected one is used")
		b.checkCorrection(t, ln, other)
	}
}

func (t *table) corrected(observed *lane) *lane {
	for _, o := range t.lanes {
		if o.role != laneFlow || !o.facts.is(words.Corrected) {
			continue
		}
		p, ok := observed.facts.port.one()
		if q, other := o.facts.port.one(); !ok || !other || p.Value == q.Value {
			return o
		}
	}
	return nil
}

// checkCorrection looks what a corrected column without a target was brought
// to: the ratio must be constant and lead from the stated pressure to 28.
func (b *builder) checkCorrection(t *table, observed, corrected *lane) {
	if len(corrected.facts.pressure) > 0 {
		return
	}
	low, high := math.Inf(1), 0.0
	for _, e := range t.axis.entries {
		o, c := t.plane().At(e.row, observed.col), t.plane().At(e.row, corrected.col)
		if o.Kind == decode.Number && c.Kind == decode.Number && o.Num > 0 {
			low, high = min(low, c.Num/o.Num), max(high, c.Num/o.Num)
		}
	}
	_, all := b.scoped(t, observed.facts)
	p, ok := all.pressure.one()
	at := corrected.headers[len(corrected.headers)-1]
	ratio := (low + high) / 2
	if ok && high < 1.02*low && math.Abs(ratio*math.Sqrt(p.Value.InH2O()/28)-1) < 0.01 {
		trace := b.r.trace(b.page, at).Then(fmt.Sprintf("ratio to the observed column %.3f leads from %s to 28 inH2O", ratio, parse.Digits(p.Value.InH2O())))
		corrected.facts.pressure.add(28, trace)
		b.p.note(b.page.Ref(at), kindConverted, "", cellText(at), "the corrected column is at 28 inH2O by its ratio to the observed one")
		return
	}
	answer, ok := b.p.ask(b.page.Ref(at), kindCorrectedOdd, "", cellText(at), "the column is corrected, and it is not stated to what", source.Question{
		Key: key("corrected", b.sender, b.form), Text: "To which pressure is the corrected column brought?", Choices: []string{"28 inH2O"},
		Wants: source.AFigure, Unit: "inH2O", Least: lowestInH2O, Most: highestInH2O,
		Evidence: fmt.Sprintf("ratio to the observed column %.3f to %.3f", low, high), Changes: "the whole column waits for it"})
	if ok {
		corrected.facts.pressure.add(quantity.InchesOfWater(answer.Figure), answer.Trace("inH2O"))
		return
	}
	corrected.role, corrected.why = laneSummary, "corrected to what is not stated"
}

// unlabelledLanes asks about numbers without a header that says what they
// are; they are never taken for an exhaust.
func unlabelledLanes(b *builder, t *table) {
	for _, ln := range t.lanes {
		if ln.role != laneUnknown {
			continue
		}
		values := make([]decode.Cell, 0, len(t.axis.entries))
		for _, e := range t.axis.entries {
			values = append(values, t.plane().At(e.row, ln.col))
		}
		at := firstCell(ln.headers, values)
		q := source.Question{Key: key("column", b.sender, b.form, strings.ToLower(cellText(at))), Text: "What are the numbers under " + fmt.Sprintf("%q", cellText(at)) + "?",
			Choices: []string{"intake flow", "exhaust flow", "not a flow"}, Changes: "whether the column is used"}
		if len(ln.headers) == 0 { // nothing to know the column by but its place
			q.Key = key("column", oneCell("", b.page.Ref(at), cellText(at)))
		}
		if answer, ok := b.p.ask(b.page.Ref(at), kindUnlabelledLane, "", cellText(at), "nothing says what these numbers are; they are not used", q); ok {
			ln.answered(answer)
		}
	}
}

// answered takes a column for what somebody says it is.
func (ln *lane) answered(answer head.Reply) {
	switch {
	case answer.Is("intake"):
		ln.role, ln.why = laneFlow, ""
		ln.facts.port = said[head.Port]{source.Say(head.Intake, answer.Trace(""))}
	case answer.Is("exhaust"):
		ln.role, ln.why = laneFlow, ""
		ln.facts.port = said[head.Port]{source.Say(head.Exhaust, answer.Trace(""))}
	default:
		ln.why = "not a flow, " + answer.Per()
	}
}

// sameSetUp is what two tests must share to be runs, pressures or copies of
// one another.
type sameSetUp struct {
	head, state, by, sample, mark, run, entry, date string
	port                                            head.Port
	class                                           head.Class
	pipe                                            head.Pipe
	bore, pressure                                  float64
}

func setUpOf(t head.Test) sameSetUp {
	k := sameSetUp{head: t.Head, state: t.State, by: t.By, sample: t.Sample, mark: t.PortMark, run: t.Run, entry: t.Entry,
		port: t.Port, class: t.Class, pipe: t.Pipe, bore: t.Bore.Value.In(), pressure: t.Pressure.Value.InH2O()}
	if t.Date.Known {
		k.date = t.Date.Value.Format("2006-01-02")
	}
	return k
}
