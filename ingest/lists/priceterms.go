package lists

import (
	"fmt"
	"regexp"
	"strings"

	"github.com/shopspring/decimal"

	"flowshelf/analysis/head"
	"flowshelf/analysis/quantity"
	"flowshelf/analysis/source"
	"flowshelf/ingest/decode"
	"flowshelf/ingest/parse"
)

// The terms of a price list are what changes the cost beside the price itself:
// surcharges, core charges, the quantity that is bought, the springs that are in
// it.

var (
	surchargeTitle = regexp.MustCompile(`(?i)\bsurcharge\b|zuschlag\b`)
	coreTitle      = regexp.MustCompile(`(?i)\bcores?\b`)
)

// said is one surcharge that a note states.
type surchargeSaid struct {
	parse.Surcharge
	trace source.Trace
}

// noteTerms says of a column that it is not part of the landed cost, and why.
func (p *priceReader) noteTerms() {
	for _, c := range p.columns {
		if c.role != "terms" || len(c.cells) == 0 || surchargeTitle.MatchString(c.title) {
			continue
		}
		if coreTitle.MatchString(c.title) {
			p.problem(c.cells[0], source.Noted, "core-not-cost", "", "the core charge in “"+c.title+"” is refunded and so no cost", "")
			continue
		}
		p.problem(c.cells[0], source.Noted, "terms-not-used", "", "the column “"+c.title+"” is not part of the landed cost",
			"allow for it in the freight of the supplier's row, if it is a cost")
	}
}

// addSurcharges collects what comes on top of one price, from the notes and from
// the line's own columns.
func (p *priceReader) addSurcharges(l line, out *head.Price) {
	for _, s := range p.said.surcharges {
		p.addSurcharge(l, s, out)
	}
	for i := range p.columns {
		c := &p.columns[i]
		if c.role != "terms" || !surchargeTitle.MatchString(c.title) {
			continue
		}
		cell, ok := p.value(l, c)
		if !ok {
			continue
		}
		if s, ok := p.surchargeIn(cell, c); ok {
			p.addSurcharge(l, s, out)
			continue
		}
		p.problem(cell, source.Refused, "not-an-amount", l.name(), "this surcharge is neither money nor a percentage", "type a plain number, or one with a percent sign")
		p.drop(cell, "not an amount")
	}
}

// surchargeIn reads a cell of a column of surcharges.
func (p *priceReader) surchargeIn(cell decode.Cell, c *titled) (surchargeSaid, bool) {
	name := strings.ToLower(c.title)
	percent, ok := parse.Percent(cell.Num, cell.Format)
	if chain, is := parse.Chain(textOf(cell)); cell.Kind == decode.Text && is && len(chain) == 1 {
		percent, ok = chain[0], true
	}
	if ok || cell.Kind == decode.Number && strings.Contains(c.title, "%") {
		if !ok {
			percent, _ = parse.Stored(cell.Num)
		}
		s, _ := parse.ReadSurcharge("surcharge " + percent.String() + " % " + c.title)
		s.Name, s.Percent = name, percent
		return surchargeSaid{s, p.trace(cell, "%")}, percent.IsPositive()
	}
	m, ok := p.amount(cell, c)
	basis, _ := parse.Basis(c.title)
	return surchargeSaid{parse.Surcharge{Name: name, Amount: m.Amount, Currency: firstOf(m.Currency, parse.Currency(c.title)), Basis: basis}, p.trace(cell, "")}, ok
}

func (p *priceReader) addSurcharge(l line, s surchargeSaid, out *head.Price) {
	add := head.Surcharge{Name: s.Name, Percent: s.Percent, On: s.On, At: s.trace.At}
	switch {
	case s.Percent.IsZero() && s.Amount.IsZero():
		return // none on this line
	case s.Percent.IsPositive():
		if s.On == head.RungNotStated && !p.surchargeOn(s, out, &add) {
			return
		}
	default:
		basis := s.Basis
		if basis == head.BasisNotStated {
			basis = out.Basis
		}
		heads := basis.Heads(headsASet(p.about.Shop, l.name()))
		if heads == 0 {
			out.Status, out.Why = head.Asked, "it is not known how many heads its surcharge is for"
			return
		}
		money := inCurrency(s.Amount.Div(decimal.NewFromInt(int64(heads))), out.Amount.Value.Currency, s.Currency)
		add.Amount = source.Say(money, s.trace)
	}
	out.Surcharges = append(out.Surcharges, add)
}

// surchargeOn settles what a percentage is of. Without a discount list and net
// are the same; with one somebody has to say.
func (p *priceReader) surchargeOn(s surchargeSaid, out *head.Price, add *head.Surcharge) bool {
	add.On = head.Net
	if len(out.Discounts) == 0 && len(p.rule.Discounts) == 0 {
		return true
	}
	q := p.priceQuestion("surcharge of what", fmt.Sprintf("Is the %s of %s %% taken on the list price or on the net price?", s.Name, s.Percent),
		"the landed cost of this list's heads", "on list", "on net")
	problem := source.Problem{At: s.trace.At, Severity: source.Asked, Kind: "surcharge-of-what", Head: out.Head, Found: s.trace.Text, Question: q,
		Message: "the list does not say what its surcharge is a percentage of", Hint: "answer the question"}
	answer, ok := p.askOnce(problem)
	if !ok {
		if out.Status == head.Used {
			out.Status, out.Why = head.Asked, problem.Message
		}
		return false
	}
	if answer.Is("on list") {
		add.On = head.List
	}
	return true
}

// quantity lets the one price by quantity stand at which we buy: the setup says
// how many heads that are, or somebody answers it, once for the supplier.
func (d doubted) quantity() {
	if !quantityBreak.MatchString(d.title.title) {
		return
	}
	q, ok := parse.ReadQuantity(d.title.title)
	if !ok {
		d.out.Status, d.out.Why = head.SetAside, "a price for orders from an amount on"
		return
	}
	at, per := d.rule.BuysAt.Value, "as the setup says"
	if !d.rule.BuysAt.Known {
		ask := d.priceQuestion("buys at", "How many heads do we buy at a time?", "which price of this list is ours")
		ask.Wants, ask.Unit, ask.Least, ask.Most = source.AFigure, "heads", 1, 10000
		answer, ok := d.ask("quantity-break", "its price depends on how many are bought", "say how many heads we buy at a time, here or in the setup under Suppliers", ask)
		if !ok {
			return
		}
		at, per = int(answer.Figure), answer.Per()
	}
	unit := q.Unit
	if unit == head.BasisNotStated {
		unit = d.out.Basis // a price a pair counts pairs
	}
	heads := max(unit.Heads(headsASet(d.about.Shop, d.line.name())), 1)
	if at < q.From*heads || q.To > 0 && at >= (q.To+1)*heads {
		d.out.Status, d.out.Why = head.SetAside, fmt.Sprintf("not the quantity we buy: %d heads, %s", at, per)
		return
	}
	d.out.Amount.Trace = d.out.Amount.Trace.Then(fmt.Sprintf("price for %s, %d heads bought at a time, %s", d.title.title, at, per))
}

// takeTax takes a tax of a stated percentage out of a price.
func takeTax(percent decimal.Decimal, m source.Stated[quantity.Money]) source.Stated[quantity.Money] {
	factor := percent.Shift(-2).Add(decimal.NewFromInt(1))
	m.Value.Amount = m.Value.Amount.DivRound(factor, 4)
	m.Trace = m.Trace.Then(fmt.Sprintf("less %s %% tax: / %s", percent, factor))
	return m
}
