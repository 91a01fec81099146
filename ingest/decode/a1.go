package decode

// The last row and column that the A1 notation of spreadsheets knows.
const (
	lastRow = 1_048_576
	lastCol = 16_384
)

// cellAt parses a cell name such as "AB12" (also "$AB$12").
func cellAt(name []byte) (row, col int, ok bool) {
	row, col, n := leadingCell(name)
	return row, col, n > 0 && n == len(name)
}

// leadingCell parses the cell name that text starts with and returns its
// length, 0 when there is none.
func leadingCell(text []byte) (row, col, length int) {
	i := skipDollar(text, 0)
	letters := i
	for i < len(text) && i-letters < 4 && isLetter(text[i]) {
		col = col*26 + int(text[i]|0x20-'a') + 1
		i++
	}
	if i == letters || col > lastCol {
		return 0, 0, 0
	}
	i = skipDollar(text, i)
	digits := i
	for i < len(text) && i-digits < 8 && isDigit(text[i]) {
		row = row*10 + int(text[i]-'0')
		i++
	}
	if i == digits || row < 1 || row > lastRow || text[digits] == '0' {
		return 0, 0, 0
	}
	return row, col, i
}

// areaAt parses "A1:C3" or "A1".
func areaAt(name []byte) (Area, bool) {
	top, left, n := leadingCell(name)
	if n == 0 {
		return Area{}, false
	}
	if n == len(name) {
		return Area{top, left, top, left}, true
	}
	if name[n] != ':' {
		return Area{}, false
	}
	bottom, right, ok := cellAt(name[n+1:])
	if !ok || bottom < top || right < left {
		return Area{}, false
	}
	return Area{top, left, bottom, right}, true
}

func skipDollar(text []byte, i int) int {
	if i < len(text) && text[i] == '$' {
		return i + 1
	}
	return i
}

func isLetter(b byte) bool { return b|0x20 >= 'a' && b|0x20 <= 'z' }
func isDigit(b byte) bool  { return b >= '0' && b <= '9' }

// smallInt parses a plain non-negative decimal integer of at most nine digits.
func smallInt(text []byte) (int, bool) {
	if len(text) == 0 || len(text) > 9 {
		return 0, false
	}
	n := 0
	for _, b := range text {
		if !isDigit(b) {
			return 0, false
		}
		n = n*10 + int(b-'0')
	}
	return n, true
}
