package flowsheet

import (
	"regexp"
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

var advertPoint = regexp.MustCompile(`(?i)(up to|over|as high as|more than|bis zu)?\s*\b(\d{2,3}(?:\.\d)?)\s*cfm\s*(?:intake|exhaust|int|exh)?\s*(?:@|at)\s*(\.\d{2,3}|0\.\d{1,3}|\d{3})\s*("|in\b\.?|inch(?:es)?)?\s*(lift)?`)

// Recognise reads one test for each cell that makes a claim. A sentence of
// that form is common where air is moved in ducts, so it has to speak of lift
// or of a head the shop knows.
func (a adverts) Recognise(page *layout.Page, about layout.Context) head.Records {
	var out head.Records
	var r *reader
	for _, c := range page.Sheet.Cells {
		if c.Kind != decode.Text || !page.Free(c.Row, c.Col) || !advertPoint.MatchString(c.Text) {
			continue
		}
		if r == nil {
			r = &reader{names: newNames(about), about: about}
		}
		b := &builder{r: r, page: page, shape: a.Name(), p: &problemBook{r: r}}
		if t, ok := b.advert(c); ok {
			out.Tests = append(out.Tests, t)
			out.Problems = append(out.Problems, b.p.problems...)
			page.Claim(c.Row, c.Col, layout.Claim{By: a.Name(), Used: true, Why: "a claim in words"})
		}
	}
	return out
}

func (b *builder) advert(c decode.Cell) (head.Test, bool) {
	points := advertPoint.FindAllStringSubmatch(c.Text, -1)
	rest := advertPoint.ReplaceAllString(c.Text, " ")
	f := b.r.read(newLine(rest, b.r.trace(b.page, c), inTitle))
	whole := b.r.read(newLine(c.Text, b.r.trace(b.page, c), inHeader))
	name, named := f.head.one()
	known := named && b.r.names.listed[name.Value].Name != ""
	if !known && !strings.Contains(strings.ToLower(c.Text), "lift") {
		return head.Test{}, false
	}
	t := head.Test{At: b.page.Ref(c), HeadAt: b.page.Ref(c), Shape: b.shape, Class: head.Advertised}
	if named {
		t.Head = name.Value
		t.By = b.r.names.listed[name.Value].Supplier
	} else {
		answer, ok := b.p.ask(t.At, kindHeadNotStated, "", c.Text, "a claimed flow without a head's name", source.Question{
			Key: key("head", oneCell("", t.At, c.Text)), Text: "Which head does this claim speak of?", Wants: source.Words, Evidence: c.Text,
			Changes: "whether the claim is shown", Reach: source.ReachesWords})
		if t.Head = answer.Text; !ok {
			t.Status, t.Why = head.Asked, "the claim names no head"
		}
	}
	if port, ok := whole.port.one(); ok {
		t.Port = port.Value
	} else if t.Status == head.Used {
		t.Status, t.Why = head.Asked, "the claim does not say which port"
	}
	t.Pressure, _ = whole.pressure.one()
	t.Bore, _ = whole.bore.one()
	for _, p := range points {
		if reading, ok := b.advertReading(c, p); ok {
			t.Readings = append(t.Readings, reading)
		}
	}
	b.p.note(t.At, kindAdvertPoint, t.Head, c.Text, "a claim in words: shown as advertised, never ranked")
	return t, len(t.Readings) > 0
}

func (b *builder) advertReading(c decode.Cell, m []string) (head.Reading, bool) {
	flow, ok1 := parse.Plain(m[2], parse.PointMark)
	lift, ok2 := parse.Plain(m[3], parse.PointMark)
	if !ok1 || !ok2 {
		return head.Reading{}, false
	}
	trace := b.r.trace(b.page, c)
	trace.Text, trace.Unit = strings.TrimSpace(m[0]), "cfm"
	r := head.Reading{Flow: source.Say(quantity.CFM(flow), trace), Remark: strings.ToLower(m[1])}
	r.Lift = source.Say(quantity.Inches(lift), trace)
	if lift >= 20 {
		r.Lift = source.Say(quantity.Thou(lift), trace.Then("thou / 1000 = in"))
	}
	return r, true
}
