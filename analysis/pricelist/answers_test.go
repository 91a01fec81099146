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
