package main

import (
	"strings"

	"github.com/shopspring/decimal"

	"flowshelf/analysis/head"
	"flowshelf/analysis/source"
)

// What a row takes from a heading, a title or the folder has no cell of its own.

func priceRow(p head.Price) listRow {
	row := listRow{kind: "price", at: p.At, status: p.Status}
	row.word("head", p.Head, p.HeadAt)
	row.word("family", p.Family, source.Ref{})
	row.word("supplier", p.Supplier, source.Ref{})
	row.word("build", p.Build, source.Ref{})
	row.word("rung", p.Rung.String(), source.Ref{})
	row.word("basis", p.Basis.String(), source.Ref{})
	row.money("amount", p.Amount)
	row.word("discounts_percent", chain(p.Discounts), p.ChainAt.At)
	row.money("freight", p.Freight)
	row.day("effective", p.Effective)
	row.word("note", p.Note, p.At)
	row.word("why", p.Why, source.Ref{})
	return row
}

func stockRow(s head.StockItem) listRow {
	row := listRow{kind: "stock", at: s.At, status: s.Status}
	row.word("head", s.Head, s.HeadAt)
	row.day("date", s.Date)
	row.count("on_hand", s.OnHand, "heads")
	row.count("committed", s.Committed, "heads")
	row.count("on_order", s.OnOrder, "heads")
	row.real("sold_12_months", s.Sold12, "sets")
	row.real("sold_90_days", s.Sold90, "sets")
	row.real("last_sale", s.LastSale, "months ago")
	row.money("cost", s.Cost)
	row.word("cost_basis", s.CostBasis.String(), source.Ref{})
	row.money("sell", s.Sell)
	row.word("sell_basis", s.SellBasis.String(), source.Ref{})
	row.real("lead_time", s.LeadWeeks, "weeks")
	row.word("why", s.Why, source.Ref{})
	return row
}

func dimensionRow(d head.Dimensions) listRow {
	row := listRow{kind: "dimensions", at: d.At}
	row.word("head", d.Head, d.HeadAt)
	row.length("intake_valve", d.IntakeValve)
	row.length("exhaust_valve", d.ExhaustValve)
	row.length("stem", d.Stem)
	row.length("stem_length", d.StemLength)
	row.length("throat", d.Throat)
	if d.MinSection.Known {
		row.number("min_section", d.MinSection.Value.In2(), "in2", d.MinSection.Trace.At)
	}
	if d.Runner.Known {
		row.number("runner", d.Runner.Value.CC(), "cc", d.Runner.Trace.At)
	}
	if d.ExhaustRunner.Known {
		row.number("exhaust_runner", d.ExhaustRunner.Value.CC(), "cc", d.ExhaustRunner.Trace.At)
	}
	if d.Chamber.Known {
		row.number("chamber", d.Chamber.Value.CC(), "cc", d.Chamber.Trace.At)
	}
	row.length("max_lift", d.MaxLift)
	if d.SeatLoad.Known {
		row.number("seat_load", d.SeatLoad.Value.Lbf(), "lbf", d.SeatLoad.Trace.At)
	}
	if d.OpenLoad.Known {
		row.number("open_load", d.OpenLoad.Value.Lbf(), "lbf", d.OpenLoad.Trace.At)
	}
	row.length("installed_height", d.Installed)
	row.length("coil_bind", d.CoilBind)
	row.length("wall_clearance", d.WallClearance)
	row.length("wall_bore", d.WallBore)
	row.length("port_length", d.PortLength)
	if d.Weight.Known {
		row.number("weight", d.Weight.Value.Lb(), "lb", d.Weight.Trace.At)
	}
	row.count("intake_valves", d.Valves, "a cylinder")
	row.word("material", d.Material, d.At)
	row.word("process", d.Process, d.At)
	for _, f := range d.Other {
		row.word("other: "+f.Name, f.Value, f.At)
	}
	return row
}

func extraRow(e head.Extra) listRow {
	row := listRow{kind: "extra", at: e.At, status: e.Status}
	row.word("head", e.Head, e.HeadAt)
	row.word("item", e.Item, e.At)
	row.word("needed", e.Words, e.At)
	row.money("price", e.Price)
	row.word("basis", e.Basis.String(), source.Ref{})
	row.word("why", e.Why, source.Ref{})
	return row
}

func reworkRow(w head.Rework) listRow {
	row := listRow{kind: "rework", at: w.At, status: w.Status}
	row.word("name", w.Name, w.At)
	row.money("price", w.Price)
	row.money("internal", w.Internal)
	row.word("basis", w.Basis.String(), source.Ref{})
	row.real("hours", w.Hours, "h")
	row.word("why", w.Why, source.Ref{})
	return row
}

func noteRow(n head.Note) listRow {
	row := listRow{kind: "note", at: n.At}
	row.word("head", n.Head, n.HeadAt)
	row.word("text", n.Text, n.At)
	row.word("side", n.For.String(), n.At)
	row.word("by", n.By, n.At)
	row.day("date", n.Date)
	return row
}

func benchRow(b head.BenchCheck) listRow {
	row := listRow{kind: "bench_check", at: b.At}
	row.word("bench", b.Bench, b.At)
	row.day("date", b.Date)
	row.flow("nominal", b.Nominal)
	row.flow("read", b.Read)
	row.flow("leak", b.Leak)
	row.word("operator", b.Operator, b.At)
	return row
}

func enquiryRow(e head.Enquiry) listRow {
	row := listRow{kind: "enquiry", at: e.At}
	row.word("name", e.Name, e.At)
	row.word("family", e.Family, source.Ref{})
	row.length("bore", e.Bore)
	row.length("stroke", e.Stroke)
	row.count("cylinders", e.Cylinders, "")
	row.real("rpm", e.RPM, "rpm")
	row.length("lift", e.Lift)
	row.word("use", e.Use, e.At)
	row.money("budget", e.Budget)
	row.word("musts", strings.Join(e.Musts, "; "), e.At)
	return row
}

func aliasRow(a head.Alias) listRow {
	row := listRow{kind: "alias", at: a.At}
	row.word("name", a.Name, a.At)
	row.word("head", a.Ours, a.At)
	row.word("supplier", a.Supplier, a.At)
	return row
}

// chain prints discounts as the trade speaks them: "50, 10, 5".
func chain(discounts []decimal.Decimal) string {
	words := make([]string, 0, len(discounts))
	for _, d := range discounts {
		words = append(words, d.String())
	}
	return strings.Join(words, ", ")
}
