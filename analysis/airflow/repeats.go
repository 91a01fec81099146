package airflow

import (
	"errors"

	"flowshelf/analysis/quantity"
)

// Repeats is what several readings of one point come to. Repeats of a point,
// ports of a head and castings of a part are three levels that are never pooled.
type Repeats struct {
	Mean     quantity.Flow
	Range    float64 // (largest - smallest)/mean
	Limit    float64 // the range that is still noise, as a share of the mean
	Accepted bool
}

// ErrRepeats is returned when there is nothing to average.
var ErrRepeats = errors.New("repeats need one to ten positive readings")

// criticalRange holds f(n), n = 2 to 10: with 95 % probability n readings lie
// within f(n) s_r of one another. Source: ISO 5725-6:1994, table 1 (from
// memory; the quantiles of the range of n normal values, rounded).
func criticalRange(n int) float64 {
	return [...]float64{2.8, 3.3, 3.6, 3.9, 4.0, 4.2, 4.3, 4.4, 4.5}[n-2]
}

// Average returns the mean of repeated readings and whether they agree, given
// the repeatability limit r as a share (r = 2.8 s_r). Two readings may differ by
// r, n by f(n) s_r. One reading is its own mean and agrees. The borderline
// agrees. Source: ISO 5725-6:1994, 5.2 (clause from
// memory).
func Average(readings []quantity.Flow, r float64) (Repeats, error) {
	if len(readings) < 1 || len(readings) > 10 {
		return Repeats{}, ErrRepeats
	}
	low, high := readings[0], readings[0]
	var sum quantity.Flow
	for _, q := range readings {
		if !(q > 0) {
			return Repeats{}, ErrRepeats
		}
		sum += q
		low, high = min(low, q), max(high, q)
	}
	rep := Repeats{Mean: sum / quantity.Flow(len(readings)), Accepted: true}
	if len(readings) == 1 {
		return rep, nil
	}
	rep.Range = float64((high - low) / rep.Mean)
	rep.Limit = r
	if n := len(readings); n > 2 {
		rep.Limit = criticalRange(n) * r / 2.8
	}
	const rounding = 1e-9
	rep.Accepted = rep.Range <= rep.Limit+rounding
	return rep, nil
}
