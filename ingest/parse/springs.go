package parse

import (
	"regexp"
	"strconv"
)

// SpringLoad is a spring's load, with the height it was taken at; 0 when that
// is not written.
type SpringLoad struct{ Lbf, HeightIn float64 }

var springLoads = regexp.MustCompile(`(?i)^(\d{2,4})\s*(?:lbs?)?\s*(?:@\s*(\d?\.\d+)"?)?\s*/\s*(\d{2,4})\s*(?:lbs?)?\s*(?:@\s*(\d?\.\d+)"?)?$`)

// SpringLoads reads seat and open load: "130@1.800 / 365@1.200", "130/365".
func SpringLoads(text string) (seat, open SpringLoad, ok bool) {
	m := springLoads.FindStringSubmatch(Squeeze(text))
	if m == nil {
		return seat, open, false
	}
	seat = SpringLoad{float(m[1]), float(m[2])}
	open = SpringLoad{float(m[3]), float(m[4])}
	return seat, open, seat.Lbf < open.Lbf
}

func float(digits string) float64 {
	x, err := strconv.ParseFloat(digits, 64)
	if err != nil {
		return 0
	}
	return x
}
