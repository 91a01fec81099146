package decode

import (
	"bytes"
	"unicode"
	"unicode/utf8"
)

// startTag reads <name attr="value"...> or <name/>.
func (s *scanner) startTag() {
	s.pos++
	name, ok := s.tagName()
	if !ok {
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
	s.kind, s.name, s.rooted = startTag, s.data[name.local:name.to], true
	s.open = append(s.open, name)
	s.attrs = s.attrs[:0]
	for s.err == nil {
		spaced := s.skipSpace()
		switch b := s.peek(); {
		case b == '>':
			s.pos++
			return
		case b == '/' && s.at("/>"):
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
	if len(s.open) > 0 {
		full := s.full(s.open[len(s.open)-1])
		if bytes.HasPrefix(s.data[s.pos:], full) {
			s.pos += len(full)
			s.skipSpace()
			if s.peek() == '>' {
				s.pos++
				s.pop()
				return
			}
		}
	}
	s.fail("an element ends that was not open")
}

// attribute reads name="value".
func (s *scanner) attribute() {
	name, ok := s.tagName()
	if !ok {
		return
	}
	s.skipSpace()
	if s.peek() != '=' {
		s.fail("an attribute has no value")
		return
	}
	s.pos++
	s.skipSpace()
	quote := s.peek()
	if quote != '"' && quote != '\'' {
		s.fail("an attribute has no quotes")
		return
	}
	s.pos++
	if value, ok := s.quotedValue(quote); ok {
		s.addAttribute(name, value)
	}
}

// quotedValue reads up to the closing quote and resolves what stands before it.
func (s *scanner) quotedValue(quote byte) (value []byte, ok bool) {
	plain := true
	for i, b := range s.data[s.pos:] {
		switch {
		case b == quote:
			raw := s.data[s.pos : s.pos+i]
			s.pos += i + 1
			if !plain {
				raw = s.attributeValue(raw)
			}
			return raw, s.err == nil
		case b == '<':
			s.fail("an attribute contains a tag")
			return nil, false
		case b == '&', b < ' ':
			plain = false
		}
	}
	s.fail("an attribute does not end")
	return nil, false
}

func (s *scanner) addAttribute(name tagName, value []byte) {
	if len(s.attrs) >= mostAttrs {
		s.fail("an element has more than %d attributes", mostAttrs)
		return
	}
	for i := range s.attrs {
		if bytes.Equal(s.full(s.attrs[i].tagName), s.full(name)) {
			s.fail("an element has the same attribute twice")
			return
		}
	}
	s.attrs = append(s.attrs, attribute{name, value})
}

// tagName reads the name of a tag or attribute with its prefix.
func (s *scanner) tagName() (tagName, bool) {
	n, colon := nameLength(s.data[s.pos:])
	if n == 0 || colon == 0 || colon == n-1 || colon == twoColons {
		s.fail("a tag has no proper name")
		return tagName{}, false
	}
	name := tagName{s.pos, s.pos + colon + 1, s.pos + n}
	s.pos += n
	return name, true
}

// full is a name with its prefix.
func (s *scanner) full(name tagName) []byte { return s.data[name.from:name.to] }

func (s *scanner) skipSpace() bool {
	from := s.pos
	for s.pos < len(s.data) && isSpace(s.data[s.pos]) {
		s.pos++
	}
	return s.pos > from
}

// What nameLength returns for the place of the colon in a name without one and
// in a name with more than one.
const (
	noColon   = -1
	twoColons = -2
)

// nameLength is the length of the XML name that text starts with, and where its
// colon stands.
func nameLength(text []byte) (n, colon int) {
	colon = noColon
	for n < len(text) {
		b := text[n]
		switch {
		case isLetter(b) || b == '_':
			n++
		case b == ':':
			if colon != noColon {
				colon = twoColons
			} else {
				colon = n
			}
			n++
		case n > 0 && (isDigit(b) || b == '-' || b == '.'):
			n++
		case b >= utf8.RuneSelf:
			r, size := utf8.DecodeRune(text[n:])
			if !unicode.IsLetter(r) && (n == 0 || !unicode.In(r, unicode.Digit, unicode.Mn, unicode.Mc)) {
				return n, colon
			}
			n += size
		default:
			return n, colon
		}
	}
	return n, colon
}
