package value

import "slices"

// fewestForRate is the number of priced heads a going rate needs.
const fewestForRate = 4

// GoingRate returns what the shelf itself asks for a cfm: the Theil-Sen slope of
// cost on flow, the median of the slopes between all pairs of offers with
// different flows. It stands in for a worth the shop has not set. False with
// fewer than four offers or when the shelf asks nothing for more flow.
//
// Source: P. K. Sen, "Estimates of the regression coefficient based on Kendall's
// tau", J. Am. Stat. Assoc. 63 (1968) 1379-1389 (from memory).
func GoingRate(offers []Offer) (Rate, bool, error) {
	if err := checkAll(offers); err != nil {
		return 0, false, err
	}
	if len(offers) < fewestForRate {
		return 0, false, nil
	}
	flows := make([]float64, len(offers))
	costs := make([]float64, len(offers))
	for i, o := range offers {
		flows[i], costs[i] = o.Flow.CFM(), o.Cost.Float()
	}
	slope, ok := TheilSen(flows, costs)
	return Rate(slope), ok && slope > 0, nil
}

// TheilSen returns the median of the slopes (y_j - y_i)/(x_j - x_i) between all
// pairs with different x, and false when there is none or the lists differ in
// length. With an even number of slopes it is the mean of the middle two.
func TheilSen(x, y []float64) (slope float64, ok bool) {
	if len(x) != len(y) {
		return 0, false
	}
	var slopes []float64
	for i := range x {
		for j := range i {
			if x[i] != x[j] {
				slopes = append(slopes, (y[i]-y[j])/(x[i]-x[j]))
			}
		}
	}
	if len(slopes) == 0 {
		return 0, false
	}
	slices.Sort(slopes)
	mid := len(slopes) / 2
	if len(slopes)%2 == 1 {
		return slopes[mid], true
	}
	return (slopes[mid-1] + slopes[mid]) / 2, true
}
