package compare

import (
	"math"

	"flowshelf/analysis/quantity"
)

// FlowAt is a port's flow at one lift.
type FlowAt struct {
	Flow     quantity.Flow
	Measured bool    // read at this lift; otherwise drawn between two readings
	U        float64 // standard uncertainty against another head, cfm
}

// readHere is the difference below which a lift is the one that was read: half
// a thousandth of an inch.
const readHere quantity.Length = 0.0005

// At returns the flow at a lift: the reading where one was taken, the curve
// between two readings, and false below the first reading or beyond the last,
// where nothing was measured.
//
// U is sqrt(u_r^2 + (q u_w/w)^2) in cfm: u_r what the readings there do not
// share with the rest of the curve (the larger of two neighbours), and the
// uncertainty u_w of the working average w, in proportion to the flow q.
// Source: JCGM 100:2008 (GUM), 5.1.2, for the sum.
func (p *PortResult) At(lift quantity.Length) (FlowAt, bool) {
	if p == nil || len(p.Points) == 0 {
		return FlowAt{}, false
	}
	above := 0
	for above < len(p.Points) && p.Points[above].Lift < lift-readHere {
		above++
	}
	if above == len(p.Points) {
		return FlowAt{}, false
	}
	next := p.Points[above]
	if next.Lift.Near(lift, readHere) {
		return FlowAt{next.Flow, true, p.uncertainty(next.Flow, next.U)}, true
	}
	if above == 0 {
		return FlowAt{}, false
	}
	flow, ok := p.Curve.At(lift)
	if !ok {
		return FlowAt{}, false
	}
	return FlowAt{flow, false, p.uncertainty(flow, max(next.U, p.Points[above-1].U))}, true
}

func (p *PortResult) uncertainty(flow quantity.Flow, own float64) float64 {
	if !p.Working.Known || p.Working.Value <= 0 {
		return own
	}
	return math.Hypot(own, flow.CFM()*p.WorkingU/p.Working.Value)
}
