// Package words is the lexicon of the headers and title lines of flow sheets:
// what a shop, a supplier or a bench writes over a column, in English, German,
// French, Italian and Spanish. Whole words match, never parts of words.
package words

import (
	"slices"
	"strings"
	"unicode"
)

// Role is what a word of a header says about its column or its sheet.
type Role uint8

// Entry is one meaning with the phrases that carry it.
type Entry struct {
	Role    Role
	Phrases []string // tokens parted by single spaces, folded
}

// Hit is one phrase found in a text.
type Hit struct {
	Role   Role
	Phrase string
	At     int // first token
	Tokens int
}

// Token is one word, number or sign of a text, lower-cased and without accents.
type Token struct {
	Text       string
	Start, End int // bytes of the original text
}

// Tokens splits a text into words, numbers and signs. Letters and digits part
// from one another, so that "Int1" and "28in" are two tokens each; a decimal
// number stays whole.
func Tokens(text string) []Token {
	var out []Token
	start, kind := -1, other
	flush := func(end int) {
		if start >= 0 {
			out = append(out, Token{Fold(text[start:end]), start, end})
			start = -1
		}
	}
	for i, r := range text {
		k := kindOf(r)
		if k == digit || (kind == digit && (r == '.' || r == ',') && digitFollows(text, i+1)) {
			k = digit
		}
		if k != kind || k == sign {
			flush(i)
		}
		if k != other && start < 0 {
			start = i
		}
		kind = k
	}
	flush(len(text))
	return out
}

type runeKind uint8

const (
	other runeKind = iota // space and separators
	letter
	digit
	sign
)

func kindOf(r rune) runeKind {
	switch {
	case unicode.IsLetter(r):
		return letter
	case unicode.IsDigit(r):
		return digit
	case strings.ContainsRune("#%@+*=$\"", r):
		return sign
	default:
		return other
	}
}

func digitFollows(text string, at int) bool {
	return at < len(text) && text[at] >= '0' && text[at] <= '9'
}

// Fold lower-cases a text and takes the accents off, so that "Levée" and
// "LEVEE" are one word.
func Fold(text string) string {
	return strings.ReplaceAll(strings.Map(plainRune, strings.ToLower(text)), "ß", "ss")
}

func plainRune(r rune) rune {
	switch r {
	case 'ä', 'à', 'á', 'â':
		return 'a'
	case 'è', 'é', 'ê', 'ë':
		return 'e'
	case 'ì', 'í', 'î', 'ï':
		return 'i'
	case 'ö', 'ò', 'ó', 'ô':
		return 'o'
	case 'ü', 'ù', 'ú', 'û':
		return 'u'
	case 'ç':
		return 'c'
	case 'ñ':
		return 'n'
	case '³':
		return '3'
	case '²':
		return '2'
	}
	return r
}

// Lexicon finds phrases in texts.
type Lexicon struct {
	byFirst map[string][]phrase // longest first
}

type phrase struct {
	tokens []string
	role   Role
}

// NewLexicon builds a lexicon from entries.
func NewLexicon(entries []Entry) *Lexicon {
	lex := &Lexicon{byFirst: make(map[string][]phrase)}
	for _, e := range entries {
		for _, text := range e.Phrases {
			p := phrase{strings.Fields(text), e.Role}
			list := lex.byFirst[p.tokens[0]]
			at := slices.IndexFunc(list, func(have phrase) bool { return len(have.tokens) < len(p.tokens) })
			if at < 0 {
				at = len(list)
			}
			lex.byFirst[p.tokens[0]] = slices.Insert(list, at, p)
		}
	}
	return lex
}

// Find returns the phrases of a text from left to right, the longest at each
// place; hits never overlap.
func (lex *Lexicon) Find(tokens []Token) []Hit {
	var hits []Hit
	for i := 0; i < len(tokens); {
		p, ok := lex.longest(tokens[i:])
		if !ok {
			i++
			continue
		}
		hits = append(hits, Hit{p.role, strings.Join(p.tokens, " "), i, len(p.tokens)})
		i += len(p.tokens)
	}
	return hits
}

func (lex *Lexicon) longest(tokens []Token) (phrase, bool) {
	for _, p := range lex.byFirst[tokens[0].Text] {
		if matches(p.tokens, tokens) {
			return p, true
		}
	}
	return phrase{}, false
}

func matches(want []string, have []Token) bool {
	if len(want) > len(have) {
		return false
	}
	for i, w := range want {
		if have[i].Text != w {
			return false
		}
	}
	return true
}
