package decode

import "strings"

// cellStyle is what a cell's style says that a reader of figures needs.
type cellStyle struct {
	format string // number format code, "" for General
	date   bool   // the format shows a date or time
	struck bool
	bold   bool
	filled bool
}

// styleTable collects the parts of a styles part until they can be combined.
type styleTable struct {
	formats map[int]string
	fonts   []cellStyle // struck and bold only
	fills   []bool
	cells   []cellStyle
}

// readStyles reads the styles part and returns the style of each cell format.
func readStyles(s *scanner) ([]cellStyle, error) {
	t := styleTable{formats: make(map[int]string)}
	s.next()
	root := s.depth()
	for s.child(root) {
		section := s.depth()
		switch string(s.name) {
		case "numFmts":
			for s.child(section) {
				t.addFormat(s)
			}
		case "fonts":
			for s.child(section) {
				t.fonts = append(t.fonts, readFont(s))
			}
		case "fills":
			for s.child(section) {
				t.fills = append(t.fills, readFill(s))
			}
		case "cellXfs":
			for s.child(section) {
				t.addCell(s)
			}
		}
	}
	return t.cells, s.drain()
}

func (t *styleTable) addFormat(s *scanner) {
	id, ok := smallInt(s.attr("numFmtId"))
	if !ok {
		s.fail("a number format has no number")
		return
	}
	t.formats[id] = string(s.attr("formatCode"))
}

// addCell combines one cell format. The parts it refers to stand before it.
func (t *styleTable) addCell(s *scanner) {
	var style cellStyle
	if id, ok := smallInt(s.attr("numFmtId")); ok {
		code, custom := t.formats[id]
		if !custom {
			code = builtInFormat(id)
		}
		if !strings.EqualFold(code, "General") {
			style.format, style.date = code, isDateFormat(code)
		}
	}
	if font, ok := smallInt(s.attr("fontId")); ok && font < len(t.fonts) {
		style.bold, style.struck = t.fonts[font].bold, t.fonts[font].struck
	}
	if fill, ok := smallInt(s.attr("fillId")); ok && fill < len(t.fills) {
		style.filled = t.fills[fill]
	}
	t.cells = append(t.cells, style)
}

func readFont(s *scanner) cellStyle {
	var font cellStyle
	depth := s.depth()
	for s.child(depth) {
		switch string(s.name) {
		case "b":
			font.bold = isOn(s)
		case "strike":
			font.struck = isOn(s)
		}
	}
	return font
}

// readFill reports whether a fill can be seen: white on white paper cannot.
func readFill(s *scanner) bool {
	filled := false
	depth := s.depth()
	for s.child(depth) {
		switch string(s.name) {
		case "gradientFill":
			filled = true
		case "patternFill":
			pattern := string(s.attr("patternType"))
			filled = pattern != "" && pattern != "none"
			inner := s.depth()
			for s.child(inner) {
				if string(s.name) == "fgColor" && pattern == "solid" {
					filled = !isWhite(s)
				}
			}
		}
	}
	return filled
}

// isWhite recognises the ways to write white in the element at hand: colour
// value, palette positions 1 and 9, or the untinted background of the theme.
func isWhite(s *scanner) bool {
	if rgb := strings.ToUpper(string(s.attr("rgb"))); rgb != "" {
		return strings.HasSuffix(rgb, "FFFFFF")
	}
	if indexed := string(s.attr("indexed")); indexed != "" {
		return indexed == "1" || indexed == "9"
	}
	tint := string(s.attr("tint"))
	return string(s.attr("theme")) == "0" && (tint == "" || tint == "0")
}
