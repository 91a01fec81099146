package pricing

import (
	"cmp"
	"slices"

	"github.com/shopspring/decimal"

	"flowshelf/analysis/compare"
	"flowshelf/analysis/head"
	"flowshelf/analysis/quantity"
	"flowshelf/analysis/source"
)

// Start returns the what-if of a comparison as it stands before anybody types:
// every head with a curve of its own or of its supplier, in the order of the
// ranking.
func Start(c compare.Comparison, currency string) Sheet {
	s := Sheet{Comparison: c, Currency: currency, Heads: c.Family.HeadsPerSet}
	s.Start = Terms{
		Margin:  known(decimal.NewFromFloat(c.Rules.TargetMargin)),
		Labour:  labour(c, currency),
		Minimum: known(decimal.NewFromFloat(c.Rules.MinimumMargin)), Ending: cmp.Or(c.Rules.Ending, head.NoEnding),
	}
	if c.Worth.Known && c.Family.Worth.Known && c.Worth.PerCFM == c.Family.Worth.Value.Float() {
		s.Start.Worth = known(c.Family.Worth.Value.Amount)
	}
	for _, group := range []struct {
		entries []compare.Entry
		aside   string
	}{{c.Ranked, ""}, {c.Unpriced, ""}, {c.BelowLine, "supplier's sheet"}} {
		for i := range group.entries {
			s.add(&group.entries[i], group.aside)
		}
	}
	for _, n := range c.NotRanked {
		if n.Entry != nil && n.Entry.Grade != compare.GradeD {
			s.add(n.Entry, n.Reason)
		}
	}
	return s
}

// known returns a figure that is known.
func known(d decimal.Decimal) decimal.NullDecimal {
	return decimal.NullDecimal{Decimal: d, Valid: true}
}

// labour is the setup's labour rate, where it is in the shop's money.
func labour(c compare.Comparison, currency string) decimal.NullDecimal {
	rate := c.Rules.LabourRate
	return money(rate.Known && (rate.Value.Currency == "" || rate.Value.Currency == currency) && rate.Value.Amount.IsPositive(), rate.Value)
}

func (s *Sheet) add(e *compare.Entry, aside string) {
	r := Row{
		Label: e.Label, Head: e.Head, Bare: e.Bare, First: len(s.Rows), Base: e.IsBase, Places: aside == "", Aside: aside,
		Flow: compare.Maybe{Why: "no flow test"}, Proposed: e.Cost.Proposed, Cost: e.Cost,
	}
	if e.Intake != nil {
		r.Flow, r.FlowU = e.Intake.Working, e.Intake.WorkingU
		how := e.Intake.BoreHow
		r.Apart = how == compare.NotBroughtOver || how == compare.BoreUnknown
	}
	for i := range s.Rows {
		if s.Rows[i].Head == e.Head && s.Rows[i].Bare == e.Bare {
			r.First = s.Rows[i].First
			break
		}
	}
	// A stock book counts a casting's sales once, whatever was done to it.
	if asDelivered := e.State == "" || e.State == "as delivered"; asDelivered && e.Stock != nil && e.Stock.Sold12.Known {
		r.Sold = compare.Maybe{Value: e.Stock.Sold12.Value, Known: true}
	}
	s.start(&r, e)
	s.Rows = append(s.Rows, r)
}

// start fills in the figures the row starts from. Extras, springs and rework of
// a head that lacks a price for one of them are not known, never none.
func (s *Sheet) start(r *Row, e *compare.Entry) {
	c := e.Cost
	r.Start[Each] = money(c.Quoted.Known, c.Quoted.Value)
	r.Foreign = s.foreign(c.Quoted, c.Rate)
	r.Start[Freight] = money(c.Carried.Quoted.Known, c.Carried.Quoted.Value)
	r.Carried = s.foreign(c.Carried.Quoted, c.Carried.Rate)
	r.Surcharge = Surcharge{money(c.Apart.Quoted.Known, c.Apart.Quoted.Value), s.foreign(c.Apart.Quoted, c.Apart.Rate)}
	r.Start[Hours] = decimal.NullDecimal{Decimal: c.Work.Hours.Value, Valid: c.Work.Hours.Known || c.Work.Why == ""}
	r.Start[Parts] = money(c.Work.Parts.Known || c.Work.Why == "", c.Work.Parts.Value)
	if !c.Proposed {
		r.Start[Sell] = money(c.Sell.Known, c.Sell.Value)
	}
	r.Start[Minimum] = money(c.Minimum.Known, c.Minimum.Value)
	for _, part := range []struct {
		in   Input
		kind compare.CostKind
	}{{Extras, compare.ExtraCost}, {Springs, compare.SpringCost}, {Rework, compare.ReworkCost}} {
		sum := total(c.Lines, part.kind)
		r.Start[part.in] = decimal.NullDecimal{Decimal: sum, Valid: c.Usable.Known || sum.IsPositive()}
	}
}

func total(lines []compare.CostLine, kind compare.CostKind) decimal.Decimal {
	sum := quantity.Zero("")
	for _, l := range lines {
		if l.Kind == kind {
			sum.Amount = sum.Amount.Add(l.Amount.Amount)
		}
	}
	return sum.Amount
}

// foreign is the currency of an amount that is not in the shop's own, "" for one
// that is; its rate joins the sheet's.
func (s *Sheet) foreign(m source.Stated[quantity.Money], rate source.Stated[decimal.Decimal]) string {
	code := m.Value.Currency
	if !m.Known || code == "" || code == s.Currency {
		return ""
	}
	if !slices.ContainsFunc(s.Start.Rates, func(r Rate) bool { return r.Currency == code }) {
		s.Start.Rates = append(s.Start.Rates, Rate{code, decimal.NullDecimal{Decimal: rate.Value, Valid: rate.Known}})
	}
	return code
}
