package lists

import "flowshelf/analysis/quantity"

// measure is what a size is the size of: that says what it can be.
type measure uint8

const (
	aValve measure = iota
	aStem
	aStemLength
	aBore
	aStroke
	aLift
	aHeight // of a spring
	aPort   // its length
	aWall   // clearance to it
)

// span is what a size can be, in inches (common practice, no source). It settles
// a unit that nobody wrote, and refuses what no head has.
func (m measure) span() (from, to float64) {
	switch m {
	case aValve:
		return 0.7, 2.8
	case aStem:
		return 0.15, 0.5
	case aStemLength:
		return 2, 8
	case aBore:
		return 2.36, 5.32 // 60-135 mm
	case aStroke:
		return 1.2, 6.5
	case aLift:
		return 0.1, 1.3
	case aHeight:
		return 0.7, 3
	case aPort:
		return 1.5, 12
	default:
		return 0.005, 1.2
	}
}

func (m measure) holds(l quantity.Length) bool {
	from, to := m.span()
	return l.In() >= from && l.In() <= to
}
