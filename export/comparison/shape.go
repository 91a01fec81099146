package comparison

import (
	"fmt"

	"flowshelf/analysis/compare"
	"flowshelf/analysis/curve"
	"flowshelf/analysis/head"
	"flowshelf/analysis/quantity"
	"flowshelf/export/book"
)

// side is one port of one head.
type side struct {
	line
	port   head.Port
	result *compare.PortResult
}

// shape writes where each port stops gaining, what it loses, and the score that
// can be worked out again by hand from its row.
func (w *writer) shape(s *book.Sheet) {
	a := w.Family.Anchors
	notes := []string{"Levelling off near L/D .25 is geometry: the curtain is then as large as the valve. Backing up is the fault."}
	if a.Known {
		notes = append(notes, fmt.Sprintf("Score = %s x mid-lift + %s x stall + %s x peak, each held to 0..100: mid-lift average from %s to %s cfm, "+
			"stall from %s of the range's top to the top, peak in the range from %s to %s cfm.",
			plain(a.WMid), plain(a.WStall), plain(a.WPeak), plain(a.MidLow.CFM()), plain(a.MidHigh.CFM()), plain(a.StallLow),
			plain(a.PeakLow.CFM()), plain(a.PeakHigh.CFM())))
	}
	header := w.page(s, "Shape of the curves", notes...)
	var rows []side
	for _, l := range w.comparable() {
		for _, port := range []head.Port{head.Intake, head.Exhaust} {
			if p := l.port(port); p != nil {
				rows = append(rows, side{l, port, p})
			}
		}
	}
	table := book.Table[side]{Name: "Shapes", Columns: w.shapeColumns(), Rows: rows}
	table.Write(s, header, 1)
	s.Freeze(header, 2)
	const onPaper = 2 // the last columns are for the screen
	w.paper(s, header, book.Print{Columns: len(table.Columns) - onPaper})
}

// liftByLift writes what the curves say of one another: whether the choice of
// average decides, whether the seat or the port is odd, and where each wins.
func (w *writer) liftByLift(s *book.Sheet) {
	row := w.page(s, "Lift by lift: what the curves say of one another")
	s.Width(1, 24, 9, 9, 9, 9, 9, 9, 70)
	const lastCol = 8
	row = w.choiceOfAverage(s, row)
	row = w.seatOrPort(s, row, lastCol)
	w.whereEachLeads(s, row, lastCol)
	w.paper(s, 0, book.Print{})
}

func (w *writer) shapeColumns() []book.Column[side] {
	b := book.Body
	words := func(title string, width float64, of func(side) string) book.Column[side] {
		return book.Column[side]{Title: title, Width: width, Style: b.Wrapped().Indented(), Value: func(r side) book.Value { return book.Text(of(r)) }}
	}
	fig := func(title string, width float64, f book.Format, of func(side) book.Value) book.Column[side] {
		return book.Column[side]{Title: title, Width: width, Style: b.As(f), Value: of}
	}
	intakeOnly := func(of func(compare.Shape) float64) func(side) book.Value {
		return func(r side) book.Value {
			if r.port != head.Intake {
				return book.Value{}
			}
			return shapePart(of)(r.line)
		}
	}
	cols := []book.Column[side]{
		words("Head and state", 19, func(r side) string { return r.Label }),
		words("Port", 9, func(r side) string { return r.port.String() }),
		words("The curve", 18, func(r side) string { return r.result.Words }),
		fig("Shape score", 6.5, book.Tenth, intakeOnly(func(s compare.Shape) float64 { return s.Score })),
		fig("Mid-lift points", 6.5, book.Tenth, intakeOnly(func(s compare.Shape) float64 { return s.Mid })),
		fig("Stall points", 6.5, book.Tenth, intakeOnly(func(s compare.Shape) float64 { return s.Stall })),
		fig("Peak points", 6.5, book.Tenth, intakeOnly(func(s compare.Shape) float64 { return s.Peak })),
		fig("Mid-lift average, cfm", 8.5, book.Tenth, func(r side) book.Value { return number(r.result.MidMean) }),
		fig("Mid-lift area, cfm·in", 8.5, book.Hundredth, func(r side) book.Value { return number(r.result.MidArea) }),
		fig("Peak in range, cfm", 7.5, book.Tenth, func(r side) book.Value { return peakFlow(r.result) }),
		fig("at lift, in", 7, book.Lift, func(r side) book.Value { return peakLift(r.result) }),
		fig("L/D at the peak", 7, book.Hundredth, func(r side) book.Value { return overValve(r, r.result.PeakIn.Lift) }),
	}
	return append(cols, stallColumns(words, fig)...)
}

func stallColumns(words func(string, float64, func(side) string) book.Column[side],
	fig func(string, float64, book.Format, func(side) book.Value) book.Column[side]) []book.Column[side] {
	return []book.Column[side]{
		{Title: "Stalls at, in", Width: 9, Style: book.Body.As(book.Lift).To(book.Right), Value: func(r side) book.Value { return stallLift(r.result.Verdict) }},
		fig("L/D there", 7, book.Hundredth, func(r side) book.Value {
			if !stalled(r.result.Verdict) {
				return book.Value{}
			}
			return overValve(r, r.result.Verdict.StallLift)
		}),
		fig("Loss from peak to last, cfm", 8.5, book.Tenth, func(r side) book.Value {
			if r.result.Verdict.Status != curve.BacksUp {
				return book.Value{}
			}
			return book.Number(r.result.Verdict.Drop().CFM())
		}),
		{Title: "More cam wasted past, in", Width: 8, Style: book.Body.As(book.Lift).To(book.Right), Value: wastedPast},
		words("Dips", 11, func(r side) string { return dips(r.result.Verdict) }),
		fig("Last lift tested, in", 7.5, book.Lift, func(r side) book.Value { return book.Number(tidy(r.result.Last.In())) }),
		fig("Step near the top, in", 8, book.Lift, func(r side) book.Value { return lastStep(r.result) }),
		fig("Range tested", 8, book.Percent, func(r side) book.Value { return book.Number(r.result.Coverage) }),
		words("How sure", 11, func(r side) string { return sure(r.result) }),
		words("Score remark", 18, scoreRemark),
		words("Tester's words", 30, testersWords),
	}
}

// wastedPast is the lift from which the curve gains less than 2 %.
func wastedPast(r side) book.Value {
	if m := r.result.MoreCam; m.Known {
		return book.Number(tidy(m.Value))
	}
	return book.Text("can't say")
}

func scoreRemark(r side) string {
	switch {
	case r.port != head.Intake:
		return ""
	case !r.Shape.Known:
		return r.Shape.Why
	case r.Shape.AtLeast:
		return "at least"
	}
	return ""
}

func stalled(v curve.Verdict) bool { return v.Status != curve.TooFew && !v.Censored }

func stallLift(v curve.Verdict) book.Value {
	if !stalled(v) {
		return book.Text("not reached")
	}
	return book.Number(tidy(v.StallLift.In()))
}

// overValve is lift over valve diameter, which is how a stall is judged whatever
// the size of the head.
func overValve(r side, at quantity.Length) book.Value {
	d := r.Dimensions
	if d == nil || at == 0 {
		return book.Value{}
	}
	valve := d.IntakeValve
	if r.port == head.Exhaust {
		valve = d.ExhaustValve
	}
	if !valve.Known || valve.Value <= 0 {
		return book.Value{}
	}
	return book.Number(at.In() / valve.Value.In())
}

func dips(v curve.Verdict) string {
	out := ""
	for _, d := range v.Dips {
		out += fmt.Sprintf("%s (-%.0f) ", lift(d.At.Lift), d.Depth().CFM())
	}
	return out
}

func lastStep(p *compare.PortResult) book.Value {
	n := len(p.Points)
	if n < 2 {
		return book.Value{}
	}
	return book.Number(tidy((p.Points[n-1].Lift - p.Points[n-2].Lift).In()))
}

func sure(p *compare.PortResult) string {
	if p.WithHeld != "" {
		return "withheld: " + p.WithHeld
	}
	return p.Verdict.Confidence.String()
}

func testersWords(r side) string {
	out := ""
	for _, p := range r.result.Points {
		if p.Remark != "" {
			out += fmt.Sprintf("%s: %s ", lift(p.Lift), p.Remark)
		}
	}
	return out
}
