// Package bench finds how other benches read against the shop's own, from heads
// that were flowed on more than one.
//
// One mean flow a head and bench goes in, taken over a window both benches
// cover, at one test pressure, direction and bore class: readings at several
// lifts of one set-up share its errors and are not independent evidence.
package bench

import (
	"cmp"
	"fmt"
	"math"
	"slices"

	"gonum.org/v1/gonum/mat"

	"flowshelf/analysis/quantity"
)

// Reading is one head's mean flow on one bench.
type Reading struct {
	Head, Bench string
	Mean        quantity.Flow
}

// Offset is how a bench reads against the shop's.
type Offset struct {
	Bench string
	// Log is ln(reads/shop), SE its standard error from the residuals alone;
	// infinite without a degree of freedom.
	Log, SE float64
	// Heads counts the heads on this bench that were also on another.
	Heads int
	// Shrunk is Log drawn toward zero for how little is known of it, SD its
	// standard deviation: what a correction should use.
	Shrunk, SD float64
}

// Percent returns how much the bench reads above the shop's, 100 (e^Log - 1).
func (o Offset) Percent() float64 { return 100 * math.Expm1(o.Log) }

// enoughHeads is the number of linking heads from which an offset is reported
// as more than indicative.
const enoughHeads = 3

// Indicative reports whether fewer than three heads link the bench: a hint, not
// a calibration.
func (o Offset) Indicative() bool { return o.Heads < enoughHeads }

// Residual is what a reading differs from the fit by, in logs.
type Residual struct {
	Reading
	Log float64
	// Doubtful is set beyond 2.5 residual standard deviations. It is shown,
	// never dropped.
	Doubtful bool
}

// Fit is the comparison of all linked benches.
type Fit struct {
	Shop     string
	Offsets  []Offset    // the other linked benches by name
	Cov      [][]float64 // of the Logs, in the same order
	Heads    []Head      // in shop terms, by name
	Residual []Residual  // by head and bench
	SD       float64     // residual standard deviation, in logs
	DOF      int
	Unlinked []string // benches no chain of heads ties to the shop's
}

// Head is a head's mean flow as the shop's bench would read it.
type Head struct {
	Name string
	Mean quantity.Flow
}

// Prior is what is assumed of benches before they are compared, in logs. Common
// practice, no source.
type Prior struct {
	Benches   float64 // standard deviation between benches' offsets
	Residual  float64 // standard deviation of one reading's residual
	Residuals float64 // weight of Residual, in degrees of freedom
}

// DefaultPrior is benches 3 % apart, head-to-head differences of 2 %, worth four
// degrees of freedom.
func DefaultPrior() Prior {
	return Prior{Benches: 0.03, Residual: pairedPrior / math.Sqrt2, Residuals: 4}
}

// pairedPrior is the standard deviation of the log ratio of one head on two
// benches: casting and bench together.
const pairedPrior = 0.02

// Compare fits y = H_head + b_bench + error to y = ln(mean) by least squares,
// the shop's b being zero, and leaves benches that no chain of heads ties to the
// shop's in Unlinked. Repeats of a head on a bench are averaged in logs first.
//
// Heads are eliminated first, which leaves the Laplacian L of the benches: each
// head with m readings adds I - 11'/m to the rows and columns of its benches and
// y - mean(y) to the right side. Without the shop's row the offsets are L^-1 r
// and their covariance s^2 L^-1, s^2 = RSS/(N - heads - benches + 1).
//
// Shrunk is w Log and SD sqrt(w) se', with w = t^2/(t^2 + se'^2), t the prior
// spread of benches and se' the standard error with s^2 pooled with the prior's.
//
// It is an error when the shop has no reading or a mean is not positive. Source:
// C. M. Sutton, "Analysis and linking of international measurement comparisons",
// Metrologia 41 (2004) (abstract), with heads as travelling standards.
func Compare(readings []Reading, shop string, prior Prior) (Fit, error) {
	for _, r := range readings {
		if !(r.Mean > 0) || math.IsInf(r.Mean.CFM(), 1) {
			return Fit{}, fmt.Errorf("mean flow of %g cfm for %s on %s cannot be", r.Mean.CFM(), r.Head, r.Bench)
		}
	}
	all := average(readings)
	linked, unlinked := component(all, shop)
	if len(linked) == 0 {
		return Fit{}, fmt.Errorf("no reading from the shop's bench %q", shop)
	}
	d := newDesign(linked, shop)
	fit := Fit{Shop: shop, Unlinked: unlinked, DOF: len(linked) - len(d.heads) - len(d.benches)}
	if err := d.solve(&fit, prior); err != nil {
		return Fit{}, err
	}
	return fit, nil
}

// average makes one reading of the repeats of a head on a bench, sorted by head
// and bench.
func average(readings []Reading) []Reading {
	sorted := slices.Clone(readings)
	slices.SortFunc(sorted, func(a, b Reading) int {
		return cmp.Or(cmp.Compare(a.Head, b.Head), cmp.Compare(a.Bench, b.Bench), cmp.Compare(a.Mean, b.Mean))
	})
	var out []Reading
	for i := 0; i < len(sorted); {
		r, sum, n := sorted[i], 0.0, 0
		for ; i < len(sorted) && sorted[i].Head == r.Head && sorted[i].Bench == r.Bench; i++ {
			sum += math.Log(sorted[i].Mean.CFM())
			n++
		}
		if n > 1 {
			r.Mean = quantity.CFM(math.Exp(sum / float64(n)))
		}
		out = append(out, r)
	}
	return out
}

// solve fills the fit from the reduced Laplacian.
func (d design) solve(fit *Fit, prior Prior) error {
	n := len(d.benches)
	var offsets mat.VecDense
	inverse := mat.NewSymDense(max(n, 1), nil)
	if n > 0 {
		var chol mat.Cholesky
		if !chol.Factorize(d.laplacian) {
			return fmt.Errorf("benches cannot be told apart")
		}
		if err := chol.SolveVecTo(&offsets, d.right); err != nil {
			return fmt.Errorf("comparing benches: %w", err)
		}
		if err := chol.InverseTo(inverse); err != nil {
			return fmt.Errorf("comparing benches: %w", err)
		}
	}
	rss := d.residuals(fit, offsets.AtVec)
	dof := float64(fit.DOF)
	pooled := (prior.Residuals*prior.Residual*prior.Residual + rss) / (prior.Residuals + dof)
	variance := math.Inf(1)
	if fit.DOF > 0 {
		variance = rss / dof
		fit.SD = math.Sqrt(variance)
	}
	for i, name := range d.benches {
		o := Offset{Bench: name, Log: offsets.AtVec(i), SE: math.Sqrt(variance * inverse.At(i, i)), Heads: d.links[name]}
		o.Shrunk, o.SD = shrink(o.Log, math.Sqrt(pooled*inverse.At(i, i)), prior.Benches)
		fit.Offsets = append(fit.Offsets, o)
		row := make([]float64, n)
		for j := range row {
			row[j] = variance * inverse.At(i, j)
		}
		fit.Cov = append(fit.Cov, row)
	}
	return nil
}

// shrink draws an offset toward zero by how much of its spread is its own error.
func shrink(log, se, spread float64) (shrunk, sd float64) {
	w := spread * spread / (spread*spread + se*se)
	return w * log, math.Sqrt(w) * se
}
