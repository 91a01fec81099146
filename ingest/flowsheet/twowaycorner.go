package flowsheet

import (
	"regexp"
	"slices"
	"strings"

	"flowshelf/ingest/words"
)

// cornerMark parts what a corner says of the two ways of its table.
var cornerMark = regexp.MustCompile(`\s*[/\\|]\s*`)

// twoWays returns the noun of the heads in a corner that names both what its rows and
// what its columns are, heads and lifts: "Head / Lift [mm]", "Culata / mm".
func twoWays(corner string) (heads string, ok bool) {
	parts := cornerMark.Split(strings.TrimSpace(corner), -1)
	if len(parts) != 2 {
		return "", false
	}
	for i, heads := range parts {
		if namesHeads(heads) && namesLifts(parts[1-i]) {
			return heads, true
		}
	}
	return "", false
}

// namesHeads reports whether a word is the noun of what was flowed and nothing else.
func namesHeads(text string) bool {
	tokens := words.Tokens(text)
	hits := words.FlowSheet().Find(tokens)
	return len(hits) == 1 && hits[0].Tokens == len(tokens) && slices.Contains([]words.Role{words.Head, words.Sample, words.Serial, words.Template}, hits[0].Role)
}

// namesLifts reports whether words name a list of lifts, or are the unit of one.
func namesLifts(text string) bool {
	return unitText.MatchString(text) || slices.ContainsFunc(words.FlowSheet().Find(words.Tokens(text)), func(h words.Hit) bool {
		return h.Role == words.Lift || h.Role == words.LiftOverDiameter
	})
}
