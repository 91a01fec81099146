package flowsheet

import (
	"regexp"
	"strings"

	"flowshelf/analysis/head"
	"flowshelf/analysis/quantity"
	"flowshelf/analysis/source"
	"flowshelf/ingest/decode"
	"flowshelf/ingest/parse"
	"flowshelf/ingest/words"
)

// caption is a key over, before or beside a value: "Bore", "Test press.",
// "TP inH2O".
type caption struct {
	role words.Role
	text string
}

// isCaption reports whether a word can be the key of a value.
func isCaption(role words.Role) bool {
	switch role {
	case words.Head, words.Supplier, words.Bench, words.Serial, words.Sample, words.Port, words.Side, words.Date,
		words.Operator, words.Note, words.Leak, words.State, words.Bore, words.Valve, words.Pipe, words.EntryCaption,
		words.TestPressure, words.Cylinder, words.Run, words.Flow, words.Lift, words.PortCount, words.Family,
		words.Range, words.PercentOfRange:
		return true
	default:
		return false
	}
}

// whole reports whether a caption says all by itself, as "flow in cfm" does.
func (c caption) whole() bool {
	_, unit := parse.FindFlowUnit(c.text)
	return c.role == words.Flow && unit && !strings.HasSuffix(strings.TrimSpace(c.text), ":")
}

var captionNoise = regexp.MustCompile(`(?i)\((?:[^)]*)\)|["”″]|\b(?:in|inch|inches|mm|thou|inh2o|mmh2o|h2o|kpa|mbar|psi|cfm|l/s|m3/h|m3/min)\b\.?|[:=#?*]`)

var withWord = regexp.MustCompile(`^(?:w|with|mit|avec|con)\b|ed$| on$`)

// A form numbers its boxes, or puts the name of a box in brackets.
var (
	boxNumber = regexp.MustCompile(`^\(?\d{1,2}[.)]?\s+`)
	inParens  = regexp.MustCompile(`^[(\[]([^()\[\]]+)[)\]]$`)
)

// measured opens with a figure and its unit of length: no number of a box.
var measured = regexp.MustCompile(`(?i)^\(?\d{1,3}\s*(?:mm|in|inch(?:es)?|"|”|zoll)(?:\W|$)`)

func unnumbered(text string) string {
	bare := boxNumber.ReplaceAllString(strings.TrimSpace(text), "")
	if m := inParens.FindStringSubmatch(bare); m != nil {
		return m[1]
	}
	return bare
}

// counts reports whether a figure before the caption would be how many.
func (c caption) counts() bool {
	return c.role == words.Port || c.role == words.Valve || c.role == words.Cylinder || c.role == words.PortCount || c.role == words.Run
}

// captionOf reads a text that is nothing but a key, with or without its unit.
func captionOf(text string) (caption, bool) {
	plain := captionNoise.ReplaceAllString(unnumbered(text), " ")
	tokens := words.Tokens(plain)
	hits := words.FlowSheet().Find(tokens)
	c := caption{text: text}
	if len(tokens) == 0 || len(tokens) > 4 {
		return c, false
	}
	covered := 0
	for _, hit := range hits {
		covered += hit.Tokens
		if !c.take(hit) {
			return c, false
		}
	}
	if boxNumber.MatchString(text) && (c.counts() || len(parse.FindPressures(text)) > 0 || measured.MatchString(text)) {
		return c, false // "2 ports", "28 inch water column", "96 mm bore"
	}
	return c, covered == len(tokens) && c.role != words.None
}

// take lets one phrase of a key say what the key is of. It returns false for a
// phrase that no key has.
func (c *caption) take(hit words.Hit) bool {
	switch {
	case hit.Role == words.Exhaust || hit.Role == words.Intake || hit.Role == words.Filler || hit.Role == words.Tested:
		// "exhaust pipe", "intake valve", "test bore": the noun decides
	case hit.Role == words.Pipe && withWord.MatchString(hit.Phrase):
		return false // "with pipe" says all by itself
	case isCaption(hit.Role) && (c.role == words.None || c.role == words.Flow || c.role == words.Port):
		c.role = hit.Role
	case hit.Role == words.Flow && (c.role == words.Run || c.role == words.Operator):
		c.role = hit.Role // "prueba de flujo", "prova di flusso": a test of flow, the title of a sheet
	case isCaption(hit.Role) && (c.role == words.Head || c.role == words.Bench):
		c.role = hit.Role // "head serial", "bench pressure"
	case isCaption(hit.Role):
		// "bore fixture": the first noun stands
	default:
		return false
	}
	return true
}

// captioned reads the value of a key.
func (r *reader) captioned(c caption, value string, trace source.Trace) facts {
	l, c := newLine(unboxed(value), trace, inHeader), c.shownBy(value)
	f := &l.facts
	value = unboxed(parse.Squeeze(value))
	if r.blankValue(value) || c.isVolume(value) {
		return *f
	}
	summary := r.read(newLine(value, trace, inHeader))
	if c.summedUpBy(summary) && (c.role != words.Head || !summary.isKeyedCode(value)) {
		f.roles = summary.roles // "Avg" in the column of the cylinders
		return *f
	}
	t := l.said(value)
	if summary.mayAverage() && (c.role == words.Cylinder || c.role == words.Run) {
		f.roles[words.Average] = true // no cylinder is called AV
		return *f
	}
	switch c.role {
	case words.Head:
		r.namedHead(l, value)
	case words.Serial:
		f.serial.add(value, t)
	case words.Sample:
		f.sample.add(value, t)
	case words.Operator:
		f.operator.add(value, t)
	case words.Cylinder:
		f.mark.add(value, t)
	case words.Run:
		if allWord.MatchString(c.text) { // "All tests: 28 inH2O, 4.030 bore"
			*f = r.read(newLine(value, trace, inTitle))
			break
		}
		f.run.add(value, t)
	case words.State:
		f.state.add(stateName(value), t)
	case words.Supplier, words.Bench:
		if areInitials(value) { // who ran the bench
			f.operator.add(value, t)
			break
		}
		r.named(l, c, value)
	case words.Date:
		datesOf(l)
		yearlessOf(l, value)
	default:
		r.captionedCondition(l, c, value)
	}
	return *f
}

// summedUpBy reports whether what a value is read as is a summary, and no value of
// the key.
func (c caption) summedUpBy(f facts) bool {
	return c.role != words.Note && f.summarises() && len(f.head)+len(f.port)+len(f.state) == 0
}

// isVolume reports whether a value makes the chamber of its key no cylinder:
// "Chamber: 58 cc".
func (c caption) isVolume(value string) bool {
	return c.role == words.Cylinder && aVolume.MatchString(value)
}

// captionedCondition reads the keys that state how a port was flowed.
func (r *reader) captionedCondition(l *line, c caption, value string) {
	f, t := &l.facts, l.said(value)
	switch c.role {
	case words.TestPressure:
		pressureValue(l, c, value)
	case words.Bore:
		boreValue(l, c, value)
		if ofEngine.MatchString(c.text) {
			f.engine, f.bore = f.bore, nil
		}
	case words.Pipe:
		f.pipe.add(pipeValue(value), t)
	case words.EntryCaption:
		f.entry.add(entryValue(value), t)
	case words.PortCount:
		if x, ok := parse.Plain(firstWord(value), parse.PointMark); ok && x >= 1 && x <= 16 {
			f.ports.add(int(x), t)
		}
	case words.Valve:
		*l = *newLine(value+unitOf(c.text)+" "+portWord.FindString(c.text)+" valve", l.trace, inHeader)
		valveOf(l)
	case words.Leak:
		if x, ok := parse.Plain(strings.TrimSpace(strings.TrimSuffix(strings.ToLower(value), "cfm")), parse.PointMark); ok {
			f.leak.add(quantity.CFM(x), t)
		}
	case words.Flow:
		g := r.read(newLine(value, l.trace, inTitle)) // "cfm @ 28"
		f.flowUnit, f.pressure, f.bare, f.pipe, f.entry = g.flowUnit, g.pressure, g.bare, g.pipe, g.entry
		f.head, f.loose = g.head, g.loose // "flow data: PW-33"
		f.bore, f.over = g.bore, g.over   // "FLOW | BORE 4.060"
	case words.Lift:
		if unit, ok := parse.FindLiftUnit(value); ok && unit != parse.LiftNotStated {
			f.liftUnit.add(unit, t)
		}
	case words.Port, words.Side:
		if m := loneNumber.FindStringSubmatch(value); m != nil {
			f.mark.add(m[1], t)
			return
		}
		*f = r.read(newLine(value, l.trace, inHeader))
		f.portInFull(t)
	case words.Note:
		*f = r.read(newLine(value, l.trace, inTitle)).noted()
	default:
		// a key whose value is kept nowhere: the engine
	}
}

// blankValue recognises a form's empty field: dots, lines, a dash.
func (r *reader) blankValue(value string) bool {
	return strings.Trim(value, ".-_– …?") == ""
}

// namedHead takes all of a value for the head's name.
func (r *reader) namedHead(l *line, value string) {
	if name, ok := r.names.head(value); ok {
		l.facts.head.add(name, l.said(value))
		return
	}
	whole := newLine(value, l.trace, inHeader)
	whole.keyed = true
	found := r.read(whole)
	if found.namesHead() && (len(found.unclear) == 0 || len(r.names.heads.find(value)) > 0) { // "PW-33/2" beside "PW-33"
		l.facts = r.namedBy(found, value, l)
		return
	}
	if found.isKeyedCode(value) || isCastingNoun(value) {
		l.facts.head.add(value, l.said(value))
		return
	}
	if _, key := captionOf(value); key || namesABox(value) {
		return // a caption is no head's name
	}
	if name, state, ok := r.beforeState(value, l.trace); ok {
		r.namedHead(l, name)
		l.facts = l.facts.beside(state)
		return
	}
	if isNameAroundState(value) {
		l.facts.head.add(value, l.said(value))
		return
	}
	if name, behind, ok := r.parted(value, l.trace); ok {
		if name != "" {
			r.namedHead(l, name)
		}
		l.facts = l.facts.beside(behind)
		return
	}
	left := parse.Squeeze(strings.ReplaceAll(whole.rest(), string(struck), " "))
	if len(whole.facts.port) > 0 || strings.Trim(left, " .,;·-") == "" { // "PW 33 intake"; "4.030 bore" is no name
		l.facts, value = whole.facts, left
	}
	value = strings.Trim(value, " .,;·-")
	if len(whole.facts.port) > 0 && loneNumber.MatchString(value) {
		return // "EX-1" is a port and its number
	}
	if isOtherBox(value) {
		return
	}
	l.facts.head.add(value, l.said(value))
}

// named takes a value for the name of a supplier or a bench.
func (r *reader) named(l *line, c caption, value string) {
	found := r.read(newLine(value, l.trace, inTitle))
	l.facts.supplier, l.facts.bench, l.facts.own = found.supplier, found.bench, found.own
	if c.role == words.Bench && ownWord.MatchString(value) {
		l.facts.own.add(true, l.said(value))
		return
	}
	l.facts.pressure, l.facts.bare, l.facts.bore, l.facts.flowUnit = found.pressure, found.bare, found.bore, found.flowUnit
	if len(found.supplier)+len(found.bench)+len(found.own) > 0 {
		return
	}
	for _, p := range found.pressure {
		value = strings.Replace(value, p.Trace.Text, "", 1)
	}
	value = strings.Trim(value, " @,;-")
	switch {
	case value == "":
	case c.role == words.Bench:
		l.facts.bench.add(value, l.said(value))
	default:
		l.facts.supplier.add(value, l.said(value))
	}
}

func pressureValue(l *line, c caption, value string) {
	if found := parse.FindPressures(value); len(found) > 0 {
		for _, p := range found {
			l.facts.pressure.add(p.Unit.Of(p.Value), l.said(p.Text, pressureSteps(p.Unit)...))
		}
		return
	}
	unit, hasUnit := parse.FindPressureUnit(c.text)
	if !hasUnit && strings.Contains(c.text, "\"") || strings.Contains(strings.ToLower(c.text), "(in") {
		unit, hasUnit = parse.InH2O, true
	}
	x, ok := parse.Plain(value, markOf(value))
	switch {
	case ok && hasUnit:
		l.facts.pressure.add(unit.Of(x), l.said(value, pressureSteps(unit)...))
	case ok:
		l.facts.bare.add(x, l.said(value))
	default:
		if unit, ok := parse.FindPressureUnit(value); ok {
			l.facts.presUnit.add(unit, l.said(value))
		}
	}
}

// markOf takes a comma in a lone figure for a decimal comma: no pressure of a
// bench has thousands.
func markOf(figure string) parse.Mark {
	if strings.Contains(figure, ",") {
		return parse.CommaMark
	}
	return parse.PointMark
}

func boreValue(l *line, c caption, value string) {
	found := parse.Bores(value + unitOf(c.text))
	if len(found) == 0 {
		found = parse.Bores(value)
	}
	for _, b := range found {
		l.addBore(b)
	}
}

var captionUnit = regexp.MustCompile(`(?i)\b(mm|in|inch)\b`)

// unitOf returns the length unit a caption carries, to be put behind a figure.
func unitOf(text string) string {
	if m := captionUnit.FindString(text); m != "" {
		return " " + strings.ToLower(m)
	}
	return ""
}

var noValue = regexp.MustCompile(`(?i)^(?:no|none|n|without|w/o|ohne|nein|sans|nil|0)\b`)

func pipeValue(value string) head.Pipe {
	if noValue.MatchString(value) {
		return head.WithoutPipe
	}
	return head.WithPipe
}

func entryValue(value string) string {
	if noValue.MatchString(value) {
		return "none"
	}
	return value
}

// stateName keeps a state's own words; every way to say "as delivered" is "".
func stateName(value string) string {
	tokens := words.Tokens(value)
	hits := words.FlowSheet().Find(tokens)
	if len(hits) == 1 && hits[0].Tokens == len(tokens) && (hits[0].Role == words.AsDelivered || hits[0].Role == words.Before) {
		return ""
	}
	return value
}

func firstWord(text string) string {
	first, _, _ := strings.Cut(text, " ")
	return first
}

// cellText is a cell's content as text, numbers as the digits stored.
func cellText(c decode.Cell) string {
	if c.Kind == decode.Number || c.Kind == decode.Date {
		if x, ok := parse.Fifteen(c.Num); ok {
			return parse.Digits(x)
		}
	}
	return c.Text
}
