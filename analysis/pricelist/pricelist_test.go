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

func day(month time.Month, d int) source.Stated[time.Time] {
	return source.Say(time.Date(2026, month, d, 0, 0, 0, 0, time.UTC), source.Trace{})
}

func dollars(x float64) source.Stated[quantity.Money] {
	return source.Say(quantity.Dollars(x), source.Trace{Text: "x"})
}

func chain(percents ...int64) []decimal.Decimal {
	var out []decimal.Decimal
	for _, p := range percents {
		out = append(out, decimal.NewFromInt(p))
	}
	return out
}

// pellworth is a dealer's list: prices a pair, dealers less 40 %.
func pellworth(list float64, effective source.Stated[time.Time], file string) head.Price {
	return head.Price{Head: "PW-31", Supplier: "Pellworth Foundry", Build: "assembled", Rung: head.List, Basis: head.Pair,
		Amount: dollars(list), Discounts: chain(40), Freight: dollars(28), Effective: effective, At: source.Ref{File: file}}
}

func shop() head.Shop {
	return head.Shop{
		Currency:  "USD",
		Suppliers: []head.SupplierRule{{Name: "Pellworth Foundry", Cost: head.Dealer}, {Name: "Agreed", Cost: head.Net, Discounts: chain(50, 10, 5)}},
		Rates: []head.Rate{
			{Currency: "EUR", Value: decimal.RequireFromString("1.05"), AsOf: day(time.January, 2)},
			{Currency: "EUR", Value: decimal.RequireFromString("1.09"), AsOf: day(time.February, 27)},
			{Currency: "EUR", Value: decimal.RequireFromString("1.20"), AsOf: day(time.April, 1)},
		},
	}
}

func TestFind(t *testing.T) {
	february, april := day(time.February, 1), day(time.April, 1)
	waiting := pellworth(1396, source.Stated[time.Time]{}, "April")
	waiting.Status, waiting.Why = head.Asked, "date can be read two ways"
	noBasis := pellworth(1354, february, "Feb")
	noBasis.Basis = head.BasisNotStated
	bare := pellworth(1000, february, "Feb")
	bare.Build = "bare"
	euro := head.Price{Rung: head.Net, Basis: head.Each, Amount: source.Say(quantity.Of(decimal.NewFromInt(189), "EUR"), source.Trace{}), Freight: dollars(19)}
	pounds := euro
	pounds.Amount.Value.Currency = "GBP"
	agreed := head.Price{Supplier: "Agreed", Rung: head.List, Basis: head.Each, Amount: dollars(1000), Freight: dollars(0)}
	loose := head.Price{Supplier: "Agreed", Basis: head.Each, Amount: dollars(430), Freight: dollars(24)}
	strange := head.Price{Supplier: "Nobody", Basis: head.Each, Amount: dollars(430)}
	free := head.Price{Rung: head.Net, Basis: head.Each, Amount: dollars(0)}
	ladder := pellworth(1354, february, "Feb")
	ladder.Rung, ladder.Discounts = head.Dealer, nil
	ladder.Amount = dollars(812.40)
	surcharged := func(p head.Price, s ...head.Surcharge) head.Price {
		p.Surcharges = s
		return p
	}
	metal := func(on head.Rung) head.Surcharge {
		return head.Surcharge{Name: "metal surcharge", Percent: decimal.NewFromInt(3), On: on}
	}
	ended := pellworth(1200, day(time.March, 1), "promotion")
	ended.Until = day(time.March, 15)
	old := pellworth(1354, source.Say(time.Date(2025, 3, 1, 0, 0, 0, 0, time.UTC), source.Trace{}), "last year")
	springs := func(lift, list float64) head.Price {
		p := pellworth(list, february, "Feb")
		p.MaxLift = source.Say(quantity.Inches(lift), source.Trace{})
		return p
	}
	book := &head.StockItem{Cost: dollars(880), CostBasis: head.Each, Freight: dollars(35), Sell: dollars(2349), SellBasis: head.Set}

	cases := []struct {
		name    string
		prices  []head.Price
		stock   *head.StockItem
		heads   int
		landed  string // a head, "" for none
		missing string
		kinds   string
	}{
		{name: "pair less 40 % plus freight", prices: []head.Price{pellworth(1354, february, "Feb")}, landed: "434.2"},
		{name: "a list to come is not in force", prices: []head.Price{pellworth(1354, february, "Feb"), pellworth(1396, april, "April")}, landed: "434.2"},
		{name: "a list that waits for its date is not in force", prices: []head.Price{pellworth(1354, february, "Feb"), waiting}, landed: "434.2"},
		{name: "only a list that waits", prices: []head.Price{waiting}, missing: "waits for an answer"},
		{name: "the newest in force", prices: []head.Price{pellworth(1354, february, "Feb"), pellworth(1300, day(time.March, 1), "March")}, landed: "418"},
		{name: "a dated list before an undated one", prices: []head.Price{pellworth(1354, february, "Feb"), pellworth(1000, source.Stated[time.Time]{}, "old")}, landed: "434.2"},
		{name: "two lists of one day", prices: []head.Price{pellworth(1354, february, "Feb"), pellworth(1355, february, "Feb 2")}, missing: "two lists", kinds: "two-prices"},
		{name: "the same list twice", prices: []head.Price{pellworth(1354, february, "Feb"), pellworth(1354, february, "copy")}, landed: "434.2"},
		{name: "basis not stated", prices: []head.Price{noBasis}, missing: "each, a pair or a set", kinds: "price-basis-not-stated"},
		{name: "assembled before bare", prices: []head.Price{bare, pellworth(1354, february, "Feb")}, landed: "434.2"},
		{name: "bare is said", prices: []head.Price{bare}, landed: "328", kinds: "bare-price"},
		{name: "a pair of a head that is sold by four", prices: []head.Price{pellworth(1354, february, "Feb")}, heads: 4, landed: "434.2", kinds: "pair-of-more"},
		{name: "surcharge of 3 % on list: 677 x .6 + 677 x .03 + 28", prices: []head.Price{surcharged(pellworth(1354, february, "Feb"), metal(head.List))}, landed: "454.51"},
		{name: "surcharge of 3 % on net: 677 x .6 x 1.03 + 28", prices: []head.Price{surcharged(pellworth(1354, february, "Feb"), metal(head.Net))}, landed: "446.386"},
		{name: "surcharge in money", prices: []head.Price{surcharged(pellworth(1354, february, "Feb"), head.Surcharge{Name: "energy", Amount: dollars(4.5)})}, landed: "438.7"},
		{name: "surcharge on a list price of another line", prices: []head.Price{surcharged(ladder, metal(head.List)), pellworth(1354, february, "Feb")}, landed: "454.51"},
		{name: "surcharge on a list price that is not there", prices: []head.Price{surcharged(ladder, metal(head.List))}, missing: "list price", kinds: "surcharge-not-known"},
		{name: "surcharge in other money", prices: []head.Price{surcharged(pellworth(1354, february, "Feb"),
			head.Surcharge{Amount: source.Say(quantity.Of(decimal.NewFromInt(4), "EUR"), source.Trace{})})}, landed: "438.56"},
		{name: "a promotion that has ended", prices: []head.Price{pellworth(1354, february, "Feb"), ended}, landed: "434.2"},
		{name: "a list of last year", prices: []head.Price{old}, landed: "434.2", kinds: "price-list-old"},
		{name: "of springs that reach the cheaper, before those that do not", prices: []head.Price{springs(.550, 1300), springs(.650, 1400), springs(.700, 1500)}, landed: "448"},
		{name: "euro at the rate of the day", prices: []head.Price{euro}, heads: 4, landed: "225.01"},
		{name: "no rate", prices: []head.Price{pounds}, missing: "no rate for GBP", kinds: "rate-not-set"},
		{name: "chain of the setup: 50/10/5 leaves 42.75 %", prices: []head.Price{agreed}, landed: "427.5"},
		{name: "a price of no named rung where one is agreed", prices: []head.Price{loose}, landed: "454"},
		{name: "a price of no named rung where none is", prices: []head.Price{strange}, missing: "the shop's cost", kinds: "cost-rung-not-known"},
		{name: "nothing is never a price", prices: []head.Price{free}, missing: "no price list"},
		{name: "the stock book's cost", stock: book, landed: "915"},
		{name: "nothing known", missing: "no price list"},
	}
	for _, tc := range cases {
		t.Run(tc.name, func(t *testing.T) {
			heads := tc.heads
			if heads == 0 {
				heads = 2
			}
			c := pricelist.Find(pricelist.Question{Head: head.Listed{Name: "PW-31"}, Heads: heads, Lift: quantity.Inches(0.600), Prices: tc.prices, Stock: tc.stock, Shop: shop(), On: day(time.March, 16).Value})
			if tc.landed != "" && (!c.Landed.Known || c.Landed.Value.Amount.String() != tc.landed || c.Landed.Value.Currency != "USD") {
				t.Errorf("landed %v %v (%s), want %s", c.Landed.Known, c.Landed.Value, c.Missing, tc.landed)
			}
			if tc.missing != "" && (c.Landed.Known || !strings.Contains(c.Missing, tc.missing)) {
				t.Errorf("missing %q, want %q", c.Missing, tc.missing)
			}
			var kinds []string
			for _, p := range c.Problems {
				kinds = append(kinds, p.Kind)
			}
			if got := strings.Join(kinds, " "); got != tc.kinds {
				t.Errorf("problems %q, want %q", got, tc.kinds)
			}
		})
	}
}

func TestSell(t *testing.T) {
	book := &head.StockItem{Date: day(time.February, 28), Sell: dollars(1249), SellBasis: head.Set}
	list := head.Price{Rung: head.Sell, Basis: head.Each, Amount: dollars(650), Effective: day(time.March, 1)}
	older, coming := list, list
	older.Effective, coming.Effective = day(time.January, 1), day(time.May, 1)
	for _, tc := range []struct {
		name   string
		stock  *head.StockItem
		prices []head.Price
		want   string
	}{
		{"stock book", book, nil, "1249"},
		{"a newer sell list", book, []head.Price{list}, "1300"},
		{"an older sell list", book, []head.Price{older}, "1249"},
		{"a list to come", book, []head.Price{coming}, "1249"},
		{"a list alone", nil, []head.Price{list}, "1300"},
		{"nothing", nil, nil, ""},
	} {
		t.Run(tc.name, func(t *testing.T) {
			c := pricelist.Find(pricelist.Question{Heads: 2, Prices: tc.prices, Stock: tc.stock, Shop: shop(), On: day(time.March, 16).Value})
			if c.Sell.Known != (tc.want != "") || c.Sell.Known && c.Sell.Value.Amount.String() != tc.want {
				t.Errorf("sell %v %v, want %q", c.Sell.Known, c.Sell.Value, tc.want)
			}
		})
	}
}

// TestOtherLists wants every list that does not count to be named.
func TestOtherLists(t *testing.T) {
	waiting := pellworth(1396, source.Stated[time.Time]{}, "unclear")
	waiting.Status, waiting.Why = head.Asked, "date can be read two ways"
	ended := pellworth(1200, day(time.March, 1), "promotion")
	ended.Until = day(time.March, 15)
	c := pricelist.Find(pricelist.Question{Heads: 2, Shop: shop(), On: day(time.March, 16).Value, Prices: []head.Price{
		pellworth(1354, day(time.February, 1), "Feb"), pellworth(1300, day(time.January, 1), "Jan"), pellworth(1450, day(time.April, 1), "April"), waiting, ended,
	}})
	for what, got := range map[string][]head.Price{"April": c.Coming, "unclear": c.Waiting, "promotion Jan": c.Superseded} {
		var files []string
		for _, p := range got {
			files = append(files, p.At.File)
		}
		if strings.Join(files, " ") != what {
			t.Errorf("got %q, want %q", files, what)
		}
	}
	if c.List != "Feb" || c.Quoted.Value.Amount.String() != "406.2" || c.Rate.Known {
		t.Errorf("list %q, quoted %v, rate %v", c.List, c.Quoted.Value, c.Rate)
	}
}

func TestMinimumAdvertised(t *testing.T) {
	p := head.Price{Rung: head.MinimumAdvertised, Basis: head.Pair, Amount: dollars(2100), Effective: day(time.February, 1)}
	c := pricelist.Find(pricelist.Question{Heads: 4, Shop: shop(), On: day(time.March, 16).Value, Prices: []head.Price{p}})
	if !c.Minimum.Known || c.Minimum.Value.Amount.String() != "4200" || c.Landed.Known {
		t.Errorf("minimum %v, landed %v", c.Minimum, c.Landed)
	}
}

func TestEveryConversionIsNamed(t *testing.T) {
	c := pricelist.Find(pricelist.Question{Heads: 2, Prices: []head.Price{pellworth(1354, day(time.February, 1), "Feb")}, Shop: shop(), On: day(time.March, 16).Value})
	if got, want := strings.Join(c.Landed.Trace.Steps, "; "), "pair of 2 to each: / 2; less 40 %; freight + 28"; got != want {
		t.Errorf("steps %q, want %q", got, want)
	}
}
