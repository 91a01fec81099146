package flowsheet

import (
	"regexp"
	"strings"

	"flowshelf/ingest/parse"
	"flowshelf/ingest/words"
)

// claimed is a point of a curve that is claimed in a sentence.
type claimed struct {
	text, limit, unit string
	flow, lift        float64
	metric            bool // the lift is in millimetres
}

// advertPoint is a flow with its unit, at a lift: "278 cfm @ .600 lift", "92.5
// l/s Einlass bei 12 mm Hub", "99.5 l/s à l'admission à 14 mm de levée".
var advertPoint = regexp.MustCompile(`(?i)(up to|over|as high as|more than|bis(?: zu)?|[uü]ber|mehr als|jusqu['’][àa]|plus de|fino a|oltre|pi[uù] di|hasta|m[aá]s de)?\s*\b(\d{2,3}(?:[.,]\d{1,2})?)\s*(cfm|l/s|m[3³]/h)` +
	`([^\d.,;:|@]{0,28}?)\s*(?:@|\bat|\bbei|(?:^|\s)[àa]|\bcon)\s*(\.\d{2,3}|0[.,]\d{1,3}|\d{1,2}(?:[.,]\d{1,2})?\s*mm\b|\d{3}\b)\s*("|”|in\b\.?|inch(?:es)?|pulg\b\.?|zoll)?`)

// liftNoun says that a sentence speaks of a valve's lift.
var liftNoun = regexp.MustCompile(`(?i)lift|\b(?:ventil)?hub\b|lev[ée]e|\balzata\b|\balzada\b|levantamiento`)

// otherFigure is what stands behind a figure that is a pressure or the like and
// no lift.
var otherFigure = regexp.MustCompile(`(?i)^\s*(?:mm|mbar|mb\b|hpa|k?pa\b|psi|rpm|hp\b|ws\b|w\.?\s?[gcs]\b|(?:of |de |d['’])?(?:water|wasser|agua|eau|acqua|h2o)|[a-z]*\s*wg\b)`)

// pointsIn returns the points that a sentence claims.
func pointsIn(text string) []claimed {
	var out []claimed
	for _, at := range advertPoint.FindAllStringSubmatchIndex(text, -1) {
		part := func(n int) string {
			if at[2*n] < 0 {
				return ""
			}
			return text[at[2*n]:at[2*n+1]]
		}
		lift := strings.ToLower(part(5))
		p := claimed{text: strings.TrimSpace(part(0)), limit: part(1), unit: part(3), metric: strings.HasSuffix(lift, "mm")}
		flow, ok1 := parse.Plain(strings.ReplaceAll(part(2), ",", "."), parse.PointMark)
		x, ok2 := parse.Plain(strings.ReplaceAll(strings.TrimSpace(strings.TrimSuffix(lift, "mm")), ",", "."), parse.PointMark)
		if !ok1 || !ok2 || otherFigure.MatchString(text[at[1]:]) || p.metric && x > highestMM {
			continue
		}
		p.flow, p.lift = flow, x
		out = append(out, p)
	}
	return out
}

var (
	nameAndColon = regexp.MustCompile(`^\s*([\pL#\d][^:|]{1,30}?)\s*:\s`)
	nameAndFlows = regexp.MustCompile(`(?i)^\s*([\pL#\d][^:|]{1,30}?)\s+(?:(?:intake|exhaust|inlet|int|exh)\s+)?flow(?:s|ed)?\b`)
)

// nameAndLimit opens a claim with a name and the words before its figure: "Dale
// 23 up to 268".
var nameAndLimit = regexp.MustCompile(`(?i)^\s*([\pL#\d][^:|,]{1,30}?)\s+(?:up to|over|as high as|more than|bis(?: zu)?|[uü]ber|mehr als|jusqu['’][àa]|plus de|fino a|oltre|pi[uù] di|hasta|m[aá]s de)\s+\d`)

// nameBefore returns the name that a claim opens with: all that stands before
// the colon, or a word with a figure before "flows".
func nameBefore(text string) (string, bool) {
	if m := nameAndColon.FindStringSubmatch(text); m != nil && len(words.FlowSheet().Find(words.Tokens(m[1]))) == 0 {
		return m[1], true
	}
	if m := nameAndLimit.FindStringSubmatch(text); m != nil && len(words.FlowSheet().Find(words.Tokens(m[1]))) == 0 && strings.ContainsAny(m[1], "0123456789") {
		return m[1], true
	}
	if m := nameAndFlows.FindStringSubmatch(text); m != nil && len(words.FlowSheet().Find(words.Tokens(m[1]))) == 0 && strings.ContainsAny(m[1], "0123456789") {
		return m[1], true
	}
	return "", false
}
