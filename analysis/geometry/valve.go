package geometry

import (
	"math"

	"flowshelf/analysis/quantity"
)

// Valve is a poppet valve as a solid of revolution: a flat margin, a conical
// seat, a conical back, a round fillet that meets cone and stem tangentially,
// and the stem. Retainer grooves and the hollow of a tulip are not in it.
type Valve struct {
	Head        quantity.Length // diameter
	Stem        quantity.Length // diameter
	Length      quantity.Length // overall
	Margin      quantity.Length // height of the cylinder above the seat
	SeatFace    quantity.Length // width along the face
	SeatDegrees float64         // from the plane square to the axis
	BackDegrees float64         // of the cone behind the seat, likewise
	Fillet      quantity.Length // radius under the head
}

// MassU is the relative standard uncertainty of a computed valve mass: the model
// is good to 8 %.
const MassU = 0.08

// Mass returns the mass of the solid in steel. It is computed, good to 8 %: never
// to be shown as a measured mass. Sizes that do not fit together are ErrSizes.
// Source: volumes of cylinder, frustum and the revolved circular arc.
func (v Valve) Mass() (quantity.Mass, error) {
	r0, rs := v.Head.MM()/2, v.Stem.MM()/2
	seat, back := v.SeatDegrees*math.Pi/180, v.BackDegrees*math.Pi/180
	if !(r0 > rs && rs > 0 && v.Margin >= 0 && v.SeatFace >= 0 && v.Fillet >= 0 &&
		v.SeatDegrees > 0 && v.SeatDegrees < 90 && v.BackDegrees >= 0 && v.BackDegrees < 90) {
		return 0, ErrSizes
	}
	rf := v.Fillet.MM()
	r1 := r0 - v.SeatFace.MM()*math.Cos(seat) // inner edge of the seat
	// The fillet is centred rs + rf off the axis and leaves the cone where its
	// radius is at the cone's angle.
	r2 := rs + rf*(1-math.Sin(back))
	if r2 > r1 {
		return 0, ErrSizes
	}
	seatHeight := v.SeatFace.MM() * math.Sin(seat)
	coneHeight := (r1 - r2) * math.Tan(back)
	filletHeight := rf * math.Cos(back)
	stem := v.Length.MM() - v.Margin.MM() - seatHeight - coneHeight - filletHeight
	if stem < 0 {
		return 0, ErrSizes
	}
	volume := math.Pi*r0*r0*v.Margin.MM() + frustum(r0, r1, seatHeight) + frustum(r1, r2, coneHeight) +
		fillet(rs, rf, filletHeight) + math.Pi*rs*rs*stem
	return quantity.Grams(SteelGPerMM3 * volume), nil
}

// frustum is the volume of a truncated cone, pi h/3 (a^2 + a b + b^2).
func frustum(a, b, height float64) float64 {
	return math.Pi * height / 3 * (a*a + a*b + b*b)
}

// fillet is the volume inside a concave arc of radius rf that is tangent to a
// stem of radius rs at its top and falls away to a height h below it:
// pi times the integral of (c - sqrt(rf^2 - z^2))^2 dz from 0 to h, c = rs + rf.
func fillet(rs, rf, h float64) float64 {
	if rf == 0 {
		return 0
	}
	c := rs + rf
	root := math.Sqrt(math.Max(rf*rf-h*h, 0))
	arc := (h*root + rf*rf*math.Asin(math.Min(h/rf, 1))) / 2 // integral of sqrt(rf^2 - z^2)
	return math.Pi * (c*c*h - 2*c*arc + rf*rf*h - h*h*h/3)
}
