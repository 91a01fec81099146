package parse_test

import (
	"math"
	"strconv"
	"testing"

	"pgregory.net/rapid"

	"flowshelf/ingest/parse"
)

// FuzzOffice looks for panics and for values that cannot be.
func FuzzOffice(f *testing.F) {
	for _, seed := range []string{"$1,024/pr net", "189,00 EUR", "less 50/10/5", "Eff. 4/1", "4-1/8\"", "2.02/1.60", "4 sets + 1", "2-3 wks", "130@1.800 / 365@1.200", "\u00a0"} {
		f.Add(seed)
	}
	f.Fuzz(func(t *testing.T, text string) {
		for _, mark := range []parse.Mark{parse.MarkUnknown, parse.PointMark, parse.CommaMark} {
			if m, ok := parse.ReadMoney(text, mark); ok && m.Amount.Sign() < 0 {
				t.Errorf("%q gives %s", text, m.Amount)
			}
			if s, ok := parse.ReadSize(text, mark); ok && (math.IsNaN(s.Value) || math.IsInf(s.Value, 0) || s.Value < 0) {
				t.Errorf("%q gives %g", text, s.Value)
			}
			parse.Pair(text, mark)
		}
		if d, ok := parse.Date(text); ok && !d.NoYear && d.Date.Year() < 1950 {
			t.Errorf("%q gives %s", text, d.Date)
		}
		if chain, ok := parse.Discounts(text); ok && len(chain) == 0 {
			t.Errorf("%q gives an empty chain", text)
		}
		if weeks, ok := parse.Weeks(text); ok && !(weeks >= 0 && weeks <= 520) {
			t.Errorf("%q gives %g weeks", text, weeks)
		}
		parse.Basis(text)
		parse.Rung(text)
		parse.Build(text)
		parse.NotAPrice(text)
		parse.ReadCount(text)
		parse.SpringLoads(text)
	})
}

// Whatever a whole number of cents is written like, it reads as itself.
func TestMoneyRoundTrip(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		cents := rapid.IntRange(1, 99_999_999).Draw(t, "cents")
		comma := rapid.Bool().Draw(t, "comma")
		grouped := rapid.Bool().Draw(t, "grouped")
		whole, fraction := strconv.Itoa(cents/100), strconv.Itoa(100 + cents%100)[1:]
		point, group, mark := ".", ",", parse.PointMark
		if comma {
			point, group, mark = ",", ".", parse.CommaMark
		}
		if grouped {
			for i := len(whole) - 3; i > 0; i -= 3 {
				whole = whole[:i] + group + whole[i:]
			}
		}
		text := whole + point + fraction
		m, ok := parse.ReadMoney(text, mark)
		if !ok || !m.Amount.Shift(2).IsInteger() || m.Amount.Shift(2).IntPart() != int64(cents) {
			t.Fatalf("%q reads as %s, %t", text, m.Amount, ok)
		}
	})
}
