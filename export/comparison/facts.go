package comparison

import (
	"flowshelf/analysis/compare"
	"flowshelf/analysis/head"
	"flowshelf/analysis/quantity"
	"flowshelf/export/book"
)

// The titles of the facts that the live sheets look up by name.
const (
	factLabel    = "Head"
	factPlace    = "Place"
	factTied     = "Tied with"
	factSupplier = "Supplier"
	factGrade    = "Grade of evidence"
	factFlags    = "Flags"
	factWorking  = "Working average intake, cfm"
	factNoise    = "± working average, cfm"
	factExhaust  = "Working average exhaust, cfm"
	factEI       = "Exhaust / intake"
	factMid      = "Mid-lift average, cfm"
	factPeak     = "Peak in the range, cfm"
	factPeakAt   = "Lift at the peak, in"
	factVerdict  = "The curve"
	factShape    = "Shape score"
	factRunner   = "Runner, cc"
	factSection  = "Minimum cross-section, in²"
	factAir      = "Air speed, ft/s"
	factAirWords = "Air speed verdict"
	factIntake   = "Intake valve, in"
	factExValve  = "Exhaust valve, in"
	factStem     = "Stem"
	factSprings  = "Fitted springs good to, in"
	factReach    = "Springs at the range's top"
	factChamber  = "Chamber, cc"
	factMaterial = "Material and process"
	factWeight   = "Weight, lb"
	factHeads    = "Heads as sold"
	factExtras   = "Extras"
	factKit      = "Springs"
	factRework   = "Rework"
	factUsable   = "Usable cost"
	factPerCFM   = "Per cfm"
	factValue    = "Value"
	factHand     = "Sets on hand"
	factFor      = "Found for it"
	factAgainst  = "Found against it"
	factSays     = "In one sentence"
)

type factColumn = book.Column[line]

func (w *writer) factColumns() []factColumn {
	out := w.flowFacts()
	out = append(out, w.dimensionFacts()...)
	return append(out, w.costFacts()...)
}

func (w *writer) flowFacts() []factColumn {
	b := book.Body
	words := func(title string, width float64, of func(line) string) factColumn {
		return factColumn{Title: title, Width: width, Style: b, Value: func(l line) book.Value { return book.Text(of(l)) }}
	}
	figure := func(title string, f book.Format, of func(line) book.Value) factColumn {
		return factColumn{Title: title, Width: 9.5, Style: b.As(f), Value: of}
	}
	return []factColumn{
		words(factLabel, 26, func(l line) string { return l.Label }),
		figure(factPlace, book.Alone, func(l line) book.Value { return place(l.Entry) }),
		words(factTied, 20, func(l line) string { return tiedWith(l.Entry) }),
		words(factSupplier, 18, func(l line) string { return l.Supplier }),
		words(factGrade, 9, func(l line) string { return grade(l.Entry) }),
		words(factFlags, 9, func(l line) string { return flags(l.Entry) }),
		figure(factWorking, book.Flow, func(l line) book.Value { return working(l.Intake) }),
		figure(factNoise, book.Tenth, func(l line) book.Value { return workingNoise(l.Intake) }),
		figure(factExhaust, book.Flow, func(l line) book.Value { return working(l.Exhaust) }),
		figure(factEI, book.Percent, func(l line) book.Value { return number(l.EI.Maybe) }),
		figure(factMid, book.Flow, func(l line) book.Value { return midMean(l.Intake) }),
		figure(factPeak, book.Flow, func(l line) book.Value { return peakFlow(l.Intake) }),
		figure(factPeakAt, book.Lift, func(l line) book.Value { return peakLift(l.Intake) }),
		words(factVerdict, 24, func(l line) string { return verdict(l.Intake) }),
		figure(factShape, book.Flow, func(l line) book.Value { return shapeScore(l.Entry) }),
	}
}

func (w *writer) dimensionFacts() []factColumn {
	b := book.Body
	of := func(title string, f book.Format, get func(*head.Dimensions) book.Value) factColumn {
		return factColumn{Title: title, Width: 9.5, Style: b.As(f), Value: func(l line) book.Value { return dimension(l.Entry, get) }}
	}
	words := func(title string, width float64, get func(line) string) factColumn {
		return factColumn{Title: title, Width: width, Style: b, Value: func(l line) book.Value { return said(get(l)) }}
	}
	return []factColumn{
		of(factRunner, book.Flow, func(d *head.Dimensions) book.Value { return stated(d.Runner, quantity.Volume.CC) }),
		of(factSection, book.Hundredth, func(d *head.Dimensions) book.Value { return stated(d.MinSection, quantity.Area.In2) }),
		{Title: factAir, Width: 9.5, Style: b.As(book.Flow), Value: func(l line) book.Value { return orNotStated(l.Air.Speed) }},
		words(factAirWords, 10, func(l line) string { return l.Air.Verdict }),
		of(factIntake, book.Thousandth, func(d *head.Dimensions) book.Value { return stated(d.IntakeValve, quantity.Length.In) }),
		of(factExValve, book.Thousandth, func(d *head.Dimensions) book.Value { return stated(d.ExhaustValve, quantity.Length.In) }),
		words(factStem, 9, stem),
		of(factSprings, book.Lift, func(d *head.Dimensions) book.Value { return stated(d.MaxLift, quantity.Length.In) }),
		words(factReach, 24, func(l line) string { return l.SpringsTo.Words }),
		of(factChamber, book.Flow, func(d *head.Dimensions) book.Value { return stated(d.Chamber, quantity.Volume.CC) }),
		words(factMaterial, 20, material),
		of(factWeight, book.Tenth, func(d *head.Dimensions) book.Value { return stated(d.Weight, quantity.Mass.Lb) }),
	}
}

func (w *writer) costFacts() []factColumn {
	cash := book.Body.As(w.dollars)
	part := func(title string, kind compare.CostKind) factColumn {
		return factColumn{Title: title, Width: 10, Style: cash, Value: func(l line) book.Value { return sum(l.Cost, kind) }}
	}
	words := func(title string, width float64, of func(line) string) factColumn {
		return factColumn{Title: title, Width: width, Style: book.Body, Value: func(l line) book.Value { return book.Text(of(l)) }}
	}
	return []factColumn{
		{Title: factHeads, Width: 10, Style: cash, Value: func(l line) book.Value { return money(l.Cost.Sell) }},
		part(factExtras, compare.ExtraCost), part(factKit, compare.SpringCost), part(factRework, compare.ReworkCost),
		{Title: factUsable, Width: 10, Style: cash, Value: func(l line) book.Value { return money(l.Cost.Usable) }},
		{Title: factPerCFM, Width: 9, Style: book.Body.As(w.cents), Value: func(l line) book.Value { return number(l.PerCFM) }},
		{Title: factValue, Width: 10, Style: cash, Value: func(l line) book.Value { return number(l.Value) }},
		words(factHand, 12, func(l line) string { return setsAndOdd(l.Entry, w.Family.HeadsPerSet) }),
		words(factFor, 40, func(l line) string { return notes(l.Entry, head.For) }),
		words(factAgainst, 40, func(l line) string { return notes(l.Entry, head.Against) }),
		words(factSays, 60, func(l line) string { return l.Verdict }),
	}
}

// dimension returns a fact of a head, "not stated" when there is no dimension
// sheet for it.
func dimension(e *compare.Entry, get func(*head.Dimensions) book.Value) book.Value {
	if e.Dimensions == nil {
		return book.Text(notStated)
	}
	return get(e.Dimensions)
}

func orNotStated(m compare.Maybe) book.Value {
	if !m.Known {
		return book.Text(notStated)
	}
	return book.Number(m.Value)
}

func stem(l line) string {
	switch d := l.Dimensions; {
	case d == nil:
		return ""
	case d.StemWords != "":
		return d.StemWords
	case d.Stem.Known:
		return bore(d.Stem.Value) + " in"
	}
	return ""
}

func material(l line) string {
	d := l.Dimensions
	if d == nil {
		return ""
	}
	if d.Material == "" || d.Process == "" {
		return d.Material + d.Process
	}
	return d.Material + ", " + d.Process
}

func place(e *compare.Entry) book.Value {
	if e.Place.Number == 0 {
		return book.Value{}
	}
	return book.Count(e.Place.Number)
}

func grade(e *compare.Entry) string {
	if e.Grade == 0 {
		return ""
	}
	return string(rune(e.Grade))
}

// The figures of a port, nothing when it was not flowed.

func working(p *compare.PortResult) book.Value {
	if p == nil {
		return book.Value{}
	}
	return number(p.Working)
}

func workingNoise(p *compare.PortResult) book.Value {
	if p == nil || !p.Working.Known {
		return book.Value{}
	}
	return book.Number(p.WorkingU)
}

func midMean(p *compare.PortResult) book.Value {
	if p == nil {
		return book.Value{}
	}
	return number(p.MidMean)
}

func peakFlow(p *compare.PortResult) book.Value {
	if p == nil || p.PeakIn.Flow == 0 {
		return book.Value{}
	}
	return book.Number(p.PeakIn.Flow.CFM())
}

func peakLift(p *compare.PortResult) book.Value {
	if p == nil || p.PeakIn.Flow == 0 {
		return book.Value{}
	}
	return book.Number(tidy(p.PeakIn.Lift.In()))
}

func verdict(p *compare.PortResult) string {
	if p == nil {
		return ""
	}
	return p.Words
}

func shapeScore(e *compare.Entry) book.Value {
	if !e.Shape.Known {
		return book.Value{}
	}
	return book.Number(e.Shape.Score)
}
