package parse

import (
	"regexp"
	"strings"
)

// Thousands are parted by a point, a comma, a space or, in Switzerland, an apostrophe
// (common practice, no source). An apostrophe parts nothing else; a space can stand
// between two numbers, and a point or a comma with three digits behind it can be
// either sign: what they are is decided for a whole column.
var (
	apostrophes = regexp.MustCompile(`^([~≈<>≥≤=\s]*\d{1,3})((?:['’‘´]\d{3})+)($|[^\d'’‘´].*$)`)
	spaces      = regexp.MustCompile(`^(\d{1,3})((?: \d{3})+)((?:[.,]\d+)?)$`)
	openGroup   = regexp.MustCompile(`^[1-9]\d{0,2}[.,]\d{3}$`)
)

// withoutApostrophes takes the apostrophes out of a number.
func withoutApostrophes(text string) string {
	m := apostrophes.FindStringSubmatch(text)
	if m == nil {
		return text
	}
	return m[1] + strings.Map(func(r rune) rune {
		if r < '0' || r > '9' {
			return -1
		}
		return r
	}, m[2]) + m[3]
}

// JoinedGroups takes the spaces out of a number whose groups of three digits they may
// part, and reports whether there were any.
func JoinedGroups(text string) (string, bool) {
	m := spaces.FindStringSubmatch(Squeeze(text))
	if m == nil {
		return text, false
	}
	return m[1] + strings.ReplaceAll(m[2], " ", "") + m[3], true
}

// OpenGroup reads a figure such as 1.122 or 1,122 with its sign taken for a decimal
// sign, and reports whether it can as well part thousands.
func OpenGroup(text string) (x float64, sign string, open bool) {
	m := numberFirst.FindStringSubmatch(Squeeze(text))
	if m == nil || !openGroup.MatchString(m[3]) {
		return 0, "", false
	}
	sign = string(m[3][len(m[3])-4])
	x, open = Plain(strings.Replace(m[3], sign, ".", 1), PointMark)
	return x, sign, open
}
