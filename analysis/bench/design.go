package bench

import (
	"math"
	"slices"

	"gonum.org/v1/gonum/mat"

	"flowshelf/analysis/quantity"
)

// component splits off the readings that a chain of heads and benches ties to
// the shop's bench, and names the benches left over.
func component(readings []Reading, shop string) (linked []Reading, unlinked []string) {
	heads, benches := map[string]bool{}, map[string]bool{shop: true}
	for grown := true; grown; {
		grown = false
		for _, r := range readings {
			if benches[r.Bench] != heads[r.Head] {
				benches[r.Bench], heads[r.Head] = true, true
				grown = true
			}
		}
	}
	for _, r := range readings {
		if benches[r.Bench] && heads[r.Head] {
			linked = append(linked, r)
		} else if !slices.Contains(unlinked, r.Bench) {
			unlinked = append(unlinked, r.Bench)
		}
	}
	if !slices.ContainsFunc(linked, func(r Reading) bool { return r.Bench == shop }) {
		return nil, unlinked
	}
	slices.Sort(unlinked)
	return linked, unlinked
}

// Linked reports whether a chain of heads ties a bench to the shop's.
func Linked(readings []Reading, shop, bench string) bool {
	linked, _ := component(readings, shop)
	return slices.ContainsFunc(linked, func(r Reading) bool { return r.Bench == bench })
}

// design is the least-squares problem of linked readings, sorted by head, with
// the heads eliminated.
type design struct {
	readings  []Reading
	heads     []string
	benches   []string // without the shop's
	links     map[string]int
	laplacian *mat.SymDense
	right     *mat.VecDense
}

func newDesign(linked []Reading, shop string) design {
	d := design{readings: linked, links: map[string]int{}}
	for _, r := range linked {
		if r.Bench != shop && !slices.Contains(d.benches, r.Bench) {
			d.benches = append(d.benches, r.Bench)
		}
	}
	slices.Sort(d.benches)
	n := len(d.benches)
	if n > 0 {
		d.laplacian = mat.NewSymDense(n, nil)
		d.right = mat.NewVecDense(n, nil)
	}
	for group := range d.byHead() {
		d.heads = append(d.heads, group[0].Head)
		d.eliminate(group)
	}
	return d
}

// byHead yields the readings of one head at a time.
func (d design) byHead() func(yield func([]Reading) bool) {
	return func(yield func([]Reading) bool) {
		for i := 0; i < len(d.readings); {
			j := i + 1
			for j < len(d.readings) && d.readings[j].Head == d.readings[i].Head {
				j++
			}
			if !yield(d.readings[i:j]) {
				return
			}
			i = j
		}
	}
}

// eliminate adds one head's share to the benches' equations.
func (d design) eliminate(group []Reading) {
	m := float64(len(group))
	mean := 0.0
	for _, r := range group {
		mean += math.Log(r.Mean.CFM()) / m
	}
	for _, r := range group {
		if len(group) > 1 {
			d.links[r.Bench]++
		}
		i := d.index(r.Bench)
		if i < 0 {
			continue
		}
		d.right.SetVec(i, d.right.AtVec(i)+math.Log(r.Mean.CFM())-mean)
		d.laplacian.SetSym(i, i, d.laplacian.At(i, i)+1)
		for _, s := range group {
			if j := d.index(s.Bench); j >= i {
				d.laplacian.SetSym(i, j, d.laplacian.At(i, j)-1/m)
			}
		}
	}
}

func (d design) index(bench string) int { return slices.Index(d.benches, bench) }

// residuals fills in the heads in shop terms and what is left of each reading,
// and returns the sum of squares.
func (d design) residuals(fit *Fit, offset func(i int) float64) (rss float64) {
	of := func(bench string) float64 {
		if i := d.index(bench); i >= 0 {
			return offset(i)
		}
		return 0
	}
	for group := range d.byHead() {
		head := 0.0
		for _, r := range group {
			head += (math.Log(r.Mean.CFM()) - of(r.Bench)) / float64(len(group))
		}
		fit.Heads = append(fit.Heads, Head{group[0].Head, quantity.CFM(math.Exp(head))})
		for _, r := range group {
			left := math.Log(r.Mean.CFM()) - of(r.Bench) - head
			rss += left * left
			fit.Residual = append(fit.Residual, Residual{Reading: r, Log: left})
		}
	}
	if fit.DOF > 0 {
		const doubtful = 2.5
		limit := doubtful * math.Sqrt(rss/float64(fit.DOF))
		for i := range fit.Residual {
			fit.Residual[i].Doubtful = math.Abs(fit.Residual[i].Log) > limit
		}
	}
	return rss
}
