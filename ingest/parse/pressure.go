package parse

import (
	"regexp"
	"strings"

	"flowshelf/analysis/quantity"
)

// PressureUnit is the unit a test pressure is written in.
type PressureUnit uint8

// The pressure units. InchesUnqualified is a bare inch mark: an inch of water
// where a pressure is spoken of.
const (
	PressureNotStated PressureUnit = iota
	InH2O
	MMH2O
	KPa
	Mbar
	InHg
	PSI
	CMH2O
	MMHg
	Pa
	DaPa
	Bar
)

// String returns the unit as the trade writes it.
func (u PressureUnit) String() string {
	return [...]string{"not stated", "inH2O", "mmH2O", "kPa", "mbar", "inHg", "psi", "cmH2O", "mmHg", "Pa", "daPa", "bar"}[u]
}

// Of returns x of the unit.
func (u PressureUnit) Of(x float64) quantity.Pressure {
	switch u {
	case MMH2O:
		return quantity.MillimetresOfWater(x)
	case KPa:
		return quantity.Kilopascals(x)
	case Mbar:
		return quantity.Millibars(x)
	case InHg:
		return quantity.InchesOfMercury(x)
	case PSI:
		return quantity.PSI(x)
	case CMH2O:
		return quantity.MillimetresOfWater(10 * x)
	case MMHg:
		return quantity.InchesOfMercury(x / 25.4)
	case Pa:
		return quantity.Kilopascals(x / 1000)
	case DaPa:
		return quantity.Kilopascals(x / 100)
	case Bar:
		return quantity.Millibars(1000 * x)
	default:
		return quantity.InchesOfWater(x)
	}
}

const (
	numberPart = `(\d{1,4}(?:[.,]\d+)?|[.,]\d+)`
	water      = `(?:h2o|h20\b|h₂o|wc|w\.\s?c\.?|wg|w\.\s?g\.?|water|aq|wassers[äa](?:ule|eule)|wassersaeule|wasser|eau|d'eau|d'acqua|acqua|(?:de\s+)?agua|column|w\.?s\b|ce|c\.\s?e\b|ca\b|c\.\s?a\b|(?:de\s+)?colonne\s+d'eau|(?:di\s+)?colonna\s+d'acqua|(?:de\s+)?columna\s+de\s+agua)`
)

var (
	pressureText = regexp.MustCompile(`(?i)(?:^|[^\d.,/])@?\s*` + numberPart + `\s*(?:` +
		`(in\.?\s*hg|inhg|"\s*hg|''\s*hg)|(mm\s*hg\b)|(dapa\b)|(pa\b)|(bar\b)|(cm\.?\s*-?(?:of\s*)?` + water + `)|` +
		`(mm\.?\s*-?(?:of\s*)?` + water + `|mmws)|` +
		`(kpa)|(mbar|hpa|mb)|(psi)|` +
		`((?:ins?\.?|inch(?:es)?|pouces?|pollici|pulgadas?|pulg\b\.?|pouc\b\.?|poll\b\.?|po\b\.?|zoll|"|”|″|'')?\s*-?(?:of\s*)?` + water + `)|` +
		`((?:in|inch|inches)\b\.?|"|”|″|''))`)
	pressureWord = regexp.MustCompile(`(?i)^\s*(?:test\s+)?(?:tp|dp|press(?:ure)?|depression|vacuum|drop)\b`)
	pressureUnit = regexp.MustCompile(`(?i)(\bin\.?\s*hg\b|inhg)|(\bmm\s*hg\b)|(\bdapa\b)|(\bpa\b)|(\bbar\b)|(\bcm\s*` + water + `)|(\bmm\s*` + water + `|mmws)|(\bkpa\b)|(\bmbar\b|\bhpa\b)|(\bpsi\b)|(` +
		`(?:(?:\bin\.?|\binch(?:es)?|")\s*-?(?:of\s*)?|\b)` + water + `)`)
	atNumber  = regexp.MustCompile(`(?i)(@|\bat|\btp|\bdp)\s*[:=]?\s*(\d{1,2}(?:\.\d+)?)(?:\s|$|[,;)])`)
	notWater  = regexp.MustCompile(`(?i)^\s*(?:°|deg|c\b|f\b|k\b|%|rpm|cfm|hp|am\b|pm\b|o'clock|mm\b|cc\b|of\b|/)`)
	endOfTerm = regexp.MustCompile(`^\s*(?:$|[,;.)])`)
)

// What makes a figure with an inch mark a length and no pressure.
var (
	lengthBefore   = regexp.MustCompile(`(?i)(?:\bx|×|\bby|\blong|length|dia\.?|\bø|pipe|tube|stub|radius|valve|\btall|\bwide)\s*[:=]?\s*$`)
	boreWordBefore = regexp.MustCompile(`(?i)\b` + boreWord + `s?` + boreKind + `\s*[:=(]?\s*$`)
	lengthAfter    = regexp.MustCompile(`(?i)^\s*-?(?:long|x\b|x\d|×|by\s+\d|dia|o\.?d\b|i\.?d\b|pipe|tube|stub|plate|deep|wide|tall|high|away|from|runner|ports?\b|manifold|radius|valve|adapter|spacer|collector|primar|header|clay|length|lift|stroke|rod|deck|bore|hg\b)`)
)

// unitOrder is the order in which the patterns look for units.
func unitOrder() []PressureUnit {
	return []PressureUnit{InHg, MMHg, DaPa, Pa, Bar, CMH2O, MMH2O, KPa, Mbar, PSI, InH2O}
}

// PressureText is a pressure found in a text.
type PressureText struct {
	Value      float64
	Unit       PressureUnit
	Inches     bool // only an inch mark: a bore may be meant
	Text       string
	Start, End int
}

// FindPressures finds every pressure with a unit in a text: 28", 28 inH2O, 60
// mbar, 7 kPa, 500 mmH2O. A figure with a bare inch mark is returned with
// Inches set and only from 2 to 60.
func FindPressures(text string) []PressureText {
	var out []PressureText
	for _, at := range pressureText.FindAllStringSubmatchIndex(text, -1) {
		value, ok := Plain(text[at[2]:at[3]], decimalMarkOf(text[at[2]:at[3]]))
		if !ok || opensCode(text, at[1]) {
			continue
		}
		p := PressureText{Value: value, Start: at[2], End: at[1], Text: strings.TrimSpace(text[at[2]:at[1]])}
		for group, unit := range append(unitOrder(), InH2O) {
			if at[4+2*group] >= 0 {
				p.Unit, p.Inches = unit, group == len(unitOrder())
			}
		}
		p.Inches = p.Inches && !pressureWord.MatchString(text[at[1]:])
		if p.Inches && (value < 2 || value > 60 || lengthBefore.MatchString(text[:at[2]]) || isLengthOf(value, text[at[1]:])) {
			continue
		}
		if p.Inches && PlausibleBore(quantity.Inches(value)) && boreWordBefore.MatchString(text[:at[2]]) {
			continue
		}
		out = append(out, p)
	}
	return out
}

// boreFollows is the word of a bore with a figure of its own behind it, which may
// have been struck out as read.
var boreFollows = regexp.MustCompile(`(?i)^\s*bore\b\s*[:=]?\s*[^\s\pL]`)

// isLengthOf reports whether what follows makes a length of a figure with an inch
// mark. The bore in `28" bore 4.000` has a figure of its own.
func isLengthOf(inches float64, after string) bool {
	return lengthAfter.MatchString(after) && (PlausibleBore(quantity.Inches(inches)) || !boreFollows.MatchString(after))
}

// opensCode reports whether what ends at a place is no unit but the beginning of
// a longer word or of a head's code: the AQ of AQ-431, the WC of WC12.
func opensCode(text string, end int) bool {
	return unitEndsIn.MatchString(text[:end]) && codeGoesOn.MatchString(text[end:])
}

var (
	unitEndsIn = regexp.MustCompile(`\pL$`)
	codeGoesOn = regexp.MustCompile(`^(?:[\pL\d]|[-_/]\d|-\pL{1,2}\d)`)
)

// FindBarePressure finds "@28", "at 28" and "TP 28": a pressure without a
// unit.
func FindBarePressure(text string) (value float64, start, end int, ok bool) {
	at := atNumber.FindStringSubmatchIndex(text)
	if at == nil {
		return 0, 0, 0, false
	}
	value, ok = Plain(text[at[4]:at[5]], PointMark)
	rest := text[at[5]:]
	if value < lowestBare || notWater.MatchString(rest) || strings.EqualFold(text[at[2]:at[3]], "at") && value != 28 && !endOfTerm.MatchString(rest) {
		return 0, 0, 0, false // "at 20 C", "at 12 o'clock"
	}
	return value, at[0], at[5], ok
}

// lowestBare is the least a bench is run at in any unit; a smaller figure behind
// an "at" is a lift.
const lowestBare = 3

// FindPressureUnit finds the unit named in a caption such as "TP inH2O".
func FindPressureUnit(text string) (PressureUnit, bool) {
	for _, m := range pressureUnit.FindAllStringSubmatchIndex(text, -1) {
		if opensCode(text, m[1]) {
			continue
		}
		for group, unit := range unitOrder() {
			if m[2+2*group] >= 0 {
				return unit, true
			}
		}
	}
	return PressureNotStated, false
}

// BarePressure decides a pressure without a unit where nothing but the figure
// is known and flows are in cfm. 28 is the trade's own inch of water; 10, 12,
// 15, 20 and 36 are inches of water because no bench is run at so many mbar or
// kPa (common practice, no source). 3, 7 and 25 are ordinary in other units
// too, and everything else is not a custom: those have to be asked.
func BarePressure(x float64) (quantity.Pressure, bool) {
	switch x {
	case 10, 12, 15, 20, 28, 36:
		return quantity.InchesOfWater(x), true
	}
	return 0, false
}

// decimalMarkOf takes a comma in a lone figure such as "18,8" for a decimal
// comma: no pressure or bore has thousands.
func decimalMarkOf(figure string) Mark {
	if strings.Contains(figure, ",") {
		return CommaMark
	}
	return PointMark
}

func blank(s string) string { return strings.Repeat(" ", len(s)) }
