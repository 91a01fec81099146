package decode

import (
	"bytes"
	"strings"
	"unicode/utf8"

	"golang.org/x/text/encoding/charmap"
	"golang.org/x/text/encoding/unicode"
)

const notText = "This is neither a workbook nor a table in text form."

// plainText decodes the bytes of a text file: by its byte order mark, UTF-16
// without one by its pattern of zero bytes, UTF-8 if valid, else Windows-1252.
func plainText(content []byte) (string, error) {
	var text string
	switch order, isUTF16 := utf16Order(content); {
	case isUTF16:
		out, err := unicode.UTF16(order, unicode.UseBOM).NewDecoder().Bytes(content)
		if err != nil || len(content)%2 != 0 || bytes.ContainsRune(out, utf8.RuneError) {
			return "", halfWritten("its text is not in the encoding it claims")
		}
		text = string(out)
	case bytes.IndexFunc(content, isBinary) >= 0:
		return "", unknown(notText)
	case bytes.IndexByte(content, 0) >= 0:
		return "", halfWritten("it contains zeros where text should be")
	case bytes.HasPrefix(content, []byte(byteOrderMark)):
		text = string(content[len(byteOrderMark):])
		if !utf8.ValidString(text) {
			return "", halfWritten("its text is not in the encoding it claims")
		}
	case utf8.Valid(content):
		text = string(content)
	default:
		out, err := charmap.Windows1252.NewDecoder().Bytes(content)
		if err != nil || bytes.ContainsRune(out, utf8.RuneError) {
			return "", unknown(notText)
		}
		text = string(out)
	}
	text = strings.TrimSuffix(text, "\x1a") // end mark of old programs
	if strings.IndexFunc(text, isControl) >= 0 {
		return "", unknown(notText)
	}
	return text, nil
}

// utf16Order recognises UTF-16 by its mark, or by zeros in every other of the
// first bytes.
func utf16Order(content []byte) (unicode.Endianness, bool) {
	switch {
	case bytes.HasPrefix(content, []byte("\xff\xfe")):
		return unicode.LittleEndian, true
	case bytes.HasPrefix(content, []byte("\xfe\xff")):
		return unicode.BigEndian, true
	}
	start := content[:min(len(content), 64)&^1]
	var zeros [2]int
	for i, b := range start {
		if b == 0 {
			zeros[i%2]++
		}
	}
	half := len(start) / 2
	switch {
	case half >= 2 && zeros[0] == 0 && zeros[1] > half*3/4:
		return unicode.LittleEndian, true
	case half >= 2 && zeros[1] == 0 && zeros[0] > half*3/4:
		return unicode.BigEndian, true
	}
	return unicode.LittleEndian, false
}

// isBinary finds bytes that neither text nor a hole in it contains.
func isBinary(r rune) bool { return r != 0 && r != '\x1a' && r < ' ' && isControl(r) }

// isControl finds characters that no text table contains.
func isControl(r rune) bool {
	switch r {
	case '\t', '\n', '\r', '\f', '\v':
		return false
	}
	return r < ' ' || r >= 0x7f && r < 0xa0
}

// isPlainNumber recognises digits with at most one point and a minus sign. A
// number with leading zeros may be a part number, one with an exponent too.
func isPlainNumber(text string) bool {
	text = strings.TrimPrefix(text, "-")
	whole, fraction, hasPoint := strings.Cut(text, ".")
	if hasPoint && fraction == "" || !hasPoint && whole == "" || len(whole) > 1 && whole[0] == '0' {
		return false
	}
	return allDigits(whole) && allDigits(fraction) && len(text) <= mostDigits
}

// mostDigits is how many characters a plain number has at most: what is longer
// is an article or account number, and a float64 would not hold it.
const mostDigits = 17

func allDigits(text string) bool {
	return strings.TrimLeft(text, "0123456789") == ""
}

// hasDecimalComma looks for a field that can only be read with a decimal comma:
// one comma that does not set off a group of three digits.
func hasDecimalComma(cells []Cell) bool {
	for i := range cells {
		whole, fraction, found := strings.Cut(strings.TrimPrefix(strings.TrimSpace(cells[i].Text), "-"), ",")
		if !found || fraction == "" || !allDigits(whole) || !allDigits(fraction) {
			continue
		}
		if len(fraction) != 3 || whole == "" || whole[0] == '0' || len(whole) > 3 {
			return true
		}
	}
	return false
}

// recogniseNumbers turns the fields that are plain numbers into Numbers.
func recogniseNumbers(cells []Cell) {
	pointIsDecimal := !hasDecimalComma(cells)
	for i := range cells {
		text := strings.TrimSpace(cells[i].Text)
		if !isPlainNumber(text) || strings.Contains(text, ".") && !pointIsDecimal {
			continue
		}
		if num, ok := parseNumber(text); ok {
			cells[i].Kind, cells[i].Num, cells[i].Text = Number, num, text
		}
	}
}

// splitsDecimals recognises a table whose decimal commas count as delimiters
// too: below a heading of n fields, each row has 2n whole numbers. Read as it
// stands, a lift of 0,300 would be a lift of 0 and a flow of 300.
func splitsDecimals(sheet *Sheet) bool {
	heading, split := 0, 0
	for row := 1; row <= sheet.Rows(); row++ {
		cells := sheet.Row(row)
		whole, numbers := 0, 0
		for _, c := range cells {
			if allDigits(strings.TrimPrefix(c.Text, "-")) {
				whole++
			}
			if c.Kind == Number {
				numbers++
			}
		}
		switch {
		case len(cells) == 0:
		case whole == len(cells) && whole == 2*heading:
			split++
		case numbers > 0:
			return false
		default:
			heading = len(cells)
		}
	}
	return split > 0
}
