package decode

import (
	"encoding/binary"
	"math"
	"unicode/utf16"
)

// The records of the binary workbook format that are read (Microsoft, [MS-XLS]
// Excel Binary File Format, section 2.3.2).
const (
	recFormula     = 0x0006
	recEOF         = 0x000a
	recNote        = 0x001c
	recDateMode    = 0x0022
	recFilePass    = 0x002f
	recFont        = 0x0031
	recContinue    = 0x003c
	recObject      = 0x005d
	recColInfo     = 0x007d
	recBoundSheet  = 0x0085
	recPalette     = 0x0092
	recMulRK       = 0x00bd
	recRString     = 0x00d6
	recXF          = 0x00e0
	recMergeCells  = 0x00e5
	recDrawing     = 0x00ec // MsoDrawing
	recSharedText  = 0x00fc // SST
	recLabelShared = 0x00fd // LABELSST
	recSupBook     = 0x01ae
	recTextObject  = 0x01b6 // TXO
	recNumber      = 0x0203
	recLabel       = 0x0204
	recBoolErr     = 0x0205
	recString      = 0x0207
	recRow         = 0x0208
	recRK          = 0x027e
	recFormat      = 0x041e
	recBOF         = 0x0809
)

// biffStream walks through the records of a workbook stream.
type biffStream struct {
	data []byte
	pos  int
}

// next reads one record; ok is false at the end and where the records stop
// making sense, as they do in a hole of zeros.
func (s *biffStream) next() (id uint16, body []byte, ok bool) {
	if len(s.data)-s.pos < 4 {
		return 0, nil, false
	}
	id = binary.LittleEndian.Uint16(s.data[s.pos:])
	size := int(binary.LittleEndian.Uint16(s.data[s.pos+2:]))
	if id == 0 || size > len(s.data)-s.pos-4 {
		return 0, nil, false
	}
	body = s.data[s.pos+4 : s.pos+4+size]
	s.pos += 4 + size
	return id, body, true
}

// continued collects the bodies of the CONTINUE records that follow.
func (s *biffStream) continued(first []byte) *biffFields {
	f := &biffFields{chunk: first}
	for {
		before := s.pos
		id, body, ok := s.next()
		if !ok || id != recContinue {
			s.pos = before
			return f
		}
		f.more = append(f.more, body)
	}
}

// biffFields reads the fields of a record and its continuations. A read past
// the end sets bad and gives zeros.
type biffFields struct {
	chunk []byte
	more  [][]byte
	bad   bool
}

func fieldsOf(body []byte) *biffFields { return &biffFields{chunk: body} }

// advance moves to the next continuation when a chunk is used up.
func (f *biffFields) advance() {
	for len(f.chunk) == 0 && len(f.more) > 0 {
		f.chunk, f.more = f.more[0], f.more[1:]
	}
}

func (f *biffFields) u8() int {
	f.advance()
	if len(f.chunk) == 0 {
		f.bad = true
		return 0
	}
	b := f.chunk[0]
	f.chunk = f.chunk[1:]
	return int(b)
}

func (f *biffFields) u16() int { return f.u8() | f.u8()<<8 }
func (f *biffFields) u32() int { return f.u16() | f.u16()<<16 }

func (f *biffFields) float() float64 {
	low, high := f.u32(), f.u32()
	return math.Float64frombits(uint64(uint32(low)) | uint64(uint32(high))<<32) //nolint:gosec // both are below 1<<32
}

func (f *biffFields) skip(n int) {
	for n > 0 && !f.bad {
		f.advance()
		step := min(n, len(f.chunk))
		f.bad = step == 0
		f.chunk = f.chunk[step:]
		n -= step
	}
}

// left reports whether there is anything left to read.
func (f *biffFields) left() bool {
	f.advance()
	return len(f.chunk) > 0
}

// characters reads n characters. The lowest bit of the flags says whether each
// has two bytes, or one, the low half. Where they run into a continuation, that
// begins with flags of its own.
func (f *biffFields) characters(n, flags int) string {
	var units []uint16
	for len(units) < n && !f.bad {
		if len(f.chunk) == 0 && len(f.more) > 0 {
			f.advance()
			flags = f.u8()
			continue
		}
		if flags&1 != 0 {
			units = append(units, uint16(f.u16())) //nolint:gosec // two bytes
		} else {
			units = append(units, uint16(f.u8())) //nolint:gosec // one byte
		}
	}
	return string(utf16.Decode(units))
}

// richText reads a string with its formatting runs (XLUnicodeRichExtendedString,
// section 2.5.293). The fonts of the runs tell what is struck through.
func (f *biffFields) richText(font func(index int) cellStyle) richText {
	count, flags := f.u16(), f.u8()
	runs, extra := 0, 0
	if flags&8 != 0 {
		runs = f.u16()
	}
	if flags&4 != 0 {
		extra = f.u32()
	}
	rich := richText{text: f.characters(count, flags)}
	for range runs {
		if f.bad {
			break
		}
		start, style := f.u16(), font(f.u16())
		rich.struck = rich.struck || style.struck && start < count
	}
	f.skip(extra) // reading aids
	return rich
}
