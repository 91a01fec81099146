package flowsheet

import (
	"regexp"
	"strings"

	"flowshelf/analysis/source"
	"flowshelf/ingest/decode"
	"flowshelf/ingest/parse"
	"flowshelf/ingest/words"
)

// sizeBehind is the size of a valve that follows its name.
var sizeBehind = regexp.MustCompile(`(?i)^\W*(?:(?:head|dia(?:m(?:eter|[eè]tre)?)?|di[aá]metro|durchmesser|size|gr[oö](?:ß|ss)e|taille|misura|medida|o)\b\.?)?\W*?(\d{1,2}[.,]\d{1,3}|\.\d{3}|\d{2})\s*("|”|in\b\.?|mm\b)`)

// valvesNamed finds sizes behind the name of a port's valve, in whichever
// language: "Einlassventil 46 mm", "Soupape d'admission: 46.0 mm".
func (l *line) valvesNamed() {
	tokens := words.Tokens(l.rest())
	for _, hit := range words.FlowSheet().Find(tokens) {
		start, end := tokens[hit.At].Start, tokens[hit.At+hit.Tokens-1].End
		name := l.text[start:end]
		if hit.Role != words.Intake && hit.Role != words.Exhaust || !ofValves.MatchString(name) {
			continue
		}
		if m := sizeBehind.FindStringSubmatchIndex(l.text[end:]); m != nil {
			size := l.text[end:]
			l.valve(l.text[start:end+m[1]], size[m[2]:m[3]], size[m[4]:m[5]], name)
			l.strike(start, end+m[1])
		}
	}
}

// unitOfKey is the unit at the end of a key: "Intake valve (in):".
var unitOfKey = regexp.MustCompile(`(?i)(?:\(\s*|\s)(?:in|inch|mm|pulg|pulgadas|pollici|pouces|zoll)\b\.?\s*\)?\s*:?\s*$`)

// valveBox joins the name of a port's valve with the size in the next cell.
func valveBox(name, size decode.Cell) (string, bool) {
	if name.Kind != decode.Text || !ofValves.MatchString(name.Text) || len(portsNamed(name.Text)) != 1 {
		return "", false
	}
	key := unitOfKey.ReplaceAllString(name.Text, "")
	text := key + ": " + displayText(size)
	if _, bare := parse.Plain(displayText(size), markOf(displayText(size))); bare {
		switch unit := unitOfKey.FindString(name.Text); {
		case strings.Contains(strings.ToLower(unit), "mm"):
			text += " mm"
		case unit != "":
			text += " in"
		default:
			text += unitOf(name.Text)
		}
	}
	return text, sizeBehind.MatchString(text[len(key):])
}

// ofValves keeps the sizes of valves only: the port is the valve's, not the
// flow's.
func (f facts) ofValves() facts {
	g := newFacts()
	g.valve, g.valves = f.valve, f.valves
	return g
}

// valveAlone reads a clause that is nothing but a port's valve and its size.
func (r *reader) valveAlone(part string, trace source.Trace) (facts, bool) {
	if !ofValves.MatchString(part) || len(portsNamed(part)) != 1 {
		return facts{}, false
	}
	l := newLine(part, trace, inTitle)
	l.valvesNamed()
	return l.facts, len(l.facts.valves) == 1 && len(l.leftOver()) == 0
}
