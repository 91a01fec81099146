package curve_test

import (
	"fmt"

	"flowshelf/analysis/curve"
	"flowshelf/analysis/quantity"
)

// A poor valve job: the port dips at .550 and gets over it.
func ExampleStall() {
	var sheet []curve.Point
	lifts := []float64{.100, .200, .300, .400, .450, .500, .550, .600, .650}
	for i, cfm := range []float64{57, 114, 170, 212, 222, 226, 222, 228, 229} {
		sheet = append(sheet, curve.Point{Lift: quantity.Inches(lifts[i]), Flow: quantity.CFM(cfm)})
	}
	v := curve.Stall(sheet, curve.DefaultNoise())
	fmt.Println(v.Words())
	fmt.Println("against", v.Dips[0].Against.Flow.CFM(), "cfm, down", v.Dips[0].Depth().CFM())
	// Output:
	// dips at .550 and recovers
	// against 226 cfm, down 4
}

func ExampleCurve_Mean() {
	c, err := curve.New([]curve.Point{
		{Lift: quantity.Inches(.2), Flow: quantity.CFM(130)},
		{Lift: quantity.Inches(.4), Flow: quantity.CFM(232)},
		{Lift: quantity.Inches(.5), Flow: quantity.CFM(252)},
	})
	if err != nil {
		fmt.Println(err)
		return
	}
	mean, coverage := c.Mean(quantity.Inches(.2), quantity.Inches(.6))
	fmt.Printf("%.1f cfm over %.0f %% of the window\n", mean.CFM(), 100*coverage)
	// Output: 205.1 cfm over 75 % of the window
}
