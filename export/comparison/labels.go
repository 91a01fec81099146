package comparison

import (
	"slices"

	"flowshelf/export/book"
)

// mostNames is up to how many heads all are named on one picture; of more, those
// that nobody beats.
const mostNames = 40

// names chooses where each head's name stands on the picture of what a cfm costs.
func names(priced []line, x, y [2]float64) []book.Label {
	canvas := book.Canvas{Width: chartWidth, Height: chartHeight}
	width, height := canvas.Plot()
	at := func(cost, flow float64) (float64, float64) {
		return width * (cost - x[0]) / (x[1] - x[0]), height * (y[1] - flow) / (y[1] - y[0])
	}
	var points []book.Named
	var who []int
	for i, l := range priced {
		if len(priced) > mostNames && len(l.BeatenBy) > 0 {
			continue
		}
		p := book.Named{Name: l.Label, Noise: height * l.Intake.WorkingU / (y[1] - y[0]),
			Order: []book.Label{book.Above, book.LeftOf, book.RightOf, book.Under}}
		if len(l.BeatenBy) > 0 { // the line of the others runs above
			p.Order = []book.Label{book.RightOf, book.Under, book.LeftOf, book.Above}
		}
		p.X, p.Y = at(l.Cost.Usable.Value.Float(), l.Intake.Working.Value)
		points, who = append(points, p), append(who, i)
	}
	var lines []book.Box
	best := unbeaten(priced)
	for i := range best {
		if i == 0 {
			continue
		}
		x0, y0 := at(best[i-1].Cost.Usable.Value.Float(), best[i-1].Intake.Working.Value)
		x1, y1 := at(best[i].Cost.Usable.Value.Float(), best[i].Intake.Working.Value)
		lines = append(lines, book.Stroke(x0, y0, x1, y0), book.Stroke(x1, y0, x1, y1))
	}
	out := make([]book.Label, len(priced))
	for k, label := range canvas.PlaceNames(points, lines) {
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
