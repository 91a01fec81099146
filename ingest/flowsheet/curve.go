package flowsheet

import (
	"cmp"
	"math"
	"slices"

	"flowshelf/ingest/parse"
)

// What the flow of a port looks like against its lift, whatever stands over it:
// it rises with the lift, and less and less so, since the curtain opens wider
// than the port (common practice, no source).
const (
	fewestPoints = 4
	stallShare   = 0.03 // how far a reading may fall behind the one before
	levelsOff    = 0.85 // flow per lift at the top against that at the foot
	levelsABit   = 0.97 // the same of a port that is flowed to a low lift only
)

// point is one reading of a column with its lift, as they stand.
type point struct{ lift, flow float64 }

// points returns the readings of a lane above zero lift, the lowest lift first.
func (t *table) points(ln *lane) []point {
	var out []point
	read := t.figures(ln)
	for _, e := range t.axis.entries {
		x, ok := read(t.plane().At(e.row, ln.col))
		if lift := e.text.Value; ok && lift > 0 && !e.text.Ditto {
			out = append(out, point{lift, x})
		}
	}
	slices.SortFunc(out, func(a, b point) int { return cmp.Compare(a.lift, b.lift) })
	return out
}

// curved reports whether the figures of a lane run as a flow does.
func (t *table) curved(ln *lane) bool { return t.bends(ln, levelsOff) }

// bends reports whether the figures of a lane rise, and less and less so: at the
// top a step of lift brings no more than a share of what it brings at the foot.
func (t *table) bends(ln *lane, share float64) bool {
	all := t.points(ln)
	if len(all) < fewestPoints {
		return false
	}
	for i, p := range all {
		if p.flow <= 0 {
			return false
		}
		if i == 0 {
			continue
		}
		was := all[i-1]
		if p.flow < (1-stallShare)*was.flow || p.flow/p.lift > (1+stallShare)*was.flow/was.lift {
			return false
		}
	}
	first, last := all[0], all[len(all)-1]
	return last.flow > 1.2*first.flow && last.flow/last.lift < share*first.flow/first.lift
}

// varied counts the lanes whose figures are not one figure all the way.
func (t *table) varied() int {
	n := 0
	for _, ln := range t.lanes {
		all := t.points(ln)
		if slices.ContainsFunc(all, func(p point) bool { return p.flow != all[0].flow }) {
			n++
		}
	}
	return n
}

// curves returns the lanes that run as a flow does.
func (t *table) curves() []*lane {
	var out []*lane
	for _, ln := range t.lanes {
		if t.curved(ln) {
			out = append(out, ln)
		}
	}
	return out
}

// What a port of one valve passes for each inch of lift near its seat, in cfm
// at 28 inH2O: 146 cfm for a square inch of curtain, valves of 0.8 to 2.4 in
// and discharge coefficients of 0.3 to 0.9 (common practice, no source).
const (
	leastPerInch = 146 * math.Pi * 0.8 * 0.3
	mostPerInch  = 146 * math.Pi * 2.4 * 0.9
	leastPeak    = 30
	mostPeak     = 600
)

// passable reports whether a lane holds what a port can pass, in some unit of
// flow and some unit of lift.
func (t *table) passable(ln *lane) bool {
	all := t.points(ln)
	values := make([]float64, 0, len(all))
	for _, p := range all {
		values = append(values, p.lift)
	}
	first, last := all[0], all[len(all)-1]
	for _, lift := range parse.GuessLiftUnit(values) {
		inches, _, ok := lift.Length(first.lift)
		for _, unit := range []parse.FlowUnit{parse.CFM, parse.LitresPerSecond, parse.CubicMetresPerHour, parse.CubicMetresPerMinute} {
			foot, _, _ := unit.Flow(first.flow)
			peak, _, _ := unit.Flow(last.flow)
			perInch := foot.CFM() / inches.In()
			if ok && perInch > leastPerInch && perInch < mostPerInch && peak.CFM() > leastPeak && peak.CFM() < mostPeak {
				return true
			}
		}
	}
	return false
}

// climbing reports whether every reading of every lane is above the one before.
func (t *table) climbing() bool {
	for _, ln := range t.lanes {
		all := t.points(ln)
		if len(all) < fewestPoints {
			return false
		}
		for i := 1; i < len(all); i++ {
			if all[i].flow <= all[i-1].flow {
				return false
			}
		}
	}
	return true
}
