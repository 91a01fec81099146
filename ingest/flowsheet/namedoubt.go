package flowsheet

import (
	"regexp"
	"strings"

	"flowshelf/ingest/words"
)

// Makers call heads by words that a flow sheet has a use for: "TA-70 Max", "TA-70
// Plus", "TA-70 Swirl", "TA-70 Type R". Right behind a name such a word may belong to
// it, and two products must never become one head: it is asked.

var (
	capitalBehind = regexp.MustCompile(`^ \p{Lu}`)
	kindBehind    = regexp.MustCompile(`^ (?:Street|Road|Type|Typ|Tipo|Model|Modell|Mod[eèé]le|Modello|Modelo|Series|Serie|S[ée]rie)(?: (?:\p{Lu}[\p{L}]*|\d{1,2}))?(?:$|[\s,;/|)])`)
	markBehind    = regexp.MustCompile(`^(?:\+|/\d{1,2}\p{Lu}?| ?\p{Lu}/\p{Lu}| ["'“‘„«]\p{Lu}\pL+["'”’“»])(?:$|[\s,;|)])`)
)

// mayGoOn reports whether what stands right behind a name may belong to it as well
// as to the sheet.
func mayGoOn(behind string) bool {
	if kindBehind.MatchString(behind) || markBehind.MatchString(behind) {
		return true
	}
	if !capitalBehind.MatchString(behind) {
		return false
	}
	hits := words.FlowSheet().Find(words.Tokens(behind))
	return len(hits) > 0 && hits[0].At == 0 && (mayNameAProduct(hits[0].Role) || hits[0].Phrase == "new")
}

// goesOnBehind reports whether a name that stands in a line may go on behind it; over
// a column such a word is the column's.
func (l *line) goesOnBehind(name string) bool {
	_, behind, found := strings.Cut(l.text, name)
	return found && l.place != inHeader && mayGoOn(behind)
}

// isTester reports whether the last word of a name may be the initials of the tester,
// whom a dated line does not name elsewhere: "Heron 210 JT / 4.030 bore / 2026-02-18".
func (l *line) isTester(word string) bool {
	word = strings.TrimSpace(word)
	return l.place != inHeader && l.facts.roles[words.Date] && len(l.facts.operator) == 0 && areInitials(word) && !roman.MatchString(word)
}

// opensDoubtful reports whether a title opens with a word and a figure that may go on.
func opensDoubtful(text string) bool {
	at := wordyName.FindStringIndex(text)
	return at != nil && isWordyName(text[:at[1]]) && mayGoOn(text[at[1]:])
}

// mayNameAProduct reports whether the words of a role are such as products are
// called by.
func mayNameAProduct(role words.Role) bool {
	switch role {
	case words.Maximum, words.Minimum, words.Peak, words.Total, words.Gain, words.Rank, words.Power, words.Velocity, words.Swirl,
		words.Old, words.LongPort, words.ShortPort:
		return true
	default:
		return false
	}
}
