package decode

import (
	"bytes"
	"strings"

	"flowshelf/analysis/source"
)

// UnreadFormula stands for the text of a formula that the file has and this
// package does not read: all in the old format, and those that share the text
// of another cell which is not there.
const UnreadFormula = "(formula text not read)"

// sharedFormula is a formula that a block of cells shares; the cells other than
// the first refer to it by number.
type sharedFormula struct {
	text     string
	row, col int // of the cell that holds it
}

// readFormula returns the text of the formula the scanner stands on.
func (r *sheetReader) readFormula() string {
	kind := string(r.attr("t"))
	index, _ := smallInt(r.attr("si"))
	table := "TABLE(" + string(r.attr("r1")) + "," + string(r.attr("r2")) + ")"
	r.formula = append(r.formula[:0], r.content()...)
	if err := r.book.budget.checkText(len(r.formula)); err != nil {
		r.stop(err)
		return ""
	}
	switch {
	case kind == "dataTable":
		return table
	case kind != "shared":
		return string(unescapeX(r.formula))
	case len(r.formula) > 0:
		text := string(unescapeX(r.formula))
		r.shared[index] = sharedFormula{text, r.row, r.col}
		return text
	}
	master, ok := r.shared[index]
	if !ok {
		return UnreadFormula
	}
	// Expanding one long formula into many cells is how a small file gets big.
	if err := r.book.budget.takeBytes(int64(len(master.text))); err != nil {
		r.stop(err)
		return ""
	}
	return shiftFormula(master.text, r.row-master.row, r.col-master.col)
}

// shiftFormula moves the relative cell references of a formula by rows and
// columns, as copying a cell does. Texts, quoted sheet names, functions and
// names stay.
func shiftFormula(formula string, rows, cols int) string {
	in := []byte(formula)
	out := make([]byte, 0, len(in)+8)
	for i := 0; i < len(in); {
		switch b := in[i]; {
		case b == '"' || b == '\'':
			end := bytes.IndexByte(in[i+1:], b)
			if end < 0 {
				return string(append(out, in[i:]...))
			}
			out = append(out, in[i:i+end+2]...)
			i += end + 2
		case b == '[': // a column of a table, or the number of another workbook
			end := bytes.IndexByte(in[i:], ']')
			if end < 0 {
				return string(append(out, in[i:]...))
			}
			out = append(out, in[i:i+end+1]...)
			i += end + 1
		case isWord(b):
			end := i
			for end < len(in) && isWord(in[end]) {
				end++
			}
			out = append(out, shiftWord(in[i:end], in[end:], rows, cols)...)
			i = end
		default:
			out = append(out, b)
			i++
		}
	}
	return string(out)
}

// shiftWord moves a word if it is a cell reference; what follows it tells a
// function (LOG10 followed by a bracket) and a sheet name (AB1!) from one.
func shiftWord(word, rest []byte, rows, cols int) []byte {
	row, col, ok := cellAt(word)
	if !ok || len(rest) > 0 && (rest[0] == '(' || rest[0] == '!') {
		return word
	}
	fixedCol := word[0] == '$'
	fixedRow := bytes.LastIndexByte(word, '$') > 0
	if !fixedRow {
		row = wrap(row+rows, lastRow)
	}
	if !fixedCol {
		col = wrap(col+cols, lastCol)
	}
	name := source.CellName(row, col)
	letters := strings.TrimRight(name, "0123456789")
	digits := name[len(letters):]
	if fixedCol {
		letters = "$" + letters
	}
	if fixedRow {
		digits = "$" + digits
	}
	return []byte(letters + digits)
}

// wrap keeps a position on the sheet the way spreadsheets do: past the edge it
// goes on at the other side.
func wrap(position, size int) int {
	return ((position-1)%size+size)%size + 1
}

func isWord(b byte) bool {
	return isLetter(b) || isDigit(b) || b == '$' || b == '_' || b == '.' || b >= 0x80
}
