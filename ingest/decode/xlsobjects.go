package decode

import "strings"

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
			r.sheet.TextBoxes = append(r.sheet.TextBoxes, text)
		}
	case recNote:
		row, col := f.u16()+1, f.u16()+1
		f.skip(2)
		r.notes[position{row, col}] = f.u16()
	}
	return nil
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
