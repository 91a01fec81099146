package flowsheet

import (
	"cmp"
	"slices"
	"strings"
	"unicode"
	"unicode/utf8"
)

// nameList finds names in texts as whole words, however many names there are: a
// text is looked up by its words, not searched for each name.
type nameList struct {
	all     []named
	byStart map[string][]int // by the letters and digits that a name begins with, the places in all
}

type named struct {
	written string // in small letters
	means   string
}

func (l *nameList) add(written, means string) {
	if l.byStart == nil {
		l.byStart = map[string][]int{}
	}
	n := named{smallLetters(written), means}
	l.byStart[opening(n.written)] = append(l.byStart[opening(n.written)], len(l.all))
	l.all = append(l.all, n)
}

// means reports whether some name means a thing.
func (l *nameList) means(thing string) bool {
	return slices.ContainsFunc(l.all, func(n named) bool { return n.means == thing })
}

// span is where a name stands in a text.
type span struct {
	start, end int
	means      string
}

// find returns where the names stand, in the order of the list and then of the
// text. A name within a longer one is none of its own: "TA-70" in "TA-70 Super".
func (l *nameList) find(text string) []span {
	type hit struct {
		place int
		span
	}
	var hits []hit
	lower := smallLetters(text)
	inWord := false
	for start, r := range lower {
		begins := !inWord
		if inWord = isWordRune(r); !begins {
			continue
		}
		for _, i := range l.byStart[opening(lower[start:])] {
			n := l.all[i]
			end := start + len(n.written)
			if strings.HasPrefix(lower[start:], n.written) && wholeWord(lower, start, end) {
				hits = append(hits, hit{i, span{start, end, n.means}})
			}
		}
	}
	hits = slices.DeleteFunc(slices.Clone(hits), func(h hit) bool {
		return slices.ContainsFunc(hits, func(o hit) bool {
			return o.start <= h.start && h.end <= o.end && o.end-o.start > h.end-h.start
		})
	})
	slices.SortFunc(hits, func(a, b hit) int { return cmp.Or(cmp.Compare(a.place, b.place), cmp.Compare(a.start, b.start)) })
	out := make([]span, len(hits))
	for i, h := range hits {
		out[i] = h.span
	}
	return out
}

// smallLetters is a text in small letters, each as long as it was: places in the
// one are places in the other.
func smallLetters(text string) string {
	return strings.Map(func(r rune) rune {
		if low := unicode.ToLower(r); utf8.RuneLen(low) == utf8.RuneLen(r) {
			return low
		}
		return r
	}, text)
}

// opening are the letters and digits that a text begins with.
func opening(text string) string {
	for i, r := range text {
		if !isWordRune(r) {
			return text[:i]
		}
	}
	return text
}

func isWordRune(r rune) bool { return unicode.IsLetter(r) || unicode.IsDigit(r) }

// wholeWord reports whether no letter or digit touches the span, also across a
// dash: OB-4 does not stand in OB-44, nor PW-33 in PW-33-B.
func wholeWord(text string, start, end int) bool {
	near, size := utf8.DecodeLastRuneInString(text[:start])
	next, _ := utf8.DecodeLastRuneInString(text[:start-size])
	if touches(near, next) {
		return false
	}
	near, size = utf8.DecodeRuneInString(text[end:])
	next, _ = utf8.DecodeRuneInString(text[end+size:])
	return !touches(near, next)
}

// touches reports whether what stands beside a name carries it on: near is the
// next character, next the one after it.
func touches(near, next rune) bool {
	if isWordRune(near) {
		return true
	}
	return (near == '-' || near == '.') && (unicode.IsDigit(next) || (near == '-' && unicode.IsLetter(next)))
}
