package parse_test

import (
	"math"
	"slices"
	"testing"
	"time"

	"flowshelf/analysis/head"
	"flowshelf/ingest/parse"
)

const sameLength = 1e-9 // in

func TestReadSize(t *testing.T) {
	tests := []struct {
		text  string
		mark  parse.Mark
		value float64 // NaN when it is no size
		unit  string
		words string
	}{
		{"2.02", parse.MarkUnknown, 2.02, "", ""},
		{"2.020", parse.MarkUnknown, 2.02, "", ""},
		{`2.020"`, parse.MarkUnknown, 2.02, "in", ""},
		{"51,3 mm", parse.MarkUnknown, 51.3, "mm", "51.3 mm"},
		{"8mm", parse.PointMark, 8, "mm", "8 mm"},
		{"11/32", parse.PointMark, 0.34375, "in", "11/32"},
		{"4 1/8", parse.PointMark, 4.125, "in", "4 1/8"},
		{`4-1/8"`, parse.PointMark, 4.125, "in", "4-1/8"},
		{".3415", parse.PointMark, 0.3415, "", ""},
		{"Ø104.8", parse.PointMark, 104.8, "", ""},
		{"550 thou", parse.PointMark, 550, "thou", ""},
		{"11/33", parse.PointMark, math.NaN(), "", ""},
		{"33/32", parse.PointMark, math.NaN(), "", ""},
		{"2.02/1.60", parse.PointMark, math.NaN(), "", ""},
		{"large", parse.PointMark, math.NaN(), "", ""},
		{"1.2.3", parse.PointMark, math.NaN(), "", ""},
	}
	for _, tt := range tests {
		s, ok := parse.ReadSize(tt.text, tt.mark)
		if ok == math.IsNaN(tt.value) {
			t.Errorf("ReadSize(%q) = %+v, %t", tt.text, s, ok)
			continue
		}
		if ok && (math.Abs(s.Value-tt.value) > sameLength || s.Unit != tt.unit || s.Words != tt.words) {
			t.Errorf("ReadSize(%q) = %+v, want %g %q %q", tt.text, s, tt.value, tt.unit, tt.words)
		}
	}
}

func TestPair(t *testing.T) {
	first, second, ok := parse.Pair("44 / 37 mm", parse.PointMark)
	if !ok || first.Value != 44 || second.Value != 37 || first.Unit != "mm" || second.Unit != "mm" {
		t.Errorf("Pair = %+v, %+v, %t", first, second, ok)
	}
	if _, _, ok := parse.Pair("2.02", parse.PointMark); ok {
		t.Error("one size is no pair")
	}
}

// What a spreadsheet makes of a typed fraction: LibreOffice 7 with US English
// settings turns 5/16 into 16 May and 3/8 into 8 March of the running year; that
// 11/32 becomes 1 November 1932 and 4-1/8 1 April 2008 elsewhere is from memory.
func TestFractionFromDate(t *testing.T) {
	for day, want := range map[string]string{"1932-11-01": "11/32", "2026-05-16": "5/16", "2024-03-08": "3/8", "2008-04-01": "4 1/8"} {
		date, err := time.Parse(time.DateOnly, day)
		if err != nil {
			t.Fatal(err)
		}
		if got := parse.FractionFromDate(date); !slices.Contains(got, want) {
			t.Errorf("%s can be %q, want %s among them", day, got, want)
		}
	}
	date := time.Date(2026, 7, 21, 0, 0, 0, 0, time.UTC)
	if got := parse.FractionFromDate(date); len(got) != 0 {
		t.Errorf("%s is no fraction, got %q", date, got)
	}
}

func TestSpringLoads(t *testing.T) {
	seat, open, ok := parse.SpringLoads("130@1.800 / 365@1.200")
	if !ok || seat != (parse.SpringLoad{Lbf: 130, HeightIn: 1.8}) || open != (parse.SpringLoad{Lbf: 365, HeightIn: 1.2}) {
		t.Errorf("SpringLoads = %+v, %+v, %t", seat, open, ok)
	}
	if _, _, ok := parse.SpringLoads("365/130"); ok {
		t.Error("an open load below the seat load was read")
	}
}

func TestReadCount(t *testing.T) {
	tests := []struct {
		text string
		want parse.Count
		ok   bool
	}{
		{"9", parse.Count{N: 9}, true},
		{"9 heads", parse.Count{N: 9, Unit: head.Each}, true},
		{"4 sets + 1", parse.Count{N: 4, Unit: head.Set, Odd: 1}, true},
		{"2 pairs", parse.Count{N: 2, Unit: head.Pair}, true},
		{"-1", parse.Count{N: -1}, true},
		{"2.5", parse.Count{}, false},
		{"a few", parse.Count{}, false},
	}
	for _, tt := range tests {
		if got, ok := parse.ReadCount(tt.text); got != tt.want || ok != tt.ok {
			t.Errorf("ReadCount(%q) = %+v, %t", tt.text, got, ok)
		}
	}
}

func TestWeeks(t *testing.T) {
	for text, want := range map[string]float64{"3": 3, "2-3 wks": 3, "2 to 3 weeks": 3, "stock": 0, "10 days": 10.0 / 7, "2 months": 104.0 / 12, "B/O": -1, "?": -1, "6/15": -1} {
		got, ok := parse.Weeks(text)
		if !ok {
			got = -1
		}
		if math.Abs(got-want) > 1e-12 {
			t.Errorf("Weeks(%q) = %g, want %g", text, got, want)
		}
	}
}
