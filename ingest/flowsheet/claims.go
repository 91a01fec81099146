package flowsheet

import (
	"fmt"
	"math"
	"slices"

	"flowshelf/analysis/head"
	"flowshelf/ingest/decode"
	"flowshelf/ingest/layout"
	"flowshelf/ingest/parse"
	"flowshelf/ingest/words"
)

// claim accounts for every cell of a table.
func (b *builder) claim(t *table) {
	plane := t.plane()
	use := func(row, col int, why string) { plane.Claim(row, col, layout.Claim{By: b.shape, Used: true, Why: why}) }
	leave := func(row, col int, why string) { plane.Claim(row, col, layout.Claim{By: b.shape, Why: why}) }
	for _, e := range t.axis.entries {
		use(e.row, t.axis.col, "lift")
	}
	for _, ln := range t.lanes {
		for _, c := range ln.headers {
			b.page.Claim(c.Row, c.Col, layout.Claim{By: b.shape, Used: true, Why: "header"})
		}
		for _, e := range t.axis.entries {
			switch ln.role {
			case laneFlow, lanePercent, laneDrop:
				use(e.row, ln.col, "reading")
			case lanePressure, laneRange, laneNote:
				use(e.row, ln.col, ln.why)
			default:
				leave(e.row, ln.col, ln.why)
			}
		}
	}
	for _, c := range slices.Concat([]decode.Cell{t.axis.label, t.lead.label, t.banner, t.cornerCell()}, t.margin, b.farNotes(t)) {
		if !c.Blank() {
			b.page.Claim(c.Row, c.Col, layout.Claim{By: b.shape, Used: true, Why: "header or note"})
		}
	}
	b.claimExtras(t, use, leave)
	b.claimRest(t, leave)
}

// claimExtras sets the sheet's own summary aside; a row without a label that
// is the sum or the mean of what stands above it is one as well.
func (b *builder) claimExtras(t *table, use, leave func(row, col int, why string)) {
	for _, x := range t.extras {
		why := "the sheet's own summary"
		switch {
		case x.caption.role != words.None:
			use(x.row, t.axis.col, "caption")
			for _, ln := range t.lanes {
				use(x.row, ln.col, "stated for the column: "+cellText(x.label))
			}
			continue
		case !x.summary && t.sumsUp(x.row):
			b.p.setAside(b.page.Ref(t.plane().At(x.row, t.lanes[0].col)), kindSummary, "", "", "a row without a label is the sum or the mean of the readings above it; it is set aside")
		case !x.summary:
			why = "a row without a lift"
			if _, answered := b.askRow(t, x); !answered && !x.label.Blank() {
				b.holdTable(t, "a row of the table has no lift that can be read")
			}
		}
		leave(x.row, t.axis.col, why)
		for _, ln := range t.lanes {
			leave(x.row, ln.col, why)
		}
	}
}

// holdTable makes every test of a table wait: a curve that lacks rows looks like
// a lower peak.
func (b *builder) holdTable(t *table, why string) {
	area := t.area()
	for i := range b.tests {
		test := &b.tests[i]
		if test.Status != head.Used || len(test.Readings) == 0 {
			continue
		}
		for _, ln := range t.lanes {
			for _, e := range t.axis.entries {
				c := t.plane().At(e.row, ln.col)
				if area.Contains(c.Row, c.Col) && b.page.Ref(c) == test.Readings[0].Flow.Trace.At {
					test.Status, test.Why = head.Asked, why
				}
			}
		}
	}
}

// figure returns the number of a cell, stored or typed as text.
func figure(c decode.Cell) (float64, bool) {
	switch c.Kind {
	case decode.Number:
		return c.Num, true
	case decode.Text:
		r := parse.Reading(c.Text, parse.MarkUnknown)
		return r.Value, r.Known
	default:
		return 0, false
	}
}

// sumsUp reports whether every number of a row is the sum or the mean, within
// 1, of the readings above it.
func (t *table) sumsUp(row int) bool {
	found := false
	for _, ln := range t.lanes {
		c := t.plane().At(row, ln.col)
		given, ok := figure(c)
		if !ok {
			continue
		}
		sum, n := 0.0, 0
		for _, e := range t.axis.entries {
			if x, ok := figure(t.plane().At(e.row, ln.col)); ok {
				sum += x
				n++
			}
		}
		if n == 0 || math.Abs(given-sum) > 1 && math.Abs(given-sum/float64(n)) > 1 {
			return false
		}
		found = true
	}
	return found
}

// askRow asks about a row without a lift.
func (b *builder) askRow(t *table, x extra) (head.Reply, bool) {
	at := t.firstOf(x)
	return b.p.ask(b.page.Ref(at), kindUnlabelledRow, "", cellText(at), "a row of numbers without a lift; it is not used", b.rowQuestion(at))
}

// claimRest sets aside whatever else stands inside the table's rectangle, and
// asks about numbers among it.
func (b *builder) claimRest(t *table, leave func(row, col int, why string)) {
	for row := t.top; row <= t.bottom; row++ {
		for col := t.left; col <= t.right; col++ {
			c := t.plane().At(row, col)
			if c.Blank() || !b.page.Free(c.Row, c.Col) {
				continue
			}
			if (c.Kind == decode.Number || c.Kind == decode.Date) && row > t.axis.first() && col > t.axis.col {
				b.p.ask(b.page.Ref(c), kindUnlabelledRow, "", cellText(c), "a number beside no lift; it is not used", b.rowQuestion(c))
			}
			leave(row, col, "inside the table, not a reading")
		}
	}
}

// claimAround accounts for the title lines and notes that were read.
func (b *builder) claimAround(tables []*table) {
	scopes := []scope{b.around.page}
	for _, t := range tables {
		scopes = append(scopes, b.around.blocks[t], b.around.notes[t])
	}
	for _, sc := range scopes {
		for _, l := range sc.lines {
			for _, c := range l.Cells {
				b.page.Claim(c.Row, c.Col, layout.Claim{By: b.shape, Used: true, Why: fmt.Sprintf("title or note, row %d", l.Row)})
			}
		}
	}
}
