package flowsheet

import (
	"regexp"
	"strings"

	"flowshelf/analysis/source"
	"flowshelf/ingest/layout"
	"flowshelf/ingest/words"
)

// Some heads are called by nothing but the word for a head or a casting and a number:
// "Culata 12", "casting 4471 903". A casting's number has three figures at least and
// a head's two; with fewer they count the pieces of a batch as often.

var (
	castingNoun = regexp.MustCompile(`(?i)\b(?:(?:casting|cast\.|gu(?:ss|ß)(?:teil|st[uü]ck|nr\.|nummer)?|fusione|getto|fundici[oó]n|fonderie)\s(?:(?:no|nr|n)\.?\s)?\d{3,5}(?:\s\d{3})?)$`)
	headNoun    = regexp.MustCompile(`(?i)\b(?:(?:cylinder )?head|(?:zylinder)?kopf|testa|testata|culata|culasse) [1-9]\d{1,2}$`)
	partNumber  = regexp.MustCompile(`\bP/N \d{2,3}-\d{3,5}$`)
)

// isCastingNoun reports whether all of a text is the word for a casting and its number.
func isCastingNoun(text string) bool {
	at := castingNoun.FindStringIndex(text)
	return at != nil && at[0] == 0
}

// opensNoun reports whether what stands before such a name in its part of a title is
// nothing, or the title of a flow sheet: "Prueba de flujo".
func opensNoun(before string) bool {
	k, isKey := captionOf(before)
	return namesCasting(before) || isKey && k.role == words.Flow && !numbered.MatchString(before)
}

// nounNames returns what is such a name in the titles around a table. It counts last: a
// head that is called otherwise may have the number of its casting beside it.
func (b *builder) nounNames(t *table) said[string] {
	for _, lines := range [][]layout.Line{b.around.blocks[t].lines, ownLines(b.around.page.lines, t, b.tables)} {
		var out said[string]
		for text, c := range b.r.titles(b.page, lines) {
			out = out.and(nounsIn(text, b.r.trace(b.page, c)))
		}
		if len(out) > 0 {
			return out
		}
	}
	return nil
}

// nounsIn returns the parts of a title that are such a name, alone or behind the title
// of a flow sheet.
func nounsIn(text string, trace source.Trace) said[string] {
	var out said[string]
	trace.Text = text
	for _, part := range titleGaps.Split(text, -1) {
		part = strings.TrimSpace(part)
		for _, pattern := range []*regexp.Regexp{castingNoun, headNoun, partNumber} {
			if at := pattern.FindStringIndex(part); at != nil && opensNoun(part[:at[0]]) {
				out.add(part[at[0]:], trace)
				break
			}
		}
	}
	return out
}
