package parse

import (
	"fmt"
	"regexp"
	"strconv"
	"strings"
	"time"

	"flowshelf/analysis/quantity"
)

// Size is a length as the trade writes it: a decimal, a fraction, a mixed
// number, in inches, millimetres or thousandths, or without a unit.
type Size struct {
	Value float64 // in Unit
	Unit  string  // "in", "mm", "thou", "" when not written
	Words string  // a fraction or a metric size as written: "11/32", "8 mm"
}

// In returns the length; an unwritten unit must have been settled first.
func (s Size) In() (quantity.Length, bool) {
	switch s.Unit {
	case "in":
		return quantity.Inches(s.Value), true
	case "mm":
		return quantity.Millimetres(s.Value), true
	case "thou":
		return quantity.Thou(s.Value), true
	}
	return 0, false
}

var (
	sizeText = regexp.MustCompile(`(?i)^(?:ø|⌀|dia\.?|d=)?\s*([\d.,]+(?:[ -]\d+/\d+)?|\d+/\d+)\s*(in\.?|inch(?:es)?|"|”|''|mm|thou)?$`)
	mixed    = regexp.MustCompile(`^(?:(\d+)[ -])?(\d+)/(\d+)$`)
)

// ReadSize reads `2.02`, `2.020"`, `51,3 mm`, `11/32`, `4-1/8"`, `Ø104.8`.
func ReadSize(text string, mark Mark) (Size, bool) {
	m := sizeText.FindStringSubmatch(Squeeze(text))
	if m == nil {
		return Size{}, false
	}
	s := Size{Unit: lengthUnit(m[2])}
	if f, ok := Fraction(m[1]); ok {
		s.Value, s.Words = f, m[1]
		if s.Unit == "" {
			s.Unit = "in" // nobody writes millimetres as a fraction
		}
		return s, true
	}
	if mark == MarkUnknown && strings.Count(m[1], ".") == 1 && !strings.Contains(m[1], ",") {
		mark = PointMark // 2.020 is a size, never two thousand
	}
	d, ok := Decimal(m[1], mark)
	if !ok {
		return Size{}, false
	}
	s.Value = d.InexactFloat64()
	if s.Unit == "mm" {
		s.Words = fmt.Sprintf("%s mm", strconv.FormatFloat(s.Value, 'f', -1, 64))
	}
	return s, true
}

func lengthUnit(word string) string {
	switch strings.ToLower(strings.TrimRight(word, ".")) {
	case "mm":
		return "mm"
	case "thou":
		return "thou"
	case "":
		return ""
	default:
		return "in"
	}
}

// Fraction reads `11/32`, `4 1/8` and `4-1/8` with the denominators of a rule:
// 2, 4, 8, 16, 32 and 64.
func Fraction(text string) (float64, bool) {
	m := mixed.FindStringSubmatch(text)
	if m == nil {
		return 0, false
	}
	whole, top, bottom := 0, number(m[2]), number(m[3])
	if m[1] != "" {
		whole = number(m[1])
	}
	if !ruled(bottom) || top <= 0 || top >= bottom || whole < 0 || whole > 99 {
		return 0, false
	}
	return float64(whole) + float64(top)/float64(bottom), true
}

func ruled(denominator int) bool {
	switch denominator {
	case 2, 4, 8, 16, 32, 64:
		return true
	}
	return false
}

// FractionFromDate undoes what a spreadsheet makes of a typed fraction: 11/32
// becomes 1 November 1932, 5/16 becomes 16 May, 4-1/8 becomes 1 April 2008. It
// returns every fraction the day can stand for; the caller keeps what is a
// plausible size of the thing measured.
func FractionFromDate(date time.Time) []string {
	var out []string
	month, d, yy := int(date.Month()), date.Day(), date.Year()%100
	if ruled(d) && month < d {
		out = append(out, fmt.Sprintf("%d/%d", month, d))
	}
	if d == 1 && ruled(yy) && month < yy {
		out = append(out, fmt.Sprintf("%d/%d", month, yy))
	}
	if ruled(yy) && d < yy {
		out = append(out, fmt.Sprintf("%d %d/%d", month, d, yy))
	}
	return out
}

// Pair splits "2.02/1.60", "44 / 37 mm" into two sizes that share a unit.
func Pair(text string, mark Mark) (first, second Size, ok bool) {
	left, right, found := strings.Cut(Squeeze(text), "/")
	if !found {
		return first, second, false
	}
	first, ok1 := ReadSize(left, mark)
	second, ok2 := ReadSize(right, mark)
	if !ok1 || !ok2 {
		return first, second, false
	}
	if first.Unit == "" {
		first.Unit = second.Unit
	}
	return first, second, true
}
