package parse

import (
	"regexp"
	"strings"

	"flowshelf/analysis/quantity"
)

// The bores of fixtures that exist: 60 to 135 mm (common practice, no source).
const (
	smallestBoreMM = 60
	largestBoreMM  = 135
)

// BoreText is a bore found in a text.
type BoreText struct {
	Bore       quantity.Length
	Over       bool // ".030 over": Bore is what is added to the family's own bore
	Step       string
	Text       string
	Start, End int
}

// PlausibleBore reports whether a fixture of the bore exists.
func PlausibleBore(l quantity.Length) bool {
	return l.MM() >= smallestBoreMM-0.5 && l.MM() <= largestBoreMM+0.5
}

const (
	boreFigure = `(?:ø|⌀|Ø)?\s*(\d{1,3}(?:[.,]\d+)?(?:[ -]\d{1,2}/\d{1,2})?)\s*("|”|″|''|ins?\b\.?|inch(?:es)?\b|zoll\b|pouces?\b|pollici\b|pulgadas\b|pulg\b\.?|[mc]m\b\.?|m\b)?`
	boreWord   = `(?:bore\s+tube|bore|fixture|sleeve|liner|barrel|cylinder|tube|c[iy]l[iy]ndr[eo]|(?:zylinder|pr[uü]f|mess|test|adapter)?bohrung(?:sdurchmesser)?|(?:zylinder)?(?:h[uü]lse|buchse)|al[eé]sage|chemise|canna|camisa|calibre(?:\s+de\s+cilindro)?|alesaggio|di[aá]metro(?:\s+(?:del?\s+)?cilindro)?|di[aá]m\.?\s+(?:del?\s+)?cil(?:indro|\.)|zyl(?:inder)?)`
	boreKind   = `(?:\s+(?:size|dia(?:m(?:eter)?)?\b\.?|adapt[eo]r|fixture|sleeve|tube|plate|ring|used))?`
	boreEnd    = `(?:$|[^\d/.,]|[.,](?:\s|$))`
	overFigure = `(?i)(?:^|[^\d.,])\+?([.,]0\d{1,2}|0[.,]\d{2,3}|\d{2})(?:"|in\.?)?\s*(?:over|o/s|oversize)\b`
	boreMaker  = `(?:(?:test|cyl|cylinder|dummy|engine|flow|bench|plain|std|standard)\b\.?\s*)?`
)

var (
	overBore   = regexp.MustCompile(overFigure + `(?:\s+(?:bore|tube)\b)*`)
	overBase   = regexp.MustCompile(overFigure + `\s*(?:(?:a|an|the|std|standard|stock)\b\.?\s*)*` + boreFigure + boreEnd)
	boreBehind = regexp.MustCompile(`(?i)^s?` + boreKind + `\s*(?:[:=(]|-\s)?\s*` + boreFigure + boreEnd)
	boreAfter  = regexp.MustCompile(`(?i)(?:^|[^\d.,/\pL-])` + boreFigure + `\s*-?(?:dia\.?\s*)?` + boreMaker + `\b` + boreWord + `s?\b`)
	boreBefore = regexp.MustCompile(`(?i)\b` + boreWord + `s?` + boreKind + `\s*(?:[:=(]|-\s|(?:de|di|of|von|à)\s)?\s*` + boreFigure + boreEnd)
	boreSlash  = regexp.MustCompile(`(?:^|[^\d.])(\d\.\d{2,3})\s*/\s*(\d\.\d{2,3})(?:$|[^\d.])`)
	boreAlone  = regexp.MustCompile(`(?i)^(?:dia(?:m(?:eter)?)?\b\.?\s*)?` + boreFigure + `(?:\s*(?:dia(?:m(?:eter)?)?|i\.?d)\b\.?)?$`)
	boreTwice  = regexp.MustCompile(`(?i)^` + boreFigure + `\s*[(/=]\s*` + boreFigure + `\s*\)?$`)
	boreLoose  = regexp.MustCompile(`(?:^|[\s(@])(\d\.\d{3})(?:$|[\s,;)"])`)
	boreMetric = regexp.MustCompile(`(?i)(?:^|\s)(?:ø\s*)?(\d{2,3}(?:[.,]\d)?)\s*mm\b`)
)

// FindBores finds the bores a line states with a word: `4.030 bore`, `Bohrung
// 96`, `4-1/4" bore`, `.030 over`; two of them in `4.030/4.155`.
func FindBores(text string) []BoreText {
	var out []BoreText
	if at := boreSlash.FindStringSubmatchIndex(text); at != nil {
		for _, span := range [][2]int{{at[2], at[3]}, {at[4], at[5]}} {
			x, _ := Plain(text[span[0]:span[1]], PointMark)
			b := BoreText{Bore: quantity.Inches(x), Text: text[span[0]:span[1]], Start: span[0], End: span[1]}
			if PlausibleBore(b.Bore) {
				out = append(out, b)
			}
		}
		if len(out) == 2 {
			return out
		}
		out = nil
	}
	for _, read := range []func(string) (BoreText, bool){overStated, boreSum} {
		if b, ok := read(text); ok {
			out = append(out, b)
			text = text[:b.Start] + blank(text[b.Start:b.End]) + text[b.End:]
		}
	}
	for _, pattern := range []*regexp.Regexp{boreAfter, boreBefore} {
		for _, at := range pattern.FindAllStringSubmatchIndex(text, -1) {
			b, ok := boreFrom(text, at)
			if !ok || overlaps(out, b) || notABore(b, text[at[0]:at[1]]) || countsCylinders(text, at) {
				continue
			}
			if pattern == boreAfter {
				switch before := betweenTwo(text, at, b); before {
				case theSecond:
					continue
				case either:
					b.End = at[3] // the second is found by its own pattern
				default:
				}
			}
			out = append(out, b)
			text = text[:b.Start] + blank(text[b.Start:b.End]) + text[b.End:]
		}
	}
	if at := overBore.FindStringSubmatchIndex(text); at != nil {
		if b, ok := over(text[at[2]:at[3]]); ok {
			b.Text, b.Start, b.End = text[at[0]:at[1]], at[0], at[1]
			out = append(out, b)
		}
	}
	return out
}

// overStated reads a bore over a base that stands beside it: ".030 over 4.000".
func overStated(text string) (BoreText, bool) {
	at := overBase.FindStringSubmatchIndex(text)
	if at == nil {
		return BoreText{}, false
	}
	step, ok := over(text[at[2]:at[3]])
	base, okToo := boreFrom(text, []int{at[4], at[1], at[4], at[5], at[6], at[7]})
	if !ok || !okToo || !PlausibleBore(base.Bore) || bareFigure(text, at[4:]) && at[5] < len(text) {
		return BoreText{}, false // "30 over 4 days"
	}
	base.Start, base.End = at[0], max(at[5], at[7])
	base.Text = strings.TrimSpace(text[base.Start:base.End])
	base.Step, base.Bore = base.Text, base.Bore+step.Bore
	return base, true
}

// whichFigure says which of two figures around the word of a bore is the bore.
type whichFigure uint8

const (
	theFirst whichFigure = iota
	theSecond
	either
)

// betweenTwo judges a bare figure before the word of a bore that has another figure
// behind it: it may be the end of a name, as in "Heron 210 bore 96 mm".
func betweenTwo(text string, at []int, first BoreText) whichFigure {
	rest := text[at[1]:]
	behind := boreBehind.FindStringSubmatchIndex(rest)
	if behind == nil || !bareFigure(text, at[2:]) {
		return theFirst
	}
	second, ok := boreFrom(rest, behind)
	after := rest[max(behind[3], behind[5]):]
	switch bare := bareFigure(rest, behind[2:]); {
	case !ok || !PlausibleBore(second.Bore) || ofWater.MatchString(after), bare && !endOfTerm.MatchString(after):
		return theFirst
	case bare && PlausibleBore(first.Bore):
		return either
	default:
		return theSecond
	}
}

var ofWater = regexp.MustCompile(`(?i)^\s*(?:of\s*)?` + water)

// bareFigure reports whether a figure, given by where it and its unit stand, is a
// whole number without a unit.
func bareFigure(text string, at []int) bool {
	return at[2] < 0 && !strings.ContainsAny(text[at[0]:at[1]], ".,/")
}

var cylinderWord = regexp.MustCompile(`(?i)\b(?:c[iy]l[iy]ndr[eo]|cylinder|zyl(?:inder)?|tube|di[aá]metro)`)

// notABore tells a test pressure ("28\" bore 4.030") and a cylinder's number
// from a bore: a fixture that nobody has is read as one only when the word bore
// or fixture stands beside it and the figure is no pressure.
func notABore(b BoreText, text string) bool {
	if PlausibleBore(b.Bore) {
		return false
	}
	return cylinderWord.MatchString(text) || b.Bore.In() > 10 && b.Step == ""
}

var boreNoun = regexp.MustCompile(`(?i)bore|bohrung|h[uü]lse|buchse|di[aá]m|tube|fixture|sleeve|calibre`)

// countsCylinders tells how many cylinders there are, or the number of one, from a
// bore: "4 Zylinder", "cilindro 3". A cylinder's bore in inches has decimals, a
// fraction or its unit.
func countsCylinders(text string, at []int) bool {
	whole := text[at[0]:at[1]]
	if !cylinderWord.MatchString(whole) || boreNoun.MatchString(whole) || !bareFigure(text, at[2:]) {
		return false
	}
	x, ok := Plain(text[at[2]:at[3]], PointMark)
	return ok && x < smallestBoreMM
}

// FindLooseBores finds a bore that stands without its word in a title or on a
// tab: 4.030 to three decimals, or 96mm. Only a place where nothing else of
// that size can be meant may use it.
func FindLooseBores(text string) []BoreText {
	var out []BoreText
	for _, pattern := range []*regexp.Regexp{boreLoose, boreMetric} {
		for _, at := range pattern.FindAllStringSubmatchIndex(text, -1) {
			b := BoreText{Start: at[2], End: at[3], Text: text[at[2]:at[3]]}
			x, ok := Plain(b.Text, decimalMarkOf(b.Text))
			if !ok {
				continue
			}
			b.Bore = quantity.Inches(x)
			if pattern == boreMetric {
				b.Bore, b.Step, b.End = quantity.Millimetres(x), "mm / 25.4 = in", at[1]
			}
			if PlausibleBore(b.Bore) {
				out = append(out, b)
			}
		}
	}
	return out
}

// inBothUnits reads a bore in inches with the same in millimetres behind it, or
// the other way round: "4.030 (102.4 mm)". Two that differ are no bore.
func inBothUnits(text string, at []int) (BoreText, bool) {
	const rounding = 0.1 // mm
	first, ok := boreFrom(text, at[:6])
	second, okToo := boreFrom(text, []int{at[6], at[1], at[6], at[7], at[8], at[9]})
	apart := (first.Bore - second.Bore).MM()
	return first, ok && okToo && (first.Step == "") != (second.Step == "") && -rounding < apart && apart < rounding
}

func boreFrom(text string, at []int) (BoreText, bool) {
	figure, unit := text[at[2]:at[3]], ""
	if at[4] >= 0 {
		unit = strings.ToLower(text[at[4]:at[5]])
	}
	b := BoreText{Text: strings.TrimSpace(text[at[2]:max(at[3], at[5])]), Start: at[2], End: at[1]}
	x, ok := Fraction(figure)
	if !ok {
		if x, ok = Plain(figure, decimalMarkOf(figure)); !ok {
			return b, false
		}
	}
	switch {
	case unit == "m" && x < 1:
		b.Bore, b.Step = quantity.Millimetres(1000*x), "m / 0.0254 = in"
	case unit == "m":
		return b, false
	case strings.HasPrefix(unit, "cm"):
		b.Bore, b.Step = quantity.Millimetres(10*x), "cm / 2.54 = in"
	case strings.HasPrefix(unit, "mm") || (unit == "" && x >= smallestBoreMM):
		b.Bore, b.Step = quantity.Millimetres(x), "mm / 25.4 = in"
	default:
		b.Bore = quantity.Inches(x)
	}
	return b, true
}

func over(figure string) (BoreText, bool) {
	x, ok := Plain(figure, decimalMarkOf(figure))
	if x >= 10 {
		x /= 1000 // "30 over" is thousandths
	}
	return BoreText{Bore: quantity.Inches(x), Over: true, Step: figure + " over the family's bore"}, ok && x > 0 && x < 0.25
}

func overlaps(have []BoreText, b BoreText) bool {
	for _, h := range have {
		if b.Start < h.End && h.Start < b.End {
			return true
		}
	}
	return false
}
