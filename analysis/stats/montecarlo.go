package stats

import (
	"cmp"
	"math"
	"math/rand/v2"
	"slices"
)

// Draws is the number of draws that keep a probability within about 0.01.
const Draws = 20000

// Drawn is what happened to one entrant when all scores were moved inside their
// noise again and again.
type Drawn struct {
	First     float64 // share of the draws in which it was first
	Low, High int     // places at 2.5 % and 97.5 % of the draws
}

// Draw moves every score by a normal error of its own U, independently, and
// counts places. The random source is fixed, so the same scores in the same
// order give the same answer: sort them before. Source: JCGM 101:2008 for
// propagation by draws (from memory).
func Draw(scores []Score, draws int) []Drawn {
	out := make([]Drawn, len(scores))
	if len(scores) == 0 || draws < 1 {
		return out
	}
	random := rand.New(rand.NewPCG(1, 2)) //nolint:gosec // repeatable draws are the point, no secret hangs on them
	counts := make([][]int, len(scores))  // by entrant and place
	for i := range counts {
		counts[i] = make([]int, len(scores))
	}
	values := make([]float64, len(scores))
	order := make([]int, len(scores))
	for range draws {
		for i, s := range scores {
			values[i] = s.Value + s.U*random.NormFloat64()
			order[i] = i
		}
		slices.SortStableFunc(order, func(a, b int) int { return cmp.Compare(values[b], values[a]) })
		for place, i := range order {
			counts[i][place]++
		}
	}
	for i := range out {
		out[i] = Drawn{
			First: float64(counts[i][0]) / float64(draws),
			Low:   placeAt(counts[i], 0.025*float64(draws)),
			High:  placeAt(counts[i], 0.975*float64(draws)),
		}
	}
	return out
}

// placeAt is the first place by which more than upTo draws are counted.
func placeAt(counts []int, upTo float64) int {
	sum := 0
	for place, n := range counts {
		sum += n
		if float64(sum) > upTo {
			return place + 1
		}
	}
	return len(counts)
}

// InTen says a probability as "first in 7 of 10" does, in whole tenths.
func InTen(p float64) int { return int(math.Round(10 * min(max(p, 0), 1))) }
