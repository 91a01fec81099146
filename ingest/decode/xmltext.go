package decode

import (
	"bytes"
	"strconv"
	"unicode/utf8"

	"golang.org/x/text/encoding/unicode"
)

// characterData resolves the text between tags. Text without line ends of
// another system and without entities, nearly all of it, is returned as it lies
// in the part.
func (s *scanner) characterData(raw []byte) []byte {
	raw = newlines(raw)
	if bytes.IndexByte(raw, '&') < 0 {
		return raw
	}
	s.scratch = s.expand(s.scratch[:0], raw)
	return s.scratch
}

// attributeValue resolves the value of an attribute, in which all white space
// counts as a blank.
func (s *scanner) attributeValue(raw []byte) []byte {
	if bytes.ContainsAny(raw, "\t\r\n") {
		raw = bytes.Map(func(r rune) rune {
			if r == '\t' || r == '\n' {
				return ' '
			}
			return r
		}, newlines(raw))
	}
	if bytes.IndexByte(raw, '&') < 0 {
		return raw
	}
	return s.expand(nil, raw)
}

// expand appends raw to out with entities and character references resolved.
func (s *scanner) expand(out, raw []byte) []byte {
	for {
		at := bytes.IndexByte(raw, '&')
		if at < 0 {
			return append(out, raw...)
		}
		r, n := entity(raw[at:])
		if n == 0 {
			s.fail("it uses an entity that is not defined")
			return nil
		}
		out = utf8.AppendRune(append(out, raw[:at]...), r)
		raw = raw[at+n:]
	}
}

// newlines turns CR LF and CR into LF, as every XML reader does.
func newlines(raw []byte) []byte {
	if bytes.IndexByte(raw, '\r') < 0 {
		return raw
	}
	out := bytes.ReplaceAll(raw, []byte("\r\n"), []byte("\n"))
	return bytes.ReplaceAll(out, []byte("\r"), []byte("\n"))
}

// entity decodes the reference that text starts with and returns its length, 0
// for one that is not known or not allowed.
func entity(text []byte) (rune, int) {
	end := bytes.IndexByte(text[:min(len(text), 12)], ';')
	if end < 2 {
		return 0, 0
	}
	name := string(text[1:end])
	switch name {
	case "amp":
		return '&', end + 1
	case "lt":
		return '<', end + 1
	case "gt":
		return '>', end + 1
	case "quot":
		return '"', end + 1
	case "apos":
		return '\'', end + 1
	}
	if name[0] != '#' {
		return 0, 0
	}
	digits, base := name[1:], 10
	if len(digits) > 0 && digits[0] == 'x' {
		digits, base = digits[1:], 16
	}
	if digits == "" || digits[0] == '+' || digits[0] == '-' {
		return 0, 0
	}
	code, err := strconv.ParseInt(digits, base, 32)
	if err != nil || !isXMLChar(rune(code)) {
		return 0, 0
	}
	return rune(code), end + 1
}

// isXMLChar is the production Char of XML 1.0, fifth edition, section 2.2.
func isXMLChar(r rune) bool {
	return r == '\t' || r == '\n' || r == '\r' ||
		r >= ' ' && r <= 0xd7ff || r >= 0xe000 && r <= 0xfffd || r >= 0x10000 && r <= 0x10ffff
}

// toUTF8 transcodes a part in UTF-16, which some programs write into custom
// parts, and refuses a part that claims any other encoding.
func toUTF8(part string, data []byte) ([]byte, error) {
	switch {
	case bytes.HasPrefix(data, []byte("\xff\xfe")), bytes.HasPrefix(data, []byte("<\x00?\x00")):
		return utf16ToUTF8(part, data, unicode.LittleEndian)
	case bytes.HasPrefix(data, []byte("\xfe\xff")), bytes.HasPrefix(data, []byte("\x00<\x00?")):
		return utf16ToUTF8(part, data, unicode.BigEndian)
	}
	name := declaredEncoding(data)
	if len(name) > 0 && !bytes.EqualFold(name, []byte("utf-8")) && !bytes.EqualFold(name, []byte("us-ascii")) {
		return nil, damaged("%s: its text is in the encoding %s, which is not read", part, quoted(name))
	}
	return data, nil
}

func utf16ToUTF8(part string, data []byte, order unicode.Endianness) ([]byte, error) {
	out, err := unicode.UTF16(order, unicode.UseBOM).NewDecoder().Bytes(data)
	// The decoder replaces what it cannot read instead of reporting it.
	if err != nil || len(data)%2 != 0 || bytes.ContainsRune(out, utf8.RuneError) {
		return nil, damaged("%s: its text is not in the encoding it claims", part)
	}
	return out, nil
}

// declaredEncoding is the encoding in the XML declaration, nil when it names
// none.
func declaredEncoding(data []byte) []byte {
	data = bytes.TrimPrefix(data, []byte(byteOrderMark))
	if !bytes.HasPrefix(data, []byte("<?xml")) {
		return nil
	}
	end := bytes.Index(data, []byte("?>"))
	if end < 0 {
		return nil
	}
	_, after, found := bytes.Cut(data[:end], []byte("encoding"))
	after = bytes.TrimLeft(after, " \t\r\n=")
	if !found || len(after) == 0 {
		return nil
	}
	value, _, _ := bytes.Cut(after[1:], after[:1])
	return value
}
