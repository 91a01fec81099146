package compare

import (
	"flowshelf/analysis/head"
	"flowshelf/analysis/stats"
)

// FirstChance and Intervals open the place figures to the tests.
func FirstChance(scores []stats.Score) []float64 { return firstChance(asRivals(scores, 0)) }

// Intervals returns the best and worst places of scores in falling order. Every
// third one has the floor.
func Intervals(scores []stats.Score, level, floor float64) (best, worst []int) {
	return intervals(asRivals(scores, floor), level)
}

// TieGroups returns where each group of tied scores ends.
func TieGroups(scores []stats.Score, level float64) []int {
	return tieGroups(asRivals(scores, 0), level)
}

// Beats is the chance that i is above j, with the same floors.
func Beats(scores []stats.Score, floor float64) stats.Pairwise {
	all := asRivals(scores, floor)
	return func(i, j int) float64 { return all[i].beats(all[j]) }
}

func asRivals(scores []stats.Score, floor float64) []rival {
	out := make([]rival, len(scores))
	for i, s := range scores {
		out[i] = rival{Score: s}
		if i%3 == 0 {
			out[i].floor = floor
		}
	}
	return out
}

// RatioPairs returns for every entry the first before it of which it is one
// figure times, itself for none: as the check finds them, and by holding every
// two together.
func RatioPairs(entries []Entry, rules head.Rules) (found, pairwise []int) {
	f := &family{shelf: &shelf{rules: rules}}
	all := make([]built, len(entries))
	for i, e := range entries {
		all[i].entry = e
		pairwise = append(pairwise, i)
		for j := range i {
			a, b := &entries[i], &entries[j]
			if !sixOnBoth(a) || !sixOnBoth(b) || a.Head == b.Head || a.Intake.Class != b.Intake.Class {
				continue
			}
			if _, ok := f.oneRatio(a, b); ok {
				pairwise[i] = j
				break
			}
		}
	}
	return f.ratioPairs(all), pairwise
}
