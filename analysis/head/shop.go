package head

import (
	"time"

	"github.com/shopspring/decimal"

	"flowshelf/analysis/quantity"
	"flowshelf/analysis/source"
)

// Shop is what the shop has set in its own setup workbook.
type Shop struct {
	Name, Phone string
	Currency    string
	Rules       Rules
	Families    []Family
	Heads       []Listed
	Suppliers   []SupplierRule
	Benches     []Bench
	Orifices    []Orifice
	Rates       []Rate
	Words       []Word
	Found       bool // a setup workbook was there
	At          source.Ref
}

// Rules are the shop-wide figures of the method.
type Rules struct {
	Reference        quantity.Pressure // every flow is brought to it
	PressureLaw      PressureLaw
	Repeatability    float64       // relative: 0.01 is 1 %
	SmallestStep     quantity.Flow // a change below it never counts
	StallSpan        quantity.Length
	PortSpread       float64 // relative casting spread of one port, 1 sd
	LiftZero         quantity.Length
	TieUntil         float64 // probability
	BoreClass        quantity.Length
	EstimateBore     BoreEstimate
	TargetMargin     float64 // of the sell price
	MinimumMargin    float64 // of the sell price; a price that leaves less is flagged
	Ending           Ending  // of prices that we suggest; one the shop has set stays as it is
	QuoteDays        int     // how long the prices on a customer's sheet stand
	Paper            Paper   // what our workbooks are printed on
	DefaultFreight   source.Stated[quantity.Money]
	LabourRate       source.Stated[quantity.Money] // what an hour of the shop's own work costs it
	BenchFlag        float64                       // relative drift that flags the day's tests
	BenchHold        float64
	LeakLimit        quantity.Flow
	SlowMonths       float64
	SafetyMonths     float64
	DeadMonths       float64 // slow, and nothing sold for as long
	OrderMonths      float64 // of supply that an order brings the stock to, beyond the lead time
	StockFrom        float64 // sets a year from which a head is kept in stock
	MinimumCoverage  float64 // share of the working range that must be tested
	ImpossibleCurt   float64 // x curtain ceiling, intake and exhaust without pipe
	ImpossiblePipe   float64 // x curtain ceiling, exhaust with pipe
	OldTestMonths    float64
	MaximumQuestions int
}

// PressureLaw is how a flow is brought to the reference pressure.
type PressureLaw uint8

// The laws.
const (
	SquareRoot PressureLaw = iota
	Isentropic
)

// BoreEstimate says whether the shrouding estimate may be used.
type BoreEstimate uint8

// The settings.
const (
	NeverEstimate BoreEstimate = iota
	MayEstimate
)

// Paper is the paper that sheets are printed on.
type Paper uint8

// The papers.
const (
	Letter Paper = iota // 8.5 x 11 in
	A4                  // 210 x 297 mm, ISO 216
)

// Family is one engine family: heads are compared within it, never across.
type Family struct {
	Name           string
	HeadsPerSet    int
	ReferenceBore  quantity.Length
	EngineBore     source.Stated[quantity.Length]
	EngineStroke   source.Stated[quantity.Length]
	Cylinders      source.Stated[int]
	EngineRPM      source.Stated[float64]
	RangeFrom      quantity.Length // working range
	RangeTo        quantity.Length
	BandFrom       quantity.Length // mid-lift band
	BandTo         quantity.Length
	Worth          source.Stated[quantity.Money] // of one cfm of working average, a set
	BaseHead       string
	Anchors        Anchors
	Lazy, Choked   source.Stated[quantity.Speed]
	SpringsAreMust bool
	AirIsMust      bool
	CamLobe        source.Stated[quantity.Length] // lift at the tappet; not known: no cam average
	RockerRatio    source.Stated[float64]
	CamDuration    source.Stated[float64] // degrees between the 0.050 in tappet lift points
	TargetPower    source.Stated[float64] // horsepower of the reference engine that a flow is wanted for
	At             source.Ref
}

// Anchors are the fixed ends of the curve-shape score.
type Anchors struct {
	Known               bool
	MidLow, MidHigh     quantity.Flow
	PeakLow, PeakHigh   quantity.Flow
	StallLow            float64 // share of the range's top that scores 0; 0.70
	WMid, WStall, WPeak float64 // weights, sum 1
}

// Listed is one head the shop knows.
type Listed struct {
	Name, Family, Supplier string
	Also                   []string
	Left, Right            []string // part numbers, where a set takes as many of the one as of the other
	At                     source.Ref
}

// SupplierRule is what the shop has agreed with a supplier.
type SupplierRule struct {
	Name      string
	Cost      Rung // which rung is the shop's cost
	Discounts []decimal.Decimal
	Freight   source.Stated[quantity.Money] // a head
	Currency  string
	Basis     Basis
	BuysAt    source.Stated[int] // heads bought at a time: which price by quantity is ours
	Folder    string             // books in this folder come from this supplier
	Note      string
	At        source.Ref
}

// RangeScale is how a bench's percent-of-range scale is divided.
type RangeScale uint8

// The scales.
const (
	ScaleNotStated RangeScale = iota
	LinearInFlow
	LinearInPressure
)

// Bench is a flow bench the shop knows.
type Bench struct {
	Name, Owner string // Owner "own" for the shop's
	Own         bool
	Scale       RangeScale
	Entry       source.Stated[string]            // its usual entry to the intake
	Pipe        source.Stated[string]            // what the exhaust usually wears
	Fixtures    source.Stated[[]quantity.Length] // the bores that it has fixtures for
	Folder      string                           // books in this folder come from this bench
	Note        string
	At          source.Ref
}

// Orifice is an orifice, or a range, of a bench as the shop has calibrated it:
// what its manometer's readings are turned into flows by. Nothing stands in for
// what is not stated.
type Orifice struct {
	Name, Bench string // Name: its size or number, as the sheets write it
	Port        Port   // 0 serves both
	Flow        source.Stated[quantity.Flow]
	Drop        source.Stated[quantity.Pressure] // across it, at Flow
	Test        source.Stated[quantity.Pressure] // of the bench, at its calibration
	At          source.Ref
}

// Whole reports whether all of the calibration is stated.
func (o Orifice) Whole() bool { return o.Flow.Known && o.Drop.Known && o.Test.Known }

// Rate is one currency's worth in the shop's currency on a date.
type Rate struct {
	Currency string
	Value    decimal.Decimal
	AsOf     source.Stated[time.Time]
	At       source.Ref
}

// Word is a sender's word once learned.
type Word struct {
	Sender, Word, Means string
	At                  source.Ref
}

// DefaultRules are the figures used where the shop sets none. All are common
// practice with no source unless the method sheet names one.
func DefaultRules() Rules {
	return Rules{
		Reference: quantity.InchesOfWater(28), Repeatability: 0.01, SmallestStep: quantity.CFM(2),
		StallSpan: quantity.Inches(0.100), PortSpread: 0.01, LiftZero: quantity.Inches(0.002),
		TieUntil: 0.95, BoreClass: quantity.Inches(0.070), TargetMargin: 0.25, MinimumMargin: 0.15, Ending: NoEnding, QuoteDays: 30,
		BenchFlag: 0.01, BenchHold: 0.02, LeakLimit: quantity.CFM(3),
		SlowMonths: 9, SafetyMonths: 1.5, DeadMonths: 9, OrderMonths: 3, StockFrom: 4, MinimumCoverage: 0.95,
		ImpossibleCurt: 1.05, ImpossiblePipe: 1.10, OldTestMonths: 24, MaximumQuestions: 10,
	}
}
