package flowsheet

import (
	"path"
	"slices"
	"strings"

	"flowshelf/ingest/decode"
	"flowshelf/ingest/layout"
	"flowshelf/ingest/parse"
	"flowshelf/ingest/words"
)

// credible keeps the tables that are flow sheets. Most workbooks are not: a
// rising list of numbers beside other numbers is everywhere, so a table has to
// speak of ports or of a flow unit, and the flow has to rise with the lift.
func (r *reader) credible(tables []*table) []*table {
	var sure []*table
	for _, t := range tables {
		if r.evidenceFor(t).convinces(t.axis.sure) {
			sure = append(sure, t)
		}
	}
	return slices.DeleteFunc(tables, func(t *table) bool {
		return !slices.Contains(sure, t) && !slices.ContainsFunc(sure, func(o *table) bool { return r.twins(t, o) })
	})
}

// twins reports whether a table is laid out as another one, for the other port:
// what convinces of the one holds for both.
func (r *reader) twins(t, o *table) bool {
	e := r.evidenceFor(t)
	a, b := t.axis.entries, o.axis.entries
	n := min(len(a), len(b))
	p, one := t.corner.port.one()
	q, other := o.corner.port.one()
	return e.rises && e.liftLike && one && other && p.Value != q.Value && t.axis.sure == o.axis.sure && t.plane().Swapped == o.plane().Swapped &&
		len(t.lanes) == len(o.lanes) && 2*n > max(len(a), len(b)) &&
		slices.EqualFunc(a[:n], b[:n], func(x, y entry) bool { return x.text.Value == y.text.Value })
}

// convinces weighs the evidence: the less sure the lifts, the more it takes.
func (e flowEvidence) convinces(lifts evidence) bool {
	switch {
	case e.foreign():
		return false
	case e.manometer && e.pagePorts:
		return true
	case !e.rises:
		return false
	case lifts >= labelled:
		return e.ports || e.saysLift()
	case lifts == spelled:
		return e.ports && e.stated() || e.unit && (e.pagePorts || e.pressure && e.codes || e.heads)
	case lifts == stepped:
		return e.ports && e.runsAsFlow()
	default:
		return e.ports && e.stated() || e.unit && e.heads
	}
}

// foreign reports whether the page speaks of cams, or of ducts and no head. Beside a
// table whose own words are a flow sheet's, such words are said in passing.
func (e flowEvidence) foreign() bool { return !e.plain && (e.cam || e.ducts && !e.heads) }

// stated reports whether the page names a flow unit, a pressure or a head.
func (e flowEvidence) stated() bool { return e.unit || e.pressure || e.heads }

// runsAsFlow is the evidence that bare steps of 1, 2, 3 take: the columns run as
// flows do, the more plainly the less the page states.
func (e flowEvidence) runsAsFlow() bool {
	return e.stated() && e.curved || e.unit && e.pressure && e.bends
}

// saysLift is the evidence that takes the place of a port where a column is
// headed "lift".
func (e flowEvidence) saysLift() bool {
	return e.unit && (e.pagePorts || e.heads || e.pressure && e.liftLike) || (e.ambiguous || e.curved) && (e.unit || e.pressure)
}

type flowEvidence struct {
	ports     bool // a header, banner or corner names a port
	ambiguous bool
	pagePorts bool // the page names one somewhere
	unit      bool // the page names a flow unit
	pressure  bool // the page names a test pressure
	heads     bool // the page names a head the shop knows
	codes     bool // the page names something that looks like a head's name
	manometer bool // a header names a manometer
	liftLike  bool // the figures can be lifts of a valve
	curved    bool // half of the columns run as flows do
	bends     bool // all of the columns do, as far as the lifts go
	rises     bool // half of the columns rise from the lowest lift to the highest
	plain     bool // lifts by name, ports over columns that are no angles, and a flow unit on the page
	cam       bool // the page speaks of cams: durations look like flows
	ducts     bool // the page speaks of ducts and fans: they move cfm as well
}

func (r *reader) evidenceFor(t *table) flowEvidence {
	e := r.pageEvidence(t.plane().Page)
	e.ports = len(t.corner.port) > 0
	values, own, _ := ownUnits(t)
	e.liftLike = own != parse.LiftNotStated || len(parse.GuessLiftUnit(values)) > 0
	up, down, unread := 0, 0, 0
	for _, ln := range t.lanes {
		e.manometer = e.manometer || ln.facts.says(words.Manometer, words.Orifice)
		e.ports = e.ports || len(ln.facts.port) > 0 || len(ln.section.port) > 0
		e.ambiguous = e.ambiguous || ln.facts.ambiguous != ""
		switch goesUp, known := t.rises(ln); {
		case ln.facts.says(words.PercentOfRange, words.Percent):
			up++ // within its range, a reading rises and falls
		case known && goesUp:
			up++
		case known:
			down++
		case t.holdsDigits(ln), t.uncalculated(ln.col):
			unread++ // figures that have to be asked about
		}
	}
	e.plain = t.axis.sure >= labelled && e.ports && e.unit && !slices.ContainsFunc(t.lanes, (*lane).isTiming)
	e.rises = up+unread > 0 && up >= down
	e.curved = len(t.lanes) > 0 && 2*len(t.curves()) >= len(t.lanes)
	e.bends = len(t.lanes) > 0 && !slices.ContainsFunc(t.lanes, func(ln *lane) bool { return !t.bends(ln, levelsABit) || !t.passable(ln) })
	return e
}

// isTiming reports whether a column is headed as one of angles of a cam.
func (ln *lane) isTiming() bool {
	return slices.ContainsFunc(ln.headers, func(c decode.Cell) bool {
		return slices.ContainsFunc(words.Tokens(c.Text), func(t words.Token) bool {
			switch t.Text {
			case "duration", "deg", "degs", "degree", "degrees", "grad", "dauer", "duree", "durata", "duracion", "gradi", "grados", "degres", "overlap", "lsa", "btdc", "atdc", "bbdc", "abdc":
				return true
			default:
				return strings.Contains(c.Text, "°")
			}
		})
	})
}

// holdsDigits reports whether any cell of a lane has a digit in it.
func (t *table) holdsDigits(ln *lane) bool {
	return slices.ContainsFunc(t.axis.entries, func(e entry) bool {
		return strings.ContainsAny(cellText(t.plane().At(e.row, ln.col)), "0123456789")
	})
}

// rises reports whether the flow at the highest lift is above the one at the
// lowest; it is not known for fewer than two flows.
func (t *table) rises(ln *lane) (up, known bool) {
	var low, high float64
	var atLow, atHigh parse.LiftText
	n, read := 0, t.figures(ln)
	for _, e := range t.axis.entries {
		x, ok := read(t.plane().At(e.row, ln.col))
		if !ok || x <= 0 || x > 5000 || e.text.Value == 0 || e.text.Ditto {
			continue
		}
		if n == 0 || compare(e.text, atLow) < 0 {
			low, atLow = x, e.text
		}
		if n == 0 || compare(e.text, atHigh) > 0 {
			high, atHigh = x, e.text
		}
		n++
	}
	return high > low, n >= 2
}

// pageEvidence looks at a page and at the covers that give conditions for it.
func (r *reader) pageEvidence(page *layout.Page) flowEvidence {
	e := r.evidenceOn(page)
	for _, other := range covers(page) {
		o := r.evidenceOn(other)
		e.unit, e.pressure = e.unit || o.unit, e.pressure || o.pressure
	}
	return e
}

// nearPath is a book's name with that of the folder it lies in. Folders further
// up are called as a whole disk is sorted, and say nothing of one page.
func nearPath(page *layout.Page) string {
	return path.Join(path.Base(path.Dir(page.Path)), path.Base(page.Path))
}

func (r *reader) evidenceOn(page *layout.Page) flowEvidence {
	var e flowEvidence
	look := func(text string) {
		if len(text) > 400 {
			return
		}
		if unit, ok := parse.FindFlowUnit(text); ok && unit != parse.FlowNotStated {
			e.unit = true
		}
		if _, _, _, bare := parse.FindBarePressure(text); bare || len(parse.FindPressures(text)) > 0 {
			e.pressure = true
		}
		if len(r.names.heads.find(text)) > 0 {
			e.heads = true
		}
		e.codes = e.codes || slices.ContainsFunc(codeDashed.FindAllString(text, -1), looksLikeHead)
		tokens := words.Tokens(text)
		for _, t := range tokens {
			switch t.Text {
			case "duration", "lobe", "camshaft", "lsa", "overlap", "btdc", "atdc", "bbdc", "abdc":
				e.cam = true
			case "duct", "ducts", "hvac", "ahu", "fan", "fans", "ventilation", "diffuser", "static", "hood", "luftung", "room":
				e.ducts = true
			}
		}
		for _, hit := range words.FlowSheet().Find(tokens) {
			if hit.Role == words.Intake || hit.Role == words.Exhaust {
				e.pagePorts = true
			}
		}
	}
	look(page.Sheet.Name)
	look(nearPath(page))
	for _, c := range page.Sheet.Cells {
		if c.Kind == decode.Text {
			look(c.Text)
		}
	}
	return e
}
