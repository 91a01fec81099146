package decode

import "strings"

// dataFormat spells a data style as a number format code. A style with a
// condition takes that of its first case, the one for positive numbers.
func (o *odsStyles) dataFormat(s *scanner) string {
	var code strings.Builder
	elapsed := string(s.attr("truncate-on-overflow")) == "false"
	depth := s.depth()
	for s.child(depth) {
		if string(s.name) == "map" {
			if other := o.formats[string(s.attr("apply-style-name"))]; other != "" {
				skip(s)
				for s.child(depth) {
				}
				return other
			}
			continue
		}
		piece := formatPiece(s)
		if elapsed && code.Len() == 0 {
			piece = "[" + piece + "]" // hours that do not start again at 24
		}
		code.WriteString(piece)
	}
	return code.String()
}

// formatPiece spells one element of a data style.
func formatPiece(s *scanner) string {
	style := string(s.attr("style"))
	switch string(s.name) {
	case "number":
		return numberPiece(s)
	case "scientific-number":
		return numberPiece(s) + "E+00"
	case "fraction":
		return "# ?/?"
	case "text", "currency-symbol":
		return literal(string(s.content()))
	case "text-content":
		return "@"
	case "year":
		return byStyle(style, "yyyy", "yy")
	case "month":
		if isTrue(s.attr("textual")) {
			return byStyle(style, "mmmm", "mmm")
		}
		return byStyle(style, "mm", "m")
	case "day":
		return byStyle(style, "dd", "d")
	case "day-of-week":
		return byStyle(style, "dddd", "ddd")
	case "hours":
		return byStyle(style, "hh", "h")
	case "minutes":
		return byStyle(style, "mm", "m")
	case "seconds":
		places, _ := smallInt(s.attr("decimal-places"))
		return byStyle(style, "ss", "s") + decimals(places, places)
	case "am-pm":
		return "AM/PM"
	}
	return ""
}

func numberPiece(s *scanner) string {
	whole, _ := smallInt(s.attr("min-integer-digits"))
	places, _ := smallInt(s.attr("decimal-places"))
	least, given := smallInt(s.attr("min-decimal-places"))
	if !given {
		least = places
	}
	digits := strings.Repeat("0", min(whole, 30))
	if isTrue(s.attr("grouping")) {
		digits = "#,##" + strings.Repeat("0", max(1, min(whole, 30)))
	} else if digits == "" {
		digits = "#"
	}
	return digits + decimals(min(places, 30), min(least, 30))
}

// decimals spells the part behind the point: at least, at most.
func decimals(most, least int) string {
	if most == 0 {
		return ""
	}
	return "." + strings.Repeat("0", least) + strings.Repeat("#", max(0, most-least))
}

// literal protects text inside of a format code.
func literal(text string) string {
	if strings.Trim(text, " -/:.,%$€£()") == "" {
		return text
	}
	return `"` + strings.ReplaceAll(text, `"`, "") + `"`
}

// byStyle picks the spelling for the style "long" or any other.
func byStyle(style, long, short string) string {
	if style == "long" {
		return long
	}
	return short
}
