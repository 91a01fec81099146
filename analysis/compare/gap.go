package compare

import (
	"flowshelf/analysis/head"
	"flowshelf/analysis/quantity"
	"flowshelf/analysis/source"
)

// Gap is an advertised figure beside the tested one.
type Gap struct {
	Head, Supplier string
	Port           head.Port
	Rows           []GapRow
	AtPeak         GapRow // at the advert's peak lift
	Advertised     Conditions
	Tested         Conditions
	Explained      string // "no", "part: bore", ...
}

// GapRow is one lift of a Gap.
type GapRow struct {
	Lift               quantity.Length
	Advertised, Tested quantity.Flow
	Percent            float64 // (tested - advertised) / advertised x 100
	Between            bool    // the tested flow is read off the curve: nothing that was measured at this lift is used
	Aside              string  // what was measured at this lift and why it is not used, "" for nothing
	From               []source.Trace
}

// Conditions are the conditions of a curve in words.
type Conditions struct{ Bore, Pressure, Pipe, Entry, Where, Dated string }

// SupplierGap is one supplier's record.
type SupplierGap struct {
	Supplier string
	Heads    int
	Median   float64 // percent
	Worst    float64
	Worded   string // "too few to say" below three heads
}
