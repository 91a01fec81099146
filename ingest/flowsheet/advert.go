package flowsheet

import (
	"regexp"
	"slices"
	"strings"

	"flowshelf/analysis/head"
	"flowshelf/analysis/quantity"
	"flowshelf/analysis/source"
	"flowshelf/ingest/decode"
	"flowshelf/ingest/layout"
	"flowshelf/ingest/parse"
)

// adverts recognises a claim in a sentence: "flows 278 cfm @ .600 lift".
type adverts struct{}

// Name returns the stable name of the shape.
func (adverts) Name() string { return "advert" }

// Recognise reads one test for each cell that makes a claim. A sentence of
// that form is common where air is moved in ducts, so it has to speak of lift
// or of a head the shop knows.
func (a adverts) Recognise(page *layout.Page, about layout.Context) head.Records {
	var out head.Records
	var r *reader
	if mentionsFlow(page) && slices.ContainsFunc(page.Sheet.Cells, func(c decode.Cell) bool { return strings.Contains(c.Text, "@") }) {
		r = &reader{names: namesOf(about), about: about}
		out.Append(a.oneLift(r, page))
	}
	for _, c := range page.Sheet.Cells {
		if c.Kind != decode.Text || !page.Free(c.Row, c.Col) || !aFlow.MatchString(c.Text) {
			continue
		}
		if r == nil {
			r = &reader{names: namesOf(about), about: about}
		}
		b := &builder{r: r, page: page, shape: a.Name(), p: &problemBook{r: r}}
		if len(pointsIn(c.Text)) == 0 {
			b.p.problems = r.withoutLift(page, c)
		} else {
			out.Tests = append(out.Tests, b.adverts(c)...)
		}
		if len(b.p.problems) == 0 {
			b.unreadClaim(c)
		}
		out.Problems = append(out.Problems, b.p.problems...)
	}
	return out
}

// advertFlow is a claim that names no lift: "flows over 300 cfm".
var advertFlow = regexp.MustCompile(`(?i)\bflow(?:s|ed|ing)?\b[^.;]{0,40}?\b\d{2,3}(?:[.,]\d)?\s*cfm\b`)

// withoutLift notes a claim without a lift beside the name of a head that the
// shop knows: no curve can be made of it, and nobody need wonder where it went.
func (r *reader) withoutLift(page *layout.Page, c decode.Cell) source.Problems {
	p := problemBook{r: r}
	if !advertFlow.MatchString(c.Text) {
		return nil
	}
	for _, text := range []string{c.Text, page.Sheet.At(c.Row-1, c.Col).Text, page.Sheet.At(c.Row, c.Col-1).Text} {
		if found := r.names.heads.find(text); len(found) > 0 {
			p.setAside(page.Ref(c), kindAdvertPoint, found[0].means, c.Text, "a claim without a lift: no reading can be made of it")
			page.Claim(c.Row, c.Col, layout.Claim{By: adverts{}.Name(), Why: "a claim without a lift"})
			return p.problems
		}
	}
	return nil
}

// advert reads what a sentence claims of one head and port.
func (b *builder) advert(c claim) (head.Test, bool) {
	points := pointsIn(c.text)
	rest := advertPoint.ReplaceAllString(c.text, " ")
	f := b.r.read(newLine(rest, b.r.trace(b.page, c.cell), inTitle))
	whole := b.r.read(newLine(c.text, b.r.trace(b.page, c.cell), inHeader))
	name, named := f.head.one()
	if before, ok := nameBefore(c.text); ok && len(f.head)+len(f.loose) == 0 {
		name, named = source.Say(before, b.r.trace(b.page, c.cell)), true
	}
	if code, ok := f.inSentence(); ok {
		name, named = code, true
	}
	known := named && b.r.names.listed[name.Value].Name != ""
	port, ported := whole.port.one()
	if !known && !liftNoun.MatchString(c.text) && (!named && (len(whole.port) == 0 || !b.amongClaims(c.cell)) || !ported && !b.claimedAt(c.cell, whole)) {
		return head.Test{}, false
	}
	t := head.Test{At: b.page.Ref(c.cell), HeadAt: b.page.Ref(c.cell), Shape: b.shape, Class: head.Advertised}
	if named {
		t.Head = name.Value
		t.By = b.r.names.listed[name.Value].Supplier
		b.advertState(&t, whole)
	} else {
		b.askClaimant(c, &t)
	}
	if ported {
		t.Port = port.Value
	} else if t.Status == head.Used {
		b.askClaimedPort(c, &t)
	}
	t.Pressure, _ = whole.pressure.one()
	t.Bore, _ = whole.bore.one()
	for _, p := range points {
		if reading, ok := b.advertReading(c.cell, p); ok {
			t.Readings = append(t.Readings, reading)
		}
	}
	b.p.note(t.At, kindAdvertPoint, t.Head, c.text, "a claim in words: shown as advertised, never ranked")
	return t, len(t.Readings) > 0
}

// claimedAt reports whether a sentence that names a head states the pressure of
// its flow or stands under a word for claims.
func (b *builder) claimedAt(c decode.Cell, f facts) bool {
	if p, ok := f.pressure.one(); ok && p.Value.InH2O() >= lowestInH2O {
		return true
	}
	for row := c.Row - 1; row >= max(1, c.Row-highestPile); row-- {
		if over := b.page.Sheet.At(row, c.Col); over.Kind == decode.Text && len(pointsIn(over.Text)) == 0 {
			return callsClaims(over.Text)
		}
	}
	return false
}

// callsClaims reports whether a part of a title calls what stands below it claims:
// "Cold Creek - advertised flow, cfm @ 28".
func callsClaims(title string) bool {
	return slices.ContainsFunc(titleGaps.Split(title, -1), func(part string) bool { return plainClaim.MatchString(strings.TrimSpace(part)) })
}

// amongClaims reports whether a sentence stands right below or above another one that
// claims a flow and names its head, or under a word for claims.
func (b *builder) amongClaims(c decode.Cell) bool {
	for _, row := range []int{c.Row - 1, c.Row + 1} {
		beside := b.page.Sheet.At(row, c.Col)
		f := b.r.read(newLine(beside.Text, b.r.trace(b.page, beside), inHeader))
		_, named := nameBefore(beside.Text)
		if len(pointsIn(beside.Text)) > 0 && len(f.port) == 1 && (named || len(f.head)+len(f.loose) > 0) {
			return true
		}
	}
	return b.claimedAt(c, newFacts())
}

// highestPile is how many claims stand under one heading at most.
const highestPile = 12

// advertState takes the state that stands behind the head's name.
func (b *builder) advertState(t *head.Test, f facts) {
	if state, ok := f.state.one(); ok {
		t.State = state.Value
	}
}

func (b *builder) advertReading(c decode.Cell, p claimed) (head.Reading, bool) {
	unit, ok := parse.FindFlowUnit(p.unit)
	flow, step, volumetric := unit.Flow(p.flow)
	if !ok || !volumetric {
		return head.Reading{}, false
	}
	trace := b.r.trace(b.page, c)
	trace.Text, trace.Unit = p.text, unit.String()
	said := trace
	if step != "" {
		said = trace.Then(step)
	}
	r := head.Reading{Flow: source.Say(flow, said), Remark: strings.ToLower(p.limit)}
	switch {
	case p.metric:
		r.Lift = source.Say(quantity.Millimetres(p.lift), trace.Then("mm / 25.4 = in"))
	case p.lift >= 20:
		r.Lift = source.Say(quantity.Thou(p.lift), trace.Then("thou / 1000 = in"))
	default:
		r.Lift = source.Say(quantity.Inches(p.lift), trace)
	}
	return r, true
}
