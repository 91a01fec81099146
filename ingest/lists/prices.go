package lists

import (
	"regexp"
	"strings"

	"github.com/shopspring/decimal"

	"flowshelf/analysis/head"
	"flowshelf/analysis/quantity"
	"flowshelf/analysis/source"
	"flowshelf/ingest/decode"
	"flowshelf/ingest/parse"
)

// headTitles are the words over the column that names heads.
var headTitles = regexp.MustCompile(`(?i)^(our )?(cylinder )?(heads?|head no\.?|head name|parts?|part ?(no|num(ber)?|nr)?\.?|part ?#|p/n|items?|item ?(no|number)?\.?|item ?#|castings?( no\.?| number| code)?|models?|sku|our name|artikel(nr|nummer|-nr)?\.?|teil(enr|enummer)?\.?|art\.? ?-?nr\.?|kopf|zylinderkopf|culasse|référence)$`)

// quantityBreak is the title of a price that holds from one quantity on.
var quantityBreak = regexp.MustCompile(`(?i)^(qty\.? ?)?\d+\s*(-|–|to)\s*\d+\b|^(qty\.? ?)?\d+\s*(\+|and up|or more)`)

func priceList() kind {
	return kind{
		name: "price list",
		columns: []column{
			{role: key, titles: headTitles},
			{role: "freight", titles: regexp.MustCompile(`(?i)\b(freight|frt|shipping|fracht|versand)\b`)},
			{role: "discount", titles: regexp.MustCompile(`(?i)\b(disc(ount)?|rabatt)\b|^less$|^% off$`)},
			{role: "currency", titles: regexp.MustCompile(`(?i)^(currency|curr\.?|w(ä|ae)hrung)$`)},
			{role: "effective", titles: regexp.MustCompile(`(?i)^(eff\.?|effective|valid from|date|g(ü|ue)ltig ab|ab)( date)?$`)},
			{role: "basis", titles: regexp.MustCompile(`(?i)^(per|basis|price per|sold (as|by)|uom|u/m|einheit)$`)},
			{role: "build", titles: regexp.MustCompile(`(?i)^(build|state|assembled\?|assembled or bare|as)$`)},
			{role: "note", titles: regexp.MustCompile(`(?i)^(notes?|remarks?|status|bemerkung(en)?|availability)$`)},
			{role: "description", titles: regexp.MustCompile(`(?i)^(desc(ription)?\.?|bezeichnung|beschreibung|details?|family)$`)},
			{role: "price", titles: quantityBreak, many: true},
			{role: "terms", titles: regexp.MustCompile(`(?i)\b(core|surcharge|duty|tax|vat|mwst)\b`), many: true},
			{role: "other", titles: regexp.MustCompile(`(?i)\b(weight|flow|lift|chamber|runner|valves?)\b`), many: true},
			{role: "price", many: true, titles: regexp.MustCompile(
				`(?i)\b(price|preis|prix|list|listenpreis|net|netto|dealer|jobber|msrp|retail|map|cost|each|ea|assembled|bare)\b|/ ?(pr|ea|set)\b|per (pair|set|2)|^\$$|^(€|usd|eur)$`)},
		},
		needs: []role{key, "price"},
		proof: headsKnown,
		read:  readPrices,
	}
}

func readPrices(r *reader) {
	p := newPriceReader(r)
	for _, l := range r.lines {
		for i := range r.columns {
			if c := &r.columns[i]; c.role == "price" {
				p.line(l, c)
			}
		}
	}
}

// priceReader reads the prices of one list of one supplier.
type priceReader struct {
	*reader
	said     statement
	supplier string
	rule     head.SupplierRule
}

// newPriceReader collects what holds for the whole list.
func newPriceReader(r *reader) *priceReader {
	p := &priceReader{reader: r, said: r.readStatement(), supplier: supplierOf(r.table, r.about.Shop)}
	for _, s := range r.about.Shop.Suppliers {
		if s.Name != "" && plain(s.Name) == plain(p.supplier) {
			p.rule = s
		}
	}
	for _, n := range r.notes {
		if supplierIn(r.about.Shop, n.text) != "" {
			r.use(n.cell, "the supplier")
		}
	}
	p.askDate()
	p.noteTerms()
	return p
}

// noteTerms says that a column of surcharges, cores or duties is not part of the
// landed cost.
func (p *priceReader) noteTerms() {
	for _, c := range p.columns {
		if c.role == "terms" && len(c.cells) > 0 {
			p.problem(c.cells[0], source.Noted, "terms-not-used", "", "the column “"+c.title+"” is not part of the landed cost",
				"allow for it in the freight of the supplier's row, if it is a cost")
		}
	}
}

// askDate asks once for a list whose date can be read two ways. Until that is
// answered the list is not in force.
func (p *priceReader) askDate() {
	if p.said.unclear == nil {
		return
	}
	q := p.whichDay(p.said.unclearAt, *p.said.unclear, "")
	q.Kind = "list-date-ambiguous"
	q.Message += ", so the list is not in force until that is answered"
	q.Question.Key = strings.Join([]string{p.supplier, "price list", "date " + p.said.unclear.Text}, " | ")
	q.Question.Changes = "which of the supplier's lists is in force"
	p.records.Problems.Add(q)
}

func (p *priceReader) line(l line, c *titled) {
	out := head.Price{Supplier: p.supplier, Family: familyIn(p.about.Shop, l.section)}
	out.Head, out.HeadAt = p.head(l)
	cell, ok := l.cells[c.place]
	if !ok {
		return // a blank price is no price, and another column may hold one
	}
	out.At = p.ref(cell)
	if cell.Kind == decode.Text {
		if word, is := parse.NotAPrice(cell.Text); is {
			p.use(cell, "no price: "+word)
			out.Status, out.Why, out.Note = head.SetAside, word, parse.Squeeze(cell.Text)
			p.problem(cell, source.Noted, "no-price", out.Head, "the list gives no price: "+word, "")
			p.records.Prices = append(p.records.Prices, out)
			return
		}
	}
	if cell, ok = p.value(l, c); !ok {
		return
	}
	m, ok := p.amount(cell, c)
	if !ok {
		p.problem(cell, source.Refused, "not-a-price", out.Head, "this is not a price", "type a plain number such as 452.00")
		p.drop(cell, "not a price")
		return
	}
	p.complete(&out, l, c, cell, m)
	p.records.Prices = append(p.records.Prices, out)
}

// complete adds what the title, the section, the notes and the other columns
// say about one price.
func (p *priceReader) complete(out *head.Price, l line, c *titled, cell decode.Cell, m parse.Money) {
	out.Status, out.Why = p.doubt(l)
	out.Build, out.Rung = p.build(l, c), p.rung(l, c)
	out.Note = strings.TrimSpace(p.words(l, "note") + " " + optionWords(m.Rest))
	basis, step := p.basis(l, c, m)
	out.Basis = basis
	money := p.currency(l, c, cell, m)
	trace := p.trace(cell, money.Currency)
	if step != "" {
		trace = trace.Then(step)
	}
	out.Amount = source.Say(money, trace)
	if chain, at, ok := p.chain(l); ok {
		out.Discounts, out.ChainAt = chain, at
	} else if out.Status == head.Used {
		out.Status, out.Why = head.Asked, "its discount is not clear"
	}
	out.Freight = p.freight(l, out)
	out.Effective = p.said.effective
	if p.find("effective") != nil {
		p.ownDate(l, out)
	}
	p.judge(out, cell, m, c)
}

// ownDate is the date of one line, which counts before that of the list.
func (p *priceReader) ownDate(l line, out *head.Price) {
	_, _, written := p.cell(l, "effective")
	if !written {
		return
	}
	out.Effective = p.day(l, "effective")
	if !out.Effective.Known && out.Status == head.Used {
		out.Status, out.Why = head.Asked, "its date is not clear"
	}
}

// judge asks about what makes a price unfit for sums.
func (p *priceReader) judge(out *head.Price, cell decode.Cell, m parse.Money, c *titled) {
	hold := func(s head.Status, kind, why, hint string, q *source.Question) {
		if out.Status != head.Used {
			return
		}
		out.Status, out.Why = s, why
		severity := source.Asked
		if s == head.SetAside {
			severity = source.Noted
		}
		problem := p.newProblem(cell, severity, kind, out.Head, why, hint)
		if problem.Question = q; q == nil {
			p.records.Problems.Add(problem)
			return
		}
		p.askOnce(problem)
	}
	switch {
	case m.Amount.IsZero():
		out.Amount = source.Stated[quantity.Money]{}
		hold(head.SetAside, "zero-price", "a price of nothing is a missing price", "ask the supplier for the price", nil)
	case m.Amount.Equal(decimal.NewFromInt(9999)) || m.Amount.Equal(decimal.NewFromInt(99999)):
		hold(head.Asked, "placeholder-price", "9999 is often typed where a price is not known yet", "type the price",
			p.question("placeholder "+plain(out.Head), "Is 9999 the price or a placeholder?", "the price", "a placeholder"))
	case out.Amount.Value.Currency == "":
		hold(head.Asked, "currency-not-stated", "the currency of this list is not stated", "state it in the setup under Suppliers, or answer the question",
			p.question("currency", "In which currency are the prices of this list?", p.about.Shop.Currency, "EUR", "USD"))
	case p.said.taxed:
		hold(head.Asked, "tax-included", "the prices of this list hold a tax", "answer the question",
			&source.Question{Key: strings.Join([]string{p.supplier, "price list", "tax"}, " | "),
				Text: "What do the prices of this list come to without the tax?", Choices: []string{"as they stand", "less the tax"}, Changes: "the landed cost of this list's heads"})
	case quantityBreak.MatchString(c.title):
		hold(head.Asked, "quantity-break", "this price holds for a quantity only", "answer the question",
			&source.Question{Key: strings.Join([]string{p.supplier, "price list", "quantity " + c.title}, " | "),
				Text: "Do we buy at the price for " + c.title + "?", Choices: []string{"yes", "no"}, Changes: "which price of this list is ours"})
	case out.Basis == head.BasisNotStated:
		hold(head.Asked, "price-basis-not-stated", "the list does not say whether the price is for one head, a pair or a set",
			"state it in the setup under Suppliers, or answer the question",
			&source.Question{Key: strings.Join([]string{p.supplier, "price list", "basis", c.title}, " | "),
				Text:    "How many heads does a price under “" + c.title + "” buy?",
				Choices: []string{"each", "pair", "set"}, Changes: "whether the heads of this list can be ranked by value"})
	}
	if p.said.unclear != nil && out.Status == head.Used {
		out.Status, out.Why = head.Asked, "the list's date "+p.said.unclear.Text+" can be read two ways"
	}
}
