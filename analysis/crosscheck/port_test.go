package crosscheck_test

import (
	"math/rand/v2"
	"slices"

	"flowshelf/analysis/bore"
	"flowshelf/analysis/cam"
	"flowshelf/analysis/curve"
	"flowshelf/analysis/geometry"
	"flowshelf/analysis/quantity"
)

func portChecks() []check {
	const pchip = "scipy PchipInterpolator"
	return []check{
		{name: "curve", against: pchip + ", value and slope", tol: closedForm, floor: 1, draw: valueAndSlope},
		{name: "window mean", against: pchip + ".integrate", tol: closedForm, draw: windowMean},
		{name: "weights", against: pchip + ", numeric derivative", tol: iterated, floor: 1, draw: weights},
		{name: "cam mean", against: "scipy quad over " + pchip, tol: iterated, draw: camMean},
		{name: "open share", against: "scipy quad", tol: closedForm, draw: openShare},
		{name: "valve mass", against: "scipy quad", tol: iterated, draw: valveMass},
	}
}

// sheet draws readings that rise and fall as they like.
func sheet(r *rand.Rand) []curve.Point {
	points := make([]curve.Point, 2+r.IntN(12))
	lift := 0.0
	for i := range points {
		lift += between(r, 0.01, 0.12)
		points[i] = curve.Point{Lift: quantity.Inches(lift), Flow: quantity.CFM(between(r, 5, 400))}
	}
	return points
}

// flat lays a sheet out for the oracle: how many, the lifts, the flows.
func flat(points []curve.Point) []float64 {
	out := []float64{float64(len(points))}
	for _, p := range points {
		out = append(out, p.Lift.In())
	}
	for _, p := range points {
		out = append(out, p.Flow.CFM())
	}
	return out
}

func draw(points []curve.Point) curve.Curve {
	c, err := curve.New(points)
	if err != nil {
		panic(err) // the sheet is drawn usable
	}
	return c
}

func valueAndSlope(r *rand.Rand) (in, out []float64) {
	p := sheet(r)
	c := draw(p)
	at := quantity.Inches(between(r, 0, c.Last().Lift.In()))
	q, _ := c.At(at)
	slope, _ := c.Slope(at)
	return append(flat(p), at.In()), []float64{q.CFM(), slope}
}

func windowMean(r *rand.Rand) (in, out []float64) {
	p := sheet(r)
	c := draw(p)
	last := c.Last().Lift.In()
	from := between(r, 0, 0.9*last)
	to := from + between(r, 0.01, last)
	mean, coverage := c.Mean(quantity.Inches(from), quantity.Inches(to))
	return append(flat(p), from, to), []float64{mean.CFM(), coverage}
}

func weights(r *rand.Rand) (in, out []float64) {
	p := sheet(r)
	c := draw(p)
	last := c.Last().Lift.In()
	from := between(r, 0, 0.6*last)
	to := between(r, from+0.1*last, last)
	return append(flat(p), from, to), c.Weights(quantity.Inches(from), quantity.Inches(to))
}

func camMean(r *rand.Rand) (in, out []float64) {
	p := sheet(r)
	c := draw(p)
	rocker := between(r, 1.3, 1.8)
	peak := between(r, 0.12*rocker, 0.95) * c.Last().Lift.In()
	if peak < 0.1*rocker {
		peak = c.Last().Lift.In() // a short sheet: use all of it
	}
	shaft := cam.Cam{Lobe: quantity.Inches(peak / rocker), Rocker: rocker}
	between050, polynomial := 0.0, 0.0
	over := cam.SeatToSeat
	if r.IntN(2) == 1 && shaft.Lobe > 0.06 {
		over, between050 = cam.Between050, 1
	}
	if r.IntN(2) == 1 {
		shaft.Profile, polynomial = cam.Polynomial, 1
	}
	q, err := shaft.Mean(c, curve.Verdict{Status: curve.LevelsOff}, over)
	if err != nil {
		panic(err) // lobe and curve are drawn to fit
	}
	return append(flat(p), shaft.PeakLift().In(), shaft.Lobe.In(), polynomial, between050), []float64{q.CFM()}
}

func openShare(r *rand.Rand) (in, out []float64) {
	valve := between(r, 1.5, 2.3)
	bored := between(r, 1.8, 2.3) * valve
	gap := between(r, 0.005, 0.25)
	v := bore.FromClearance(quantity.Inches(valve), quantity.Inches(gap), quantity.Inches(bored))
	lift, chi := between(r, 0.05, 0.8), between(r, 1, 3)
	got := bore.Model{Chi: chi, Lambda: 0.5}.Open(v, quantity.Inches(lift), quantity.Inches(bored))
	return []float64{lift, valve, bored, v.Offset.In(), chi}, []float64{got}
}

func valveMass(r *rand.Rand) (in, out []float64) {
	in = []float64{
		between(r, 30, 60), between(r, 5, 10), between(r, 90, 140), between(r, 0.5, 2),
		between(r, 0.8, 2), between(r, 30, 50), between(r, 5, 25), between(r, 3, 9),
	}
	mm := quantity.Millimetres
	mass, err := geometry.Valve{
		Head: mm(in[0]), Stem: mm(in[1]), Length: mm(in[2]), Margin: mm(in[3]),
		SeatFace: mm(in[4]), SeatDegrees: in[5], BackDegrees: in[6], Fillet: mm(in[7]),
	}.Mass()
	if err != nil {
		panic(err) // the sizes are drawn to fit
	}
	return slices.Clone(in), []float64{mass.G()}
}
