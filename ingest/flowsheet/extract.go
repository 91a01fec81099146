package flowsheet

import (
	"regexp"
	"slices"
	"strings"

	"flowshelf/analysis/head"
	"flowshelf/analysis/quantity"
	"flowshelf/ingest/layout"
	"flowshelf/ingest/parse"
	"flowshelf/ingest/words"
)

// reader reads what texts say. It holds what the shop knows and, of the pages,
// only what their headers have been found to say.
type reader struct {
	names *names
	about layout.Context
	ports map[headerCell]string
}

func newFacts() facts { return facts{roles: map[words.Role]bool{}} }

// read lets every extractor take its part of a text, in an order in which the
// narrower pattern comes first.
func (r *reader) read(l *line) facts {
	if isCode(l.text) {
		return l.facts
	}
	for _, extract := range []func(*line){
		footMarkOf, r.whose, r.headsOf, serialOf, leakOf, notCorrectedOf, openOf, pipeOf, valveOf, signOf, factorOf, portMarkOf, portCountOf,
		fitsOf, otherBoresOf, boresOf, correctedOf, pressuresOf, datesOf, r.codesOf, perAreaOf, flowUnitOf,
		liftsInOf, wordsOf, looseBoreOf, operatorOf, r.carryOn, meantOf, boreMarkOf,
	} {
		extract(l)
	}
	l.facts.rest = l.leftOver()
	l.beforeHead()
	return l.facts
}

// beforeHead takes unknown words in front of a head's name for its maker's, not
// for its state.
func (l *line) beforeHead() {
	name, ok := l.facts.head.one()
	if !ok || l.place != inHeader {
		return
	}
	if at := strings.Index(l.text, name.Trace.Text); at > 0 {
		before := wordsIn(l.rest()[:at])
		l.facts.above, l.facts.rest = before, l.facts.rest[len(before):]
	}
}

var footnoteMark = regexp.MustCompile(`(?:\*+|†+|‡+)\s*$`)

// footMarkOf finds the mark of a footnote at the end of a header.
func footMarkOf(l *line) {
	if m, ok := l.take(footnoteMark); ok {
		l.facts.footmark = strings.TrimSpace(m[0])
	}
}

// whose finds the suppliers and benches the shop knows.
func (r *reader) whose(l *line) {
	for _, s := range r.names.benches.find(l.rest()) {
		l.facts.bench.add(s.means, l.said(l.text[s.start:s.end]))
		if r.names.own[s.means] {
			l.facts.own.add(true, l.said(l.text[s.start:s.end]))
		}
		l.strike(s.start, s.end)
	}
	for _, s := range r.names.suppliers.find(l.rest()) {
		l.facts.supplier.add(s.means, l.said(l.text[s.start:s.end]))
		l.strike(s.start, s.end)
	}
}

// headsOf finds the heads the shop knows, strictly.
func (r *reader) headsOf(l *line) {
	for _, s := range r.names.heads.find(l.rest()) {
		l.facts.head.add(s.means, l.said(l.text[s.start:s.end]))
		l.names = append(l.names, nameSpan(s))
		l.strike(s.start, s.end)
	}
}

// codesOf finds what looks like a head's name: a code the shop does not know,
// or one that nearly is a name the shop knows.
func (r *reader) codesOf(l *line) {
	for _, at := range codeSpaced.FindAllStringIndex(l.rest(), -1) {
		code := l.text[at[0]:at[1]]
		if name, ok := r.names.nearly(code); ok && wholeWord(l.rest(), at[0], at[1]) {
			l.facts.loose.add(name, l.said(code))
			l.strike(at[0], at[1])
		}
	}
	patterns := []*regexp.Regexp{codeDashed}
	if l.place == inHeader || len(l.facts.head) == 0 && startsWithCode(l.text) {
		patterns = append(patterns, codeGlued)
	}
	for _, pattern := range patterns {
		for _, at := range pattern.FindAllStringIndex(l.rest(), -1) {
			code := l.text[at[0]:at[1]]
			if !looksLikeHead(code) || !wholeWord(l.rest(), at[0], at[1]) || notHeads.MatchString(l.text[:at[0]]) {
				continue
			}
			if name, ok := r.names.nearly(code); ok {
				l.facts.loose.add(name, l.said(code))
			} else if !l.besideThing(at[0], at[1]) {
				l.facts.head.add(code, l.said(code))
				l.names = append(l.names, nameSpan{start: at[0], end: at[1]})
			}
			l.strike(at[0], at[1])
		}
	}
}

// startsWithCode reports whether a title opens with a code such as KR22; later
// in a line such a code is an engine or a job as often as a head.
func startsWithCode(text string) bool {
	at := codeGlued.FindStringIndex(text)
	return at != nil && strings.TrimSpace(text[:at[0]]) == ""
}

var (
	serialText  = regexp.MustCompile(`(?i)\b(?:serial(?:\s*(?:no|number|#))?|s/n|sn|ser|seriennr|serien-?nr|matr(?:icola|icule)?|(?:n|nr|num|n[uú]mero)[.°º]*\s*(?:de\s+|di\s+)?s[eé]rie)\.?\s*[:#]?\s*([A-Z]{0,4}-?\d[A-Z0-9-]*|[A-Z]\b)`)
	opensAsCode = regexp.MustCompile(`^SN-\d{1,2}\b`) // a head may be called so; a serial stands behind its head
	numberText  = regexp.MustCompile(`(?i)\b(?:nr|no)\.\s*([A-Z]{0,3}\d{3,}[A-Z]?)\b`)
	sampleText  = regexp.MustCompile(`(?i)\b(?:sample|casting|muster|probe|guss(?:teil|st[uü]ck)?|exemplaire|exemplar|campione|esemplare|fusione|getto|pezzo|muestra|ejemplar|fundici[oó]n|pi[eè]ce|fonderie)\s*#?\s*([A-Z]{0,2}\d{1,5}|[A-H])\b`)
)

// serialOf finds serial numbers and sample marks.
func serialOf(l *line) {
	for _, pattern := range []*regexp.Regexp{serialText, numberText} {
		if opensAsCode.MatchString(l.text) {
			break
		}
		if m, ok := l.take(pattern); ok {
			l.facts.serial.add(m[1], l.said(m[0]))
		}
	}
	if at := sampleText.FindStringSubmatchIndex(l.rest()); at != nil && wholeWord(l.text, at[2], at[3]) { // "casting 43.3530A" is no sample 43
		l.facts.sample.add(l.text[at[2]:at[3]], l.said(l.text[at[0]:at[1]]))
		l.strike(at[0], at[1])
	}
}

var (
	notCorrected  = regexp.MustCompile(`(?i)\b(?:not|un|nicht)\s*-?\s*(?:corr(?:ected|\.)?|converted|korrigiert)(?:\s*(?:to|auf)\s*\d{1,3}(?:\s*(?:"|in\.?|inh2o))?)?`)
	uncorrected   = regexp.MustCompile(`(?i)\b(?:nicht|non|pas|no|sin|sans|senza)\s+(?:umgerechnet|umgerechnete|corrig[ée]e?s?|correction|corrett[oaie]|correzione|corregid[oa]s?|corregir|correcci[oó]n|converties?|convertis?|convertit[oaie]|convertid[oa]s?)(?:$|[^\pL])`)
	flowsAsRead   = regexp.MustCompile(`(?i)\bas read\b|\bat (?:the )?(?:test )?(?:pressures?|depressions?|vacuum) (?:shown|stated|listed|given)\b|\braw (?:flows?|figures|readings|cfm|numbers)\b|\bwie (?:ab)?gelesen\b|\btel(?:le)?s? que lue?s?\b|\bcome lett[aeio]\b|\btal como se ley[oó]\b|\bcomo se leyeron\b`)
	someCorrected = regexp.MustCompile(`(?i)\b(?:corr|korr|conv|umgerech)`)
	correctedTo   = regexp.MustCompile(`(?i)\b(?:corr(?:ected|\.)?|conv(?:erted|\.)?|korrigiert)\s*(?:to|for|auf|@|at)?\s*@?\s*(\d{1,2}(?:\.\d)?)\b\s*(?:"|''|in(?:ches)?\.?\b)?\s*(?:of\s+)?(?:h2o|water|wc)?`)
)

// notCorrectedOf takes out "NOT corrected to 28", which states no pressure, and
// hears a note such as "flow as read at the pressure shown".
func notCorrectedOf(l *line) {
	if _, ok := l.take(notCorrected); ok {
		l.facts.roles[words.NotCorrected] = true
	}
	asRead := flowsAsRead.MatchString(l.rest()) && !someCorrected.MatchString(l.rest())
	if l.place != inHeader && (asRead || uncorrected.MatchString(l.rest())) {
		l.facts.roles[words.NotCorrected] = true
	}
}

// correctedOf reads "corrected to 28": the pressure the flows are at.
func correctedOf(l *line) {
	m, ok := l.take(correctedTo)
	if !ok {
		return
	}
	l.facts.roles[words.Corrected] = true
	if x, ok := parse.Plain(m[1], parse.PointMark); ok && x >= 3 && x <= 60 {
		l.facts.corrected.add(quantity.InchesOfWater(x), l.said(m[0], "flows corrected by the sheet"))
		l.facts.pressure = slices.Clone(l.facts.corrected)
	}
}

var (
	eitherPipe    = regexp.MustCompile(`(?i)\bwith\s*(?:and|&|/|or)\s*without\s+(?:the\s+|an?\s+)?(?:\d[\d ./-]*(?:"|''|in\b\.?|mm\b)?\s*)?(?:(?:exh(?:aust)?|flow)\s+)?(?:pipe|stub|tube)\b`)
	noPipe        = regexp.MustCompile(`(?i)\b(?:pipe|stub|tube)\s+(?:off|removed|detached|not\s+\w+)\b|\b(?:no|without|w/o|wo|ohne|sans|senza|minus|less|sin)\s+(?:the\s+|an?\s+|any\s+)?(?:\d[\d ./-]*(?:"|''|in\b\.?|mm\b)?\s*)?(?:(?:exh(?:aust)?|flow)\s+)?(?:\pL+\s+)?(?:pipe|stub|tube|rohr|tubo|tuyau)\b`)
	withPipe      = regexp.MustCompile(`(?i)(?:\b(?:with|w/|w\b|mit|avec|con|using|incl\.?|plus)\s*(?:the\s+|an?\s+|einem\s+)?(?:exh(?:aust)?\s+)?)?(?:\d{1,3}(?:[ -]\d/\d{1,2}|[.,]\d+)?\s*(?:"|''|in\b\.?|mm\b)?\s*(?:(?:x|×|by)\s*\d{1,3}(?:[.,]\d+)?\s*(?:"|''|in\b\.?|mm\b)?)?\s*(?:long\s+|dia\.?\s+|bore\s+)?)?(?:(?:flow|curved|straight|stub)\s+)?\b(?:pipe|stub|tube|rohr|tubo|tuyau)\b(?:\s+(?:on|fitted|attached|installed|used|in place)\b)?(?:\s*\d{1,3}(?:[ -]\d/\d{1,2}|[.,]\d+)?\s*(?:"|''|in\b\.?|mm\b)?\s*(?:(?:x|×|by)\s*\d{1,3}(?:[.,]\d+)?\s*(?:"|''|in\b\.?|mm\b)?)?)?`)
	tubeBore      = regexp.MustCompile(`(?i)(\d{1,3}(?:[ -]\d{1,2}/\d{1,2}|[.,]\d+)?\s*(?:"|in\.?|mm)?)\s*(?:bore\s+)?tube\b`)
	fixtureBefore = regexp.MustCompile(`(?i)\b(?:bore|over|o/s|oversize)\s+$`)
	tubeLong      = regexp.MustCompile(`(?i)\d\s*(?:"|in\.?|mm)?\s*(?:x|×|by)\s*\d`)
)

// pipeOf finds whether the exhaust wore a pipe, and strikes the pipe's own
// size with it, so that it is taken neither for a bore nor for a pressure.
func pipeOf(l *line) {
	if m, ok := l.take(eitherPipe); ok {
		l.facts.pipe.add(head.WithPipe, l.said(m[0]))
		l.facts.pipe.add(head.WithoutPipe, l.said(m[0]))
	}
	for {
		m, ok := l.take(noPipe)
		if !ok {
			break
		}
		l.facts.pipe.add(head.WithoutPipe, l.said(m[0]))
	}
	date := wholeDate.FindStringIndex(l.rest())
	for _, at := range withPipe.FindAllStringIndex(l.rest(), -1) {
		if date != nil && at[0] < date[0] && date[0] < at[1] {
			at[1] = date[0] // "with pipe 2026-03-05": no pipe of 202
		}
		text := l.text[at[0]:at[1]]
		switch {
		case fixtureBefore.MatchString(l.text[:at[0]]) && strings.EqualFold(firstWord(text), "tube"):
			// "bore tube", ".030 over tube": the fixture
		case !isBoreTube(text):
			l.facts.pipe.add(head.WithPipe, l.said(text))
			l.strike(at[0], at[1])
		}
	}
}

// isBoreTube tells the tube that a head is flowed on, which has the bore of an
// engine, from a pipe at the exhaust.
func isBoreTube(text string) bool {
	m := tubeBore.FindStringSubmatch(text)
	if m == nil || tubeLong.MatchString(text) {
		return false
	}
	b, ok := parse.Bore(m[1])
	return ok && parse.PlausibleBore(b.Bore)
}

var differenceSign = regexp.MustCompile(`^\s*\(?\s*(?:\+\s*/\s*-|-\s*/\s*\+|±|Δ(?:[^pPρ]|$))`)

// signOf finds "+/-" over a column of differences.
func signOf(l *line) {
	if l.place != inHeader {
		return
	}
	if _, ok := l.take(differenceSign); ok {
		l.facts.roles[words.Gain] = true
	}
}

var perArea = regexp.MustCompile(`(?i)\b(?:cfm|l/s|m3/h)\s*(?:/|per)\s*(?:in(?:ch(?:es)?)?\b|in2|(?:sq|square|cm|cc|valve|csa)[a-z]*)\.?\s*(?:in(?:ch)?\b\.?)?[²2]?`)

// liftBehind makes the name of a list of lifts of the valve that a unit of flow is
// parted from: "CFM / Valve Lift (in)" in a corner.
var liftBehind = regexp.MustCompile(`(?i)^\s*(?:lift|opening|travel|height)s?\b`)

// perAreaOf finds a flow that is divided by an area or a volume.
func perAreaOf(l *line) {
	at := perArea.FindStringIndex(l.rest())
	if at == nil || liftBehind.MatchString(l.rest()[at[1]:]) {
		return
	}
	l.strike(at[0], at[1])
	l.facts.roles[words.Area] = true
}

var factorText = regexp.MustCompile(`(?i)(?:^|[\s(])[x×*]\s*\d[.,]\d{2,4}\b`)

// factorOf finds "x1.183" over a column: the sheet has multiplied the readings.
func factorOf(l *line) {
	if l.place != inHeader {
		return
	}
	if _, ok := l.take(factorText); ok {
		l.facts.roles[words.Corrected] = true
	}
}

var portCount = regexp.MustCompile(`(?i)\b(?:mean of |avg of |average of )?(\d)\s*(?:ports?|cyl(?:inder)?s)\b(?:\s*\((?:mean|avg|average)\))?`)

// portCountOf finds "2 ports (mean)".
func portCountOf(l *line) {
	if m, ok := l.take(portCount); ok {
		if n, ok := parse.Plain(m[1], parse.PointMark); ok && n > 0 {
			l.facts.ports.add(int(n), l.said(m[0]))
		}
	}
}

// fitsBlocks says which blocks a head goes on, and boreRange from which bore to
// which: neither is the bore it was flowed on.
var (
	fitsBlocks = regexp.MustCompile(`(?i)\b(?:fits?|suits?|passt|passend|geeignet|convient|adatt[aeio]|sirve|apta?)\b[^;|()\d]*\d+(?:[.,]\d+)?` + secondBore + boreWords)
	boreRange  = regexp.MustCompile(`(?i)\b\d+[.,]\d+(?:\s*[-–]\s*|\s+(?:to|thru|through|bis|[àa]|hasta)\s+)\d+[.,]\d+` + boreUnit + `\s*(?:bores?|bohrung(?:en)?|al[ée]sages?|alesagg\w*|di[áa]metros?)\b`)
)

const (
	boreUnit   = `(?:\s*(?:mm|in(?:ch(?:es)?)?\b\.?|["”]))?`
	secondBore = boreUnit + `(?:\s*(?:to|thru|through|and|bis|und|[àa]|et|e|y|hasta|-|–)\s*\d+(?:[.,]\d+)?` + boreUnit + `)?`
	boreWords  = `(?:\s*(?:bores?|bohrung(?:en)?|al[ée]sages?|alesagg\w*|di[áa]metros?)\b)?(?:\s*(?:blocks?|bl[öo]cke?n?|blocs?|blocchi|bloques?)\b)?`
)

// onBench are words of how a head was tested.
var onBench = regexp.MustCompile(`(?i)\b(?:tested|flowed|measured|fixture|adapter|bench|gemessen|gepr[üu]ft|mesur[ée]e?|essay[ée]e?|provata|misurata|probada|medida)\b`)

// fitsOf takes "fits 4.000 to 4.155 bore blocks", which is no condition of a test,
// unless the bore is that of the bench: "fits Large Eight, flowed on 4.155 bore".
func fitsOf(l *line) {
	for _, pattern := range []*regexp.Regexp{fitsBlocks, boreRange} {
		for _, at := range pattern.FindAllStringIndex(l.rest(), -1) {
			if !onBench.MatchString(l.text[at[0]:at[1]]) {
				l.strike(at[0], at[1])
			}
		}
	}
}

// boresOf finds bores that stand with their word.
func boresOf(l *line) {
	for _, b := range parse.FindBores(l.rest()) {
		l.addBore(b)
	}
}

func (l *line) addBore(b parse.BoreText) {
	l.strike(b.Start, b.End)
	var steps []string
	if b.Step != "" {
		steps = []string{b.Step}
	}
	if b.Over {
		l.facts.over.add(b.Bore, l.said(b.Text, steps...))
		return
	}
	if ofEngine.MatchString(l.text[:b.Start]) {
		l.facts.engine.add(b.Bore, l.said(b.Text, steps...))
		return
	}
	l.facts.bore.add(b.Bore, l.said(b.Text, steps...))
}

// looseBoreOf finds 4.030 or 96mm where a title names nothing else of that
// size.
func looseBoreOf(l *line) {
	if len(l.facts.bore) > 0 {
		return
	}
	left := l.rest()
	if len(l.facts.over) > 0 {
		left = strings.ReplaceAll(left, string(struck), " ") // "4.000 .030 over"
	}
	for _, b := range parse.FindLooseBores(left) {
		l.addBore(b)
		l.pressureBehind(b)
	}
}

var onBore = regexp.MustCompile(`(?i)\bon\s+(?:the\s+|a\s+)?(\d\.\d{3})\b`)

// boreMarkOf finds "on 4.600".
func boreMarkOf(l *line) {
	if m, ok := l.take(onBore); ok {
		if b, ok := parse.Bore(m[1]); ok && parse.PlausibleBore(b.Bore) {
			l.facts.bore.add(b.Bore, l.said(m[0]))
		}
	}
}

// pressuresOf finds test pressures, with or without a unit.
func pressuresOf(l *line) {
	for _, p := range parse.FindPressures(l.rest()) {
		if p.Inches && p.Value < 6 && (l.place != inHeader || toThousandths.MatchString(p.Text)) {
			continue // an inch mark on 2 to 5 is a bore or a pipe
		}
		if p.Unit.Of(p.Value).InH2O() > atmospheric {
			continue // the barometer
		}
		l.strike(p.Start, p.End)
		if len(l.facts.corrected) > 0 {
			continue // what the flows were read at before the sheet corrected them
		}
		l.facts.pressure.add(p.Unit.Of(p.Value), l.said(p.Text, pressureSteps(p.Unit)...))
	}
	if x, start, end, ok := parse.FindBarePressure(l.rest()); ok && len(l.facts.pressure) == 0 && !(x < 6 && toThousandths.MatchString(l.text[start:end])) {
		l.facts.bare.add(x, l.said(l.text[start:end]))
		l.strike(start, end)
	}
	if unit, ok := parse.FindPressureUnit(l.rest()); ok {
		l.facts.presUnit.add(unit, l.said(unit.String()))
	}
}

// toThousandths is a measure of length in inches: no test pressure is so exact.
var toThousandths = regexp.MustCompile(`\d\.\d{3}`)

// atmospheric is a pressure in inH2O no bench pulls: what is above it is the
// barometer's.
const atmospheric = 100

func pressureSteps(unit parse.PressureUnit) []string {
	if unit == parse.InH2O {
		return nil
	}
	return []string{unit.String() + " to inH2O"}
}
