package compare_test

import (
	"cmp"
	"math"
	"slices"
	"testing"

	"pgregory.net/rapid"

	"flowshelf/analysis/compare"
	"flowshelf/analysis/stats"
)

func TestFirstChance(t *testing.T) {
	scores := []stats.Score{{Value: 221, U: 1.5}, {Value: 219.5, U: 1.5}, {Value: 218, U: 2}, {Value: 210, U: 1.5}, {Value: 205, U: 2.5}}
	// scipy.integrate.quad of norm.pdf times the product of norm.cdf over
	// -inf..inf, scipy 1.10.1.
	want := []float64{0.70308, 0.21396, 0.08296, 0, 0}
	for i, p := range compare.FirstChance(scores) {
		near(t, "chance", p, want[i], 0.0001)
	}
	for i, d := range stats.Draw(scores, stats.Draws) {
		near(t, "chance by draws", d.First, compare.FirstChance(scores)[i], 0.01)
	}
}

func TestTieGroups(t *testing.T) {
	// With u 1 each, a difference of 2.33 is the least that is sure (1.645 sqrt2).
	at := func(values ...float64) []stats.Score {
		var out []stats.Score
		for _, v := range values {
			out = append(out, stats.Score{Value: v, U: 1})
		}
		return out
	}
	for _, tc := range []struct {
		name   string
		scores []stats.Score
		want   []int
	}{
		{"nobody", nil, nil},
		{"one", at(5), []int{1}},
		{"neighbours tie, the first beats the third", at(10, 8, 6), []int{2, 3}},
		{"all tied with the first", at(10, 9, 8), []int{3}},
		{"none tied", at(10, 7, 4), []int{1, 2, 3}},
		{"the next group starts anew", at(10, 7, 6, 5, 4), []int{1, 4, 5}},
	} {
		if got := compare.TieGroups(tc.scores, stats.Level); !slices.Equal(got, tc.want) {
			t.Errorf("%s: groups end at %v, want %v", tc.name, got, tc.want)
		}
	}
}

func TestFirstChanceOfExactValues(t *testing.T) {
	got := compare.FirstChance([]stats.Score{{Value: 5}, {Value: 5}, {Value: 4}})
	if got[0] != 0.5 || got[1] != 0.5 || got[2] != 0 {
		t.Errorf("chances %v", got)
	}
	if got := compare.FirstChance(nil); len(got) != 0 {
		t.Errorf("chances of nobody %v", got)
	}
}

func fallingScores(t *rapid.T) []stats.Score {
	scores := rapid.SliceOfN(rapid.Custom(func(t *rapid.T) stats.Score {
		return stats.Score{Value: rapid.Float64Range(0, 300).Draw(t, "value"), U: rapid.Float64Range(0.1, 60).Draw(t, "u")}
	}), 1, 40).Draw(t, "scores")
	slices.SortFunc(scores, func(a, b stats.Score) int { return cmp.Compare(b.Value, a.Value) })
	return scores
}

// The band search must find what looking at every pair finds.
func TestIntervalsAgreeWithEveryPair(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		scores := fallingScores(t)
		floor := rapid.SampledFrom([]float64{0, 50}).Draw(t, "floor")
		best, worst := compare.Intervals(scores, stats.Level, floor)
		for i, want := range stats.Intervals(len(scores), compare.Beats(scores, floor)) {
			if best[i] != want.Best || worst[i] != want.Worst {
				t.Fatalf("%d of %v: %d to %d, want %d to %d", i, scores, best[i], worst[i], want.Best, want.Worst)
			}
		}
	})
}

func TestFirstChancesSumToOne(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		sum := 0.0
		for _, p := range compare.FirstChance(fallingScores(t)) {
			if p < 0 || p > 1+1e-9 {
				t.Fatalf("chance %v", p)
			}
			sum += p
		}
		if math.Abs(sum-1) > 1e-6 {
			t.Fatalf("chances sum to %v", sum)
		}
	})
}
