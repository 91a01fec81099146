package flowsheet

import (
	"regexp"
	"slices"
	"strings"

	"flowshelf/ingest/decode"
	"flowshelf/ingest/parse"
	"flowshelf/ingest/words"
)

// longestLift is how long a text can be that says one lift and no more.
const longestLift = 30

// liftInWords reads a lift beside words that all name the lift: ".100 lift
// value", "opening 2 mm".
func liftInWords(text string) (parse.LiftText, bool) {
	if len(text) > longestLift || !strings.ContainsAny(text, "0123456789") {
		return parse.LiftText{}, false
	}
	tokens := words.Tokens(text)
	left, named := []byte(text), false
	for _, hit := range words.FlowSheet().Find(tokens) {
		switch hit.Role {
		case words.Lift, words.Opening, words.Filler:
			named = named || hit.Role != words.Filler
			for i := tokens[hit.At].Start; i < tokens[hit.At+hit.Tokens-1].End; i++ {
				left[i] = ' '
			}
		default:
		}
	}
	l, ok := parse.Lift(strings.Trim(string(left), " :=,"))
	if !named || !ok || l.Ditto || l.Rest != "" {
		return besideUnknown(text)
	}
	l.Spelled = true
	return l, true
}

// beside is a figure that is written as a lift, with words behind it.
var beside = regexp.MustCompile(`(?i)^((?:@\s*)?(?:\.\d{2,3}|\d*[.,]?\d+\s*(?:"|in\b\.?|mm\b|thou\b)))\s+([\pL][\pL. ]*)$`)

// besideUnknown reads ".100 xyz" where nobody knows the word: down a whole
// column under one another they can still be lifts.
func besideUnknown(text string) (parse.LiftText, bool) {
	m := beside.FindStringSubmatch(parse.Squeeze(text))
	if m == nil || len(words.FlowSheet().Find(words.Tokens(m[2]))) > 0 {
		return parse.LiftText{}, false
	}
	l, ok := parse.Lift(m[1])
	l.Rest = m[2]
	return l, ok && !l.Ditto
}

// underPort reports whether the words right over a list name a port and the
// lifts may stand before it.
func (a axis) underPort() bool {
	if a.plane.Swapped || a.col < 2 || !isFigure(a.plane.At(a.first(), a.col-1)) {
		return false
	}
	for row := a.first() - 1; row >= max(1, a.first()-2); row-- {
		c := a.plane.At(row, a.col)
		if c.Kind != decode.Text || unitsOnly(c) {
			continue
		}
		return slices.ContainsFunc(words.FlowSheet().Find(words.Tokens(c.Text)), func(h words.Hit) bool {
			return h.Role == words.Intake || h.Role == words.Exhaust
		})
	}
	return false
}

// isHeadLabel reports whether a cell is the caption of a column of heads.
func isHeadLabel(c decode.Cell) bool {
	k, ok := captionOf(c.Text)
	return c.Kind == decode.Text && ok && k.role == words.Head
}

// repeats reports whether lifts across are those of a labelled list right before
// them: "Lift | 5 | 6 | 7 | 5 | 6 | 7" under two ports.
func (a axis) repeats(o axis) bool {
	return a.plane.Swapped && len(a.entries) >= 3 && a.label.Blank() && o.sure >= labelled && a.first() == o.last()+1 &&
		slices.EqualFunc(a.entries, o.entries, func(x, y entry) bool { return x.text == y.text })
}

// saysOpening reports whether a label speaks of an opening or a travel and not
// of a lift: so do the sheets of taps and dampers.
func saysOpening(label decode.Cell) bool {
	hits := words.FlowSheet().Find(words.Tokens(label.Text))
	return slices.ContainsFunc(hits, func(h words.Hit) bool { return h.Role == words.Opening && !openEnded.MatchString(label.Text) }) &&
		!slices.ContainsFunc(hits, func(h words.Hit) bool { return h.Role == words.Lift || h.Role == words.LiftOverDiameter })
}

// liftsIn says in which unit all lifts of a sheet are: "Lifts in mm".
var liftsIn = regexp.MustCompile(`(?i)^\W*(?:(?:all|alle|tous|toutes les|tutte le|todas las|les|le|las|die)\s+)?(?:valve\s+)?(?:lifts?|(?:ventil)?h[uü]be?|lev[ée]es?|alzat[ae]|alzadas?)\s+(?:(?:are|is|given|sind|sono|son|sont)\s+)?(?:in|en)\s+(mm|millim\pL+|inch(?:es)?|thou(?:sandths)?|zoll|pouces|pollici|pulgadas)\W*$`)

// liftsInOf reads the unit of all lifts from a line of its own.
func liftsInOf(l *line) {
	if l.place != inTitle {
		return
	}
	m, ok := l.take(liftsIn)
	if !ok {
		return
	}
	if unit, ok := parse.FindLiftUnit("lift " + m[1]); ok {
		l.facts.liftUnit.add(unit, l.said(m[0]))
	}
}
