package flowsheet

import (
	"regexp"
	"slices"
	"strings"

	"flowshelf/ingest/decode"
	"flowshelf/ingest/layout"
	"flowshelf/ingest/words"
)

// Beside what a head flows a sheet often lists what the head is: its weight, its
// springs, the stems, the chamber. Nothing of such a list is a reading.

var (
	measureKey = regexp.MustCompile(`(?i)^(?:(?:valve |ventil|min\.? |port )?(?:weight|gewicht|poids|peso|springs?|federn?|ressorts?|moll[ae]|muelles?|resortes?|stems?|schaft|` +
		`tiges?(?: de soupape)?|stelo|v[aá]stagos?|runner|volume|chambers?|brennraum|chambres?|camera|c[aá]maras?|guides?|f[uü]hrung(?:en)?|guid[ae]|gu[ií]as?|` +
		`csa|cross section|querschnitt|retainers?|deck))(?: (?:cc|vol(?:ume)?\.?|size|dia\.?|height|pressure|load|material|thickness))?$`)
	chamberKey = regexp.MustCompile(`(?i)^(?:chamber|brennraum|chambre|camera|c[aá]mara)`)
	aVolume    = regexp.MustCompile(`(?i)\d\s*(?:cc|cm3|cm³|ml)\b`)
)

// boxOf is one cell of a list beside a table: its key, and its value in the same
// cell or in the next column.
type boxOf struct {
	key, value string
	cells      int
}

func newBox(c, next decode.Cell) boxOf {
	key, value, _ := strings.Cut(c.Text, ":")
	box := boxOf{strings.TrimSpace(key), strings.TrimSpace(value), 1}
	if box.value == "" && next.Col == c.Col+1 && !next.Blank() {
		box.value, box.cells = cellText(next), 2
	}
	return box
}

// isMeasure reports whether a box holds a measure of the head, in figures: "Runner"
// before "Intake" heads a column. A chamber without a volume may be the one that was
// flowed.
func (b boxOf) isMeasure() bool {
	return statesSeats(b.key, b.value) ||
		aFigure.MatchString(b.value) && measureKey.MatchString(b.key) && (!chamberKey.MatchString(b.key) || aVolume.MatchString(b.value))
}

// statesUnit reports whether a box tells the unit of all flows, whatever its key is
// called: "Unit | cfm". Over a column the unit has a port or a lift before it.
func (b boxOf) statesUnit() bool {
	return b.key != "" && isFlowUnit(b.value) && !slices.ContainsFunc(words.FlowSheet().Find(words.Tokens(b.key)), func(h words.Hit) bool {
		return h.Role != words.Flow && h.Role != words.Filler && h.Role != words.Sample && h.Role != words.Serial
	})
}

// opensKeys reports whether a cell is the first of three keys or more that stand
// under one another, each of something else: "Head" over "Bore" over "Date". The
// cells under the header of a column are no keys.
func opensKeys(page *layout.Page, c decode.Cell) bool {
	var was []words.Role
	for row := c.Row; row <= c.Row+2; row++ {
		key := page.Sheet.At(row, c.Col)
		k, ok := captionOf(key.Text)
		if key.Kind != decode.Text || !ok || slices.Contains(was, k.role) {
			return false
		}
		was = append(was, k.role)
	}
	return true
}

// boxAt is the box that begins with a cell of a line.
func boxAt(l layout.Line, i int) boxOf {
	var next decode.Cell
	if i+1 < len(l.Cells) {
		next = l.Cells[i+1]
	}
	return newBox(l.Cells[i], next)
}

// keysOnly reports whether a column holds nothing in the rows of the table but
// keys of what stands behind them, in the same cell or in the next column.
func (t *table) keysOnly(col int) bool {
	if t.plane().Swapped {
		return false
	}
	keys := 0
	for row := t.top; row <= t.axis.last(); row++ {
		c, value := t.plane().At(row, col), t.plane().At(row, col+1)
		switch {
		case c.Blank() && isFigure(value): // a reading
			return false
		case c.Blank():
			continue
		case c.Kind != decode.Text:
			return false
		}
		_, _, keyed := keyValue(c.Text)
		k, caption := captionOf(c.Text)
		box := newBox(c, value)
		switch {
		case keyed || caption && k.whole() || box.isMeasure() || box.statesUnit():
			keys++
		case box.cells == 1 && box.value != "": // a key whose word nobody knows, with its value
		case value.Blank():
			return false
		case caption:
			keys++
		case !keyMark.MatchString(c.Text):
			return false
		}
	}
	return keys > 0
}

// keyMark ends a key whose word nobody knows.
var keyMark = regexp.MustCompile(`(?:[:=…]|\.{2,}|\s[-–])\s*$`)
