package book_test

import (
	"slices"
	"testing"

	"flowshelf/export/book"
)

// TestNamesDoNotCollide: a cluster in which every name above its mark lies on
// another, a column of marks too close for names in between, two marks side by
// side and several on one spot.
func TestNamesDoNotCollide(t *testing.T) {
	canvas := book.Canvas{Width: 575, Height: 375}
	order := []book.Label{book.Above, book.LeftOf, book.RightOf, book.Under}
	named := func(x, y, noise float64, name string) book.Named {
		return book.Named{X: x, Y: y, Noise: noise, Name: name, Order: order}
	}
	for what, points := range map[string][]book.Named{
		"cluster": {
			named(117, 112, 6, "LKC-12"), named(120, 137, 6, "VR-84 + valve job"), named(153, 124, 6, "PW-33"),
			named(59, 171, 6, "VR-84 as delivered"), named(195, 112, 6, "VR-84 + valve job + blend"),
			named(144, 155, 5, "PW-31"), named(31, 210, 4, "LKC-07"), named(339, 100, 6, "VR-81"), named(377, 54, 3, "OB-4"),
		},
		"column":       {named(200, 100, 4, "AA-1"), named(202, 114, 4, "AA-2"), named(200, 128, 4, "AA-3"), named(202, 142, 4, "AA-4")},
		"side by side": {named(78, 43, 0, "LKC-90"), named(70, 43, 0, "VR-49")},
		"one spot":     {named(100, 50, 0, "A"), named(100, 50, 0, "B"), named(100, 50, 0, "C"), named(100, 50, 0, "D")},
	} {
		places := canvas.PlaceNames(points, nil)
		if shared := covered(canvas, points, places); shared > 0 {
			t.Errorf("%s: names at %v lie on %.0f square pixels of others", what, places, shared)
		}
		if again := canvas.PlaceNames(points, nil); !slices.Equal(places, again) {
			t.Errorf("%s: %v, then %v", what, places, again)
		}
	}
	if places := canvas.PlaceNames([]book.Named{named(3, 3, 2, "In the corner")}, nil); places[0] != book.RightOf {
		t.Errorf("a name in the upper left corner stands at %q", places[0])
	}
	apart := []book.Named{named(100, 50, 0, "AA-1"), named(300, 50, 0, "AA-2")}
	if places := canvas.PlaceNames(apart, nil); places[0] != book.Above || places[1] != book.Above {
		t.Errorf("two far apart stand at %v", places)
	}
}

// covered is the area that names share with one another and with the marks of
// others at other spots.
func covered(canvas book.Canvas, points []book.Named, places []book.Label) (shared float64) {
	for i, p := range points {
		for j, o := range points {
			if i == j {
				continue
			}
			shared += p.At(places[i], canvas).Shared(o.At(places[j], canvas)) / 2
			if p.X != o.X || p.Y != o.Y {
				shared += p.At(places[i], canvas).Shared(o.Mark())
			}
		}
	}
	return shared
}
