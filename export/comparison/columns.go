package comparison

import (
	"cmp"
	"fmt"
	"math"
	"strings"

	"flowshelf/analysis/compare"
	"flowshelf/analysis/quantity"
	"flowshelf/export/book"
)

// rankingColumns come in the order of use: what a decision rests on first, and
// on paper; what it was measured with and on last.
func (w *writer) rankingColumns() []factColumn {
	out := w.placeColumns()
	out = append(out, w.scoreColumns()...)
	out = append(out, w.costColumns()...)
	out = append(out, w.portColumns()...)
	out = append(out, w.marketColumns()...)
	out = append(out, w.dimensionFacts()...)
	return append(out, w.testColumns()...)
}

func text(title string, width float64, of func(line) string) factColumn {
	return factColumn{Title: title, Width: width, Style: book.Body.Wrapped().Indented(), Value: func(l line) book.Value { return book.Text(of(l)) }}
}

func figure(title string, width float64, f book.Format, of func(line) book.Value) factColumn {
	return factColumn{Title: title, Width: width, Style: book.Body.As(f), Value: of}
}

func (w *writer) placeColumns() []factColumn {
	return []factColumn{
		{Title: factPlace, Width: 6, Style: book.Body.Strong().To(book.Centre), Look: placeLook, Value: func(l line) book.Value { return place(l.Entry) }},
		{Title: factLabel, Width: 17, Style: book.Body.Wrapped().Strong(), Value: func(l line) book.Value { return book.Text(l.Label) }},
		text(factTied, 15, func(l line) string { return tiedWith(l.Entry) }),
		text("Grade", 6.5, func(l line) string { return grade(l.Entry) }),
		text(factFlags, 6.5, func(l line) string { return flags(l.Entry) }),
		figure(fmt.Sprintf("Usable cost, set of %d", w.Family.HeadsPerSet), 8, w.dollars, func(l line) book.Value { return money(l.Cost.Usable) }),
	}
}

func (w *writer) scoreColumns() []factColumn {
	reach := lifts(w.Family.RangeFrom, w.Family.RangeTo)
	return []factColumn{
		figure("Working avg intake "+reach+", cfm", 9.5, book.Flow, func(l line) book.Value { return working(l.Intake) }),
		figure("± cfm", 5, book.Tenth, func(l line) book.Value { return workingNoise(l.Intake) }),
		figure("Against leader, cfm", 8, book.Signed, w.againstLeader),
		figure("Value at the worth", 7.5, w.dollars, func(l line) book.Value { return number(l.Value) }),
		figure(factShape, 6.5, book.Flow, func(l line) book.Value { return shapeScore(l.Entry) }),
		figure("of it mid-lift", 5.5, book.Flow, shapePart(func(s compare.Shape) float64 { return s.Mid })),
		figure("of it stall", 5.5, book.Flow, shapePart(func(s compare.Shape) float64 { return s.Stall })),
		figure("of it peak", 5.5, book.Flow, shapePart(func(s compare.Shape) float64 { return s.Peak })),
		figure("Peak in range, cfm", 6.5, book.Flow, func(l line) book.Value { return peakFlow(l.Intake) }),
		text(factVerdict, 16, func(l line) string { return verdict(l.Intake) }),
		figure("Cost per cfm", 7, w.cents, func(l line) book.Value { return number(l.PerCFM) }),
		figure("Cost per extra cfm over "+w.Family.BaseHead, 8, w.cents, func(l line) book.Value { return number(l.PerExtra) }),
		text(factSays, 38, func(l line) string { return cmp.Or(l.Verdict, l.reason) }),
	}
}

func (w *writer) costColumns() []factColumn {
	part := func(title string, kind compare.CostKind) factColumn {
		return figure(title, 8, w.dollars, func(l line) book.Value { return sum(l.Cost, kind) })
	}
	return []factColumn{
		text(factSupplier, 18, func(l line) string { return l.Supplier }),
		figure("Cost: heads", 8, w.dollars, func(l line) book.Value { return money(l.Cost.Sell) }),
		part("Cost: extras", compare.ExtraCost), part("Cost: springs", compare.SpringCost), part("Cost: rework", compare.ReworkCost),
		figure("Best buy while a cfm is worth, from", 9, w.cents, func(l line) book.Value { return bestFrom(l.BestBuy) }),
		{Title: "up to", Width: 8, Style: book.Body.As(w.cents).To(book.Right), Value: func(l line) book.Value { return bestTo(l.BestBuy) }},
	}
}

func (w *writer) againstLeader(l line) book.Value {
	if len(w.Ranked) == 0 || l.Intake == nil || !l.Intake.Working.Known {
		return book.Value{}
	}
	first := w.Ranked[0].Intake
	if first == nil || !first.Working.Known {
		return book.Value{}
	}
	return book.Number(math.Round(l.Intake.Working.Value - first.Working.Value))
}

func shapePart(of func(compare.Shape) float64) func(line) book.Value {
	return func(l line) book.Value {
		if !l.Shape.Known {
			return book.Value{}
		}
		return book.Number(of(l.Shape))
	}
}

func bestFrom(i *compare.Interval) book.Value {
	if i == nil {
		return book.Value{}
	}
	return book.Number(i.From)
}

func bestTo(i *compare.Interval) book.Value {
	switch {
	case i == nil:
		return book.Value{}
	case i.To < 0:
		return book.Text("no end")
	}
	return book.Number(i.To)
}

func (w *writer) portColumns() []factColumn {
	top := lift(w.Family.RangeTo)
	return append(w.camColumns(), []factColumn{
		figure("Intake at .200 (low), cfm", 8, book.Flow, func(l line) book.Value { return number(l.Low) }),
		figure("Intake .300-.400 (mid), cfm", 8.5, book.Flow, func(l line) book.Value { return number(l.Mid) }),
		figure("Intake .500-"+top+" (high), cfm", 8.5, book.Flow, func(l line) book.Value { return number(l.High) }),
		figure("Intake at "+top+", cfm", 8, book.Flow, func(l line) book.Value { return number(l.AtTop) }),
		figure(factPeakAt, 8, book.Lift, func(l line) book.Value { return peakLift(l.Intake) }),
		figure("Last lift tested, in", 8, book.Lift, func(l line) book.Value {
			if l.Intake == nil {
				return book.Value{}
			}
			return book.Number(tidy(l.Intake.Last.In()))
		}),
		figure("Working avg exhaust, cfm", 8.5, book.Flow, func(l line) book.Value { return working(l.Exhaust) }),
		figure(factEI, 8.5, book.Percent, func(l line) book.Value { return number(l.EI.Maybe) }),
	}...)
}

// camColumns are the average over the time the valve is open and the order by
// it, where the setup states a cam.
func (w *writer) camColumns() []factColumn {
	if w.Cam == "" {
		return nil
	}
	return []factColumn{
		figure("Avg while the valve is open, cfm", 8.5, book.Flow, func(l line) book.Value {
			if l.Intake == nil {
				return book.Value{}
			}
			return number(l.Intake.CamMean)
		}),
		figure("Order by that alone", 7, book.Flow, func(l line) book.Value { return countOrNone(l.Orders.Cam) }),
		figure("Order by working avg alone", 7.5, book.Flow, func(l line) book.Value { return countOrNone(l.Orders.Working) }),
	}
}

func (w *writer) marketColumns() []factColumn {
	return []factColumn{
		text("Beaten by", 18, func(l line) string { return strings.Join(l.BeatenBy, ", ") }),
		figure("Sell price that ties the leader", 9.5, w.dollars, func(l line) book.Value { return number(l.TiePrice) }),
		text("That price is", 12, func(l line) string { return below(l.TieBelow) }),
		figure("Best place inside the noise", 8, book.Flow, func(l line) book.Value { return countOrNone(l.Place.Best) }),
		figure("Worst place inside the noise", 8, book.Flow, func(l line) book.Value { return countOrNone(l.Place.Worst) }),
		figure("First in so many of 10 reruns", 9, book.Tenth, func(l line) book.Value {
			if l.Place.Number == 0 {
				return book.Value{}
			}
			return book.Number(l.Place.FirstIn10)
		}),
		text(factHand, 9, func(l line) string { return setsAndOdd(l.Entry, w.Family.HeadsPerSet) }),
		figure("Lead, weeks", 7, book.Flow, func(l line) book.Value {
			if l.Stock == nil || !l.Stock.LeadWeeks.Known {
				return book.Text(notStated)
			}
			return book.Number(l.Stock.LeadWeeks.Value)
		}),
		figure("Peak cfm a cc of runner", 8.5, book.Hundredth, func(l line) book.Value { return number(l.PerCC) }),
	}
}

func below(b compare.Below) string {
	return [...]string{"", "above our landed cost", "below our landed cost"}[b]
}

func countOrNone(n int) book.Value {
	if n == 0 {
		return book.Value{}
	}
	return book.Count(n)
}

func (w *writer) testColumns() []factColumn {
	of := func(title string, width float64, get func(*compare.PortResult) string) factColumn {
		return text(title, width, func(l line) string {
			if l.Intake == nil {
				return ""
			}
			return get(l.Intake)
		})
	}
	return []factColumn{
		figure("Tested bore, in", 8, book.Thousandth, func(l line) book.Value {
			if l.Intake == nil {
				return book.Value{}
			}
			return stated(l.Intake.Bore, quantity.Length.In)
		}),
		of("Brought to the reference bore", 16, func(p *compare.PortResult) string { return p.BoreHow.String() }),
		figure("Test pressure, inH2O", 8.5, book.Tenth, func(l line) book.Value {
			if l.Intake == nil {
				return book.Value{}
			}
			return stated(l.Intake.Pressure, quantity.Pressure.InH2O)
		}),
		of("Intake entry", 12, func(p *compare.PortResult) string { return orWords(p.Entry) }),
		text("Exhaust pipe", 11, func(l line) string {
			if l.Exhaust == nil {
				return ""
			}
			return l.Exhaust.Pipe.String()
		}),
		of("Bench", 14, func(p *compare.PortResult) string { return orWords(p.Bench) }),
		of("Sample", 10, func(p *compare.PortResult) string { return p.Sample }),
		figure("Ports tested", 7, book.Flow, func(l line) book.Value { return portsTested(l.Intake) }),
		figure("Spread between ports, cfm", 9, book.Tenth, func(l line) book.Value {
			if l.Intake == nil {
				return book.Value{}
			}
			return number(l.Intake.Spread)
		}),
		figure("Date tested", 10.5, book.Date, func(l line) book.Value {
			if l.Intake == nil {
				return book.Value{}
			}
			return book.Day(l.Intake.Date.Value)
		}),
		text("Not tested here: on our bench about", 24, func(l line) string { return l.Equivalent.Words }),
		text("Price list", 18, func(l line) string { return l.Cost.PriceList }),
		figure("Price valid from", 10.5, book.Date, func(l line) book.Value { return book.Day(l.Cost.ValidFrom.Value) }),
		text("Earlier samples", 60, func(l line) string { return strings.Join(l.Earlier, "; ") }),
	}
}

func orWords(s string) string {
	if s == "" {
		return notStated
	}
	return s
}

func portsTested(p *compare.PortResult) book.Value {
	if p == nil || p.Ports == 0 {
		return book.Value{}
	}
	return book.Count(p.Ports)
}
