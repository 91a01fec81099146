package comparison

import "flowshelf/export/book"

// Spot is a point of the picture of what a cfm costs, in pixels, with its name.
type Spot struct {
	X, Y, Noise float64
	Name        string
}

// PlaceNames opens the choice of places to the tests: where each name stands,
// and the area that names share with one another and with the marks of others.
func PlaceNames(spots []Spot) (places []book.Label, shared float64) {
	points := make([]named, len(spots))
	for i, s := range spots {
		points[i] = named{x: s.X, y: s.Y, noise: s.Noise, words: s.Name,
			order: []book.Label{book.Above, book.LeftOf, book.RightOf, book.Under}}
	}
	places = placeNames(points, nil)
	for i, p := range points {
		for j, o := range points {
			if i != j {
				shared += p.name(places[i]).common(o.mark()) + p.name(places[i]).common(o.name(places[j]))/2
			}
		}
	}
	return places, shared
}
