package compare

import (
	"fmt"

	"flowshelf/analysis/quantity"
)

// shape scores a curve from three visible parts against the family's fixed
// anchors, so that another head changes no score:
//
//	mid    (mid-lift average - low) / (high - low)
//	stall  (s / top of the range - StallLow) / (1 - StallLow), s the lowest of
//	       the stall, the start of a flat stretch and the last reading before a
//	       dip; 1 when the curve shows none of them
//	peak   (peak in the range - low) / (high - low)
//
// each held to 0..1 and shown x 100, weighted. A curve that ends below the
// range's top is scored "at least". Own rule.
func (f *family) shape(r *PortResult) Shape {
	a := f.Anchors
	switch {
	case !a.Known:
		return Shape{Why: "the setup sets no anchors for the shape score"}
	case r.WithHeld != "":
		return Shape{Why: r.WithHeld}
	case !r.MidMean.Known:
		return Shape{Why: "mid-lift: " + r.MidMean.Why}
	}
	s := Shape{Known: true, AtLeast: r.Last < f.RangeTo-sameLift}
	s.Mid = share(r.MidMean.Value, a.MidLow.CFM(), a.MidHigh.CFM())
	s.Peak = share(r.PeakIn.Flow.CFM(), a.PeakLow.CFM(), a.PeakHigh.CFM())
	lift, reached := r.Verdict.ShapeStall()
	switch {
	case reached:
		s.StallLift = lift
		s.Stall = share(float64(lift/f.RangeTo), a.StallLow, 1)
	case s.AtLeast:
		s.Stall = share(float64(r.Last/f.RangeTo), a.StallLow, 1)
	default:
		s.Stall = 100
	}
	s.Score = a.WMid*s.Mid + a.WStall*s.Stall + a.WPeak*s.Peak
	return s
}

// share is where v lies between low and high, 0 to 100.
func share(v, low, high float64) float64 {
	if !(low < high) {
		return 0
	}
	return 100 * min(max((v-low)/(high-low), 0), 1)
}

// stallWords says what the stall part rests on.
func (f *family) stallWords(s Shape) string {
	if s.StallLift == quantity.Length(0) {
		return "not reached"
	}
	return fmt.Sprintf("%s, %.0f %% of the range's top", inches(s.StallLift), 100*float64(s.StallLift/f.RangeTo))
}
