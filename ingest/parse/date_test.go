package parse_test

import (
	"testing"
	"time"

	"flowshelf/ingest/parse"
)

func TestDate(t *testing.T) {
	tests := []struct{ text, date, other string }{
		{"stock 2026-02-28.xlsx", "2026-02-28", ""},
		{"prices effective 2026/01/01", "2026-01-01", ""},
		{"28 Feb 2026", "2026-02-28", ""},
		{"Feb 28, 2026", "2026-02-28", ""},
		{"March 3rd, 2026", "2026-03-03", ""},
		{"28.2.2026", "2026-02-28", ""},
		{"gültig ab 1. März 2026", "2026-03-01", ""},
		{"2/28/2026", "2026-02-28", ""},
		{"28/2/26", "2026-02-28", ""},
		{"4/4/2026", "2026-04-04", ""},
		{"4/1/2026", "2026-04-01", "2026-01-04"},
		{"Eff. 4/1", "0004-04-01", "0004-01-04"}, // no year
		{"1 April", "0004-04-01", ""},            // no year
		{"30/2/2026", "", ""},
		{"2026-13-01", "", ""},
		{"0.550", "", ""},
		{"PW-33", "", ""},
		{"", "", ""},
	}
	for _, tt := range tests {
		d, ok := parse.Date(tt.text)
		if ok != (tt.date != "") {
			t.Errorf("Date(%q) ok = %t (%s)", tt.text, ok, d.Date)
			continue
		}
		if !ok {
			continue
		}
		other := ""
		if d.Ambiguous {
			other = d.Other.Format(time.DateOnly)
		}
		if got := d.Date.Format(time.DateOnly); got != tt.date || other != tt.other || d.NoYear != (d.Date.Year() == 4) {
			t.Errorf("Date(%q) = %s or %q (no year %t), want %s or %q", tt.text, got, other, d.NoYear, tt.date, tt.other)
		}
	}
}

func TestDateOrder(t *testing.T) {
	tests := []struct {
		texts []string
		want  parse.Order
	}{
		{[]string{"4/1/2026", "3/28/2026"}, parse.MonthFirst},
		{[]string{"4/1/2026", "28/3/2026"}, parse.DayFirst},
		{[]string{"4/1/2026", "4/4/2026", "2026-03-28"}, parse.OrderUnknown},
		{[]string{"3/28/2026", "28/3/2026"}, parse.OrderUnknown},
		{nil, parse.OrderUnknown},
	}
	for _, tt := range tests {
		if got := parse.DateOrder(tt.texts); got != tt.want {
			t.Errorf("DateOrder(%q) = %d, want %d", tt.texts, got, tt.want)
		}
	}
	d, _ := parse.Date("4/1/2026")
	if got := d.In(parse.DayFirst); got.Ambiguous || got.Date.Month() != time.January {
		t.Errorf("day first: %+v", got)
	}
	if !d.In(parse.OrderUnknown).Ambiguous {
		t.Error("an unknown order settled a date")
	}
}

// ECMA-376 part 1, 18.17.4.1: in the 1900 system the serial 1 is 1 January
// 1900, and the 29th of February 1900 counts; so 61 is 1 March 1900.
func TestSerial(t *testing.T) {
	for serial, want := range map[float64]string{61: "1900-03-01", 11994: "1932-11-01", 46081.75: "2026-02-28"} {
		if d, ok := parse.Serial(serial); !ok || d.Format(time.DateOnly) != want {
			t.Errorf("Serial(%g) = %s, want %s", serial, d.Format(time.DateOnly), want)
		}
	}
	for _, serial := range []float64{0, 60, -1, 1e9} {
		if d, ok := parse.Serial(serial); ok {
			t.Errorf("Serial(%g) = %s", serial, d)
		}
	}
}
