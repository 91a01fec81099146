package bore

import (
	"math"

	"flowshelf/analysis/curve"
	"flowshelf/analysis/quantity"
)

// Valve is where a valve stands in its cylinder.
type Valve struct {
	Diameter quantity.Length
	Offset   quantity.Length // valve centre to bore axis, valve closed
	// TiltDegrees is the valve's lean from the bore axis, TowardDegrees the
	// plan direction in which opening moves the head, 0 straight toward the
	// bore axis. Both 0 when not known.
	TiltDegrees, TowardDegrees float64
}

// FromClearance places a valve by what a shop measures: the clearance from valve
// to wall, valve closed, on a bore. Offset is B/2 - Dv/2 - c.
func FromClearance(diameter, clearance, onBore quantity.Length) Valve {
	return Valve{Diameter: diameter, Offset: onBore/2 - diameter/2 - clearance}
}

// Clearance returns the clearance from valve to wall on a bore, valve closed;
// negative when the valve does not fit.
func (v Valve) Clearance(bore quantity.Length) quantity.Length {
	return bore/2 - v.Diameter/2 - v.Offset
}

// offset returns the valve centre's distance from the bore axis at a lift.
func (v Valve) offset(lift quantity.Length) float64 {
	toward := math.Sin(v.TiltDegrees*math.Pi/180) * math.Cos(v.TowardDegrees*math.Pi/180)
	return math.Max(0, v.Offset.In()-lift.In()*toward)
}

// Model is the shrouding model's two constants. It is a bounded engineering
// estimate: no published table of flow against bore was found, and the constants
// agree with common practice by construction.
type Model struct {
	// Chi: the jet fills the wall gap up to a lift of Chi times the gap.
	Chi float64
	// Lambda: share of the blocked rim's flow that is lost, the rest finding
	// another way around the rim.
	Lambda float64
}

// DefaultModel is chi 2.0 and lambda 0.5.
func DefaultModel() Model { return Model{Chi: 2.0, Lambda: 0.5} }

// Open returns the open share of the valve's rim at a lift in a bore,
//
//	d(phi) = -e cos phi + sqrt((B/2)^2 - e^2 sin^2 phi)   valve centre to wall
//	g(phi) = (d^2 - Rv^2)/(2 Rv)                          area-equivalent gap
//	S      = (1/2pi) integral of min(1, chi g/L) dphi
//
// phi from the direction of the nearest wall, so that half the rim stands for
// the whole. d grows with phi: up to the angle where chi g = L the rim is partly
// blocked, beyond it open, and both parts have closed forms. 1 at no lift; NaN
// when the valve does not fit the bore.
func (m Model) Open(v Valve, lift, bore quantity.Length) float64 {
	if !(v.Diameter > 0 && v.Clearance(bore) >= 0) {
		return math.NaN()
	}
	if !(lift > 0) {
		return 1
	}
	e, r, rv := v.offset(lift), bore.In()/2, v.Diameter.In()/2
	free := rv*rv + 2*rv*lift.In()/m.Chi // d^2 from which the rim is open
	blocked := angleAt(e, r, math.Sqrt(free))
	gaps := (squares(e, r, blocked) - rv*rv*blocked) / (2 * rv)
	return (m.Chi*gaps/lift.In() + math.Pi - blocked) / math.Pi
}

// angleAt is the phi at which the wall of a circle of radius r is at a distance
// d from a point e off its centre, held to 0..pi: r^2 = e^2 + d^2 + 2 e d cos phi.
func angleAt(e, r, d float64) float64 {
	switch cos := (r*r - e*e - d*d) / (2 * e * d); {
	case d <= r-e || cos >= 1:
		return 0
	case d >= r+e || cos <= -1:
		return math.Pi
	default:
		return math.Acos(cos)
	}
}

// squares is the integral of d(phi)^2 from 0 to phi,
//
//	r^2 phi + (e^2/2) sin 2phi - u sqrt(r^2 - u^2) - r^2 asin(u/r), u = e sin phi.
func squares(e, r, phi float64) float64 {
	u := e * math.Sin(phi)
	return r*r*phi + e*e/2*math.Sin(2*phi) - u*math.Sqrt(r*r-u*u) - r*r*math.Asin(u/r)
}

// Elasticity returns (L/q) dq/dL of a curve at a lift, held to 0..1: 1 where the
// curtain is in charge, 0 where the port is, and false off the curve. Losing
// curtain at a lift acts like having less lift, so a flat curve hardly feels the
// wall.
func Elasticity(c curve.Curve, lift quantity.Length) (float64, bool) {
	q, ok := c.At(lift)
	slope, _ := c.Slope(lift)
	if !ok || !(q > 0) {
		return 0, false
	}
	return min(max(lift.In()/q.CFM()*slope, 0), 1), true
}

// Factor returns what the flow at a lift is multiplied by between two bores,
//
//	F = (S_eff(L, to)/S_eff(L, from))^E,  S_eff = 1 - lambda (1 - S),
//
// and false off the curve or where the valve does not fit. 1 for equal bores;
// rises with the bore; |ln F| never above -ln(1 - lambda).
func (m Model) Factor(c curve.Curve, v Valve, from, to, lift quantity.Length) (float64, bool) {
	e, ok := Elasticity(c, lift)
	if !ok {
		return 0, false
	}
	ratio := m.effective(v, lift, to) / m.effective(v, lift, from)
	if math.IsNaN(ratio) {
		return 0, false
	}
	return math.Pow(ratio, e), true
}

func (m Model) effective(v Valve, lift, bore quantity.Length) float64 {
	return 1 - m.Lambda*(1-m.Open(v, lift, bore))
}
