package curve

import "flowshelf/analysis/quantity"

// Other averages of the same readings, for the question whether the choice of
// average decides a place. Mean is the one that ranks.

// Trapezoid returns the mean flow over a lift window with straight lines between
// the readings, and the share of the window they cover. It cuts the bulge off a
// healthy curve, 0.6 % on .100 in steps. Zero coverage as for Mean.
func (c Curve) Trapezoid(from, to quantity.Length) (mean quantity.Flow, coverage float64) {
	a, b, share := c.covered(from, to)
	if share == 0 {
		return 0, 0
	}
	area := 0.0
	for i := range len(c.x) - 1 {
		low, high := max(a, c.x[i]), min(b, c.x[i+1])
		if low >= high {
			continue
		}
		// The line's mean over the piece is its value half way along.
		slope := (c.y[i+1] - c.y[i]) / (c.x[i+1] - c.x[i])
		area += (high - low) * (c.y[i] + slope*((low+high)/2-c.x[i]))
	}
	return quantity.CFM(area / (b - a)), share
}

// Rows returns the plain average of the readings on a lift window, ends
// included, and how many there are. It drifts with the steps of the sheet (1.4 %
// between .100 and .050 in), so it never compares two sheets.
func (c Curve) Rows(from, to quantity.Length) (mean quantity.Flow, rows int) {
	sum := 0.0
	for _, p := range c.Readings() {
		if p.Lift >= from-sameLift && p.Lift <= to+sameLift {
			sum += p.Flow.CFM()
			rows++
		}
	}
	if rows == 0 {
		return 0, 0
	}
	return quantity.CFM(sum / float64(rows)), rows
}
