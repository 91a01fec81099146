package pricing

import (
	"cmp"
	"math"
	"slices"

	"flowshelf/analysis/bore"
	"flowshelf/analysis/compare"
	"flowshelf/analysis/stats"
)

// Standing is a place, 0 for none.
type Standing struct {
	Number int
	Shared bool
}

// Step is one sell price of the strip with what it does. Ahead, Group, Joins and
// Followed are the way to its place: see shelf.step.
type Step struct {
	Change   float64 // share of the sell price
	Value    compare.Maybe
	Place    Standing
	Ahead    int  // how many others are above
	Group    int  // position of the first of the last one's tie group, 0 for none
	Joins    bool // it is not surely beaten by that first
	Followed bool // the next below is not surely beaten by it
}

// Changes are the steps of the strip, as shares of the sell price.
func Changes() []float64 {
	return []float64{-0.10, -0.075, -0.05, -0.025, 0, 0.025, 0.05, 0.075, 0.10}
}

// rival is a row that takes a place, as far as places go.
type rival struct {
	row             int
	value, u, floor float64
}

// shelf is the rivals in the order of their value; of two equal ones the earlier
// row comes first.
type shelf struct {
	rivals []rival
	sigmas float64 // z: a difference of z standard uncertainties is one
}

// shelf orders the rows that take places.
func (s Sheet) shelf(r Result) shelf {
	out := shelf{sigmas: Sigmas(s.TieLevel())}
	for i := range s.Rows {
		if !s.Priced(i, r.Outcomes[i]) || !r.Worth.Known {
			continue
		}
		out.rivals = append(out.rivals, s.rival(i, r.Worth.Value, r.Outcomes[i].Value.Value))
	}
	slices.SortStableFunc(out.rivals, func(a, b rival) int { return cmp.Compare(b.value, a.value) })
	return out
}

func (s Sheet) rival(i int, worth, v float64) rival {
	row := &s.Rows[i]
	x := rival{row: i, value: v, u: math.Abs(worth * row.FlowU)}
	if row.Apart {
		x.floor = Undecided * worth * row.Flow.Value
	}
	return x
}

// Undecided is the share of a flow below which a difference in value decides
// nothing where a head was not brought over to the reference bore.
const Undecided = bore.NotBroughtOnly

// TieLevel is the probability below which two heads are tied.
func (s Sheet) TieLevel() float64 {
	if until := s.Comparison.Rules.TieUntil; until > 0.5 && until < 1 {
		return until
	}
	return stats.Level
}

// Sigmas is the standard normal quantile of a probability between 0 and 1.
func Sigmas(level float64) float64 { return math.Sqrt2 * math.Erfinv(2*level-1) }

// sure reports whether a is above b with the probability of the tie level: the
// same as stats.Beats reaching it, because it rises with the difference.
func (h shelf) sure(a, b rival) bool {
	d := a.value - b.value
	return d > 0 && d >= max(h.sigmas*math.Hypot(a.u, b.u), a.floor, b.floor)
}

// groups returns for each rival the position, from 1, of the first of its tie
// group: from the top, the first and all that follow while it does not surely
// beat them.
func (h shelf) groups() []int { return h.without(-1) }

// without returns the same as if one row were not there: the one before it
// stands in its place, 0 at the top.
func (h shelf) without(row int) []int {
	out := make([]int, len(h.rivals))
	first := 0
	for k, r := range h.rivals {
		if r.row != row && (first == 0 || h.sure(h.rivals[first-1], r)) {
			first = k + 1
		}
		out[k] = first
	}
	return out
}

func (h shelf) index(row int) int {
	return slices.IndexFunc(h.rivals, func(r rival) bool { return r.row == row })
}

func (h shelf) has(row int) bool { return h.index(row) >= 0 }

// leader and second are the rows that come first and second, -1 for none.
func (h shelf) leader() int { return h.at(0) }
func (h shelf) second() int { return h.at(1) }

func (h shelf) at(k int) int {
	if k >= len(h.rivals) {
		return -1
	}
	return h.rivals[k].row
}

// standings gives every row that takes one its place.
func (h shelf) standings(all []Outcome) {
	groups := h.groups()
	for k, r := range h.rivals {
		o := &all[r.row]
		o.Position, o.ValueU, o.Undecided = k+1, r.u, r.floor
		shared := groups[k] <= k || k+1 < len(groups) && groups[k+1] == groups[k]
		o.Place = Standing{groups[k], shared}
	}
}

// strip is value and place of a row at other sell prices, everything else as it
// stands.
func (s Sheet) strip(i int, h shelf, o Outcome) []Step {
	out := make([]Step, len(Changes()))
	sell := o.Figures[Sell].Decimal.InexactFloat64()
	groups := h.without(i)
	for k, change := range Changes() {
		out[k].Change = change
		if !o.Value.Known {
			continue
		}
		v := o.Value.Value - change*sell
		out[k].Value = compare.Maybe{Value: v, Known: true}
		if at := h.index(i); at >= 0 {
			h.step(at, groups, v, &out[k])
		}
	}
	return out
}

// step places one rival at another value among the others, whose tie groups
// without it are given. It joins the group of the last one above unless that
// group's first surely beats it; else it begins one.
func (h shelf) step(at int, groups []int, v float64, out *Step) {
	moved := h.rivals[at]
	moved.value = v
	others := 0
	for k, r := range h.rivals {
		if k == at {
			continue
		}
		others++
		if r.value > v || r.value == v && r.row < moved.row {
			out.Ahead++
		}
	}
	// passed is the position of the n-th of the others.
	passed := func(n int) int {
		if at+1 <= n {
			return n + 1
		}
		return n
	}
	if out.Ahead > 0 {
		out.Group = groups[passed(out.Ahead)-1]
		out.Joins = !h.sure(h.rivals[out.Group-1], moved)
	}
	if out.Ahead < others {
		out.Followed = !h.sure(moved, h.rivals[passed(out.Ahead+1)-1])
	}
	out.Place = Standing{out.Ahead + 1, out.Joins || out.Followed}
	if out.Joins {
		out.Place.Number = out.Group
		if at+1 < out.Group {
			out.Place.Number--
		}
	}
}
