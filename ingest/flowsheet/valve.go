package flowsheet

import (
	"regexp"
	"strings"

	"flowshelf/analysis/head"
	"flowshelf/analysis/quantity"
	"flowshelf/analysis/source"
	"flowshelf/ingest/parse"
	"flowshelf/ingest/words"
)

// portValve is the valve size of one port.
type portValve struct {
	port head.Port
	size quantity.Length
}

const (
	valveWord   = `(?:valve|ventil|soupape|valvol|v[aá]lvul)[a-z]*`
	valveFigure = `(\d{1,2}(?:[.,]\d{1,3})?|\.\d{3})\s*("|”|in\b\.?|mm\b)?`
	valvePorts  = `((?:int(?:ake)?|inlet|exh?(?:aust)?|einlass|auslass|adm(?:ission)?|[ée]ch(?:appement)?)\b\.?\s*)`
	valveSize   = `\s*(?:head\s*)?(?:dia(?:meter)?\.?|size|ø)?s?\s*(?:int(?:ake)?\s*/\s*exh?(?:aust)?)?\s*[:=]?\s*`
)

var (
	valvePairAfter  = regexp.MustCompile(`(?i)(?:^|[^\d.,])` + valveFigure + `\s*(?:int(?:ake)?\b\.?)?\s*[/x&+-]\s*` + valveFigure + `\s*(?:exh?(?:aust)?\b\.?)?\s*` + valveWord)
	valvePairPorts  = regexp.MustCompile(`(?i)(?:^|[^\d.,])` + valveFigure + `\s*` + valvePorts + `[,/&+;]?\s*` + valveFigure + `\s*` + valvePorts)
	valvePairBefore = regexp.MustCompile(`(?i)\b` + valveWord + valveSize + valveFigure + `\s*(?:int(?:ake)?\b\.?)?\s*[/x&+-]\s*` + valveFigure)
	valveAfter      = regexp.MustCompile(`(?i)(?:^|[^\d.,])` + valveFigure + `\s*` + valvePorts + `?` + valveWord)
	valveBefore     = regexp.MustCompile(`(?i)` + valvePorts + `?\b` + valveWord + valveSize + `(\d{1,2}[.,]\d{1,3}|\d{2})\s*("|”|in\b\.?|mm\b)?`)
)

// valveOf finds valve sizes: `2.02/1.60 valves`, the intake first by custom,
// `Valves: 2.020 int 1.620 exh`, `52 mm valve`, `Int valve 2.02`.
func valveOf(l *line) {
	l.valvesNamed()
	if ofValves.MatchString(l.text) {
		if m, ok := l.take(valvePairPorts); ok {
			l.valve(m[0], m[1], m[2], m[3])
			l.valve(m[0], m[4], m[5], m[6])
			return
		}
	}
	for _, pattern := range []*regexp.Regexp{valvePairAfter, valvePairBefore} {
		if m, ok := l.take(pattern); ok {
			l.valvePair(m[0], m[1], m[2], m[3], m[4])
			return
		}
	}
	for {
		if m, ok := l.take(valveAfter); ok {
			l.valve(m[0], m[1], m[2], m[3])
		} else if m, ok := l.take(valveBefore); ok {
			l.valve(m[0], m[2], m[3], m[1])
		} else {
			return
		}
	}
}

// valvePair takes the larger of two sizes that stand in the order of the trade,
// intake before exhaust; in any other order nobody can tell.
func (l *line) valvePair(text, a, unitA, b, unitB string) {
	if unitA == "" {
		unitA = unitB
	}
	if unitB == "" {
		unitB = unitA
	}
	intake, step, ok1 := valveLength(a, unitA)
	exhaust, _, ok2 := valveLength(b, unitB)
	if !ok1 || !ok2 || intake < exhaust {
		return
	}
	l.facts.valves.add(portValve{head.Intake, intake}, l.said(text, step...))
	l.facts.valves.add(portValve{head.Exhaust, exhaust}, l.said(text, step...))
}

// valve takes one size, of the port that is named beside it.
func (l *line) valve(text, figure, unit, port string) {
	size, step, ok := valveLength(figure, unit)
	if !ok {
		return
	}
	for _, hit := range words.FlowSheet().Find(words.Tokens(port)) {
		switch hit.Role {
		case words.Intake:
			l.facts.valves.add(portValve{head.Intake, size}, l.said(text, step...))
			return
		case words.Exhaust:
			l.facts.valves.add(portValve{head.Exhaust, size}, l.said(text, step...))
			return
		default:
		}
	}
	l.facts.valve.add(size, l.said(text, step...))
}

// valveLength reads the size of a valve: .8 to 2.8 in, 20 to 70 mm (common
// practice, no source).
func valveLength(figure, unit string) (quantity.Length, []string, bool) {
	x, ok := parse.Plain(strings.ReplaceAll(figure, ",", "."), parse.PointMark)
	unit = strings.ToLower(unit)
	switch {
	case !ok:
		return 0, nil, false
	case (unit == "mm" || unit == "") && x >= 20 && x <= 70:
		return quantity.Millimetres(x), []string{"mm / 25.4 = in"}, true
	case unit != "mm" && x >= 0.8 && x <= 2.8:
		return quantity.Inches(x), nil, true
	default:
		return 0, nil, false
	}
}

// valveOf returns the valve of the port that facts speak of: its own, else the
// one size that is given without a port.
func (f facts) valveOf() (source.Stated[quantity.Length], bool) {
	port, ok := f.port.one()
	if !ok || len(f.valves) == 0 {
		return f.valve.one()
	}
	var own said[quantity.Length]
	for _, v := range f.valves {
		if v.Value.port == port.Value {
			own.add(v.Value.size, v.Trace)
		}
	}
	if len(own) == 0 {
		return source.Stated[quantity.Length]{}, false
	}
	return own.one()
}
