// Package head holds the domain: cylinder heads, their flow tests, prices,
// stock, dimensions, and the shop's own settings. It imports only quantities
// and sources, so that readers, the calculation and writers can all speak it.
package head

import (
	"time"

	"flowshelf/analysis/quantity"
	"flowshelf/analysis/source"
)

// Port is the side of the head that was flowed.
type Port uint8

// The ports.
const (
	Intake Port = iota + 1
	Exhaust
)

// String returns "intake" or "exhaust".
func (p Port) String() string { return [...]string{"", "intake", "exhaust"}[p] }

// Class is how near a figure is to the shop's own bench. Classes are never
// averaged with one another.
type Class uint8

// The classes.
const (
	ClassUnknown Class = iota
	Own                // the shop's own bench
	Supplier           // a supplier's sheet that states its conditions
	Advertised         // a claim
)

// String returns the stable word of a class.
func (c Class) String() string {
	return [...]string{"unknown", "own", "supplier", "advertised"}[c]
}

// Pipe says whether an exhaust port was flowed with a pipe on it.
type Pipe uint8

// The pipe states.
const (
	PipeNotStated Pipe = iota
	WithPipe
	WithoutPipe
)

// String returns the words a sheet shows.
func (p Pipe) String() string { return [...]string{"not stated", "with pipe", "no pipe"}[p] }

// Words returns the words of a sentence that has not said what is stated.
func (p Pipe) Words() string {
	if p == PipeNotStated {
		return "pipe not stated"
	}
	return p.String()
}

// Status is what became of one reading.
type Status uint8

// The statuses.
const (
	Used     Status = iota
	Asked           // waits for an answer
	SetAside        // understood and not used: summary row, older sample, hidden column
	Refused         // cannot be true, or cannot be read
)

// String returns the stable word of a status.
func (s Status) String() string {
	return [...]string{"used", "asked", "set_aside", "refused"}[s]
}

// Out reports whether no answer to another question would bring it in.
func (s Status) Out() bool { return s == SetAside || s == Refused }

// Reading is one flow at one lift, as the bench gave it.
type Reading struct {
	Lift    source.Stated[quantity.Length]
	Flow    source.Stated[quantity.Flow]      // at the test pressure, before any conversion to 28 inH2O
	Row     *source.Stated[quantity.Pressure] // the row's own test pressure, nil on the many sheets that have none a row
	Why     string                            // why it is not used
	Remark  string                            // the tester's words beside it: "backs up", "whistles"
	Status  Status
	AtLeast bool // off the scale: a floor, not a reading
	Doubted bool // the tester put a question mark to it
	Summary bool // peak, total, average or difference given by the sheet itself
}

// Pressure is the row's own test pressure, not known where the sheet has none a
// row.
func (r *Reading) Pressure() source.Stated[quantity.Pressure] {
	if r.Row == nil {
		return source.Stated[quantity.Pressure]{}
	}
	return *r.Row
}

// Test is one port of one head flowed once: a column of readings under one set
// of conditions.
type Test struct {
	Head     string // as written on the sheet until names are matched, then the shop's name
	HeadAt   source.Ref
	State    string // "" is as delivered; otherwise the words of the sheet, e.g. "valve job"
	Port     Port
	Class    Class
	By       string // bench, supplier or sender as named
	Sample   string // serial or sample mark
	PortMark string // "1", "3", "A": which of the head's ports
	Run      string // "1", "2" for repeats of the same set-up
	Ports    int    // how many ports the column is the mean of; 0 when the sheet does not say
	Date     source.Stated[time.Time]
	Operator string

	Bore     source.Stated[quantity.Length]   // fixture bore
	Pressure source.Stated[quantity.Pressure] // test pressure of the whole column
	Leak     source.Stated[quantity.Flow]
	Valve    source.Stated[quantity.Length] // valve head diameter where the flow sheet states it
	Pipe     Pipe
	PipeAt   source.Trace
	Entry    string // "radius plate", "clay", "manifold", "" when not stated

	Readings []Reading
	Remarks  []Remark
	Status   Status // the whole column's: e.g. SetAside for a hidden column
	Why      string
	Shape    string // which recogniser read it, for `inspect`
	At       source.Ref
}

// Remark is a note kept verbatim: a margin note, a cell comment, a footnote.
type Remark struct {
	Text string
	At   source.Ref
	Lift source.Stated[quantity.Length] // where it belongs to one reading
}
