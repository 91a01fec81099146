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

// against is what a note says against the readings it stands beside.
type against struct {
	role words.Role
	at   int // where in the note
}

// warns finds the first word of a note that speaks against readings.
func warns(text string) (against, bool) {
	tokens := words.Tokens(text)
	hits := words.Warnings().Find(tokens)
	for i, h := range hits {
		negated := i > 0 && hits[i-1].Role == words.Negation && hits[i-1].At+hits[i-1].Tokens == h.At
		if !negated && (h.Role != words.Leaking || !leakMeasured(tokens, h)) && speaksAgainst(h.Role, text) {
			return against{h.Role, tokens[h.At].Start}, true
		}
	}
	return against{}, false
}

// speaksAgainst reports whether a word that may speak against readings does so in a
// note.
func speaksAgainst(role words.Role, text string) bool {
	switch role {
	case words.Negation, words.Afterwards:
		return false
	case words.Claimed:
		// "the catalogue says 270" is a figure of its own, "better than" one compares
		return !strings.ContainsAny(text, "0123456789") && !comparesWithClaim.MatchString(text)
	case words.WithLash:
		return slices.ContainsFunc(words.FlowSheet().Find(words.Tokens(text)), func(h words.Hit) bool { return h.Role == words.Lift })
	default:
		return true
	}
}

// leakMeasured reports whether a note tells how much leaked, or that nothing did.
func leakMeasured(tokens []words.Token, h words.Hit) bool {
	next, then := "", ""
	if at := h.At + h.Tokens; at < len(tokens) {
		next = tokens[at].Text
		if at+1 < len(tokens) {
			then = tokens[at+1].Text
		}
	}
	if next == "at" {
		return isNumber(then)
	}
	if h.At > 0 && slices.Contains([]string{"checked", "check", "tested", "zero", "measured"}, tokens[h.At-1].Text) {
		return true
	}
	fine := []string{"=", "check", "checked", "test", "tested", "rate", "cfm", "ok", "none", "free", "zero", "no", "nil"}
	return isNumber(next) || slices.Contains(fine, next) || h.At > 0 && isNumber(tokens[h.At-1].Text)
}

func isNumber(text string) bool { return text != "" && text[0] >= '0' && text[0] <= '9' }

// about reports whether a note speaks of a test: of the port it names last before the
// word against it, else of the one it names at all, and of the class it opens with.
func (b *builder) about(text string, a against, out *head.Test) bool {
	for _, st := range b.r.statements(text, source.Trace{}) {
		if len(st.only.class) > 0 && !st.only.class.has(out.Class) {
			return false
		}
	}
	if a.role == words.Swapped {
		return true
	}
	named := head.Port(0)
	tokens := words.Tokens(text)
	for _, h := range words.FlowSheet().Find(tokens) {
		port, ok := map[words.Role]head.Port{words.Intake: head.Intake, words.Exhaust: head.Exhaust}[h.Role]
		if ok && (named == 0 || tokens[h.At].Start < a.at) {
			named = port
		}
	}
	return named == 0 || out.Port == 0 || named == out.Port
}

// followsWork reports whether a footnote says that something was done to the head
// before: "(1) after back-cut". The reading is then one of another state.
func followsWork(text string) bool {
	hits := words.Warnings().Find(words.Tokens(text))
	return len(hits) > 0 && hits[0].At == 0 && hits[0].Role == words.Afterwards
}

// pointedAt reports whether the mark of a footnote stands anywhere else on the page:
// without one it is a note like any other.
func (b *builder) pointedAt(n footnote) bool {
	return slices.ContainsFunc(b.page.Sheet.Cells, func(c decode.Cell) bool {
		return c.Kind == decode.Text && (c.Row != n.cell.Row || c.Col != n.cell.Col) && strings.Contains(c.Text, n.mark)
	})
}

// warnedOver returns the lines over a table that speak against its readings. What a
// header says that is not known is asked about as a state.
func (b *builder) warnedOver(t *table) []head.Remark {
	var out []head.Remark
	for _, l := range slices.Concat(b.around.page.lines, b.around.blocks[t].lines) {
		for _, c := range l.Cells {
			if _, key := captionOf(c.Text); key || c.Kind != decode.Text {
				continue
			}
			if _, against := warns(c.Text); against {
				out = append(out, head.Remark{Text: parse.Squeeze(c.Text), At: b.page.Ref(c)})
			}
		}
	}
	return out
}

// farNotes returns the words in the rows of a table that stand columns away from it,
// up to the next table, and are read as nothing else.
func (b *builder) farNotes(t *table) []decode.Cell {
	area := t.area()
	_, right := t.between(b.tables)
	var out []decode.Cell
	for _, l := range layout.Lines(b.page, decode.Area{Top: area.Top, Left: area.Right + 1, Bottom: area.Bottom, Right: right}) {
		keyed := keyedOnly([]layout.Line{l})
		for _, c := range l.Cells {
			if c.Kind != decode.Text || b.inOther(t, c) || isFigure(c) && len(parse.FindPressures(c.Text)) == 0 || b.page.Sheet.HiddenCols[c.Col] || len(keyed) > 0 || strings.TrimSpace(c.Text) == "" {
				continue
			}
			if _, _, ok := keyValue(c.Text); ok {
				continue
			}
			if _, ok := captionOf(c.Text); !ok && b.aNote(t, c) {
				out = append(out, c)
			}
		}
	}
	return out
}

// inOther reports whether a cell lies in another table: two that share the names of their
// heads lie within one another.
func (b *builder) inOther(t *table, c decode.Cell) bool {
	return slices.ContainsFunc(b.tables, func(o *table) bool { return o != t && o.area().Contains(c.Row, c.Col) })
}

// aNote reports whether a cell holds words of somebody rather than a header.
func (b *builder) aNote(t *table, c decode.Cell) bool {
	if _, against := warns(c.Text); against {
		return true
	}
	beside := t.plane().Swapped || c.Row >= t.axis.first() && c.Row <= t.axis.last()
	return beside && (len(parse.FindPressures(c.Text)) > 0 || len(b.r.header(b.page, c).rest) > 1)
}

// doNotUse asks about a test whose tester says that it is no good.
func (b *builder) doNotUse(s *series, r head.Remark, out *head.Test) {
	answer, ok := b.p.ask(r.At, kindWarning, out.Head, r.Text, "a note speaks against these readings", source.Question{
		Key: key("warning", oneCell(out.Head, r.At, r.Text)), Text: "Should the readings beside this note be used?", Choices: []string{"no", "yes"},
		Evidence: r.Text, Changes: "whether the test counts"})
	s.decideTest(out, answer, ok, "yes", "a note says: "+r.Text)
}

// warnings asks about what the notes around a test say against it. That a claim is
// one is no news.
func (b *builder) warnings(s *series, out *head.Test) {
	asked := map[source.Ref]bool{}
	for _, r := range slices.Concat(out.Remarks, s.over) {
		a, ok := warns(r.Text)
		if !ok {
			a, ok = b.ofAnother(r.Text, out.Head)
		}
		if !ok || asked[r.At] || out.Status.Out() || a.role == words.Claimed && out.Class == head.Advertised || !b.about(r.Text, a, out) {
			continue
		}
		asked[r.At] = true
		b.doNotUse(s, r, out)
	}
}

// figuresAre says of whom the figures of a sheet are.
var figuresAre = regexp.MustCompile(`(?i)\b(?:numbers|figures|readings|values|flows|werte|zahlen|valeurs|chiffres|valori|valores|cifras)\s+(?:are|were|sind|sont|sono|son)\b`)

// ofAnother reports whether a note says that the figures are another head's than the
// test's: "intake numbers are the PW-71".
func (b *builder) ofAnother(text, headName string) (against, bool) {
	at := figuresAre.FindStringIndex(text)
	if at == nil {
		return against{}, false
	}
	named, ok := b.r.read(newLine(parse.Squeeze(text), source.Trace{}, inTitle)).head.one()
	return against{words.Warning, at[0]}, ok && named.Value != headName
}

// rowNotes asks about readings whose own row notes another test pressure than the
// column was read at.
func (b *builder) rowNotes(s *series, out *head.Test) {
	if s.pressures != nil {
		return
	}
	for _, c := range s.notes {
		found := parse.FindPressures(c.Text)
		if c.Kind != decode.Text || len(found) != 1 || ofBench.MatchString(c.Text) {
			continue
		}
		p := found[0].Unit.Of(found[0].Value)
		if found[0].Inches && found[0].Value < 6 || p.InH2O() > atmospheric || out.Pressure.Known && math.Abs(p.InH2O()/out.Pressure.Value.InH2O()-1) < samePressure {
			continue
		}
		for i := range out.Readings {
			r := &out.Readings[i]
			if v := b.cellAt(r.Flow.Trace.At); r.Status == head.Used && (v.Row == c.Row || v.Col == c.Col) {
				b.askRowPressure(r, c, p, out)
			}
		}
	}
}

func (b *builder) askRowPressure(r *head.Reading, note decode.Cell, p quantity.Pressure, out *head.Test) {
	at := b.page.Ref(note)
	answer, ok := b.p.ask(at, kindPressureClash, out.Head, note.Text, fmt.Sprintf("the note beside the reading in cell %s states a test pressure of its own", r.Flow.Trace.At.Cell), source.Question{
		Key: key("row pressure", oneCell(out.Head, at, note.Text)), Text: "Was the reading beside this note taken at the pressure that it states?",
		Choices: []string{"yes", "no"}, Evidence: note.Text, Changes: "the curve at this lift"})
	switch {
	case !ok:
		demote(r, head.Asked, "a note beside it states another test pressure")
	case answer.Is("yes"):
		own := source.Say(p, b.r.trace(b.page, note))
		own.Trace.Answered = answer.Per()
		r.Row = &own
		mark(r, answer)
	default:
		mark(r, answer)
	}
}

// noted keeps of a remark how the flows were measured: "NB: exhaust without pipe".
func (f facts) noted() facts {
	g := newFacts()
	g.flowUnit, g.pressure, g.corrected, g.pipe, g.entry, g.bore, g.over, g.engine = f.flowUnit, f.pressure, f.corrected, f.pipe, f.entry, f.bore, f.over, f.engine
	for _, role := range []words.Role{words.Corrected, words.NotCorrected} {
		if f.is(role) {
			g.roles[role] = true
		}
	}
	return g
}
