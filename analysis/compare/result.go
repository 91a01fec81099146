// Package compare brings the heads of one family to a common basis and ranks
// them: flow at one pressure and bore, cost of a usable set, value, curve shape,
// and above all what is a tie. It is pure: records and a date in, results out.
package compare

import (
	"time"

	"github.com/shopspring/decimal"

	"flowshelf/analysis/curve"
	"flowshelf/analysis/head"
	"flowshelf/analysis/pricelist"
	"flowshelf/analysis/quantity"
	"flowshelf/analysis/source"
)

// Comparison is everything known about one family on one date. A writer only
// lays it out; no writer computes a figure or decides an order.
type Comparison struct {
	Family head.Family
	Rules  head.Rules
	Shop   string
	Date   time.Time
	Worth  Worth

	Ranked     []Entry // grades A and B with a price, in the order of value
	Unpriced   []Entry // grades A and B without any cost, by working average; no place
	BelowLine  []Entry // grade C: scored, never placed among tested heads
	Advertised []Entry // grade D or claims only
	NotRanked  []NotRanked

	Frontier  []Step
	Gaps      []Gap         // advertised against tested, one a head and port
	Suppliers []SupplierGap // records over all families, of the suppliers with a gap in this one
	Problems  source.Problems
	Questions source.Problems // the open ones of its heads, those that reading the books raised among them
	Cautions  []string
	Warnings  []string // what a reader of the order must know: the choice of average matters
	Settings  []Setting
	Summary   Summary

	Cam        string // which cam the averages over time rest on, "" for none
	Engine     EngineNeeds
	Rework     []ReworkOrBuy
	LeadsTo    Maybe // sell price a set up to which the leader stays first
	LeadsWords string
	Benches    []BenchRecord // of the suppliers of this family, over all families
	BenchDays  []BenchDay    // our own bench, the newest day first
	BenchWords string
}

// Worth is what one cfm of working average is worth, in money a set.
type Worth struct {
	PerCFM float64 // in the shop's currency
	Known  bool
	Origin string // "set by the shop" or "going rate of the shelf (Theil-Sen slope)"
}

// Entry is one head in one state.
type Entry struct {
	Head     string
	State    string // "as delivered" when it is one of several states, else ""
	Label    string // "VR-84 + valve job": unique within the family
	Supplier string
	Grade    Grade
	Flags    []Flag

	Place     Place
	Intake    *PortResult
	Exhaust   *PortResult
	NoPipe    *PortResult // the exhaust without a pipe, where it was flowed both ways
	EI        Ratio       // exhaust over intake, working averages
	EINoPipe  Ratio       // the same with the exhaust flowed without a pipe
	Low       Maybe       // intake flow at .200 in, cfm
	Mid       Maybe       // mean of .300 to .400 in
	High      Maybe       // mean from .500 in to the range's top
	AtTop     Maybe       // intake flow at the range's top, cfm
	Cost      Cost
	Value     Maybe   // worth x working average - usable cost, money a set
	ValueU    float64 // its standard uncertainty
	PerCFM    Maybe   // usable cost / working average
	PerExtra  Maybe   // against the base head; unknown for the base itself
	IsBase    bool
	Bare      bool      // comes without valves and springs, and the shop puts its own in
	BestBuy   *Interval // worth of a cfm for which nobody beats it; nil when never
	BeatenBy  []string  // labels that flow as much for as little, one of them strictly
	TiePrice  Maybe     // sell price a set that ties the leader's value
	TieBelow  Below     // whether that price is below the landed cost
	TieMargin Maybe     // what that price would leave over the landed cost, a share of it
	RatioTie  Maybe     // sell price a set at which a cfm costs what the leader's does
	Shape     Shape
	Air       Air
	PerCC     Maybe // peak cfm a cc of runner
	SpringsTo SpringVerdict

	Orders     Orders     // by flow alone, under three averages
	LowLift    LowLift    // the seat and the port held against heads of its valve size
	Against    []Against  // the leader and the base head, lift by lift
	Demand     Demand     // in the reference engine
	Sizes      Sizes      // its dimensions held against one another
	Equivalent Equivalent // of an untested head: what its figure comes to here

	Dimensions *head.Dimensions
	Stock      *head.StockItem
	Extras     []head.Extra // those that apply or may apply
	Notes      []head.Note
	Verdict    string   // one plain sentence
	Reasons    []string // why it stands where it stands
	Earlier    []string // earlier samples and what they read, in words
}

// Maybe is a derived number that may not be had; Why says why not.
type Maybe struct {
	Value float64
	Known bool
	Why   string
}

// Grade is the grade of evidence.
type Grade byte

// The grades of evidence.
const (
	GradeA Grade = 'A' // own bench, at the reference bore and pressure, two or more ports or samples
	GradeB Grade = 'B' // own bench otherwise
	GradeC Grade = 'C' // supplier's sheet with full conditions
	GradeD Grade = 'D' // claim, or conditions missing
)

// Flag is a short mark with its words.
type Flag struct{ Code, Words string }

// Place is the rank with its ties.
type Place struct {
	Number    int // 0 for no place
	Shared    bool
	TiedWith  []string
	Group     int     // tie group from the top, 1-based
	Best      int     // rank interval
	Worst     int     //
	FirstIn10 float64 // in how many of ten reruns inside the noise it comes first
}

// PortResult is one port's curve on the common basis.
type PortResult struct {
	Port     head.Port
	Points   []LiftPoint // by lift
	Curve    curve.Curve
	Verdict  curve.Verdict
	Words    string // the verdict in the trade's words; "can't say" with the reason
	WithHeld string // why a shape verdict is withheld, "" when it is not

	Working  Maybe   // mean over the working range, cfm at the reference pressure
	WorkingU float64 // its standard uncertainty, cfm
	Parts    []UPart
	MidMean  Maybe
	MidArea  Maybe // cfm in
	CamMean  Maybe // intake: mean over the time the family's cam holds the valve open, cfm
	MoreCam  MoreCam
	PeakIn   LiftFlow
	PeakAll  LiftFlow
	Last     quantity.Length
	Coverage float64 // share of the working range that was tested

	Bore     source.Stated[quantity.Length]
	BoreHow  BoreHow
	BoreNote string
	Pressure source.Stated[quantity.Pressure] // as tested
	Pipe     head.Pipe
	Entry    string
	Bench    string
	Class    head.Class
	Date     source.Stated[time.Time]
	Sample   string
	Ports    int // ports or cylinders behind the curve
	Runs     int
	Spread   Maybe        // widest difference between ports, cfm
	SpreadPC Maybe        // the same in percent of the mean
	WorstAt  string       // which port is the worst
	Tests    []*head.Test // the tests the curve is made of
	Traces   []source.Trace

	Each     []PortCurve // the ports one by one, when several were tested
	SetAside []Used      // readings that are not in the curve; the last step says why
}

// PortCurve is one port of a sample by itself, at the reference pressure, as
// tested.
type PortCurve struct {
	Mark    string // "3", "A"
	Points  []LiftPoint
	Working Maybe
	Words   string
}

// LiftFlow is a flow and its lift.
type LiftFlow struct {
	Lift quantity.Length
	Flow quantity.Flow
}

// LiftPoint is one measured lift on the common basis.
type LiftPoint struct {
	Lift   quantity.Length
	Flow   quantity.Flow // at the reference pressure and, where brought over, bore
	U      float64       // standard uncertainty that is not shared along the curve, cfm
	From   []Used        // the readings behind it, one a port or run
	Remark string
}

// Used is one reading's way into a point.
type Used struct {
	Test    *head.Test
	Reading *head.Reading
	Flow    quantity.Flow // at the reference pressure
	Steps   []string      // conversions made by the calculation
}

// BoreHow says how a curve came to the reference bore.
type BoreHow uint8

// The ways, best first.
const (
	TestedAtReference BoreHow = iota
	BetweenOwnPair
	SameClass
	Estimated
	NotBroughtOver
	BoreUnknown
)

// String returns the words a sheet shows.
func (b BoreHow) String() string {
	return [...]string{
		"tested at it", "between its own two bores", "same class", "estimated", "not brought over", "bore not stated",
	}[b]
}

// UPart is one component of an uncertainty.
type UPart struct {
	Name   string
	CFM    float64
	Shared bool // shared by a whole test pressure or bench: shown, and not part of WorkingU
}

// Ratio is exhaust over intake with what it rests on.
type Ratio struct {
	Maybe
	Pipe    head.Pipe
	Low     float64 // band when the pipe is not stated
	High    float64
	Unusual bool // below .60 or above 1.00: worth a look, never scored
}

// Cost is the build-up of a set.
type Cost struct {
	HeadsPerSet int
	Sell        source.Stated[quantity.Money] // heads as sold, a set
	Proposed    bool                          // landed / (1 - target margin) because no sell price is set
	Lines       []CostLine                    // extras, springs, rework
	Usable      source.Stated[quantity.Money] // a set, the customer's
	Landed      source.Stated[quantity.Money] // a set, the shop's
	LandedParts []CostLine
	Quoted      source.Stated[quantity.Money]  // a head in the money it is bought in, discounts taken
	Rate        source.Stated[decimal.Decimal] // of that money, where it is not the shop's
	Freight     source.Stated[quantity.Money]  // a head
	Carried     pricelist.Foreign              // the freight in the money it is asked in
	Apart       pricelist.Foreign              // a head's surcharges in other money than its price
	SpringsTo   source.Stated[quantity.Length] // lift of the springs in the price, where its list says it, or of those the shop puts in
	Minimum     source.Stated[quantity.Money]  // a set: the supplier lets nobody advertise it for less
	Margin      Maybe                          // of the sell price
	Markup      Maybe                          // the same money as a share of the landed cost
	Work        Work                           // what the shop puts into a set
	JobMargin   Maybe                          // of all that is paid to the shop for heads, its parts and its work; as Margin where it puts in nothing
	Missing     string                         // why the usable cost is not known: the first reason
	Wants       []string                       // what would make it known, each thing once: not always a price
	PriceList   string                         // which list the landed cost rests on
	ValidFrom   source.Stated[time.Time]
	Coming      []head.Price // lists that are not in force yet
	Waiting     []head.Price // prices that wait for an answer
	Superseded  []head.Price // older lists that the one in force took the place of, the newest first
}

// Work is what the shop puts into a set, its own work and the parts of a bare
// head, at what it costs the shop. What the customer pays for it stands in the
// lines.
type Work struct {
	Hours source.Stated[decimal.Decimal] // that count at the labour rate
	Rate  source.Stated[quantity.Money]  // an hour
	Parts source.Stated[quantity.Money]  // parts and tooling, and work whose hours are not stated
	Cost  source.Stated[quantity.Money]  // hours x rate + parts
	Why   string                         // why there is no cost, "" when there is or when there is no work
}

// CostLine is one thing in a cost.
type CostLine struct {
	Kind   CostKind
	Item   string
	Amount quantity.Money // a set
	Trace  source.Trace
}

// CostKind sorts cost lines.
type CostKind uint8

// The kinds.
const (
	HeadsCost CostKind = iota
	FreightCost
	ExtraCost
	SpringCost
	ReworkCost
)

// Interval is a range of worth; To < 0 means without end.
type Interval struct{ From, To float64 }

// Below says how a tie price compares with the landed cost.
type Below uint8

// The answers.
const (
	BelowUnknown Below = iota
	AboveLanded
	BelowLanded
)

// Shape is the absolute score of the curve's shape with its three parts, each
// 0 to 100.
type Shape struct {
	Known            bool
	Why              string // why there is none
	AtLeast          bool
	Mid, Stall, Peak float64
	Score            float64
	StallLift        quantity.Length // the lift the stall part was taken at; 0 when not reached
}

// Air is the air speed at the minimum cross-section in the reference engine.
type Air struct {
	Speed   Maybe // ft/s, peak-piston-speed form
	Verdict string
}

// SpringVerdict says whether the fitted springs reach the range's top.
type SpringVerdict struct {
	Known   bool
	MaxLift quantity.Length
	Spare   quantity.Length
	Words   string
}

// NotRanked is a head or state left out, and what would bring it in.
type NotRanked struct {
	Head, State, Label string
	Reason             string
	Missing            []string
	Problems           source.Problems
	Held               bool // tested, but held until a question is answered
	Stray              bool // belongs to no family of the setup: named in every comparison, counted in none
	Entry              *Entry
	Stock              *head.StockItem // nil when no stock book in force names it
	Sell               source.Stated[quantity.Money]
}

// Step is one corner of the frontier of heads that are the best buy for some
// worth of a cfm.
type Step struct {
	Label  string
	Range  Interval
	Margin Maybe   // dollars for each added cfm over the step below
	U      float64 // its standard uncertainty, from the flows'
	Noise  bool    // the step is inside the noise
	Words  string  // "$12.46 ± 1.10 a cfm", "not distinguishable in flow from ..."
}

// Setting is one figure the comparison used.
type Setting struct{ Name, Value, Origin string }

// Summary is the printed page in words.
type Summary struct {
	BestBuy, RunnerUp, OnlyIf []string
	LeftOut                   []string
	Warnings                  []string
	Counts                    Counts
}

// Counts are the heads of the family by what became of them.
type Counts struct{ Heads, Ranked, Flagged, NotRanked, BelowLine, Advertised int }
