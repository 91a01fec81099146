package decode

import (
	"bytes"
	"strconv"
	"strings"
	"unicode/utf16"
	"unicode/utf8"
)

// richText is the text of a string item with what its runs say.
type richText struct {
	text   string
	struck bool // a run of it is struck through
	bold   bool // its first run is bold
}

// readSharedStrings reads the table of texts that cells refer to by position.
func readSharedStrings(s *scanner, b *budget) ([]richText, error) {
	var table []richText
	s.next()
	root := s.depth()
	for s.child(root) {
		if string(s.name) == "si" {
			table = append(table, readRichText(s, b))
		}
	}
	return table, s.drain()
}

// readRichText reads the string item the scanner stands on: its text, or its
// runs joined. The phonetic guide (rPh) is a reading aid and no part of it.
func readRichText(s *scanner, b *budget) richText {
	depth := s.depth()
	var (
		joined []byte
		rich   richText
		runs   int
	)
	for s.child(depth) {
		switch string(s.name) {
		case "t":
			joined = append(joined, s.content()...)
		case "r":
			var bold, struck bool
			var run []byte
			run, bold, struck = readRun(s)
			joined = append(joined, run...)
			if len(bytes.TrimSpace(run)) > 0 {
				rich.struck = rich.struck || struck
				rich.bold = rich.bold || bold && runs == 0
				runs++
			}
		}
		s.stop(b.checkText(len(joined)))
	}
	rich.text = string(unescapeX(joined))
	return rich
}

// readRun reads one run of a rich text.
func readRun(s *scanner) (text []byte, bold, struck bool) {
	depth := s.depth()
	for s.child(depth) {
		switch string(s.name) {
		case "t":
			text = append(text, s.content()...)
		case "rPr":
			properties := s.depth()
			for s.child(properties) {
				switch string(s.name) {
				case "b":
					bold = isOn(s)
				case "strike":
					struck = isOn(s)
				}
			}
		}
	}
	return text, bold, struck
}

// isOn reads an element such as <b/> or <b val="0"/>.
func isOn(s *scanner) bool {
	value := s.attr("val")
	return value == nil || isTrue(value)
}

// unescapeX resolves _xHHHH_, the way in which the format writes characters
// that XML does not allow (ECMA-376 part 1, section 22.9.2.19, ST_Xstring).
func unescapeX(text []byte) []byte {
	if !bytes.Contains(text, []byte("_x")) {
		return text
	}
	out := make([]byte, 0, len(text))
	for i := 0; i < len(text); i++ {
		unit, ok := escapedUnit(text[i:])
		if !ok {
			out = append(out, text[i])
			continue
		}
		i += 6
		r := rune(unit)
		if utf16.IsSurrogate(r) {
			if low, paired := escapedUnit(text[i+1:]); paired {
				r = utf16.DecodeRune(r, rune(low))
				i += 7
			} else {
				r = utf8.RuneError
			}
		}
		out = utf8.AppendRune(out, r)
	}
	return out
}

// escapedUnit reads _xHHHH_ at the start of text.
func escapedUnit(text []byte) (uint16, bool) {
	if len(text) < 7 || text[0] != '_' || text[1] != 'x' || text[6] != '_' {
		return 0, false
	}
	code, err := strconv.ParseUint(string(text[2:6]), 16, 16)
	return uint16(code), err == nil
}

// texts keeps many short texts in a few pieces of memory: a sheet has a text for
// each of its numbers.
type texts struct{ piece strings.Builder }

// keep returns a copy of text.
func (t *texts) keep(text []byte) string {
	const size = 2048
	if t.piece.Len()+len(text) > t.piece.Cap() {
		t.piece = strings.Builder{} // what was handed out stays as it is
		t.piece.Grow(max(size, len(text)))
	}
	from := t.piece.Len()
	t.piece.Write(text)
	return t.piece.String()[from:]
}
