package value_test

import (
	"fmt"

	"flowshelf/analysis/quantity"
	"flowshelf/analysis/value"
)

// While a cfm is worth less than $23.08 the 205 cfm head is the best buy.
func ExampleFrontier() {
	offers := []value.Offer{
		{Name: "A", Cost: quantity.Dollars(900), Flow: 205},
		{Name: "B", Cost: quantity.Dollars(1200), Flow: 218},
		{Name: "C", Cost: quantity.Dollars(1250), Flow: 216},
		{Name: "D", Cost: quantity.Dollars(1900), Flow: 232},
	}
	steps, err := value.Frontier(offers, 0)
	if err != nil {
		fmt.Println(err)
		return
	}
	for _, s := range steps {
		fmt.Printf("%s from $%.2f to $%.2f\n", offers[s.Offer].Name, s.BestFrom, s.BestTo)
	}
	// Output:
	// A from $0.00 to $23.08
	// B from $23.08 to $50.00
	// D from $50.00 to $+Inf
}
