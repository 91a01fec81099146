package compare

import (
	"cmp"
	"math"
	"slices"
)

// ratioBox bounds the shares of some heads, at the ends of the tree those of a
// single one. A search passes over a box in which nobody can be a neighbour.
type ratioBox struct {
	first  int          // the lowest place of its heads in the family's list
	halves [2]*ratioBox // none for a single head
	bounds [2][]float64 // the least and the most of every share
	sums   [2]ratioSums // the least and the most of the sums
	intake int          // how many of the shares are the intake's
}

// ratioSums are the sums of a head's readings at the shared lifts, cfm.
type ratioSums struct{ intake, exhaust float64 }

// The last two bounds are not shares but the logarithms of intake over exhaust,
// by the sums and by the peaks.
const besideShares = 2

// newRatioBox holds one head, by its readings at the shared lifts.
func newRatioBox(at int, e *Entry, intake, exhaust []int) *ratioBox {
	shares := make([]float64, 0, len(intake)+len(exhaust)+besideShares)
	shares, in := appendShares(shares, e.Intake.Points, intake)
	shares, ex := appendShares(shares, e.Exhaust.Points, exhaust)
	shares = append(shares, math.Log(in/ex), math.Log(float64(e.Intake.PeakAll.Flow/e.Exhaust.PeakAll.Flow)))
	sums := ratioSums{in, ex}
	return &ratioBox{first: at, bounds: [2][]float64{shares, shares}, sums: [2]ratioSums{sums, sums}, intake: len(intake)}
}

func appendShares(shares []float64, points []LiftPoint, at []int) (all []float64, sum float64) {
	from := len(shares)
	for _, i := range at {
		q := points[i].Flow.CFM()
		shares = append(shares, q)
		sum += q
	}
	for i := range shares[from:] {
		shares[from+i] /= sum
	}
	return shares, sum
}

// joined builds the tree over single heads: it halves them where their shares lie
// widest apart.
func joined(heads []*ratioBox) *ratioBox {
	if len(heads) == 1 {
		return heads[0]
	}
	b := &ratioBox{first: heads[0].first, intake: heads[0].intake, sums: heads[0].sums,
		bounds: [2][]float64{slices.Clone(heads[0].bounds[0]), slices.Clone(heads[0].bounds[1])}}
	for _, h := range heads[1:] {
		b.first = min(b.first, h.first)
		for i, x := range h.bounds[0] {
			b.bounds[0][i], b.bounds[1][i] = min(b.bounds[0][i], x), max(b.bounds[1][i], x)
		}
		b.sums[0] = ratioSums{min(b.sums[0].intake, h.sums[0].intake), min(b.sums[0].exhaust, h.sums[0].exhaust)}
		b.sums[1] = ratioSums{max(b.sums[1].intake, h.sums[1].intake), max(b.sums[1].exhaust, h.sums[1].exhaust)}
	}
	widest := b.widest()
	slices.SortFunc(heads, func(x, y *ratioBox) int {
		return cmp.Or(cmp.Compare(x.bounds[0][widest], y.bounds[0][widest]), cmp.Compare(x.first, y.first))
	})
	half := len(heads) / 2
	b.halves = [2]*ratioBox{joined(heads[:half]), joined(heads[half:])}
	return b
}

// widest returns the share whose bounds lie furthest apart in terms of what may
// lie between neighbours.
func (b *ratioBox) widest() int {
	out, most := 0, 0.0
	allowed := b.allowed(b)
	for i := range b.bounds[0] {
		if w := (b.bounds[1][i] - b.bounds[0][i]) / allowed[b.kind(i)]; w > most {
			out, most = i, w
		}
	}
	return out
}

// kind sorts the bounds: shares of the intake, of the exhaust, and the two ports
// by their sums and by their peaks.
func (b *ratioBox) kind(i int) int {
	switch n := len(b.bounds[0]); {
	case i < b.intake:
		return 0
	case i < n-besideShares:
		return 1
	default:
		return i - n + 4
	}
}

// allowed is how far the bounds of neighbours in two boxes may lie apart, by kind.
func (b *ratioBox) allowed(q *ratioBox) [4]float64 {
	const exact = 1 + 1e-9 // the shares are rounded
	return [4]float64{
		exact * ratioRounding / min(b.sums[0].intake, q.sums[0].intake),
		exact * ratioRounding / min(b.sums[0].exhaust, q.sums[0].exhaust),
		ratioOneSame / (1 - ratioOneSame), // no less than -ln(1 - x)
		peaksApart / (1 - peaksApart),
	}
}

// earliest returns the lowest place below limit of a head that q is a candidate
// of and that matches, limit when there is none.
func (b *ratioBox) earliest(q *ratioBox, limit int, repeatability float64, matches func(at int) bool) int {
	switch {
	case b.first >= limit || b.excludes(q, repeatability):
		return limit
	case b.halves[0] != nil:
		near, far := b.halves[0], b.halves[1]
		if far.first < near.first {
			near, far = far, near
		}
		limit = near.earliest(q, limit, repeatability, matches)
		return far.earliest(q, limit, repeatability, matches)
	case matches(b.first):
		return b.first
	}
	return limit
}

// excludes reports whether nobody in the box can be a neighbour of q, or all flow
// as much as q does.
func (b *ratioBox) excludes(q *ratioBox, repeatability float64) bool {
	in := q.sums[0].intake
	const exact = 1 - 1e-9
	if alike := repeatability * exact; in/b.sums[0].intake-1 <= alike && 1-in/b.sums[1].intake <= alike {
		return true
	}
	allowed := b.allowed(q)
	low, high := b.bounds[0], b.bounds[1]
	for i, x := range q.bounds[0] {
		if may := allowed[b.kind(i)]; x < low[i]-may || x > high[i]+may {
			return true
		}
	}
	return false
}
