package compare

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"flowshelf/analysis/airflow"
	"flowshelf/analysis/head"
	"flowshelf/analysis/quantity"
)

// LowLift is where a head's intake stands beside others of its valve size, low
// and high: where the seat rules, and where the port does.
type LowLift struct {
	At    []LiftCoefficient // at .100, .200 and .300 in, where tested
	Mean  Maybe             // of these
	Peers []string          // heads as delivered, tested here, of the same valve size
	Low   Maybe             // against the peers' mean at the same lifts, share
	High  Maybe             // the same of the flow at .500 in
	Words string
}

// LiftCoefficient is a flow as a share of the ideal flow through the curtain
// area at that lift; see airflow.CurtainCoefficient.
type LiftCoefficient struct {
	Lift  quantity.Length
	Value float64
}

// What tells the valve job from the port. Common practice, no source: up to 3 %
// below .300 in is the luck of a valve job, and valves of one size differ by
// less than .010 in.
const (
	sameValve   quantity.Length = 0.010
	seatLuck                    = 0.03
	portRulesAt quantity.Length = 0.500
)

func seatLifts() []quantity.Length {
	return []quantity.Length{quantity.Inches(0.100), quantity.Inches(0.200), quantity.Inches(0.300)}
}

// lowLifts tells, for each head tested here, whether what is odd about it lies at
// the seat or in the port.
func (f *family) lowLifts(c *Comparison) {
	tested := slices.Concat(c.Ranked, c.Unpriced)
	for _, list := range [][]Entry{c.Ranked, c.Unpriced} {
		for i := range list {
			list[i].LowLift = f.lowLift(&list[i], tested)
		}
	}
}

func (f *family) lowLift(e *Entry, tested []Entry) LowLift {
	var l LowLift
	l.Mean, l.Low, l.High = unknown("valve size not stated"), unknown("valve size not stated"), unknown("valve size not stated")
	if e.Dimensions == nil || !e.Dimensions.IntakeValve.Known || e.Intake == nil {
		l.Words = "can't say: its valve size is not stated"
		return l
	}
	valve := e.Dimensions.IntakeValve.Value
	l.At = f.coefficients(e, valve)
	l.Mean = lowMean(l.At)
	var low, high []float64
	for i := range tested {
		p := &tested[i]
		if p.Head == e.Head || !asSold(p) || p.Intake == nil || p.Dimensions == nil || !p.Dimensions.IntakeValve.Known || !p.Dimensions.IntakeValve.Value.Near(valve, sameValve) {
			continue
		}
		l.Peers = append(l.Peers, p.Label)
		if mean := lowMean(f.coefficients(p, p.Dimensions.IntakeValve.Value)); mean.Known {
			low = append(low, mean.Value)
		}
		if q, ok := p.Intake.At(portRulesAt); ok {
			high = append(high, q.Flow.CFM())
		}
	}
	l.Low, l.High = against(l.Mean, low), against(flowAt(e.Intake, portRulesAt), high)
	l.Words = strings.Join(append([]string{l.inWords()}, append(beforeAndAfter(e, tested), portsApart(e)...)...), "; ")
	return l
}

// asSold reports whether nothing was done to the head here.
func asSold(e *Entry) bool { return e.State == "" || e.State == "as delivered" }

func (f *family) coefficients(e *Entry, valve quantity.Length) []LiftCoefficient {
	var out []LiftCoefficient
	for _, at := range seatLifts() {
		if q, ok := e.Intake.At(at); ok {
			out = append(out, LiftCoefficient{at, airflow.CurtainCoefficient(q.Flow, valve, at, f.rules.Reference)})
		}
	}
	return out
}

func lowMean(at []LiftCoefficient) Maybe {
	if len(at) < len(seatLifts()) {
		return unknown("not tested at .100, .200 and .300")
	}
	sum := 0.0
	for _, c := range at {
		sum += c.Value
	}
	return known(sum / float64(len(at)))
}

// against is a figure's distance from the mean of others, as a share of it.
func against(m Maybe, others []float64) Maybe {
	switch {
	case !m.Known:
		return m
	case len(others) == 0:
		return unknown("no other head of its valve size was tested here")
	}
	sum := 0.0
	for _, x := range others {
		sum += x
	}
	return known(m.Value*float64(len(others))/sum - 1)
}

func (l *LowLift) inWords() string {
	switch {
	case !l.Low.Known:
		return "can't say: " + l.Low.Why
	case l.High.Known && l.Low.Value < -seatLuck && l.High.Value >= -seatLuck:
		return "behind at low lift and not at .500: look at its valve job first"
	case l.High.Known && l.Low.Value < -seatLuck:
		return "behind at low lift and at .500: the port, or both"
	case l.High.Known && l.High.Value < -seatLuck:
		return "level at low lift and behind at .500: the port, not the valve job"
	case l.Low.Value > seatLuck:
		return "ahead at low lift: a good valve job, or a good seat"
	}
	return "level with its size at low lift: the valve job is ordinary"
}

// beforeAndAfter is the proof where our own valve job was flowed on it: what it
// brought low and high.
func beforeAndAfter(e *Entry, tested []Entry) []string {
	if !asSold(e) {
		return nil
	}
	for i := range tested {
		after := &tested[i]
		if after.Head != e.Head || asSold(after) || after.Intake == nil {
			continue
		}
		low, high := gained(e, after, quantity.Inches(0.200)), gained(e, after, portRulesAt)
		if low.Known && high.Known {
			return []string{fmt.Sprintf("our %s brought %+.0f %% at .200 and %+.0f %% at .500", after.State, 100*low.Value, 100*high.Value)}
		}
	}
	return nil
}

func gained(before, after *Entry, at quantity.Length) Maybe {
	a, b := flowAt(before.Intake, at), flowAt(after.Intake, at)
	if !a.Known || !b.Known || a.Value <= 0 {
		return unknown("not tested at %s", inches(at))
	}
	return known(b.Value/a.Value - 1)
}

// portsApart says whether ports of one sample differ low alone, which is the
// seats, or at the top as well.
func portsApart(e *Entry) []string {
	if len(e.Intake.Each) < 2 {
		return nil
	}
	low, high := spreadAt(e.Intake.Each, quantity.Inches(0.300)), spreadAt(e.Intake.Each, portRulesAt)
	switch {
	case !low.Known || !high.Known:
		return nil
	case low.Value > seatLuck/2 && high.Value < seatLuck/2:
		return []string{fmt.Sprintf("its ports differ at .300 (%.1f %%) and not at .500 (%.1f %%): the seats", 100*low.Value, 100*high.Value)}
	}
	return []string{fmt.Sprintf("its ports differ by %.1f %% at .300 and %.1f %% at .500", 100*low.Value, 100*high.Value)}
}

func spreadAt(ports []PortCurve, at quantity.Length) Maybe {
	var flows []float64
	for _, p := range ports {
		for _, x := range p.Points {
			if x.Lift.Near(at, sameLift) {
				flows = append(flows, x.Flow.CFM())
			}
		}
	}
	if len(flows) < 2 || slices.Min(flows) <= 0 {
		return unknown("not tested at %s", inches(at))
	}
	return known(slices.Max(flows)/slices.Min(flows) - 1)
}

// RatioAt is exhaust over intake at a lift at which both were read or lie
// between readings.
func (e *Entry) RatioAt(at quantity.Length) Maybe {
	in, okIn := e.Intake.At(at)
	out, okOut := e.Exhaust.At(at)
	if !okIn || !okOut || in.Flow <= 0 || math.IsNaN(float64(out.Flow)) {
		return unknown("not tested at %s", inches(at))
	}
	return known(float64(out.Flow / in.Flow))
}

// PipeWords says how the exhaust behind the ratio was flowed.
func (e *Entry) PipeWords() string {
	if e.Exhaust == nil || e.Exhaust.Pipe == head.PipeNotStated {
		return "pipe not stated: 5 points either way"
	}
	return e.Exhaust.Pipe.String()
}
