package words

import (
	"slices"
	"strings"
)

// expand writes out the alternatives of a phrase: "(valve|) (lift|travel)" is
// "valve lift", "valve travel", "lift" and "travel".
func expand(pattern string) []string {
	out := []string{""}
	for pattern != "" {
		open := strings.IndexByte(pattern, '(')
		if open < 0 {
			open = len(pattern)
		}
		out = withEach(out, []string{pattern[:open]})
		if open == len(pattern) {
			break
		}
		shut := open + strings.IndexByte(pattern[open:], ')')
		out = withEach(out, strings.Split(pattern[open+1:shut], "|"))
		pattern = pattern[shut+1:]
	}
	for i := range out {
		out[i] = strings.Join(strings.Fields(out[i]), " ")
	}
	slices.Sort(out)
	return slices.DeleteFunc(slices.Compact(out), func(s string) bool { return s == "" })
}

func withEach(starts, ends []string) []string {
	out := make([]string, 0, len(starts)*len(ends))
	for _, s := range starts {
		for _, e := range ends {
			out = append(out, s+e)
		}
	}
	return out
}

// isParticle reports whether a word binds others and says nothing itself:
// "levée de la soupape" is "levée soupape".
func isParticle(word string) bool {
	switch word {
	case "of", "the", "de", "du", "des", "del", "della", "dello", "delle", "di", "der", "die", "das", "den", "dem", "vom", "von",
		"el", "la", "le", "les", "los", "las", "al", "alla":
		return true
	default:
		return false
	}
}

// withoutParticles leaves out the particles between the words of a phrase.
func withoutParticles(tokens []string) []string {
	var out []string
	for i, t := range tokens {
		if i == 0 || i == len(tokens)-1 || !isParticle(t) {
			out = append(out, t)
		}
	}
	return out
}

// Bound reports whether nothing but particles stands between two words: "bore of the
// seat" is the seat bore.
func Bound(between []Token) bool {
	return !slices.ContainsFunc(between, func(t Token) bool { return !isParticle(t.Text) })
}
