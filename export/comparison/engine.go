package comparison

import (
	"fmt"

	"flowshelf/analysis/compare"
	"flowshelf/export/book"
)

// engine writes how each head suits the family's reference engine, and what its
// dimensions say of one another. Nothing on it orders anything.
func (w *writer) engine(s *book.Sheet) {
	header := w.page(s, "Engine: how each port suits the family's engine", w.engineNotes()...)
	table := book.Table[line]{Name: "Engine", Columns: w.engineColumns(), Rows: w.comparable()}
	if len(table.Rows) == 0 {
		s.Say(header, 1, "No head of this family has a curve yet.", book.Style{})
		w.paper(s, 0, book.Print{})
		return
	}
	table.Write(s, header, 1)
	s.Freeze(header, 1)
	w.paper(s, header, book.Print{})
}

// engineNotes say what the engine asks, and that flow is not power.
func (w *writer) engineNotes() []string {
	n := w.Engine
	if !n.Known {
		why := n.Why
		if why == "" {
			why = "the setup does not describe it"
		}
		return []string{"The engine is not known: " + why + ".", "Shown beside the ranking and never scored. Flow is not power."}
	}
	notes := []string{fmt.Sprintf("Engine: %s. It takes in %.0f cfm in all at a volumetric efficiency of 1 (displacement x rpm / 3456).", n.Words, n.Air.Value)}
	if n.Wanted.Known {
		notes = append(notes, fmt.Sprintf("For %.0f hp the trade's rule wants a peak of about %.0f cfm a port, %.0f to %.0f at one standard deviation of the rule (12 %%). "+
			"Flow is not power: cam, compression, induction, exhaust and speed decide.", n.Power.Value, n.Wanted.Value, n.WantedLow.Value, n.WantedHigh.Value))
	} else {
		notes = append(notes, "No flow is wanted for a power: the setup states no target power. Flow is not power.")
	}
	mach := "The inlet Mach index rests on the working average, which leaves the lowest lifts out: it reads low, and its rpm read high. State a cam in the setup to mend that."
	if w.Cam != "" {
		mach = fmt.Sprintf("The inlet Mach index rests on the average over the time the valve is open: %s.", w.Cam)
	}
	return append(notes, mach+" Breathing falls off in a band from .5 to .6, good to about a tenth.",
		"Nothing on this sheet orders anything.")
}

func (w *writer) engineColumns() []factColumn {
	columns := []factColumn{
		text("Head and state", 18, func(l line) string { return l.Label }),
		figure("Air speed, piston at its fastest, ft/s", 9, book.Flow, func(l line) book.Value { return number(l.Air.Speed) }),
		text("That is", 8, func(l line) string { return l.Air.Verdict }),
		figure("Air speed, piston at its mean, ft/s", 9, book.Flow, func(l line) book.Value { return number(l.Demand.MeanSpeed) }),
		figure("Inlet Mach index", 7, book.Hundredth, func(l line) book.Value { return number(l.Demand.Mach) }),
		text("At the engine's rpm", 15, func(l line) string { return l.Demand.Words }),
		text("Index rests on", 12, func(l line) string { return l.Demand.Rests }),
		figure("rpm at index .5", 7.5, book.Flow, func(l line) book.Value { return hundreds(l.Demand.At50) }),
		figure("rpm at index .6", 7.5, book.Flow, func(l line) book.Value { return hundreds(l.Demand.At60) }),
		figure("Peak in range, cfm", 7, book.Flow, func(l line) book.Value { return peakFlow(l.Intake) }),
	}
	if w.Engine.Wanted.Known {
		columns = append(columns, text("Against the flow wanted", 12, func(l line) string { return l.Demand.Wanted }))
	}
	columns = append(columns,
		figure("E/I with pipe", 6.5, book.Percent, func(l line) book.Value { return ratioUnder(l, compare.Ratio.WithPipe) }),
		figure("E/I no pipe", 6.5, book.Percent, func(l line) book.Value { return ratioUnder(l, compare.Ratio.NoPipe) }),
		text("E/I remark", 13, ratioRemark))
	return append(columns, sizeColumns()...)
}

// hundreds rounds a speed to what the index is good for.
func hundreds(m compare.Maybe) book.Value {
	if !m.Known {
		return book.Value{}
	}
	const step = 50
	return book.Number(float64(int(m.Value/step+0.5)) * step)
}

func ratioUnder(l line, is func(compare.Ratio) bool) book.Value {
	for _, r := range []compare.Ratio{l.EI, l.EINoPipe} {
		if r.Known && is(r) {
			return book.Number(r.Value)
		}
	}
	return book.Value{}
}

func ratioRemark(l line) string {
	switch r := l.EI; {
	case !r.Known:
		return r.Why
	case !r.WithPipe() && !r.NoPipe():
		return fmt.Sprintf("pipe not stated: %.0f to %.0f %%", 100*r.Low, 100*r.High)
	case r.Unusual:
		return "unusual: check pipe and pressure"
	}
	return ""
}

func sizeColumns() []factColumn {
	return []factColumn{
		figure("Peak cfm a cc of runner", 7, book.Hundredth, func(l line) book.Value { return number(l.PerCC) }),
		figure("Throat / valve", 6.5, book.Percent, func(l line) book.Value { return number(l.Sizes.Throat) }),
		text("Throat is", 9, func(l line) string { return l.Sizes.ThroatWords }),
		figure("Runner cc / length, in²", 7.5, book.Hundredth, func(l line) book.Value { return number(l.Sizes.MeanSection) }),
		text("Against the smallest section", 11, sectionWords),
		text("Valve stem", 17, func(l line) string { return l.Sizes.StemWords }),
		text("Port shape", 12, func(l line) string { return l.Sizes.PortShape }),
	}
}

func sectionWords(l line) string {
	if !l.Sizes.SectionRatio.Known {
		return notStated
	}
	return fmt.Sprintf("x %.2f, %s", l.Sizes.SectionRatio.Value, l.Sizes.SectionWords)
}
