package decode

import (
	"bytes"
	"math"
	"strconv"

	"flowshelf/analysis/source"
)

// stored is a cell as it lies in the part.
type stored struct {
	kind      string // attribute t
	value     []byte // content of v
	hasValue  bool
	inline    richText
	hasInline bool
	formula   string
}

// readCell reads one cell and keeps it if it holds a value or a formula.
func (r *sheetReader) readCell() {
	col := r.col + 1
	if at := r.attr("r"); at != nil {
		row, c, ok := cellAt(at)
		if !ok || row != r.row {
			r.fail("a cell in row %d is called %s", r.row, quoted(at))
			return
		}
		col = c
	}
	r.col = col
	cell := Cell{Row: r.row, Col: col, Stored: true}
	if !r.applyStyle(&cell) {
		return
	}
	raw := stored{kind: cellType(r.attr("t"))}
	if raw.value, raw.hasValue = r.plainValue(); !raw.hasValue {
		r.readParts(&raw)
	}
	if r.err != nil {
		return
	}
	if !r.setValue(&cell, &raw) {
		r.fail("cell %s holds %s, which is no value of its kind", source.CellName(r.row, col), quoted(raw.value))
		return
	}
	cell.Formula = raw.formula
	if cell.Formula != "" {
		cell.Stored = cell.Kind != Empty || raw.hasValue && raw.kind == "str"
	}
	if cell.Kind == Empty && cell.Formula == "" {
		return
	}
	if err := r.book.budget.takeCell(cell.Row, cell.Col); err != nil {
		r.stop(err)
		return
	}
	r.sheet.Cells = append(r.sheet.Cells, cell)
}

// plainValue reads the rest of the cell at hand if it is written as nearly every
// cell is, <c r="B4"><v>12.5</v></c>, and returns the value. All else is left to
// readParts.
func (r *sheetReader) plainValue() (value []byte, ok bool) {
	if r.selfClosed || !r.at("<v>") {
		return nil, false
	}
	rest := r.data[r.pos+len("<v>"):]
	n := 0
	for n < len(rest) && rest[n] != '<' {
		if !isPlain(rest[n]) {
			return nil, false
		}
		n++
	}
	const end = "</v></c>"
	if !bytes.HasPrefix(rest[n:], []byte(end)) || string(r.full(r.open[len(r.open)-1])) != "c" {
		return nil, false
	}
	r.pos += len("<v>") + n + len(end)
	r.pop()
	return rest[:n], true
}

// readParts reads what a cell holds besides, or instead of, a plain value.
func (r *sheetReader) readParts(raw *stored) {
	r.value = r.value[:0]
	depth := r.depth()
	for r.child(depth) {
		switch string(r.name) {
		case "v":
			r.value = append(r.value, r.content()...)
			raw.hasValue = true
		case "f":
			raw.formula = r.readFormula()
		case "is":
			raw.inline, raw.hasInline = readRichText(r.scanner, r.book.budget), true
		}
	}
	raw.value = r.value
}

// cellType returns the type attribute without allocating for the usual ones.
func cellType(t []byte) string {
	switch string(t) {
	case "", "n":
		return "n"
	case "s":
		return "s"
	case "str":
		return "str"
	case "inlineStr":
		return "inlineStr"
	}
	return string(t)
}

// applyStyle sets format and emphasis from the style the cell refers to.
func (r *sheetReader) applyStyle(cell *Cell) bool {
	index := 0
	if at := r.attr("s"); at != nil {
		n, ok := smallInt(at)
		if !ok || n > 0 && r.book.styles != nil && n >= len(r.book.styles) {
			r.fail("a cell in row %d has the style %s, which does not exist", r.row, quoted(at))
			return false
		}
		index = n
	}
	if index < len(r.book.styles) {
		style := &r.book.styles[index]
		cell.Format, cell.Struck, cell.Bold, cell.Filled = style.format, style.struck, style.bold, style.filled
		if style.date {
			cell.Kind = Date // provisional; setValue keeps it for numbers only
		}
	}
	return true
}

// setValue gives the cell its value. It returns false for one that the type
// does not allow.
func (r *sheetReader) setValue(cell *Cell, raw *stored) bool {
	dated := cell.Kind == Date
	cell.Kind = Empty
	if raw.hasInline && (raw.kind == "inlineStr" || !raw.hasValue) {
		setText(cell, raw.inline)
		return true
	}
	if len(raw.value) == 0 {
		return true
	}
	switch raw.kind {
	case "n":
		if !setNumber(cell, r.digits.keep(bytes.TrimSpace(raw.value))) {
			return false
		}
		if dated && cell.Kind == Number {
			r.setDate(cell)
		}
	case "s":
		i, ok := smallInt(bytes.TrimSpace(raw.value))
		if !ok || i >= len(r.book.strings) {
			return false
		}
		setText(cell, r.book.strings[i])
	case "str", "inlineStr":
		if err := r.book.budget.checkText(len(raw.value)); err != nil {
			r.stop(err)
			return true
		}
		setText(cell, richText{text: string(unescapeX(raw.value))})
	case "b":
		return setBool(cell, string(raw.value))
	case "e":
		cell.Kind, cell.Text = Failed, string(raw.value)
	case "d":
		serial, ok := isoSerial(string(raw.value))
		cell.Kind, cell.Num, cell.Text = Date, serial, string(raw.value)
		return ok
	default:
		return false
	}
	return true
}

// setNumber keeps the value as stored, and its digits as a spreadsheet shows them.
func setNumber(cell *Cell, text string) bool {
	if text == "" {
		return true
	}
	num, ok := parseNumber(text)
	if ok {
		cell.Kind, cell.Num, cell.Text = Number, num, digits(text, num)
	}
	return ok
}

// digits are those of a stored number as a person knows them: a spreadsheet
// works with fifteen, and 67.59999999999999 is what the arithmetic of its maker
// left of 67.6. Shorter ones stay as they are.
func digits(stored string, num float64) string {
	const most = 15
	if len(stored) <= most {
		return stored
	}
	return strconv.FormatFloat(num, 'g', most, 64)
}

// setDate makes a number a date. In a book that counts its days from 1904 it is
// 1,462 days short of the 1900 system.
func (r *sheetReader) setDate(cell *Cell) {
	cell.Kind = Date
	if r.book.is1904 {
		cell.Num += days1904
	}
}

func setBool(cell *Cell, value string) bool {
	cell.Kind = Bool
	switch value {
	case "1", "true":
		cell.Num = 1
	case "0", "false":
	default:
		return false
	}
	return true
}

func setText(cell *Cell, rich richText) {
	if rich.text == "" {
		return
	}
	cell.Kind, cell.Text = Text, rich.text
	cell.Struck = cell.Struck || rich.struck
	cell.Bold = cell.Bold || rich.bold
}

// parseNumber reads decimal digits with an optional exponent, nothing else that
// strconv would take, and no infinity.
func parseNumber(text string) (float64, bool) {
	for i := 0; i < len(text); i++ {
		switch b := text[i]; {
		case isDigit(b), b == '.', b == '-', b == '+', b == 'e', b == 'E':
		default:
			return 0, false
		}
	}
	num, err := strconv.ParseFloat(text, 64)
	return num, err == nil && !math.IsInf(num, 0)
}
