package flowsheet

import (
	"regexp"

	"flowshelf/ingest/decode"
	"flowshelf/ingest/layout"
	"flowshelf/ingest/parse"
)

// figuresWord speaks of the figures of a sheet, in the plural: what is said of
// them holds for every table.
var figuresWord = regexp.MustCompile(`(?i)^\W*(?:(?:the|die|les|i|gli|le|los|las)\s+)?(?:(?:air ?)?flow (?:figures|values|readings|numbers|results|data)|figures|flows|readings|values|results|measurements|` +
	`(?:durchfluss|str[oö]mungs|mess)?werte|messungen|angaben|d[eé]bits|valeurs|mesures|portate|valori|misure|caudales|valores|medidas|flujos)\s+(?:\pL+\s+)?(?:(?:given|shown|stated|angegeben|exprim[eé]e?s|espress[ie]|expresad[oa]s)\s+)?(?:in|at|as|are|bei|en|sous|[àa]|sono|son)(?:$|[^\pL])`)

// speaksOfFigures reports whether a note says in which unit or at which
// pressure the figures are, all of them.
func speaksOfFigures(g []layout.Line) bool {
	text := g[0].Cells[0].Text
	if !figuresWord.MatchString(text) {
		return false
	}
	_, unit := parse.FindFlowUnit(text)
	return unit || len(parse.FindPressures(text)) > 0
}

// ofAll takes what the lines over the first tables say of all figures, and the
// conditions that open a sheet before any name, for the whole page, though they
// stand with the name of one head.
func (s *surroundings) ofAll(r *reader, page *layout.Page, lines []layout.Line) {
	for i := range lines {
		g := lines[i : i+1]
		said := r.scopeOf(page, g, nil)
		switch {
		case speaksOfAll(g) || speaksOfFigures(g):
			s.foot = join(s.foot, said.conditions())
		case i == 0 && g[0].Row == 1 && said.setsConditions():
			s.foot = join(s.foot, said.conditions().withoutBore()) // each head has its own
		}
	}
}

// setsConditions reports whether lines state a pressure, a flow unit or a bore
// and speak of no head, port, state or sample: how a whole page was flowed.
func (s scope) setsConditions() bool {
	f := s.any()
	if f.namesHead() || len(f.port)+len(f.state)+len(f.serial)+len(f.sample)+len(f.mark)+len(f.run) > 0 {
		return false
	}
	return len(f.pressure)+len(f.bare)+len(f.flowUnit)+len(f.liftUnit)+len(f.bore)+len(f.over) > 0
}

// onlyConditions reports whether a header over no readings states how the flows
// were measured and nothing else.
func (f facts) onlyConditions() bool {
	alone := scope{statements: []statement{{facts: f}}}
	return alone.setsConditions() && len(f.rest) == 0 && len(f.class) == 0 && f.ambiguous == ""
}

// conditions keeps of what lines say how the flows were measured.
func (s scope) conditions() scope {
	out := scope{lines: s.lines}
	for _, st := range s.statements {
		if st.facts.namesHead() {
			continue
		}
		st.facts = st.facts.conditions()
		st.facts.serial, st.facts.valve, st.facts.valves, st.facts.leak, st.facts.ports = nil, nil, nil, nil, nil
		out.statements = append(out.statements, st)
	}
	return out
}

// aside takes the one box of keys and values that stands to the right of all
// tables of a page for all of them.
func (s *surroundings) aside(r *reader, page *layout.Page, tables []*table) {
	if len(tables) < 2 {
		return
	}
	right, bottom := 0, 0
	for _, t := range tables {
		area := t.area()
		right, bottom = max(right, area.Right), max(bottom, area.Bottom)
	}
	lines := keyedOnly(layout.Lines(page, decode.Area{Top: 1, Left: right + 1, Bottom: bottom, Right: 1 << 20}))
	if len(layout.Groups(lines)) != 1 {
		return
	}
	if box := r.scopeOf(page, lines, nil); box.setsConditions() {
		s.foot = join(s.foot, box.conditions())
	}
}

// withoutBore leaves the bores out of a scope.
func (s scope) withoutBore() scope {
	out := scope{lines: s.lines}
	for _, st := range s.statements {
		st.facts.bore, st.facts.over, st.facts.engine = nil, nil, nil
		out.statements = append(out.statements, st)
	}
	return out
}
