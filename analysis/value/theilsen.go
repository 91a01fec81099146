package value

import (
	"cmp"
	"math"
	"slices"
)

// fewForAll is up to how many points every slope between two of them is written
// down: 45,000 slopes.
const fewForAll = 300

// TheilSen returns the median of the slopes (y_j - y_i)/(x_j - x_i) between all
// pairs with different x, and false when there is none or the lists differ in
// length. With an even number of slopes it is the mean of the middle two. Up to
// 300 points it is exact; for more it is found without writing the slopes down,
// in steps of n log n, and good to rounding.
func TheilSen(x, y []float64) (slope float64, ok bool) {
	if len(x) != len(y) {
		return 0, false
	}
	if len(x) > fewForAll {
		return middleSlope(x, y)
	}
	var slopes []float64
	for i := range x {
		for j := range i {
			if x[i] != x[j] {
				slopes = append(slopes, (y[i]-y[j])/(x[i]-x[j]))
			}
		}
	}
	if len(slopes) == 0 {
		return 0, false
	}
	slices.Sort(slopes)
	mid := len(slopes) / 2
	if len(slopes)%2 == 1 {
		return slopes[mid], true
	}
	return (slopes[mid-1] + slopes[mid]) / 2, true
}

type point struct{ x, y float64 }

// middleSlope is TheilSen by counting. No more than t are the slopes of the pairs
// that the offsets y - t x put the other way round than x does, and merging
// sorts and counts those in n log n steps; halving finds the t at which half of
// all slopes are counted.
//
// Source: J. Matousek, "Randomized optimal algorithm for slope selection", Inf.
// Process. Lett. 39 (1991) 183-187 for the counting (from memory); the halving
// is plain bisection.
func middleSlope(x, y []float64) (float64, bool) {
	points := make([]point, len(x))
	for i := range x {
		points[i] = point{x[i], y[i]}
	}
	slices.SortFunc(points, func(a, b point) int { return cmp.Or(cmp.Compare(a.x, b.x), cmp.Compare(a.y, b.y)) })
	s := &slopes{points: points, offsets: make([]float64, len(x)), room: make([]float64, len(x))}
	all := s.pairs()
	if all == 0 {
		return 0, false
	}
	steepest := s.steepest()
	lower := s.kth((all+1)/2, -steepest, steepest)
	if all%2 == 1 {
		return lower, true
	}
	return (lower + s.kth(all/2+1, lower, steepest)) / 2, true
}

// slopes are those between points in the order of x, with room to count them.
type slopes struct {
	points        []point
	offsets, room []float64
}

// runs calls do with the ends of each run of points with one x.
func (s *slopes) runs(do func(from, to int)) {
	for from := 0; from < len(s.points); {
		to := from + 1
		for to < len(s.points) && s.points[to].x == s.points[from].x {
			to++
		}
		do(from, to)
		from = to
	}
}

// pairs is the number of slopes.
func (s *slopes) pairs() int {
	n := len(s.points)
	out := n * (n - 1) / 2
	s.runs(func(from, to int) { out -= (to - from) * (to - from - 1) / 2 })
	return out
}

// steepest is no less than the size of any slope.
func (s *slopes) steepest() float64 {
	gap := math.Inf(1)
	low, high := s.points[0].y, s.points[0].y
	for i, p := range s.points {
		low, high = min(low, p.y), max(high, p.y)
		if i > 0 && p.x > s.points[i-1].x {
			gap = min(gap, p.x-s.points[i-1].x)
		}
	}
	return (high - low) / gap
}

// kth returns the k-th smallest slope, which lies between two others.
func (s *slopes) kth(k int, low, high float64) float64 {
	for {
		mid := low + (high-low)/2
		switch {
		case mid <= low || mid >= high:
			return high
		case s.upTo(mid) >= k:
			high = mid
		default:
			low = mid
		}
	}
}

// upTo counts the slopes of t and less.
func (s *slopes) upTo(t float64) int {
	of := func(from, to int) int {
		for i, p := range s.points[from:to] {
			s.offsets[from+i] = p.y - t*p.x
		}
		return turnedRound(s.offsets[from:to], s.room[from:to])
	}
	within := 0
	s.runs(func(from, to int) {
		if to-from > 1 {
			within += of(from, to)
		}
	})
	return of(0, len(s.points)) - within
}

// turnedRound sorts xs and counts the pairs of which the later is no larger.
func turnedRound(xs, room []float64) int {
	n := len(xs)
	if n < 2 {
		return 0
	}
	half := n / 2
	out := turnedRound(xs[:half], room[:half]) + turnedRound(xs[half:], room[half:])
	copy(room, xs)
	i, j := 0, half
	for k := range xs {
		if j == n || i < half && room[i] < room[j] {
			xs[k] = room[i]
			i++
			continue
		}
		xs[k] = room[j]
		out += half - i
		j++
	}
	return out
}
