package shop

import (
	"fmt"
	"math"
	"regexp"
	"strconv"
	"strings"

	"flowshelf/analysis/quantity"
	"flowshelf/analysis/source"
)

// typedFigure is a figure as people type it in any of their languages: 2.5, 2,5,
// .433, 1 450,00, 1,480.00.
var typedFigure = regexp.MustCompile(`^[+-]?(\d{1,3}([., ']\d{3})+([.,]\d*)?|\d*[.,]?\d+|\d+[.,])$`)

// figures returns what a typed figure can mean. One sign before three digits can
// part thousands or fractions: the reading with a fraction comes first. Nothing
// comes back for what is no figure.
func figures(text string) []float64 {
	text = strings.Join(strings.Fields(text), " ")
	if !typedFigure.MatchString(text) {
		if x, err := strconv.ParseFloat(text, 64); err == nil && !math.IsInf(x, 0) && !math.IsNaN(x) {
			return []float64{x} // 1e-3, as programs write it
		}
		return nil
	}
	text = strings.NewReplacer(" ", "", "'", "").Replace(text)
	points, commas, last := strings.Count(text, "."), strings.Count(text, ","), strings.LastIndexAny(text, ".,")
	parted, whole := fraction(text, last), fraction(text, -1)
	switch {
	case points+commas == 0:
		return whole
	case points > 0 && commas > 0:
		if strings.Count(text, text[last:last+1]) > 1 {
			return nil
		}
		return parted
	case points+commas > 1:
		if len(text)-last-1 != 3 {
			return nil
		}
		return whole
	case len(text)-last-1 != 3 || strings.Trim(text[:last], "+-0") == "":
		return parted
	}
	return append(parted, whole...)
}

// fraction reads a figure whose fraction begins behind the sign at a place; -1 for
// none.
func fraction(text string, at int) []float64 {
	bare := strings.NewReplacer(".", "", ",", "")
	digits := bare.Replace(text)
	if at >= 0 {
		digits = bare.Replace(text[:at]) + "." + text[at+1:]
	}
	x, err := strconv.ParseFloat(digits, 64)
	if err != nil {
		return nil
	}
	return []float64{x}
}

// typedIn reads a typed figure that has to fit. What can be read in two ways that
// both fit is not read where a comma makes it so; a point is the decimal point, as
// on sheets.
func typedIn(text string, fits func(float64) bool) (float64, bool) {
	var found []float64
	for _, x := range figures(text) {
		if fits(x) {
			found = append(found, x)
		}
	}
	if len(found) == 0 || len(found) > 1 && strings.Contains(text, ",") {
		return 0, false
	}
	return found[0], true
}

var typedLength = regexp.MustCompile(`(?i)^([\d.,' ]+?|(?:\d+[ -])?\d+/\d+)\s*(mm|thou|in\.?|inch(?:es)?|zoll|"|”|″|'')?$`)

// typedLengthIn reads a length with or without its unit, which is inches where none
// is typed.
func typedLengthIn(text string, b bounds) (quantity.Length, bool) {
	m := typedLength.FindStringSubmatch(strings.Join(strings.Fields(text), " "))
	if m == nil {
		return 0, false
	}
	inUnit := quantity.Inches
	switch strings.ToLower(m[2]) {
	case "mm":
		inUnit = quantity.Millimetres
	case "thou":
		inUnit = quantity.Thou
	}
	fits := func(x float64) bool { return inUnit(x).In() >= b.from && inUnit(x).In() <= b.to }
	if x, ok := ratio(m[1]); ok {
		return inUnit(x), fits(x)
	}
	x, ok := typedIn(m[1], fits)
	return inUnit(x), ok
}

// ratio reads 7/16 and 4-1/8.
func ratio(text string) (float64, bool) {
	whole, part := "0", text
	if i := strings.IndexAny(text, " -"); i > 0 {
		whole, part = text[:i], text[i+1:]
	}
	over, under, ok := strings.Cut(part, "/")
	if !ok {
		return 0, false
	}
	w, err1 := strconv.ParseFloat(whole, 64)
	o, err2 := strconv.ParseFloat(over, 64)
	u, err3 := strconv.ParseFloat(under, 64)
	return w + o/u, err1 == nil && err2 == nil && err3 == nil && u > 0
}

// withoutUnit takes the column's own unit from behind a typed figure; another unit
// stays and is no figure.
func withoutUnit(cell Cell, unit string) Cell {
	if cell.Kind != Text || unit == "" || unit == "in" {
		return cell
	}
	if n := len(cell.Text) - len(unit); n > 0 && strings.EqualFold(cell.Text[n:], unit) {
		if figure := strings.TrimSpace(cell.Text[:n]); len(figures(figure)) > 0 {
			cell.Text = figure
		}
	}
	return cell
}

// lengthsApart parts a list of lengths where no decimal comma can stand.
var lengthsApart = regexp.MustCompile(`\s*(?:;|,\s)\s*`)

// lengths reads several lengths in one cell, parted by semicolons, or by commas with
// a space behind them.
func lengths[T any](c Column, b bounds, at func(*T) *source.Stated[[]quantity.Length]) field[T] {
	return field[T]{c,
		func(t *T, cell Cell) error {
			if cell.Kind != Text {
				cell = Cell{Kind: Text, Text: strconv.FormatFloat(cell.Num, 'f', -1, 64), At: cell.At}
			}
			var out []quantity.Length
			for _, text := range lengthsApart.Split(strings.Trim(cell.Text, " ;,"), -1) {
				l, ok := typedLengthIn(text, b)
				if !ok {
					return fmt.Errorf("type lengths in inches from %g to %g, or with mm behind them, parted by semicolons", b.from, b.to)
				}
				out = append(out, l)
			}
			return stated(at(t), out, c.Unit, cell, nil)
		},
		func(t *T) Cell {
			var out []string
			for _, l := range at(t).Value {
				out = append(out, strconv.FormatFloat(tidy(l.In()), 'f', -1, 64))
			}
			return say(strings.Join(out, "; "))
		}}
}
