package quantity

// Density is a density in kg/m3.
type Density float64

// KilogramsPerCubicMetre returns x kg/m3.
func KilogramsPerCubicMetre(x float64) Density { return Density(x) }

// PoundsPerCubicFoot returns x lb/ft3 (0.45359237 kg to the pound and
// 0.028316846592 m3 to the cubic foot, exact).
func PoundsPerCubicFoot(x float64) Density { return Density(x * gramPerPound / 1000 / m3PerCubicFoot) }

// KgM3 returns the density in kg/m3.
func (d Density) KgM3() float64 { return float64(d) }

// LbFt3 returns the density in pounds per cubic foot.
func (d Density) LbFt3() float64 { return float64(d) * m3PerCubicFoot / (gramPerPound / 1000) }

// kelvinAtZeroC is 0 C on the kelvin scale, exact.
const kelvinAtZeroC = 273.15

// Temperature is an absolute temperature in kelvin.
type Temperature float64

// Kelvin returns x K.
func Kelvin(x float64) Temperature { return Temperature(x) }

// Celsius returns x degrees Celsius.
func Celsius(x float64) Temperature { return Temperature(x + kelvinAtZeroC) }

// Fahrenheit returns x degrees Fahrenheit ((F - 32)/1.8 in C, exact).
func Fahrenheit(x float64) Temperature { return Celsius((x - 32) / 1.8) }

// K returns the temperature in kelvin.
func (t Temperature) K() float64 { return float64(t) }

// C returns the temperature in degrees Celsius.
func (t Temperature) C() float64 { return float64(t) - kelvinAtZeroC }

// F returns the temperature in degrees Fahrenheit.
func (t Temperature) F() float64 { return t.C()*1.8 + 32 }

// MassFlow is a mass flow in kg/s. The "standard" volumes of other trades
// (scfm, Nm3/h, SLPM) are mass flows too, at a reference state they must name.
type MassFlow float64

// KilogramsPerSecond returns x kg/s.
func KilogramsPerSecond(x float64) MassFlow { return MassFlow(x) }

// KilogramsPerHour returns x kg/h.
func KilogramsPerHour(x float64) MassFlow { return MassFlow(x / 3600) }

// PoundsPerMinute returns x lb/min.
func PoundsPerMinute(x float64) MassFlow { return MassFlow(x * gramPerPound / 1000 / 60) }

// KgS returns the mass flow in kg/s.
func (m MassFlow) KgS() float64 { return float64(m) }

// KgH returns the mass flow in kg/h.
func (m MassFlow) KgH() float64 { return float64(m) * 3600 }

// At returns the volume the mass takes up at a density, m / rho, and false for a
// density that is not positive: without one a mass flow is no volume flow.
func (m MassFlow) At(rho Density) (Flow, bool) {
	if !(rho > 0) {
		return 0, false
	}
	return CubicMetresPerSecond(float64(m) / float64(rho)), true
}

// Mass returns the mass the flow carries at a density, q rho, and false for a
// density that is not positive.
func (f Flow) Mass(rho Density) (MassFlow, bool) {
	if !(rho > 0) {
		return 0, false
	}
	return MassFlow(f.M3S() * float64(rho)), true
}
