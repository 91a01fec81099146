package flowsheet

import (
	"regexp"
	"slices"
	"strings"

	"flowshelf/analysis/head"
	"flowshelf/ingest/decode"
	"flowshelf/ingest/parse"
	"flowshelf/ingest/words"
)

// openWord says over a column that its port blew into the open: an exhaust
// without a pipe, an intake without a manifold (common practice, no source).
const openWord = `(?:open|offen|offene[rn]?|ouverte?|apert[oa]|abiert[oa]|libre|liber[oa])`

var (
	opened    = regexp.MustCompile(`(?i)(?:^|[^\pL])(` + openWord + `)(?:$|[^\pL])`)
	openEnded = regexp.MustCompile(`(?i)^\W*` + openWord + `\W*$`)
	ofValves  = regexp.MustCompile(`(?i)valve|vlv|ventil|soupape|valvol|v[aá]lvul`)
)

// portsNamed returns the ports that a text names for certain.
func portsNamed(text string) []words.Role {
	var out []words.Role
	for _, hit := range words.FlowSheet().Find(words.Tokens(text)) {
		if (hit.Role == words.Intake || hit.Role == words.Exhaust) && !slices.Contains(out, hit.Role) {
			out = append(out, hit.Role)
		}
	}
	return out
}

// namesFlowOfPort reports whether a header names what flows through a port:
// the port and a unit of flow, or the port and "open". Whatever else stands in
// it, it is no label of lifts.
func namesFlowOfPort(text string) bool {
	closed := opened.ReplaceAllString(text, " ")
	if len(portsNamed(closed)) == 0 {
		return false
	}
	_, unit := parse.FindFlowUnit(text)
	return unit || closed != text && !ofValves.MatchString(text)
}

// openOf reads "Exhaust open" over a column: without a pipe.
func openOf(l *line) {
	if l.place != inHeader || ofValves.MatchString(l.text) {
		return
	}
	at := opened.FindStringSubmatchIndex(l.rest())
	if at == nil {
		return
	}
	ports := portsNamed(l.text[:at[2]] + " " + l.text[at[3]:])
	switch {
	case slices.Contains(ports, words.Exhaust) && !pipeNamed.MatchString(l.text):
		l.facts.pipe.add(head.WithoutPipe, l.said(l.text[at[2]:at[3]]))
	case !slices.Contains(ports, words.Intake):
		return
	}
	l.strike(at[2], at[3])
}

// pipeNamed is a pipe that "open" may be said of.
var pipeNamed = regexp.MustCompile(`(?i)pipe|stub|tube|rohr|tuyau|tubo|krümmer|header`)

// openUnder puts a header below another one, as under does. "open" below
// "Exhaust" is the exhaust without a pipe.
func (t *table) openUnder(r *reader, c decode.Cell, f, upper facts) facts {
	if len(f.port) == 0 && upper.port.has(head.Exhaust) && openEnded.MatchString(strings.TrimSpace(c.Text)) {
		f.pipe.add(head.WithoutPipe, r.trace(t.plane().Page, c))
		f.rest = nil
	}
	return f.under(upper)
}

// unlabelled is a list without the word over it.
func (a axis) unlabelled() axis {
	a.label = decode.Cell{Kind: decode.Empty}
	return a
}
