// Package flowsheet reads flow sheets: every shape a shop, a supplier or a
// bench lays them out in, brought to one neutral form and from there to tests.
package flowsheet

import (
	"slices"

	"flowshelf/analysis/head"
	"flowshelf/analysis/source"
	"flowshelf/ingest/decode"
	"flowshelf/ingest/layout"
	"flowshelf/ingest/parse"
	"flowshelf/ingest/words"
)

// Recognisers returns the recognisers of flow sheets in the order in which
// they are tried.
func Recognisers() []layout.Recogniser {
	return []layout.Recogniser{
		forms{}, longList{}, liftTable{swapped: false}, liftTable{swapped: true}, sideTabs{}, adverts{}, suspects{},
	}
}

// liftTable recognises tables with a list of lifts down one column, or, on the
// swapped plane, across one row.
type liftTable struct{ swapped bool }

// Name returns the stable name of the shape.
func (lt liftTable) Name() string {
	if lt.swapped {
		return "lift across"
	}
	return "lift down"
}

// Recognise reads every table of the shape.
func (lt liftTable) Recognise(page *layout.Page, about layout.Context) head.Records {
	if !mentionsFlow(page) {
		return head.Records{}
	}
	r := &reader{names: namesOf(about), about: about}
	unclear := r.bothWays(page)
	asked := unclear.Worst() >= source.Asked
	var out head.Records
	if lt.swapped {
		out.Problems = unclear
	}
	var mine []*table
	for _, t := range r.tables(page) {
		if t.plane().Swapped == lt.swapped {
			mine = append(mine, t)
		}
	}
	if len(mine) == 0 || asked {
		return out
	}
	out.Append(r.readTables(page, lt.Name(), mine))
	return out
}

// readTables reads the tables of a page that are of one shape.
func (r *reader) readTables(page *layout.Page, shape string, tables []*table) head.Records {
	b := newBuilder(r, page, shape, tables)
	settleAcross(tables)
	for _, t := range tables {
		b.read(t)
	}
	if len(b.tests) == 0 && len(b.p.problems) == 0 {
		return head.Records{}
	}
	for _, rule := range testRules() {
		rule(b)
	}
	b.claimAround(tables)
	b.quoteUnread(tables)
	return head.Records{Tests: b.tests, Problems: b.p.problems}
}

// mentionsFlow is a cheap look whether a page can hold a flow sheet at all.
func mentionsFlow(page *layout.Page) bool {
	if speaksOfFlow(page.Sheet.Name) {
		return true
	}
	for _, c := range page.Sheet.Cells {
		if c.Kind == decode.Text && len(c.Text) < 400 && speaksOfFlow(c.Text) {
			return true
		}
	}
	return false
}

func speaksOfFlow(text string) bool {
	if isCode(text) {
		return false
	}
	if _, ok := parse.FindFlowUnit(text); ok {
		return true
	}
	for _, hit := range words.FlowSheet().Find(words.Tokens(text)) {
		switch hit.Role {
		case words.Lift, words.LiftOverDiameter, words.Intake, words.Exhaust:
			return true
		default:
		}
	}
	return false
}

// read turns one table into tests and accounts for every cell of it.
func (b *builder) read(t *table) {
	t.assignRoles(len(b.cal) > 0)
	b.answeredRows(t)
	t.settlePorts()
	if !t.hasCurve() && !t.told && !b.r.orientationTold(b.page) {
		return // a table that speaks of lifts and holds no flow is not a flow sheet
	}
	for _, rule := range tableRules() {
		rule(b, t)
	}
	for _, ln := range t.lanes {
		if ln.role != laneFlow && ln.role != lanePercent && ln.role != laneDrop {
			continue
		}
		b.tests = append(b.tests, b.test(t, b.series(t, ln)))
	}
	b.rawLanes(t)
	b.claim(t)
}

// hasCurve reports whether any lane holds flows, or what flows are made from.
func (t *table) hasCurve() bool {
	return slices.ContainsFunc(t.lanes, func(ln *lane) bool {
		switch ln.role {
		case laneFlow, lanePercent, laneAverage, laneObserved, laneRaw:
			return true
		case laneUnknown:
			return len(ln.headers) == 0 || t.curved(ln)
		case laneFact:
			return t.curved(ln) // "Serial A" over figures that run as flows do
		default:
			return false
		}
	})
}

// rawLanes refuses manometer readings: without the bench's constants nothing
// can be made of them. Beside flows worked out from them they are set aside.
func (b *builder) rawLanes(t *table) {
	for _, ln := range t.lanes {
		if ln.role == laneRaw {
			at := ln.headers[len(ln.headers)-1]
			if slices.ContainsFunc(t.lanes, func(o *lane) bool { return o.role == laneFlow }) {
				b.p.setAside(b.page.Ref(at), kindRawManometer, "", cellText(at), "the manometer readings that the flows beside them were worked out from")
				return
			}
			b.p.refuse(b.page.Ref(at), kindRawManometer, "", cellText(at), "raw manometer readings need the constants of the bench",
				registerIt)
			return
		}
	}
}
