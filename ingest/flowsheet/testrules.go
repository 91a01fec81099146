package flowsheet

import (
	"math"
	"slices"

	"flowshelf/analysis/head"
	"flowshelf/analysis/source"
)

// testRule looks at the tests of one page together.
type testRule func(b *builder)

func testRules() []testRule {
	return []testRule{onePressure, sameAgain, runsApart, oneOfTwoShapes, sharedPressures}
}

// onePressure keeps, of one set-up read at two pressures, the test nearest to
// 28 inH2O; the other is a check, not a second test.
func onePressure(b *builder) {
	byKey := map[sameSetUp][]int{}
	var order []sameSetUp
	for i, t := range b.tests {
		if !t.Pressure.Known || t.Status != head.Used {
			continue
		}
		k := setUpOf(t)
		k.pressure = 0
		if k.class == head.Own {
			k.class = head.ClassUnknown // "measured" over one column, "calculated" over the other
		}
		if len(byKey[k]) == 0 {
			order = append(order, k)
		}
		byKey[k] = append(byKey[k], i)
	}
	for _, k := range order {
		best := byKey[k][0]
		for _, i := range byKey[k] {
			if off(b.tests[i]) < off(b.tests[best]) {
				best = i
			}
		}
		for _, i := range byKey[k] {
			if b.tests[i].Pressure.Value == b.tests[best].Pressure.Value {
				continue
			}
			b.setAsidePressure(&b.tests[i], &b.tests[best])
		}
	}
}

func off(t head.Test) float64 { return math.Abs(t.Pressure.Value.InH2O() - 28) }

func (b *builder) setAsidePressure(t, kept *head.Test) {
	t.Status, t.Why = head.SetAside, "the same set-up at another pressure; the test nearest to 28 inH2O is used"
	want := math.Sqrt(kept.Pressure.Value.InH2O() / t.Pressure.Value.InH2O())
	worst := 0.0
	for i := range t.Readings {
		for _, k := range kept.Readings {
			r := t.Readings[i]
			if r.Flow.Known && k.Flow.Known && r.Lift.Known && k.Lift.Known && r.Lift.Value == k.Lift.Value && r.Flow.Value > 0 {
				worst = max(worst, math.Abs(k.Flow.Value.CFM()/r.Flow.Value.CFM()/want-1))
			}
		}
	}
	if worst > 0.03 {
		b.askPressures(t, kept, worst)
		return
	}
	b.p.setAside(t.At, kindOtherPressure, t.Head, "", t.Why)
}

// sameAgain finds two columns that nothing tells apart. Equal ones are one
// test; different ones are asked, and neither is used.
func sameAgain(b *builder) {
	first := map[sameSetUp]int{}
	for i := range b.tests {
		t := &b.tests[i]
		if t.Status != head.Used {
			continue
		}
		j, seen := first[setUpOf(*t)]
		if !seen {
			first[setUpOf(*t)] = i
			continue
		}
		o := &b.tests[j]
		if sameReadings(*t, *o) {
			t.Status, t.Why = head.SetAside, "the same readings stand at "+o.At.String()
			b.p.setAside(t.At, kindRepeats, t.Head, "", t.Why)
			continue
		}
		pair := []*head.Test{o, t}
		b.askRepeats(t.At, pair, "two columns of readings for one head and port, and nothing tells them apart", "also at "+o.At.String(),
			func(i int) string { return "nothing tells this column from the one at " + pair[1-i].At.String() })
	}
}

func sameReadings(a, b head.Test) bool {
	if len(a.Readings) != len(b.Readings) {
		return false
	}
	for i := range a.Readings {
		x, y := a.Readings[i], b.Readings[i]
		if math.Abs((x.Flow.Value-y.Flow.Value).CFM()) > rounding || x.Lift.Value != y.Lift.Value {
			return false
		}
	}
	return true
}

// rounding is how far one flow written in two units may be apart, in cfm.
const rounding = 0.3

// runsApart asks about a run that lies more than 2 % from the mean of all
// runs over the whole curve. It is never dropped by itself.
func runsApart(b *builder) {
	groups := map[sameSetUp][]head.Test{}
	places := map[sameSetUp][]int{}
	var order []sameSetUp
	for i, t := range b.tests {
		if t.Run == "" || t.Status != head.Used {
			continue
		}
		k := setUpOf(t)
		k.run = ""
		if len(groups[k]) == 0 {
			order = append(order, k)
		}
		groups[k] = append(groups[k], t)
		places[k] = append(places[k], i)
	}
	for _, k := range order {
		runs := groups[k]
		for i, t := range runs {
			if gap := distance(t, runs); len(runs) > 1 && math.Abs(gap) > 0.02 {
				b.askRun(&b.tests[places[k][i]], gap)
			}
		}
	}
}

// distance is the mean relative gap of a run to the middle of all runs, lift by
// lift; of two runs, to the other one.
func distance(t head.Test, all []head.Test) float64 {
	sum, n := 0.0, 0
	for _, r := range t.Readings {
		var others []float64
		for _, o := range all {
			if len(all) == 2 && o.Run == t.Run {
				continue
			}
			for _, q := range o.Readings {
				if q.Lift.Known && r.Lift.Known && q.Lift.Value == r.Lift.Value && q.Flow.Known && q.Status == head.Used {
					others = append(others, q.Flow.Value.CFM())
				}
			}
		}
		if middle := median(others); middle > 0 && r.Flow.Known && r.Status == head.Used {
			sum += r.Flow.Value.CFM()/middle - 1
			n++
		}
	}
	if n == 0 {
		return 0
	}
	return sum / float64(n)
}

func median(values []float64) float64 {
	if len(values) == 0 {
		return 0
	}
	slices.Sort(values)
	n := len(values)
	return (values[(n-1)/2] + values[n/2]) / 2
}

// oneOfTwoShapes notes a head of which only the long or only the short port
// was flowed.
func oneOfTwoShapes(b *builder) {
	for _, t := range b.tests {
		want, ok := map[string]string{"long": "short", "short": "long", "left": "right", "right": "left"}[t.PortMark]
		if !ok {
			continue
		}
		found := false
		for _, o := range b.tests {
			found = found || o.Head == t.Head && o.Port == t.Port && o.PortMark == want
		}
		if !found {
			b.p.note(t.At, kindOnePortShape, t.Head, t.PortMark, "one of two port shapes tested")
		}
	}
}

// sharedPressures notes a column of pressures that serves more than one port.
func sharedPressures(b *builder) {
	served := map[source.Ref]int{}
	for _, t := range b.tests {
		for _, r := range t.Readings {
			if p := r.Pressure(); p.Known {
				served[p.Trace.At]++
				if served[p.Trace.At] == 2 {
					b.p.note(source.Ref{File: b.page.Path, Sheet: b.page.Sheet.Name}, kindPressureShared, t.Head, "", "one column of test pressures serves more than one port")
				}
				break
			}
		}
	}
}
