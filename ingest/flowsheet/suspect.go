package flowsheet

import (
	"math"
	"slices"
	"strings"

	"flowshelf/analysis/head"
	"flowshelf/analysis/source"
	"flowshelf/ingest/decode"
	"flowshelf/ingest/layout"
	"flowshelf/ingest/parse"
	"flowshelf/ingest/words"
)

// suspects recognises tables whose figures run as the flows of a port do and
// whose words nobody knows. They are asked about rather than passed over.
type suspects struct{}

// Name returns the stable name of the shape.
func (suspects) Name() string { return "perhaps a flow sheet" }

// Recognise asks once a page, and reads the tables when somebody has said that
// they are flow sheets.
func (s suspects) Recognise(page *layout.Page, about layout.Context) head.Records {
	if page.Sheet.Hidden {
		return head.Records{}
	}
	r := &reader{names: namesOf(about), about: about}
	var found []*table
	for _, t := range r.blocks(page) {
		if e := r.evidenceFor(t); !e.convinces(t.axis.sure) && r.suspicious(t, e) {
			found = append(found, t)
		}
	}
	if len(found) == 0 {
		return head.Records{}
	}
	p := &problemBook{r: r}
	label := found[0].lead.label
	if label.Blank() {
		label = found[0].axis.entries[0].cell
	}
	answer, answered := p.ask(page.Ref(label), kindLiftsUnsure, "", cellText(label),
		"the figures run as lifts and flows do, and the words over them are not known", r.isFlowSheet(found[0]))
	if answered && answer.Is("yes") {
		for _, t := range found {
			t.axis.sure, t.told = labelled, true
		}
		out := r.readTables(page, s.Name(), found)
		out.Problems = append(p.problems, out.Problems...)
		return out
	}
	for _, t := range found {
		area := t.area()
		for _, c := range page.Sheet.Cells {
			if area.Contains(c.Row, c.Col) {
				page.Claim(c.Row, c.Col, layout.Claim{By: s.Name(), Why: "perhaps a flow sheet: waits for an answer"})
			}
		}
	}
	return head.Records{Problems: p.problems}
}

// isFlowSheet asks whether a table is one. The answer serves every table of the
// sender under the same words.
func (r *reader) isFlowSheet(t *table) source.Question {
	var over []string
	for _, ln := range t.lanes {
		for _, c := range ln.headers {
			over = append(over, strings.ToLower(parse.Squeeze(cellText(c))))
		}
	}
	slices.Sort(over)
	page := t.plane().Page
	return source.Question{Key: key("flow sheet", r.sender(newFacts(), page.Path), strings.Join(slices.Compact(over), "|")),
		Text:     "Is this a flow sheet, with the lifts in " + lane1(t) + "?",
		Choices:  []string{"yes, it is", "no, it is something else"},
		Evidence: "the figures rise as flows do against a lift", Changes: "whether the table is read at all"}
}

func lane1(t *table) string {
	if t.plane().Swapped {
		return "the first row"
	}
	return "the first column"
}

// suspicious weighs a table that the words do not convince of: lifts by name
// with figures that run as flows, such figures beside any word or unit of the
// trade, or two columns of them that ports can pass, on steps that lifts take.
func (r *reader) suspicious(t *table, e flowEvidence) bool {
	if e.foreign() || len(t.lanes) == 0 || r.overFlow(t) {
		return false
	}
	curves := t.curves()
	if varied := t.varied(); varied == 0 || 2*len(curves) < varied {
		return e.unit && (e.pressure || e.codes || e.heads) && t.climbing()
	}
	if e.unit || e.heads || e.pressure && e.codes {
		return true
	}
	return r.passableCurves(t, curves, e)
}

// passableCurves reports whether all columns hold what ports can pass; two of
// them are wanted where no word of the trade stands on the page.
func (r *reader) passableCurves(t *table, curves []*lane, e flowEvidence) bool {
	passable := 0
	for _, ln := range curves {
		if t.passable(ln) {
			passable++
		}
	}
	if t.axis.sure >= labelled || e.pagePorts || speaksOfHeads(t.plane().Page) {
		return passable > 0 && passable == t.varied()
	}
	return passable > 1 && passable == t.varied() && !t.counted(curves)
}

// counted reports whether every column rises by equal steps all the way, as
// figures typed for an example do: no port gains as much at each lift.
func (t *table) counted(curves []*lane) bool {
	return !slices.ContainsFunc(curves, func(ln *lane) bool {
		all := t.points(ln)
		step := all[1].flow - all[0].flow
		for i := 2; i < len(all); i++ {
			if math.Abs(all[i].flow-all[i-1].flow-step) > 1e-6 {
				return true
			}
		}
		return false
	})
}

// overFlow reports whether the words over the supposed lifts name a flow: the
// curve of a pump or a fan.
func (r *reader) overFlow(t *table) bool {
	a := t.axis
	for row := a.first() - 1; row >= max(1, a.first()-2); row-- {
		c := a.plane.At(row, a.col)
		if c.Kind != decode.Text || unitsOnly(c) || a.plane.Swapped {
			continue
		}
		f := r.header(a.plane.Page, c)
		return len(f.flowUnit) > 0 || f.says(words.Flow, words.Power, words.Velocity, words.Intake, words.Exhaust)
	}
	return false
}

// speaksOfHeads reports whether a page, its tab or its file speaks of valves,
// lifts, ports or bores.
func speaksOfHeads(page *layout.Page) bool {
	says := func(text string) bool {
		return len(text) < 400 && slices.ContainsFunc(words.FlowSheet().Find(words.Tokens(text)), func(h words.Hit) bool {
			switch h.Role {
			case words.Lift, words.Intake, words.Exhaust, words.Valve, words.Bore:
				return true
			default:
				return strings.Contains(h.Phrase, "flow")
			}
		})
	}
	return says(nearPath(page)) || says(page.Sheet.Name) || slices.ContainsFunc(page.Sheet.Cells, func(c decode.Cell) bool {
		return c.Kind == decode.Text && says(c.Text)
	})
}
