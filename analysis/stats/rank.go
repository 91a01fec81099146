package stats

import "math"

// Level is the probability from which one head counts as better than another;
// below it the two are tied.
const Level = 0.95

// Score is a figure to be ranked, more being better, and its standard
// uncertainty in the same unit.
type Score struct{ Value, U float64 }

// Beats returns the probability that a is truly above b when both are normal and
// their errors correlate by rho:
//
//	P = Phi((a - b)/sqrt(ua^2 + ub^2 - 2 rho ua ub)).
//
// Two scores without any uncertainty are 1, 0 or, when equal, 0.5. Errors shared
// by both (one bench, one test pressure) are left out of both U instead of given
// a rho where they are known apart.
func Beats(a, b Score, rho float64) float64 {
	spread := math.Sqrt(max(a.U*a.U+b.U*b.U-2*rho*a.U*b.U, 0))
	switch d := a.Value - b.Value; {
	case d == 0:
		return 0.5
	case spread == 0 && d > 0:
		return 1
	case spread == 0:
		return 0
	default:
		return phi(d / spread)
	}
}

// phi is the standard normal distribution function.
func phi(z float64) float64 { return math.Erfc(-z/math.Sqrt2) / 2 }

// Pairwise returns the probability that entrant i is above entrant j.
type Pairwise func(i, j int) float64

// Independent compares scores whose errors have nothing in common.
func Independent(scores []Score) Pairwise {
	return func(i, j int) float64 { return Beats(scores[i], scores[j], 0) }
}

// Place is a place in a ranking; Shared when several have it.
type Place struct {
	Number int
	Shared bool
}

// Places gives n entrants, already in falling order, their places: from the top,
// the first of a group and all that follow while it does not beat them with
// probability Level share a place; the next starts a group with the place its
// position has. "1= 1= 1= 4 5".
//
// Everyone in a group is tied with its first, not always with one another: a tie
// is not transitive.
func Places(n int, beats Pairwise) []Place {
	places := make([]Place, n)
	for first := 0; first < n; {
		end := first + 1
		for end < n && beats(first, end) < Level {
			end++
		}
		for i := first; i < end; i++ {
			places[i] = Place{Number: first + 1, Shared: end-first > 1}
		}
		first = end
	}
	return places
}

// Interval is the places an entrant may truly have, and the mean of them.
type Interval struct {
	Best, Worst int
	Expected    float64
}

// Intervals returns what places each of n entrants may truly have: best is one
// more than the number that beat it with probability above Level, worst is n
// less the number it so beats, expected is one plus the sum of the probabilities
// that each other is above it.
//
// Source: H. Goldstein and D. J. Spiegelhalter, "League tables and their
// limitations", J. R. Statist. Soc. A 159 (1996) 385-443, for showing rank
// intervals (from memory); the pairwise bounds are our own.
func Intervals(n int, beats Pairwise) []Interval {
	out := make([]Interval, n)
	for i := range out {
		out[i] = Interval{Best: 1, Worst: n, Expected: 1}
		for j := range n {
			if i == j {
				continue
			}
			lose := beats(j, i)
			out[i].Expected += lose
			if lose > Level {
				out[i].Best++
			}
			if beats(i, j) > Level {
				out[i].Worst--
			}
		}
	}
	return out
}

// BarHalfWidth is the half width, in standard uncertainties, of bars that just
// touch when two equally uncertain figures differ at the 95 % level: 1.96/sqrt2.
const BarHalfWidth = 1.959963984540054 / math.Sqrt2
