// Package parse turns the text of one cell into a quantity: prices and what they
// buy, dates, sizes, counts, lifts, flows and pressures. It never guesses: a text
// that can be read two ways is not read, or comes back with both readings.
package parse

import (
	"math"
	"regexp"
	"strconv"
	"strings"

	"github.com/shopspring/decimal"
)

// Mark is the sign that parts whole units from fractions. It is decided for a
// column, never for a cell: "1,250" alone can mean two things.
type Mark uint8

// The marks.
const (
	MarkUnknown Mark = iota // only whole numbers, or groups of three that fit both
	PointMark
	CommaMark
)

var (
	groupOrFraction = regexp.MustCompile(`\d[\d.,]*\d`)
	plainDigits     = regexp.MustCompile(`^[+-]?(\d+(\.\d*)?|\.\d+)$`)
)

// DecideMark looks at all texts of one column. A number with both signs, or
// with a sign that is not followed by exactly three digits, decides; two that
// disagree leave it unknown.
func DecideMark(texts []string) Mark {
	votes := map[Mark]int{}
	for _, text := range texts {
		for _, number := range groupOrFraction.FindAllString(text, -1) {
			votes[markOf(number)]++
		}
	}
	switch {
	case votes[PointMark] > 0 && votes[CommaMark] == 0:
		return PointMark
	case votes[CommaMark] > 0 && votes[PointMark] == 0:
		return CommaMark
	default:
		return MarkUnknown
	}
}

func markOf(number string) Mark {
	points, commas := strings.Count(number, "."), strings.Count(number, ",")
	last := strings.LastIndexAny(number, ".,")
	switch {
	case points+commas == 0:
		return MarkUnknown
	case points > 0 && commas > 0:
		if number[last] == ',' {
			return CommaMark
		}
		return PointMark
	case points > 1:
		return CommaMark
	case commas > 1:
		return PointMark
	case len(number)-last-1 == 3 && number[0] != '0':
		return MarkUnknown
	case commas == 1:
		return CommaMark
	default:
		return PointMark
	}
}

// Decimal reads a plain number written with the given mark; the other sign may
// only stand between groups of three digits. With MarkUnknown a lone group of
// three after a comma is a thousand, as in every price list of the trade
// (common practice, no source), and after a point it is not a number.
func Decimal(text string, mark Mark) (decimal.Decimal, bool) {
	text = Squeeze(text)
	if mark == MarkUnknown {
		mark = markOf(text)
		if mark == MarkUnknown && strings.Contains(text, ".") && !strings.Contains(text, ",") {
			return decimal.Zero, false
		}
	}
	group, point := ",", "."
	if mark == CommaMark {
		group, point = ".", ","
	}
	whole, fraction, found := strings.Cut(text, point)
	if !groupsOfThree(whole, group) || strings.Contains(fraction, group) {
		return decimal.Zero, false
	}
	digits := strings.ReplaceAll(whole, group, "")
	if found {
		digits += "." + fraction
	}
	if !plainDigits.MatchString(digits) || len(digits) > 18 {
		return decimal.Zero, false
	}
	d, err := decimal.NewFromString(strings.TrimSuffix(digits, "."))
	return d, err == nil
}

func groupsOfThree(whole, group string) bool {
	parts := strings.Split(whole, group)
	for _, p := range parts[1:] {
		if len(p) != 3 {
			return false
		}
	}
	return len(parts) == 1 || len(strings.TrimLeft(parts[0], "+-")) > 0
}

// Stored returns the number a cell stores, at the fifteen significant digits a
// spreadsheet works with, so that 418.79999999999995 is 418.8 again.
func Stored(num float64) (decimal.Decimal, bool) {
	if math.IsNaN(num) || math.IsInf(num, 0) || math.Abs(num) >= 1e15 {
		return decimal.Zero, false
	}
	d, err := decimal.NewFromString(strconv.FormatFloat(num, 'g', 15, 64))
	return d, err == nil
}

// Squeeze trims a text and turns every run of white space, non-breaking spaces
// included, into one space.
func Squeeze(text string) string { return strings.Join(strings.Fields(text), " ") }
