package compare_test

import (
	"fmt"
	"math/rand/v2"
	"testing"
	"time"

	"flowshelf/analysis/compare"
	"flowshelf/analysis/compare/comparetest"
	"flowshelf/analysis/head"
)

// manyHeads is a shelf of n invented heads of one family: nine lifts, two ports,
// prices that rise with flow, so that ties, beaten heads and a frontier occur.
func manyHeads(n int) (head.Records, head.Shop, time.Time) {
	_, shop, date := comparetest.SmallEight()
	random := rand.New(rand.NewPCG(7, 11))
	book := comparetest.Sheet{File: "bench/many.xlsx", Name: "Flow"}
	lists := comparetest.Sheet{File: "many prices.xlsx", Name: "Net"}
	facts := comparetest.Sheet{File: "dimensions.xlsx", Name: "Heads"}
	lifts := []float64{.100, .200, .300, .400, .450, .500, .550, .600, .650}
	shape := []float64{68, 134, 190, 229, 240, 247, 250, 251, 250}
	day := book.Day(2026, time.March, 3)
	shop.Heads = nil
	var r head.Records
	for i := range n {
		name := fmt.Sprintf("H-%05d", i)
		shop.Heads = append(shop.Heads, head.Listed{Name: name, Family: "Small Eight", Supplier: "Larkmoor Castings"})
		scale := 0.75 + 0.45*random.Float64()
		column := comparetest.Column{Head: name, Sample: "A", Class: head.Own, BoreIn: 4.030, InH2O: 28, Lifts: lifts, By: "bench", Day: day}
		for _, port := range []head.Port{head.Intake, head.Exhaust} {
			column.Port, column.CFM = port, nil
			for _, q := range shape {
				if port == head.Exhaust {
					q *= 0.74
				}
				column.CFM = append(column.CFM, q*scale*(1+0.004*random.NormFloat64()))
			}
			if port == head.Exhaust {
				column.Pipe = head.WithPipe
			}
			r.Tests = append(r.Tests, book.Test(column))
		}
		each := 300 + 700*(scale-0.75)/0.45*(0.7+0.6*random.Float64())
		r.Prices = append(r.Prices, head.Price{Head: name, Supplier: "Larkmoor Castings", Build: "assembled", Rung: head.Net, Basis: head.Each,
			Amount: lists.Dollars(float64(int(each))), Freight: lists.Dollars(0)})
		r.Dimensions = append(r.Dimensions, head.Dimensions{Head: name, IntakeValve: facts.Inches(2.050), ExhaustValve: facts.Inches(1.600), MaxLift: facts.Inches(0.600)})
	}
	return r, shop, date
}

func BenchmarkCompare(b *testing.B) {
	for _, n := range []int{500, 5000} {
		records, shop, date := manyHeads(n)
		b.Run(fmt.Sprintf("heads=%d", n), func(b *testing.B) {
			b.ReportAllocs()
			for b.Loop() {
				c := compare.All(records, shop, date)
				if got := len(c[0].Ranked); got != n {
					b.Fatalf("ranked %d of %d", got, n)
				}
			}
		})
	}
}
