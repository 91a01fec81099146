package head

import (
	"time"

	"github.com/shopspring/decimal"

	"flowshelf/analysis/quantity"
	"flowshelf/analysis/source"
)

// Basis is how many heads one price buys.
type Basis uint8

// The bases. A price whose basis is not stated never enters a sum.
const (
	BasisNotStated Basis = iota
	Each
	Pair
	Set
)

// String returns the words a sheet shows.
func (b Basis) String() string { return [...]string{"not stated", "each", "pair", "set"}[b] }

// Heads returns how many heads the basis buys for a family that needs perSet
// heads a set, 0 when the basis is not stated.
func (b Basis) Heads(perSet int) int {
	return [...]int{0, 1, 2, perSet}[b]
}

// Rung is the step of the trade's price ladder.
type Rung uint8

// The rungs. Words are used loosely between suppliers; which one is the shop's
// cost is a setting per supplier.
const (
	RungNotStated Rung = iota
	List
	Jobber
	Dealer
	Net
	MinimumAdvertised
	Sell // the shop's own price to the customer
)

// String returns the words a sheet shows.
func (r Rung) String() string {
	return [...]string{"not stated", "list", "jobber", "dealer", "net", "minimum advertised", "sell"}[r]
}

// Price is one line of a price list.
type Price struct {
	Head       string
	HeadAt     source.Ref
	Family     string // from a separator row, "" when the list has none
	Supplier   string
	Build      string // "assembled", "bare", "" when not stated
	Rung       Rung
	Basis      Basis
	Amount     source.Stated[quantity.Money]
	Discounts  []decimal.Decimal // chain in percent: 50, 10, 5; applied one after the other
	ChainAt    source.Trace
	Freight    source.Stated[quantity.Money] // a head
	Surcharges []Surcharge
	Effective  source.Stated[time.Time]
	Until      source.Stated[time.Time]       // last day of a price that ends
	MaxLift    source.Stated[quantity.Length] // of the springs it is assembled with, where the list says it
	Status     Status
	Why        string
	Note       string // call, out till June, superseded by
	At         source.Ref
}

// Surcharge is what comes on top of a price: a share of it, or money a head.
type Surcharge struct {
	Name    string // "metal surcharge"
	Percent decimal.Decimal
	On      Rung                          // List or Net: what the percentage is of
	Amount  source.Stated[quantity.Money] // a head, where it is money
	At      source.Ref
}

// StockItem is one line of a stock book on one date.
type StockItem struct {
	Head      string
	HeadAt    source.Ref
	Date      source.Stated[time.Time] // the book's date
	Build     string                   // "assembled", "bare", "" when not stated
	OnHand    source.Stated[int]       // heads
	Committed source.Stated[int]
	OnOrder   source.Stated[int]
	Hand      Hand               // of a part that goes on one side
	Left      source.Stated[int] // of the heads on hand, where they come as left and right parts
	Right     source.Stated[int]
	SoldIn    Basis                  // what the sales were counted in
	Sold12    source.Stated[float64] // sets in twelve months
	Sold90    source.Stated[float64] // sets in ninety days
	LastSale  source.Stated[float64] // months ago
	Cost      source.Stated[quantity.Money]
	CostBasis Basis
	Freight   source.Stated[quantity.Money] // a head
	Sell      source.Stated[quantity.Money]
	SellBasis Basis
	LeadWeeks source.Stated[float64]
	Status    Status
	Why       string
	At        source.Ref
}

// Sales is one line of a book of sales by month that counts no stock.
type Sales struct {
	Head   string
	HeadAt source.Ref
	Date   source.Stated[time.Time] // up to which they were sold
	Sold12 source.Stated[float64]   // sets in the twelve months up to then
	Status Status
	Why    string
	At     source.Ref
}

// Need says when an extra has to be bought.
type Need uint8

// The needs.
const (
	NeedNotStated Need = iota
	Always
	LiftAbove // Threshold is a lift
	BoreBelow // Threshold is a bore
	Depends   // on the customer's engine, in words
	WhenBare  // of a head that comes bare: one of the parts the shop puts in
)

// Extra is something else a head needs.
type Extra struct {
	Head      string
	HeadAt    source.Ref
	Item      string
	Need      Need
	Threshold quantity.Length
	Words     string // the condition as written
	Price     source.Stated[quantity.Money]
	Basis     Basis
	Internal  source.Stated[quantity.Money]  // what it costs the shop
	Who       string                         // who buys or does it, as written
	Springs   bool                           // a spring kit: bought when the lift exceeds the fitted springs' limit
	SpringsTo source.Stated[quantity.Length] // lift that the springs are good for, where the item says it
	Status    Status
	Why       string
	At        source.Ref
}

// Rework is one line of the shop's own menu.
type Rework struct {
	Name     string
	Price    source.Stated[quantity.Money] // the customer's
	Internal source.Stated[quantity.Money] // what it costs the shop
	Basis    Basis
	Hours    source.Stated[float64]
	Status   Status
	Why      string
	At       source.Ref
}
