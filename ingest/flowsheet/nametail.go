package flowsheet

import (
	"cmp"
	"regexp"
	"slices"
	"strings"
	"unicode"

	"flowshelf/analysis/source"
	"flowshelf/ingest/words"
)

// A name goes on behind its code: "TA-70 Pro", "SG 300 R". Two products must
// never become one head, so what follows a code and is understood as nothing
// else stays in the name; where it can also be a word in passing, it is asked.

// nameSpan is a head's name in a line.
type nameSpan struct {
	start, end int
	means      string // the shop's spelling; "" for a name it does not list
}

// nameWord is a short word that a name goes on with wherever it stands: "Pro",
// "R", "II", "4V"; a longer one may say what the sheet is. anyWord is one that a
// name goes on with where nothing but a name is expected, and elsewhere perhaps.
var (
	nameWord = regexp.MustCompile(`^ (\p{Lu}[\p{L}\d+']{0,5}(?:-[\p{Lu}\d]{1,3})?|\d{1,3}\p{L}{1,2})(?:[ ,;:.()\[\]/|\x1f]|$)`)
	anyWord  = regexp.MustCompile(`^ ([\p{L}\d][\p{L}\d+']*(?:-[\p{L}\d]+)?)(?:[ ,;:.()\[\]/|\x1f]|$)`)
)

// decimals is what stands behind the whole part of a figure.
var decimals = regexp.MustCompile(`^[.,]\d`)

// longestTail is how many words of its own a name has behind its code; more are
// a sentence.
const longestTail = 3

// tailOf returns where a name that ends at end goes on to in what is left of a
// text, by its revision or words of the pattern. A word that the trade knows, or
// that counts or places something, is no part of a name.
func tailOf(left string, end int, pattern *regexp.Regexp) int {
	end += len(revisionBehind(left[end:]))
	from := end
	for n := 0; ; n++ {
		m := pattern.FindStringSubmatch(left[end:])
		switch {
		case m == nil, notNames.MatchString(m[1]), isTradeWord(m[1]), decimals.MatchString(left[end+1+len(m[1]):]):
			return end
		case n == longestTail:
			return from
		}
		end += 1 + len(m[1])
	}
}

// isTradeWord reports whether a word has a meaning on flow sheets, as a unit
// behind a figure has.
func isTradeWord(word string) bool {
	letters := strings.TrimLeft(word, "0123456789")
	if word == "Ø" || (len(letters) > 1 || letters == "") && notCodes.MatchString(letters) {
		return true
	}
	return len(words.FlowSheet().Find(words.Tokens(word))) > 0
}

// carryOn lets the names of a line go on over the words behind them. A name that
// the shop lists without them may be another head; words over a column, and words
// between two names, are no part of one.
func (r *reader) carryOn(l *line) {
	for _, name := range l.names {
		if end := l.aroundState(name); end > name.end {
			l.facts.state, l.work = nil, span{}
			delete(l.facts.roles, words.Rework)
			delete(l.facts.roles, words.AsDelivered)
			whole := l.forget(name, end)
			l.facts.head.add(whole, l.said(whole))
			continue
		}
		sure := tailOf(l.rest(), name.end, nameWord)
		end := tailOf(l.rest(), sure, anyWord)
		reach := r.mayReach(l, name, end)
		marked, whole := l.wholeWithMark(name)
		switch {
		case whole:
			text := l.forget(name, marked)
			l.facts.head.add(text, l.said(text))
		case l.cutShort(name, end):
			l.facts.unclear.add(l.text[name.start:l.partOf(name.start).end], l.said(l.text))
			l.forget(name, end)
		case reach.start < name.start || reach.end > end:
			l.forget(name, reach.end)
			l.strike(reach.start, reach.end)
			delete(l.facts.roles, words.Power) // no flow is called "Power" before a head's name
			l.facts.loose.add(cmp.Or(name.means, l.text[name.start:name.end]), l.said(l.text[reach.start:reach.end]))
		case r.leftBehind(l, name.end):
			l.facts.unclear.add(l.text[name.start:max(l.partOf(name.start).end, name.end+len(anyBrackets.FindString(l.text[name.end:])))], l.said(l.text))
			l.forget(name, end)
		case end == name.end:
		case name.means != "" && revisionBehind(l.text[name.end:]) != "":
			whole := l.forget(name, end)
			l.facts.loose.add(name.means, l.said(whole))
		case name.means == "" && (l.keyed || end == sure):
			whole := l.forget(name, l.withNoun(end))
			l.facts.head.add(whole, l.said(whole))
		case l.keyed || l.place != inHeader && len(l.names) == 1:
			whole := l.forget(name, l.withNoun(end))
			l.facts.loose.add(cmp.Or(name.means, l.text[name.start:name.end]), l.said(whole))
		}
	}
}

// cutShort reports whether it is not sure how much of a text is the name that ends
// there: behind it stands a mark, a revision, a tester or a word that products are
// called by.
func (l *line) cutShort(name nameSpan, end int) bool {
	behind := l.text[name.end:]
	if gluedMark.MatchString(behind) || partedRevision.MatchString(behind) {
		return true
	}
	return (l.place != inHeader || l.keyed) && (mayGoOn(behind) || mayGoOn(l.text[end:]) || l.isTester(l.text[name.end:end]))
}

// aroundState returns where a name that the shop does not list ends, if it goes on
// behind a state to the end of its part of the text.
func (l *line) aroundState(name nameSpan) int {
	end := len(l.text)
	if at := partGap.FindStringIndex(l.text[name.start:]); at != nil {
		end = name.start + at[0]
	}
	if name.means != "" || l.place == inHeader && !l.keyed || end <= name.end || !isNameAroundState(l.text[name.start:end]) {
		return name.end
	}
	return end
}

// forget takes back a name that goes on to end and returns all of it.
func (l *line) forget(name nameSpan, end int) string {
	short := cmp.Or(name.means, l.text[name.start:name.end])
	l.facts.head = slices.DeleteFunc(slices.Clone(l.facts.head), func(s source.Stated[string]) bool { return s.Value == short })
	l.strike(name.start, end)
	return l.text[name.start:end]
}

// nounBehind is the noun that the last words of a name belong to, at the end of a
// part of the text.
var nounBehind = regexp.MustCompile(`^ (\pL+)(?:[,;:()\[\]/]|\s[-–—(/|]|$)`)

// withNoun takes the noun behind the tail of a name with it: "TA-70 Big Port" and
// "TA-70 Big Valve" are two products.
func (l *line) withNoun(end int) int {
	m := nounBehind.FindStringSubmatch(l.text[end:])
	if m == nil {
		return end
	}
	hits := words.FlowSheet().Find(words.Tokens(m[1]))
	if len(hits) == 1 && (hits[0].Role == words.Port || hits[0].Role == words.PortCount || hits[0].Role == words.Valve) {
		return end + 1 + len(m[1])
	}
	return end
}

// namedBy asks about the value of a key that names a head, when words stay behind
// what was understood of it: "PW-33 CNC Pro".
func (r *reader) namedBy(f facts, value string, l *line) facts {
	if r.isWhole(f, value) {
		f = newFacts()
		f.head.add(value, l.said(value))
		return f
	}
	name, ok := f.head.one()
	if ok && r.partsUnexplained(value, name.Value) {
		f = newFacts()
		f.loose.add(name.Value, l.said(value))
		return f
	}
	if ok && len(f.rest) > 0 && !strings.ContainsAny(value, ",;:()[]/") && !strings.Contains(value, " - ") {
		if _, listed := r.names.listed[name.Value]; !listed && isNameAroundState(value) {
			f = newFacts()
			f.head.add(value, l.said(value))
			return f
		}
		f.head, f.state, f.rest = nil, nil, nil
		f.loose.add(name.Value, l.said(value))
	}
	return f
}

// inSentence returns the name before a word in small letters, which in a sentence
// is the next word and no part of the name: "OB-4 makes 275 cfm".
func (f facts) inSentence() (source.Stated[string], bool) {
	name, ok := f.loose.one()
	behind, found := strings.CutPrefix(name.Trace.Text, name.Value+" ")
	if !ok || !found || len(f.head) > 0 || !unicode.IsLower([]rune(behind + " ")[0]) {
		return name, false
	}
	name.Trace.Text = name.Value
	return name, true
}
