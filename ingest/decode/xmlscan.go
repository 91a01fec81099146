package decode

import (
	"bytes"
	"fmt"
)

// tokenKind is what scanner.next has found.
type tokenKind uint8

const (
	startTag tokenKind = iota
	endTag
	charData
)

const (
	deepest       = 256 // open elements
	mostAttrs     = 128 // attributes of one element
	byteOrderMark = "\xef\xbb\xbf"
)

// scanner walks through one XML part held in memory and checks on the way that
// it is well-formed: what it accepts to the end is complete. It knows UTF-8
// only (see toUTF8), resolves the five predefined entities and character
// references, and refuses a document type, so nothing outside of the part is
// ever looked at. Elements are known by their local names: writers differ in
// the prefixes, and the strict and the transitional variant of the format
// differ in the namespaces only.
//
// The first fault stops it for good; err then says what it was.
type scanner struct {
	part string // name of the part, for messages
	data []byte
	pos  int
	err  error

	kind  tokenKind
	name  []byte // local name of the tag
	attrs []attribute
	text  []byte // character data, entities resolved; valid until the next call

	open       []tagName // the open elements
	rooted     bool      // the root element was seen
	selfClosed bool      // the end of <a/> is still to be reported
	scratch    []byte
	joined     []byte

	// Room for what nearly every part needs, so that it costs no allocation.
	openRoom [12]tagName
	attrRoom [12]attribute
}

// tagName is where a name stands in the part: in full from from, without its
// prefix from local, both up to to. Places instead of slices give the collector
// nothing to follow.
type tagName struct{ from, local, to int }

type attribute struct {
	tagName
	value []byte
}

// newScanner prepares the content of a part.
func newScanner(part string, data []byte) *scanner {
	s := &scanner{part: part}
	s.open, s.attrs = s.openRoom[:0], s.attrRoom[:0]
	s.data, s.err = toUTF8(part, data)
	s.data = bytes.TrimPrefix(s.data, []byte(byteOrderMark))
	if s.err == nil {
		s.checkCharacters()
	}
	return s
}

// fail records the first fault. The detail ends up in a sentence that starts
// with the name of the part.
func (s *scanner) fail(format string, args ...any) {
	if s.err == nil {
		s.err = damaged("%s: %s", s.part, fmt.Sprintf(format, args...))
	}
}

// stop records a fault that already is a sentence; nil is none.
func (s *scanner) stop(err error) {
	if s.err == nil {
		s.err = err
	}
}

// depth is the number of open elements, the current one included.
func (s *scanner) depth() int { return len(s.open) }

// next moves to the next tag or run of character data. It returns false at the
// end and at a fault.
func (s *scanner) next() bool {
	if s.selfClosed && s.err == nil {
		s.selfClosed = false
		s.pop()
		return true
	}
	for s.err == nil {
		switch {
		case s.pos >= len(s.data):
			if len(s.open) > 0 || !s.rooted {
				s.fail("it ends in the middle")
			}
			return false
		case s.data[s.pos] != '<':
			if s.characters() {
				return true
			}
		default:
			if s.markup() {
				return s.err == nil
			}
		}
	}
	return false
}

// markup reads what begins with the angle bracket at hand. It returns false for
// a comment or an instruction, which nobody asks for.
func (s *scanner) markup() bool {
	second := byte(0)
	if s.pos+1 < len(s.data) {
		second = s.data[s.pos+1]
	}
	switch second {
	case '/':
		s.endTag()
	case '?':
		s.instruction()
		return false
	case '!':
		switch {
		case s.at("<![CDATA["):
			s.section()
		case s.at("<!--"):
			s.comment()
			return false
		default:
			s.fail("it contains a document type declaration, which no spreadsheet program writes")
		}
	default:
		s.startTag()
	}
	return true
}

// child moves to the next child of the element at the given depth and skips
// whatever lies deeper. It returns false when that element ends.
func (s *scanner) child(depth int) bool {
	for s.next() {
		switch {
		case s.kind == endTag && len(s.open) < depth:
			return false
		case s.kind == startTag && len(s.open) == depth+1:
			return true
		}
	}
	return false
}

// content reads the current element to its end and returns its own character
// data, that of child elements left out. The slice is valid until the next
// call.
func (s *scanner) content() []byte {
	depth := len(s.open)
	s.joined = s.joined[:0]
	for s.next() {
		switch {
		case s.kind == charData && len(s.open) == depth:
			s.joined = append(s.joined, s.text...)
		case s.kind == endTag && len(s.open) < depth:
			return s.joined
		}
	}
	return nil
}

// drain reads to the end of the part.
func (s *scanner) drain() error {
	for s.next() {
	}
	return s.err
}

// attr returns the value of an attribute by its local name, nil when absent.
func (s *scanner) attr(local string) []byte {
	for i := range s.attrs {
		if a := &s.attrs[i]; string(s.data[a.local:a.to]) == local {
			return a.value
		}
	}
	return nil
}

// flag returns the value of an XML boolean attribute; absent is false.
func (s *scanner) flag(local string) bool { return isTrue(s.attr(local)) }

// isTrue reads the spellings of the XML boolean.
func isTrue(value []byte) bool {
	switch string(value) {
	case "1", "true", "on":
		return true
	}
	return false
}

// peek is the byte at hand, 0 at the end; none in a part is 0.
func (s *scanner) peek() byte {
	if s.pos < len(s.data) {
		return s.data[s.pos]
	}
	return 0
}

func (s *scanner) at(prefix string) bool {
	return len(s.data)-s.pos >= len(prefix) && string(s.data[s.pos:s.pos+len(prefix)]) == prefix
}

func (s *scanner) pop() {
	s.kind = endTag
	last := s.open[len(s.open)-1]
	s.name = s.data[last.local:last.to]
	s.open = s.open[:len(s.open)-1]
}

func isSpace(b byte) bool { return b == ' ' || b == '\t' || b == '\n' || b == '\r' }
