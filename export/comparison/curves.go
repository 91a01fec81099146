package comparison

import (
	"fmt"
	"math"
	"slices"

	"flowshelf/analysis/compare"
	"flowshelf/analysis/head"
	"flowshelf/analysis/quantity"
	"flowshelf/export/book"
)

// drawnHeads is how many curves one picture holds before it becomes a tangle.
const drawnHeads = 6

// The pictures: their size in pixels, and the sheet's rows below them.
const (
	chartWidth  = 575
	chartHeight = 375
	chartCol2   = 9  // where the second picture of a row begins
	chartRow2   = 28 // where the second row of pictures begins
	figuresRow  = 53
	thinLine    = 1 // points, for what was not tested here
)

// curves draws the pictures, and writes the figures they are made of below.
func (w *writer) curves(s *book.Sheet) {
	w.page(s, "Curves",
		fmt.Sprintf("Marks stand at measured lifts; the lines between them are straight. Thick: tested here; thin: a supplier's sheet. The dotted upright is the top of the working range, %s.", lift(w.Family.RangeTo)))
	for col := 1; col <= 16; col++ {
		s.Width(col, 9.8)
	}
	w.paper(s, 0, book.Print{})
	heads := w.drawn()
	if len(heads) == 0 {
		s.Say(5, 1, "No head of this family has a curve yet.", book.Style{})
		return
	}
	d := &drawing{writer: w, sheet: s, row: figuresRow, heads: heads}
	s.Break(d.row)
	s.Say(d.row, 1, "Figures behind the pictures", book.Section)
	d.row += 2
	s.Draw(d.overlay(head.Intake), 4, 1, chartWidth, chartHeight)
	s.Draw(d.overlay(head.Exhaust), 4, chartCol2, chartWidth, chartHeight)
	if base, ok := w.find(w.flowBase()); ok {
		s.Draw(d.toBase(base), chartRow2, 1, chartWidth, chartHeight)
	}
	if chart, ok := d.worth(); ok {
		s.Draw(chart, chartRow2, chartCol2, chartWidth, chartHeight)
	}
}

// drawn picks the heads of the overlays: the first in the ranking, and the base
// head among them in any case.
func (w *writer) drawn() []line {
	all := w.of(ranked, unpriced, belowLine)
	if len(all) <= drawnHeads {
		return all
	}
	out := slices.Clone(all[:drawnHeads])
	isBase := func(l line) bool { return l.IsBase }
	if i := slices.IndexFunc(all, isBase); i >= drawnHeads {
		out[drawnHeads-1] = all[i]
	}
	return out
}

// drawing lays out charts and the figures they point at.
type drawing struct {
	*writer
	sheet *book.Sheet
	row   int // the next free one
	top   int // the titles of the last block
	heads []line
}

// grid writes a block of figures, lifts down and heads across, and returns its
// series.
func (d *drawing) grid(title string, f book.Format, of func(line, quantity.Length) book.Value) []book.Series {
	s := d.sheet
	s.Say(d.row, 1, title, book.Body.Strong())
	top := d.row + 1
	d.top = top
	s.Say(top, 1, "Lift, in", book.Header.To(book.Right))
	for i, at := range d.lifts {
		s.Set(top+1+i, 1, book.Number(tidy(at.In())), book.Body.As(book.Lift))
	}
	end := top + len(d.lifts)
	var out []book.Series
	for j, l := range d.heads {
		col := 2 + j
		s.Say(top, col, l.Label, book.Header.To(book.Right))
		for i, at := range d.lifts {
			s.Set(top+1+i, col, of(l, at), book.Body.As(f))
		}
		look := book.Looks(j)
		if l.standing == belowLine {
			look.Points = thinLine
		}
		out = append(out, book.Series{
			Name: s.Area(top, col, top, col), X: s.Area(top+1, 1, end, 1), Y: s.Area(top+1, col, end, col), Look: look,
		})
	}
	d.row = end + 2
	s.Keep(top, end)
	return out
}

// upright writes, beside the last block, the two points of the line at the range's
// top.
func (d *drawing) upright(low, high float64) book.Series {
	s := d.sheet
	top, x := d.top, 3+len(d.heads)
	y := x + 1
	s.Say(top, x, "Lift, in", book.Header.To(book.Right))
	s.Say(top, y, "Top of range "+lift(d.Family.RangeTo), book.Header.To(book.Right))
	for i, end := range []float64{low, high} {
		s.Set(top+1+i, x, book.Number(tidy(d.Family.RangeTo.In())), book.Body.As(book.Lift))
		s.Set(top+1+i, y, book.Number(end), book.Body.As(book.Flow))
	}
	d.row = max(d.row, top+4)
	return book.Series{
		Name: s.Area(top, y, top, y), X: s.Area(top+1, x, top+2, x), Y: s.Area(top+1, y, top+2, y),
		Look: book.Look{Ink: book.Muted, Dash: book.Dotted, Marker: book.NoMarker, Points: 1.5},
	}
}

// overlay draws one port of every head.
func (d *drawing) overlay(side head.Port) book.Chart {
	highest := 0.0
	series := d.grid(capital(side.String())+" as measured, cfm", book.Flow, func(l line, at quantity.Length) book.Value {
		f, ok := l.port(side).At(at)
		if !ok || !f.Measured {
			return book.Value{}
		}
		highest = max(highest, f.Flow.CFM())
		return book.Number(f.Flow.CFM())
	})
	const step = 50
	top := math.Ceil((highest+1)/step) * step
	low := 0.0
	return book.Chart{
		Title:  capital(side.String()) + " flow",
		X:      d.liftAxis(),
		Y:      book.Axis{Title: "cfm at " + plain(d.Rules.Reference.InH2O()) + " inH2O", Format: book.Flow, Min: &low, Max: &top, Step: step},
		Series: append(series, d.upright(low, top)),
	}
}

func (d *drawing) liftAxis() book.Axis {
	last := d.Family.RangeTo
	if n := len(d.lifts); n > 0 {
		last = max(last, d.lifts[n-1])
	}
	low, high := 0.0, math.Ceil(last.In()*10+0.2)/10
	return book.Axis{Title: "lift at the valve, in", Format: book.Lift, Min: &low, Max: &high, Step: 0.1}
}

// toBase draws where each head wins or loses against the base head.
func (d *drawing) toBase(base line) book.Chart {
	low, high := 0.0, 0.0
	series := d.grid("Intake less "+base.Label+", cfm", book.SignedOne, func(l line, at quantity.Length) book.Value {
		v := difference(l.Intake, base.Entry, head.Intake, at)
		if x, ok := v.Float(); ok {
			low, high = min(low, x), max(high, x)
		}
		return v
	})
	const step = 10
	low, high = math.Floor(low/step)*step, math.Ceil((high+1)/step)*step
	return book.Chart{
		Title:  "Intake: difference to " + base.Label,
		X:      d.liftAxis(),
		Y:      book.Axis{Title: "cfm more or less", Format: book.Signed, Min: &low, Max: &high},
		Series: append(series, d.upright(low, high)),
	}
}

// worth draws what each usable set costs against what it flows, with the line
// of the heads that nobody beats.
func (d *drawing) worth() (book.Chart, bool) {
	s := d.sheet
	priced := slices.DeleteFunc(d.of(ranked), func(l line) bool {
		return !l.Cost.Usable.Known || l.Intake == nil || !l.Intake.Working.Known
	})
	if len(priced) == 0 {
		return book.Chart{}, false
	}
	s.Say(d.row, 1, "Usable cost and working average", book.Body.Strong())
	top := d.row + 1
	d.top = top
	for i, title := range []string{"Head", "", "", "Usable cost", "Working avg, cfm", "± cfm"} {
		s.Say(top, 1+i, title, book.Header)
	}
	x, y := around(priced, func(l line) float64 { return l.Cost.Usable.Value.Float() }, 250), around(priced, func(l line) float64 { return l.Intake.Working.Value }, 10)
	places := names(priced, x, y)
	var series []book.Series
	for i, l := range priced {
		r := top + 1 + i
		s.Say(r, 1, l.Label, book.Body)
		s.Fill(r, 2, 3, book.Body)
		s.Set(r, 4, money(l.Cost.Usable), book.Body.As(d.dollars))
		s.Set(r, 5, working(l.Intake), book.Body.As(book.Tenth))
		s.Set(r, 6, workingNoise(l.Intake), book.Body.As(book.Tenth))
		noise := s.Area(r, 6, r, 6)
		look := book.Looks(i)
		look.Points = 0
		series = append(series, book.Series{
			Name: s.Area(r, 1, r, 1), X: s.Area(r, 4, r, 4), Y: s.Area(r, 5, r, 5), Noise: &noise, Look: look, Named: places[i], Unkeyed: true,
		})
	}
	d.row = top + len(priced) + 2
	s.Keep(top, top+len(priced))
	if step, ok := d.frontier(priced); ok {
		series = append(series, step)
	}
	return book.Chart{
		Title:  "What a cfm costs: nobody beats a head at a corner of the line",
		X:      book.Axis{Title: fmt.Sprintf("usable cost, set of %d", d.Family.HeadsPerSet), Format: d.dollars, Min: &x[0], Max: &x[1], Step: 250},
		Y:      book.Axis{Title: "working average intake, cfm", Format: book.Flow, Min: &y[0], Max: &y[1], Step: 10},
		Series: series,
	}, true
}

// around returns the ends of an axis that leaves room on both sides.
func around(lines []line, of func(line) float64, step float64) [2]float64 {
	low, high := math.Inf(1), math.Inf(-1)
	for _, l := range lines {
		low, high = min(low, of(l)), max(high, of(l))
	}
	return [2]float64{max(0, math.Floor(low/step-0.5)*step), math.Ceil(high/step+1) * step}
}

// frontier writes, beside the last block, the step line through the heads that
// nobody beats, cheapest first: level until the next one is paid for, then up.
func (d *drawing) frontier(priced []line) (book.Series, bool) {
	best := unbeaten(priced)
	if len(best) < 2 {
		return book.Series{}, false
	}
	s := d.sheet
	const cost, flows = 8, 9 // columns
	top := d.top
	s.Say(top, cost, "Usable cost", book.Header.To(book.Right))
	s.Say(top, flows, "Not beaten", book.Header.To(book.Right))
	r := top
	point := func(e *compare.Entry, flow float64) {
		r++
		s.Set(r, cost, money(e.Cost.Usable), book.Body.As(d.dollars))
		s.Set(r, flows, book.Number(flow), book.Body.As(book.Tenth))
	}
	for i, l := range best {
		if i > 0 {
			point(l.Entry, best[i-1].Intake.Working.Value)
		}
		point(l.Entry, l.Intake.Working.Value)
	}
	s.Keep(top, r)
	return book.Series{
		Name: s.Area(top, flows, top, flows), X: s.Area(top+1, cost, r, cost), Y: s.Area(top+1, flows, r, flows),
		Look: book.Look{Ink: book.Ink, Dash: book.Solid, Marker: book.NoMarker, Points: 1.25},
	}, true
}
