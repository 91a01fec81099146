package flowsheet

import (
	"regexp"
	"slices"
	"strings"

	"flowshelf/analysis/head"
	"flowshelf/analysis/quantity"
	"flowshelf/ingest/parse"
	"flowshelf/ingest/words"
)

var leakText = regexp.MustCompile(`(?i)\bleak(?:age)?\s*[:=]?\s*(\d+(?:\.\d+)?)\s*cfm\b(?:\s*(?:@|at)\s*\d+(?:\.\d+)?\s*(?:"|in\.?\s*(?:h2o)?\b|inh2o\b)?)?`)

// leakOf finds a measured leak and takes the pressure it was measured at out of
// the line.
func leakOf(l *line) {
	if m, ok := l.take(leakText); ok {
		if x, ok := parse.Plain(m[1], parse.PointMark); ok {
			l.facts.leak.add(quantity.CFM(x), l.said(m[0]))
		}
	}
}

// flowUnitOf finds the unit of the flows.
func flowUnitOf(l *line) {
	unit, ok := parse.FindFlowUnit(l.rest())
	if !ok {
		return
	}
	l.facts.flowUnit.add(unit, l.said(unit.String()))
	l.left = []byte(struckUnits(l.rest()))
}

func struckUnits(text string) string {
	masked := []byte(parse.StrikeFlowUnit(text))
	for i := range masked {
		if masked[i] == ' ' && text[i] != ' ' {
			masked[i] = struck
		}
	}
	return string(masked)
}

// longNumber ends in a figure too long for a cylinder or a port.
var longNumber = regexp.MustCompile(`\d{4}$`)

// wordsOf reads what the lexicon knows.
func wordsOf(l *line) {
	before := 0
	for _, tokens := range clauses(l.rest()) {
		for _, hit := range words.FlowSheet().Find(tokens) {
			start, end := tokens[hit.At].Start, tokens[hit.At+hit.Tokens-1].End
			if end-start == 1 && longNumber.MatchString(l.text[:start]) {
				continue // the letter of "43.3530A" is no port
			}
			if hit.Role == words.State && start > 0 && revisionBehind(l.text[start-1:]) != "" {
				continue // the name's: "Heron 224 Version 3"
			}
			hit.At += before
			l.facts.roles[hit.Role] = true
			if hit.Role == words.Rework || hit.Role == words.After {
				if l.work.end == 0 {
					l.work.start = start
				}
				l.work.end = end
			}
			if l.word(hit, l.text[start:end]) {
				l.strike(start, end)
			}
		}
		before += len(tokens)
	}
}

// meantOf settles what the words of a line say of it as a whole, once its names
// are read to their end.
func meantOf(l *line) {
	if l.work.end > 0 {
		l.state(l.work)
	}
	if l.place == inTitle && len(l.leftOver()) > mentioned {
		l.facts.port, l.facts.class = nil, nil // mentioned in passing
	}
	if l.place == inTitle && l.facts.class.has(head.Advertised) && comparesWithClaim.MatchString(l.text) {
		l.facts.class = nil
	}
}

// comparesWithClaim speaks of a claim beside what was measured: "better than the
// catalog", "advertised 260 at .600".
var comparesWithClaim = regexp.MustCompile(`(?i)\b(?:than|als|que|di quanto|meglio|peggio|vs\.?|versus|against|gegen[üu]ber|compared (?:to|with)|below|above|under|over|unter|[üu]ber|sous|sotto|sopra|bajo|sobre)\s+(?:the\s+|der\s+|dem\s+|die\s+|le\s+|la\s+|il\s+|el\s+|du\s+|del\s+)?(?:\pL+'s\s+)?` +
	`(?:adv|advert|advertised|claim(?:ed)?|published|catalog(?:ue|o)?|cat[aá]logo|brochure|katalog\pL*|(?:werks|hersteller)angaben?)|\b(?:advertised|adv\.?|claimed|published|catalog(?:ue|o)?|cat[aá]logo|katalog\pL*)\s+\d{2,4}(?:[.,]\d+)?\s*(?:cfm|l/s|l/min|m3/h|m³/h)?\s*(?:@|at|bei|[àa])\s*\.?\d`)

// clauses returns the words of a text up to each comma and each part that was
// understood before: no phrase runs across one, so that "intake, 4.030 bore,
// radius plate" does not speak of an intake radius.
func clauses(text string) [][]words.Token {
	var out [][]words.Token
	end := 0
	for _, token := range words.Tokens(text) {
		if len(out) == 0 || strings.ContainsAny(text[end:token.Start], ",;\x1f") {
			out = append(out, nil)
		}
		out[len(out)-1] = append(out[len(out)-1], token)
		end = token.End
	}
	return out
}

// mentioned is how many unknown words a title line may hold for its port and
// its class still to be meant.
const mentioned = 3

// state takes the words of a rework as they stand. A title line often recounts
// what was done to the head in the course of the day, so there the words count
// only right behind its name, or when nothing of the line is left over.
func (l *line) state(work span) {
	if l.inName(work) || l.place != inHeader && len(l.leftOver()) > 0 && !l.behindName(work) {
		return
	}
	words := parse.Squeeze(l.text[work.start:l.withNoun(work.end)])
	l.facts.state = nil
	l.facts.state.add(words, l.said(words))
}

// word takes one phrase and reports whether it was understood.
func (l *line) word(hit words.Hit, part string) bool {
	f := &l.facts
	switch hit.Role {
	case words.Intake:
		if hit.Phrase == "suction" && l.place != inHeader {
			return false // how the bench pulls
		}
		f.port.add(head.Intake, l.said(part))
	case words.Exhaust:
		f.port.add(head.Exhaust, l.said(part))
	case words.AmbiguousPort:
		return l.ambiguousPort(hit, part)
	case words.Advertised:
		if l.place == inHeader || plainClaim.MatchString(part) {
			f.class.add(head.Advertised, l.said(part))
		}
	case words.Tested:
		if l.place != inTitle {
			f.class.add(head.Own, l.said(part))
		}
		if testedHere.MatchString(words.Fold(part)) {
			f.own.add(true, l.said(part))
		}
	case words.OwnBench:
		f.own.add(true, l.said(part))
	case words.AsDelivered:
		f.state.add("", l.said(part))
	case words.Before:
		if l.place == inHeader {
			f.state.add("", l.said(part))
		}
	case words.LongPort, words.ShortPort, words.LeftPort, words.RightPort, words.UnlikePort:
		if l.place != inHeader {
			return false
		}
		f.mark.add(strings.Fields(hit.Phrase)[0], l.said(part))
	default:
		l.condition(hit, part)
	}
	return true
}

// plainClaim are the words that make a whole sheet a claim; others, such as
// "spec", do so only over a column.
var plainClaim = regexp.MustCompile(`(?i)^(?:adv|advert|advertised|claimed|published|catalog(?:ue)?|brochure|katalog(?:angaben?|werte?|daten)?|(?:werks|hersteller)angaben?|` +
	`(?:valores|datos|caudal(?:es)?) de cat[aá]logo|(?:valeurs|donn[ée]es|d[ée]bits?) (?:du |de )?catalogue|(?:valori|dati|portate?) (?:di|da) catalogo)\b`)

// condition takes a word that states how the port was flowed.
func (l *line) condition(hit words.Hit, part string) {
	f := &l.facts
	switch hit.Role {
	case words.Pipe:
		f.pipe.add(head.WithPipe, l.said(part))
	case words.NoPipe:
		f.pipe.add(head.WithoutPipe, l.said(part))
	case words.Radius, words.Clay, words.Manifold, words.NoEntry:
		f.entry.add(entryName(hit), l.said(part))
		if l.place == inHeader && intakeNamed.MatchString(part) {
			f.port.add(head.Intake, l.said(part)) // "Intake radius" beside "Intake no radius"
		}
	case words.LiftOverDiameter:
		f.liftUnit.add(parse.LiftOverDiameter, l.said(part))
	default:
		// the role alone is what the word says
	}
}

// intakeNamed is an intake among the words for its entry.
var intakeNamed = regexp.MustCompile(`(?i)\b(?:intake|inlet|admission|admisi[oó]n|aspirazione)\b`)

// entryName is how an entry is called in a test.
func entryName(hit words.Hit) string {
	switch hit.Role {
	case words.Clay:
		return "clay"
	case words.Manifold:
		if strings.Contains(hit.Phrase, "carb") || strings.Contains(hit.Phrase, "throttle") {
			return "carburettor"
		}
		return "manifold"
	case words.NoEntry:
		return "none"
	default:
		return "radius plate"
	}
}

// inBrackets is a short intake with its unit in brackets, which no "in" before a unit
// has: "Advertised In (l/s)".
var inBrackets = regexp.MustCompile(`(?i)\bin\s*[(\[]`)

// ambiguousPort keeps EV, E, IN and the like for the neighbours to decide; they
// mean something only where they are all that a header says.
func (l *line) ambiguousPort(hit words.Hit, part string) bool {
	if l.place == inHeader && hit.Phrase == valveOrAverage {
		l.facts.ambiguous = l.shortAverage(part)
		return true
	}
	if l.place != inHeader || len(l.facts.port) > 0 {
		return false
	}
	if hit.Phrase == "a" && part != "A" || hit.Phrase == "in" && (len(l.facts.presUnit) > 0 || len(l.facts.flowUnit) > 0 && hit.At > 0 && !inBrackets.MatchString(l.text)) {
		return true // an article, inches of water, "inlet in cfm"
	}
	l.facts.ambiguous = hit.Phrase
	return true
}

var initials = regexp.MustCompile(`(?:^|[\s\x1f/.])([A-Z]{2,3})(?:$|\s*$|\s*[\x1f/.,;|]|\s+[^\s\d])`)

// operatorOf takes capitals that stand beside a date for the tester's initials,
// unless a figure makes a head's name of them.
func operatorOf(l *line) {
	if l.place != inTitle || !l.facts.roles[words.Date] {
		return
	}
	for _, at := range initials.FindAllStringSubmatchIndex(l.rest(), -1) {
		if who := l.text[at[2]:at[3]]; !roman.MatchString(who) && !l.endsName(at[2], at[3]) {
			l.facts.operator.add(who, l.said(who))
			l.strike(at[2], at[3])
			return
		}
	}
}

// endsName reports whether capitals stand right behind a name's figure and not before
// the date: "Heron 210 HD / 4.030 bore / 2026-02-18 JT".
func (l *line) endsName(start, end int) bool {
	if d, dated := parse.Date(l.text[end:]); dated && strings.HasPrefix(strings.TrimLeft(l.text[end:], " ,"), d.Text) {
		return false
	}
	return behindFigure.MatchString(l.rest()[:start]) || slices.ContainsFunc(l.names, func(n nameSpan) bool { return n.end == start-1 })
}

var (
	behindFigure = regexp.MustCompile(`\d\pL{0,2} $`) // before a word that follows a name's figure
	roman        = regexp.MustCompile(`^[IVX]+$`)
)
