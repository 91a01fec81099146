package parse_test

import (
	"math"
	"testing"

	"flowshelf/ingest/parse"
)

// TestDigits holds that no rest of a sum of binary fractions is shown.
func TestDigits(t *testing.T) {
	for num, want := range map[float64]string{
		418.8: "418.8", 418.79999999999995: "418.8", 0.30000000000000004: "0.3", 1.0 / 3: "0.333333333333333",
		1e6: "1000000", -2.5: "-2.5", 0: "0", math.Inf(1): "+Inf",
	} {
		if got := parse.Digits(num); got != want {
			t.Errorf("%.17g is shown as %s, want %s", num, got, want)
		}
	}
}
