package decode

import (
	"bytes"
	"strings"
)

// readDrawings counts what floats over the cells of a sheet. Figures in a chart
// or a picture are not read; somebody has to be told that they are there.
func (x *xlsxBook) readDrawings(rels []relationship, sheet *Sheet) error {
	for _, rel := range rels {
		if rel.kind != "drawing" || rel.external {
			continue
		}
		s, err := x.scan(rel.target)
		if err != nil {
			return err
		}
		if err := x.readDrawing(s, sheet); err != nil {
			return err
		}
	}
	return nil
}

func (x *xlsxBook) readDrawing(s *scanner, sheet *Sheet) error {
	var at position // of the shape at hand
	for s.next() {
		if s.kind != startTag {
			continue
		}
		switch string(s.name) {
		case "Fallback": // stands for what the choice beside it already showed
			skip(s)
		case "twoCellAnchor", "oneCellAnchor", "absoluteAnchor":
			at = position{}
		case "from":
			at = readAnchor(s)
		case "chart":
			sheet.Charts++
		case "pic":
			sheet.Pictures++
		case "txBody":
			text := strings.TrimSpace(readTextBody(s))
			if err := x.budget.checkText(len(text)); err != nil {
				return err
			}
			if text != "" {
				sheet.TextBoxes = append(sheet.TextBoxes, TextBox{at.row, at.col, text})
			}
		}
	}
	return s.err
}

// readAnchor reads the cell that a shape begins in; one that is off the sheet
// counts as none.
func readAnchor(s *scanner) (at position) {
	depth := s.depth()
	for s.child(depth) {
		name := string(s.name)
		n, ok := smallInt(bytes.TrimSpace(s.content()))
		switch {
		case name == "row" && ok && n < lastRow:
			at.row = n + 1
		case name == "col" && ok && n < lastCol:
			at.col = n + 1
		}
	}
	if at.row == 0 || at.col == 0 {
		return position{}
	}
	return at
}

// skip reads to the end of the current element.
func skip(s *scanner) {
	depth := s.depth()
	for s.child(depth) {
	}
}

// readTextBody returns the paragraphs of a shape's text, one a line.
func readTextBody(s *scanner) string {
	var text strings.Builder
	depth := s.depth()
	for s.child(depth) {
		if string(s.name) != "p" {
			continue
		}
		if text.Len() > 0 {
			text.WriteByte('\n')
		}
		paragraph := s.depth()
		for s.child(paragraph) {
			if string(s.name) == "br" {
				text.WriteByte('\n')
				continue
			}
			run := s.depth()
			for s.child(run) {
				if string(s.name) == "t" {
					text.Write(s.content())
				}
			}
		}
	}
	return text.String()
}
