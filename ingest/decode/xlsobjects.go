package decode

import (
	"encoding/binary"
	"strings"
)

// The kinds of object that are told apart (FtCmo, section 2.5.143).
const (
	objectChart   = 0x05
	objectPicture = 0x08
	objectNote    = 0x19
)

func (r *xlsSheet) readMerges(f *biffFields) error {
	for range f.u16() {
		top, bottom, left, right := f.u16()+1, f.u16()+1, f.u16()+1, f.u16()+1
		if f.bad {
			return nil // reported by the caller
		}
		if bottom < top || right < left || right > 256 {
			return halfWritten("a merged area is off the sheet")
		}
		if len(r.sheet.Merges) >= mostMerges {
			return tooLarge("the sheet %s has more than %d merged areas", quoted([]byte(r.sheet.Name)), mostMerges)
		}
		r.sheet.Merges = append(r.sheet.Merges, Area{top, left, bottom, right})
	}
	return nil
}

// readObject reads what floats over the cells: an OBJ record says what it is, a
// TXO behind it holds its text, a NOTE ties it to a cell.
func (r *xlsSheet) readObject(id uint16, f *biffFields) error {
	switch id {
	case recObject:
		f.skip(4)
		r.objectKind, r.object = f.u16(), f.u16()
		switch r.objectKind {
		case objectChart:
			r.sheet.Charts++
		case objectPicture:
			r.sheet.Pictures++
		}
	case recTextObject:
		f.skip(10)
		count := f.u16()
		text := r.objectText(count)
		if err := r.book.budget.checkText(len(text)); err != nil {
			return err
		}
		if r.objectKind == objectNote {
			r.texts[r.object] = text
		} else if text = strings.TrimSpace(text); text != "" {
			r.sheet.TextBoxes = append(r.sheet.TextBoxes, TextBox{r.place.row, r.place.col, text})
		}
	case recNote:
		row, col := f.u16()+1, f.u16()+1
		f.skip(2)
		r.notes[position{row, col}] = f.u16()
	}
	return nil
}

// The records of a drawing that lead to where a shape begins (Microsoft,
// [MS-ODRAW], section 2.2.1, and [MS-XLS], section 2.5.193,
// OfficeArtClientAnchorSheet).
const (
	shapeContainer = 0xf004
	shapeAnchor    = 0xf010
	drawingHeader  = 8
)

// readPlace looks for the anchor of the shape that a drawing record describes; a
// record that goes on with the same shape, as before its text, has none. Nothing
// depends on it but the words "near C3".
func (r *xlsSheet) readPlace(body []byte) {
	for len(body) >= drawingHeader {
		version, kind := binary.LittleEndian.Uint16(body)&0xf, binary.LittleEndian.Uint16(body[2:])
		size := int(binary.LittleEndian.Uint32(body[4:]))
		body = body[drawingHeader:]
		switch {
		case kind == shapeContainer:
			r.place = position{}
		case kind == shapeAnchor && len(body) >= drawingHeader:
			col, row := binary.LittleEndian.Uint16(body[2:]), binary.LittleEndian.Uint16(body[6:])
			r.place = position{int(row) + 1, int(col) + 1}
		}
		if version == 0xf { // a container: what it holds comes next
			continue
		}
		body = body[min(size, len(body)):]
	}
}

// objectText reads the text in the continuations of a TXO record; behind it,
// in another, lie its fonts.
func (r *xlsSheet) objectText(count int) string {
	if count == 0 {
		return ""
	}
	f := r.continued(nil)
	f.advance()
	flags := f.u8()
	return f.characters(count, flags)
}

// attachNotes gives the cells their notes, as in the other formats.
func (r *xlsSheet) attachNotes() error {
	notes := make(map[position][]string)
	for at, object := range r.notes {
		if text := r.texts[object]; text != "" {
			notes[at] = []string{text}
		}
	}
	return attachNotes(r.sheet, notes, r.book.budget)
}
