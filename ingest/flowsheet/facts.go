package flowsheet

import (
	"slices"
	"time"

	"flowshelf/analysis/head"
	"flowshelf/analysis/quantity"
	"flowshelf/ingest/parse"
	"flowshelf/ingest/words"
)

// facts is what one place of a sheet (a header cell, a title line, a tab, a
// cover) says about the flow test it stands over.
type facts struct {
	head     said[string] // our name where the shop knows it, else as written
	loose    said[string] // a shop's name that nearly matches: has to be asked
	unclear  said[string] // holds a head's name, it is not sure how much of it
	supplier said[string]
	bench    said[string]
	own      said[bool]   // true: the shop's own bench
	flownBy  said[string] // the supplier on whose bench the sheet says it was flowed
	port     said[head.Port]
	class    said[head.Class]
	state    said[string]
	serial   said[string]
	sample   said[string]
	mark     said[string] // which port: 1, A, long
	run      said[string]
	ports    said[int]
	date     said[time.Time]
	unsure   said[parse.Day] // a date that is not sure of its order or its year
	operator said[string]

	bore      said[quantity.Length]
	over      said[quantity.Length]   // .030 over
	engine    said[quantity.Length]   // the bore of the engine: that of the fixture where no other is stated
	pressure  said[quantity.Pressure] // with its unit
	corrected said[quantity.Pressure] // what the sheet has brought the flows to
	bare      said[float64]           // a pressure without a unit
	presUnit  said[parse.PressureUnit]
	leak      said[quantity.Flow]
	valve     said[quantity.Length] // of which port is not said
	valves    said[portValve]
	pipe      said[head.Pipe]
	entry     said[string]
	flowUnit  said[parse.FlowUnit]
	liftUnit  said[parse.LiftUnit]

	roles     map[words.Role]bool // what the words say of a column
	ambiguous string              // EV, E, IN
	footmark  string              // the mark of a footnote
	rest      []string            // words nobody understood
	above     []string            // the same, over the row that names the heads
}

// over fills what the inner facts leave open from the outer ones. Roles and
// left-over words stay the inner place's own.
func (f facts) within(outer facts) facts {
	out := f
	if len(f.unclear) == 0 { // the inner place names a head, it is not sure which
		out.head = f.head.or(outer.head)
	}
	if len(f.head) == 0 {
		out.loose = f.loose.or(outer.loose)
		out.unclear = f.unclear.or(outer.unclear)
	}
	out.supplier = f.supplier.or(outer.supplier)
	out.bench = f.bench.or(outer.bench)
	out.own = f.own.or(outer.own)
	out.flownBy = f.flownBy.or(outer.flownBy)
	if f.ambiguous == "" {
		out.port = f.port.or(outer.port)
	}
	out.class = f.class.or(outer.class)
	out.state = f.state.or(outer.state)
	if len(f.serial) == 0 && len(f.sample) == 0 {
		out.serial, out.sample = outer.serial, outer.sample
	}
	out.mark = f.mark.or(outer.mark)
	out.run = f.run.or(outer.run)
	out.ports = f.ports.or(outer.ports)
	if len(f.date) == 0 && len(f.unsure) == 0 {
		out.date, out.unsure = outer.date, outer.unsure
	}
	out.operator = f.operator.or(outer.operator)
	out.bore, out.over, out.engine = f.bore.or(outer.bore), f.over.or(outer.over), f.engine.or(outer.engine)
	if len(f.pressure) == 0 && len(f.bare) == 0 {
		out.pressure, out.bare, out.corrected = outer.pressure, outer.bare, outer.corrected
	}
	out.presUnit = f.presUnit.or(outer.presUnit)
	out.leak = f.leak.or(outer.leak)
	if len(f.valve) == 0 && len(f.valves) == 0 {
		out.valve, out.valves = outer.valve, outer.valves
	}
	out.pipe = f.pipe.or(outer.pipe)
	out.entry = f.entry.or(outer.entry)
	out.flowUnit = f.flowUnit.or(outer.flowUnit)
	out.liftUnit = f.liftUnit.or(outer.liftUnit)
	return out
}

// beside joins the facts of two places of equal rank, such as two title lines.
func (f facts) beside(g facts) facts {
	out := f
	out.head, out.loose, out.unclear = f.head.and(g.head), f.loose.and(g.loose), f.unclear.and(g.unclear)
	out.supplier, out.bench, out.own = f.supplier.and(g.supplier), f.bench.and(g.bench), f.own.and(g.own)
	out.flownBy = f.flownBy.and(g.flownBy)
	out.port, out.class, out.state = f.port.and(g.port), f.class.and(g.class), f.state.and(g.state)
	out.serial, out.sample = f.serial.and(g.serial), f.sample.and(g.sample)
	out.mark, out.run, out.ports = f.mark.and(g.mark), f.run.and(g.run), f.ports.and(g.ports)
	out.date, out.unsure, out.operator = f.date.and(g.date), f.unsure.and(g.unsure), f.operator.and(g.operator)
	out.bore, out.over, out.engine = f.bore.and(g.bore), f.over.and(g.over), f.engine.and(g.engine)
	out.pressure, out.bare = f.pressure.and(g.pressure), f.bare.and(g.bare)
	if out.corrected = f.corrected.and(g.corrected); len(out.corrected) > 0 {
		out.pressure, out.bare = out.corrected, nil
	}
	out.presUnit, out.leak = f.presUnit.and(g.presUnit), f.leak.and(g.leak)
	out.valve, out.valves = f.valve.and(g.valve), f.valves.and(g.valves)
	out.pipe, out.entry = f.pipe.and(g.pipe), f.entry.and(g.entry)
	out.flowUnit, out.liftUnit = f.flowUnit.and(g.flowUnit), f.liftUnit.and(g.liftUnit)
	out.roles = make(map[words.Role]bool, len(f.roles)+len(g.roles))
	for _, roles := range []map[words.Role]bool{f.roles, g.roles} {
		for role := range roles {
			out.roles[role] = true
		}
	}
	if out.ambiguous == "" {
		out.ambiguous = g.ambiguous
	}
	if out.footmark == "" {
		out.footmark = g.footmark
	}
	out.rest = append(append([]string(nil), f.rest...), g.rest...)
	return out
}

// is reports whether the words of the place carry the role.
func (f facts) is(role words.Role) bool { return f.roles[role] }

// says reports whether any of the roles is carried.
func (f facts) says(roles ...words.Role) bool {
	for _, r := range roles {
		if f.roles[r] {
			return true
		}
	}
	return false
}

// identity returns only who and what was tested; conditions returns the rest.
func (f facts) conditions() facts {
	g := f
	g.head, g.loose, g.port, g.state, g.mark, g.run, g.class, g.sample = nil, nil, nil, nil, nil, nil, nil, nil
	g.ambiguous = ""
	return g
}

// under puts a header below another one: what the lower says stands, the words
// of both count.
func (f facts) under(upper facts) facts {
	out := f.within(upper)
	out.roles = f.beside(upper).roles
	if len(out.port) == 0 && out.ambiguous == "" {
		out.ambiguous = upper.ambiguous
	}
	out.rest = append(slices.Clone(upper.rest), f.rest...)
	out.above = slices.Concat(upper.above, f.above)
	if len(f.head) > 0 && len(upper.head) == 0 {
		out.above, out.rest = slices.Concat(upper.above, upper.rest, f.above), f.rest
	}
	return out
}
