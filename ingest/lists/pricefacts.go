package lists

import (
	"regexp"
	"slices"
	"strings"

	"github.com/shopspring/decimal"

	"flowshelf/analysis/head"
	"flowshelf/analysis/quantity"
	"flowshelf/analysis/source"
	"flowshelf/ingest/decode"
	"flowshelf/ingest/parse"
)

func (p *priceReader) build(l line, c *titled) string {
	return firstOf(parse.Build(p.words(l, "build")), parse.Build(c.title), parse.Build(l.section),
		parse.Build(p.words(l, "description")), p.said.build)
}

func (p *priceReader) rung(l line, c *titled) head.Rung {
	for _, text := range []string{c.title, l.section} {
		if rung, ok := parse.Rung(text); ok {
			return rung
		}
	}
	return p.said.rung.Value
}

// basis looks at the cell, its column, the section, the notes and at last the
// setup, and says where it found it when that is not beside the price.
func (p *priceReader) basis(l line, c *titled, m parse.Money) (head.Basis, string) {
	if m.Basis != head.BasisNotStated {
		return m.Basis, ""
	}
	for _, text := range []string{p.words(l, "basis"), c.title, l.section} {
		if basis, ok := parse.Basis(text); ok {
			return basis, "per " + basis.String() + " as the list says over the prices"
		}
	}
	if p.said.bases == 1 {
		return p.said.basis.Value, "per " + p.said.basis.Value.String() + " as " + p.said.basis.Trace.At.Cell + " says"
	}
	if p.said.bases == 0 && p.rule.Basis != head.BasisNotStated {
		return p.rule.Basis, "per " + p.rule.Basis.String() + " as the setup says for " + p.supplier
	}
	return head.BasisNotStated, ""
}

// currency takes the list's own words first. A list that states none is in the
// supplier's currency by the setup, else in the shop's, unless its decimal
// commas show that it comes from elsewhere. Where a dollar sign stands, they show
// who typed it and no other money.
func (p *priceReader) currency(l line, c *titled, cell decode.Cell, m parse.Money) quantity.Money {
	own := m.Currency
	if cell.Kind == decode.Text {
		own = cell.Text
	}
	texts := []string{own, p.words(l, "currency"), c.title, p.said.currency}
	fallback := firstOf(p.rule.Currency, p.about.Shop.Currency)
	named := func(text string) bool { return parse.Currency(text) != "" }
	if p.rule.Currency == "" && p.marks[c.place] == parse.CommaMark && !slices.ContainsFunc(texts, named) {
		fallback = ""
	}
	return inCurrency(m.Amount, fallback, texts...)
}

// chain is the discount of a line: its own column's, else what the notes say.
// ok is false when something stands there that may be a discount.
func (p *priceReader) chain(l line) (chain []decimal.Decimal, at source.Trace, ok bool) {
	cell, _, ok := p.cell(l, "discount")
	if !ok {
		return p.said.chain, p.said.chainAt, true
	}
	if d, is := parse.Percent(cell.Num, cell.Format); is && cell.Kind == decode.Number {
		return []decimal.Decimal{d}, p.trace(cell, "%"), true
	}
	if chain, is := parse.Chain(textOf(cell)); is {
		return chain, p.trace(cell, "%"), true
	}
	problem := p.newProblem(cell, source.Asked, "discount-unclear", l.name(), "this discount is not clear: a percentage off, or a code?",
		"write it with a percent sign")
	problem.Question = p.question("discount "+textOf(cell), "What does "+textOf(cell)+" in the discount column mean? If it is a discount, type the percent.", "a code, no discount")
	problem.Question.Wants, problem.Question.Unit, problem.Question.Most = source.AFigure, "%", 95
	answer, ok := p.askOnce(problem)
	switch {
	case !ok:
		return nil, source.Trace{}, false
	case answer.Choice != "":
		return p.said.chain, p.said.chainAt, true
	}
	return []decimal.Decimal{decimal.NewFromFloat(answer.Figure)}, answer.Trace("%"), true
}

// freight of one head: from its column, else from the notes. A freight per pair
// is halved; one per set needs the family.
func (p *priceReader) freight(l line, out *head.Price) source.Stated[quantity.Money] {
	f := p.said.freight
	if cell, c, ok := p.cell(l, "freight"); ok {
		f = freight{known: true, trace: p.trace(cell, "")}
		f.basis, _ = parse.Basis(c.title)
		f.currency = parse.Currency(c.title)
		m, isMoney := p.amount(cell, c)
		switch {
		case isMoney:
			f.amount = m.Amount
			f.currency = firstOf(m.Currency, f.currency)
		case freightWord.MatchString(textOf(cell)):
			f.basis = head.Each
		default:
			p.problem(cell, source.Refused, "not-an-amount", l.name(), "this freight is not an amount of money", "type a plain number, or in")
			return source.Stated[quantity.Money]{}
		}
	}
	return p.settleFreight(f, l, out)
}

var freightWord = regexp.MustCompile(`(?i)^(in|incl\.?|included|free|paid|frei)$`)

func (p *priceReader) settleFreight(f freight, l line, out *head.Price) source.Stated[quantity.Money] {
	if !f.known {
		return source.Stated[quantity.Money]{}
	}
	basis := f.basis
	if basis == head.BasisNotStated {
		basis = out.Basis
	}
	heads := basis.Heads(headsASet(p.about.Shop, l.name()))
	if heads == 0 {
		return source.Stated[quantity.Money]{}
	}
	money := inCurrency(f.amount.Div(decimal.NewFromInt(int64(heads))), out.Amount.Value.Currency, f.currency)
	if f.currency == parse.Dollar && money.Currency == "" {
		money.Currency = p.about.Shop.Currency // a dollar sign on a foreign list is the shop's dollar, if it has one
		if !dollars(money.Currency) {
			return source.Stated[quantity.Money]{}
		}
	}
	f.trace.Unit = money.Currency + " a head"
	return source.Say(money, f.trace)
}

func optionWords(rest string) string {
	if i := strings.Index(strings.ToLower(rest), "add "); i >= 0 {
		return rest[i:]
	}
	return ""
}

func firstOf(texts ...string) string {
	for _, t := range texts {
		if t != "" {
			return t
		}
	}
	return ""
}
