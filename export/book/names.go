package book

import "math"

// A name at a point must not lie on another's, nor on a mark. A program that
// draws a chart lays out the plot by itself, so all sizes are estimates.
const (
	letterWidth = 5.5 // pixels, of 9 point letters
	lineHeight  = 13
	markSize    = 9
	strokeWidth = 3
)

// Canvas is a chart's size in pixels, with its titles and axes.
type Canvas struct{ Width, Height float64 }

// Plot is the size of the part that holds the points, where the chart has no
// legend.
func (c Canvas) Plot() (width, height float64) { return 0.82 * c.Width, 0.63 * c.Height }

// Box is a rectangle of the plot, in pixels from its left and its top.
type Box struct{ Left, Top, Right, Bottom float64 }

// BoxAt is a box of a size with its middle at a point.
func BoxAt(x, y, width, height float64) Box {
	return Box{x - width/2, y - height/2, x + width/2, y + height/2}
}

// Stroke is a level or upright line between two points.
func Stroke(x0, y0, x1, y1 float64) Box {
	width, height := max(math.Abs(x1-x0), strokeWidth), max(math.Abs(y1-y0), strokeWidth)
	return BoxAt((x0+x1)/2, (y0+y1)/2, width, height)
}

// Shared is the area that two boxes share.
func (b Box) Shared(o Box) float64 {
	w, h := min(b.Right, o.Right)-max(b.Left, o.Left), min(b.Bottom, o.Bottom)-max(b.Top, o.Top)
	return max(w, 0) * max(h, 0)
}

// Named is a point of the plot with its name, in pixels from the left and the
// top.
type Named struct {
	X, Y, Noise float64 // Noise is half the error bar
	Name        string
	Order       []Label // places to try, the best first
}

// At is where the name stands on a canvas when it is put at a place. A name wider
// than a fifth of the canvas is wrapped.
func (n Named) At(at Label, c Canvas) Box {
	width, widest := letterWidth*float64(len([]rune(n.Name))), c.Width/5
	height := math.Ceil(width/widest) * lineHeight
	width = min(width, widest)
	const gap = markSize/2.0 + 2
	switch at {
	case Above:
		return BoxAt(n.X, n.Y-gap-height/2, width, height)
	case Under:
		return BoxAt(n.X, n.Y+gap+height/2, width, height)
	case LeftOf:
		return BoxAt(n.X-gap-width/2, n.Y, width, height)
	default:
		return BoxAt(n.X+gap+width/2, n.Y, width, height)
	}
}

// Mark is the point's mark.
func (n Named) Mark() Box { return BoxAt(n.X, n.Y, markSize, markSize) }

func (n Named) bar() Box { return BoxAt(n.X, n.Y, strokeWidth, 2*n.Noise) }

// PlaceNames chooses for every point the place of its name that covers least of
// the other names, of the marks and their error bars, and of the lines, each
// point in turn given the others, until nobody moves. The same points give the
// same places.
func (c Canvas) PlaceNames(points []Named, lines []Box) []Label {
	out := make([]Label, len(points))
	const turns = 8
	for range turns {
		moved := false
		for i, p := range points {
			best, least := out[i], math.Inf(1)
			for k, at := range p.Order {
				if cost := c.covers(points, lines, out, i, at) + float64(k); cost < least {
					best, least = at, cost
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
func (c Canvas) covers(points []Named, lines []Box, names []Label, i int, at Label) float64 {
	const onName, onMark, onLine, outside = 4, 4, 2, 10
	b := points[i].At(at, c)
	width, height := c.Plot()
	cost := outside * (b.Shared(b) - b.Shared(Box{0, 0, width, height}))
	for j, o := range points {
		cost += onMark*b.Shared(o.Mark()) + onLine*b.Shared(o.bar())
		if j != i && names[j] != "" {
			cost += onName * b.Shared(o.At(names[j], c))
		}
	}
	for _, l := range lines {
		cost += onLine * b.Shared(l)
	}
	return cost
}
