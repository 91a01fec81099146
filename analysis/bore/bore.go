// Package bore brings a flow test from the fixture bore it was made on to a
// family's reference bore, or says that it cannot.
//
// The default is to group, not to correct: a bore within Class of the reference
// is used unchanged. Beyond it a head's own pair of tests decides; failing that
// a bounded estimate of how far the cylinder wall shrouds the valve; failing
// that nothing does.
package bore

import (
	"fmt"
	"math"

	"flowshelf/analysis/curve"
	"flowshelf/analysis/quantity"
)

// Class is how far a bore may be from the reference and still count as the same,
// 0.070 in (1.8 mm): shops see nothing beyond repeatability. Common practice, no
// source.
const Class quantity.Length = 0.070

// Relative standard uncertainties of a flow that comes from another bore, and
// the difference below which a head that was not brought over decides no place.
// Common practice, no source.
const (
	ClassU         = 0.003
	NotBroughtU    = 0.015
	NotBroughtOnly = 0.03
)

// sameLength is the difference below which two lengths are one.
const sameLength quantity.Length = 1e-6

// SameClass reports whether a test on one bore stands unchanged for another.
func SameClass(tested, reference quantity.Length) bool {
	return tested > 0 && reference > 0 && tested.Near(reference, Class+sameLength)
}

// Tested is one head's port on one bore.
type Tested struct {
	Bore   quantity.Length
	Points []curve.Point
}

// fewestCommon is the number of lifts two tests must share to be read between.
const fewestCommon = 3

// Between returns the flow at a bore between two tests of one head, with ln q
// linear in the bore,
//
//	q = q1 (q2/q1)^((B - B1)/(B2 - B1)),
//
// at the lifts both tests have. The tests may come in either order. A bore
// outside the two is refused, as are two tests on one bore or with fewer than
// three lifts in common.
func Between(a, b Tested, reference quantity.Length) ([]curve.Point, error) {
	if a.Bore > b.Bore {
		a, b = b, a
	}
	if !(a.Bore > 0 && b.Bore-a.Bore > sameLength) {
		return nil, fmt.Errorf("bores of %.3f and %.3f in are no pair", a.Bore.In(), b.Bore.In())
	}
	if reference < a.Bore-sameLength || reference > b.Bore+sameLength || math.IsNaN(reference.In()) {
		return nil, fmt.Errorf("bore of %.3f in is not between %.3f and %.3f in", reference.In(), a.Bore.In(), b.Bore.In())
	}
	t := float64((reference - a.Bore) / (b.Bore - a.Bore))
	var points []curve.Point
	for _, p := range common(a.Points, b.Points) {
		q := p.a.CFM() * math.Pow(p.b.CFM()/p.a.CFM(), t)
		points = append(points, curve.Point{Lift: p.lift, Flow: quantity.CFM(q)})
	}
	if len(points) < fewestCommon {
		return nil, fmt.Errorf("the two tests share %d lifts, fewer than %d", len(points), fewestCommon)
	}
	return points, nil
}

// pair is one lift read on two bores.
type pair struct {
	lift quantity.Length
	a, b quantity.Flow
}

// common returns the lifts two tests share, in order.
func common(a, b []curve.Point) []pair {
	a, _ = curve.Usable(a)
	b, _ = curve.Usable(b)
	var pairs []pair
	j := 0
	for _, p := range a {
		for j < len(b) && b[j].Lift < p.Lift-sameLength {
			j++
		}
		if j < len(b) && b[j].Lift.Near(p.Lift, sameLength) {
			pairs = append(pairs, pair{p.Lift, p.Flow, b[j].Flow})
		}
	}
	return pairs
}
