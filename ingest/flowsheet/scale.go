package flowsheet

import (
	"regexp"

	"flowshelf/analysis/head"
	"flowshelf/ingest/decode"
	"flowshelf/ingest/layout"
	"flowshelf/ingest/parse"
)

// How a sheet says in words what its bench's percent scale is linear in.
var (
	linearIn    = regexp.MustCompile(`(?i)\blin[eé]a(?:r|re|ri|l|les|ires?)?(?:es)?\s+(?:in|im|to|with|zum|zur|mit|nach|en|avec|au|con|a|al|alla|à)\s+(?:(?:the|dem|der|le|la|el|il)\s+)?([\pL0-9]+)`)
	notLinear   = regexp.MustCompile(`(?i)\b(?:not|nicht|non|pas|no|n't)\s+(?:\pL+\s+)?lin[eé]a`)
	flowNoun    = regexp.MustCompile(`(?i)^(?:flow|airflow|cfm|durchfluss|durchflu|volumenstrom|luftmenge|d[eé]bit|portata|flusso|caudal|flujo)`)
	pressedNoun = regexp.MustCompile(`(?i)^(?:pressure|depression|vacuum|dp|druck|differenzdruck|unterdruck|wirkdruck|pression|d[eé]pression|pressione|depressione|presi[oó]n|depresi[oó]n)`)
)

// scaleStated returns how the percent scale is divided where the page says so in
// words, in one way and no other.
func (b *builder) scaleStated() (head.RangeScale, bool) {
	found := head.ScaleNotStated
	for _, c := range b.page.Sheet.Cells {
		if c.Kind != decode.Text {
			continue
		}
		if notLinear.MatchString(c.Text) {
			return head.ScaleNotStated, false
		}
		m := linearIn.FindStringSubmatch(c.Text)
		if m == nil {
			continue
		}
		scale := head.ScaleNotStated
		switch {
		case flowNoun.MatchString(m[1]):
			scale = head.LinearInFlow
		case pressedNoun.MatchString(m[1]):
			scale = head.LinearInPressure
		}
		if found != head.ScaleNotStated && scale != found {
			return head.ScaleNotStated, false
		}
		found = scale
	}
	return found, found != head.ScaleNotStated
}

// calibrationUnit returns the unit of a calibration: the one its words name,
// else the only one that the page does, else cfm.
func calibrationUnit(page *layout.Page, over decode.Cell) parse.FlowUnit {
	if unit, ok := parse.FindFlowUnit(over.Text); ok {
		return unit
	}
	found := parse.CFM
	for _, c := range page.Sheet.Cells {
		unit, ok := parse.FindFlowUnit(c.Text)
		switch {
		case c.Kind != decode.Text || !ok || !unit.Volumetric():
		case unit == parse.CFM:
			return parse.CFM
		default:
			found = unit
		}
	}
	return found
}
