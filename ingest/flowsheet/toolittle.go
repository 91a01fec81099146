package flowsheet

import (
	"fmt"
	"math"

	"flowshelf/analysis/head"
	"flowshelf/analysis/quantity"
	"flowshelf/analysis/source"
	"flowshelf/ingest/parse"
)

// Where the valve is off its seat a port passes a tenth of its highest reading, and
// from .100 in on more than leastFlow: no curve falls as low as noFlow of it (common
// practice, no source).
const (
	noFlow   = 0.02
	offSeat  = 0.05
	wideOpen = 0.1
)

// tooLittle refuses a column of which no reading is a flow that a port has, and asks
// about single readings that are a small part of all others: a sign between digits or
// a unit is then not what it was taken for.
func (b *builder) tooLittle(s *series, out *head.Test) {
	peak, deep := 0.0, false
	for _, r := range out.Readings {
		if r.Status == head.Used && r.Flow.Known && r.Lift.Known {
			peak = max(peak, at28(r, out.Pressure))
			deep = deep || r.Lift.Value.In() >= wideOpen
		}
	}
	switch {
	case peak == 0 || s.told || s.answered != "":
		return
	case deep && peak < leastFlow:
		b.p.refuse(b.page.Ref(s.at), kindNoFlow, out.Head, cellText(s.at), fmt.Sprintf("the highest reading of this column comes to %s cfm: no port flows so little", parse.Digits(math.Round(100*peak)/100)),
			"check the flow unit, and whether a point or a comma parts thousands")
		for i := range out.Readings {
			demote(&out.Readings[i], head.Refused, "no port flows so little")
		}
		return
	}
	for i := range out.Readings {
		if r := &out.Readings[i]; r.Status == head.Used && r.Flow.Known && r.Flow.Value > 0 && r.Lift.Known && r.Lift.Value.In() >= offSeat && at28(*r, out.Pressure) < noFlow*peak {
			b.askTooLittle(r, out.Head)
		}
	}
}

func (b *builder) askTooLittle(r *head.Reading, headName string) {
	at := r.Flow.Trace.At
	answer, ok := b.p.ask(at, kindNoFlow, headName, r.Flow.Trace.Text, "this reading is less than a fiftieth of the highest one beside it; a sign between its digits may part thousands", source.Question{
		Key: key("little flow", oneCell(headName, at, r.Flow.Trace.Text)), Text: fmt.Sprintf("Is %q the reading in this cell?", r.Flow.Trace.Text),
		Choices: []string{"no, " + leaveOut, "yes"}, Evidence: "a port passes more with the valve off its seat", Changes: "the curve at this lift"})
	decide(r, answer, ok, "yes", "less than a fiftieth of the readings beside it")
}

// at28 is a reading brought to 28 inH2O where its pressure is known.
func at28(r head.Reading, of source.Stated[quantity.Pressure]) float64 {
	p := r.Pressure()
	if !p.Known {
		p = of
	}
	if !p.Known || p.Value.InH2O() < lowestInH2O {
		return r.Flow.Value.CFM()
	}
	return r.Flow.Value.CFM() * math.Sqrt(28/p.Value.InH2O())
}
