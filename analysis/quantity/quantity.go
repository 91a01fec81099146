// Package quantity gives every physical value of the trade a type of its own,
// so that a pressure cannot be passed where a flow is wanted.
//
// Each type stores the unit the trade speaks in (inch, cfm, inch of water) and
// converts with exact factors. Sources: NIST SP 811 (2008), Appendix B.8 and
// B.9, for the factors; the international inch of 25.4 mm exactly; standard
// gravity g_n = 9.80665 m/s2 exactly.
package quantity

import "math"

// Exact conversion factors.
const (
	mmPerInch    = 25.4
	ccPerCubicIn = 16.387064
	mm2PerSqIn   = 645.16
	gramPerPound = 453.59237
	gramPerOunce = 28.349523125

	// StandardGravity is g_n in m/s2, exact by definition.
	StandardGravity = 9.80665

	m3PerCubicFoot = 0.028316846592
)

// Length is a distance in inches.
type Length float64

// Inches returns x inches.
func Inches(x float64) Length { return Length(x) }

// Thou returns x thousandths of an inch.
func Thou(x float64) Length { return Length(x / 1000) }

// Millimetres returns x millimetres (25.4 mm to the inch, exact).
func Millimetres(x float64) Length { return Length(x / mmPerInch) }

// In returns the length in inches.
func (l Length) In() float64 { return float64(l) }

// Thou returns the length in thousandths of an inch.
func (l Length) Thou() float64 { return float64(l) * 1000 }

// MM returns the length in millimetres.
func (l Length) MM() float64 { return float64(l) * mmPerInch }

// Near reports whether two lengths differ by no more than tol.
func (l Length) Near(other, tol Length) bool { return math.Abs(float64(l-other)) <= float64(tol) }

// Area is a surface in square inches.
type Area float64

// SquareInches returns x in2.
func SquareInches(x float64) Area { return Area(x) }

// SquareCentimetres returns x cm2 (6.4516 cm2 to the in2, exact).
func SquareCentimetres(x float64) Area { return Area(x * 100 / mm2PerSqIn) }

// SquareMillimetres returns x mm2.
func SquareMillimetres(x float64) Area { return Area(x / mm2PerSqIn) }

// In2 returns the area in square inches.
func (a Area) In2() float64 { return float64(a) }

// CM2 returns the area in square centimetres.
func (a Area) CM2() float64 { return float64(a) * mm2PerSqIn / 100 }

// MM2 returns the area in square millimetres.
func (a Area) MM2() float64 { return float64(a) * mm2PerSqIn }

// Volume is a volume in cubic centimetres, as runners and chambers are poured.
type Volume float64

// CubicCentimetres returns x cc.
func CubicCentimetres(x float64) Volume { return Volume(x) }

// CubicInches returns x in3 (16.387064 cc, exact).
func CubicInches(x float64) Volume { return Volume(x * ccPerCubicIn) }

// CC returns the volume in cubic centimetres.
func (v Volume) CC() float64 { return float64(v) }

// In3 returns the volume in cubic inches.
func (v Volume) In3() float64 { return float64(v) / ccPerCubicIn }

// Mass is a mass in grams.
type Mass float64

// Grams returns x g.
func Grams(x float64) Mass { return Mass(x) }

// Kilograms returns x kg.
func Kilograms(x float64) Mass { return Mass(x * 1000) }

// Pounds returns x lb (453.59237 g, exact).
func Pounds(x float64) Mass { return Mass(x * gramPerPound) }

// Ounces returns x oz (28.349523125 g, exact).
func Ounces(x float64) Mass { return Mass(x * gramPerOunce) }

// G returns the mass in grams.
func (m Mass) G() float64 { return float64(m) }

// Lb returns the mass in pounds.
func (m Mass) Lb() float64 { return float64(m) / gramPerPound }

// Oz returns the mass in ounces.
func (m Mass) Oz() float64 { return float64(m) / gramPerOunce }

// Speed is a speed in feet per second.
type Speed float64

// FeetPerSecond returns x ft/s.
func FeetPerSecond(x float64) Speed { return Speed(x) }

// FtS returns the speed in feet per second.
func (s Speed) FtS() float64 { return float64(s) }

// MS returns the speed in metres per second.
func (s Speed) MS() float64 { return float64(s) * 0.3048 }

// Force is a spring load in pounds-force.
type Force float64

// PoundsForce returns x lbf.
func PoundsForce(x float64) Force { return Force(x) }

// Newtons returns x N (1 lbf = 0.45359237 kg x g_n, exact).
func Newtons(x float64) Force { return Force(x / (gramPerPound / 1000 * StandardGravity)) }

// Lbf returns the load in pounds-force.
func (f Force) Lbf() float64 { return float64(f) }

// N returns the load in newtons.
func (f Force) N() float64 { return float64(f) * gramPerPound / 1000 * StandardGravity }
