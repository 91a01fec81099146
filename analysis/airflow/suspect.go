package airflow

import (
	"math"
	"slices"

	"flowshelf/analysis/quantity"
)

// Suspicion is a reason to ask about readings that are possible but not
// ordinary. All bounds are judgement: common practice, no source.
type Suspicion uint8

// The suspicions.
const (
	// HighCoefficient: more than 0.75 of the valve head's ideal flow.
	HighCoefficient Suspicion = iota + 1
	// BeyondSection: more than the port's smallest section can pass.
	BeyondSection
	// CurtainLow and CurtainHigh: the curtain's coefficient is outside the
	// ordinary band at this lift over valve diameter.
	CurtainLow
	CurtainHigh
)

// String names the suspicion.
func (s Suspicion) String() string {
	return [...]string{"", "high for the valve", "more than the section passes",
		"low for the lift", "high for the lift"}[s]
}

// Port is what is known of a port beside its readings; a zero length or area is
// not known, and what needs it is not judged.
type Port struct {
	Valve   quantity.Length
	Section quantity.Area // smallest cross-section
	Test    quantity.Pressure
}

// band is the ordinary range of the curtain coefficient up to an L/D.
type band struct{ upTo, low, high float64 }

// curtainBands covers L/D 0.04 to 0.35 of a two-valve intake port; drawn around
// the curves of Heywood (1988), fig. 6-18, and W. J. D. Annand and G. E. Roe, Gas
// Flow in the Internal Combustion Engine (1974), both from memory.
func curtainBands() []band {
	return []band{{0.04, math.Inf(-1), math.Inf(1)}, {0.12, 0.45, 0.85}, {0.18, 0.45, 0.80}, {0.25, 0.38, 0.75}, {0.35, 0.28, 0.65}}
}

// Suspect returns the reasons to ask about one reading, in the order of the
// constants, and none when there are none or the valve is not known.
func (p Port) Suspect(lift quantity.Length, q quantity.Flow) []Suspicion {
	var found []Suspicion
	if p.Test > 0 && p.Section > 0 && q > Ideal(p.Section, p.Test) {
		found = append(found, BeyondSection)
	}
	if !(p.Valve > 0 && p.Test > 0 && lift > 0) {
		return found
	}
	if HeadCoefficient(q, p.Valve, p.Test) > 0.75 {
		found = append(found, HighCoefficient)
	}
	ld, cd := float64(lift/p.Valve), CurtainCoefficient(q, p.Valve, lift, p.Test)
	for _, b := range curtainBands() {
		if ld > b.upTo {
			continue
		}
		if cd < b.low {
			found = append(found, CurtainLow)
		} else if cd > b.high {
			found = append(found, CurtainHigh)
		}
		break
	}
	slices.Sort(found)
	return found
}

// LooksLikeLowPressure reports whether every reading with L/D below 0.15 has a
// curtain coefficient below 0.45, with at least one such reading: then the test
// pressure is in doubt, since sqrt(10/28) = 0.60. lifts and flows go together.
func (p Port) LooksLikeLowPressure(lifts []quantity.Length, flows []quantity.Flow) bool {
	if !(p.Valve > 0 && p.Test > 0) || len(lifts) != len(flows) {
		return false
	}
	judged := false
	for i, lift := range lifts {
		if !(lift > 0) || float64(lift/p.Valve) >= 0.15 {
			continue
		}
		if CurtainCoefficient(flows[i], p.Valve, lift, p.Test) >= 0.45 {
			return false
		}
		judged = true
	}
	return judged
}

// ThroatUnusual reports whether a throat lies outside 0.82 to 0.93 of its valve:
// worth a second look with the gauge. Not judged when either is not known.
func ThroatUnusual(throat, valve quantity.Length) bool {
	if !(throat > 0 && valve > 0) {
		return false
	}
	ratio := float64(throat / valve)
	return ratio < 0.82 || ratio > 0.93
}
