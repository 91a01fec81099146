package decode

import "strings"

// xlsBook is what the first part of a binary workbook, the globals, says for
// all sheets.
type xlsBook struct {
	budget  *budget
	is1904  bool
	links   int
	strings []richText
	fonts   []cellStyle // struck and bold only
	formats map[int]string
	palette map[int]bool // colour index -> white; only colours that are redefined
	styles  []xlsStyle
	sheets  []xlsEntry
}

// xlsStyle is a cell format; it refers to formats that may be read after it.
type xlsStyle struct {
	font, format, pattern, colour int
	forCells                      bool // else it is a named style that others build on
}

// xlsEntry is one line of the list of sheets.
type xlsEntry struct {
	name   string
	offset int // of the sheet's first record
	hidden bool
	kind   int // as in the list: 0 is a worksheet, 2 a chart
}

const biff8 = 0x0600

// readGlobals reads the records up to the first end mark.
func (x *xlsBook) readGlobals(s *biffStream) error {
	x.formats, x.palette = make(map[int]string), make(map[int]bool)
	id, body, ok := s.next()
	if !ok || id != recBOF {
		return halfWritten("it does not begin like a workbook")
	}
	if f := fieldsOf(body); f.u16() != biff8 {
		return oldFormat("This is a workbook in a format older than 1997; please save as .xlsx and drop again.")
	}
	for {
		id, body, ok := s.next()
		if !ok {
			return halfWritten("its list of sheets ends in the middle")
		}
		if id == recEOF {
			return nil
		}
		if err := x.readGlobal(s, id, body); err != nil {
			return err
		}
	}
}

func (x *xlsBook) readGlobal(s *biffStream, id uint16, body []byte) error {
	f := fieldsOf(body)
	switch id {
	case recFilePass:
		return locked()
	case recDateMode:
		x.is1904 = f.u16() == 1
	case recFont:
		f.skip(2)
		flags := f.u16()
		f.skip(2)
		x.fonts = append(x.fonts, cellStyle{struck: flags&8 != 0, bold: f.u16() >= 600})
	case recFormat:
		format, count, flags := f.u16(), f.u16(), f.u8()
		x.formats[format] = f.characters(count, flags)
	case recXF:
		style := xlsStyle{font: f.u16(), format: f.u16()}
		style.forCells = f.u16()&4 == 0
		f.skip(8)
		style.pattern = f.u32() >> 26
		style.colour = f.u16() & 0x7f
		x.styles = append(x.styles, style)
	case recPalette:
		for i := range f.u16() {
			x.palette[8+i] = f.u32()&0xffffff == 0xffffff
		}
	case recSupBook:
		// The book itself and add-ins are listed by a mark instead of a name.
		f.skip(2)
		if mark := f.u16(); mark != 0x0401 && mark != 0x3a01 {
			x.links++
		}
		f.bad = false
	case recBoundSheet:
		entry := xlsEntry{offset: f.u32()}
		entry.hidden = f.u8()&3 != 0
		entry.kind = f.u8()
		count, flags := f.u8(), f.u8()
		entry.name = f.characters(count, flags)
		return x.addSheet(entry, f)
	case recSharedText:
		f = s.continued(body)
		return x.readStrings(f)
	}
	if f.bad {
		return halfWritten("a record of kind %#x is too short", id)
	}
	return nil
}

func (x *xlsBook) addSheet(entry xlsEntry, f *biffFields) error {
	if f.bad {
		return halfWritten("its list of sheets ends in the middle")
	}
	for _, other := range x.sheets {
		if other.offset == entry.offset || strings.EqualFold(other.name, entry.name) {
			return damaged("two sheets are called %s or lie at the same place", quoted([]byte(entry.name)))
		}
	}
	x.sheets = append(x.sheets, entry)
	if len(x.sheets) > x.budget.limits.Sheets {
		return tooLarge("it has more than %d sheets", x.budget.limits.Sheets)
	}
	return nil
}

// readStrings reads the table of shared texts.
func (x *xlsBook) readStrings(f *biffFields) error {
	f.skip(4) // how often they are used
	for range f.u32() {
		rich := f.richText(x.font)
		if f.bad {
			return halfWritten("its table of texts ends in the middle")
		}
		if err := x.budget.checkText(len(rich.text)); err != nil {
			return err
		}
		x.strings = append(x.strings, rich)
	}
	if f.left() {
		return halfWritten("its table of texts is longer than it says")
	}
	return nil
}

// font returns a font by its number. Number 4 is never used, so that the fonts
// behind it are stored one place earlier.
func (x *xlsBook) font(index int) cellStyle {
	if index > 4 {
		index--
	}
	if index >= len(x.fonts) {
		return cellStyle{}
	}
	return x.fonts[index]
}

// style returns the style of a cell format.
func (x *xlsBook) style(index int) (cellStyle, bool) {
	if index >= len(x.styles) || !x.styles[index].forCells {
		return cellStyle{}, false
	}
	xf := x.styles[index]
	style := x.font(xf.font)
	code, custom := x.formats[xf.format]
	if !custom {
		code = builtInFormat(xf.format)
	}
	if !strings.EqualFold(code, "General") {
		style.format, style.date = code, isDateFormat(code)
	}
	style.filled = xf.pattern > 1 || xf.pattern == 1 && !x.isWhite(xf.colour)
	return style, true
}

func (x *xlsBook) isWhite(colour int) bool {
	if white, redefined := x.palette[colour]; redefined {
		return white
	}
	return colour == 1 || colour == 9
}
