package decode

import (
	"bytes"
	"encoding/binary"
	"regexp"
	"unicode/utf8"
)

// characters reads up to the next tag. It returns false for white space
// outside of the root element.
func (s *scanner) characters() bool {
	end, plain := s.pos, true
	for ; end < len(s.data) && s.data[end] != '<'; end++ {
		plain = plain && isPlain(s.data[end])
	}
	raw := s.data[s.pos:end]
	s.pos = end
	if len(s.open) == 0 {
		if len(bytes.Trim(raw, " \t\r\n")) > 0 {
			s.fail("there is text outside of its elements")
		}
		return false
	}
	s.kind, s.text = charData, raw
	if plain { // nearly all text
		return true
	}
	if bytes.Contains(raw, []byte("]]>")) {
		s.fail("a section ends that never began")
		return false
	}
	s.text = s.characterData(raw)
	return s.err == nil
}

// isPlain reports whether a byte of text stands for itself wherever it stands.
func isPlain(b byte) bool { return b != '&' && b != ']' && b != '\r' }

// section reads a CDATA section.
func (s *scanner) section() {
	start := s.pos + len("<![CDATA[")
	end := bytes.Index(s.data[start:], []byte("]]>"))
	if end < 0 || len(s.open) == 0 {
		s.fail("a section is out of place")
		return
	}
	s.kind, s.text = charData, newlines(s.data[start:start+end])
	s.pos = start + end + len("]]>")
}

func (s *scanner) comment() {
	start := s.pos + len("<!--")
	end := bytes.Index(s.data[start:], []byte("--"))
	if end < 0 || start+end+2 >= len(s.data) || s.data[start+end+2] != '>' {
		s.fail("a comment does not end")
		return
	}
	s.pos = start + end + 3
}

// xmlDeclaration is what may stand between the marks of an XML declaration
// (XML 1.0, productions 23 to 26, 32 and 80).
var xmlDeclaration = regexp.MustCompile(`^xml\s+version\s*=\s*("1\.0"|'1\.0')` +
	`(\s+encoding\s*=\s*("[A-Za-z][\w.-]*"|'[A-Za-z][\w.-]*'))?` +
	`(\s+standalone\s*=\s*("yes"|"no"|'yes'|'no'))?\s*$`)

// instruction skips <?...?>; the XML declaration stands at the very start only.
func (s *scanner) instruction() {
	inside := s.data[s.pos+len("<?"):]
	end := bytes.Index(inside, []byte("?>"))
	if end < 0 {
		s.fail("an instruction does not end")
		return
	}
	name := inside[:end]
	n, _ := nameLength(name)
	if n == 0 || (n < len(name) && !isSpace(name[n])) {
		s.fail("an instruction has no name")
		return
	}
	if bytes.EqualFold(name[:n], []byte("xml")) {
		if s.pos > 0 {
			s.fail("an XML declaration is out of place")
			return
		}
		if !xmlDeclaration.Match(name) {
			s.fail("its XML declaration is not one of XML 1.0")
			return
		}
	}
	s.pos += len("<?") + end + len("?>")
}

// checkCharacters refuses what no XML text may contain.
func (s *scanner) checkCharacters() {
	if !utf8.Valid(s.data) {
		s.fail("its text is not in the encoding it claims")
		return
	}
	if hasControl(s.data) {
		s.fail("it contains a control character")
		return
	}
	if bytes.Contains(s.data, []byte("\ufffe")) || bytes.Contains(s.data, []byte("\uffff")) {
		s.fail("it contains a character that is not allowed")
	}
}

// hasControl reports whether a text holds a control character other than white
// space. It looks at eight bytes at once, most of which hold none: a byte below
// 0x20 is one that borrows when 0x20 is taken from it and whose top bit is clear.
func hasControl(text []byte) bool {
	const each, top = 0x0101010101010101, 0x8080808080808080
	for len(text) >= 8 {
		eight := binary.LittleEndian.Uint64(text)
		if (eight-' '*each)&^eight&top != 0 && controlIn(text[:8]) {
			return true
		}
		text = text[8:]
	}
	return controlIn(text)
}

func controlIn(text []byte) bool {
	for _, b := range text {
		if b < ' ' && !isSpace(b) {
			return true
		}
	}
	return false
}
