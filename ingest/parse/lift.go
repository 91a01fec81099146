package parse

import (
	"math"
	"regexp"
	"strings"

	"flowshelf/analysis/quantity"
)

// LiftUnit is the unit a list of lifts is written in.
type LiftUnit uint8

// The lift units. Tenths is `1` meaning .100, as some shops write it.
const (
	LiftNotStated LiftUnit = iota
	LiftInches
	LiftThou
	LiftMM
	LiftTenths
	LiftOverDiameter // L/D: needs the valve size
	LiftCM
)

// String returns the unit in words.
func (u LiftUnit) String() string {
	return [...]string{"not stated", "in", "thou", "mm", "tenths of an inch", "L/D", "cm"}[u]
}

// Length returns x of the unit and the conversion in words. It fails for
// units that need more than the figure.
func (u LiftUnit) Length(x float64) (l quantity.Length, step string, ok bool) {
	switch u {
	case LiftInches:
		return quantity.Inches(x), "", true
	case LiftThou:
		return quantity.Thou(x), "thou / 1000 = in", true
	case LiftMM:
		return quantity.Millimetres(x), "mm / 25.4 = in", true
	case LiftCM:
		return quantity.Millimetres(10 * x), "cm / 2.54 = in", true
	case LiftTenths:
		return quantity.Inches(x / 10), "tenths / 10 = in", true
	default:
		return 0, "", false
	}
}

// LiftText is one cell of a list of lifts.
type LiftText struct {
	Value   float64
	Unit    LiftUnit // only when the cell itself says so
	Spelled bool     // written as only a lift is: L.200, @.200, .200 lift, 0.100", .100
	Ditto   bool     // the lift of the cell before
	Rest    string   // words beside the figure: a port
}

var (
	liftText = regexp.MustCompile(`(?i)^(l\.\s+|l|@|at|lift|vl|hub)?\s*[=:]?\s*(\d*[.,]?\d+)\s*("|”|″|''|in\.?|inch(?:es)?|pouces?|pollici|pulgadas?|zoll|mm|cm|thou|thousandths)?\s*(lift|(?:ventil)?hub|lev[ée]e|alzata|alzada|levantamiento|-)?$`)
	liftWord = regexp.MustCompile(`(?i)^([\p{L}.]+)\s*[@-]?\s+?(l|@)?\s*([.,]\d{2,3}|0[.,]\d{1,3})\s*("|in\.?)?$`)
	ditto    = regexp.MustCompile(`^\s*(["”″„]|''|do\.?|ditto)\s*$`)
)

// Lift reads one cell of a list of lifts: `100`, `.100`, `0.100"`, `100 thou`,
// `2,54 mm`, `L100`, `@.100`, `.200 Lift`, `.100-`, a ditto mark, `Int .200`.
// The unit of a bare figure is for the whole list to decide.
func Lift(text string) (LiftText, bool) {
	text = Squeeze(text)
	if ditto.MatchString(text) {
		return LiftText{Ditto: true}, true
	}
	if x, ok := fractionOfInch(text); ok {
		return LiftText{Value: x, Unit: LiftInches}, true
	}
	rest := ""
	m := liftText.FindStringSubmatch(text)
	if m == nil {
		w := liftWord.FindStringSubmatch(text)
		if w == nil {
			return LiftText{}, false
		}
		rest, m = w[1], []string{"", w[2], w[3], w[4], ""}
		if m[1] == "" {
			m[1] = "@"
		}
	}
	x, ok := Plain(m[2], decimalMarkOf(m[2]))
	if !ok || x > 1500 || x > 0 && x <= thousandth {
		return LiftText{}, false // `.001"` is a unit and no lift
	}
	l := LiftText{Value: x, Rest: rest, Spelled: m[1] != "" || m[3] != "" || m[4] != "" || strings.HasPrefix(m[2], ".")}
	metric := map[string]LiftUnit{"mm": LiftMM, "cm": LiftCM}
	switch unit := strings.ToLower(m[3]); {
	case metric[unit] != LiftNotStated:
		l.Unit = metric[unit]
	case strings.HasPrefix(unit, "thou"):
		l.Unit = LiftThou
	case unit != "":
		l.Unit = LiftInches
		if x >= 20 {
			return LiftText{}, false // 28" is a pressure
		}
	case strings.HasPrefix(m[2], "."):
		l.Unit = LiftInches
	case m[1] != "" && x >= 20:
		l.Unit = LiftThou // L100
	}
	return l, true
}

var ofInch = regexp.MustCompile(`(?i)^(\d{1,2})/(2|4|8|16|32|64)\s*(?:"|”|″|in\.?|inch(?:es)?|zoll)?$`)

// fractionOfInch reads 3/8: below an inch, in parts that a rule has.
func fractionOfInch(text string) (float64, bool) {
	m := ofInch.FindStringSubmatch(text)
	if m == nil {
		return 0, false
	}
	part, _ := Plain(m[1], PointMark)
	whole, _ := Plain(m[2], PointMark)
	return part / whole, part > 0 && part < whole
}

// thousandth is the unit that shops write as `.001"`; no valve is flowed at it.
const thousandth = 0.001

var (
	liftInCaption   = regexp.MustCompile(`(?i)\(?\b(in|inch|inches|inch\.|pouces?|pollici|pulgadas?|pulg|zoll)\b\.?\)?|"`)
	liftMMCaption   = regexp.MustCompile(`(?i)\bmm\b|\bm/m\b|\bmillim(?:et(?:re|er)s?|[èe]tres?|etri|etros)\b`)
	liftCMCaption   = regexp.MustCompile(`(?i)\bcm\b|\b[cz]entim(?:et(?:re|er)s?|[èe]tres?|etri|etros)\b`)
	liftThouCaption = regexp.MustCompile(`(?i)\b(thou|thousandths|mils?)\b|(?:^|[^\d.])0?\.001\s*(?:"|”|″|''|in(?:ch(?:es)?)?\b\.?)?|1/1000\s*(?:"|in\b)?`)
	liftLDCaption   = regexp.MustCompile(`(?i)\bl\s*/\s*d\b|\bl/dv\b|lift\s*/\s*dia`)
)

// FindLiftUnit finds the unit named in a caption over lifts: "Lift in", "Hub
// mm", "L/D". A caption that names two names none.
func FindLiftUnit(text string) (LiftUnit, bool) {
	found := LiftNotStated
	if m := liftThouCaption.FindString(text); m != "" {
		text = strings.Replace(text, m, " thou ", 1) // the inch of .001" is not the unit
	}
	for _, c := range []struct {
		unit    LiftUnit
		pattern *regexp.Regexp
	}{{LiftOverDiameter, liftLDCaption}, {LiftMM, liftMMCaption}, {LiftCM, liftCMCaption}, {LiftThou, liftThouCaption}, {LiftInches, liftInCaption}} {
		if !c.pattern.MatchString(text) {
			continue
		}
		if found != LiftNotStated {
			return LiftNotStated, false
		}
		found = c.unit
	}
	return found, found != LiftNotStated
}

// GuessLiftUnit looks at the figures of a whole list that states no unit. It
// returns every unit the list can be in: one is decided, two have to be asked,
// none means that the list mixes units. Domain: an unlabelled list of 0.02 to
// 1.2 is inches, 20 to 1200 without decimals is thousandths, 1 to 25 is
// millimetres or, up to 10, tenths of an inch (common practice, no source).
func GuessLiftUnit(values []float64) []LiftUnit {
	low, high, whole := math.Inf(1), 0.0, true
	for _, v := range values {
		if v == 0 {
			continue
		}
		low, high = min(low, v), max(high, v)
		whole = whole && v == math.Trunc(v)
	}
	switch {
	case high == 0 || math.IsInf(low, 1):
		return nil
	case high <= 1.2 && low >= 0.0199:
		if !whole {
			return []LiftUnit{LiftInches}
		}
		return []LiftUnit{LiftTenths, LiftMM}
	case low >= 20 && high <= 1200 && whole:
		return []LiftUnit{LiftThou}
	case low >= 0.4 && high > 10 && high <= 26:
		return []LiftUnit{LiftMM}
	case low >= 0.4 && high <= 10:
		return []LiftUnit{LiftTenths, LiftMM}
	default:
		return nil
	}
}
