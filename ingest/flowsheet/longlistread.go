package flowsheet

import (
	"cmp"
	"fmt"
	"math"
	"strings"

	"flowshelf/analysis/head"
	"flowshelf/ingest/decode"
	"flowshelf/ingest/layout"
	"flowshelf/ingest/words"
)

// list turns the rows of a long list into tests, one for each set of keys.
func (r *reader) list(page *layout.Page, shape string, l readingList) head.Records {
	whole := l.table(page, l.rows)
	l.settlePorts(r, page)
	b := newBuilder(r, page, shape, []*table{whole})
	for _, group := range l.groups() {
		for _, flow := range l.flows {
			b.listFlow(l, flow, group, whole)
		}
	}
	for _, rule := range testRules() {
		rule(b)
	}
	b.claimList(l)
	b.claimAround([]*table{whole})
	return head.Records{Tests: b.tests, Problems: b.p.problems}
}

// listFlow reads one column of flows for one set of keys: one test, or one a
// run where a lift comes again.
func (b *builder) listFlow(l readingList, flow decode.Cell, group []listRow, whole *table) {
	runs := runsOf(group)
	for n, rows := range runs {
		t := l.table(b.page, rows)
		s := b.listSeries(l, t, flow, rows, whole)
		if len(runs) > 1 && len(s.facts.run) == 0 {
			s.facts.run.add(fmt.Sprint(n+1), b.r.trace(b.page, rows[0].cell))
		}
		b.tests = append(b.tests, b.test(t, s))
	}
	b.checkRepeats(group, runs)
}

// table wraps rows of a long list as the neutral table, so that lifts are
// decided as everywhere; the unit is decided on the whole list.
func (l *readingList) table(page *layout.Page, rows []listRow) *table {
	a := axis{plane: layout.Plane{Page: page}, col: l.lift.Col, label: l.lift, sure: certainly}
	for _, row := range rows {
		a.entries = append(a.entries, row.entry)
	}
	t := &table{axis: a, lead: a, left: a.col, top: l.row, bottom: l.last, corner: newFacts()}
	t.right = l.lift.Col
	for _, c := range page.Sheet.Row(l.row) {
		t.left = min(t.left, c.Col)
		t.right = max(t.right, c.Col)
	}
	return t
}

// groups parts the rows by what their key columns hold, in order of first
// appearance.
func (l *readingList) groups() [][]listRow {
	at := map[string]int{}
	var out [][]listRow
	for _, row := range l.rows {
		var id []string
		for _, k := range row.keys {
			id = append(id, strings.ToLower(strings.TrimSpace(cellText(k))))
		}
		key := strings.Join(id, "\x00")
		i, ok := at[key]
		if !ok {
			i = len(out)
			at[key] = i
			out = append(out, nil)
		}
		out[i] = append(out[i], row)
	}
	return out
}

// runsOf parts rows of one set of keys where a lift comes again.
func runsOf(rows []listRow) [][]listRow {
	count := map[float64]int{}
	var out [][]listRow
	for _, row := range rows {
		n := count[row.text.Value]
		count[row.text.Value]++
		if n == len(out) {
			out = append(out, nil)
		}
		out[n] = append(out[n], row)
	}
	return out
}

func (b *builder) listSeries(l readingList, t *table, flow decode.Cell, rows []listRow, whole *table) series {
	own := b.r.header(b.page, flow)
	for i, k := range l.keys {
		if c := rows[0].keys[i]; !c.Blank() {
			f := b.r.captionedCell(k.caption, c, b.page)
			if port, ok := l.ports[f.ambiguous]; ok && f.ambiguous != "" {
				f.port.add(port, b.r.trace(b.page, c))
				f.ambiguous = ""
			}
			own = own.within(f)
			own.ambiguous = cmp.Or(own.ambiguous, f.ambiguous)
		}
	}
	label := t.labelFacts(b.r.header(b.page, l.lift), l.lift)
	own.liftUnit = own.liftUnit.or(label.liftUnit)
	s := series{shape: b.shape, own: own, at: flow, headers: []decode.Cell{flow}}
	s.local, s.facts = b.scoped(whole, own)
	if !s.facts.namesHead() {
		s.mayBe = b.nameAround(whole, nil)
	}
	s.around = s.facts
	if !l.tp.Blank() {
		s.pressCap = b.r.header(b.page, l.tp)
	}
	all := b.lifts(whole, s.facts, nil)
	for i, row := range rows {
		s.liftCells = append(s.liftCells, row.cell)
		s.values = append(s.values, b.page.Sheet.At(row.row, flow.Col))
		s.hidden = append(s.hidden, b.page.Sheet.HiddenRows[row.row])
		for n, e := range whole.axis.entries {
			if e.row == rows[i].row {
				s.lifts = append(s.lifts, all[n])
			}
		}
		for _, n := range l.notes {
			if c := b.page.Sheet.At(row.row, n.Col); !c.Blank() {
				s.notes = append(s.notes, c)
			}
		}
	}
	b.listPressures(l, &s, rows)
	s.hiddenAll = b.page.Sheet.HiddenCols[flow.Col]
	if len(rows) > 0 {
		s.at = s.values[0]
	}
	return s
}

// listPressures takes the pressure column: one figure all the way is the
// test's pressure, several are each row's own.
func (b *builder) listPressures(l readingList, s *series, rows []listRow) {
	if l.tp.Blank() {
		return
	}
	same := true
	for _, row := range rows {
		c := b.page.Sheet.At(row.row, l.tp.Col)
		s.pressures = append(s.pressures, c)
		same = same && cellText(c) == cellText(s.pressures[0])
	}
	if !same {
		return
	}
	first := s.pressures[0]
	s.pressures = nil
	if first.Blank() {
		return
	}
	f := b.r.captionedCell(caption{words.TestPressure, l.tp.Text}, first, b.page)
	s.own.pressure, s.own.bare = f.pressure, f.bare
	s.facts.pressure, s.facts.bare = f.pressure, f.bare
	s.around.pressure = f.pressure
}

// settlePorts lets the words of a port column decide one another: I beside E.
func (l *readingList) settlePorts(r *reader, page *layout.Page) {
	said := map[string]bool{}
	for _, row := range l.rows {
		for i, k := range l.keys {
			if k.caption.role != words.Port && k.caption.role != words.Side {
				continue
			}
			f := r.captionedCell(k.caption, row.keys[i], page)
			if f.ambiguous != "" {
				said[f.ambiguous] = true
			}
			if p, ok := f.port.one(); ok {
				said[p.Value.String()] = true
			}
		}
	}
	l.ports = map[string]head.Port{}
	for word := range said {
		if port, ok := settled(word, said); ok {
			l.ports[word] = port
		}
	}
}

// checkRepeats asks about rows that nothing tells apart but that differ by
// more than the noise of a bench: they are repeats only if they agree.
func (b *builder) checkRepeats(group []listRow, runs [][]listRow) {
	if len(runs) < 2 {
		return
	}
	tests := b.tests[len(b.tests)-len(runs):]
	worst := 0.0
	for _, t := range tests[1:] {
		worst = max(worst, math.Abs(distance(t, tests)))
	}
	if worst <= 0.015 && !group[0].carried {
		return
	}
	alike := make([]*head.Test, len(tests))
	for i := range tests {
		alike[i] = &tests[i]
	}
	b.askRepeats(b.page.Ref(runs[1][0].cell), alike, fmt.Sprintf("the same head, port and date stand twice and differ by %.1f %%", 100*worst),
		"rows of one list", func(int) string { return "the same keys stand twice and the readings differ" })
}
