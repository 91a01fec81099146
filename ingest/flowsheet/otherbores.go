package flowsheet

import (
	"regexp"
	"strings"

	"flowshelf/ingest/decode"
	"flowshelf/ingest/words"
)

// A head has bores of its own, of the throat, a seat, a guide, and a gauge measures
// them. None is the bore of the fixture, and none tells what was done to the head.

var (
	boreBehindWord = regexp.MustCompile(`(?i)^\s*[:=]?\s*(?:(?:no|nr)\.?\s*)?[Øø]?\s*\d[\d.,/-]*\s*(?:mm|in|inch|["”])?`)
	boreBeforeWord = regexp.MustCompile(`(?i)[Øø]?\s*\d[\d.,/-]*\s*(?:mm|in|inch|["”])?\s*$`)
)

// otherBoresOf takes the bores out that are no fixture's, with their figures.
func otherBoresOf(l *line) {
	for _, at := range otherBores(l.rest()) {
		behind := boreBehindWord.FindString(l.rest()[at.end:])
		if behind == "" {
			before := boreBeforeWord.FindString(l.rest()[:at.start])
			at.start -= len(before)
		}
		l.strike(at.start, at.end+len(behind))
	}
}

// otherBores returns where in a text the words stand for such a bore: "throat bore",
// "alésage du siège", "bore gauge".
func otherBores(text string) []span {
	tokens := words.Tokens(text)
	var out []span
	for _, place := range words.Places().Find(tokens) {
		for _, bore := range words.FlowSheet().Find(tokens) {
			first, last := place, bore
			if bore.At < place.At {
				first, last = bore, place
			}
			if bore.Role != words.Bore || !words.Bound(tokens[first.At+first.Tokens:max(last.At, first.At+first.Tokens)]) {
				continue
			}
			out = append(out, span{start: tokens[first.At].Start, end: tokens[last.At+last.Tokens-1].End})
		}
	}
	return out
}

// isOtherBore reports whether all of a cell is the label of such a bore.
func isOtherBore(c decode.Cell) bool {
	if c.Kind != decode.Text {
		return false
	}
	found := otherBores(c.Text)
	return len(found) == 1 && strings.Trim(c.Text[:found[0].start]+c.Text[found[0].end:], " :=.") == ""
}
