package flowsheet

import (
	"regexp"
	"strings"

	"flowshelf/analysis/source"
	"flowshelf/ingest/decode"
	"flowshelf/ingest/layout"
	"flowshelf/ingest/words"
)

// A word with one figure behind it ("Merle 7") may count or place something, and
// some letters before a figure number a paper ("QT-48") as often as they call a
// head. Such a text is a name only where it is all that a part of a title says.

var (
	wordAndDigit   = regexp.MustCompile(`^\p{Lu}\p{Ll}{2,11}[ -]\d$`)
	paperCode      = regexp.MustCompile(`^(?:QT|SO|RO|FS)[- ]?\d{1,3}[A-Z]?$`)
	unitCode       = regexp.MustCompile(`^(?:ST|ND|RD|TH|AM|PM|CC|HP|KW|NM|KG|HG|WC|WG|WS|ML)-\d{1,3}[A-Z]?$`) // no unit stands before its figure
	waterCode      = regexp.MustCompile(`^(?:HG|W[CGS])(?:[4-9]\d|[1-9]\d\d)[A-Z]?$`)                          // nor is a head flowed at 40 inches of water
	wordsAndFigure = regexp.MustCompile(`^(?:\p{Lu}[\p{L}'+-]+ ){1,2}(?:\d{1,3}[A-Z]?|1[0-8]\d\d)$`)           // four figures as of an engine in cubic centimetres, no year
	endsInFigure   = regexp.MustCompile(`(?:\p{L}[\p{L}+'-]*\d[\p{L}\d-]*|(?:^| )\d{1,3}(?:-\d{1,3})?[A-Z]?)$`)
	castingNumber  = regexp.MustCompile(`^\d\d[.-]\d{4}[A-Z]` + codeMark + `$`)
	aCasting       = regexp.MustCompile(`\b\d\d[.-]\d{4}[A-Z]\b`)
	numberedByDate = regexp.MustCompile(`^(?:2\d-|(?:0\d|1[0-2])\.(?:19|20)\d\d)`)
	numbered       = regexp.MustCompile(`(?i)(?:\b(?:no|nr|num|number|nummer|num[ée]ro|n[uú]mero|ref|bericht|report|rapport|relazione|informe)\b|n°|nº|#)\.?\s*[:#]?\s*$`)
	aFigure        = regexp.MustCompile(`\d`)
	// counted are words that count or place something where one figure follows
	// (common practice, no source).
	counted = regexp.MustCompile(`(?i)^(?:option|variant[ea]?|setup|set-up|group|gruppe|groupe|gruppo|grupo|phase|fase|pass|step|schritt|[ée]tape|passo|paso|day|tag|jour|giorno|d[ií]a|woche|semaine|settimana|semana|try|trial|attempt|versuch|essai|prova|ensayo|prueba|messung|messreihe|mesure|misura|medici[oó]n|s[ée]rie|reihe|halle|hall|tor|werk|atelier|capannone|nave|hangar|building|zone|zona|pol[ií]gono|unidad|local|copy|copie|copia|kopie|entwurf|draft|brouillon|bozza|borrador|version|versi[oó]n|versione|team|schicht|poste|turno|anlage|annexe?|allegato|anexo|exhibit|appendix|tab|tabelle|tableau|tabella|cuadro|chart|graph|diagram|figure|figura|bild|abb|fig|note|punkt|point|punto|number|nummer|num[ée]ro|n[uú]mero|project|projekt|projet|progetto|proyecto|kunde|client|cliente|customer|fahrer|driver|team|regal|fach|lager|depot|magazin|rue|via|calle|avenue|piazza|plaza|platz|allee|stra(?:ß|ss)e|chemin|route|camino|quai|lane|row|mill|level|ebene|stufe|niveau|livello|nivel|code|klasse|class|classe|clase|grade|size|gr[öo]sse|taille|taglia|talla|top|rank|platz|rang|place|posto|puesto|angle|winkel|seat|sitz|ring)\b`)
	// street is how the name of a street ends.
	street = regexp.MustCompile(`(?i)(?:stra(?:ß|ss)e|str|weg|gasse|platz|allee|damm|ufer|ring)\.? \d+[a-z]?$|\b(?:road|street|lane|row|avenue|drive|court|yard|park|estate|square|works|industrial|rd|ave)\b|^\d`)
)

// countsOrPlaces reports whether a word with a figure behind it counts something
// or is an address.
func countsOrPlaces(text string) bool {
	return notNames.MatchString(text) || counted.MatchString(text) || street.MatchString(text)
}

// isDoubtful reports whether a name is one of those that may as well be something
// else.
func isDoubtful(name string) bool {
	return wordAndDigit.MatchString(name) || paperCode.MatchString(name) || unitCode.MatchString(name) || waterCode.MatchString(name)
}

// isNumberedName reports whether all of a part of a title is a name with a figure.
func isNumberedName(part string) bool {
	if wordAndDigit.MatchString(part) {
		return !countsOrPlaces(part) && isPlainName(part)
	}
	return paperCode.MatchString(part) || unitCode.MatchString(part) || waterCode.MatchString(part)
}

// isCasting reports whether a code is a casting's number with the letter of its
// pattern: "43.3530A", "96-4441A". Papers are numbered alike by the year, "26-0142A".
func isCasting(code string) bool {
	return castingNumber.MatchString(code) && !numberedByDate.MatchString(code)
}

// namesCasting reports whether a casting's number can stand behind what a text says
// before it: nothing, another one, the noun of a head, or the title of a flow sheet. A
// number of figures alone numbers anything else as well: "Valves 96-4441A".
func namesCasting(before string) bool {
	if aCasting.MatchString(before) {
		return true // two names, and it is asked which
	}
	if gaps := partGap.FindAllStringIndex(before, -1); gaps != nil {
		before = before[gaps[len(gaps)-1][1]:]
	}
	if strings.TrimSpace(before) == "" {
		return true
	}
	titled := false
	unknown := len(words.Tokens(before))
	for _, hit := range words.FlowSheet().Find(words.Tokens(before)) {
		unknown -= hit.Tokens
		switch hit.Role {
		case words.Head, words.Flow:
			titled = true
		case words.Filler:
			titled = titled || strings.Contains(hit.Phrase, " ") // "flow test"
		case words.Tested, words.Intake, words.Exhaust:
		default:
			return false
		}
	}
	return titled && unknown == 0 && !numbered.MatchString(before)
}

// numbersElse reports whether a cell is the key of the code behind it and no head's:
// "Ticket | MH35", "Smith | 96-4441A".
func numbersElse(key, code decode.Cell) bool {
	if key.Kind != decode.Text || code.Kind != decode.Text || code.Col > key.Col+2 || strings.Contains(code.Text, " ") {
		return false
	}
	return notHeads.MatchString(key.Text) || isCasting(code.Text) && !namesCasting(key.Text)
}

// besideSetUp returns what stands in a line with the bore or the pressure of the
// test and is a name of two or three words with a figure: "Heron Minor 23   4.030
// bore". Elsewhere a street is written alike. Where it opens the line, or stands right
// behind the title of a flow sheet, any words and codes with a figure are a name:
// "B41C | 4.030 bore", "Flow test Heron 12-64".
func (b *builder) besideSetUp(l layout.Line) said[string] {
	var out said[string]
	setUp := b.r.scopeOf(b.page, []layout.Line{l}, nil).any().setUp()
	for text, c := range b.r.titles(b.page, []layout.Line{l}) {
		name, _ := b.r.plainName(text, inTitle)
		before, behind, _ := strings.Cut(text, name)
		opens := before == "" && setUp && c.Col == l.Cells[0].Col || before != "" && behind == "" && isHeading(before)
		if name == "" || countsOrPlaces(name) || newLine(text, source.Trace{}, inTitle).behindThing(len(before)) {
			continue
		}
		if setUp && wordsAndFigure.MatchString(name) || opens && endsInFigure.MatchString(name) && !mayGoOn(behind) {
			out.add(name, b.r.trace(b.page, c))
		}
	}
	return out
}

// setUp reports whether a text states the bore or the pressure of a test.
func (f facts) setUp() bool {
	return len(f.bore)+len(f.over)+len(f.pressure)+len(f.bare) > 0
}
