package head

import (
	"time"

	"flowshelf/analysis/quantity"
	"flowshelf/analysis/source"
)

// Dimensions are the measured or stated facts of one head.
type Dimensions struct {
	Head   string
	HeadAt source.Ref

	IntakeValve   source.Stated[quantity.Length]
	ExhaustValve  source.Stated[quantity.Length]
	Stem          source.Stated[quantity.Length]
	StemWords     string // "11/32", "8 mm": as the trade writes it
	StemLength    source.Stated[quantity.Length]
	Throat        source.Stated[quantity.Length]
	MinSection    source.Stated[quantity.Area]
	Runner        source.Stated[quantity.Volume]
	ExhaustRunner source.Stated[quantity.Volume]
	Chamber       source.Stated[quantity.Volume]
	MaxLift       source.Stated[quantity.Length] // of the fitted springs, by the maker's statement
	SeatLoad      source.Stated[quantity.Force]
	OpenLoad      source.Stated[quantity.Force]
	Installed     source.Stated[quantity.Length]
	CoilBind      source.Stated[quantity.Length]
	WallClearance source.Stated[quantity.Length] // valve to bore wall, valve closed
	WallBore      source.Stated[quantity.Length] // the bore the clearance was measured on
	PortLength    source.Stated[quantity.Length] // centreline
	Weight        source.Stated[quantity.Mass]
	Valves        source.Stated[int] // intake valves a cylinder, when stated
	Material      string
	Process       string
	Samples       source.Stated[string] // "2 ports", "1", as written
	Measured      bool                  // measured here rather than stated by the supplier
	Other         []Fact                // kept for the head card
	At            source.Ref
}

// Fact is a dimension without a field of its own.
type Fact struct {
	Name  string
	Value string
	At    source.Ref
}

// Note is somebody's finding about a head.
type Note struct {
	Head   string
	HeadAt source.Ref
	Text   string
	For    Side
	By     string
	Date   source.Stated[time.Time]
	At     source.Ref
}

// Side says whether a note speaks for or against buying the head.
type Side uint8

// The sides.
const (
	Neither Side = iota
	For
	Against
)

// String returns "for", "against" or "".
func (s Side) String() string { return [...]string{"", "for", "against"}[s] }

// BenchCheck is one morning's look at the check plate.
type BenchCheck struct {
	Bench    string
	Date     source.Stated[time.Time]
	Nominal  source.Stated[quantity.Flow]
	Read     source.Stated[quantity.Flow]
	Leak     source.Stated[quantity.Flow]
	Operator string
	Remark   string
	At       source.Ref
}

// Enquiry is what a customer wants heads for.
type Enquiry struct {
	Name      string
	Bore      source.Stated[quantity.Length]
	Stroke    source.Stated[quantity.Length]
	Cylinders source.Stated[int]
	RPM       source.Stated[float64]
	Lift      source.Stated[quantity.Length] // at the valve
	Use       string
	Budget    source.Stated[quantity.Money]
	Musts     []string
	Family    string
	At        source.Ref
}

// Alias says that one name means another.
type Alias struct {
	Name, Ours, Supplier string
	At                   source.Ref
}

// Records is everything that was read, in the order of files and cells.
type Records struct {
	Tests      []Test
	Prices     []Price
	Stock      []StockItem
	Sales      []Sales // of books that count no stock
	Dimensions []Dimensions
	Extras     []Extra
	Rework     []Rework
	Notes      []Note
	Bench      []BenchCheck
	Enquiries  []Enquiry
	Aliases    []Alias
	Problems   source.Problems
	Answers    Answers // what people have said to questions about all this
}

// Append adds what another file held; the answers are those of the whole folder
// and stay.
func (r *Records) Append(o Records) {
	r.Tests = append(r.Tests, o.Tests...)
	r.Prices = append(r.Prices, o.Prices...)
	r.Stock = append(r.Stock, o.Stock...)
	r.Sales = append(r.Sales, o.Sales...)
	r.Dimensions = append(r.Dimensions, o.Dimensions...)
	r.Extras = append(r.Extras, o.Extras...)
	r.Rework = append(r.Rework, o.Rework...)
	r.Notes = append(r.Notes, o.Notes...)
	r.Bench = append(r.Bench, o.Bench...)
	r.Enquiries = append(r.Enquiries, o.Enquiries...)
	r.Aliases = append(r.Aliases, o.Aliases...)
	r.Problems = append(r.Problems, o.Problems...)
}
