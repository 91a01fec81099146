package flowsheet

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"flowshelf/analysis/airflow"
	"flowshelf/analysis/head"
	"flowshelf/analysis/quantity"
	"flowshelf/analysis/shop"
	"flowshelf/analysis/source"
	"flowshelf/ingest/decode"
	"flowshelf/ingest/parse"
	"flowshelf/ingest/words"
)

// manometers takes the differential across an orifice for the readings where the
// shop has registered orifices and no flow stands beside it. A column that names
// the orifice is to it what a range is to a percentage.
func manometers(b *builder, t *table) {
	if len(b.r.about.Shop.Orifices) == 0 {
		return
	}
	var drops, names []*lane
	for _, ln := range t.lanes {
		switch {
		case ln.role == laneFlow || ln.role == lanePercent || ln.role == laneAverage || ln.role == laneObserved:
			return // what was worked out from them stands beside them
		case ln.role == laneRaw && ln.facts.is(words.Orifice) && len(ln.facts.presUnit) == 0:
			names = append(names, ln)
		case ln.role == laneRaw:
			drops = append(drops, ln)
		}
	}
	for i, ln := range drops {
		if slices.ContainsFunc(drops[:i], ln.sameTest) {
			at := drops[0].headers[len(drops[0].headers)-1]
			b.p.refuse(b.page.Ref(at), kindRawManometer, "", cellText(at), "two manometers, and nothing says which one is the orifice's",
				"head its column as the orifice's differential and the other one as the test pressure")
			return
		}
	}
	for _, ln := range drops {
		ln.role, ln.why = laneDrop, ""
	}
	for _, ln := range names {
		if len(drops) > 0 {
			ln.role, ln.why = laneRange, "through which orifice"
		}
	}
}

// sameTest reports whether nothing in the headers of two columns tells that they
// are of two tests.
func (ln *lane) sameTest(o *lane) bool {
	of := func(ln *lane) [4]string {
		f := ln.facts.within(ln.section)
		port, _ := f.port.one()
		named, _ := f.head.one()
		mark, _ := f.mark.one()
		run, _ := f.run.one()
		return [4]string{port.Value.String(), named.Value, mark.Value, run.Value}
	}
	return of(ln) == of(o)
}

// ofDrop parts the unit of a differential from what its header says: it tells
// nothing of the test pressure.
func (f facts) ofDrop() (facts, said[parse.PressureUnit]) {
	unit := f.presUnit
	f.presUnit = nil
	f.rest = slices.DeleteFunc(slices.Clone(f.rest), func(word string) bool {
		_, ok := parse.FindPressureUnit(word)
		return ok
	})
	return f, unit
}

// throughOrifices turns differentials into flows at the test pressure of their
// row, by the calibration that the shop has registered of each orifice.
func (b *builder) throughOrifices(s *series, col *column, out *head.Test, flows []source.Stated[quantity.Flow]) {
	s.through = map[source.Ref]head.Orifice{}
	mine := b.registered(s, out)
	if mine == nil {
		for i := range col.set {
			demote(&col.set[i], head.Refused, "no registered orifice of a bench that is named")
		}
		return
	}
	for i, c := range s.values {
		if !col.cells[i].Known || !(col.cells[i].Value > 0) {
			continue
		}
		unit, ok := b.dropUnit(s, c, &col.set[i])
		if !ok {
			demote(&col.set[i], head.Asked, "the unit of its differential is not sure")
			continue
		}
		o, why := b.orificeOf(s, i, mine, out)
		if why != "" {
			demote(&col.set[i], head.Refused, why)
			continue
		}
		flows[i] = b.throughOrifice(c, unit, unit.Of(col.cells[i].Value), o, out)
		s.through[b.page.Ref(c)] = o
	}
	b.rangeJumps(s, out, flows)
}

// throughOrifice is one differential as a flow.
func (b *builder) throughOrifice(c decode.Cell, unit parse.PressureUnit, drop quantity.Pressure, o head.Orifice, out *head.Test) source.Stated[quantity.Flow] {
	trace := b.r.trace(b.page, c)
	trace.Unit = unit.String()
	if step := pressureSteps(unit); step != nil {
		trace = trace.Then(step[0])
	}
	q, err := airflow.CalibratedOrifice{Flow: o.Flow.Value, Drop: o.Drop.Value, Test: o.Test.Value}.Read(drop)
	if err != nil {
		return source.Stated[quantity.Flow]{Trace: trace}
	}
	switch share := float64(q / o.Flow.Value); {
	case share < 0.2:
		b.p.note(b.page.Ref(c), kindRangePoor, out.Head, cellText(c), "the differential is so small that the manometer reads poorly")
	case share > 1.02:
		b.p.note(b.page.Ref(c), kindRangePoor, out.Head, cellText(c), "the differential is above the one its orifice was calibrated at")
	}
	return source.Say(q, trace.Then(fmt.Sprintf("orifice %s of %s: %s cfm x sqrt(%.4g/%.4g inH2O), calibrated at %.4g inH2O (%s)", o.Name, o.Bench,
		parse.Digits(o.Flow.Value.CFM()), drop.InH2O(), o.Drop.Value.InH2O(), o.Test.Value.InH2O(), o.At)))
}

// registerIt is what a shop can do about an orifice that is not known.
const registerIt = "register it on the sheet Orifices of " + shop.FileName + ", or send the flows worked out"

// registered returns the orifices of the bench that a test was run on, for its
// port; nil where the bench is not known or has none.
func (b *builder) registered(s *series, out *head.Test) []head.Orifice {
	bench := b.benchOf(out)
	if bench == "" {
		b.p.refuse(b.page.Ref(s.at), kindManometerBench, out.Head, cellText(s.at), "manometer readings, and it is not said on which bench they were read", "name the bench on the sheet")
		return nil
	}
	var found []head.Orifice
	for _, o := range b.r.about.Shop.Orifices {
		if shop.Normal(o.Bench) == shop.Normal(bench) && (o.Port == 0 || o.Port == out.Port) {
			found = append(found, o)
		}
	}
	if found == nil {
		b.p.refuse(b.page.Ref(s.at), kindOrifice, out.Head, cellText(s.at), "manometer readings of "+bench+", of which no orifice is registered for this port", registerIt)
	}
	return found
}

// benchOf is the bench that manometers were read on: the one the test names, or
// the shop's own where it has only one.
func (b *builder) benchOf(out *head.Test) string {
	own := slices.DeleteFunc(slices.Clone(b.r.about.Shop.Benches), func(bench head.Bench) bool { return !b.r.names.own[bench.Name] })
	if out.By == "" && out.Class == head.Own && len(own) == 1 {
		return own[0].Name
	}
	return out.By
}

// dropUnit is the unit of a differential: what its header says, what stands behind
// the figure, else as answered.
func (b *builder) dropUnit(s *series, c decode.Cell, r *head.Reading) (parse.PressureUnit, bool) {
	unit, ok := s.dropUnit.one()
	if here, typed := parse.FindPressureUnit(r.Remark); typed {
		if ok && here != unit.Value {
			b.p.refuse(b.page.Ref(c), kindPressureUnit, "", cellText(c), "this cell names another unit than its column", "write it in the column's unit")
			return here, false
		}
		r.Remark = ""
		return here, true
	}
	if ok {
		return unit.Value, true
	}
	answer, ok := b.p.ask(b.page.Ref(s.at), kindPressureUnit, "", cellText(s.at), "the orifice differential has no unit", source.Question{
		Key: key("differential unit", b.sender, b.form), Text: "In which unit is the orifice differential of this column?",
		Choices: pressureUnits(), Changes: "every reading of the sheet waits for it"})
	if !ok {
		return parse.PressureNotStated, false
	}
	s.answeredBy(answer.Trace(""))
	return parse.FindPressureUnit(answer.Choice)
}

// orificeOf is the orifice of a reading, or why it has none.
func (b *builder) orificeOf(s *series, i int, mine []head.Orifice, out *head.Test) (o head.Orifice, why string) {
	at, name := s.at, ""
	switch {
	case s.ranges != nil:
		at, name = s.ranges[i], strings.TrimSpace(cellText(s.ranges[i]))
	case !slices.ContainsFunc(mine, func(o head.Orifice) bool { return shop.OrificeKey(o.Name) != shop.OrificeKey(mine[0].Name) }):
		name = mine[0].Name // the bench has no other
	}
	o, ok := orificeCalled(mine, name)
	hint := registerIt
	switch {
	case name == "":
		why, hint = "it is not said through which orifice this was read", "write the orifice beside each reading"
	case !ok:
		why = fmt.Sprintf("the orifice %q of %s is not registered", name, mine[0].Bench)
	case !o.Whole():
		why, hint = fmt.Sprintf("the calibration of orifice %s is not whole (%s)", o.Name, o.At), "type its flow, its differential and its test pressure"
	default:
		return o, ""
	}
	b.p.refuse(b.page.Ref(at), kindOrifice, out.Head, name, why, hint)
	return o, why
}

// orificeCalled finds an orifice by its name, the one for a single port first.
func orificeCalled(mine []head.Orifice, name string) (found head.Orifice, ok bool) {
	for _, o := range mine {
		if shop.OrificeKey(o.Name) == shop.OrificeKey(name) && (!ok || found.Port == 0 && o.Port != 0) {
			found, ok = o, true
		}
	}
	return found, ok
}

// farFromCalibration is by how much the air behind a port may put a flow off
// before somebody is asked: what a good bench repeats to (common practice, no
// source).
const farFromCalibration = 0.01

// heldElsewhere looks at readings through an orifice that was calibrated at
// another test pressure than theirs. What that can be worth is said with each;
// beyond what a bench repeats to it is asked.
func (b *builder) heldElsewhere(s *series, out *head.Test) {
	for i := range out.Readings {
		r := &out.Readings[i]
		o, ok := s.through[r.Flow.Trace.At]
		p := out.Pressure
		if own := r.Pressure(); own.Known {
			p = own
		}
		if !ok || !p.Known || math.Abs(p.Value.InH2O()-o.Test.Value.InH2O()) < 0.2 {
			continue
		}
		off := airflow.CalibratedOrifice{Test: o.Test.Value}.OffAt(p.Value)
		r.Flow.Trace = r.Flow.Trace.Then(fmt.Sprintf("read at %s, which may put it off by up to %.1f %%", pressureOf(p), 100*off))
		if off < farFromCalibration {
			continue
		}
		answer, answered := b.p.ask(r.Flow.Trace.At, kindOrificeHeld, out.Head, "", fmt.Sprintf("read at %s through an orifice that was calibrated at %s", pressureOf(p), pressureOf(o.Test)), source.Question{
			Key: key("orifice held", o.Bench, o.Name, pressureOf(p)), Text: fmt.Sprintf("Does the calibration of orifice %s at %s hold for readings at %s?", o.Name, pressureOf(o.Test), pressureOf(p)),
			Choices: []string{"yes", "no"}, Evidence: fmt.Sprintf("the air behind the port may be worth %.1f %%", 100*off), Changes: "whether these readings are used"})
		decide(r, answer, answered, "yes", "its orifice was calibrated at another test pressure")
	}
}
