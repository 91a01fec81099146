package flowsheet

import (
	"regexp"
	"strings"

	"flowshelf/analysis/head"
	"flowshelf/analysis/source"
	"flowshelf/ingest/decode"
	"flowshelf/ingest/layout"
	"flowshelf/ingest/parse"
)

// A claim is lost where its head stands in the cell before it, where one sentence
// speaks of both ports, or where its words come in another order than is known. The
// first two are read; of the last a person is told.

// aFlow is a flow with its unit.
var aFlow = regexp.MustCompile(`(?i)(?:^|[^\d.,])\d{2,3}(?:[.,]\d{1,2})?\s*(?:cfm|l/s|m[3³]/h)`)

// claim is a sentence that claims a flow, with the cells of its head before it.
type claim struct {
	cell   decode.Cell
	before []decode.Cell
	text   string
}

// adverts reads what one cell claims: a test for each of its clauses that speaks of
// another port.
func (b *builder) adverts(c decode.Cell) []head.Test {
	whole := b.claimAt(c)
	var out []head.Test
	for _, part := range b.perPort(whole) {
		if t, ok := b.advert(part); ok {
			out = append(out, t)
		}
	}
	if len(out) > 0 {
		for _, used := range append(whole.before, c) {
			b.page.Claim(used.Row, used.Col, layout.Claim{By: b.shape, Used: true, Why: "a claim in words"})
		}
	}
	return out
}

// farthestName is how many cells before a claim can hold its head and its port.
const farthestName = 2

// claimAt returns the claim of a cell. Where it names no head, the cells right before
// it may: "TA-70 | Einlass 281 cfm bei 12,7 mm".
func (b *builder) claimAt(c decode.Cell) claim {
	alone := claim{cell: c, text: c.Text}
	if _, named := nameBefore(c.Text); named || b.r.read(newLine(advertPoint.ReplaceAllString(c.Text, " "), source.Trace{}, inTitle)).namesHead() {
		return alone
	}
	joined := alone
	for col := c.Col - 1; col >= max(1, c.Col-farthestName); col-- {
		left := b.page.Sheet.At(c.Row, col)
		if left.Kind != decode.Text || aFlow.MatchString(left.Text) || !b.page.Free(left.Row, left.Col) {
			return alone
		}
		joined.before = append(joined.before, left)
		if aFigure.MatchString(left.Text) {
			joined.text = strings.Trim(parse.Squeeze(left.Text), ":") + ": " + joined.text
			return joined
		}
		joined.text = left.Text + " " + joined.text
	}
	return alone
}

var clauseGap = regexp.MustCompile(`(?i)[,;]\s+|\s[/|–—-]\s|\s(?:and|und|et|e|ed|y)\s`)

// perPort parts a claim of both ports into one of each; what stands before the first
// port is the head's, what stands behind the last claim holds for both.
func (b *builder) perPort(c claim) []claim {
	var parts []string
	name, _, _ := strings.Cut(c.text, ": ")
	opened := name != c.text
	shared := ""
	for _, part := range clauseGap.Split(c.text, -1) {
		if len(pointsIn(part)) == 0 {
			shared += ", " + part
			continue
		}
		ports := b.r.read(newLine(part, source.Trace{}, inHeader)).port
		if len(ports) != 1 {
			return []claim{c}
		}
		parts = append(parts, part)
	}
	if len(parts) < 2 {
		return []claim{c}
	}
	if !opened {
		f := b.r.read(newLine(advertPoint.ReplaceAllString(parts[0], " "), source.Trace{}, inTitle))
		said, ok := f.head.one()
		if name = said.Value; !ok {
			return []claim{c}
		}
	}
	out := []claim{{cell: c.cell, text: parts[0] + shared}}
	for _, part := range parts[1:] {
		out = append(out, claim{cell: c.cell, text: name + ": " + part + shared})
	}
	return out
}

// askClaimant asks which head a claim speaks of.
func (b *builder) askClaimant(c claim, t *head.Test) {
	answer, ok := b.p.ask(t.At, kindHeadNotStated, "", c.text, "a claimed flow without a head's name", source.Question{
		Key: key("head", oneCell("", t.At, c.text)), Text: "Which head does this claim speak of?", Wants: source.Words, Evidence: c.text,
		Changes: "whether the claim is shown", Reach: source.ReachesWords})
	if t.Head = answer.Text; !ok {
		t.Status, t.Why = head.Asked, "the claim names no head"
	}
}

// askClaimedPort asks which port a claim speaks of.
func (b *builder) askClaimedPort(c claim, t *head.Test) {
	const why = "the claim does not say which port"
	answer, ok := b.p.ask(t.At, kindPortNotStated, t.Head, c.text, why, source.Question{
		Key: key("claimed port", oneCell(t.Head, t.At, c.text)), Text: "Which port does this claim speak of: intake or exhaust?",
		Choices: []string{"intake", "exhaust"}, Evidence: c.text, Changes: "whether the claim is shown", Reach: source.ReachesWords})
	switch {
	case !ok:
		t.Status, t.Why = head.Asked, why
	case answer.Is("intake"):
		t.Port = head.Intake
	default:
		t.Port = head.Exhaust
	}
}

// flowsAt is a flow at a figure that is written as only a lift is, of a name with a figure: "XY-30 flows 278 cfm
// @ .600".
var flowsAt = regexp.MustCompile(`(?i)^[^.;]*\d[^.;]*\bflow(?:s|ed)\s+\d{2,3}(?:[.,]\d)?\s*cfm\s*(?:@|at)\s*0?\.\d{2,3}\s*(?:"|”)?\s*$`)

// unreadClaim tells of a flow in a sentence that speaks of a port, a valve's lift or a
// head the shop knows, where no reading was made of it.
func (b *builder) unreadClaim(c decode.Cell) {
	if !b.page.Free(c.Row, c.Col) {
		return
	}
	f := b.r.read(newLine(c.Text, b.r.trace(b.page, c), inHeader))
	inDuct := advertPoint.MatchString(c.Text) && len(pointsIn(c.Text)) == 0 // "intake fan 300 cfm @ .500 in. w.g."
	if !flowsAt.MatchString(c.Text) && (len(f.port) == 0 || inDuct) && !liftNoun.MatchString(c.Text) && len(b.r.names.heads.find(c.Text)) == 0 {
		return
	}
	b.p.setAside(b.page.Ref(c), kindAdvertPoint, "", c.Text, "a flow in words of which no reading is made: its head, its port or its lift cannot be told")
	b.page.Claim(c.Row, c.Col, layout.Claim{By: b.shape, Why: "a claim that cannot be read"})
}
