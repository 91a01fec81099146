package curve

import "flowshelf/analysis/quantity"

// Flat is a stretch of lift over which a port gains nothing beyond the noise.
// It can lie in a curve that creeps up again later.
type Flat struct {
	From, To quantity.Length
	// Gain is the flow from the start of the stretch to the largest later
	// reading: what the lift beyond From is worth.
	Gain quantity.Flow
}

// firstFlat returns the first stretch of at least the noise's span in which
// every reading stays within the noise of the stretch's first.
func firstFlat(q []Point, noise Noise) *Flat {
	for i, start := range q {
		end := i
		for end+1 < len(q) && !noise.above(q[end+1].Flow, start.Flow) && !noise.below(q[end+1].Flow, start.Flow) {
			end++
		}
		if end == i || !noise.spans(start.Lift, q[end].Lift) {
			continue
		}
		flat := &Flat{From: start.Lift, To: q[end].Lift}
		for _, later := range q[i:] {
			flat.Gain = max(flat.Gain, later.Flow-start.Flow)
		}
		return flat
	}
	return nil
}

// Dip is a reading below an earlier one by more than the noise, in a curve that
// later gets back to it: an unsettled port, often audible, not a stall.
type Dip struct {
	At      Point
	Against Point           // the largest reading before the dip
	Before  quantity.Length // the last reading before the dip
	// RecoversAt is the first later lift back within the noise of Against.
	RecoversAt quantity.Length
}

// Depth is the flow below the reading the dip is held against.
func (d Dip) Depth() quantity.Flow { return d.Against.Flow - d.At.Flow }

// Share is the depth as a share of the reading the dip is held against.
func (d Dip) Share() float64 { return float64(d.Depth() / d.Against.Flow) }

// dips returns every reading that lies in a dip, in order of lift.
func dips(q []Point, noise Noise) []Dip {
	var found []Dip
	high := 0 // the largest reading so far
	for k := 1; k < len(q); k++ {
		if q[k].Flow > q[high].Flow {
			high = k
		}
		if !noise.below(q[k].Flow, q[high].Flow) {
			continue
		}
		for _, later := range q[k+1:] {
			if !noise.below(later.Flow, q[high].Flow) {
				found = append(found, Dip{
					At: q[k], Against: q[high], Before: q[k-1].Lift, RecoversAt: later.Lift,
				})
				break
			}
		}
	}
	return found
}
