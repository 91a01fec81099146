package compare

import (
	"cmp"
	"fmt"
	"math"
	"slices"

	"flowshelf/analysis/airflow"
	"flowshelf/analysis/head"
	"flowshelf/analysis/quantity"
	"flowshelf/analysis/source"
)

// Pressures, in inches of water. Common practice, no source.
const (
	// comparableStall is the test pressure below which a curve keeps its level
	// when converted but not its stall: the air is too slow to let go of the
	// short side as it would at 28.
	comparableStall quantity.Pressure = 20
	// outOfAirRatio is how far the pressure of a row may fall below the column's
	// highest before the bench has run out of air.
	outOfAirRatio = 1.10
	// samePressure is the relative difference that is no conversion worth a flag.
	samePressure = 0.01
)

// sameLift is the difference below which two lifts are one. A lift of 2.5 mm is
// .098 in, not .100: it is interpolated, never moved.
const sameLift quantity.Length = 0.001

// column is one test brought to the reference pressure.
type column struct {
	test       *head.Test
	points     []LiftPoint // by lift, one reading each
	aside      []Used      // readings that are not in the curve; the last step says why
	impossible []impossible
	doubted    []quantity.Length
	lowest     quantity.Pressure // the lowest pressure a used row was taken at
	highest    quantity.Pressure
	outOfAir   []quantity.Length
	conversion float64         // the largest relative standard uncertainty of a conversion
	confirmed  int             // how many other books hold the same numbers
	answered   source.Problems // what people have said about its readings
	why        string          // why nothing can be drawn through it, "" when something can
	waits      bool            // for an answer, which is why
}

// impossible is a reading above what the valve can pass.
type impossible struct {
	used    Used
	valve   quantity.Length
	ceiling quantity.Flow // at the reference pressure
	factor  float64       // from the sheet's flow to that at the reference pressure
}

// converter brings flows to the reference pressure and remembers the words for
// each pressure it met.
type converter struct {
	rules head.Rules
	seen  map[conversionKey]conversion
}

type conversionKey struct {
	from quantity.Pressure
	port head.Port
}

type conversion struct {
	factor airflow.Factor
	steps  []string
	err    error
}

func newConverter(rules head.Rules) *converter {
	return &converter{rules: rules, seen: make(map[conversionKey]conversion)}
}

func (c *converter) from(p quantity.Pressure, port head.Port) conversion {
	key := conversionKey{p, port}
	if known, ok := c.seen[key]; ok {
		return known
	}
	change := airflow.Change{From: p, To: c.rules.Reference, Ambient: airflow.StandardAtmosphere()}
	if port == head.Exhaust {
		change.Draught = airflow.Blow
	} else if c.rules.PressureLaw == head.Isentropic {
		change.Law = airflow.Isentropic
	}
	var result conversion
	result.factor, result.err = change.Factor()
	if result.err == nil && math.Abs(result.factor.By-1) > 1e-9 {
		result.steps = []string{fmt.Sprintf("%s to %s inH2O, %s: x %.6f", number(p.InH2O()), number(c.rules.Reference.InH2O()), change.Law, result.factor.By)}
	}
	c.seen[key] = result
	return result
}

// column brings one test to the reference pressure, row by row, and takes out
// readings that cannot be. valves is how many valves of that diameter the port
// feeds at once.
func (f *family) column(t *head.Test, valve source.Stated[quantity.Length], valves int) *column {
	c := &column{test: t}
	for i := range t.Readings {
		f.addReading(c, &t.Readings[i], valve, valves)
	}
	slices.SortStableFunc(c.points, func(a, b LiftPoint) int { return cmp.Compare(a.Lift, b.Lift) })
	c.points = sameLiftOnce(c.points)
	for _, p := range c.points {
		if row := p.From[0].Reading.Pressure(); row.Known && float64(c.highest) > outOfAirRatio*float64(row.Value) {
			c.outOfAir = append(c.outOfAir, p.Lift)
		}
	}
	if len(c.points) == 0 && c.why == "" {
		c.why = "no usable reading"
		if why := waitsFor(t); why != "" {
			c.why, c.waits = "its readings wait for an answer in Questions.xlsx: "+why, true
		}
	}
	return c
}

// waitsFor says what the first reading of a test that waits for an answer waits
// for, "" where none does.
func waitsFor(t *head.Test) string {
	for i := range t.Readings {
		if r := &t.Readings[i]; r.Status == head.Asked && !r.Summary {
			return r.Why
		}
	}
	return ""
}

func (f *family) addReading(c *column, r *head.Reading, valve source.Stated[quantity.Length], valves int) {
	used := Used{Test: c.test, Reading: r}
	switch {
	case r.Summary || !r.Lift.Known || !positive(r.Lift.Value.In()):
		return // the sheet's own summary, or the leak: not readings of the port
	case r.Status != head.Used:
		c.leaveOut(used, r.Why)
		return
	case !r.Flow.Known || !positive(r.Flow.Value.CFM()):
		c.leaveOut(used, "no reading")
		return
	case r.AtLeast:
		c.leaveOut(used, "off the scale: at least this much")
		return
	}
	pressure := c.test.Pressure
	if own := r.Pressure(); own.Known {
		pressure = own
	}
	if !pressure.Known {
		c.why = "test pressure not stated"
		c.leaveOut(used, c.why)
		return
	}
	by := f.convert.from(pressure.Value, c.test.Port)
	if by.err != nil {
		c.why = by.err.Error()
		c.leaveOut(used, c.why)
		return
	}
	used.Flow = r.Flow.Value * quantity.Flow(by.factor.By)
	used.Steps = by.steps
	if ceiling, over := f.overCeiling(c.test, used.Flow, r.Lift.Value, valve, valves); over {
		c.impossible = append(c.impossible, impossible{used, valve.Value, ceiling, by.factor.By})
		c.leaveOut(used, fmt.Sprintf("refused: more than the valve can pass (%.0f cfm)", ceiling.CFM()))
		return
	}
	c.note(r, pressure.Value, by.factor.U)
	c.points = append(c.points, LiftPoint{Lift: r.Lift.Value, Flow: used.Flow, From: []Used{used}, Remark: r.Remark})
}

// positive reports whether x is a number above nothing.
func positive(x float64) bool { return x > 0 && !math.IsInf(x, 1) }

func (c *column) leaveOut(used Used, why string) {
	used.Steps = append(slices.Clone(used.Steps), why)
	c.aside = append(c.aside, used)
}

func (c *column) note(r *head.Reading, p quantity.Pressure, u float64) {
	if c.lowest == 0 || p < c.lowest {
		c.lowest = p
	}
	c.highest = max(c.highest, p)
	c.conversion = max(c.conversion, u)
	if r.Doubted {
		c.doubted = append(c.doubted, r.Lift.Value)
	}
}

// overCeiling reports whether a flow is above what the valve can pass at that
// lift, with the shop's allowance: air at the test pressure has a highest speed,
// and the hole is the smaller of curtain and valve head.
func (f *family) overCeiling(t *head.Test, q quantity.Flow, lift quantity.Length, valve source.Stated[quantity.Length], valves int) (quantity.Flow, bool) {
	ceiling, known := airflow.CeilingOf(valve.Value, lift, f.rules.Reference)
	if !valve.Known || !known {
		return 0, false
	}
	ceiling.Flow *= quantity.Flow(max(valves, 1))
	allowance := f.rules.ImpossibleCurt
	if t.Port == head.Exhaust && t.Pipe != head.WithoutPipe {
		allowance = f.rules.ImpossiblePipe
	}
	return ceiling.Flow, allowance > 0 && float64(q) > allowance*float64(ceiling.Flow)
}

// sameLiftOnce averages readings of one column at one lift: a lift repeated at
// the end of the pull.
func sameLiftOnce(points []LiftPoint) []LiftPoint {
	out := points[:0]
	for _, p := range points {
		last := len(out) - 1
		if last < 0 || !p.Lift.Near(out[last].Lift, sameLift) {
			out = append(out, p)
			continue
		}
		merged := &out[last]
		n := quantity.Flow(len(merged.From))
		merged.Flow = (merged.Flow*n + p.Flow) / (n + 1)
		merged.From = append(merged.From, p.From...)
		merged.Remark = joinRemarks(merged.Remark, p.Remark)
	}
	return out
}

func joinRemarks(a, b string) string {
	switch {
	case a == "" || a == b:
		return b
	case b == "":
		return a
	}
	return a + "; " + b
}

// sameNumbers reports whether two columns hold the same flows at every lift they
// share, and share at least as many as the shorter one has less one.
func (c *column) sameNumbers(o *column) bool {
	return c.agrees(o, func(a, b quantity.Flow) bool { return math.Abs(float64(a-b)) < 1e-6 })
}

// withinNoise is sameNumbers with the repeatability of the bench allowed for.
func (c *column) withinNoise(o *column, r float64) bool {
	return c.agrees(o, func(a, b quantity.Flow) bool { return math.Abs(float64(a-b)) <= r*float64(max(a, b))+1e-6 })
}

func (c *column) agrees(o *column, same func(a, b quantity.Flow) bool) bool {
	shared, j := 0, 0
	for _, p := range c.points {
		for j < len(o.points) && o.points[j].Lift < p.Lift-sameLift {
			j++
		}
		if j < len(o.points) && o.points[j].Lift.Near(p.Lift, sameLift) {
			if !same(p.Flow, o.points[j].Flow) {
				return false
			}
			shared++
		}
	}
	return shared > 0 && shared >= min(len(c.points), len(o.points))-1
}
