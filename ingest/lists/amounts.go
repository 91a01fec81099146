package lists

import (
	"fmt"
	"regexp"
	"strings"

	"flowshelf/analysis/quantity"
	"flowshelf/analysis/source"
	"flowshelf/ingest/decode"
)

// The smallest and the largest cross-section of a port, in2 (common practice,
// no source).
const (
	minAreaIn2 = 0.3
	maxAreaIn2 = 8.0
)

// area reads a cross-section.
func (r *reader) area(l line, want role) source.Stated[quantity.Area] {
	cell, c, ok := r.cell(l, want)
	if !ok {
		return source.Stated[quantity.Area]{}
	}
	x, ok := r.plainNumber(cell, c)
	if !ok {
		r.notANumber(l, cell, c)
		return source.Stated[quantity.Area]{}
	}
	area, unit := quantity.SquareInches(x), "in2"
	switch text := c.title + " " + textOf(cell); {
	case strings.Contains(text, "cm²") || strings.Contains(text, "cm2"):
		area, unit = quantity.SquareCentimetres(x), "cm2"
	case strings.Contains(text, "mm²") || strings.Contains(text, "mm2"):
		area, unit = quantity.SquareMillimetres(x), "mm2"
	case !squareInches.MatchString(text) && x > 2.5:
		// 2.5 to 8 may be in2 or cm2 of a small port; nothing written tells.
		switch r.askUnit(l, cell, c, "area-unit-not-stated", "in² or cm²", "in²", "cm²") {
		case "in²":
		case "cm²":
			area, unit = quantity.SquareCentimetres(x), "cm2"
		default:
			return source.Stated[quantity.Area]{}
		}
	}
	if area.In2() < minAreaIn2 || area.In2() > maxAreaIn2 {
		r.problem(cell, source.Refused, "impossible-size", l.name(), fmt.Sprintf("%s cannot be %.2f in²", c.title, area.In2()), "check the figure and its unit")
		r.drop(cell, "an impossible size")
		return source.Stated[quantity.Area]{}
	}
	return source.Say(area, r.trace(cell, unit))
}

var squareInches = regexp.MustCompile(`(?i)in²|in2|in\^2|sq\.? ?in`)

// volume reads cc, the one unit in which ports and chambers are poured.
func (r *reader) volume(l line, want role, from, to float64) source.Stated[quantity.Volume] {
	cell, c, ok := r.cell(l, want)
	if !ok {
		return source.Stated[quantity.Volume]{}
	}
	x, ok := r.plainNumber(cell, c)
	switch {
	case !ok:
		r.problem(cell, source.Noted, "not-one-number", l.name(), c.title+" is not one number and is kept as written", "type the volume in cc")
		return source.Stated[quantity.Volume]{}
	case x < from || x > to:
		r.problem(cell, source.Refused, "impossible-size", l.name(), fmt.Sprintf("%s cannot be %g cc", c.title, x), "check the figure")
		r.drop(cell, "an impossible volume")
		return source.Stated[quantity.Volume]{}
	}
	return source.Say(quantity.CubicCentimetres(x), r.trace(cell, "cc"))
}

// mass reads a weight in pounds or kilograms, as the title or the cell says.
func (r *reader) mass(l line, want role) source.Stated[quantity.Mass] {
	cell, c, ok := r.cell(l, want)
	if !ok {
		return source.Stated[quantity.Mass]{}
	}
	kilos := kiloText.MatchString(c.title) || cell.Kind == decode.Text && kiloText.MatchString(cell.Text)
	pounds := poundText.MatchString(c.title) || cell.Kind == decode.Text && poundText.MatchString(cell.Text)
	if cell.Kind == decode.Text {
		cell.Text = kiloText.ReplaceAllString(cell.Text, "")
	}
	x, ok := r.plainNumber(cell, c)
	switch {
	case !ok:
		r.notANumber(l, cell, c)
	case kilos == pounds:
		switch r.askUnit(l, cell, c, "weight-unit-not-stated", "pounds or kilograms", "lb", "kg") {
		case "lb":
			return source.Say(quantity.Pounds(x), r.trace(cell, "lb"))
		case "kg":
			return source.Say(quantity.Kilograms(x), r.trace(cell, "kg"))
		}
	case kilos:
		return source.Say(quantity.Kilograms(x), r.trace(cell, "kg"))
	default:
		return source.Say(quantity.Pounds(x), r.trace(cell, "lb"))
	}
	return source.Stated[quantity.Mass]{}
}

var (
	kiloText  = regexp.MustCompile(`(?i)\bkg\b`)
	poundText = regexp.MustCompile(`(?i)\b(lbs?|pounds?)\b`)
)
