package quantity

// Flow is an actual volume flow in cubic feet a minute at the inlet of the
// test piece, which is what a flow bench reports. A mass flow (kg/h, scfm) is
// not a Flow: it needs a stated density first.
type Flow float64

// CFM returns x cubic feet a minute.
func CFM(x float64) Flow { return Flow(x) }

// LitresPerSecond returns x L/s (1 cfm = 0.4719474432 L/s, exact).
func LitresPerSecond(x float64) Flow { return Flow(x / 1000 / m3PerCubicFoot * 60) }

// CubicMetresPerHour returns x m3/h (1 cfm = 1.69901079552 m3/h, exact).
func CubicMetresPerHour(x float64) Flow { return Flow(x / 60 / m3PerCubicFoot) }

// CubicMetresPerMinute returns x m3/min (1 cfm = 0.028316846592 m3/min, exact).
func CubicMetresPerMinute(x float64) Flow { return Flow(x / m3PerCubicFoot) }

// CubicMetresPerSecond returns x m3/s.
func CubicMetresPerSecond(x float64) Flow { return Flow(x * 60 / m3PerCubicFoot) }

// CFM returns the flow in cubic feet a minute.
func (f Flow) CFM() float64 { return float64(f) }

// LS returns the flow in litres a second.
func (f Flow) LS() float64 { return float64(f) * m3PerCubicFoot / 60 * 1000 }

// M3H returns the flow in cubic metres an hour.
func (f Flow) M3H() float64 { return float64(f) * m3PerCubicFoot * 60 }

// M3Min returns the flow in cubic metres a minute.
func (f Flow) M3Min() float64 { return float64(f) * m3PerCubicFoot }

// M3S returns the flow in cubic metres a second.
func (f Flow) M3S() float64 { return float64(f) * m3PerCubicFoot / 60 }
