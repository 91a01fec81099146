package decode

import (
	"bytes"
	"unicode"
	"unicode/utf8"
)

// startTag reads <name attr="value"...> or <name/>.
func (s *scanner) startTag() {
	s.pos++
	full := s.tagName()
	if full == nil {
		return
	}
	if len(s.open) == 0 && s.rooted {
		s.fail("it has a second root element")
		return
	}
	if len(s.open) >= deepest {
		s.fail("its elements are nested more than %d deep", deepest)
		return
	}
	s.kind, s.name, s.rooted = startTag, localName(full), true
	s.open = append(s.open, full)
	s.attrs = s.attrs[:0]
	for s.err == nil {
		spaced := s.skipSpace()
		switch {
		case s.at(">"):
			s.pos++
			return
		case s.at("/>"):
			s.pos += 2
			s.selfClosed = true
			return
		case !spaced:
			s.fail("a tag is broken")
		default:
			s.attribute()
		}
	}
}

// endTag reads </name>, which must fit the open element.
func (s *scanner) endTag() {
	s.pos += 2
	full := s.tagName()
	if full == nil {
		return
	}
	s.skipSpace()
	if !s.at(">") || len(s.open) == 0 || !bytes.Equal(full, s.open[len(s.open)-1]) {
		s.fail("an element ends that was not open")
		return
	}
	s.pos++
	s.pop()
}

// attribute reads name="value".
func (s *scanner) attribute() {
	full := s.tagName()
	if full == nil {
		return
	}
	s.skipSpace()
	if !s.at("=") {
		s.fail("an attribute has no value")
		return
	}
	s.pos++
	s.skipSpace()
	if !s.at(`"`) && !s.at("'") {
		s.fail("an attribute has no quotes")
		return
	}
	quote := s.data[s.pos]
	s.pos++
	end := bytes.IndexByte(s.data[s.pos:], quote)
	if end < 0 {
		s.fail("an attribute does not end")
		return
	}
	raw := s.data[s.pos : s.pos+end]
	s.pos += end + 1
	if bytes.IndexByte(raw, '<') >= 0 {
		s.fail("an attribute contains a tag")
		return
	}
	s.addAttribute(full, raw)
}

func (s *scanner) addAttribute(full, raw []byte) {
	if len(s.attrs) >= mostAttrs {
		s.fail("an element has more than %d attributes", mostAttrs)
		return
	}
	for i := range s.attrs {
		if bytes.Equal(s.attrs[i].full, full) {
			s.fail("an element has the same attribute twice")
			return
		}
	}
	s.attrs = append(s.attrs, attribute{full, localName(full), s.attributeValue(raw)})
}

// tagName reads the name of a tag or attribute with its prefix.
func (s *scanner) tagName() []byte {
	n := nameLength(s.data[s.pos:])
	full := s.data[s.pos : s.pos+n]
	colon := bytes.IndexByte(full, ':')
	if n == 0 || colon == 0 || colon == n-1 || colon != bytes.LastIndexByte(full, ':') {
		s.fail("a tag has no proper name")
		return nil
	}
	s.pos += n
	return full
}

// localName is the name without its prefix.
func localName(full []byte) []byte {
	return full[bytes.IndexByte(full, ':')+1:]
}

func (s *scanner) skipSpace() bool {
	from := s.pos
	for s.pos < len(s.data) && isSpace(s.data[s.pos]) {
		s.pos++
	}
	return s.pos > from
}

// nameLength is the length of the XML name that text starts with.
func nameLength(text []byte) int {
	n := 0
	for n < len(text) {
		b := text[n]
		switch {
		case isLetter(b) || b == '_' || b == ':':
			n++
		case n > 0 && (isDigit(b) || b == '-' || b == '.'):
			n++
		case b >= utf8.RuneSelf:
			r, size := utf8.DecodeRune(text[n:])
			if !unicode.IsLetter(r) && (n == 0 || !unicode.In(r, unicode.Digit, unicode.Mn, unicode.Mc)) {
				return n
			}
			n += size
		default:
			return n
		}
	}
	return n
}
