package lists_test

import (
	"fmt"
	"strings"
	"testing"

	"flowshelf/analysis/head"
	"flowshelf/ingest/decode"
)

func priceLine(p head.Price) string {
	chain := ""
	for _, d := range p.Discounts {
		chain += " -" + d.String()
	}
	build := or(p.Build, "any build")
	if p.MaxLift.Known {
		build += strings.Replace(fmt.Sprintf(" to %.3f", p.MaxLift.Value.In()), " 0.", " .", 1)
	}
	out := fmt.Sprintf("%s %s, %s %s per %s%s, %s, freight %s, from %s, %s",
		p.Supplier, p.Head, p.Rung, money(p.Amount), p.Basis, chain, build, money(p.Freight), day(p.Effective), p.Status)
	for _, s := range p.Surcharges {
		if s.Amount.Known {
			out += ", + " + money(s.Amount)
			continue
		}
		out += fmt.Sprintf(", + %s %% of %s", s.Percent, s.On)
	}
	if p.Until.Known {
		out += ", until " + day(p.Until)
	}
	return out
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
		{"a sentence with a head that is no code, and a batch that is no head", "mail.xlsx", `
From:|Vintner Road Heads

Classic 84 is $744 a pair, net, assembled, freight $48 per pair; Batch 15 is $20 off.`,
			[]string{"Vintner Classic 84, net 744 USD per pair, assembled, freight 24 USD, from ?, used"},
			[]string{"noted price-in-text"}},
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
		{"decimal commas under a dollar sign are dollars", "Larkmoor.xlsx", `
Part|Net each $
LKC-07|1.268,50`,
			[]string{"Larkmoor LKC-07, net 1268.5 USD per each, any build, freight ?, from ?, used"}, nil},
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
			[]string{"Larkmoor LKC-07, net 1024 USD per pair, any build, freight ?, from ?, used, + 3 % of list"},
			[]string{"noted core-not-cost"}},
		{"tax in the prices, how much of it not said", "Larkmoor.xlsx", `
Preise inkl. MwSt, EUR
Part|Preis je Stück
LKC-07|268`,
			[]string{"Larkmoor LKC-07, not stated 268 EUR per each, any build, freight ?, from ?, asked"},
			[]string{"asked tax-included"}},
		{"tax in the prices, so much of it", "Larkmoor.xlsx", `
Preise inkl. 19 % MwSt, EUR
Part|Preis je Stück
LKC-07|238`,
			[]string{"Larkmoor LKC-07, not stated 200 EUR per each, any build, freight ?, from ?, used"}, nil},
		{"prices by quantity are asked about", "Larkmoor.xlsx", `
Dealer prices each, USD
Part|1-3|4-11|12+
LKC-07|268|260|250`,
			[]string{"Larkmoor LKC-07, dealer 268 USD per each, any build, freight ?, from ?, asked",
				"Larkmoor LKC-07, dealer 260 USD per each, any build, freight ?, from ?, asked",
				"Larkmoor LKC-07, dealer 250 USD per each, any build, freight ?, from ?, asked"},
			[]string{"asked quantity-break"}},
		{"prices by quantity where the setup says how many heads are bought", "Pellworth list.xlsx", `
PELLWORTH FOUNDRY
List price per pair, USD.  Dealers less 40 %.
Part|1-3 pairs|4-11|12+|over $2,500
PW-31|1396|1350|1300|1250`,
			[]string{"Pellworth PW-31, list 1396 USD per pair -40, any build, freight ?, from ?, set_aside",
				"Pellworth PW-31, list 1350 USD per pair -40, any build, freight ?, from ?, used",
				"Pellworth PW-31, list 1300 USD per pair -40, any build, freight ?, from ?, set_aside"}, nil},
		{"surcharges in a note, in a column, of nobody knows what; a price that ends", "Pellworth list.xlsx", `
PELLWORTH FOUNDRY  Promotion, until 2026-03-31
List price per pair, USD.  Dealers less 40 %.
Metal surcharge 3 % on list
Part|List, per pair $|Energy surcharge each $|Alloy surcharge %
PW-31|1396|4.5|
PW-33|1706||2`,
			[]string{"Pellworth PW-31, list 1396 USD per pair -40, any build, freight ?, from ?, used, + 3 % of list, + 4.5 USD, until 2026-03-31",
				"Pellworth PW-33, list 1706 USD per pair -40, any build, freight ?, from ?, asked, + 3 % of list, until 2026-03-31"},
			[]string{"asked surcharge-of-what"}},
		{"assembled with one spring or another", "Larkmoor.xlsx", `
Dealer prices each, USD, 2026-03-01
Part|Assembled, springs to .550|Assembled, springs to .650|Bare
LKC-07|268|298|190`,
			[]string{"Larkmoor LKC-07, dealer 268 USD per each, assembled to .550, freight ?, from 2026-03-01, used",
				"Larkmoor LKC-07, dealer 298 USD per each, assembled to .650, freight ?, from 2026-03-01, used",
				"Larkmoor LKC-07, dealer 190 USD per each, bare, freight ?, from 2026-03-01, used"}, nil},
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
