package review_test

import (
	"math"
	"testing"

	"pgregory.net/rapid"

	"flowshelf/analysis/review"
)

// TestOrdersLeaveNoOddHead orders for any demand, stock and set size.
func TestOrdersLeaveNoOddHead(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		perSet := rapid.IntRange(1, 8).Draw(t, "heads a set")
		there := rapid.IntRange(-20, 60).Draw(t, "there")
		wanted := rapid.Float64Range(0.01, 500).Draw(t, "wanted")
		s := review.Suggest(wanted, there, perSet)
		if s.Heads <= 0 {
			t.Fatalf("nothing ordered for a demand of %g", wanted)
		}
		if (there+s.Heads)%perSet != 0 {
			t.Fatalf("%d heads leave odd ones: %d + %d by %d", s.Heads, there, s.Heads, perSet)
		}
		if float64(s.Heads) < wanted-1e-6 {
			t.Fatalf("%d heads ordered where %g are wanted", s.Heads, wanted)
		}
		if s.Not > 0 && (there+s.Not)%perSet == 0 {
			t.Fatalf("advises against %d, which leaves none odd", s.Not)
		}
		if far := math.Abs(float64(s.Heads) - wanted); far > float64(perSet) {
			t.Fatalf("%d heads for a demand of %g by sets of %d", s.Heads, wanted, perSet)
		}
	})
	for _, nonsense := range []float64{0, -1, math.NaN(), math.Inf(1)} {
		if s := review.Suggest(nonsense, 3, 2); s.Heads != 0 {
			t.Errorf("a demand of %g orders %d heads", nonsense, s.Heads)
		}
	}
}
