package decode

import (
	"math"
	"strconv"
	"strings"
)

// setValue reads the value of a cell from its record.
func (r *xlsSheet) setValue(cell *Cell, id uint16, f *biffFields) bool {
	switch id {
	case recNumber:
		return setFloat(cell, f.float())
	case recRK, recMulRK:
		return setFloat(cell, compactNumber(f.u32()))
	case recLabelShared:
		i := f.u32()
		if i >= len(r.book.strings) {
			return false
		}
		return setPlainText(cell, r.book.strings[i])
	case recLabel, recRString:
		count, flags := f.u16(), f.u8()
		return setPlainText(cell, richText{text: f.characters(count, flags)})
	case recBoolErr:
		value := f.u8()
		if isError := f.u8(); isError == 1 {
			return setError(cell, value)
		}
		return setBool(cell, strconv.Itoa(value))
	case recFormula:
		cell.Formula = UnreadFormula
		return r.setResult(cell, f)
	}
	return true
}

// setResult reads the stored result of a formula: a number, or a mark in the
// place of one (FormulaValue, section 2.5.133). A text follows in a record of
// its own.
func (r *xlsSheet) setResult(cell *Cell, f *biffFields) bool {
	const isMark = 0xffff
	if len(f.chunk) < 8 || int(f.chunk[6])|int(f.chunk[7])<<8 != isMark {
		number := f.float()
		// LibreOffice stores zero where the result is a text. Which of the two
		// it is, cannot be seen: a zero is no stored result.
		if cell.Stored = number != 0; !cell.Stored {
			return true
		}
		return setFloat(cell, number)
	}
	kind := f.u8()
	f.skip(1)
	value := f.u8()
	switch kind {
	case 0:
		text, found := r.resultText()
		return found && setPlainText(cell, richText{text: text})
	case 1:
		return setBool(cell, strconv.Itoa(value))
	case 2:
		return setError(cell, value)
	case 3: // an empty text
		return true
	}
	return false
}

// resultText reads the STRING record that belongs to the formula just read; a
// shared or array formula may stand between them.
func (r *xlsSheet) resultText() (string, bool) {
	for {
		id, body, ok := r.next()
		switch {
		case ok && id == recString:
			f := r.continued(body)
			count, flags := f.u16(), f.u8()
			return f.characters(count, flags), !f.bad
		case !ok || id == recFormula || id == recEOF || id == recBOF:
			return "", false
		}
	}
}

// compactNumber expands the four-byte number of an RK record (RkNumber, section
// 2.5.217): bit 0 divides by 100, bit 1 tells an integer from the upper half of
// a float.
func compactNumber(rk int) float64 {
	var value float64
	if rk&2 != 0 {
		value = float64(int32(uint32(rk)) >> 2) //nolint:gosec // four bytes, signed
	} else {
		value = math.Float64frombits(uint64(uint32(rk)&^3) << 32) //nolint:gosec // four bytes
	}
	if rk&1 != 0 {
		value /= 100
	}
	return value
}

// setPlainText sets a text, unless it contains zeros, as a hole would.
func setPlainText(cell *Cell, rich richText) bool {
	setText(cell, rich)
	return strings.IndexByte(rich.text, 0) < 0
}

func setFloat(cell *Cell, value float64) bool {
	if math.IsNaN(value) || math.IsInf(value, 0) {
		return false
	}
	cell.Kind, cell.Num, cell.Text = Number, value, digits(strconv.FormatFloat(value, 'g', -1, 64), value)
	return true
}

// setError sets an error by its code (BErr, section 2.5.10).
func setError(cell *Cell, value int) bool {
	texts := map[int]string{0x00: "#NULL!", 0x07: "#DIV/0!", 0x0f: "#VALUE!", 0x17: "#REF!", 0x1d: "#NAME?",
		0x24: "#NUM!", 0x2a: "#N/A", 0x2b: "#GETTING_DATA"}
	cell.Kind, cell.Text = Failed, texts[value]
	return cell.Text != ""
}
