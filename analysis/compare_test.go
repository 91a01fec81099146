package analysis_test

import (
	"fmt"

	"flowshelf/analysis"
	"flowshelf/analysis/compare/comparetest"
)

// The invented shelf's Small Eight heads, best value first.
func ExampleCompare() {
	for _, c := range analysis.Compare(comparetest.SmallEight()) {
		for _, e := range c.Ranked[:3] {
			tied := ""
			if e.Place.Shared {
				tied = "="
			}
			fmt.Printf("%d%s %s: %.0f cfm, $%s usable\n", e.Place.Number, tied, e.Label, e.Intake.Working.Value, e.Cost.Usable.Value.Amount)
		}
	}
	// Output:
	// 1 LKC-12: 212 cfm, $1249 usable
	// 2= VR-84 + valve job: 204 cfm, $1259 usable
	// 2= PW-33: 208 cfm, $1399 usable
}
