package decode

import (
	"bytes"
	"strings"
	"time"
)

// paragraph reads the text of a p element with everything inside of it. Runs of
// blanks stay: the standard would have them count as one (ISO/IEC 26300-1,
// section 6.1.2), LibreOffice writes and reads them as they are.
func (t *odsTable) paragraph() (text string, struck bool) {
	depth := t.depth()
	var out []byte
	for t.next() && t.depth() >= depth {
		if t.kind == charData {
			out = append(out, bytes.Map(lineToBlank, t.text)...)
		}
		if t.kind == startTag {
			switch string(t.name) {
			case "s":
				out = append(out, strings.Repeat(" ", t.blanks())...)
			case "tab":
				out = append(out, '\t')
			case "line-break":
				out = append(out, '\n')
			case "span":
				struck = struck || t.book.styles.struckText[string(t.attr("style-name"))]
			}
		}
		t.stop(t.book.budget.checkText(len(out)))
	}
	return string(out), struck
}

// blanks reads how many blanks an s element stands for.
func (t *odsTable) blanks() int {
	count := t.attr("c")
	if count == nil {
		return 1
	}
	n, _ := smallInt(count)
	if err := t.book.budget.checkText(n); err != nil {
		t.stop(err)
		return 0
	}
	return n
}

// lineToBlank is for line ends in the part, which come from its layout.
func lineToBlank(r rune) rune {
	if r == '\n' || r == '\t' {
		return ' '
	}
	return r
}

// annotation reads the note of a cell, one paragraph a line.
func (t *odsTable) annotation() string {
	var lines []string
	depth := t.depth()
	for t.child(depth) {
		if string(t.name) == "p" {
			text, _ := t.paragraph()
			lines = append(lines, text)
		}
	}
	return strings.Join(lines, "\n")
}

// readShapes reads what floats over the sheet as a whole.
func (t *odsTable) readShapes() {
	depth := t.depth()
	for t.child(depth) {
		t.readShape(position{})
	}
}

// readShape counts a chart or picture and keeps the text of a shape that is tied
// to a cell. A chart carries a picture of itself for other readers.
func (t *odsTable) readShape(at position) {
	charts, pictures := 0, 0
	var lines []string
	depth := t.depth()
	for t.next() && t.depth() >= depth {
		if t.kind != startTag {
			continue
		}
		switch string(t.name) {
		case "object":
			charts++
			skip(t.scanner)
		case "image":
			pictures++
			skip(t.scanner)
		case "p":
			text, _ := t.paragraph()
			lines = append(lines, text)
		}
	}
	if charts > 0 {
		pictures = 0
	}
	t.sheet.Charts += charts
	t.sheet.Pictures += pictures
	if text := strings.TrimSpace(strings.Join(lines, "\n")); text != "" {
		t.sheet.TextBoxes = append(t.sheet.TextBoxes, TextBox{at.row, at.col, text})
	}
}

// isoDuration turns an ISO 8601 duration of hours, minutes and seconds, such as
// PT07H30M00S, into days.
func isoDuration(text string) (float64, bool) {
	text, negative := strings.CutPrefix(text, "-")
	clock, ok := strings.CutPrefix(text, "PT")
	if !ok {
		return 0, false
	}
	d, err := time.ParseDuration(strings.ToLower(clock))
	if negative {
		d = -d
	}
	return d.Hours() / 24, err == nil
}
