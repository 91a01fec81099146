// Package words is the lexicon of the headers and title lines of flow sheets:
// what a shop, a supplier or a bench writes over a column, in English, German,
// French, Italian and Spanish. Whole words match, never parts of words, except
// for the stems of a German compound.
package words

import (
	"slices"
	"strings"
	"unicode"
	"unicode/utf8"
)

// Role is what a word of a header says about its column or its sheet.
type Role uint8

// Entry is one meaning with the phrases that carry it.
type Entry struct {
	Role    Role
	Phrases []string // tokens parted by single spaces, folded; "(a|b|)" is any of them
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
	Start, End int  // bytes of the original text
	Dotted     bool // a full stop follows: the word may be clipped
}

// Tokens splits a text into words, numbers and signs. Letters and digits part
// from one another, so that "Int1" and "28in" are two tokens each; a decimal
// number stays whole.
func Tokens(text string) []Token {
	var out []Token
	start, kind := -1, other
	flush := func(end int) {
		if start >= 0 {
			out = append(out, parts(text, start, end)...)
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

// parts returns one run of letters, digits or a sign as a token, a German
// compound as its stems.
func parts(text string, start, end int) []Token {
	dotted := end < len(text) && text[end] == '.'
	whole := []Token{{Fold(text[start:end]), start, end, dotted}}
	var out []Token
	at, folded := start, 0
	for _, p := range compound(whole[0].Text) {
		begin := at
		for at < end && folded < p.end {
			_, size := utf8.DecodeRuneInString(text[at:end])
			folded += len(Fold(text[at : at+size]))
			at += size
		}
		if begin == at || folded != p.end {
			return whole // a stem that ends within a letter
		}
		out = append(out, Token{p.stem, begin, at, false})
	}
	if out == nil {
		return whole
	}
	out[len(out)-1].Dotted = dotted
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
	byFirst  map[string][]phrase // longest first
	words    map[string]bool     // every word of every phrase
	alone    map[string][]Role   // what a word means by itself
	byLetter map[byte][]string   // the words by their first letter, sorted
}

type phrase struct {
	tokens []string
	role   Role
}

// NewLexicon builds a lexicon from entries.
func NewLexicon(entries []Entry) *Lexicon {
	lex := &Lexicon{byFirst: map[string][]phrase{}, words: map[string]bool{}, alone: map[string][]Role{}, byLetter: map[byte][]string{}}
	for _, e := range entries {
		for _, pattern := range e.Phrases {
			for _, text := range expand(pattern) {
				lex.add(e.Role, text)
			}
		}
	}
	for word := range lex.words {
		if isLetters(word) {
			lex.byLetter[word[0]] = append(lex.byLetter[word[0]], word)
		}
	}
	for _, list := range lex.byLetter {
		slices.Sort(list)
	}
	return lex
}

// add lists one phrase. Of two entries of one phrase the first stands.
func (lex *Lexicon) add(role Role, text string) {
	p := phrase{nil, role}
	for _, word := range strings.Fields(text) {
		pieces := compound(word)
		for _, part := range pieces {
			p.tokens = append(p.tokens, part.stem)
		}
		if pieces == nil {
			p.tokens = append(p.tokens, word)
		}
	}
	p.tokens = withoutParticles(p.tokens)
	list := lex.byFirst[p.tokens[0]]
	if slices.ContainsFunc(list, func(have phrase) bool { return slices.Equal(have.tokens, p.tokens) }) {
		return
	}
	at := slices.IndexFunc(list, func(have phrase) bool { return len(have.tokens) < len(p.tokens) })
	if at < 0 {
		at = len(list)
	}
	lex.byFirst[p.tokens[0]] = slices.Insert(list, at, p)
	for _, word := range p.tokens {
		lex.words[word] = true
	}
	if len(p.tokens) == 1 {
		lex.alone[p.tokens[0]] = append(lex.alone[p.tokens[0]], role)
	}
}

// Find returns the phrases of a text from left to right, the longest at each
// place; hits never overlap.
func (lex *Lexicon) Find(tokens []Token) []Hit {
	var hits []Hit
	spelled := lex.spelled(tokens)
	for i := 0; i < len(tokens); {
		p, n := lex.longest(spelled[i:])
		if n == 0 {
			i++
			continue
		}
		if n > 1 && lex.runsOn(spelled[i+n-1:]) {
			p, n = lex.without(p, spelled[i:i+n-1], n)
		}
		hits = append(hits, Hit{p.role, strings.Join(p.tokens, " "), i, n})
		i += n
	}
	return hits
}

// runsOn reports whether a text begins with a phrase of several words.
func (lex *Lexicon) runsOn(have []string) bool {
	_, n := lex.longest(have)
	return n > 1
}

// without leaves the last word of a phrase to the phrase that begins with it,
// when what is left means the same: "intake valve job" is the intake after a
// valve job.
func (lex *Lexicon) without(p phrase, have []string, n int) (phrase, int) {
	if shorter, m := lex.longest(have); m == len(have) && shorter.role == p.role {
		return shorter, m
	}
	return p, n
}

// longest returns the longest phrase that a text begins with, and how many of
// its words it takes.
func (lex *Lexicon) longest(have []string) (phrase, int) {
	for _, p := range lex.byFirst[have[0]] {
		if n := taken(p.tokens, have); n > 0 {
			return p, n
		}
	}
	return phrase{}, 0
}

// taken returns how many words a phrase takes of what follows, particles
// between its own words included; 0 when it does not stand there.
func taken(want, have []string) int {
	n := 0
	for i, w := range want {
		for i > 0 && n < len(have) && have[n] != w && isParticle(have[n]) {
			n++
		}
		if n >= len(have) || have[n] != w {
			return 0
		}
		n++
	}
	return n
}
