package decode

import (
	"sort"
	"strings"
)

// position is a cell's place on its sheet.
type position struct{ row, col int }

// readNotes reads the comments of a sheet into its cells. A conversation
// (threaded comments) stands in for the plain note that programs write beside
// it for older readers.
func (x *xlsxBook) readNotes(rels []relationship, sheet *Sheet) error {
	notes, threads := make(map[position][]string), make(map[position][]string)
	for _, rel := range rels {
		var err error
		switch {
		case rel.external:
		case rel.kind == "comments":
			err = x.readComments(rel.target, "comment", notes)
		case rel.kind == "threadedComment":
			err = x.readComments(rel.target, "threadedComment", threads)
		}
		if err != nil {
			return err
		}
	}
	for at, lines := range threads {
		notes[at] = lines
	}
	return attachNotes(sheet, notes, x.budget)
}

// readComments collects the texts of the elements with the given name.
func (x *xlsxBook) readComments(part, element string, into map[position][]string) error {
	s, err := x.scan(part)
	if err != nil {
		return err
	}
	for s.next() {
		if s.kind != startTag || string(s.name) != element {
			continue
		}
		ref := s.attr("ref")
		row, col, ok := cellAt(ref)
		if !ok {
			s.fail("a note belongs to cell %s", quoted(ref))
			break
		}
		depth := s.depth()
		for s.child(depth) {
			if string(s.name) != "text" {
				continue
			}
			text := x.commentText(s, element)
			if text != "" {
				into[position{row, col}] = append(into[position{row, col}], text)
			}
		}
	}
	return s.err
}

// commentText reads a text element: a string item in a plain note, plain
// characters in a conversation.
func (x *xlsxBook) commentText(s *scanner, element string) string {
	if element == "comment" {
		return readRichText(s, x.budget).text
	}
	text := s.content()
	s.stop(x.budget.checkText(len(text)))
	return string(text)
}

// attachNotes gives the cells their notes; a note on a blank cell makes a blank
// cell that carries it.
func attachNotes(sheet *Sheet, notes map[position][]string, b *budget) error {
	if len(notes) == 0 {
		return nil
	}
	for i := range sheet.Cells {
		at := position{sheet.Cells[i].Row, sheet.Cells[i].Col}
		if lines, ok := notes[at]; ok {
			sheet.Cells[i].Note = strings.Join(lines, "\n")
			delete(notes, at)
		}
	}
	alone := make([]position, 0, len(notes))
	for at := range notes {
		alone = append(alone, at)
	}
	sort.Slice(alone, func(i, j int) bool {
		return alone[i].row < alone[j].row || alone[i].row == alone[j].row && alone[i].col < alone[j].col
	})
	for _, at := range alone {
		if err := b.takeCell(at.row, at.col); err != nil {
			return err
		}
		sheet.Cells = append(sheet.Cells, Cell{Row: at.row, Col: at.col, Stored: true, Note: strings.Join(notes[at], "\n")})
	}
	return nil
}
