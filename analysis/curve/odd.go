package curve

import "flowshelf/analysis/quantity"

// How far a reading may lie above and below the straight line between its
// neighbours, as a share of the line: a healthy curve bulges by 0 to 11 %.
// Common practice, no source.
const (
	mostBulge  = 0.12
	mostHollow = 0.10
)

// Odd is a reading so far out of line that it is likelier a slip of the pen than
// the port.
type Odd struct {
	At Point
	// Expected is the flow at that lift of the curve drawn without the
	// reading: what to ask about, never what to use. Between is false for the
	// last reading, where there is no such flow.
	Expected quantity.Flow
	Between  bool
}

// OutOfLine returns the readings that bring a curve out of line: some reading
// lies more than 12 % above or 10 % below the line between its neighbours (the
// closed valve counting as one). A wrong reading spoils its neighbours' lines
// too, so the one whose absence leaves least out of line is taken out before the
// rest are judged again; the answer is in that order. Unusable readings are left
// out.
func OutOfLine(points []Point) []Odd {
	q, _ := Usable(points)
	var odd []Odd
	for excess(q) > 0 {
		worst := 0
		least := excess(without(q, 0))
		for i := 1; i < len(q); i++ {
			if left := excess(without(q, i)); left < least {
				worst, least = i, left
			}
		}
		o := Odd{At: q[worst]}
		q = without(q, worst)
		o.Expected, o.Between = through(q).At(o.At.Lift)
		odd = append(odd, o)
	}
	return odd
}

func without(q []Point, i int) []Point {
	return append(append(make([]Point, 0, len(q)), q[:i]...), q[i+1:]...)
}

// excess sums how far readings lie off their neighbours' lines, in allowances,
// beyond the first allowance. Nothing is out of line in fewer than two readings.
func excess(q []Point) float64 {
	sum := 0.0
	var before Point
	for i := range len(q) - 1 {
		after := q[i+1]
		t := quantity.Flow((q[i].Lift - before.Lift) / (after.Lift - before.Lift))
		share := float64(q[i].Flow/(before.Flow+t*(after.Flow-before.Flow))) - 1
		sum += max(share/mostBulge-1, -share/mostHollow-1, 0)
		before = q[i]
	}
	return sum
}
