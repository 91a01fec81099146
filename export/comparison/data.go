package comparison

import (
	"math"
	"strings"

	"flowshelf/analysis/compare"
	"flowshelf/analysis/head"
	"flowshelf/analysis/quantity"
	"flowshelf/export/book"
)

// reading is one row of the long table: a head's flow at one lift.
type reading struct {
	line
	port head.Port
	lift quantity.Length
	at   compare.FlowAt
}

// dataSheet says where the live sheets find their figures.
type dataSheet struct {
	readings book.Range // body of the long table
	facts    book.Range // one row a head
	labels   book.Range // the heads' names, the first column of facts
	names    []string   // what each column of facts holds
	step     book.Range // the smallest change that counts
	sigmas   book.Range // how many combined uncertainties a difference must exceed
}

// Columns of the long table that formulas look into, 0 for the first.
const (
	dataLabel = 0
	dataPort  = 4
	dataLift  = 5
	dataFlow  = 6
	dataNoise = 8
)

const (
	dataHeader = 6
	factsCol   = 15
)

// data writes the long table and the block of head facts.
func (w *writer) data(s *book.Sheet) dataSheet {
	w.page(s, "Data: every point of every curve, and the facts of each head",
		"One row a head, port and lift, made to be filtered and pivoted. The sheets Side by side and Flow look their figures up here.")
	long := book.Table[reading]{Name: "Readings", Columns: w.readingColumns(), Rows: w.readings()}
	d := dataSheet{readings: long.Write(s, dataHeader, 1)}

	s.Say(dataHeader-2, factsCol, "Smallest change that counts, cfm", book.Note)
	s.Set(dataHeader-2, factsCol+4, book.Number(w.Rules.SmallestStep.CFM()), book.Body.As(book.Tenth))
	d.step = s.Area(dataHeader-2, factsCol+4, dataHeader-2, factsCol+4)
	s.Say(dataHeader-3, factsCol, "Combined uncertainties a difference must exceed", book.Note)
	s.Formula(dataHeader-3, factsCol+4, "NORMSINV("+plain(w.Rules.TieUntil)+")", book.Number(compare.Sigmas(w.Rules)), book.Body.As(book.Thousandth))
	d.sigmas = s.Area(dataHeader-3, factsCol+4, dataHeader-3, factsCol+4)

	facts := book.Table[line]{Columns: w.factColumns(), Rows: w.comparable()}
	d.facts = facts.Write(s, dataHeader, factsCol)
	d.labels = d.facts.Column(0)
	for _, c := range facts.Columns {
		d.names = append(d.names, c.Title)
	}
	s.Freeze(dataHeader, 1)
	s.Grid()
	w.paper(s, dataHeader, book.Print{Upright: true, Columns: len(long.Columns)})
	return d
}

// comparable are the lines that two-head comparisons may be made of: all but
// claims.
func (w *writer) comparable() []line { return w.of(ranked, unpriced, belowLine, held) }

func (w *writer) readings() []reading {
	var out []reading
	for _, l := range w.lines {
		for _, side := range []head.Port{head.Intake, head.Exhaust} {
			port := l.port(side)
			for _, at := range w.lifts {
				if f, ok := port.At(at); ok {
					out = append(out, reading{l, side, at, f})
				}
			}
		}
	}
	return out
}

func (w *writer) readingColumns() []book.Column[reading] {
	b := book.Body
	return []book.Column[reading]{
		{Title: "Head and state", Width: 26, Style: b, Value: func(r reading) book.Value { return book.Text(r.Label) }},
		{Title: "Head", Width: 11, Style: b, Value: func(r reading) book.Value { return book.Text(r.Head) }},
		{Title: "State", Width: 16, Style: b, Value: func(r reading) book.Value { return book.Text(state(r.Entry)) }},
		{Title: "Standing", Width: 13, Style: b, Value: func(r reading) book.Value { return book.Text(r.standing) }},
		{Title: "Port", Width: 9, Style: b, Value: func(r reading) book.Value { return book.Text(r.port.String()) }},
		{Title: "Lift, in", Width: 8, Style: b.As(book.Lift), Value: func(r reading) book.Value { return book.Number(tidy(r.lift.In())) }},
		{Title: "Flow, cfm", Width: 8.5, Style: b.As(book.Tenth), Value: func(r reading) book.Value { return book.Number(r.at.Flow.CFM()) }},
		{Title: "How", Width: 13, Style: b.Indented(), Value: func(r reading) book.Value { return book.Text(how(r.at)) }},
		{Title: "± cfm (1 sd)", Width: 8.5, Style: b.As(book.Tenth), Value: func(r reading) book.Value { return book.Number(r.at.U) }},
		{Title: "Tested bore, in", Width: 9, Style: b.As(book.Thousandth), Value: func(r reading) book.Value {
			return stated(r.line.port(r.port).Bore, quantity.Length.In)
		}},
		{Title: "Sample", Width: 12, Style: b.Indented(), Value: func(r reading) book.Value { return book.Text(r.line.port(r.port).Sample) }},
		{Title: "Date tested", Width: 11, Style: b.As(book.Date), Value: func(r reading) book.Value {
			return book.Day(r.line.port(r.port).Date.Value)
		}},
	}
}

func state(e *compare.Entry) string {
	if e.State == "" {
		return "as delivered"
	}
	return e.State
}

func how(f compare.FlowAt) string {
	if f.Measured {
		return "measured"
	}
	return "interpolated"
}

// tidy drops the last bits that a unit conversion leaves, so that a lift looked
// up is the lift found.
func tidy(x float64) float64 { return math.Round(x*1e6) / 1e6 }

// notes joins somebody's findings for or against a head.
func notes(e *compare.Entry, side head.Side) string {
	var out []string
	for _, n := range e.Notes {
		if n.For == side {
			out = append(out, n.Text)
		}
	}
	return strings.Join(out, "; ")
}
