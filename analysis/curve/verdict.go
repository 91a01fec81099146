package curve

import "flowshelf/analysis/quantity"

// Status is what a curve does at its end.
type Status int

// The statuses, from nothing known to the worst.
const (
	// TooFew readings: fewer than three.
	TooFew Status = iota
	// Climbing: the last reading is above all others by more than the noise.
	Climbing
	// Flattening: the gain has stopped, but less than a span of lift was
	// measured beyond, and nothing was lost.
	Flattening
	// LevelsOff: the gain has stopped and at least a span was measured beyond.
	LevelsOff
	// BacksUp: the last reading is below the peak by more than the noise.
	BacksUp
)

// String names the status, for tests and logs.
func (s Status) String() string {
	switch s {
	case TooFew:
		return "too few"
	case Climbing:
		return "climbing"
	case Flattening:
		return "flattening"
	case LevelsOff:
		return "levels off"
	case BacksUp:
		return "backs up"
	}
	return "unknown"
}

// Confidence says whether a verdict hinges on one reading.
type Confidence int

const (
	// NotJudged says that the stall was not reached, or that there are fewer
	// than five readings.
	NotJudged Confidence = iota
	// Firm says that leaving out any one reading moves the stall by no more
	// than one step of the sheet.
	Firm
	// Tentative says that leaving out some one reading moves the stall
	// further, or leaves it unreached.
	Tentative
)

// String names the confidence.
func (c Confidence) String() string {
	switch c {
	case NotJudged:
	case Firm:
		return "firm"
	case Tentative:
		return "tentative"
	}
	return "not judged"
}

// Verdict is where and how a port stops gaining.
type Verdict struct {
	Status   Status
	Readings int
	Last     Point
	Peak     Point // largest reading, at the lowest lift where it occurs

	// StallLift is the lowest measured lift that no later reading beats by
	// more than the noise. When Censored the curve ended before one was
	// proven, and the stall is at Last or beyond: ">= last".
	StallLift quantity.Length
	Censored  bool
	// BracketLow is the reading before StallLift: the true stall is above it
	// and not above StallLift.
	BracketLow quantity.Length
	// Support counts the readings beyond the stall that bear it out.
	Support int

	// HoldsTo is, of a curve that backs up, the last reading from the peak on
	// before the first that is below the peak by more than the noise.
	HoldsTo quantity.Length

	// BacksUpEnd and BacksUpWorst are the loss from the peak at the last
	// reading and at the lowest one after the peak, as shares of the peak.
	BacksUpEnd, BacksUpWorst float64

	Flat *Flat // the first flat stretch, nil when there is none
	Dips []Dip

	Confidence Confidence
	// JackLow and JackHigh are the lowest and highest stall found when each
	// reading is left out in turn, of those where it was reached; both zero
	// when not judged.
	JackLow, JackHigh quantity.Length
}

// Drop returns the flow lost from the peak at the last reading.
func (v Verdict) Drop() quantity.Flow { return v.Peak.Flow - v.Last.Flow }
