package headcard

import (
	"cmp"
	"fmt"
	"math"
	"slices"

	"flowshelf/analysis/compare"
	"flowshelf/analysis/head"
	"flowshelf/analysis/quantity"
	"flowshelf/analysis/source"
	"flowshelf/export/book"
)

// line is one curve of the card.
type line struct {
	name string
	port *compare.PortResult
}

// mostLines is how many curves the table holds beside the lifts.
const mostLines = columns - 1

// lines are the intake and exhaust of the head as delivered, then of its other
// states.
func (w *writer) lines() []line {
	var out []line
	for _, e := range w.Entries {
		name := ""
		if e.State != "" && len(w.Entries) > 1 {
			name = e.State + " "
		}
		if e.Intake != nil {
			out = append(out, line{name + "intake", e.Intake})
		}
		if e.Exhaust != nil {
			out = append(out, line{name + "exhaust", e.Exhaust})
		}
	}
	return out[:min(len(out), mostLines)]
}

// curves is the table of measured points and its picture.
func (w *writer) curves() {
	w.section("Flow, cfm")
	lines := w.lines()
	if len(lines) == 0 {
		w.prose("No flow test of it can be used.", book.Prose)
		w.row++
		return
	}
	var lifts []quantity.Length
	for _, l := range lines {
		for _, p := range l.port.Points {
			lifts = append(lifts, p.Lift)
		}
	}
	slices.Sort(lifts)
	lifts = slices.CompactFunc(lifts, func(a, b quantity.Length) bool { return a.Near(b, 0.0005) })
	top := w.row
	w.s.Say(top, 1, "Lift, in", book.Header)
	for j, l := range lines {
		w.s.Say(top, 2+j, l.name, book.Header.To(book.Right))
	}
	highest := 0.0
	for i, at := range lifts {
		w.s.Set(top+1+i, 1, book.Number(tidy(at.In())), book.Body.As(book.Lift).To(book.Left))
		for j, l := range lines {
			v := book.Value{}
			if f, ok := l.port.At(at); ok && f.Measured {
				v = book.Number(f.Flow.CFM())
				highest = max(highest, f.Flow.CFM())
			}
			w.s.Set(top+1+i, 2+j, v, book.Body.As(book.Flow))
		}
	}
	w.row = top + len(lifts) + 2
	w.picture(top, len(lifts), lines, highest, lifts[len(lifts)-1])
}

func (w *writer) picture(top, lifts int, lines []line, highest float64, last quantity.Length) {
	const step, wide, high, rowsTall = 50, 800, 280, 19
	var series []book.Series
	for j := range lines {
		col := 2 + j
		series = append(series, book.Series{Name: w.s.Area(top, col, top, col), X: w.s.Area(top+1, 1, top+lifts, 1), Y: w.s.Area(top+1, col, top+lifts, col), Look: book.Looks(j)})
	}
	low, up := 0.0, math.Ceil((highest+1)/step)*step
	left, right := 0.0, math.Ceil(last.In()*10+0.2)/10
	w.s.Draw(book.Chart{
		Title:  w.Listed.Name,
		X:      book.Axis{Title: "lift at the valve, in", Format: book.Lift, Min: &left, Max: &right, Step: 0.1},
		Y:      book.Axis{Title: "cfm", Format: book.Flow, Min: &low, Max: &up, Step: step},
		Series: series,
	}, w.row, 1, wide, high)
	w.row += rowsTall
}

// states says what each state comes to.
func (w *writer) states() {
	if len(w.Entries) == 0 {
		return
	}
	w.section("States")
	for _, e := range w.Entries {
		words := e.Verdict
		if e.Place.Number > 0 {
			shared := ""
			if e.Place.Shared {
				shared = " (tied)"
			}
			words = fmt.Sprintf("Place %d%s. %s", e.Place.Number, shared, words)
		}
		w.prose(words, book.Prose)
	}
	w.row++
}

// needs are what else has to be bought.
func (w *writer) needs() {
	if len(w.Extras) == 0 {
		return
	}
	w.section("Needs")
	for _, x := range w.Extras {
		price := "price not stated"
		if x.Price.Known {
			price = cash(x.Price.Value) + " " + x.Basis.String()
		}
		w.fact(fmt.Sprintf("%s, %s, %s", x.Item, cmp.Or(x.Words, "condition not stated"), price), x.At)
	}
	w.row++
}

// notes are what was found, word for word.
func (w *writer) notes() {
	if len(w.Notes) == 0 {
		return
	}
	w.section("Notes")
	for _, n := range w.Notes {
		day := ""
		if n.Date.Known {
			day = n.Date.Value.Format("2006-01-02")
		}
		w.fact(fmt.Sprintf("%s (%s) %s %s", n.Text, cmp.Or(n.For.String(), "neither"), n.By, day), n.At)
	}
	w.row++
}

// fact is a sentence that leads to its cell.
func (w *writer) fact(words string, at source.Ref) {
	w.prose(words, book.Prose)
	w.s.LinkTo(w.row-1, 1, book.ToSource(w.Up, at))
}

// tests is the history: every test of it that is in the folder, newest first.
func (w *writer) tests() {
	tests := slices.Clone(w.Tests)
	slices.SortStableFunc(tests, func(a, b *head.Test) int { return cmp.Compare(dayOf(b), dayOf(a)) })
	w.section("Tests")
	if len(tests) == 0 {
		w.prose("None in the folder.", book.Prose)
	}
	for _, t := range tests {
		words := fmt.Sprintf("%s: %s, %s", dayOf(t), t.Port, t.Class)
		for _, part := range []string{t.State, mark("sample", t.Sample), mark("port", t.PortMark), bore(t), t.Entry, pipe(t), t.Why} {
			if part != "" {
				words += ", " + part
			}
		}
		w.fact(fmt.Sprintf("%s; %d readings, %s", words, len(t.Readings), t.At.File), t.At)
	}
	w.said(tests)
	for _, e := range w.Entries {
		for _, earlier := range e.Earlier {
			w.prose("Earlier: "+earlier, book.Prose)
		}
	}
	w.row++
}

// said are the testers' words, once each: those of a sheet belong to every test
// on it.
func (w *writer) said(tests []*head.Test) {
	type words struct{ text, file string }
	seen := make(map[words]bool)
	for _, t := range tests {
		for _, r := range t.Remarks {
			if is := (words{r.Text, t.At.File}); !seen[is] {
				seen[is] = true
				w.prose(fmt.Sprintf("“%s” (%s)", r.Text, t.At.File), book.Note)
			}
		}
	}
}

func mark(what, is string) string {
	if is == "" {
		return ""
	}
	return what + " " + is
}

func bore(t *head.Test) string {
	if !t.Bore.Known {
		return "bore not stated"
	}
	return fmt.Sprintf("bore %.3f", t.Bore.Value.In())
}

func pipe(t *head.Test) string {
	if t.Port != head.Exhaust {
		return ""
	}
	return t.Pipe.Words()
}

func (w *writer) cautions() {
	w.section("Cautions")
	for _, c := range w.Cautions {
		w.prose(c, book.Prose)
	}
}
