package comparison

import (
	"fmt"
	"math"

	"flowshelf/analysis/compare"
	"flowshelf/analysis/head"
	"flowshelf/analysis/quantity"
	"flowshelf/analysis/source"
	"flowshelf/export/book"
)

// How a flow is shown, by what it rests on.
var (
	measuredLook     = book.Body.As(book.Flow).Strong()
	interpolatedLook = book.Style{Format: book.Flow, Italic: true, Ink: book.Muted, Bottom: book.Hair}
	averageLook      = book.Style{Format: book.Flow, Bottom: book.Hair, Fill: book.BandFill}
)

// flowColumn is where each head's figures begin: after its name.
const flowColumn = 3

// flow writes heads down and lifts across, intake and then exhaust, and below
// each block the differences to a head of one's choice.
func (w *writer) flow(s *book.Sheet) {
	w.page(s, "Flow: heads down, lifts across",
		"Bold: measured at this lift. Italic grey: between two measured lifts. Empty: not tested there; nothing is carried beyond the readings.")
	const choice = 5
	s.Say(choice, 1, "Less:", book.Style{Bold: true, Middle: true})
	s.Say(choice, 2, w.flowBase(), book.Yellow)
	s.Say(choice, 3, "the differences below are taken from this head: choose another in the yellow cell; bold ones are beyond the noise", book.Note)
	row := choice + 2
	shown := w.comparable()
	names := s.Area(row+2, 2, row+1+len(shown), 2)
	s.Width(1, 6.5, 26)
	s.Freeze(0, 2)
	w.paper(s, 0, book.Print{Upright: true})
	if len(shown) == 0 {
		s.Say(row, 1, "No head of this family has a curve yet.", book.Style{})
		return
	}
	s.ChooseFrom(s.Area(choice, 2, choice, 2), names)
	from := row
	for _, port := range []head.Port{head.Intake, head.Exhaust} {
		from = row
		block := w.flowBlock(s, row, port, shown)
		s.Keep(row, block.ToRow)
		row = block.ToRow + 1
		if port == head.Intake {
			row = w.refused(s, row)
		}
		row = w.differences(s, row+1, port, block, book.CellName(choice, 2))
	}
	row = w.ratios(s, row, shown)
	s.Keep(from, row-2) // all of the exhaust
	w.advertisedFlow(s, row)
}

// flowBase is the head that differences are taken from when the book opens.
func (w *writer) flowBase() string {
	if l, ok := w.find(w.opts.FlowOf); ok {
		return l.Label
	}
	shown := w.comparable()
	for _, l := range shown {
		if l.IsBase {
			return l.Label
		}
	}
	if len(shown) > 0 {
		return shown[0].Label
	}
	return ""
}

// flowBlock writes one port's flows and returns the range of the flows, one row
// a head and one column a lift.
func (w *writer) flowBlock(s *book.Sheet, row int, port head.Port, shown []line) book.Range {
	s.Say(row, 1, capital(port.String())+", cfm", book.Section)
	s.Fill(row, 2, flowColumn-1, book.Style{})
	w.liftHeader(s, row+1, "Place", "Head and state")
	averages := w.averages(port)
	after := flowColumn + len(w.lifts)
	for i, a := range averages {
		s.Say(row+1, after+i, a.title, book.Header.To(book.Right))
		s.Width(after+i, 9)
	}
	for i, l := range shown {
		r := row + 2 + i
		s.Set(r, 1, place(l.Entry), placeLook(l))
		s.Say(r, 2, l.Label, book.Body)
		p := l.port(port)
		for j, at := range w.lifts {
			w.flowCell(s, r, flowColumn+j, p, at)
		}
		for j, a := range averages {
			s.Set(r, after+j, a.of(l, p), averageLook)
		}
	}
	return s.Area(row+2, flowColumn, row+1+len(shown), flowColumn+len(w.lifts)-1)
}

// refused lists below the intake block the readings that were refused, struck
// out: they never stand among those that count.
func (w *writer) refused(s *book.Sheet, row int) int {
	for _, p := range w.Problems.Sorted() {
		if p.Severity != source.Refused || p.Head == "" || p.Found == "" {
			continue
		}
		s.Say(row, 2, p.Head, book.Note)
		s.Say(row, flowColumn, p.Found, book.Style{Strike: true, Align: book.Right})
		s.LinkTo(row, flowColumn, book.ToSource(w.opts.Up, p.At))
		s.Say(row, flowColumn+1, "refused: "+p.Message, book.Note.Indented())
		row++
	}
	return row
}

func (w *writer) liftHeader(s *book.Sheet, row int, first, second string) {
	s.Say(row, 1, first, book.Header)
	s.Say(row, 2, second, book.Header)
	for j, at := range w.lifts {
		s.Set(row, flowColumn+j, book.Number(tidy(at.In())), book.Header.As(book.Lift).To(book.Right))
		s.Width(flowColumn+j, 6.3)
	}
}

func (w *writer) flowCell(s *book.Sheet, row, col int, p *compare.PortResult, at quantity.Length) {
	f, ok := p.At(at)
	switch {
	case !ok:
		s.Set(row, col, book.Value{}, book.Body)
	case f.Measured:
		s.Set(row, col, book.Number(f.Flow.CFM()), measuredLook)
	default:
		s.Set(row, col, book.Number(f.Flow.CFM()), interpolatedLook)
	}
}

type average struct {
	title string
	of    func(line, *compare.PortResult) book.Value
}

func (w *writer) averages(port head.Port) []average {
	out := []average{{
		"Working avg " + lifts(w.Family.RangeFrom, w.Family.RangeTo),
		func(_ line, p *compare.PortResult) book.Value { return working(p) },
	}}
	if port == head.Exhaust {
		return out
	}
	return append([]average{
		{"Low .200", func(l line, _ *compare.PortResult) book.Value { return number(l.Low) }},
		{"Mid .300 to .400", func(l line, _ *compare.PortResult) book.Value { return number(l.Mid) }},
		{"High .500 up", func(l line, _ *compare.PortResult) book.Value { return number(l.High) }},
	}, out...)
}

// differences writes, below a block of flows, each head's flow less that of the
// chosen head: live, and bold where the difference is beyond the noise.
func (w *writer) differences(s *book.Sheet, row int, port head.Port, flows book.Range, choice string) int {
	s.Say(row, 1, capital(port.String())+" less the chosen head, cfm", book.Section)
	w.liftHeader(s, row+1, "Place", "Head and state")
	base, _ := w.find(w.flowBase())
	chosen := fmt.Sprintf("MATCH($%s$%s,%s,0)", choice[:1], choice[1:], span(flows, flowColumn-1))
	shown := w.comparable()
	body := s.Area(row+2, flowColumn, row+1+len(shown), flowColumn+len(w.lifts)-1)
	for i, l := range shown {
		r := row + 2 + i
		s.Set(r, 1, place(l.Entry), placeLook(l))
		s.Say(r, 2, l.Label, book.Body)
		for j, at := range w.lifts {
			here := book.CellName(flows.Row+i, flowColumn+j)
			there := fmt.Sprintf("INDEX(%s,%s)", span(flows, flowColumn+j), chosen)
			formula := fmt.Sprintf(`IF(OR(%s="",%s=""),"",%s-%s)`, here, there, here, there)
			s.Formula(r, flowColumn+j, formula, difference(l.port(port), base.Entry, port, at), book.Body.As(book.Signed))
		}
	}
	w.boldBeyondNoise(s, body, flows)
	s.Keep(row, body.ToRow)
	return body.ToRow + 3
}

// span spells one column of a block, its rows fixed.
func span(r book.Range, col int) string {
	name := book.ColumnName(col)
	return fmt.Sprintf("$%s$%d:$%s$%d", name, r.Row, name, r.ToRow)
}

func difference(p *compare.PortResult, base *compare.Entry, port head.Port, at quantity.Length) book.Value {
	if base == nil {
		return book.Value{}
	}
	a, ok := p.At(at)
	b, okBase := line{Entry: base}.port(port).At(at)
	if !ok || !okBase {
		return book.Value{}
	}
	return book.Number(a.Flow.CFM() - b.Flow.CFM())
}

// boldBeyondNoise marks the differences that exceed both the smallest change
// that counts and the repeatability of the reading.
func (w *writer) boldBeyondNoise(s *book.Sheet, body, flows book.Range) {
	cell := book.CellName(body.Row, body.Col)
	here := book.CellName(flows.Row, flows.Col)
	rule := fmt.Sprintf(`AND(ISNUMBER(%s),ABS(N(%s))>MAX(%s,%s*N(%s)))`,
		cell, cell, plain(w.Rules.SmallestStep.CFM()), plain(w.Rules.Repeatability), here)
	s.MarkWhen(body, rule, book.Style{Bold: true, Ink: book.Accent})
}

// advertisedFlow lists what is claimed, apart from what was measured.
func (w *writer) advertisedFlow(s *book.Sheet, row int) {
	claims := w.of(advertised)
	if len(claims) == 0 {
		return
	}
	for _, port := range []head.Port{head.Intake, head.Exhaust} {
		s.Say(row, 1, "Advertised "+port.String()+", cfm: claims, never ranked against tests", book.Section)
		w.liftHeader(s, row+1, "", "Head, as advertised")
		for i, l := range claims {
			s.Say(row+2+i, 2, l.Label, book.Body)
			for j, at := range w.lifts {
				if f, ok := l.port(port).At(at); ok && f.Measured {
					s.Set(row+2+i, flowColumn+j, book.Number(math.Round(f.Flow.CFM())), book.Body.As(book.Flow))
				} else {
					s.Set(row+2+i, flowColumn+j, book.Value{}, book.Body)
				}
			}
		}
		s.Keep(row, row+1+len(claims))
		row += len(claims) + 3
	}
}
