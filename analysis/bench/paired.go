package bench

import (
	"errors"
	"math"

	"gonum.org/v1/gonum/stat/distuv"

	"flowshelf/analysis/quantity"
)

// Paired is how one other bench reads against the shop's over heads flowed on
// both.
type Paired struct {
	Heads   int
	MeanLog float64 // mean of ln(other/shop)
	SD      float64 // standard deviation of the log ratios; 0 for one head
	SE      float64 // of MeanLog; infinite for one head
	T       float64 // Student's t at 97.5 %; infinite for one head
	// Shrunk and SDShrunk are what a correction should use: MeanLog drawn
	// toward zero for how little is known of it.
	Shrunk, SDShrunk float64
}

// ErrPairs is returned when the two lists are no pairs of positive flows.
var ErrPairs = errors.New("paired benches need the same heads on both, with positive flows")

// Pair compares two benches over the same heads in the same order, by the mean
// of the log ratios and Student's t. The shrunk figures pool the variance with
// the prior's, (4 0.02^2 + RSS)/(4 + n - 1), and draw the mean toward zero as
// Compare does. Source: any text on paired samples; ISO 5725-6 for the use.
func Pair(shop, other []quantity.Flow) (Paired, error) {
	if len(shop) == 0 || len(shop) != len(other) {
		return Paired{}, ErrPairs
	}
	n := float64(len(shop))
	logs := make([]float64, len(shop))
	p := Paired{Heads: len(shop)}
	for i := range shop {
		if !(shop[i] > 0 && other[i] > 0) {
			return Paired{}, ErrPairs
		}
		logs[i] = math.Log(float64(other[i] / shop[i]))
		p.MeanLog += logs[i] / n
	}
	rss := 0.0
	for _, l := range logs {
		rss += (l - p.MeanLog) * (l - p.MeanLog)
	}
	p.SE, p.T = math.Inf(1), math.Inf(1)
	if n > 1 {
		p.SD = math.Sqrt(rss / (n - 1))
		p.SE = p.SD / math.Sqrt(n)
		p.T = distuv.StudentsT{Mu: 0, Sigma: 1, Nu: n - 1}.Quantile(0.975)
	}
	prior := DefaultPrior()
	pooled := (prior.Residuals*pairedPrior*pairedPrior + rss) / (prior.Residuals + n - 1)
	p.Shrunk, p.SDShrunk = shrink(p.MeanLog, math.Sqrt(pooled/n), prior.Benches)
	return p, nil
}

// Percent returns how much the other bench reads above the shop's.
func (p Paired) Percent() float64 { return 100 * math.Expm1(p.MeanLog) }

// Interval returns the 95 % interval of Percent, and false for one head.
func (p Paired) Interval() (low, high float64, ok bool) {
	if p.Heads < 2 {
		return 0, 0, false
	}
	return 100 * math.Expm1(p.MeanLog-p.T*p.SE), 100 * math.Expm1(p.MeanLog+p.T*p.SE), true
}

// OnShop returns what a flow of another head on the other bench comes to on the
// shop's, q e^-Shrunk, and its 95 % range
//
//	q exp(-Shrunk ± 1.96 sqrt(SDShrunk^2 + s^2)),  s^2 = (4 0.02^2 + RSS)/(4 + n - 1).
//
// The scatter s from head to head dominates: a record takes the mean off and
// cannot know one head. Source: JCGM 100:2008 (GUM), 5.1.2, for the sum.
func (p Paired) OnShop(other quantity.Flow) (flow, low, high quantity.Flow) {
	prior := DefaultPrior()
	n := float64(p.Heads)
	pooled := (prior.Residuals*pairedPrior*pairedPrior + p.SD*p.SD*(n-1)) / (prior.Residuals + n - 1)
	const normal = 1.959963984540054
	spread := normal * math.Sqrt(p.SDShrunk*p.SDShrunk+pooled)
	at := func(log float64) quantity.Flow { return other * quantity.Flow(math.Exp(log)) }
	return at(-p.Shrunk), at(-p.Shrunk - spread), at(-p.Shrunk + spread)
}
