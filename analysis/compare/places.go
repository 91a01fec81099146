package compare

import (
	"cmp"
	"math"
	"slices"
	"sort"

	"flowshelf/analysis/bore"
	"flowshelf/analysis/stats"
)

// rival is an entry as far as places go. floor is a difference in value that
// decides nothing by itself: a head that was not brought over to the reference
// bore may be off by as much.
type rival struct {
	stats.Score
	floor float64
}

func rivals(entries []Entry, worth float64) []rival {
	out := make([]rival, len(entries))
	for i := range entries {
		e := &entries[i]
		out[i] = rival{Score: stats.Score{Value: e.Value.Value, U: e.ValueU}}
		if how := e.Intake.BoreHow; how == NotBroughtOver || how == BoreUnknown {
			out[i].floor = bore.NotBroughtOnly * worth * e.Intake.Working.Value
		}
	}
	return out
}

// ProbabilityBeats is the chance that a is truly the better buy than b at the
// worth their values were worked out with. It is one half where a difference
// below 3 % of the flow decides nothing, because a head was not brought over to
// the reference bore.
func ProbabilityBeats(a, b *Entry, worth float64) float64 {
	pair := rivals([]Entry{*a, *b}, worth)
	return pair[0].beats(pair[1])
}

func (a rival) beats(b rival) float64 {
	if math.Abs(a.Value-b.Value) < max(a.floor, b.floor) {
		return 0.5
	}
	return stats.Beats(a.Score, b.Score, 0)
}

// places gives places with ties from the top, rank intervals, and how often each
// entry comes first inside the noise.
func (f *family) places(c *Comparison) {
	all := rivals(c.Ranked, c.Worth.PerCFM)
	level := f.tieLevel()
	first := 0
	for group, end := range tieGroups(all, level) {
		for i := first; i < end; i++ {
			c.Ranked[i].Place = Place{Number: first + 1, Shared: end-first > 1, Group: group + 1, TiedWith: tiedWith(c.Ranked[first:end], i-first)}
		}
		first = end
	}
	best, worst := intervals(all, level)
	chance := firstChance(all)
	for i := range c.Ranked {
		p := &c.Ranked[i].Place
		p.Best, p.Worst = best[i], worst[i]
		p.FirstIn10 = 10 * chance[i]
	}
}

// tieGroups returns where each group of tied rivals ends, from the top: the first
// of a group and all that follow while it does not surely beat them. Everyone is
// tied with the group's first, not always with one another.
func tieGroups(all []rival, level float64) []int {
	var ends []int
	first := 0
	for i := range all {
		if all[first].beats(all[i]) >= level {
			ends = append(ends, i)
			first = i
		}
	}
	if len(all) > 0 {
		ends = append(ends, len(all))
	}
	return ends
}

// tieLevel is the probability below which two heads are tied.
func (f *family) tieLevel() float64 {
	if f.rules.TieUntil > 0.5 && f.rules.TieUntil < 1 {
		return f.rules.TieUntil
	}
	return stats.Level
}

// tiedWith names the nearest members of a group, at most mostNamed.
func tiedWith(group []Entry, self int) []string {
	if len(group) < 2 {
		return nil
	}
	from := max(0, min(self-mostNamed/2, len(group)-mostNamed-1))
	var out []string
	for i := from; i < len(group) && len(out) < mostNamed; i++ {
		if i != self {
			out = append(out, group[i].Label)
		}
	}
	return out
}

// intervals returns the best and worst place each rival may truly have: one more
// than the number that surely beat it, and n less the number it surely beats.
// all must be in falling order of value.
//
// Whether one surely beats another depends on their distance and both
// uncertainties. Sorted by value, all but a narrow band are decided by the
// largest and smallest uncertainty alone, so that only the band is looked at
// pair by pair.
func intervals(all []rival, level float64) (best, worst []int) {
	n := len(all)
	best, worst = make([]int, n), make([]int, n)
	if n == 0 {
		return best, worst
	}
	z := quantile(level)
	low, high, floor := all[0].U, all[0].U, 0.0
	for _, r := range all {
		low, high, floor = min(low, r.U), max(high, r.U), max(floor, r.floor)
	}
	for i, r := range all {
		near := max(z*math.Hypot(r.U, low), r.floor)
		far := max(z*math.Hypot(r.U, high), r.floor, floor)
		sure := func(j int) bool {
			return math.Abs(all[j].Value-r.Value) > max(z*math.Hypot(r.U, all[j].U), r.floor, all[j].floor)
		}
		// Above: the first index not surely above by far, then the band.
		above := sort.Search(i, func(j int) bool { return all[j].Value <= r.Value+far })
		count := above
		for j := above; j < i && all[j].Value > r.Value+near; j++ {
			if sure(j) {
				count++
			}
		}
		best[i] = 1 + count
		below := i + 1 + sort.Search(n-i-1, func(k int) bool { return all[i+1+k].Value < r.Value-far })
		count = n - below
		for j := below - 1; j > i && all[j].Value < r.Value-near; j-- {
			if sure(j) {
				count++
			}
		}
		worst[i] = n - count
	}
	return best, worst
}

// quantile is the standard normal quantile.
func quantile(p float64) float64 { return math.Sqrt2 * math.Erfinv(2*p-1) }

// Nodes of the quadrature in firstChance, and how many standard uncertainties it
// reaches to either side.
const (
	chanceNodes = 400
	chanceReach = 6
)

// firstChance returns the probability that each rival is truly the first,
//
//	P_i = integral phi((x - v_i)/u_i)/u_i  prod_{j != i} Phi((x - v_j)/u_j) dx,
//
// by the midpoint rule over the values that matter, in time proportional to the
// number of rivals. The same rivals always give the same answer. It agrees with
// draws to their own noise.
func firstChance(all []rival) []float64 {
	out := make([]float64, len(all))
	if len(all) == 0 {
		return out
	}
	floorOf := math.Inf(-1) // nobody whose best is below the leader's worst can be first
	top := math.Inf(-1)
	for _, r := range all {
		floorOf = max(floorOf, r.Value-chanceReach*r.U)
		top = max(top, r.Value+chanceReach*r.U)
	}
	var in []int
	for i, r := range all {
		if r.Value+chanceReach*r.U >= floorOf {
			in = append(in, i)
		}
	}
	step := (top - floorOf) / chanceNodes
	if step <= 0 { // exact values: the first of the equal best shares with the others
		return exactFirst(all)
	}
	below := make([]float64, len(in))
	sum := 0.0
	for k := range chanceNodes {
		x := floorOf + (float64(k)+0.5)*step
		product := 0.0
		for m, i := range in {
			below[m] = stats.Beats(stats.Score{Value: x}, all[i].Score, 0)
			product += math.Log(max(below[m], math.SmallestNonzeroFloat64))
		}
		for m, i := range in {
			u := max(all[i].U, step)
			z := (x - all[i].Value) / u
			density := math.Exp(-z*z/2) / (u * math.Sqrt(2*math.Pi))
			if density > 0 {
				out[i] += density * math.Exp(product-math.Log(max(below[m], math.SmallestNonzeroFloat64))) * step
			}
		}
	}
	for _, p := range out {
		sum += p
	}
	for i := range out {
		if sum > 0 {
			out[i] /= sum
		}
	}
	return out
}

// exactFirst shares the first place among the equal best of values without any
// uncertainty.
func exactFirst(all []rival) []float64 {
	out := make([]float64, len(all))
	best := slices.MaxFunc(all, func(a, b rival) int { return cmp.Compare(a.Value, b.Value) })
	n := 0
	for _, r := range all {
		if r.Value == best.Value {
			n++
		}
	}
	for i, r := range all {
		if r.Value == best.Value {
			out[i] = 1 / float64(n)
		}
	}
	return out
}
