package airflow

import (
	"fmt"
	"math"

	"flowshelf/analysis/quantity"
)

// Curtain returns the area of the curtain between valve and seat, pi Dv L.
func Curtain(valve, lift quantity.Length) quantity.Area {
	return quantity.SquareInches(math.Pi * valve.In() * lift.In())
}

// Circle returns pi D^2/4: of the valve head, the bore, a section.
func Circle(diameter quantity.Length) quantity.Area {
	return quantity.SquareInches(math.Pi / 4 * diameter.In() * diameter.In())
}

// ThroatArea returns the throat less the stem, pi (Dp^2 - Ds^2)/4.
func ThroatArea(throat, stem quantity.Length) quantity.Area {
	return Circle(throat) - Circle(stem)
}

// Seat is a valve on a seat of one angle. For a seat of several cuts take the
// 45 degree one and say that the seat was assumed.
type Seat struct {
	Valve        quantity.Length // head diameter Dv
	Width        quantity.Length // radial (projected) width w; sheets give the face: see RadialWidth
	AngleDegrees float64         // from the plane square to the valve axis
	Throat       quantity.Length // Dp
	Stem         quantity.Length // Ds
}

// RadialWidth returns the projection of a seat face, width cos(angle).
func RadialWidth(face quantity.Length, angleDegrees float64) quantity.Length {
	return face * quantity.Length(math.Cos(angleDegrees*math.Pi/180))
}

// Stage is which surface is the smallest at a lift.
type Stage uint8

// The stages of opening.
const (
	SeatStage   Stage = iota + 1 // a frustum square to the seat
	EdgeStage                    // a frustum between the inner seat edge and the valve
	ThroatStage                  // the throat less the stem
)

// limits returns the lifts where the first and the second stage end,
//
//	L1 = w/(sin b cos b), L2 = w tan b + sqrt(((Dp^2 - Ds^2)/(4 Dm))^2 - w^2), Dm = Dv - w.
func (s Seat) limits() (l1, l2 float64, err error) {
	b := s.AngleDegrees * math.Pi / 180
	w, dm := s.Width.In(), s.Valve.In()-s.Width.In()
	throat := (s.Throat.In()*s.Throat.In() - s.Stem.In()*s.Stem.In()) / (4 * dm)
	switch {
	case !(s.AngleDegrees > 0 && s.AngleDegrees < 90):
		return 0, 0, fmt.Errorf("seat angle of %g degrees is outside 0 to 90", s.AngleDegrees)
	case !(w > 0 && 2*w < s.Valve.In()):
		return 0, 0, fmt.Errorf("seat %.4g in wide does not fit a %.4g in valve", w, s.Valve.In())
	case !(s.Throat > s.Stem && s.Stem >= 0 && s.Throat < s.Valve):
		return 0, 0, fmt.Errorf("throat of %.4g in does not lie between stem and valve", s.Throat.In())
	case !(throat > w):
		return 0, 0, fmt.Errorf("throat of %.4g in is smaller than the seat passage", s.Throat.In())
	}
	l1 = w / (math.Sin(b) * math.Cos(b))
	l2 = w*math.Tan(b) + math.Sqrt(throat*throat-w*w)
	if l2 < l1 {
		return 0, 0, fmt.Errorf("throat of %.4g in closes before the seat opens", s.Throat.In())
	}
	return l1, l2, nil
}

// Stages returns the lifts where the seat stage and the edge stage end.
func (s Seat) Stages() (l1, l2 quantity.Length, err error) {
	a, b, err := s.limits()
	return quantity.Inches(a), quantity.Inches(b), err
}

// MinArea returns the smallest geometric area open at a lift and its stage:
//
//	L <= L1  pi L cos b (Dv - 2w + (L/2) sin 2b)
//	L <= L2  pi Dm sqrt((L - w tan b)^2 + w^2)
//	beyond   pi (Dp^2 - Ds^2)/4
//
// No lift, no area. It is no limit on flow: ordinary ports reach the whole of
// it at low lift, where the seat passage recovers pressure. Domain: L >= 0, a
// seat that fits; an error outside. Source: J. B. Heywood, Internal Combustion
// Engine Fundamentals (1988), eqs 6.7 to 6.9 (from memory; the first two agree
// with a search over all frusta between the faces).
func (s Seat) MinArea(lift quantity.Length) (quantity.Area, Stage, error) {
	l1, l2, err := s.limits()
	if err != nil {
		return 0, 0, err
	}
	l, w, d := lift.In(), s.Width.In(), s.Valve.In()
	b := s.AngleDegrees * math.Pi / 180
	switch {
	case !(l >= 0):
		return 0, 0, fmt.Errorf("lift of %g in is negative", l)
	case l <= l1:
		return quantity.SquareInches(math.Pi * l * math.Cos(b) * (d - 2*w + l/2*math.Sin(2*b))), SeatStage, nil
	case l <= l2:
		return quantity.SquareInches(math.Pi * (d - w) * math.Hypot(l-w*math.Tan(b), w)), EdgeStage, nil
	}
	return ThroatArea(s.Throat, s.Stem), ThroatStage, nil
}
