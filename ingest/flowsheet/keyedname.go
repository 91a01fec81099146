package flowsheet

import (
	"regexp"
	"slices"
	"strings"
	"unicode"

	"flowshelf/analysis/source"
	"flowshelf/ingest/parse"
	"flowshelf/ingest/words"
)

// The value of a head's key is its name, and often more: "Merle 12 - Bohrung 96 mm
// - 28 inH2O". The name ends where something begins that the trade understands;
// where it is not sure that it ends there, it is asked.

var (
	// partGap parts a line into what a writer sets apart.
	partGap = regexp.MustCompile(`\s+[-–—/|]\s+|[,;|]\s+|\s*[(\[]`)
	// linking is a word that leads from a name to its conditions.
	linking = regexp.MustCompile(`(?i)\s+(?:on|at|with|for|in|bei|auf|mit|mm|sur|sous|avec|[àa]|su|con|en|sobre)$`)
)

// nameEdges are the marks that end a name and belong to none.
const nameEdges = " @,;:.|/()[]–—-"

// parted parts the value of a head's key into the name and the conditions behind
// it. Not sure of the name, it tells the whole as unclear.
func (r *reader) parted(value string, trace source.Trace) (name string, behind facts, ok bool) {
	end, sure := r.endOfName(value)
	name = strings.TrimRight(value[:end], nameEdges)
	if end == len(value) && sure || bareCode(name) == "" {
		return "", facts{}, false
	}
	behind = newFacts()
	for _, part := range partGap.Split(strings.Trim(value[end:], nameEdges), -1) {
		if areInitials(part) {
			behind.operator.add(part, trace)
			continue
		}
		for _, st := range r.statements(part, trace) {
			behind = behind.beside(st.facts)
		}
	}
	behind.rest = nil
	if !sure {
		name = ""
		trace.Text = value
		behind.unclear.add(value, trace)
	}
	return name, behind, true
}

// beforeState parts the value of a head's key into a name and the state behind it,
// where nothing else stands there: "Merle 187 CNC", "Merle 56 as cast".
func (r *reader) beforeState(value string, trace source.Trace) (name string, state facts, ok bool) {
	figure := aFigure.FindStringIndex(value)
	if figure == nil || partGap.MatchString(value) {
		return "", facts{}, false
	}
	for at, c := range value {
		if c != ' ' || at < figure[1] {
			continue
		}
		state = r.read(newLine(value[at+1:], trace, inTitle))
		rest := state
		rest.state = nil
		if len(state.state) > 0 && len(state.rest) == 0 && !rest.states() && !rest.namesHead() {
			return value[:at], state, true
		}
	}
	return "", facts{}, false
}

// isNameAroundState reports whether the words behind the first figure of a name
// are states and then words that a name goes on with: "KT-92 CNC Pro" is another
// product than "KT-92", milled or not.
func isNameAroundState(name string) bool {
	figure := aFigure.FindStringIndex(name)
	if figure == nil || partGap.MatchString(name) {
		return false
	}
	list := strings.Fields(name[figure[0]:])[1:]
	last := len(list)
	for last > 0 && nameWord.MatchString(" "+list[last-1]) && !isTradeWord(list[last-1]) && !areInitials(list[last-1]) {
		last--
	}
	if last == 0 || last == len(list) {
		return false
	}
	for _, hit := range words.FlowSheet().Find(words.Tokens(strings.Join(list[:last], " "))) {
		if hit.Role != words.Rework && hit.Role != words.AsDelivered {
			return false
		}
	}
	return !slices.ContainsFunc(list[:last], func(word string) bool { return !isTradeWord(word) })
}

// endOfName returns where the name at the start of a text ends, and whether that
// is sure.
func (r *reader) endOfName(text string) (end int, sure bool) {
	gaps := partGap.FindAllStringIndex(text, -1)
	first := len(text)
	if len(gaps) > 0 {
		first = gaps[0][0]
	}
	end = r.firstCondition(text[:first])
	if end < first {
		name := linking.ReplaceAllString(strings.TrimRight(text[:end], nameEdges), "")
		return len(name), !explained(name)
	}
	sure = !explained(text[:first])
	for i, gap := range gaps {
		next := len(text)
		if i+1 < len(gaps) {
			next = gaps[i+1][0]
		}
		part := text[gap[1]:next]
		if r.isCondition(part) {
			return gap[0], sure
		}
		if strings.ContainsAny(text[gap[0]:gap[1]], ",;/|") || len(words.FlowSheet().Find(words.Tokens(part))) > 0 {
			sure = false // not a condition, and hardly the name going on
		}
	}
	return len(text), sure
}

// firstCondition returns where in a text the first bore, pressure, date, unit or
// serial begins that stands with its figure.
func (r *reader) firstCondition(text string) int {
	l := newLine(text, source.Trace{}, inTitle)
	for _, extract := range []func(*line){serialOf, fitsOf, boresOf, pressuresOf, datesOf, flowUnitOf, looseBoreOf} {
		extract(l)
	}
	if at := strings.IndexByte(l.rest(), struck); at > 0 {
		return at
	}
	return len(text)
}

// isCondition reports whether all of a part of a line is understood as something
// else than a name.
func (r *reader) isCondition(part string) bool {
	part = strings.Trim(part, nameEdges)
	if areInitials(part) {
		return true
	}
	understood := false
	for _, st := range r.statements(part, source.Trace{}) {
		f := st.facts
		if f.namesHead() || slices.ContainsFunc(f.rest, isUnknown) {
			return false
		}
		understood = understood || st.only.narrow() || len(f.roles) > 0 || f.states() || f.setUp() || len(f.flowUnit)+len(f.operator)+len(f.valve)+len(f.valves)+len(f.supplier)+len(f.bench) > 0
	}
	return understood
}

// isUnknown reports whether a word that was left over is neither a figure nor known
// to the trade.
func isUnknown(word string) bool {
	_, figure := parse.Plain(word, parse.PointMark)
	return !figure && len([]rune(word)) > 1 && !isTradeWord(word)
}

// explained reports whether behind the first figure of a name stands a word that
// the trade knows, a port's apart, or one that may be somebody's initials.
func explained(name string) bool {
	at := aFigure.FindStringIndex(name)
	if at == nil {
		return false
	}
	behind := strings.TrimLeftFunc(name[at[0]:], func(c rune) bool { return !unicode.IsSpace(c) })
	known := slices.ContainsFunc(words.FlowSheet().Find(words.Tokens(behind)), func(h words.Hit) bool { return !namesPort(h.Role) })
	return known || areInitials(strings.TrimSpace(behind))
}

// namesPort reports whether a word tells the port of a head, which is taken off its
// name wherever it stands: "Merle 12 Intake valve", "Merle 12 intake readings".
func namesPort(role words.Role) bool {
	return role == words.Intake || role == words.Exhaust || role == words.AmbiguousPort || role == words.Port || role == words.Valve || role == words.Flow
}

// namesABox reports whether a text without a figure speaks of what a form asks
// beside the head, as "Date taken" does.
func namesABox(text string) bool {
	if strings.ContainsAny(text, "0123456789") {
		return false
	}
	return slices.ContainsFunc(words.FlowSheet().Find(words.Tokens(text)), func(h words.Hit) bool {
		return h.Role == words.Date || h.Role == words.Operator || h.Role == words.TestPressure || h.Role == words.Serial || h.Role == words.Bore
	})
}

// isOtherBox reports whether a value is none, but another box of the form.
func isOtherBox(value string) bool {
	return bareCode(value) == "" || boxNumber.MatchString(value) || inParens.MatchString(value) || keyEnd.MatchString(value) && strings.Contains(value, ":")
}
