package decode

import (
	"bytes"
	"regexp"
	"unicode/utf8"
)

// characters reads up to the next tag. It returns false for white space
// outside of the root element.
func (s *scanner) characters() bool {
	end := bytes.IndexByte(s.data[s.pos:], '<')
	if end < 0 {
		end = len(s.data) - s.pos
	}
	raw := s.data[s.pos : s.pos+end]
	s.pos += end
	if len(s.open) == 0 {
		if len(bytes.Trim(raw, " \t\r\n")) > 0 {
			s.fail("there is text outside of its elements")
		}
		return false
	}
	if bytes.IndexByte(raw, ']') >= 0 && bytes.Contains(raw, []byte("]]>")) {
		s.fail("a section ends that never began")
		return false
	}
	s.kind, s.text = charData, s.characterData(raw)
	return s.err == nil
}

// section reads a CDATA section.
func (s *scanner) section() bool {
	start := s.pos + len("<![CDATA[")
	end := bytes.Index(s.data[start:], []byte("]]>"))
	if end < 0 || len(s.open) == 0 {
		s.fail("a section is out of place")
		return false
	}
	s.kind, s.text = charData, newlines(s.data[start:start+end])
	s.pos = start + end + len("]]>")
	return true
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
	n := nameLength(name)
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
	for _, b := range s.data {
		if b < ' ' && !isSpace(b) {
			s.fail("it contains a control character")
			return
		}
	}
	if bytes.Contains(s.data, []byte("\ufffe")) || bytes.Contains(s.data, []byte("\uffff")) {
		s.fail("it contains a character that is not allowed")
	}
}
