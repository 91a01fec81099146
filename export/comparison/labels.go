package comparison

import (
	"math"
	"slices"

	"flowshelf/export/book"
)

// A name at a point must not lie on another's, nor on a mark. A program that
// draws the chart lays out the plot by itself, so all sizes are estimates.
const (
	plotWidth   = 0.82 * chartWidth
	plotHeight  = 0.63 * chartHeight
	letterWidth = 5.5 // pixels, of 9 point letters
	lineHeight  = 13
	widestName  = chartWidth / 5 // a longer one is wrapped
	markSize    = 9
	strokeWidth = 3
)

// box is a rectangle of the picture, in pixels.
type box struct{ left, top, right, bottom float64 }

// common is the area two boxes share.
func (b box) common(o box) float64 {
	w, h := min(b.right, o.right)-max(b.left, o.left), min(b.bottom, o.bottom)-max(b.top, o.top)
	return max(w, 0) * max(h, 0)
}

func (b box) area() float64 { return b.common(b) }

// boxAt is a box of a size with its middle at a point.
func boxAt(x, y, width, height float64) box {
	return box{x - width/2, y - height/2, x + width/2, y + height/2}
}

// named is a point of the picture with its name.
type named struct {
	x, y, noise float64 // pixels; noise is half the error bar
	words       string
	order       []book.Label // places to try, the best first
}

// name returns where the name stands when it is put at a place.
func (n named) name(at book.Label) box {
	width := letterWidth * float64(len([]rune(n.words)))
	lines := math.Ceil(width / widestName)
	width, height := min(width, widestName), lines*lineHeight
	const gap = markSize/2 + 2
	switch at {
	case book.Above:
		return boxAt(n.x, n.y-gap-height/2, width, height)
	case book.Under:
		return boxAt(n.x, n.y+gap+height/2, width, height)
	case book.LeftOf:
		return boxAt(n.x-gap-width/2, n.y, width, height)
	default:
		return boxAt(n.x+gap+width/2, n.y, width, height)
	}
}

func (n named) mark() box { return boxAt(n.x, n.y, markSize, markSize) }
func (n named) bar() box  { return boxAt(n.x, n.y, strokeWidth, 2*n.noise) }

// placeNames chooses for every point the place of its name that covers least of
// the other names, of the marks and their error bars, and of the lines, each
// point in turn given the others, until nobody moves. The same points give the
// same places.
func placeNames(points []named, lines []box) []book.Label {
	out := make([]book.Label, len(points))
	const turns = 8
	for range turns {
		moved := false
		for i, p := range points {
			best, least := out[i], math.Inf(1)
			for k, at := range p.order {
				if c := covers(points, lines, out, i, at) + float64(k); c < least {
					best, least = at, c
				}
			}
			moved = moved || best != out[i]
			out[i] = best
		}
		if !moved {
			break
		}
	}
	return out
}

// covers weighs what the name of point i lies on at a place, in square pixels.
func covers(points []named, lines []box, names []book.Label, i int, at book.Label) float64 {
	const onName, onMark, onLine, outside = 4, 4, 2, 10
	b := points[i].name(at)
	cost := outside * (b.area() - b.common(box{0, 0, plotWidth, plotHeight}))
	for j, o := range points {
		cost += onMark*b.common(o.mark()) + onLine*b.common(o.bar())
		if j != i && names[j] != "" {
			cost += onName * b.common(o.name(names[j]))
		}
	}
	for _, l := range lines {
		cost += onLine * b.common(l)
	}
	return cost
}

// mostNames is up to how many heads all are named on one picture; of more, those
// that nobody beats.
const mostNames = 40

// names chooses where each head's name stands on the picture of what a cfm costs.
func (d *drawing) names(priced []line, x, y [2]float64) []book.Label {
	at := func(cost, flow float64) (float64, float64) {
		return plotWidth * (cost - x[0]) / (x[1] - x[0]), plotHeight * (y[1] - flow) / (y[1] - y[0])
	}
	var points []named
	var who []int
	for i, l := range priced {
		if len(priced) > mostNames && len(l.BeatenBy) > 0 {
			continue
		}
		p := named{words: l.Label, noise: plotHeight * l.Intake.WorkingU / (y[1] - y[0]),
			order: []book.Label{book.Above, book.LeftOf, book.RightOf, book.Under}}
		if len(l.BeatenBy) > 0 { // the line of the others runs above
			p.order = []book.Label{book.RightOf, book.Under, book.LeftOf, book.Above}
		}
		p.x, p.y = at(l.Cost.Usable.Value.Float(), l.Intake.Working.Value)
		points, who = append(points, p), append(who, i)
	}
	var lines []box
	best := unbeaten(priced)
	for i := range best {
		if i == 0 {
			continue
		}
		x0, y0 := at(best[i-1].Cost.Usable.Value.Float(), best[i-1].Intake.Working.Value)
		x1, y1 := at(best[i].Cost.Usable.Value.Float(), best[i].Intake.Working.Value)
		lines = append(lines, boxAt((x0+x1)/2, y0, x1-x0, strokeWidth), boxAt(x1, (y0+y1)/2, strokeWidth, math.Abs(y0-y1)))
	}
	out := make([]book.Label, len(priced))
	for k, label := range placeNames(points, lines) {
		out[who[k]] = label
	}
	return out
}

// unbeaten are the heads that nobody beats, the cheapest first.
func unbeaten(priced []line) []line {
	best := slices.DeleteFunc(slices.Clone(priced), func(l line) bool { return len(l.BeatenBy) > 0 })
	slices.SortStableFunc(best, func(a, b line) int {
		return a.Cost.Usable.Value.Amount.Cmp(b.Cost.Usable.Value.Amount)
	})
	return best
}
