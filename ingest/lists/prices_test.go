package lists_test

import (
	"fmt"
	"testing"

	"flowshelf/analysis/head"
	"flowshelf/ingest/decode"
)

func priceLine(p head.Price) string {
	chain := ""
	for _, d := range p.Discounts {
		chain += " -" + d.String()
	}
	return fmt.Sprintf("%s %s, %s %s per %s%s, %s, freight %s, from %s, %s",
		p.Supplier, p.Head, p.Rung, money(p.Amount), p.Basis, chain, or(p.Build, "any build"), money(p.Freight), day(p.Effective), p.Status)
}

func or(text, other string) string {
	if text == "" {
		return other
	}
	return text
}

func TestPriceLists(t *testing.T) {
	tests := []struct {
		name, path, drawing string
		want, problems      []string
	}{
		{"each in the title, freight in a column, families between", "Larkmoor prices.xlsx", `
Larkmoor Castings   prices effective 2026-01-01
Net each, assembled, USD.  Freight in, unless a figure is shown.

Part|Description|Net each, assembled $|Freight each $
SMALL EIGHT
LKC-07|iron, 76 cc|268|in
LKC-12|aluminium|452|19`,
			[]string{"Larkmoor LKC-07, net 268 USD per each, assembled, freight 0 USD, from 2026-01-01, used",
				"Larkmoor LKC-12, net 452 USD per each, assembled, freight 19 USD, from 2026-01-01, used"}, nil},
		{"pair, chain and freight in a note, a date that can be read two ways", "Pellworth list.xlsx", `
PELLWORTH FOUNDRY   Price list||Eff. 4/1
List price per pair, assembled, USD.  Dealers less 40 %.  Freight $28 per head.

Part No.|List, per pair $
PW-31|1396
PW-33|'1,706`,
			[]string{"Pellworth PW-31, list 1396 USD per pair -40, assembled, freight 28 USD, from ?, asked",
				"Pellworth PW-33, list 1706 USD per pair -40, assembled, freight 28 USD, from ?, asked"},
			[]string{"asked list-date-ambiguous"}},
		{"euros with decimal commas, freight in the shop's money", "Tidewell EUR.xlsx", `
Tidewell Preisliste||gültig ab 2026-01-01
Händlerpreise netto je Stück, komplett montiert, in EUR.  Freight $19 per head.

Artikel|Bezeichnung|Preis EUR je Stück
TD-22|Zylinderkopf 44/37|189,00
TD-26|Zylinderkopf 46/38|1.236,50`,
			[]string{"Tidewell TD-22, net 189 EUR per each, assembled, freight 19 USD, from 2026-01-01, used",
				"Tidewell TD-26, net 1236.5 EUR per each, assembled, freight 19 USD, from 2026-01-01, used"}, nil},
		{"a sentence", "mail.xlsx", `
From:|Vintner Road Heads
Date:|2026-02-02

all ea, assembled: VR-81 $430, VR-84 $372, frt 24`,
			[]string{"Vintner VR-81, not stated 430 USD per each, assembled, freight 24 USD, from 2026-02-02, used",
				"Vintner VR-84, not stated 372 USD per each, assembled, freight 24 USD, from 2026-02-02, used"},
			[]string{"noted price-in-text", "noted price-in-text"}},
		{"no basis anywhere is asked, and never guessed from the amount", "Larkmoor.xlsx", `
Part|Price $
LKC-07|268
LKC-12|904`,
			[]string{"Larkmoor LKC-07, not stated 268 USD per not stated, any build, freight ?, from ?, asked",
				"Larkmoor LKC-12, not stated 904 USD per not stated, any build, freight ?, from ?, asked"},
			[]string{"asked price-basis-not-stated"}},
		{"the setup says each for this supplier's folder", "from oastbridge/list.xlsx", `
Part|Net $
LKC-07|268`,
			[]string{"Oastbridge LKC-07, net 268 USD per each, any build, freight ?, from ?, used"}, nil},
		{"words in place of prices, nothing, a placeholder, a chain in a column", "list.xlsx", `
Part|List each $|Discount
LKC-07|call|
LKC-12|0.00|
PW-31|9999|50/10/5
PW-33|out til June|
VR-81|500|40
VR-84|600|40 %`,
			[]string{" LKC-07, not stated ? per not stated, any build, freight ?, from ?, set_aside",
				" LKC-12, list ? per each, any build, freight ?, from ?, set_aside",
				" PW-31, list 9999 USD per each -50 -10 -5, any build, freight ?, from ?, asked",
				" PW-33, not stated ? per not stated, any build, freight ?, from ?, set_aside",
				" VR-81, list 500 USD per each, any build, freight ?, from ?, asked",
				" VR-84, list 600 USD per each -40, any build, freight ?, from ?, used"},
			[]string{"noted no-price", "noted zero-price", "asked placeholder-price", "noted no-price", "asked discount-unclear"}},
		{"bare and assembled under a banner of words, each its own price", "Larkmoor.xlsx", `
Dealer prices, USD, 2026-03-01
Part|Each, bare|Each, assembled|Pair, assembled
LKC-07|190|268|530`,
			[]string{"Larkmoor LKC-07, dealer 190 USD per each, bare, freight ?, from 2026-03-01, used",
				"Larkmoor LKC-07, dealer 268 USD per each, assembled, freight ?, from 2026-03-01, used",
				"Larkmoor LKC-07, dealer 530 USD per pair, assembled, freight ?, from 2026-03-01, used"}, nil},
		{"two bases in the notes decide nothing", "Larkmoor.xlsx", `
Castings per pair, accessories each
Part|Net $
LKC-07|268`,
			[]string{"Larkmoor LKC-07, net 268 USD per not stated, any build, freight ?, from ?, asked"},
			[]string{"asked price-basis-not-stated"}},
		{"decimal commas without a currency come from elsewhere", "Larkmoor.xlsx", `
Part|Net each
LKC-07|268,50`,
			[]string{"Larkmoor LKC-07, net 268.5  per each, any build, freight ?, from ?, asked"},
			[]string{"asked currency-not-stated"}},
		{"a struck line, an error, a formula without a result, an option, a total", "Larkmoor.xlsx", `
Part|Net each $
LKC-07|~268
LKC-12|#REF!
PW-31|=A1*2
add studs|38
Total|1000`,
			[]string{"Larkmoor LKC-07, net 268 USD per each, any build, freight ?, from ?, asked"},
			[]string{"asked struck-through", "refused failed-formula", "refused formula-without-result"}},
		{"dates in a column settle each other's order; one that is no date waits", "Larkmoor.xlsx", `
Part|Net each $|Effective
LKC-07|268|4/1/2026
LKC-12|452|3/28/2026
PW-31|400|soon`,
			[]string{"Larkmoor LKC-07, net 268 USD per each, any build, freight ?, from 2026-04-01, used",
				"Larkmoor LKC-12, net 452 USD per each, any build, freight ?, from 2026-03-28, used",
				"Larkmoor PW-31, net 400 USD per each, any build, freight ?, from ?, asked"},
			[]string{"refused not-a-date"}},
		{"a price and an option in one cell, a core charge, a surcharge in a note", "Larkmoor.xlsx", `
Metal surcharge 3 % on list
Part|Net|Core charge
LKC-07|$1,024/pr net, add $85 for hyd roller springs|50`,
			[]string{"Larkmoor LKC-07, net 1024 USD per pair, any build, freight ?, from ?, used"},
			[]string{"noted terms-not-used", "noted terms-not-used"}},
		{"tax in the prices", "Larkmoor.xlsx", `
Preise inkl. 19 % MwSt, EUR
Part|Preis je Stück
LKC-07|268`,
			[]string{"Larkmoor LKC-07, not stated 268 EUR per each, any build, freight ?, from ?, asked"},
			[]string{"asked tax-included"}},
		{"prices by quantity are asked about", "Larkmoor.xlsx", `
Dealer prices each, USD
Part|1-3|4-11|12+
LKC-07|268|260|250`,
			[]string{"Larkmoor LKC-07, dealer 268 USD per each, any build, freight ?, from ?, asked",
				"Larkmoor LKC-07, dealer 260 USD per each, any build, freight ?, from ?, asked",
				"Larkmoor LKC-07, dealer 250 USD per each, any build, freight ?, from ?, asked"},
			[]string{"asked quantity-break", "asked quantity-break", "asked quantity-break"}},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			got, page := recognise(tt.path, sheet("Sheet1", tt.drawing), theShop())
			var lines []string
			for _, p := range got.Prices {
				lines = append(lines, priceLine(p))
			}
			same(t, "prices", lines, tt.want)
			same(t, "problems", kinds(got.Problems), tt.problems)
			accounted(t, page)
		})
	}
}

func TestTitleOverTwoColumns(t *testing.T) {
	s := sheet("Sheet1", `
Dealer prices, USD, assembled
Part|Price||Freight per head
|each|pair|
LKC-07|268|530|19`)
	s.Merges = []decode.Area{{Top: 2, Left: 2, Bottom: 2, Right: 3}}
	got, page := recognise("Larkmoor.xlsx", s, theShop())
	var lines []string
	for _, p := range got.Prices {
		lines = append(lines, priceLine(p))
	}
	same(t, "prices", lines, []string{"Larkmoor LKC-07, dealer 268 USD per each, assembled, freight 19 USD, from ?, used",
		"Larkmoor LKC-07, dealer 530 USD per pair, assembled, freight 19 USD, from ?, used"})
	accounted(t, page)
}
