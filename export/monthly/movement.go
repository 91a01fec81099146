package monthly

import (
	"fmt"
	"math"

	"flowshelf/analysis/review"
	"flowshelf/export/book"
)

// movement is the grid of value against movement, and its picture.
func (w *writer) movement(s *book.Sheet) {
	row := w.page(s, "Value and movement",
		"Good value: tied with the family's leader, or the best buy for some worth of a cfm. Moving: a mover or steady.")
	s.Width(1, 12, 13, 52, 24, 12)
	first := row
	for _, q := range w.Grid {
		s.Say(row, 1, q.Name+": "+q.Advice, book.Section)
		row++
		table := book.Table[review.QuadrantHead]{Rows: q.Heads, Columns: []book.Column[review.QuadrantHead]{
			{Title: "Head", Style: book.Body.Strong(), Value: func(h review.QuadrantHead) book.Value { return book.Text(h.Head) }},
			words("Family", 13, func(h review.QuadrantHead) string { return h.Family }),
			words("Value", 52, func(h review.QuadrantHead) string { return h.Value }),
			words("Movement", 24, func(h review.QuadrantHead) string { return h.Movement }),
			figures("Cash tied up", 12, w.dollars, func(h review.QuadrantHead) book.Value { return money(h.Cash) }),
		}}
		if len(q.Heads) == 0 {
			s.Say(row, 1, "none", book.Note)
			row += 2
			continue
		}
		table.Write(s, row, 1)
		row += len(q.Heads) + 2
	}
	if row == first {
		nothing(s, row, "Nothing is in stock.")
	}
	w.picture(s, row+1)
	w.paper(s, 0, book.Print{Upright: true})
}

// picture draws months of supply across and the value behind the family's
// leader up.
func (w *writer) picture(s *book.Sheet, row int) {
	var heads []review.QuadrantHead
	for _, q := range w.Grid {
		for _, h := range q.Heads {
			if h.Months.Known && h.Behind.Known {
				heads = append(heads, h)
			}
		}
	}
	if len(heads) == 0 {
		return
	}
	const rowsTall = 28
	chartRow := row
	row += rowsTall
	s.Break(chartRow)
	s.Say(row, 1, "Figures behind the picture", book.Section)
	row++
	for i, title := range []string{"Head", "Months of supply", "Value behind the leader, a set"} {
		s.Say(row, 1+i, title, book.Header)
	}
	var series []book.Series
	right, top := 12.0, 100.0
	for i, h := range heads {
		r := row + 1 + i
		s.Say(r, 1, h.Head, book.Body)
		s.Set(r, 2, book.Number(h.Months.Value), book.Body.As(book.Tenth))
		s.Set(r, 3, book.Number(-h.Behind.Value), book.Body.As(w.dollars))
		look := book.Looks(i)
		look.Points = 0
		series = append(series, book.Series{Name: s.Area(r, 1, r, 1), X: s.Area(r, 2, r, 2), Y: s.Area(r, 3, r, 3), Look: look, Unkeyed: true})
		right, top = max(right, h.Months.Value), max(top, h.Behind.Value)
	}
	row += len(heads) + 2
	right, low := math.Ceil((right+1)/6)*6, -math.Ceil((top+1)/250)*250
	s.Say(row, 2, "Months", book.Header)
	s.Say(row, 3, fmt.Sprintf("slow above %g months", w.Rules.SlowMonths), book.Header)
	const headroom = 250
	for i, y := range []float64{low, headroom} {
		s.Set(row+1+i, 2, book.Number(w.Rules.SlowMonths), book.Body.As(book.Tenth))
		s.Set(row+1+i, 3, book.Number(y), book.Body.As(w.dollars))
	}
	series = append(series, book.Series{Name: s.Area(row, 3, row, 3), X: s.Area(row+1, 2, row+2, 2), Y: s.Area(row+1, 3, row+2, 3),
		Look: book.Look{Ink: book.Muted, Dash: book.Dotted, Marker: book.NoMarker, Points: 1.5}})
	left, up := 0.0, float64(headroom)
	canvas := book.Canvas{Width: 760, Height: 400}
	for i, at := range placeHeads(heads, canvas, [2]float64{left, right}, [2]float64{low, up}, w.Rules.SlowMonths) {
		series[i].Named = at
	}
	s.Draw(book.Chart{
		Title:  "Value against movement",
		X:      book.Axis{Title: "months of supply", Format: book.Flow, Min: &left, Max: &right, Step: 6},
		Y:      book.Axis{Title: "value less the family leader's, a set", Format: w.dollars, Min: &low, Max: &up, Step: 250},
		Series: series,
	}, chartRow, 1, int(canvas.Width), int(canvas.Height))
}

// placeHeads chooses where each head's name stands on a picture whose axes go
// from and to these values, off the upright at so many months.
func placeHeads(heads []review.QuadrantHead, canvas book.Canvas, x, y [2]float64, slow float64) []book.Label {
	width, height := canvas.Plot()
	points := make([]book.Named, len(heads))
	for i, h := range heads {
		points[i] = book.Named{
			X: width * (h.Months.Value - x[0]) / (x[1] - x[0]), Y: height * (y[1] + h.Behind.Value) / (y[1] - y[0]),
			Name: h.Head, Order: []book.Label{book.Above, book.Under, book.RightOf, book.LeftOf},
		}
	}
	at := width * (slow - x[0]) / (x[1] - x[0])
	return canvas.PlaceNames(points, []book.Box{book.Stroke(at, 0, at, height)})
}
