package flowsheet

import (
	"regexp"
	"slices"
	"strings"

	"flowshelf/analysis/source"
)

// Right behind its code a name may have a mark: "KR14/2", "PW-52B/C", "TD-30 [A]",
// "VR-12 (4471)". It makes another product of it, so it is kept or asked about, never
// dropped.

var (
	// gluedMark is a mark without a gap, anotherMark a second one.
	gluedMark   = regexp.MustCompile(`^(?:/\d{1,4}\p{Lu}?|/\p{Lu}|\+|[:=]\d{1,2})(?:$|[\s,;|)(\x1f])`)
	anotherMark = regexp.MustCompile(`^ ?[&+] ?(?:\p{Lu}|\d)(?:$|[\s,;|)])`)
	// figureMark, ordinalMark and letterBehind stand apart from the name.
	figureMark   = regexp.MustCompile(`^ \d{1,4}(?:$|[,;|)])`)
	ordinalMark  = regexp.MustCompile(`^ \d(?:st|nd|rd|th)\b`)
	letterBehind = regexp.MustCompile(`^ (?:\p{Lu}|["'“‘„«]\p{Lu}["'”’“»])(?:$|[,;|]|\s{2}|\s[-–—/])`)
	// anyBrackets is what stands in brackets, oneMark a letter or a figure in them, as
	// of a port or a copy.
	anyBrackets = regexp.MustCompile(`^ ?[(\[{<][^()\[\]{}<>]*[)\]}>]`)
	oneMark     = regexp.MustCompile(`^ ?[(\[{<][\p{Lu}\d][)\]}>]$`)
	// markAlone is a mark that all of a text is.
	markAlone = regexp.MustCompile(`^(?:(?:/\d{1,4}\p{Lu}?|/\p{Lu}|\+|[:=]\d{1,2}|[&+]\p{Lu})| ?["'“‘„«]\p{Lu}\pL*["'”’“»]| \p{Lu})$`)
	// shortMark is a mark that is no year: "TA-70/23" may be one of 2023.
	shortMark = regexp.MustCompile(`^(?:/\d\p{Lu}?|/\p{Lu}|\+)$`)
	// letterMark is a letter, or a figure that is no number of a copy.
	letterMark = regexp.MustCompile(`^(?:\p{Lu}|\d{2,})$`)
)

// wholeWithMark returns the name of a part of a line that is nothing but a code the
// shop does not list and a mark without a gap.
func (l *line) wholeWithMark(name nameSpan) (end int, whole bool) {
	part := l.partOf(name.start)
	for part.end > name.end && l.text[part.end-1] == ' ' {
		part.end--
	}
	whole = name.means == "" && part.start == name.start && shortMark.MatchString(l.text[name.end:part.end])
	return part.end, whole
}

// isWhole reports whether the value of a head's key is a name that the shop does not
// list and a mark right behind it, and nothing else: stated as it stands, it is the name.
func (r *reader) isWhole(f facts, value string) bool {
	name, ok := f.head.and(f.loose).one()
	if _, listed := r.names.listed[name.Value]; !ok || listed {
		return false
	}
	behind, found := strings.CutPrefix(value, name.Value)
	if !found || behind == "" {
		return false
	}
	if m := anyBrackets.FindString(behind); m != "" {
		return m == behind && (oneMark.MatchString(behind) || !r.explains(strings.Trim(behind, " ()[]{}<>")))
	}
	return markAlone.MatchString(behind)
}

// explains reports whether all of a text behind a name tells something else of the
// test: a state, a port, a bore, who flowed it, what the paper is.
func (r *reader) explains(text string) bool {
	if !slices.ContainsFunc(wordsIn(text), func(word string) bool { return !r.isNobodys(word) }) {
		return true
	}
	f := r.read(newLine(text, source.Trace{}, inHeader))
	other := len(f.flowUnit) + len(f.operator) + len(f.valve) + len(f.valves) + len(f.supplier) + len(f.bench) + len(f.own) + len(f.leak) + len(f.ports)
	left := r.leavesMark(text, f.rest, letterMark.MatchString)
	return !left && (f.states() || f.setUp() || other > 0)
}

// partsUnexplained reports whether one of the short parts behind the name that a key
// states tells nothing else of the test: "OB-9, 2nd design", "OB-9 / 64".
func (r *reader) partsUnexplained(value, name string) bool {
	behind, found := strings.CutPrefix(value, name)
	if !found || !partGap.MatchString(behind) || partGap.FindStringIndex(behind)[0] != 0 {
		return false
	}
	for _, part := range partGap.Split(behind, -1) {
		part = strings.Trim(part, nameEdges)
		if list := strings.Fields(part); len(list) > 0 && len(list) <= longestPlain && !r.isCondition(part) && !r.explains(part) {
			return true
		}
	}
	return false
}

// isNobodys reports whether a word beside a name says nothing of the head: it is of the
// paper, of a tester or of a name that the shop knows.
func (r *reader) isNobodys(word string) bool {
	return ofPaper.MatchString(word) || areInitials(word) && !roman.MatchString(word) || r.names.around[strings.ToLower(word)]
}

// leftBehind reports whether right behind a name that no key states something stands
// that may belong to it and is understood as nothing else: "VR-12/4471", "TD-30 A".
func (r *reader) leftBehind(l *line, end int) bool {
	if l.keyed {
		return false
	}
	behind := l.text[end:]
	if gluedMark.MatchString(behind) || anotherMark.MatchString(behind) || figureMark.MatchString(l.rest()[end:]) || ordinalMark.MatchString(behind) {
		return true
	}
	if m := anyBrackets.FindString(behind); m != "" && (l.place == inTitle || !oneMark.MatchString(m)) {
		return oneMark.MatchString(m) || !r.explains(strings.Trim(m, " ()[]{}<>"))
	}
	return l.place == inTitle && letterBehind.MatchString(behind)
}

// leavesMark reports whether a text in brackets leaves a word that nobody knows, or one
// of a name of the shop's without the rest of it: "small chamber" where a family is
// called "Small Eight".
func (r *reader) leavesMark(text string, left []string, also func(string) bool) bool {
	around := func(word string) bool { return r.names.around[strings.ToLower(word)] }
	all := wordsIn(text)
	return slices.ContainsFunc(left, func(word string) bool {
		return r.isStrange(word) || also(word) || around(word) && !slices.ContainsFunc(all, func(other string) bool { return other != word && around(other) }) && len(all) > 1
	})
}
