package flowsheet

import "strings"

// shortestCode is how long a text of the base64 alphabet (RFC 4648) has to be to
// be taken for a key or a checksum: no word or name of the trade is that long.
const shortestCode = 20

// isCode reports whether a text is a key or a checksum in letters and digits, such
// as "ALTGcDn7ts2WakGZ0Sx0v8cQ2d8=": what looks like words in it is chance.
func isCode(text string) bool {
	text = strings.TrimSpace(text)
	if len(text) < shortestCode {
		return false
	}
	upper, lower, digit := false, false, false
	for _, c := range text {
		switch {
		case c >= 'A' && c <= 'Z':
			upper = true
		case c >= 'a' && c <= 'z':
			lower = true
		case c >= '0' && c <= '9':
			digit = true
		case c != '+' && c != '/' && c != '=':
			return false // a title typed without spaces has points, dashes or commas
		}
	}
	return upper && lower && digit
}
