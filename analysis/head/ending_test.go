package head_test

import (
	"testing"

	"github.com/shopspring/decimal"
	"pgregory.net/rapid"

	"flowshelf/analysis/head"
)

// TestEndings looks for the lowest price that ends so among all cents.
func TestEndings(t *testing.T) {
	rapid.Check(t, func(rt *rapid.T) {
		cents := rapid.Int64Range(1, 400_000).Draw(rt, "cents")
		ending := rapid.SampledFrom(head.Endings()).Draw(rt, "ending")
		every, at := ending.Step()
		everyCents, atCents := every.Shift(2).IntPart(), at.Shift(2).IntPart()
		want := cents
		for everyCents > 0 && want%everyCents != atCents {
			want++
		}
		if got := ending.Up(decimal.New(cents, -2)); !got.Equal(decimal.New(want, -2)) {
			rt.Fatalf("%d cents, %s: got %s, want %d cents", cents, ending, got, want)
		}
	})
}

func TestEndingsByHand(t *testing.T) {
	for _, c := range []struct {
		ending   head.Ending
		from, to string
	}{
		{head.NoEnding, "2412.9871", "2412.99"},
		{head.ToOne, "2412.01", "2413"},
		{head.ToFive, "2412.01", "2415"},
		{head.ToFive, "2415", "2415"},
		{head.ToTen, "2410.01", "2420"},
		{head.EndNine, "2409.5", "2419"},
		{head.EndFortyNine, "2450", "2549"},
		{head.EndNinetyNine, "2400", "2499"},
		{head.EndCents95, "2412.95", "2412.95"},
		{head.EndCents95, "2412.96", "2413.95"},
		{head.EndCents99, "2412", "2412.99"},
		{head.EndNine, "-3", "-3"}, // a price below nothing has no ending
		{"", "2412.5", "2412.5"},
	} {
		if got := c.ending.Up(decimal.RequireFromString(c.from)); !got.Equal(decimal.RequireFromString(c.to)) {
			t.Errorf("%s up from %s is %s, want %s", c.ending, c.from, got, c.to)
		}
	}
}
