// Package geometry works with the sizes on a dimension sheet: valve mass, throat
// and valve, cross-section against runner volume.
package geometry

import (
	"errors"
	"math"

	"flowshelf/analysis/airflow"
	"flowshelf/analysis/quantity"
)

// SteelGPerMM3 is the density of valve steel, 7.85e-3 g/mm3. Handbook value,
// from memory.
const SteelGPerMM3 = 7.85e-3

// StemSaving returns what a length of valve stem weighs less on a smaller
// diameter, rho (pi/4)(d1^2 - d2^2) l; negative when the second is larger. It is
// computed from sizes, never a measured mass.
func StemSaving(from, to, length quantity.Length) quantity.Mass {
	area := airflow.Circle(from).MM2() - airflow.Circle(to).MM2()
	return quantity.Grams(SteelGPerMM3 * area * length.MM())
}

// StemSavingPerMM returns StemSaving for a millimetre of stem: all that can be
// said when the stem's length is not known.
func StemSavingPerMM(from, to quantity.Length) quantity.Mass {
	return StemSaving(from, to, quantity.Millimetres(1))
}

// ErrSizes is returned when sizes are missing or do not fit together.
var ErrSizes = errors.New("sizes are missing or do not fit together")

// ThroatRatio returns throat over valve head diameter, and false when either is
// not known or the throat is not smaller.
func ThroatRatio(throat, valve quantity.Length) (float64, bool) {
	if !(throat > 0 && valve > throat) {
		return 0, false
	}
	return float64(throat / valve), true
}

// MeanSection returns a runner's mean cross-section, its volume over its
// centreline length.
func MeanSection(runner quantity.Volume, centreline quantity.Length) (quantity.Area, error) {
	if !(runner > 0 && centreline > 0) {
		return 0, ErrSizes
	}
	return quantity.SquareInches(runner.In3() / centreline.In()), nil
}

// SectionCheck is a runner's mean cross-section over its stated smallest one.
type SectionCheck struct {
	Ratio   float64
	Unusual bool // outside 0.95 to 1.25: one of volume, length and section is doubtful
}

// CheckSection compares a runner's mean cross-section with the smallest one of
// the sheet. The bounds are common practice, no source.
func CheckSection(runner quantity.Volume, centreline quantity.Length, smallest quantity.Area) (SectionCheck, error) {
	mean, err := MeanSection(runner, centreline)
	if err != nil || !(smallest > 0) {
		return SectionCheck{}, ErrSizes
	}
	r := float64(mean / smallest)
	return SectionCheck{Ratio: r, Unusual: r < 0.95 || r > 1.25}, nil
}

// FlowPerVolume returns cfm per cc of runner, and false when either is not
// known. It favours small ports: shown, never ranked on.
func FlowPerVolume(peak quantity.Flow, runner quantity.Volume) (cfmPerCC float64, ok bool) {
	if !(peak > 0 && runner > 0) || math.IsInf(peak.CFM()/runner.CC(), 1) {
		return 0, false
	}
	return peak.CFM() / runner.CC(), true
}
