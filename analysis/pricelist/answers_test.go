package pricelist_test

import (
	"strings"
	"testing"
	"time"

	"github.com/shopspring/decimal"

	"flowshelf/analysis/head"
	"flowshelf/analysis/pricelist"
	"flowshelf/analysis/quantity"
	"flowshelf/analysis/source"
)

// TestAnswers holds what a head costs once somebody has said what no list says.
func TestAnswers(t *testing.T) {
	february := day(time.February, 1)
	noBasis := pellworth(1354, february, "Feb")
	noBasis.Basis = head.BasisNotStated
	strange := head.Price{Supplier: "Nobody", Basis: head.Each, Amount: dollars(430), Freight: dollars(0)}
	pounds := head.Price{Rung: head.Net, Basis: head.Each, Amount: source.Say(quantity.Of(decimal.NewFromInt(100), "GBP"), source.Trace{}), Freight: dollars(0)}
	for _, c := range []struct {
		name, kind, text string
		prices           []head.Price
		landed           string // "" for none
	}{
		{"basis", "price-basis-not-stated", "pair", []head.Price{noBasis}, "434.2"},      // 1354 / 2 less 40 % + 28
		{"basis each", "price-basis-not-stated", "each", []head.Price{noBasis}, "840.4"}, // 1354 less 40 % + 28
		{"which price is ours", "cost-rung-not-known", "the price as it stands", []head.Price{strange}, "430"},
		{"none of these prices", "cost-rung-not-known", "dealer", []head.Price{strange}, ""},
		{"rate", "rate-not-set", "1.25", []head.Price{pounds}, "125"},
		{"first list", "two-prices", "Feb", []head.Price{pellworth(1354, february, "Feb"), pellworth(1400, february, "Feb 2")}, "434.2"},
		{"second list", "two-prices", "Feb 2", []head.Price{pellworth(1354, february, "Feb"), pellworth(1400, february, "Feb 2")}, "448"}, // 1400 / 2 less 40 % + 28
	} {
		t.Run(c.name, func(t *testing.T) {
			q := pricelist.Question{Head: head.Listed{Name: "PW-31"}, Heads: 2, Prices: c.prices, Shop: shop(), On: day(time.March, 16).Value}
			key := ""
			for _, p := range pricelist.Find(q).Problems {
				if p.Kind == c.kind {
					key = p.Question.Key
				}
			}
			q.Answers = head.NewAnswers([]head.Answer{{Key: key, Text: c.text, By: "JT", On: q.On}})
			got := pricelist.Find(q)
			if c.landed == "" {
				if got.Landed.Known || len(got.Problems) == 0 || got.Problems[0].Severity != source.Asked {
					t.Errorf("landed %v, problems %v", got.Landed, got.Problems)
				}
				return
			}
			if !got.Landed.Known || got.Landed.Value.Amount.String() != c.landed {
				t.Errorf("landed %v %v (%s), want %s", got.Landed.Known, got.Landed.Value, got.Missing, c.landed)
			}
			for _, p := range got.Problems {
				if p.Severity == source.Asked {
					t.Errorf("asked again: %s", p)
				}
			}
			if !strings.HasPrefix(got.Landed.Trace.Answered, "per JT") {
				t.Errorf("the cost does not say who answered: %+v", got.Landed.Trace)
			}
		})
	}
}

// TestBuilds asks for complete and for bare heads apart: neither takes the place
// of the other.
func TestBuilds(t *testing.T) {
	february := day(time.February, 1)
	bare := pellworth(1000, february, "Feb")
	bare.Build = "bare"
	sell := head.Price{Build: "bare", Rung: head.Sell, Basis: head.Set, Amount: dollars(849)}
	book := &head.StockItem{Sell: dollars(1249), SellBasis: head.Set}
	both, bareOnly := []head.Price{bare, pellworth(1354, february, "Feb"), sell}, []head.Price{bare}
	for _, tc := range []struct {
		name         string
		build        pricelist.Build
		prices       []head.Price
		landed, sell string // a head and a set, "" for none
	}{
		{"complete", pricelist.Complete, both, "434.2", "1249"},
		{"bare", pricelist.Bare, both, "328", "849"},
		{"complete, of a head that comes bare", pricelist.Complete, bareOnly, "", "1249"},
		{"bare, without a sell price of its own", pricelist.Bare, bareOnly, "328", ""},
		{"any", pricelist.AnyBuild, bareOnly, "328", "1249"},
	} {
		c := pricelist.Find(pricelist.Question{Build: tc.build, Heads: 2, Prices: tc.prices, Stock: book, Shop: shop(), On: day(time.March, 16).Value})
		if c.Landed.Known != (tc.landed != "") || c.Landed.Known && c.Landed.Value.Amount.String() != tc.landed {
			t.Errorf("%s: landed %v, want %q", tc.name, c.Landed.Value, tc.landed)
		}
		if c.Sell.Known != (tc.sell != "") || c.Sell.Known && c.Sell.Value.Amount.String() != tc.sell {
			t.Errorf("%s: sell %v, want %q", tc.name, c.Sell.Value, tc.sell)
		}
	}
}
