package decode

import (
	"regexp"
	"sort"
	"strings"
)

// recordReader splits a text table into records (RFC 4180, with any delimiter).
// A quote inside a field that does not begin with one is an inch mark.
type recordReader struct {
	text      string
	delimiter byte
	pos       int
	line      int // records read so far
	most      int // fields that a record may have
}

// next returns the fields of the next record, nil at the end. A record without
// text gives one empty field, so that records count like rows.
func (r *recordReader) next() ([]string, error) {
	if r.pos >= len(r.text) {
		return nil, nil
	}
	r.line++
	var fields []string
	for {
		field, more, err := r.field()
		if err != nil {
			return nil, err
		}
		fields = append(fields, field)
		if !more {
			return fields, nil
		}
		if len(fields) >= r.most {
			return nil, tooLarge("row %d has more than %d fields", r.line, r.most)
		}
	}
}

// field reads one field and what ends it; more says that the record goes on.
func (r *recordReader) field() (field string, more bool, err error) {
	if r.pos < len(r.text) && r.text[r.pos] == '"' {
		return r.quotedField()
	}
	end := r.pos
	for end < len(r.text) && r.text[end] != r.delimiter && r.text[end] != '\n' && r.text[end] != '\r' {
		end++
	}
	field = r.text[r.pos:end]
	r.pos = end
	return field, r.separator(), nil
}

// quotedField reads a field in quotes, in which a quote is written twice.
func (r *recordReader) quotedField() (field string, more bool, err error) {
	var text strings.Builder
	r.pos++
	for {
		end := strings.IndexByte(r.text[r.pos:], '"')
		if end < 0 {
			return "", false, halfWritten("a text in row %d opens with a quote that is never closed", r.line)
		}
		text.WriteString(r.text[r.pos : r.pos+end])
		r.pos += end + 1
		if r.pos >= len(r.text) || r.text[r.pos] != '"' {
			break
		}
		text.WriteByte('"')
		r.pos++
	}
	for r.pos < len(r.text) && r.text[r.pos] == ' ' {
		r.pos++
	}
	if r.pos < len(r.text) && r.text[r.pos] != r.delimiter && r.text[r.pos] != '\n' && r.text[r.pos] != '\r' {
		return "", false, damaged("row %d has text behind a closing quote", r.line)
	}
	return text.String(), r.separator(), nil
}

// separator consumes a delimiter or a line end and reports which it was.
func (r *recordReader) separator() (more bool) {
	if r.pos >= len(r.text) {
		return false
	}
	b := r.text[r.pos]
	r.pos++
	if b == '\r' && r.pos < len(r.text) && r.text[r.pos] == '\n' {
		r.pos++
	}
	return b == r.delimiter
}

// namedDelimiter reads the line "sep=;" that some programs put first and
// returns the text behind it. Spreadsheets do not show that line.
func namedDelimiter(text string) (byte, string) {
	const mark = "sep="
	if len(text) <= len(mark) || !strings.EqualFold(text[:len(mark)], mark) {
		return 0, text
	}
	line, rest, _ := strings.Cut(text, "\n")
	line = strings.TrimSuffix(line, "\r")
	if len(line) != len(mark)+1 || line[len(mark)] >= 0x80 {
		return 0, text
	}
	return line[len(mark)], rest
}

// sampled is how many records decide on the delimiter.
const sampled = 500

// guessDelimiter picks the delimiter that gives the most records the same
// number of fields. Where two do about as well, the one that figures do not
// contain wins: a file with decimal commas splits evenly at its commas too.
func guessDelimiter(text string, most int) byte {
	best, bestScore := byte(','), 0.0
	prose := inSentences(text)
	if prose {
		best = ';' // which parts nothing where there is none
	}
	for _, candidate := range []byte{'\t', ';', '|', ','} {
		if candidate == ',' && (prose || hasDecimalCommas(text)) {
			continue
		}
		if score := consistency(text, candidate, most); score > bestScore+0.1 {
			best, bestScore = candidate, score
		}
	}
	return best
}

// hasDecimalCommas reports whether the commas of a text belong to its figures: on
// most lines that have any, all of them stand between digits, and semicolons or tabs
// part them. A table with words beside some of its rows splits more evenly at them.
func hasDecimalCommas(text string) bool {
	parted, lone := 0, 0
	for range sampled {
		var line string
		line, text, _ = strings.Cut(text, "\n")
		commas := strings.Count(line, ",")
		switch {
		case commas == 0:
		case commas == len(decimalComma.FindAllString(line, -1)) && strings.Count(line, ";")+strings.Count(line, "\t") >= max(commas-1, 1):
			parted++
		default:
			lone++
		}
		if text == "" {
			break
		}
	}
	return parted > 2*lone
}

// inSentences reports whether every comma of a text stands in a sentence: before a
// blank, or in a figure with its unit, as in "TA-70: Einlass 281,5 cfm @ 12,7 mm".
// Some of them have to be such figures.
func inSentences(text string) bool {
	found := false
	for range sampled {
		var line string
		line, text, _ = strings.Cut(text, "\n")
		figures := len(commaWithUnit.FindAllString(line, -1))
		if figures+len(commaInWords.FindAllString(line, -1)) != strings.Count(line, ",") {
			return false
		}
		found = found || figures > 0
		if text == "" {
			break
		}
	}
	return found
}

var (
	commaWithUnit = regexp.MustCompile(`(?i)(?:[\pL@:=<>~≈]\s+|^)\d{1,4},\d{1,3}\s*(?:cfm|l/s|l/min|m[3³]/(?:h|min)|mm|cm|zoll|in(?:ch)?\b|["”″]|mbar|kpa|psi|inh2o|mmh2o)`)
	commaInWords  = regexp.MustCompile(`,(?:\s|$)`)
)

var decimalComma = regexp.MustCompile(`\d,\d`)

// consistency is the share of the records with text that have the most usual
// number of fields, where that is at least two. A delimiter under which the
// text is not well formed is not the delimiter: a quoted title with semicolons
// in it must not make a file with commas look damaged.
func consistency(text string, delimiter byte, most int) float64 {
	records := recordReader{text: text, delimiter: delimiter, most: most}
	counts := make(map[int]int)
	filled := 0
	for range sampled {
		fields, err := records.next()
		if err != nil {
			return 0
		}
		if fields == nil {
			break
		}
		if strings.TrimSpace(strings.Join(fields, "")) == "" {
			continue
		}
		filled++
		counts[len(fields)]++
	}
	delete(counts, 1)
	usual := make([]int, 0, len(counts))
	for _, n := range counts {
		usual = append(usual, n)
	}
	if len(usual) == 0 {
		return 0
	}
	sort.Ints(usual)
	return float64(usual[len(usual)-1]) / float64(filled)
}
