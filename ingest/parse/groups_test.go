package parse_test

import (
	"testing"

	"flowshelf/ingest/parse"
)

// TestGroups reads figures whose groups of three digits are parted.
func TestGroups(t *testing.T) {
	for text, want := range map[string]float64{"1'122": 1122, "1’122": 1122, "12'345'678": 12345678, "~1'122*": 1122, "1'122 l/min": 1122} {
		if got := parse.Reading(text, parse.MarkUnknown); !got.Known || got.Value != want {
			t.Errorf("Reading(%q) = %+v; want %v", text, got, want)
		}
	}
	for text, want := range map[string]string{"1 122": "1122", "1\u00a0122": "1122", "1\u202f122,5": "1122,5", "12 345 678": "12345678"} {
		if got, ok := parse.JoinedGroups(text); !ok || got != want {
			t.Errorf("JoinedGroups(%q) = %q, %v; want %q", text, got, ok, want)
		}
	}
	for _, text := range []string{"1122", "26 5", "1122 118", "1 12", "1 1222", "x 122"} {
		if got, ok := parse.JoinedGroups(text); ok {
			t.Errorf("JoinedGroups(%q) = %q; want none", text, got)
		}
	}
	for text, want := range map[string]float64{"1.122": 1.122, "67,412": 67.412, ">1.122": 1.122, "1.122*": 1.122} {
		if got, _, open := parse.OpenGroup(text); !open || got != want {
			t.Errorf("OpenGroup(%q) = %v, %v; want %v", text, got, open, want)
		}
	}
	for _, text := range []string{"0.122", "1.12", "1.1222", "1122", "1.122.333", "1,122.5", ".122"} {
		if got, _, open := parse.OpenGroup(text); open {
			t.Errorf("OpenGroup(%q) = %v; want none", text, got)
		}
	}
}

// TestLiftsOfARule reads fractions of an inch and centimetres.
func TestLiftsOfARule(t *testing.T) {
	for text, want := range map[string]parse.LiftText{
		"1/8": {Value: .125, Unit: parse.LiftInches}, `3/16"`: {Value: .1875, Unit: parse.LiftInches}, "0,8 cm": {Value: .8, Unit: parse.LiftCM, Spelled: true},
	} {
		if got, ok := parse.Lift(text); !ok || got != want {
			t.Errorf("Lift(%q) = %+v, %v; want %+v", text, got, ok, want)
		}
	}
	for _, text := range []string{"3/14", "9/8", "3/3", "1/8/26"} {
		if got, ok := parse.Lift(text); ok {
			t.Errorf("Lift(%q) = %+v; want none", text, got)
		}
	}
	for caption, want := range map[string]parse.LiftUnit{"Lift (cm)": parse.LiftCM, "Levée cm": parse.LiftCM, "Hub mm": parse.LiftMM} {
		if got, _ := parse.FindLiftUnit(caption); got != want {
			t.Errorf("FindLiftUnit(%q) = %v; want %v", caption, got, want)
		}
	}
}
