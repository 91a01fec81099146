package compare

import (
	"math"
	"strconv"
	"strings"

	"flowshelf/analysis/head"
)

// Not every pair of heads need be held together to find those whose curves are
// one curve times a figure. When a is r times b at every shared lift, to
// rounding, each reading is the same share of the sum of its own curve,
//
//	|a_i/sum(a) - b_i/sum(b)| <= rounding max(1/sum(a), 1/sum(b)),
//
// so that candidates are neighbours in the space of those shares, and ratioBox
// finds them. A neighbour is a candidate only: oneRatio decides.

// ratioPairs returns for every head the first head before it of which it is one
// figure times, itself where there is none. It takes of the order of n log n
// steps for heads read at a few lists of lifts; each two lists are a search by
// themselves.
func (f *family) ratioPairs(all []built) []int {
	earliest := make([]int, len(all))
	for i := range earliest {
		earliest[i] = i
	}
	groups := readAlikes(all)
	for _, had := range groups {
		for _, asked := range groups {
			in, ex := sharedLifts(asked.intake, had.intake), sharedLifts(asked.exhaust, had.exhaust)
			if asked.class != had.class || len(in) < fewestShared || len(ex) < fewestShared {
				continue
			}
			boxes := make([]*ratioBox, len(had.heads))
			for k, i := range had.heads {
				boxes[k] = newRatioBox(i, &all[i].entry, theirs(in), theirs(ex))
			}
			tree := joined(boxes)
			for _, i := range asked.heads {
				e := &all[i].entry
				q := newRatioBox(i, e, ours(in), ours(ex))
				earliest[i] = tree.earliest(q, earliest[i], f.rules.Repeatability, func(j int) bool {
					_, ok := f.oneRatio(e, &all[j].entry)
					return ok && e.Head != all[j].entry.Head
				})
			}
		}
	}
	return earliest
}

// readAlike are heads of one class of evidence read at the same lifts.
type readAlike struct {
	class           head.Class
	intake, exhaust []LiftPoint // of one of them
	heads           []int       // in the family's list, rising
}

// readAlikes sorts the heads that can be held together by where they were read,
// in the order in which each list of lifts first occurs.
func readAlikes(all []built) []readAlike {
	var out []readAlike
	known := make(map[string]int)
	for i := range all {
		e := &all[i].entry
		if !sixOnBoth(e) {
			continue
		}
		key := strconv.Itoa(int(e.Intake.Class)) + "|" + liftList(e.Intake.Points) + "|" + liftList(e.Exhaust.Points)
		g, seen := known[key]
		if !seen {
			g = len(out)
			known[key] = g
			out = append(out, readAlike{class: e.Intake.Class, intake: e.Intake.Points, exhaust: e.Exhaust.Points})
		}
		out[g].heads = append(out[g].heads, i)
	}
	return out
}

// sixOnBoth reports whether enough of both ports was read to say anything.
func sixOnBoth(e *Entry) bool {
	enough := func(r *PortResult) bool { return r != nil && len(r.Points) >= fewestShared && r.PeakAll.Flow > 0 }
	return e.Grade != GradeD && enough(e.Intake) && enough(e.Exhaust)
}

func liftList(points []LiftPoint) string {
	var b strings.Builder
	for _, p := range points {
		b.WriteString(strconv.FormatUint(math.Float64bits(float64(p.Lift)), 36))
		b.WriteByte(' ')
	}
	return b.String()
}

// shared is one lift at which two curves were read: where it stands in each.
type shared struct{ ours, theirs int }

// sharedLifts pairs the readings of two curves at one lift, from the top down:
// the largest readings fix a ratio best.
func sharedLifts(a, b []LiftPoint) []shared {
	out := make([]shared, 0, min(len(a), len(b)))
	for i := len(a) - 1; i >= 0; i-- {
		if j := pointAt(b, a[i].Lift); j >= 0 {
			out = append(out, shared{i, j})
		}
	}
	return out
}

func ours(lifts []shared) []int {
	out := make([]int, len(lifts))
	for k, s := range lifts {
		out[k] = s.ours
	}
	return out
}

func theirs(lifts []shared) []int {
	out := make([]int, len(lifts))
	for k, s := range lifts {
		out[k] = s.theirs
	}
	return out
}
