package parse

import (
	"regexp"

	"flowshelf/analysis/quantity"
)

// FlowUnit is the unit a flow column is written in.
type FlowUnit uint8

// The flow units. The mass flows cannot be converted without a density.
const (
	FlowNotStated FlowUnit = iota
	CFM
	LitresPerSecond
	CubicMetresPerHour
	CubicMetresPerMinute
	LitresPerMinute
	MassFlow     // kg/h, g/s, lb/min
	StandardFlow // scfm, Nm3/h: a mass flow in disguise
)

// The words that units of flow are made of, in five languages.
const (
	litre      = `(?:l|lts?|ltrs?|lit(?:re|er|ro|ri|ros)s?|dm(?:3|³|\^3))`
	cubicMetre = `(?:m\s?(?:3|³|\^3)|cbm|mc|cu\.?\s*m(?:et(?:re|er)s?)?|cubic\s+met(?:re|er)s?|m(?:[èe]tres?|etri|etros?)\s+c(?:ubes?|ubi|[úu]bicos?)|kubikmeter)`
	cubicFoot  = `(?:ft\.?\s?(?:3|³|\^3)|cu\.?\s*(?:ft|feet|foot)\.?|cubic\s+(?:f(?:ee|oo)t|ft\.?)|pi(?:ed)?s?\s?(?:3|³)|pieds?\s+cubes?|pies?\s?(?:3|³)|piedi\s+cubi|pies\s+c[úu]bicos|kubikfu(?:ss|ß))`
	perTime    = `\s*(?:/|\b(?:per|par|pro|al|alla|all'|por|je|a\s+la|à\s+la|à\s+l')\s*)\s*`
	second     = `(?:s|secs?|sek|seconds?|sekunden?|secondes?|secondo|segundo)\b`
	minute     = `(?:min|mn|mins|minutes?|minuten?|minuto)\b`
	hour       = `(?:h|hr|hrs|hours?|std|stunden?|heures?|ora|hora)\b`
)

var (
	standardText = regexp.MustCompile(`(?i)\b(scfm|slpm|nl\s*/\s*min|sl\s*/\s*min|nm(3|³)\s*/\s*h)\b`)
	massText     = regexp.MustCompile(`(?i)\b(?:kg|lbs?|g|gramm?e?s?)` + perTime + `(?:` + second + `|` + minute + `|` + hour + `)`)
	cfmText      = regexp.MustCompile(`(?i)\b(?:c\.?f\.?m(?:'?s\b|\b)|pcm\b)|\b` + cubicFoot + perTime + minute)
	perSecond    = regexp.MustCompile(`(?i)\b(?:` + litre + perTime + second + `|lps\b|l\.p\.s\b)`)
	litreMinute  = regexp.MustCompile(`(?i)\b(?:` + litre + perTime + minute + `|lpm\b)`)
	cubicMinute  = regexp.MustCompile(`(?i)\b` + cubicMetre + perTime + minute)
	cubicHour    = regexp.MustCompile(`(?i)\b(?:` + cubicMetre + perTime + hour + `|cmh\b|m3h\b|mch\b)`)
	flowHint     = regexp.MustCompile(`(?i)[/]|c\.?f\.?m|lp[sm]|l\.p\.|cmh|m3h|mch|pcm|\b(?:per|par|pro|por|al|a|je)\b`)
)

type flowPattern struct {
	unit    FlowUnit
	pattern *regexp.Regexp
}

func flowPatterns() []flowPattern {
	return []flowPattern{
		{StandardFlow, standardText}, {MassFlow, massText}, {CFM, cfmText}, {LitresPerSecond, perSecond},
		{LitresPerMinute, litreMinute}, {CubicMetresPerMinute, cubicMinute}, {CubicMetresPerHour, cubicHour},
	}
}

// FindFlowUnit finds the flow unit a text names. A text that names two names
// none.
func FindFlowUnit(text string) (FlowUnit, bool) {
	found := FlowNotStated
	if !flowHint.MatchString(text) {
		return found, false // most texts, at the price of one search
	}
	for _, u := range flowPatterns() {
		if !u.pattern.MatchString(text) {
			continue
		}
		if found != FlowNotStated {
			return FlowNotStated, false
		}
		found = u.unit
	}
	return found, found != FlowNotStated
}

// StrikeFlowUnit blanks out the flow units of a text.
func StrikeFlowUnit(text string) string {
	for _, u := range flowPatterns() {
		text = u.pattern.ReplaceAllStringFunc(text, blank)
	}
	return text
}

// String returns the unit as the trade writes it.
func (u FlowUnit) String() string {
	return [...]string{"not stated", "cfm", "L/s", "m3/h", "m3/min", "L/min", "mass flow", "standard flow"}[u]
}

// Volumetric reports whether a figure of the unit is a volume flow.
func (u FlowUnit) Volumetric() bool { return u != MassFlow && u != StandardFlow && u != FlowNotStated }

// Flow returns x of the unit as an actual volume flow and the conversion in
// words, "" when none was made. It fails for units that need a density.
func (u FlowUnit) Flow(x float64) (flow quantity.Flow, step string, ok bool) {
	switch u {
	case CFM:
		return quantity.CFM(x), "", true
	case LitresPerSecond:
		return quantity.LitresPerSecond(x), "L/s x 2.118880 = cfm", true
	case CubicMetresPerHour:
		return quantity.CubicMetresPerHour(x), "m3/h x 0.588578 = cfm", true
	case CubicMetresPerMinute:
		return quantity.CubicMetresPerMinute(x), "m3/min x 35.314667 = cfm", true
	case LitresPerMinute:
		return quantity.LitresPerSecond(x / 60), "L/min x 0.0353147 = cfm", true
	default:
		return 0, "", false
	}
}
