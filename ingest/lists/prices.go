package lists

import (
	"regexp"
	"strings"

	"flowshelf/analysis/head"
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

// askDate asks once for a list whose date can be read two ways. Until that is
// answered the list is not in force.
func (p *priceReader) askDate() {
	if p.said.unclear == nil {
		return
	}
	q := p.whichDay(p.said.unclearAt, *p.said.unclear, "")
	q.Kind = "list-date-ambiguous"
	q.Message += ", so the list is not in force until that is answered"
	q.Question.Changes = "which of the supplier's lists is in force"
	if answer, ok := p.askOnce(q); ok {
		p.said.effective = dayAnswered(answer, *p.said.unclear, p.trace(p.said.unclearAt, ""))
		p.said.unclear = nil
	}
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
	trace.Answered = firstOf(trace.Answered, p.said.effective.Trace.Answered)
	out.Amount = source.Say(money, trace)
	if chain, at, ok := p.chain(l); ok {
		out.Discounts, out.ChainAt = chain, at
	} else if out.Status == head.Used {
		out.Status, out.Why = head.Asked, "its discount is not clear"
	}
	out.Freight = p.freight(l, out)
	out.Effective, out.Until = p.said.effective, p.said.until
	for _, words := range []string{p.words(l, "build"), c.title} {
		if lift, ok := parse.SpringsTo(words); ok && out.Build != "bare" {
			out.MaxLift = source.Say(lift, source.Trace{At: p.ref(cell), Text: words, Unit: "in"})
			break
		}
	}
	if p.find("effective") != nil {
		p.ownDate(l, out)
	}
	doubted{p, out, l, cell, m, c}.judge()
	p.addSurcharges(l, out)
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
