package quantity

// Pascals to one conventional unit. The conventional inch of water is
// 25.4 mm x 1000 kg/m3 x g_n; the other definitions of the inch of water (4 C,
// 60 F, 68 F) differ by at most 0.18 % in pressure, 0.09 % in flow, so an
// unqualified inch of water is read as the conventional one.
const (
	paPerInH2O = 249.08891
	paPerMMH2O = 9.80665
	paPerInHg  = 3386.38864034 // 25.4 mm x 13595.1 kg/m3 x g_n; SP 811 lists 3.386 389 E+03
	paPerPSI   = 6894.757293168361

	paPerInH2O4C  = 249.082 // SP 811, inch of water (39.2 F), 2.490 82 E+02
	paPerInH2O60F = 248.84  // SP 811, inch of water (60 F), 2.4884 E+02
	paPerInH2O68F = 0.0254 * 998.207 * StandardGravity
)

// Pressure is a pressure or depression in conventional inches of water.
type Pressure float64

// InchesOfWater returns x conventional inH2O.
func InchesOfWater(x float64) Pressure { return Pressure(x) }

// InchesOfWater4C returns x inches of water at 4 C (39.2 F).
func InchesOfWater4C(x float64) Pressure { return Pressure(x * paPerInH2O4C / paPerInH2O) }

// InchesOfWater60F returns x inches of water at 60 F.
func InchesOfWater60F(x float64) Pressure { return Pressure(x * paPerInH2O60F / paPerInH2O) }

// InchesOfWater68F returns x inches of water at 68 F (20 C; water 998.207
// kg/m3, from memory).
func InchesOfWater68F(x float64) Pressure { return Pressure(x * paPerInH2O68F / paPerInH2O) }

// MillimetresOfWater returns x conventional mmH2O.
func MillimetresOfWater(x float64) Pressure { return Pressure(x / mmPerInch) }

// Pascals returns x Pa.
func Pascals(x float64) Pressure { return Pressure(x / paPerInH2O) }

// Kilopascals returns x kPa.
func Kilopascals(x float64) Pressure { return Pressure(x * 1000 / paPerInH2O) }

// Millibars returns x mbar (1 mbar = 1 hPa = 100 Pa).
func Millibars(x float64) Pressure { return Pressure(x * 100 / paPerInH2O) }

// InchesOfMercury returns x conventional inHg.
func InchesOfMercury(x float64) Pressure { return Pressure(x * paPerInHg / paPerInH2O) }

// PSI returns x pounds-force per square inch.
func PSI(x float64) Pressure { return Pressure(x * paPerPSI / paPerInH2O) }

// InH2O returns the pressure in conventional inches of water.
func (p Pressure) InH2O() float64 { return float64(p) }

// MMH2O returns the pressure in conventional millimetres of water.
func (p Pressure) MMH2O() float64 { return float64(p) * mmPerInch }

// Pa returns the pressure in pascals.
func (p Pressure) Pa() float64 { return float64(p) * paPerInH2O }

// KPa returns the pressure in kilopascals.
func (p Pressure) KPa() float64 { return float64(p) * paPerInH2O / 1000 }

// Mbar returns the pressure in millibars.
func (p Pressure) Mbar() float64 { return float64(p) * paPerInH2O / 100 }

// InHg returns the pressure in conventional inches of mercury.
func (p Pressure) InHg() float64 { return float64(p) * paPerInH2O / paPerInHg }

// PSI returns the pressure in pounds-force per square inch.
func (p Pressure) PSI() float64 { return float64(p) * paPerInH2O / paPerPSI }
