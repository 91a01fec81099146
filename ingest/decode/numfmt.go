package decode

import "strings"

// builtInFormat returns the code of a number format that files refer to by
// number only (ECMA-376 part 1, section 18.8.30, numFmt); "" is General. The
// numbers 27 to 36 and 50 to 58 are East Asian dates whose code depends on the
// language.
func builtInFormat(id int) string {
	if id >= 27 && id <= 36 || id >= 50 && id <= 58 {
		return "yyyy-mm-dd"
	}
	codes := []string{
		1: "0", 2: "0.00", 3: "#,##0", 4: "#,##0.00",
		5: `"$"#,##0_);\("$"#,##0\)`, 6: `"$"#,##0_);[Red]\("$"#,##0\)`,
		7: `"$"#,##0.00_);\("$"#,##0.00\)`, 8: `"$"#,##0.00_);[Red]\("$"#,##0.00\)`,
		9: "0%", 10: "0.00%", 11: "0.00E+00", 12: "# ?/?", 13: "# ??/??",
		14: "mm-dd-yy", 15: "d-mmm-yy", 16: "d-mmm", 17: "mmm-yy",
		18: "h:mm AM/PM", 19: "h:mm:ss AM/PM", 20: "h:mm", 21: "h:mm:ss", 22: "m/d/yy h:mm",
		37: "#,##0 ;(#,##0)", 38: "#,##0 ;[Red](#,##0)",
		39: "#,##0.00;(#,##0.00)", 40: "#,##0.00;[Red](#,##0.00)",
		41: `_(* #,##0_);_(* \(#,##0\);_(* "-"_);_(@_)`,
		42: `_("$"* #,##0_);_("$"* \(#,##0\);_("$"* "-"_);_(@_)`,
		43: `_(* #,##0.00_);_(* \(#,##0.00\);_(* "-"??_);_(@_)`,
		44: `_("$"* #,##0.00_);_("$"* \(#,##0.00\);_("$"* "-"??_);_(@_)`,
		45: "mm:ss", 46: "[h]:mm:ss", 47: "mmss.0", 48: "##0.0E+0", 49: "@",
	}
	if id >= 0 && id < len(codes) {
		return codes[id]
	}
	return ""
}

// isDateFormat reports whether a number format code shows a number as a date or
// a time of day. It looks at the first section, the one for positive numbers:
// date letters outside of quotes, escapes and brackets, and no digit
// placeholders beside them (0.000 mm is a length), except those of fractional
// seconds.
func isDateFormat(code string) bool {
	dated := false
	for i := 0; i < len(code); i++ {
		switch b := code[i]; b {
		case ';':
			return dated
		case '"':
			end := strings.IndexByte(code[i+1:], '"')
			if end < 0 {
				return dated
			}
			i += end + 1
		case '\\', '_', '*':
			i++ // the next character is shown, or its width left, as it is
		case '[':
			end := strings.IndexByte(code[i:], ']')
			if end < 0 {
				return dated
			}
			dated = dated || isElapsed(code[i+1:i+end])
			i += end
		case '#', '?':
			return false
		case '0':
			if !followsSeconds(code[:i]) {
				return false
			}
		case 'g', 'G':
			if len(code)-i >= 7 && strings.EqualFold(code[i:i+7], "general") {
				return false
			}
		case 'y', 'Y', 'm', 'M', 'd', 'D', 'h', 'H', 's', 'S':
			dated = true
		}
	}
	return dated
}

// isElapsed recognises the bracketed units of elapsed time: [h], [mm], [s].
func isElapsed(inside string) bool {
	for _, unit := range []string{"h", "m", "s"} {
		if inside != "" && strings.Trim(strings.ToLower(inside), unit) == "" {
			return true
		}
	}
	return false
}

// followsSeconds reports whether a digit placeholder continues the fraction of
// a time, as in ss.000.
func followsSeconds(before string) bool {
	before = strings.TrimRight(before, "0")
	if before == "" {
		return false
	}
	last := before[len(before)-1]
	if last != '.' && last != ',' {
		return false
	}
	before = strings.TrimRight(before[:len(before)-1], "]")
	return strings.HasSuffix(before, "s") || strings.HasSuffix(before, "S")
}
