package parse

import (
	"math"
	"regexp"
	"strconv"
	"strings"
	"time"
)

// Day is a date as written. When both orders of day and month are possible,
// Date is the month-first reading and Other the day-first one, and neither may
// be used before somebody has said which. A Day without a year has NoYear set
// and both dates in year 4, which a caller must not show.
type Day struct {
	Date      time.Time
	Other     time.Time
	Ambiguous bool
	NoYear    bool
	Text      string // the part of the text that was read
}

var (
	isoDate   = regexp.MustCompile(`\b(\d{4})[-./](\d{1,2})[-./](\d{1,2})\b`)
	namedDate = regexp.MustCompile(`(?i)\b(\d{1,2})(?:st|nd|rd|th)?[ .-]+(` + monthNames + `)[a-z]*\.?(?:[ ,.-]+(\d{4}|\d{2}))?\b`)
	monthDate = regexp.MustCompile(`(?i)\b(` + monthNames + `)[a-z]*\.?[ -]+(\d{1,2})(?:st|nd|rd|th)?(?:[ ,-]+(\d{4}))?\b`)
	dotDate   = regexp.MustCompile(`\b(\d{1,2})\.(\d{1,2})\.(\d{4}|\d{2})\b`)
	slashDate = regexp.MustCompile(`\b(\d{1,2})[/-](\d{1,2})(?:[/-](\d{4}|\d{2}))?\b`)
)

const monthNames = `jan|feb|mar|mär|apr|may|mai|jun|jul|aug|sep|oct|okt|nov|dec|dez`

// Date finds the first date in a text: 2026-02-28, 28 Feb 2026, Feb 28, 2026,
// 28.2.2026 (dots are day first by custom), 2/28/2026, 4/1.
func Date(text string) (Day, bool) {
	if m := isoDate.FindStringSubmatch(text); m != nil {
		return day(m[0], number(m[1]), number(m[2]), number(m[3]))
	}
	if m := namedDate.FindStringSubmatch(text); m != nil {
		return day(m[0], year(m[3]), int(monthOf(m[2])), number(m[1]))
	}
	if m := monthDate.FindStringSubmatch(text); m != nil {
		return day(m[0], year(m[3]), int(monthOf(m[1])), number(m[2]))
	}
	if m := dotDate.FindStringSubmatch(text); m != nil {
		return day(m[0], year(m[3]), number(m[2]), number(m[1]))
	}
	if m := slashDate.FindStringSubmatch(text); m != nil {
		return slashed(m)
	}
	return Day{}, false
}

func slashed(m []string) (Day, bool) {
	y, a, b := year(m[3]), number(m[1]), number(m[2])
	monthFirst, ok1 := day(m[0], y, a, b)
	dayFirst, ok2 := day(m[0], y, b, a)
	switch {
	case ok1 && ok2 && a != b:
		monthFirst.Other, monthFirst.Ambiguous = dayFirst.Date, true
		return monthFirst, true
	case ok1:
		return monthFirst, true
	default:
		return dayFirst, ok2
	}
}

// Order is which of day and month a column of dates writes first.
type Order uint8

// The orders.
const (
	OrderUnknown Order = iota
	MonthFirst
	DayFirst
)

// DateOrder looks at all texts of one column: a date such as 3/28 or 28/3 decides
// for those that could be read both ways. Two that disagree decide nothing.
func DateOrder(texts []string) Order {
	found := OrderUnknown
	for _, text := range texts {
		m := slashDate.FindStringSubmatch(text)
		if m == nil || isoDate.MatchString(text) {
			continue
		}
		d, ok := slashed(m)
		if !ok || d.Ambiguous || m[1] == m[2] {
			continue
		}
		order := MonthFirst
		if number(m[2]) == int(d.Date.Month()) {
			order = DayFirst
		}
		if found != OrderUnknown && found != order {
			return OrderUnknown
		}
		found = order
	}
	return found
}

// In settles a date that can be read two ways by the order of its column.
func (d Day) In(order Order) Day {
	if d.Ambiguous && order != OrderUnknown {
		if order == DayFirst {
			d.Date = d.Other
		}
		d.Ambiguous, d.Other = false, time.Time{}
	}
	return d
}

func day(text string, y, m, d int) (Day, bool) {
	noYear := y == 0
	if noYear {
		y = 4 // a leap year, so that 29 February is a day
	}
	date := time.Date(y, time.Month(m), d, 0, 0, 0, 0, time.UTC)
	if m < 1 || m > 12 || date.Day() != d || date.Month() != time.Month(m) {
		return Day{}, false
	}
	if !noYear && (y < 1950 || y > 2199) {
		return Day{}, false
	}
	return Day{Date: date, NoYear: noYear, Text: text}, true
}

// monthOf reads the first letters of a month, in English or German.
func monthOf(name string) time.Month {
	switch strings.ToLower(name) {
	case "mär":
		return time.March
	case "mai":
		return time.May
	case "okt":
		return time.October
	case "dez":
		return time.December
	}
	for m := time.January; m <= time.December; m++ {
		if strings.EqualFold(m.String()[:3], name) {
			return m
		}
	}
	return 0
}

func number(digits string) int {
	n, err := strconv.Atoi(digits)
	if err != nil {
		return -1
	}
	return n
}

// year completes two digits: a price list of the trade is of this century.
func year(digits string) int {
	switch len(digits) {
	case 0:
		return 0
	case 2:
		return 2000 + number(digits)
	default:
		return number(digits)
	}
}

// Serial returns the day that a date cell stores (1900 system, as spreadsheets
// count it from 1 March 1900 on). It fails for anything outside 1900-2199.
func Serial(num float64) (time.Time, bool) {
	if math.IsNaN(num) || num < 61 || num > 109_938 {
		return time.Time{}, false
	}
	epoch := time.Date(1899, time.December, 30, 0, 0, 0, 0, time.UTC)
	return epoch.AddDate(0, 0, int(math.Floor(num))), true
}
