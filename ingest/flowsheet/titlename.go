package flowsheet

import (
	"path"
	"regexp"
	"slices"
	"strings"

	"flowshelf/analysis/source"
	"flowshelf/ingest/decode"
	"flowshelf/ingest/layout"
)

// Names that are written without a dash, with the figure first, or as a word
// and a figure are too easily something else to be taken wherever they stand.
// They count where nothing else names a head.
var (
	freeCode   = regexp.MustCompile(`\b(?:[A-Z]{2,3} (?:[3-9]\d|\d{3})-\d|(?:[A-Z]{2,5}[ _./]?|[A-Z]-)\d{1,4}[A-Za-z]{0,2}(?:-[A-Z]{1,2})?|\d{2,4}[-_]?[A-Z]{2,5}(?:-[A-Z]{1,2})?|[A-Z]{1,2}\d{1,3}-\d{2,4}[A-Za-z]?|\d{2}[.-]\d{4}[A-Z])` + codeMark + `\b`)
	seriesCode = regexp.MustCompile(`^[A-Z]{1,2}\d{2,3}-\d{2,4}`)
	wordyName  = regexp.MustCompile(`^[A-Z]\p{Ll}{3,11}[ -](?:\d{2,3}[A-Z]?|\d[A-Z]|I{2,3}|IV|VI{0,3})\b`)
	// notNames are the words before a figure that count or place something.
	notNames  = regexp.MustCompile(`(?i)^(?:job|order|page|room|unit|cell|bench|dyno|box|road|street|quay|phone|tel|engine|motor|block|sheet|file|test|run|week|day|year|copy|number|part|item|serial|rev|issue|version|batch|lot|invoice|ticket|quote|station|stand|rig|model|series|table|form|drawing|operator|shift|bin|shelf|rack|plate|orifice|range|stage|level|target|about|approx|over|from|until|since|after|before|under|january|february|march|april|june|july|august|september|october|november|december|januar|februar|märz|juni|juli|oktober|dezember|janvier|février|mars|avril|juin|juillet|août|septembre|octobre|novembre|décembre|gennaio|febbraio|marzo|aprile|maggio|giugno|luglio|agosto|settembre|ottobre|dicembre|enero|febrero|abril|mayo|junio|julio|septiembre|octubre|noviembre|diciembre|mon|tue|tues|wed|thu|thurs|fri|sat|sun|suite|floor|hwy|route|ave|dept|bay|door|gate|vol|chapter|ref|blatt|seite|lauf|auftrag|feuille|foglio|pagina|hoja|página)\b`)
	titleGaps = regexp.MustCompile(`\x1f+|[,;|()\[\]]|\s(?:[-–—/.*·•]|//)\s|:\s|\s{2,}`)
)

// freeNames returns the parts of a text that can be a head's name and were read
// as nothing else.
func (r *reader) freeNames(text string, trace source.Trace, where place) said[string] {
	l := newLine(text, trace, where)
	r.read(l)
	out := l.namesAroundState()
	if len(out) > 0 {
		return out
	}
	for _, part := range titleGaps.Split(l.rest(), -1) {
		part = strings.Trim(part, " .:-–—\t\n")
		switch at := strings.Index(l.text, part); {
		case part != "" && l.besideThing(at, at+len(part)):
		case isWordyName(part):
			if !l.goesOnBehind(part) && !r.reachesOn(l, part) && !l.isTester(part[strings.LastIndexByte(part, ' ')+1:]) {
				out.add(part, l.said(part))
			}
		case where != inHeader && isNumberedName(part):
			if !r.reachesOn(l, part) {
				out.add(part, l.said(part))
			}
		default:
			r.codesIn(l, part, &out)
		}
	}
	return out
}

// codesIn adds the codes of a part of a line that can be a head's name.
func (r *reader) codesIn(l *line, part string, out *said[string]) {
	for _, at := range freeCode.FindAllStringIndex(part, -1) {
		code := part[at[0]:at[1]]
		before, _, _ := strings.Cut(l.text, code)
		if !wholeWord(part, at[0], at[1]) || l.besideThing(strings.Index(l.text, part)+at[0], strings.Index(l.text, part)+at[1]) || notHeads.MatchString(before) || notNames.MatchString(code) {
			continue
		}
		if castingNumber.MatchString(code) && (!isCasting(code) || !namesCasting(before)) {
			continue
		}
		if seriesCode.MatchString(code) || isCasting(code) || looksLikeHead(strings.TrimLeft(code, "0123456789-_ ")) && looksLikeHead(code) {
			end := tailOf(part, at[1], nameWord)
			if tailOf(part, end, anyWord) > end || l.goesOnBehind(part[at[0]:end]) || r.reachesOn(l, part[at[0]:end]) {
				continue // "SG 300 as the other one": it is not sure how far the name goes
			}
			out.add(part[at[0]:end], l.said(part[at[0]:end]))
		}
	}
}

// nameAround looks for a head's name in the places around a table, from the
// nearest outwards; the first place that holds one counts.
func (b *builder) nameAround(t *table, headers []decode.Cell) said[string] {
	var out said[string]
	for _, c := range headers {
		if c.Kind == decode.Text {
			out = out.and(b.r.freeNames(c.Text, b.r.trace(b.page, c), inHeader))
		}
	}
	if len(out) > 0 {
		return out
	}
	if out = b.namesIn(b.around.blocks[t].lines); len(out) > 0 || b.mayNameItself(t) {
		return out
	}
	var scopes [][]layout.Line
	if from := b.around.heirs[t]; from != nil {
		scopes = append(scopes, b.around.blocks[from].lines)
	}
	for _, lines := range append(scopes, b.linesOfColumns(t), ownLines(b.around.page.lines, t, b.tables)) {
		if out = b.namesIn(lines); len(out) > 0 {
			return out
		}
	}
	base := strings.TrimSuffix(path.Base(b.page.Path), path.Ext(b.page.Path))
	for i, name := range []string{b.page.Sheet.Name, base} {
		trace := b.r.trace(b.page, decode.Cell{Kind: decode.Text, Text: name})
		trace.At.Cell = ""
		name = strings.ReplaceAll(name, "_", " ")
		out = b.r.freeNames(name, trace, onTab)
		if len(out) == 0 {
			continue
		}
		doubtful := isDoubtful(out[0].Value) || i > 0 && isCasting(out[0].Value) // a file may have the number of a paper
		if !doubtful || b.r.read(newLine(name, trace, onTab)).setUp() {
			return out
		}
	}
	return b.nounNames(t)
}

// linesOfColumns keeps of the lines of the page what stands in the columns of a
// table: side by side, each has its own name over it.
func (b *builder) linesOfColumns(t *table) []layout.Line {
	left, right := t.between(b.tables)
	var out []layout.Line
	for _, line := range b.around.page.lines {
		line.Cells = slices.DeleteFunc(slices.Clone(line.Cells), func(c decode.Cell) bool { return c.Col < left || c.Col > right })
		out = append(out, line)
	}
	return out
}

// namesIn looks through title lines.
func (b *builder) namesIn(lines []layout.Line) said[string] {
	var out said[string]
	for text, c := range b.r.titles(b.page, lines) {
		out = out.and(b.r.freeNames(text, b.r.trace(b.page, c), inTitle))
	}
	if len(out) > 0 {
		return out
	}
	for _, l := range lines {
		out = out.and(b.besideSetUp(l))
	}
	return out
}

// mayNameItself reports whether a title right over a table is a name or may be
// one, of words that nobody knows: the table then takes no name from the one
// before it.
func (b *builder) mayNameItself(t *table) bool {
	for text, c := range b.r.titles(b.page, b.around.blocks[t].lines) {
		name, _ := b.r.plainName(text, inTitle)
		if free, ok := b.r.freeNames(text, b.r.trace(b.page, c), inTitle).one(); name != "" || opensDoubtful(text) || ok && free.Value == text {
			return true
		}
	}
	return false
}
