package flowsheet

import (
	"regexp"
	"strings"

	"flowshelf/analysis/source"
)

// place says where a text stands, which decides how much of it counts.
type place uint8

const (
	inHeader place = iota // over or beside a column of flows
	inTitle               // a title line, a note
	onTab                 // the name of a tab or a file
)

// line is a text whose understood parts are struck out as they are read, so
// that no figure is read twice.
type line struct {
	text  string
	left  []byte // struck bytes are \x1f
	trace source.Trace
	place place
	facts facts
	names []nameSpan // the names of heads found in it
	work  span       // the words of a rework
	keyed bool       // the value of a key that names a head
}

const struck = '\x1f'

func newLine(text string, trace source.Trace, where place) *line {
	trace.Text = text
	return &line{text: text, left: []byte(text), trace: trace, place: where, facts: newFacts()}
}

// rest returns what is left, struck parts as \x1f.
func (l *line) rest() string { return string(l.left) }

// strike takes a part out.
func (l *line) strike(start, end int) {
	for i := max(start, 0); i < min(end, len(l.left)); i++ {
		l.left[i] = struck
	}
}

// take finds a pattern in what is left and strikes the whole match.
func (l *line) take(pattern *regexp.Regexp) ([]string, bool) {
	at := pattern.FindStringSubmatchIndex(l.rest())
	if at == nil {
		return nil, false
	}
	groups := make([]string, len(at)/2)
	for i := range groups {
		if at[2*i] >= 0 {
			groups[i] = l.text[at[2*i]:at[2*i+1]]
		}
	}
	l.strike(at[0], at[1])
	return groups, true
}

// said returns the trace of one part of the line.
func (l *line) said(part string, steps ...string) source.Trace {
	t := l.trace
	t.Text = strings.TrimSpace(part)
	t.Steps = append([]string(nil), steps...)
	return t
}

// leftOver returns the words nobody understood.
func (l *line) leftOver() []string {
	return wordsIn(l.rest())
}

func wordsIn(text string) []string {
	return strings.FieldsFunc(text, func(r rune) bool {
		return r == struck || r == ' ' || strings.ContainsRune(",;:.()[]/|\"'–—-&+=*@\t\n", r)
	})
}
