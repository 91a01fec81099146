package flowsheet

import (
	"regexp"
	"strings"
	"unicode"

	"flowshelf/ingest/words"
)

// A maker puts words of his own beside a name that is another product's as well:
// "TA-70 (Race)", "Power PS-300", "TA-70 Super Stock". Words that are no state of the
// head, no word of the sheet and nobody's name make it unsure that the head is the
// one that is called without them.

var (
	bracketed = regexp.MustCompile(`^ ?[(\[]([^()\[\]]*)[)\]]`)
	// stockClass is what racing classes are called by before "Stock", which behind any
	// other name is the head as delivered.
	stockClass  = regexp.MustCompile(`(?i)\b(?:super|pro|top|comp|modified|street)$`)
	stockBehind = regexp.MustCompile(`^[ -][Ss][Tt][Oo][Cc][Kk](?:$|[\s,;:.()\[\]/|])`)
	partBehind  = regexp.MustCompile(`^(?:,| [-–—/]) (\pL{2,}|\d(?:st|nd|rd|th) \pL+)(?:$|,| [-–—/] |[;|])`)
	// ofPaper are the words for a sheet and what stands on it (common practice, no source).
	ofPaper    = regexp.MustCompile(`(?i)^(?:(?:pr[üu]f|mess|test)?(?:report|bericht|protokoll|blatt|rapport|fiche|relazione|scheda|verbale|informe|ficha|hoja|acta)|data(?:sheet|sheets)?|sheets?|datenbl[aä]tt(?:er)?|results?|ergebnis(?:se)?|r[ée]sultats?|risultat[oi]|resultados?|values?|werte|daten|figures?|copy|draft|final|summary|overview|customer|kunde|client|cliente|job|order)$`)
	wordBefore = regexp.MustCompile(`(\p{Lu}[\pL\d'+]*) $`)
)

// mayReach returns from where to where a name may reach that ends at end.
func (r *reader) mayReach(l *line, name nameSpan, end int) span {
	out := span{start: name.start, end: end}
	if m := bracketed.FindStringSubmatchIndex(l.text[end:]); m != nil && r.leavesMark(l.text[end+m[2]:end+m[3]], wordsIn(l.rest()[end+m[2]:end+m[3]]), func(word string) bool {
		return l.place == inTitle && letterMark.MatchString(word)
	}) {
		out.end += m[1]
	}
	if m := stockBehind.FindString(l.text[end:]); m != "" && (stockClass.MatchString(l.text[:end]) || name.means != "" && endsInWord(l.text[name.start:end]) && strings.Contains(m, "S")) {
		out.end += len(" Stock")
	}
	if m := partBehind.FindStringSubmatchIndex(l.text[end:]); m != nil && l.place != onTab && r.isStrange(l.text[end+m[2]:end+m[3]]) && strings.Contains(l.rest()[end:end+m[1]], l.text[end+m[2]:end+m[3]]) {
		out.end += m[3]
	}
	if name.means != "" {
		out.start = r.reachBefore(l, name)
	}
	return out
}

// reachesOn reports whether a name that is taken from a line may reach further there.
func (r *reader) reachesOn(l *line, name string) bool {
	start := strings.Index(l.text, name)
	if start < 0 {
		return false
	}
	end := start + len(name)
	return r.mayReach(l, nameSpan{start: start, end: end}, end).end > end
}

// reachBefore returns where the words right before a listed name begin that may belong
// to it.
func (r *reader) reachBefore(l *line, name nameSpan) int {
	from, part := name.start, l.partOf(name.start)
	for {
		m := wordBefore.FindStringSubmatchIndex(l.text[part.start:from])
		if m == nil {
			return from
		}
		start := part.start + m[2]
		word := l.text[start : from-1]
		switch strange := r.isStrange(word) && strings.Contains(l.rest()[start:from], word); {
		case strange:
		case start == part.start && from == name.start && calledBy(word) && (l.place != inHeader || l.keyed || l.facts.roles[words.Power]):
		default:
			return from
		}
		from = start
	}
}

// isStrange reports whether a word beside a name is neither a figure, nor initials, nor
// known to the trade, nor of somebody's name.
func (r *reader) isStrange(word string) bool {
	letters := strings.IndexFunc(word, unicode.IsLetter) >= 0
	return letters && !ofPaper.MatchString(word) && !areInitials(word) && !isTradeWord(word) && !notNames.MatchString(word) && !r.names.around[strings.ToLower(word)]
}

// calledBy reports whether a word of the trade is one that products are called by.
func calledBy(word string) bool {
	hits := words.FlowSheet().Find(words.Tokens(word))
	return len(hits) == 1 && hits[0].Tokens == len(words.Tokens(word)) && mayNameAProduct(hits[0].Role)
}

// endsInWord reports whether the last word of a name has no figure.
func endsInWord(name string) bool {
	last := name[strings.LastIndexAny(name, " -")+1:]
	return len(last) > 1 && !strings.ContainsFunc(last, unicode.IsDigit)
}
