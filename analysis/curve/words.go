package curve

import (
	"fmt"
	"math"
	"strings"

	"flowshelf/analysis/quantity"
)

// Words says the verdict as the trade does. A curve can deserve several of
// these at once (a dip in a curve that still climbs); the gravest is said:
//
//	can't say                              fewer than three readings
//	backs up from .500 (-7)                ends below its peak: from the stall, whole cfm lost at the end
//	dips at .550 and recovers              the deepest dip
//	levels off from .550                   the stall
//	flat from .400 to .500, then creeps up a flat stretch, beaten later
//	still climbing, flattening             gain stopped too near the last reading
//	still climbing
//
// Every change must exceed the noise, floor included, to be said.
func (v Verdict) Words() string {
	switch {
	case v.Status == TooFew:
		return "can't say"
	case v.Status == BacksUp:
		return fmt.Sprintf("backs up from %s (-%.0f)", inches(v.StallLift), math.Round(v.Drop().CFM()))
	case len(v.Dips) > 0:
		return fmt.Sprintf("dips at %s and recovers", inches(v.deepest().At.Lift))
	case v.Status == LevelsOff:
		return "levels off from " + inches(v.StallLift)
	case v.Flat != nil:
		return fmt.Sprintf("flat from %s to %s, then creeps up", inches(v.Flat.From), inches(v.Flat.To))
	case v.Status == Flattening:
		return "still climbing, flattening"
	}
	return "still climbing"
}

// Course says the verdict as Words does, and of a curve that is flat before it
// backs up also up to which reading:
//
//	flat from .500, backs up past .600 (-7)
func (v Verdict) Course() string {
	if v.Status != BacksUp || v.HoldsTo <= v.StallLift+sameLift {
		return v.Words()
	}
	return fmt.Sprintf("flat from %s, backs up past %s (-%.0f)", inches(v.StallLift), inches(v.HoldsTo), math.Round(v.Drop().CFM()))
}

// deepest is the dip with the largest depth, the first of equals.
func (v Verdict) deepest() Dip {
	deepest := v.Dips[0]
	for _, d := range v.Dips[1:] {
		if d.Depth() > deepest.Depth() {
			deepest = d
		}
	}
	return deepest
}

// inches prints a lift as the trade writes it: three decimals, no leading zero.
func inches(lift quantity.Length) string {
	return strings.TrimPrefix(fmt.Sprintf("%.3f", lift.In()), "0")
}

// ShapeStall is the lift that the shape score counts as the stall: the lowest
// of the stall, the start of a flat stretch and the last reading before a dip.
// It is false when the curve shows none of them: the stall was not reached, and
// nothing is known against it up to the last reading.
func (v Verdict) ShapeStall() (lift quantity.Length, reached bool) {
	lift = quantity.Length(math.Inf(1))
	if v.Status != TooFew && !v.Censored {
		lift = v.StallLift
	}
	if v.Flat != nil {
		lift = min(lift, v.Flat.From)
	}
	if len(v.Dips) > 0 {
		lift = min(lift, v.Dips[0].Before)
	}
	if math.IsInf(lift.In(), 1) {
		return 0, false
	}
	return lift, true
}
