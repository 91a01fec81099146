package curve

import "flowshelf/analysis/quantity"

// sameFlow is the difference in cfm that unit conversions may leave between two
// readings that are equal on paper. It decides exact borderlines: a rise of just
// the noise is noise.
const sameFlow = 1e-6

// Noise says which changes between two readings count.
type Noise struct {
	// Relative is the repeatability limit r: two readings of one point differ
	// by more than this share of the reading once in twenty times (ISO 5725-6).
	Relative float64
	// Floor is the smallest change that counts whatever r says: readings are
	// taken to a cfm or two.
	Floor quantity.Flow
	// Span is the lift that must have been measured past a level-off before it
	// is believed.
	Span quantity.Length
}

// DefaultNoise is 1 %, 2 cfm and .100 in: common practice for a shop bench at
// 28 inH2O, no source.
func DefaultNoise() Noise {
	return Noise{Relative: 0.01, Floor: quantity.CFM(2), Span: quantity.Inches(0.100)}
}

// Threshold returns the change from a flow q that counts: the larger of r q and
// the floor.
func (n Noise) Threshold(q quantity.Flow) quantity.Flow {
	return max(quantity.Flow(n.Relative)*q, n.Floor)
}

func (n Noise) above(q, than quantity.Flow) bool {
	return q-than > n.Threshold(than)+sameFlow
}

func (n Noise) below(q, than quantity.Flow) bool {
	return than-q > n.Threshold(than)+sameFlow
}

func (n Noise) spans(from, to quantity.Length) bool {
	return to-from >= n.Span-sameLift
}
