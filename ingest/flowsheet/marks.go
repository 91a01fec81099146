package flowsheet

import (
	"regexp"
	"slices"
	"strings"

	"flowshelf/analysis/head"
	"flowshelf/analysis/source"
	"flowshelf/ingest/parse"
	"flowshelf/ingest/words"
)

var (
	cylinderName = regexp.MustCompile(`^(?:\d{1,2}|[A-H])$`)
	measures     = regexp.MustCompile(`(?i)^(?:[.,]\d|\s*(?:"|”|''|(?:in|inch|inches|mm|mbar|kpa|thou|h2o|angle)\b))`)
	hashMark     = regexp.MustCompile(`#\s*(\d{1,2})\b`)
	portNumber   = regexp.MustCompile(`(?i)\b((?:int(?:ake)?|ex(?:h(?:aust)?)?|inlet|outlet|einl(?:ass|aß)?|ausl(?:ass|aß)?|adm(?:ission|isión|ision)?|asp(?:irazione)?|[ée]ch(?:appement)?|esc(?:ape)?|scar(?:ico)?))(?:\.?\s*(?:(?:port|flow|side)\s*)?#?(\d)\b|[.\s]\s*(?:(?:port|flow|side)\s*)?([A-D])(?:[\s,()]|$))`)
	numberPort   = regexp.MustCompile(`(?i)^\s*#?\s*(\d)\s*[.)-]?\s*(?:int|ex|inl|outl|einl|ausl|adm|asp|esc|scar)[a-z]*\b`)
	portLetter   = regexp.MustCompile(`(?i)\bport\s*#?\s*(\d{1,2}|[A-D])\b`)
	loneLetter   = regexp.MustCompile(`^[\s,()]*([A-D])[\s,()]*$`)
	loneNumber   = regexp.MustCompile(`^[\s,()]*([1-9]|1[0-2])[\s,()]*$`)
)

// measureGoesOn is what makes a measure of the figure before it: "Int 4.125 bore",
// "Exh 4-1/8 bore" are no fourth port, "Inlet 3-angle seats" no third.
var measureGoesOn = regexp.MustCompile(`(?i)^(?:[.,]\d|[ -]\d{1,2}/\d|[ -]?(?:angles?|winkel|angoli|[aá]ngulos)\b)`)

// clippedSide is a Spanish side that ends a header: "Izq.", "Admisión der." No
// German header ends with its article.
var clippedSide = regexp.MustCompile(`(?i)(?:^|[\s.(])(izq(?:d[ao])?|izd[ao]|dch[ao]|der)\.?\s*\)?\s*$`)

// portMarkOf finds which port or which run a header names. Only a header
// names one; a title line merely tells which ports were flowed.
func portMarkOf(l *line) {
	if l.place != inHeader {
		return
	}
	l.numbered()
	if m, ok := l.take(clippedSide); ok {
		side := "right"
		if strings.EqualFold(m[1][:2], "iz") {
			side = "left"
		}
		l.facts.mark.add(side, l.said(m[0]))
	}
	if m := portNumber.FindStringSubmatchIndex(l.rest()); m != nil && !measureGoesOn.MatchString(l.rest()[m[1]:]) {
		from, to := max(m[4], m[6]), max(m[5], m[7])
		l.facts.mark.add(strings.ToUpper(l.text[from:to]), l.said(l.text[m[0]:m[1]]))
		l.strike(from, to)
	}
	if m := numberPort.FindStringSubmatchIndex(l.rest()); m != nil {
		l.facts.mark.add(l.text[m[2]:m[3]], l.said(l.text[m[0]:m[1]]))
		l.strike(m[2], m[3])
	}
	for _, pattern := range []*regexp.Regexp{hashMark, portLetter} {
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

// mostRuns is how many runs or cylinders a sheet counts; a higher figure behind
// "tested" is a pressure.
const mostRuns = 24

// numbered finds the number behind a word for a run, a test or a cylinder:
// "Run 2", "Messung Nr. 3", "Cyl. 4".
func (l *line) numbered() {
	tokens := words.Tokens(l.rest())
	for _, hit := range words.FlowSheet().Find(tokens) {
		at := hit.At + hit.Tokens
		for at < len(tokens) && slices.Contains([]string{"no", "nr", "n", "num", "#"}, tokens[at].Text) {
			at++
		}
		if at >= len(tokens) {
			continue
		}
		start, number := tokens[hit.At].Start, tokens[at]
		whole := l.text[start:number.End]
		switch hit.Role {
		case words.Run, words.Tested:
			if n, ok := parse.Plain(number.Text, parse.PointMark); ok && n >= 1 && n <= mostRuns && !measures.MatchString(l.rest()[number.End:]) {
				l.facts.run.add(number.Text, l.said(whole))
				l.facts.roles[words.Run] = true
				l.strike(start, number.End)
			}
		case words.Cylinder:
			if cylinderName.MatchString(l.text[number.Start:number.End]) {
				l.strike(start, number.End)
				l.markedBy(number.Text, whole)
			}
		default:
		}
	}
}

func (l *line) markedBy(mark, text string) {
	l.facts.mark.add(strings.ToUpper(mark), l.said(text))
	l.facts.roles[words.Cylinder] = true
}

// unlikePorts are pairs of marks of two ports of one head that are not alike; one of
// them without the other says how well something went.
func unlikePorts() [][2]string {
	return [][2]string{{"good", "bad"}, {"guter", "schlechter"}, {"bon", "mauvais"}, {"buono", "cattivo"}, {"bueno", "malo"}}
}

// settleUnlike takes "Int (bad)" for words that nobody knows, where no "Int (good)"
// stands beside it.
func (t *table) settleUnlike() {
	for _, ln := range t.lanes {
		for _, pair := range unlikePorts() {
			for i, mark := range pair {
				if ln.facts.mark.has(mark) && !slices.ContainsFunc(t.lanes, func(o *lane) bool {
					return o.facts.mark.has(pair[1-i]) && slices.EqualFunc(o.facts.port, ln.facts.port, samePort)
				}) {
					ln.facts.mark = nil
					ln.facts.rest = append(slices.Clone(ln.facts.rest), mark)
				}
			}
		}
	}
}

func samePort(a, b source.Stated[head.Port]) bool { return a.Value == b.Value }
