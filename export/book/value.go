package book

import (
	"strings"
	"time"
	"unicode/utf8"
)

// Value is what a cell holds: a text, a number, a day, or nothing. The zero
// Value is nothing, which is never the same as zero.
type Value struct {
	kind   kind
	text   string
	number float64
}

type kind uint8

const (
	nothing kind = iota
	text
	number
)

// maxText is the longest text a cell may hold (ISO/IEC 29500-1, 18.3.1.40 and
// the limits of the programs that read it).
const maxText = 32767

// Text returns a text. It stays a text whatever it begins with, so that a
// supplier's "=1+1" is shown and not run; control characters are dropped and
// an over-long text is cut with a mark that says so.
func Text(s string) Value {
	s = clean(s)
	if s == "" {
		return Value{}
	}
	return Value{kind: text, text: s}
}

// Number returns a number.
func Number(x float64) Value { return Value{kind: number, number: x} }

// Count returns a whole number.
func Count(n int) Value { return Number(float64(n)) }

// epoch is the day 0 of the 1900 date system as every program counts it after
// February 1900 (ISO/IEC 29500-1, 18.17.4.1).
var epoch = time.Date(1899, 12, 30, 0, 0, 0, 0, time.UTC)

// Day returns the day of t as a date serial, nothing for the zero time.
func Day(t time.Time) Value {
	if t.IsZero() {
		return Value{}
	}
	year, month, day := t.Date()
	return Number(time.Date(year, month, day, 0, 0, 0, 0, time.UTC).Sub(epoch).Hours() / 24)
}

// Blank reports whether the value is nothing.
func (v Value) Blank() bool { return v.kind == nothing }

// native returns the value as the writer wants it.
func (v Value) native() any {
	switch v.kind {
	case text:
		return v.text
	case number:
		return v.number
	case nothing:
	}
	return nil
}

// clean drops what XML 1.0 cannot carry (section 2.2, Char) and cuts what a
// cell cannot hold.
func clean(s string) string {
	s = strings.ReplaceAll(s, "\r\n", "\n")
	s = strings.Map(func(r rune) rune {
		switch {
		case r == '\n' || r == '\t':
			return r
		case r == '\r':
			return '\n'
		case r < ' ' || r == 0x7f || r == 0xfffe || r == 0xffff:
			return -1
		}
		return r
	}, strings.ToValidUTF8(s, "\ufffd"))
	const mark = " ... (cut)"
	if utf8.RuneCountInString(s) > maxText {
		s = string([]rune(s)[:maxText-len(mark)]) + mark
	}
	return s
}

// Float returns the number, and false for a text or nothing.
func (v Value) Float() (float64, bool) { return v.number, v.kind == number }

// Moment returns a day with its time of day, nothing for the zero time. The
// clock's face counts: a sheet knows no time zones.
func Moment(t time.Time) Value {
	if t.IsZero() {
		return Value{}
	}
	year, month, day := t.Date()
	face := time.Date(year, month, day, t.Hour(), t.Minute(), 0, 0, time.UTC)
	return Number(face.Sub(epoch).Hours() / 24)
}
