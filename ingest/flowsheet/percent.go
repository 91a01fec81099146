package flowsheet

import (
	"fmt"
	"math"
	"regexp"
	"slices"
	"strings"

	"flowshelf/analysis/head"
	"flowshelf/analysis/quantity"
	"flowshelf/analysis/source"
	"flowshelf/ingest/decode"
	"flowshelf/ingest/layout"
	"flowshelf/ingest/parse"
	"flowshelf/ingest/words"
)

// calibrations holds, for each port, the flow of every range of a bench that
// reads in percent of range. Port 0 holds a calibration without a port.
type calibrations map[head.Port]map[string]source.Stated[quantity.Flow]

var (
	rangePair  = regexp.MustCompile(`\b(\d{1,2}|[A-H])\s*[=:]\s*(\d{1,4}(?:\.\d+)?)`)
	onePair    = regexp.MustCompile(`^\s*(\d{1,2}|[A-H])\s*[=:]\s*(\d{1,4}(?:\.\d+)?)\s*(?:cfm)?\s*$`)
	rangeWords = regexp.MustCompile(`(?i)\b(?:range|rng|bereich|messbereich|plage|gamme|calibre|rango|escala)s?\b|\b(?:(?:mess)?bereiche|camp[oi]|scal[ae]|gama?s|[ée]chelles?)\b|[ée]chelles?\b`)
)

// calibrations finds the range calibration of the bench on the page, its other
// tabs included: `Range cal (int): 1=40.2 2=81.5`, or a small table.
func (r *reader) calibrations(page *layout.Page, tables []*table) calibrations {
	out := calibrations{}
	pages := []*layout.Page{page}
	for i := range page.Book.Sheets {
		if sheet := &page.Book.Sheets[i]; sheet.Name != page.Sheet.Name && !sheet.Hidden && len(sheet.Cells) < 200 {
			pages = append(pages, layout.NewPage(page.Path, page.Book, sheet))
		}
	}
	for _, p := range pages {
		if len(out) > 0 {
			break
		}
		r.calibrationsOn(p, tables, out)
	}
	return out
}

// calibrationsOn looks for a calibration on one page.
func (r *reader) calibrationsOn(page *layout.Page, tables []*table, out calibrations) {
	for _, c := range page.Sheet.Cells {
		if c.Kind == decode.Text && rangeWords.MatchString(c.Text) {
			r.pairs(page, c, out)
			r.pairsBeside(page, c, out)
			r.grid(page, c, out, tables)
		}
	}
}

// pairs reads "1=40.2 2=81.5" from one cell, once for each port it names.
func (r *reader) pairs(page *layout.Page, c decode.Cell, out calibrations) {
	text := c.Text
	cuts := portWord.FindAllStringIndex(text, -1)
	if len(cuts) == 0 {
		cuts = [][]int{{0, 0}}
	}
	for i, cut := range cuts {
		end := len(text)
		if i+1 < len(cuts) {
			end = cuts[i+1][0]
		}
		found := rangePair.FindAllStringSubmatch(text[cut[1]:end], -1)
		if len(found) < 2 {
			continue
		}
		port := portOf(text[cut[0]:cut[1]])
		for _, m := range found {
			if x, ok := parse.Plain(m[2], parse.PointMark); ok {
				r.calibrate(page, c, c, out, port, m[1], x, strings.TrimSpace(m[0]))
			}
		}
	}
}

// pairsBeside reads a calibration whose ranges stand in cells of their own
// behind the words: Range cal (int), 1=40.2, 2=81.5.
func (r *reader) pairsBeside(page *layout.Page, words decode.Cell, out calibrations) {
	port := portOf(portWord.FindString(words.Text))
	found := false
	for col := words.Col + 1; ; col++ {
		c := page.Sheet.At(words.Row, col)
		m := onePair.FindStringSubmatch(c.Text)
		if c.Kind != decode.Text || m == nil {
			break
		}
		if x, ok := parse.Plain(m[2], parse.PointMark); ok {
			r.calibrate(page, c, words, out, port, m[1], x, strings.TrimSpace(m[0]))
			found = true
		}
	}
	if found {
		page.Claim(words.Row, words.Col, layout.Claim{By: "flow sheet", Used: true, Why: "range calibration"})
	}
}

var portWord = regexp.MustCompile(`(?i)\b(?:int(?:ake)?|inlet|exh?(?:aust)?|einl(?:ass)?|ausl(?:ass)?|adm(?:ission|isi[oó]n)?|asp(?:irazione)?|scar(?:ico)?|esc(?:ape)?|ech(?:appement)?)\b|éch(?:appement)?\b`)

func portOf(word string) head.Port {
	ports := portsNamed(word)
	switch {
	case len(ports) == 0:
		return 0
	case ports[0] == words.Intake:
		return head.Intake
	}
	return head.Exhaust
}

// calibrate takes the flow of one range, in the unit that the words over it
// name, else the page.
func (r *reader) calibrate(page *layout.Page, c, over decode.Cell, out calibrations, port head.Port, name string, figure float64, text string) {
	if out[port] == nil {
		out[port] = map[string]source.Stated[quantity.Flow]{}
	}
	flow, step, ok := calibrationUnit(page, over).Flow(figure)
	if _, have := out[port][name]; have || !ok || figure <= 0 {
		return
	}
	trace := r.trace(page, c)
	trace.Text, trace.Unit = text, "cfm"
	if step != "" {
		trace = trace.Then(step)
	}
	if found := parse.FindPressures(c.Text); len(found) == 1 {
		trace.Unit = "cfm at " + found[0].Text
	}
	out[port][name] = source.Say(flow, trace)
	page.Claim(c.Row, c.Col, layout.Claim{By: "flow sheet", Used: true, Why: "range calibration"})
}

// grid reads a small table headed "Range": ranges down or across, one row or
// column a port.
func (r *reader) grid(page *layout.Page, corner decode.Cell, out calibrations, tables []*table) {
	for _, t := range tables {
		if a := t.area(); t.plane().Page == page && a.Contains(corner.Row, corner.Col) {
			return
		}
	}
	for _, plane := range []layout.Plane{{Page: page}, {Page: page, Swapped: true}} {
		row, col := plane.Place(corner)
		names := map[int]string{}
		for at := row + 1; at <= row+8; at++ {
			c := plane.At(at, col)
			if c.Kind != decode.Number || c.Num < 1 || c.Num > 12 {
				break
			}
			names[at] = cellText(c)
		}
		if len(names) < 2 {
			continue
		}
		r.gridNames(plane, row, col, len(names))
		for side := col + 1; side <= col+4; side++ {
			header := r.header(page, plane.At(row, side))
			port := head.Port(0)
			if p, ok := header.port.one(); ok {
				port = p.Value
			}
			if !header.is(words.Calibration) && port == 0 && len(header.flowUnit) == 0 {
				continue
			}
			r.gridNames(plane, row, side, 0)
			for at := row + 1; at <= row+len(names); at++ {
				if c := plane.At(at, side); c.Kind == decode.Number {
					r.calibrate(page, c, plane.At(row, side), out, port, names[at], c.Num, cellText(c))
				}
			}
		}
	}
}

// gridNames claims the header of a column of a calibration and, for the column
// of the ranges, their names.
func (r *reader) gridNames(plane layout.Plane, row, col, names int) {
	for at := row; at <= row+names; at++ {
		plane.Claim(at, col, layout.Claim{By: "flow sheet", Used: true, Why: "range calibration"})
	}
}

// percents turns percent of range into flow: q = percent / 100 x the flow of
// the range, by the calibration of the port's own direction and a scale that
// is linear in flow. Without a calibration or with an unknown scale nothing is
// read.
func (b *builder) percents(s *series, col *column, out *head.Test, flows []source.Stated[quantity.Flow]) {
	at := b.page.Ref(s.at)
	cal, ok := b.cal[out.Port]
	if !ok {
		cal, ok = b.cal[0]
	}
	if !ok {
		b.p.refuse(at, kindCalibration, out.Head, cellText(s.at), "percent of range without the calibration of the ranges for this port",
			"write the flow of each range on the sheet, for intake and exhaust")
		b.refuseAll(col, "no range calibration")
		return
	}
	scale := b.askScale(s, out)
	if scale == head.ScaleNotStated {
		for i := range col.set {
			demote(&col.set[i], head.Asked, "the scale of the bench is not set")
		}
		return
	}
	if at, ok := b.calibratedElsewhere(s, cal); ok && !b.askCalibration(s, out, at) {
		for i := range col.set {
			demote(&col.set[i], head.Asked, "calibrated at another pressure")
		}
	}
	toPercent := 1.0
	if isFraction(s.values) {
		toPercent = 100
	}
	for i := range s.values {
		if !col.cells[i].Known {
			continue
		}
		flows[i] = b.percentOf(s, &col.set[i], out, i, toPercent*col.cells[i].Value, cal)
		if scale == head.LinearInPressure {
			flows[i] = linearInPressure(flows[i], toPercent*col.cells[i].Value)
		}
	}
	b.rangeJumps(s, out, flows)
}

// calibratedElsewhere returns where the calibration states a pressure that is
// not the test's.
func (b *builder) calibratedElsewhere(s *series, cal map[string]source.Stated[quantity.Flow]) (source.Trace, bool) {
	test, ok := s.facts.pressure.one()
	if !ok {
		return source.Trace{}, false
	}
	for _, full := range cal {
		for _, p := range parse.FindPressures(full.Trace.Unit) {
			if math.Abs(p.Unit.Of(p.Value).InH2O()-test.Value.InH2O()) > 0.2 {
				return full.Trace, true
			}
		}
	}
	return source.Trace{}, false
}

// percentOf turns one percentage into a flow.
func (b *builder) percentOf(s *series, r *head.Reading, out *head.Test, i int, pct float64,
	cal map[string]source.Stated[quantity.Flow]) source.Stated[quantity.Flow] {
	c := s.values[i]
	trace := b.r.trace(b.page, c)
	name := b.rangeName(s, i, cal)
	full, ok := cal[name]
	if !ok {
		demote(r, head.Refused, "range "+name+" has no calibration")
		b.p.refuse(b.page.Ref(c), kindCalibration, out.Head, name, "the range of this reading has no calibration", "add it to the calibration")
		return source.Stated[quantity.Flow]{Trace: trace}
	}
	trace.Unit = "percent of range"
	if pct > 102 {
		demote(r, head.Refused, "more than the whole range")
		b.p.refuse(b.page.Ref(c), kindRangePoor, out.Head, cellText(c), "the reading is more than the whole range", "check the range and the reading")
	} else if pct < 20 || pct > 95 {
		b.p.note(b.page.Ref(c), kindRangePoor, out.Head, cellText(c), "the reading stands at an end of its range, where the bench reads poorly")
	}
	return source.Say(quantity.CFM(pct/100*full.Value.CFM()),
		trace.Then(fmt.Sprintf("%.4g %% of range %s, %s cfm (%s)", pct, name, parse.Digits(full.Value.CFM()), full.Trace.At.Cell)))
}

func (b *builder) rangeName(s *series, i int, cal map[string]source.Stated[quantity.Flow]) string {
	if s.ranges == nil && len(cal) == 1 {
		for name := range cal {
			return name
		}
	}
	if s.ranges == nil || i >= len(s.ranges) {
		return ""
	}
	return strings.TrimSpace(cellText(s.ranges[i]))
}

// withoutPercentSigns reads "83.3%" typed as text as 83.3 in a column that is
// in percent.
func withoutPercentSigns(values []decode.Cell) []decode.Cell {
	out := slices.Clone(values)
	for i, c := range out {
		if c.Kind == decode.Text {
			out[i].Text = strings.TrimSuffix(strings.TrimSpace(c.Text), "%")
		}
	}
	return out
}

// isFraction reports whether a whole column of percentages is stored as
// fractions: 0.833 for 83.3 %.
func isFraction(values []decode.Cell) bool {
	n := 0
	for _, c := range values {
		if c.Kind == decode.Number {
			if c.Num > 1.05 {
				return false
			}
			n++
		}
	}
	return n > 0
}

func (b *builder) refuseAll(col *column, why string) {
	for i := range col.set {
		demote(&col.set[i], head.Refused, why)
	}
}

// scale returns how the bench of a test divides its percent scale.
func (r *reader) scale(out *head.Test) head.RangeScale {
	var own []head.Bench
	for _, bench := range r.about.Shop.Benches {
		if out.By != "" && strings.EqualFold(bench.Name, out.By) {
			return bench.Scale
		}
		if r.names.own[bench.Name] {
			own = append(own, bench)
		}
	}
	if out.Class == head.Own && len(own) == 1 {
		return own[0].Scale
	}
	return head.ScaleNotStated
}

// rangeJumps flags a step where the range was changed: a fall, or a gain more
// than 30 % above the one before it (common practice, no source).
func (b *builder) rangeJumps(s *series, out *head.Test, flows []source.Stated[quantity.Flow]) {
	for i := 2; i < len(flows) && s.ranges != nil; i++ {
		if cellText(s.ranges[i]) == cellText(s.ranges[i-1]) || !flows[i].Known || !flows[i-1].Known || !flows[i-2].Known {
			continue
		}
		now := flows[i].Value.CFM() - flows[i-1].Value.CFM()
		was := flows[i-1].Value.CFM() - flows[i-2].Value.CFM()
		if now < -2 || was > 0 && now > 1.3*was && now > was+2 {
			b.p.note(b.page.Ref(s.values[i]), kindRangeJump, out.Head, cellText(s.values[i]), "the curve jumps where the range was changed")
		}
	}
}
