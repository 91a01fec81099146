package flowsheet

import (
	"regexp"
	"strings"

	"flowshelf/ingest/parse"
	"flowshelf/ingest/words"
)

var (
	cylinderMark = regexp.MustCompile(`(?i)\b(?:cyl(?:inder)?|zyl(?:inder)?|cil(?:indro)?|cylindr[eo])s?\.?\s*(?:no\.?|nr\.?|n°)?\s*#?\s*(\d{1,2}|[A-H]\b)`)
	hashMark     = regexp.MustCompile(`#\s*(\d{1,2})\b`)
	runMark      = regexp.MustCompile(`(?i)\b(?:run|pull|lauf|rep|messung|test|durchgang|essai|pass(?:age|e)?|prova|prueba|pasada)\s*(?:no\.?|nr\.?|n°)?\s*#?\s*(\d{1,2})\b`)
	portNumber   = regexp.MustCompile(`(?i)\b((?:int(?:ake)?|ex(?:h(?:aust)?)?|inlet|outlet|einl(?:ass|aß)?|ausl(?:ass|aß)?|adm(?:ission|isión|ision)?|asp(?:irazione)?|[ée]ch(?:appement)?|esc(?:ape)?|scar(?:ico)?))(?:\.?\s*(?:(?:port|flow|side)\s*)?#?(\d)\b|[.\s]\s*(?:(?:port|flow|side)\s*)?([A-D])(?:[\s,()]|$))`)
	numberPort   = regexp.MustCompile(`(?i)^\s*#?\s*(\d)\s*[.)-]?\s*(?:int|ex|inl|outl|einl|ausl|adm|asp|esc|scar)[a-z]*\b`)
	portLetter   = regexp.MustCompile(`(?i)\bport\s*#?\s*(\d{1,2}|[A-D])\b`)
	loneLetter   = regexp.MustCompile(`^[\s,()]*([A-D])[\s,()]*$`)
	loneNumber   = regexp.MustCompile(`^[\s,()]*([1-9]|1[0-2])[\s,()]*$`)
)

// portMarkOf finds which port or which run a header names. Only a header
// names one; a title line merely tells which ports were flowed.
func portMarkOf(l *line) {
	if l.place != inHeader {
		return
	}
	if m, ok := l.take(runMark); ok {
		l.facts.run.add(m[1], l.said(m[0]))
		l.facts.roles[words.Run] = true
	}
	if m := portNumber.FindStringSubmatchIndex(l.rest()); m != nil {
		from, to := max(m[4], m[6]), max(m[5], m[7])
		l.facts.mark.add(strings.ToUpper(l.text[from:to]), l.said(l.text[m[0]:m[1]]))
		l.strike(from, to)
	}
	if m := numberPort.FindStringSubmatchIndex(l.rest()); m != nil {
		l.facts.mark.add(l.text[m[2]:m[3]], l.said(l.text[m[0]:m[1]]))
		l.strike(m[2], m[3])
	}
	for _, pattern := range []*regexp.Regexp{cylinderMark, hashMark, portLetter} {
		if m, ok := l.take(pattern); ok {
			l.markedBy(m[1], m[0])
		}
	}
	alone := strings.ReplaceAll(parse.StrikeFlowUnit(l.rest()), string(struck), " ") // "A (cfm)"
	for _, pattern := range []*regexp.Regexp{loneLetter, loneNumber} {
		if m := pattern.FindStringSubmatchIndex(alone); m != nil {
			l.markedBy(alone[m[2]:m[3]], l.text)
			l.strike(m[2], m[3])
		}
	}
}

func (l *line) markedBy(mark, text string) {
	l.facts.mark.add(strings.ToUpper(mark), l.said(text))
	l.facts.roles[words.Cylinder] = true
}
