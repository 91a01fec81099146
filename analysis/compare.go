// Package analysis is the calculation as one: records and a date in, comparisons
// out. It is pure: it reads no file and no clock and keeps no state.
package analysis

import (
	"time"

	"flowshelf/analysis/compare"
	"flowshelf/analysis/head"
)

// Compare compares the heads of each engine family of the shop's setup on a
// date, in the setup's order. Test, price and stock records dated later do not
// count. The order of the records does not matter.
func Compare(records head.Records, shop head.Shop, date time.Time) []compare.Comparison {
	return compare.All(records, shop, date)
}
