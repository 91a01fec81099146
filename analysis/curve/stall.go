package curve

import (
	"math"

	"flowshelf/analysis/quantity"
)

// Stall judges the readings of one port. Unusable readings are left out as by
// Usable; with fewer than three the status is TooFew.
//
// The stall is the lowest measured lift L_i whose flow no later reading beats
// by more than thr = max(r q_i, floor), given evidence: either the curve ends
// more than thr below its peak (it backs up), or at least Span of lift was
// measured beyond L_i (it levels off). Without evidence it was not reached. The
// line between climbing and flat is thus a gain of r over Span, whatever the
// steps of the sheet. A drop followed by recovery is a dip, not a stall.
//
// Own rule; no published definition of a port's stall was found. The noise is
// the repeatability limit of ISO 5725-6.
func Stall(points []Point, noise Noise) Verdict {
	q, _ := Usable(points)
	v := judge(q, noise)
	if v.Status == TooFew {
		return v
	}
	v.Flat = firstFlat(q, noise)
	v.Dips = dips(q, noise)
	if !v.Censored && len(q) >= enoughToLeaveOneOut {
		v.leaveOneOut(q, noise)
	}
	return v
}

// enoughToJudge and enoughToLeaveOneOut are the fewest readings that can show a
// stall at all, and that still can with one of them taken away.
const (
	enoughToJudge       = 3
	enoughToLeaveOneOut = 5
)

// judge finds the status and the stall of sorted usable readings.
func judge(q []Point, noise Noise) Verdict {
	n := len(q)
	v := Verdict{Readings: n, Censored: true}
	if n == 0 {
		return v
	}
	peak := 0
	for i := range q {
		if q[i].Flow > q[peak].Flow {
			peak = i
		}
	}
	v.Peak, v.Last = q[peak], q[n-1]
	v.StallLift = v.Last.Lift
	if n < enoughToJudge {
		return v
	}
	lowest := q[n-1].Flow
	for _, p := range q[peak:] {
		lowest = min(lowest, p.Flow)
	}
	v.HoldsTo = v.Peak.Lift
	for _, p := range q[peak:] {
		if noise.below(p.Flow, v.Peak.Flow) {
			break
		}
		v.HoldsTo = p.Lift
	}
	v.BacksUpEnd = float64((v.Peak.Flow - v.Last.Flow) / v.Peak.Flow)
	v.BacksUpWorst = float64((v.Peak.Flow - lowest) / v.Peak.Flow)

	star := firstUnbeaten(q, noise)
	switch {
	case star == n-1:
		v.Status = Climbing
		return v
	case noise.below(v.Last.Flow, v.Peak.Flow):
		v.Status = BacksUp
	case noise.spans(q[star].Lift, v.Last.Lift):
		v.Status = LevelsOff
	default:
		v.Status = Flattening
		return v
	}
	v.Censored = false
	v.StallLift = q[star].Lift
	v.Support = n - 1 - star
	if star > 0 {
		v.BracketLow = q[star-1].Lift
	}
	return v
}

// firstUnbeaten is the first reading that no later one beats by more than the
// noise; the last reading always qualifies.
func firstUnbeaten(q []Point, noise Noise) int {
	star := len(q) - 1
	later := quantity.Flow(math.Inf(-1))
	for i := len(q) - 1; i >= 0; i-- {
		if !noise.above(later, q[i].Flow) {
			star = i
		}
		later = max(later, q[i].Flow)
	}
	return star
}

// leaveOneOut repeats the judgement without each reading in turn.
func (v *Verdict) leaveOneOut(q []Point, noise Noise) {
	v.Confidence = Firm
	fewer := make([]Point, len(q)-1)
	for out := range q {
		copy(fewer, q[:out])
		copy(fewer[out:], q[out+1:])
		w := judge(fewer, noise)
		if w.Censored {
			v.Confidence = Tentative
			continue
		}
		if v.JackLow == 0 || w.StallLift < v.JackLow {
			v.JackLow = w.StallLift
		}
		v.JackHigh = max(v.JackHigh, w.StallLift)
	}
	if v.JackHigh-v.JackLow > stepAt(q, v.StallLift)+sameLift {
		v.Confidence = Tentative
	}
}

// stepAt is the larger of the two lift steps beside a reading.
func stepAt(q []Point, lift quantity.Length) quantity.Length {
	var step quantity.Length
	for i := 1; i < len(q); i++ {
		if q[i].Lift == lift || q[i-1].Lift == lift {
			step = max(step, q[i].Lift-q[i-1].Lift)
		}
	}
	return step
}
