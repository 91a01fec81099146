package comparison

import (
	"path"
	"slices"
	"strings"
	"time"

	"flowshelf/analysis/compare"
	"flowshelf/analysis/head"
	"flowshelf/analysis/quantity"
	"flowshelf/analysis/source"
	"flowshelf/export/book"
)

// use is one value that a sheet of this workbook rests on, and its way here.
type use struct {
	head, state string
	port        string
	what        string
	lift        book.Value
	value       book.Value
	unit        string
	format      book.Format
	trace       source.Trace
	sender      string
	date        time.Time
	flag        string
}

// sources writes one row for each value used, and for each reading that was
// found and not used.
func (w *writer) sources(s *book.Sheet) {
	var rows []use
	for _, l := range w.lines {
		for _, port := range []head.Port{head.Intake, head.Exhaust} {
			rows = append(rows, readingsUsed(l, l.port(port))...)
			rows = append(rows, w.readingsLeft(l, l.port(port))...)
		}
		rows = append(rows, conditionsUsed(l)...)
		rows = append(rows, costsUsed(l)...)
		rows = append(rows, dimensionsUsed(l)...)
	}
	notes := []string{"One row a value. The file's name opens it at the cell. Readings that were found and not used stand here too, with the reason."}
	if slices.ContainsFunc(rows, use.unproved) {
		notes = append(notes, "Files in .xls and in text carry no checksum: a digit that changed on its way cannot be noticed.")
	}
	header := w.page(s, "Sources: where every figure comes from", notes...)
	columns := w.useColumns()
	book.Table[use]{Name: "Sources", Columns: columns, Rows: rows}.Write(s, header, 1)
	s.Freeze(header, 1)
	s.Grid()
	w.paper(s, header, book.Print{Columns: len(columns) - 1})
}

// unproved reports whether the value's file is of a kind that cannot vouch for
// it, as far as its name says.
func (u use) unproved() bool {
	switch strings.ToLower(path.Ext(u.trace.At.File)) {
	case "", ".xlsx", ".xlsm", ".xltx", ".xltm", ".ods":
		return false
	}
	return true
}

func (w *writer) useColumns() []book.Column[use] {
	b := book.Body
	words := func(title string, width float64, of func(use) string) book.Column[use] {
		return book.Column[use]{Title: title, Width: width, Style: b.Wrapped().Indented(), Value: func(u use) book.Value { return book.Text(of(u)) }}
	}
	file := words("File", 24, func(u use) string { return u.trace.At.File })
	file.Link = func(u use) book.Link { return book.ToSource(w.opts.Up, u.trace.At) }
	value := book.Column[use]{Title: "Value used", Width: 9, Value: func(u use) book.Value { return u.value },
		Look: func(u use) book.Style { return b.As(u.format).To(book.Right) }}
	return []book.Column[use]{
		words("Head", 10, func(u use) string { return u.head }),
		words("State", 11, func(u use) string { return u.state }),
		words("Port", 8, func(u use) string { return u.port }),
		words("What", 16, func(u use) string { return u.what }),
		{Title: "Lift, in", Width: 7, Style: b.As(book.Lift), Value: func(u use) book.Value { return u.lift }},
		value,
		words("Unit", 8, func(u use) string { return u.unit }),
		words("As it stood", 12, func(u use) string { return u.trace.Text }),
		words("Read in", 12, func(u use) string { return u.trace.Unit }),
		words("Conversions", 26, conversions),
		file,
		words("Sheet", 11, func(u use) string { return u.trace.At.Sheet }),
		words("Cell", 7, func(u use) string { return u.trace.At.Cell }),
		words("From", 15, func(u use) string { return u.sender }),
		{Title: "Dated", Width: 10.5, Style: b.As(book.Date), Value: func(u use) book.Value { return book.Day(u.date) }},
		words("Flag", 18, func(u use) string { return u.flag }),
		words("Answered by", 16, func(u use) string { return u.trace.Answered }),
	}
}

func readingsUsed(l line, p *compare.PortResult) []use {
	if p == nil {
		return nil
	}
	var out []use
	for _, point := range p.Points {
		for _, f := range point.From {
			if f.Reading == nil {
				continue
			}
			trace := f.Reading.Flow.Trace
			for _, step := range f.Steps {
				trace = trace.Then(step)
			}
			u := use{
				head: l.Head, state: state(l.Entry), port: p.Port.String(), what: "flow", unit: "cfm", format: book.Tenth,
				lift: book.Number(tidy(point.Lift.In())), value: book.Number(f.Flow.CFM()), trace: trace, flag: f.Reading.Remark,
			}
			if f.Test != nil {
				u.what = flowOf(f.Test)
				u.sender, u.date = f.Test.By, f.Test.Date.Value
			}
			out = append(out, u)
		}
	}
	return out
}

// flowOf names a flow by the port and run it is of.
func flowOf(t *head.Test) string {
	what := "flow"
	if t.PortMark != "" {
		what += ", port " + t.PortMark
	}
	if t.Run != "" {
		what += ", run " + t.Run
	}
	return what
}

// conversions lists what was done to a value on its way, and says so when it was
// nothing.
func conversions(u use) string {
	if len(u.trace.Steps) == 0 && !u.value.Blank() {
		return "none"
	}
	return strings.Join(u.trace.Steps, "; ")
}

// readingsLeft are the readings of the tests behind a curve that are not in it.
func (w *writer) readingsLeft(l line, p *compare.PortResult) []use {
	if p == nil {
		return nil
	}
	used := map[source.Ref]bool{}
	for _, u := range readingsUsed(l, p) {
		used[u.trace.At] = true
	}
	var out []use
	for _, t := range p.Tests {
		for i := range t.Readings {
			r := &t.Readings[i]
			if used[r.Flow.Trace.At] {
				continue
			}
			at := book.Value{}
			if r.Lift.Known {
				at = book.Number(tidy(r.Lift.Value.In()))
			}
			out = append(out, use{
				head: l.Head, state: state(l.Entry), port: p.Port.String(), what: "flow, not used", lift: at, trace: r.Flow.Trace,
				sender: t.By, date: t.Date.Value, flag: w.whyLeft(r),
			})
		}
	}
	return out
}

// whyLeft says why a reading is in no curve: its own reason, or what was found
// at its place.
func (w *writer) whyLeft(r *head.Reading) string {
	if r.Status != head.Used {
		return strings.TrimSuffix(strings.ReplaceAll(r.Status.String(), "_", " ")+": "+r.Why, ": ")
	}
	for _, p := range w.Problems {
		if p.At == r.Flow.Trace.At && p.Severity != source.Noted {
			return became(p) + ": " + p.Message
		}
	}
	return strings.TrimSuffix("not in the curve: "+r.Remark, ": ")
}

func conditionsUsed(l line) []use {
	var out []use
	for _, p := range []*compare.PortResult{l.Intake, l.Exhaust} {
		if p == nil {
			continue
		}
		u := use{head: l.Head, state: state(l.Entry), port: p.Port.String(), sender: p.Bench, date: p.Date.Value}
		out = append(out, told(u, "fixture bore", "in", book.Thousandth, p.Bore, quantity.Length.In)...)
		out = append(out, told(u, "test pressure", "inH2O", book.Tenth, p.Pressure, quantity.Pressure.InH2O)...)
		for _, t := range p.Traces {
			if t.At == p.Bore.Trace.At || t.At == p.Pressure.Trace.At {
				continue // stands above with its figure
			}
			v := u
			v.what, v.trace = "condition", t
			out = append(out, v)
		}
	}
	return out
}

// told returns the row of a stated value, none when it is not stated.
func told[T any](u use, what, unit string, f book.Format, s source.Stated[T], of func(T) float64) []use {
	if !s.Known {
		return nil
	}
	u.what, u.unit, u.format, u.value, u.trace = what, unit, f, book.Number(of(s.Value)), s.Trace
	return []use{u}
}

func costsUsed(l line) []use {
	u := use{head: l.Head, state: state(l.Entry), format: book.Hundredth, sender: l.Cost.PriceList}
	out := told(u, "heads as sold, a set", "", book.Hundredth, l.Cost.Sell, quantity.Money.Float)
	for i := range out {
		out[i].unit = l.Cost.Sell.Value.Currency
		out[i].sender = ""
	}
	for _, lines := range [][]compare.CostLine{l.Cost.Lines, l.Cost.LandedParts} {
		for _, c := range lines {
			v := u
			v.what, v.unit, v.value, v.trace = c.Item+", a set", c.Amount.Currency, book.Number(c.Amount.Float()), c.Trace
			out = append(out, v)
		}
	}
	return out
}

func dimensionsUsed(l line) []use {
	d := l.Dimensions
	if d == nil {
		return nil
	}
	u := use{head: l.Head}
	var out []use
	for _, m := range []struct {
		what string
		of   source.Stated[quantity.Length]
	}{
		{"intake valve", d.IntakeValve}, {"exhaust valve", d.ExhaustValve}, {"stem", d.Stem}, {"stem length", d.StemLength}, {"throat", d.Throat},
		{"fitted springs good to", d.MaxLift}, {"wall clearance", d.WallClearance},
	} {
		out = append(out, told(u, m.what, "in", book.Thousandth, m.of, quantity.Length.In)...)
	}
	out = append(out, told(u, "minimum cross-section", "in²", book.Hundredth, d.MinSection, quantity.Area.In2)...)
	out = append(out, told(u, "runner", "cc", book.Flow, d.Runner, quantity.Volume.CC)...)
	out = append(out, told(u, "chamber", "cc", book.Flow, d.Chamber, quantity.Volume.CC)...)
	return append(out, told(u, "weight", "lb", book.Tenth, d.Weight, quantity.Mass.Lb)...)
}
