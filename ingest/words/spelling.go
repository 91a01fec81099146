package words

import (
	"slices"
	"strings"
)

// How long a word must be for one wrong letter in it still to leave no doubt,
// and how long a clipped word with its full stop.
const (
	longWord    = 7
	clippedWord = 4
)

// spelled returns the words the lexicon knows for the words of a text: umlauts
// that are written out, clipped words ("Press.", "Durchm."), ports without some
// of their letters ("Intk") and one wrong letter in a long word are read as
// what they stand for, where only one meaning is left. Everything else stays
// as it is.
func (lex *Lexicon) spelled(tokens []Token) []string {
	out := make([]string, len(tokens))
	for i, t := range tokens {
		out[i] = t.Text
		if lex.words[t.Text] || len(t.Text) < clippedWord || !isLetters(t.Text) {
			continue
		}
		if plain := plainUmlauts(t.Text); lex.words[plain] {
			out[i] = plain
			continue
		}
		if word, ok := lex.full(t); ok {
			out[i] = word
		}
	}
	return out
}

// full finds the word that a clipped or misspelled one stands for.
func (lex *Lexicon) full(t Token) (string, bool) {
	if t.Dotted {
		if word, ok := lex.only(t.Text, func(w string) bool { return strings.HasPrefix(w, t.Text) }); ok {
			return word, true
		}
	}
	if len(t.Text) <= longWord {
		for _, port := range []string{"exhaust", "intake", "inlet"} {
			if t.Text[:2] == port[:2] && within(t.Text, port) {
				return port, true
			}
		}
	}
	if len(t.Text) < longWord {
		return "", false
	}
	return lex.only(t.Text, func(w string) bool { return len(w) >= longWord-1 && oneApart(t.Text, w) })
}

// only returns the word with the same first letter that fits, when all that fit
// mean the same.
func (lex *Lexicon) only(text string, fits func(string) bool) (string, bool) {
	found := ""
	for _, w := range lex.byLetter[text[0]] {
		if !fits(w) {
			continue
		}
		if found != "" && (lex.alone[w] == nil || !slices.Equal(lex.alone[w], lex.alone[found])) {
			return "", false
		}
		found = w
	}
	return found, found != ""
}

// within reports whether the letters of a short word stand in a long one in the
// same order.
func within(short, long string) bool {
	at := 0
	for i := 0; i < len(long) && at < len(short); i++ {
		if long[i] == short[at] {
			at++
		}
	}
	return at == len(short) && len(short) < len(long)
}

// oneApart reports whether two words differ by one letter that is wrong, missing
// or too many, or by two neighbours that changed places. A word of another
// ending is another word: a machine is not machined.
func oneApart(a, b string) bool {
	if len(a) > len(b) {
		a, b = b, a
	}
	if b == a+"s" {
		return true
	}
	if a[len(a)-1] != b[len(b)-1] || strings.HasPrefix(b, a) {
		return false
	}
	i := 0
	for i < len(a) && a[i] == b[i] {
		i++
	}
	switch len(b) - len(a) {
	case 1:
		return a[i:] == b[i+1:]
	case 0:
		return i < len(a) && (a[i+1:] == b[i+1:] || i+1 < len(a) && a[i] == b[i+1] && a[i+1] == b[i] && a[i+2:] == b[i+2:])
	default:
		return false
	}
}

func isLetters(word string) bool {
	return !strings.ContainsFunc(word, func(r rune) bool { return r < 'a' || r > 'z' })
}
