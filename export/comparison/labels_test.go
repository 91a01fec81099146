package comparison_test

import (
	"slices"
	"testing"

	"flowshelf/export/comparison"
)

// TestNamesDoNotCollide: the demonstration's cluster, where every name above its
// mark lies on another, and a column of marks too close for names in between.
func TestNamesDoNotCollide(t *testing.T) {
	cluster := []comparison.Spot{
		{117, 112, 6, "LKC-12"}, {120, 137, 6, "VR-84 + valve job"}, {153, 124, 6, "PW-33"}, {59, 171, 6, "VR-84 as delivered"},
		{195, 112, 6, "VR-84 + valve job + blend"}, {144, 155, 5, "PW-31"}, {31, 210, 4, "LKC-07"}, {339, 100, 6, "VR-81"}, {377, 54, 3, "OB-4"},
	}
	column := []comparison.Spot{{200, 100, 4, "AA-1"}, {202, 114, 4, "AA-2"}, {200, 128, 4, "AA-3"}, {202, 142, 4, "AA-4"}}
	for name, spots := range map[string][]comparison.Spot{"cluster": cluster, "column": column} {
		places, shared := comparison.PlaceNames(spots)
		if shared > 0 {
			t.Errorf("%s: names at %v lie on %.0f square pixels of others", name, places, shared)
		}
		if again, _ := comparison.PlaceNames(spots); !slices.Equal(places, again) {
			t.Errorf("%s: %v, then %v", name, places, again)
		}
	}
	corner := []comparison.Spot{{3, 3, 2, "In the corner"}}
	if places, _ := comparison.PlaceNames(corner); places[0] != "r" {
		t.Errorf("a name in the upper left corner stands at %q", places[0])
	}
}
