package lists_test

import (
	"fmt"
	"math"
	"testing"

	"flowshelf/analysis/head"
)

// TestBareInTheBooks reads what is said of bare heads: two lines of one head in a
// stock book, parts with their springs' lift and their cost to the shop, and work
// that neither hours nor a cost are stated for.
func TestBareInTheBooks(t *testing.T) {
	got, page := recognise("stock 2026-02-28.xlsx", sheet("Sheet1", `
Head|Build|On hand (heads)|Sold 12 m (sets)|Sell $ / set
LKC-12|assembled|9|31|1249
LKC-12|bare|4|0|849
PW-33||8|1|1399`), theShop())
	accounted(t, page)
	var lines []string
	for _, s := range got.Stock {
		lines = append(lines, fmt.Sprintf("%s %q %s", s.Head, s.Build, money(s.Sell)))
	}
	same(t, "stock", lines, []string{`LKC-12 "assembled" 1249 USD`, `LKC-12 "bare" 849 USD`, `PW-33 "" 1399 USD`})
	same(t, "problems", kinds(got.Problems), []string{"noted nothing-sold"})

	got, page = recognise("extras.xlsx", sheet("Sheet1", `
Head|Item|Needed when|$|Our cost $|Per
LKC-12|valves|bare|96|70|set
LKC-12|springs to .600|if bare|84|60|set
LKC-12|gaskets|always|48||set`), theShop())
	accounted(t, page)
	lines = nil
	for _, e := range got.Extras {
		lines = append(lines, fmt.Sprintf("%s %v %s %s springs %v to %.3f", e.Item, e.Need == head.WhenBare, money(e.Price), money(e.Internal), e.Springs, math.Round(1000*e.SpringsTo.Value.In())/1000))
	}
	same(t, "extras", lines, []string{"valves true 96 USD 70 USD springs false to 0.000", "springs to .600 true 84 USD 60 USD springs true to 0.600", "gaskets false 48 USD ? springs false to 0.000"})
	same(t, "problems", kinds(got.Problems), nil)

	got, page = recognise("menu.xlsx", sheet("Sheet1", `
Work|Price $ / set|Internal cost $ / set|Hours / set
assembly|120|97|2
valve job|260||`), theShop())
	accounted(t, page)
	same(t, "problems", kinds(got.Problems), []string{"noted work-cost-not-stated"})
	if len(got.Rework) != 2 || got.Rework[1].Internal.Known || got.Rework[1].Hours.Known {
		t.Errorf("a blank cost is taken for one: %+v", got.Rework)
	}
}
