package compare

import (
	"errors"
	"fmt"
	"math"
	"slices"

	"flowshelf/analysis/bore"
	"flowshelf/analysis/head"
	"flowshelf/analysis/quantity"
	"flowshelf/analysis/source"
)

// atReference is how near a fixture must be to the reference bore to be it.
const atReference quantity.Length = 0.005

// basis is a port's curve at the family's reference bore, or the nearest thing
// to it that can be had.
type basis struct {
	averaged
	bore source.Stated[quantity.Length]
	how  BoreHow
	note string
	u    float64 // relative standard uncertainty of having been brought over
	from []session
}

// atBore brings the sessions of one sample to the reference bore: tested at it,
// between the sample's own two bores, of the same class, estimated, or not
// brought over. No formula moves a flow without being named.
func (f *family) atBore(b *bundle, sessions []session, port head.Port) basis {
	all := make([]basis, len(sessions))
	for i, s := range sessions {
		all[i] = basis{averaged: f.average(b, s), bore: s.bore, from: []session{s}}
	}
	nearest := all[0]
	for _, x := range all[1:] {
		if f.offBore(x.bore) < f.offBore(nearest.bore) {
			nearest = x
		}
	}
	off := f.offBore(nearest.bore)
	switch {
	case f.ReferenceBore <= 0:
		nearest.how, nearest.u = BoreUnknown, bore.NotBroughtU
		nearest.note = "the setup states no reference bore"
	case !nearest.bore.Known:
		nearest.how, nearest.u = BoreUnknown, bore.NotBroughtU
	case off <= atReference:
		nearest.how = TestedAtReference
	default:
		return f.brought(b, all, nearest, port)
	}
	return nearest
}

// offBore is how far a bore is from the reference; an unknown one is farthest.
func (f *family) offBore(tested source.Stated[quantity.Length]) quantity.Length {
	if !tested.Known {
		return quantity.Length(math.Inf(1))
	}
	return max(tested.Value-f.ReferenceBore, f.ReferenceBore-tested.Value)
}

func (f *family) brought(b *bundle, all []basis, nearest basis, port head.Port) basis {
	if pair, ok := f.betweenPair(all); ok {
		return pair
	}
	class := f.rules.BoreClass
	if class > 0 && f.offBore(nearest.bore) <= class+1e-9 {
		nearest.how, nearest.u = SameClass, bore.ClassU
		nearest.note = fmt.Sprintf("tested on %s, within %s of %s: unchanged", f.size(nearest.bore.Value), inches(class), f.size(f.ReferenceBore))
		return nearest
	}
	estimated, err := f.estimate(b, nearest, port)
	if err == nil {
		return estimated
	}
	nearest.how, nearest.u = NotBroughtOver, bore.NotBroughtU
	nearest.note = fmt.Sprintf("tested on %s, reference %s: flow as tested (%v)", f.size(nearest.bore.Value), f.size(f.ReferenceBore), err)
	return nearest
}

// betweenPair reads between the two of a sample's own bores that bracket the
// reference most closely.
func (f *family) betweenPair(all []basis) (basis, bool) {
	var below, above *basis
	for i := range all {
		x := &all[i]
		switch {
		case !x.bore.Known:
		case x.bore.Value < f.ReferenceBore && (below == nil || x.bore.Value > below.bore.Value):
			below = x
		case x.bore.Value > f.ReferenceBore && (above == nil || x.bore.Value < above.bore.Value):
			above = x
		}
	}
	if below == nil || above == nil {
		return basis{}, false
	}
	between, err := bore.Between(bore.Tested{Bore: below.bore.Value, Points: plain(below.points)},
		bore.Tested{Bore: above.bore.Value, Points: plain(above.points)}, f.ReferenceBore)
	if err != nil {
		return basis{}, false
	}
	out := *below
	out.how, out.u = BetweenOwnPair, bore.ClassU
	out.note = fmt.Sprintf("between its own tests on %s and %s, ln q linear in the bore", f.size(below.bore.Value), f.size(above.bore.Value))
	out.from = append(slices.Clone(below.from), above.from...)
	out.ports = min(below.ports, above.ports)
	out.asked = append(slices.Clone(below.asked), above.asked...)
	step := fmt.Sprintf("%s and %s to %s, ln q linear in the bore", f.size(below.bore.Value), f.size(above.bore.Value), f.size(f.ReferenceBore))
	out.points = nil
	for _, q := range between {
		p := LiftPoint{Lift: q.Lift, Flow: q.Flow}
		for _, side := range [][]LiftPoint{below.points, above.points} {
			if i := pointAt(side, q.Lift); i >= 0 {
				p.From = append(p.From, withStep(side[i].From, step)...)
				p.Remark = joinRemarks(p.Remark, side[i].Remark)
			}
		}
		out.points = append(out.points, p)
	}
	return out, true
}

func pointAt(points []LiftPoint, lift quantity.Length) int {
	return slices.IndexFunc(points, func(p LiftPoint) bool { return p.Lift.Near(lift, sameLift) })
}

func withStep(from []Used, step string) []Used {
	out := slices.Clone(from)
	for i := range out {
		out[i].Steps = append(slices.Clone(out[i].Steps), step)
	}
	return out
}

var (
	errNotAllowed = errors.New("the setup allows no estimate")
	errNoWall     = errors.New("no wall clearance is known")
)

// estimate brings an intake curve over with the shrouding model, where the setup
// allows it and the valve's place in the bore is known.
func (f *family) estimate(b *bundle, x basis, port head.Port) (basis, error) {
	if f.rules.EstimateBore != head.MayEstimate || port != head.Intake {
		return basis{}, errNotAllowed
	}
	d := b.dimensions
	if d == nil || !d.WallClearance.Known || !d.WallBore.Known || !d.IntakeValve.Known {
		return basis{}, errNoWall
	}
	valve := bore.FromClearance(d.IntakeValve.Value, d.WallClearance.Value, d.WallBore.Value)
	est, err := bore.DefaultModel().EstimateIntake(plain(x.points), valve, x.bore.Value, f.ReferenceBore, f.RangeFrom, f.RangeTo)
	if err != nil {
		return basis{}, err
	}
	points := slices.Clone(x.points)
	for i, p := range est.Points {
		j := pointAt(points, p.Lift)
		if j < 0 {
			continue
		}
		points[j].Flow = p.Flow
		points[j].From = withStep(points[j].From, fmt.Sprintf("%s to %s, wall shrouding estimate: x %.4f",
			f.size(x.bore.Value), f.size(f.ReferenceBore), est.Factors[i]))
	}
	x.points = points
	x.how, x.u = Estimated, est.U
	x.note = fmt.Sprintf("estimated from %s by valve size and wall clearance: x %.4f in the mean, u %.1f %%", f.size(x.bore.Value), est.Mean, 100*est.U)
	return x, nil
}
