package lists

import (
	"regexp"
	"slices"
	"strings"

	"flowshelf/analysis/head"
	"flowshelf/analysis/source"
	"flowshelf/ingest/decode"
	"flowshelf/ingest/layout"
	"flowshelf/ingest/parse"
)

// priceText reads prices buried in a sentence, as they come by mail: "all ea,
// assembled: VR-81 $430, VR-84 $372, frt 24".
type priceText struct{}

// Name implements layout.Recogniser.
func (priceText) Name() string { return "price in text" }

var moneySign = regexp.MustCompile(`[$€£]|USD|EUR|GBP|CAD`)

var pricedHead = regexp.MustCompile(`\b((?:[A-Z]{1,5}|[A-Z][a-z]{1,14})[- ]?\d{1,5}[A-Z]{0,2})\b\s*(?:[:=@–-]|at|for|is|are|now|costs?)?\s*((?:[$€£]|USD |EUR |GBP |CAD )\s?\d[\d.,]*\d(?:\s?/\s?(?:ea|pr|pair|set|head)\b)?|\d[\d.,]*\d\s?(?:€|£|USD|EUR|GBP|CAD)(?:\s?/\s?(?:ea|pr|pair|set|head)\b)?)`)

// Recognise implements layout.Recogniser.
func (p priceText) Recognise(page *layout.Page, about layout.Context) head.Records {
	if !slices.ContainsFunc(page.Sheet.Cells, prices) {
		return head.Records{}
	}
	v := upright(page)
	t := &table{view: v, kind: kind{name: p.Name(), needs: []role{key}}}
	t.loose = looseNotes(v, nil)
	t.notes = t.loose
	texts := pricedTexts(t.notes, about.Shop)
	if len(texts) == 0 {
		return head.Records{}
	}
	r := newReader(t, about)
	for _, n := range texts {
		r.lines = append(r.lines, linesIn(n, about.Shop, len(r.lines))...)
	}
	readPriceTexts(r)
	return r.records
}

// prices reports whether a cell can hold a priced head: a quick look before the
// long one.
func prices(c decode.Cell) bool {
	return c.Kind == decode.Text && moneySign.MatchString(c.Text) && pricedHead.MatchString(c.Text)
}

// pricedTexts returns the texts that price a head of the shop.
func pricedTexts(notes []note, shop head.Shop) []note {
	var out []note
	for _, n := range notes {
		if slices.ContainsFunc(pricedIn(n.text, shop), func(m []string) bool { return knownHead(shop, m[1]) }) {
			out = append(out, n)
		}
	}
	return out
}

// pricedIn returns the heads and prices in a text. A name in capitals and digits
// looks like a head; another, such as Batch 15, is one when the shop knows it.
func pricedIn(text string, shop head.Shop) [][]string {
	found := pricedHead.FindAllStringSubmatch(text, -1)
	return slices.DeleteFunc(found, func(m []string) bool { return m[1] != strings.ToUpper(m[1]) && !knownHead(shop, m[1]) })
}

// linesIn makes one line of each head and price of a text, in two cells that
// stand where the text stands.
func linesIn(n note, shop head.Shop, first int) []line {
	var out []line
	for i, m := range pricedIn(n.text, shop) {
		name, price := n.cell, n.cell
		name.Kind, name.Text = decode.Text, m[1]
		price.Kind, price.Text = decode.Text, strings.TrimRight(parse.Squeeze(m[2]), ",.")
		out = append(out, line{number: first + i, key: name, section: parse.Squeeze(pricedHead.ReplaceAllString(n.text, " ")),
			cells: map[int]decode.Cell{0: price}})
	}
	return out
}

func readPriceTexts(r *reader) {
	r.columns = []titled{{role: "price", place: 0}}
	p := newPriceReader(r)
	for _, l := range p.lines {
		p.line(l, &p.columns[0])
	}
	for i := range p.records.Prices {
		price := &p.records.Prices[i]
		p.records.Problems.Add(source.Problem{At: price.At, Severity: source.Noted, Kind: "price-in-text", Head: price.Head,
			Message: "this price was read out of a sentence: " + price.Amount.Trace.Text})
	}
}
