package flowsheet

import (
	"fmt"
	"math"
	"slices"

	"flowshelf/analysis/source"
	"flowshelf/ingest/decode"
	"flowshelf/ingest/words"
)

// portsApart is how far the ports of one head may be apart over the whole curve
// (common practice, no source).
const portsApart = 0.05

// bareNumbers asks about two columns over which nothing stands but 1 and 2, when
// they are further apart than two ports or two runs of one head: they may as well
// be two states, or one a claim. Neither is used until somebody says.
func bareNumbers(b *builder, t *table) {
	var pair []*lane
	for _, ln := range t.lanes {
		if ln.role == laneFlow && t.isBareNumber(ln) {
			pair = append(pair, ln)
		}
	}
	if len(pair) != 2 || b.numbersSaid(t) {
		return
	}
	gap, ok := t.apart(pair[0], pair[1])
	if p, q := pair[0].facts.port, pair[1].facts.port; !ok || math.Abs(gap) <= portsApart || len(p) > 0 && len(q) > 0 && !anyOf(p, q) {
		return
	}
	for _, ln := range pair {
		c := ln.headers[len(ln.headers)-1]
		why := fmt.Sprintf("nothing says what 1 and 2 over the columns are, and they are %.0f %% apart", 100*math.Abs(gap))
		answer, ok := b.p.ask(b.page.Ref(c), kindUnlabelledLane, "", cellText(c), why, source.Question{
			Key: key("number", oneCell("", b.page.Ref(c), cellText(c))), Text: fmt.Sprintf("What is the column under %s?", cellText(c)),
			Choices: []string{aPort, aRun, noReading}, Changes: "whether the column counts, and with which other"})
		switch {
		case !ok:
			ln.role, ln.why = laneSummary, why
		case answer.Is(noReading):
			ln.role, ln.why = laneSummary, "no reading, "+answer.Per()
		case answer.Is(aRun):
			ln.facts.run, ln.facts.mark = ln.facts.mark, nil
		default:
		}
	}
}

const aPort = "a port or a cylinder, by its number"

// isBareNumber reports whether the last header of a lane is a number that no key
// before its row explains, and no other header has words but a port's.
func (t *table) isBareNumber(ln *lane) bool {
	if len(ln.headers) == 0 || len(ln.facts.mark) != 1 || len(ln.facts.run)+len(ln.facts.state)+len(ln.facts.class) > 0 {
		return false
	}
	bare := false
	for _, c := range ln.headers {
		label := t.plane().At(c.Row, t.axis.col)
		if t.plane().Swapped {
			label = t.plane().At(c.Col, t.axis.col)
		}
		if _, key := captionOf(label.Text); label.Kind == decode.Text && key && !isLiftLabel(label) {
			return false
		}
		if loneNumber.MatchString(cellText(c)) {
			bare = true
			continue
		}
		for _, hit := range words.FlowSheet().Find(words.Tokens(c.Text)) {
			if slices.Contains([]words.Role{words.Cylinder, words.Run, words.Tested, words.PortCount, words.Sample}, hit.Role) {
				return false
			}
		}
	}
	return bare
}

// numbersSaid reports whether the lines around say what is counted: ports,
// cylinders, runs.
func (b *builder) numbersSaid(t *table) bool {
	for _, s := range []scope{b.around.blocks[t], b.around.notes[t], b.around.page, b.around.foot} {
		f := s.any()
		if f.says(words.Cylinder, words.PortCount, words.Run) || len(f.ports) > 0 {
			return true
		}
	}
	return false
}

// apart is the mean gap of one lane to another over the same lifts, as a share;
// false where they have not the same ones.
func (t *table) apart(a, b *lane) (float64, bool) {
	p, q := t.points(a), t.points(b)
	if len(p) != len(q) || len(p) < fewestPoints {
		return 0, false
	}
	sum := 0.0
	for i := range p {
		if p[i].lift != q[i].lift || q[i].flow <= 0 || p[i].flow <= 0 {
			return 0, false
		}
		sum += p[i].flow/q[i].flow - 1
	}
	return sum / float64(len(p)), true
}
