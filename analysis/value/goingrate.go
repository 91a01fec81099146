package value

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
