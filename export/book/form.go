package book

import (
	"iter"
	"slices"
)

// Form is a fingerprint of a workbook of live formulas as a form that was filled
// in: of everything but the open cells, where a person may type, and of formulas
// without their results, which follow from what was typed. As long as it is that
// of the stamp nothing else was changed.
func Form(cells []Content, open func(sheet, cell string) bool) string {
	return form(slices.Values(cells), open)
}

func form(cells iter.Seq[Content], open func(sheet, cell string) bool) string {
	closed := without(cells, func(c Content) bool { return open(c.Sheet, c.Cell) })
	return fingerprint(withoutResults(closed))
}

// form is that of the book under construction, "" for one without open cells.
func (b *Book) form() string {
	open := make(map[[2]string]bool)
	for _, s := range b.sheets {
		for at, c := range s.each() {
			if c.Style.Open {
				open[[2]string{s.name, CellName(at.row, at.col)}] = true
			}
		}
	}
	if len(open) == 0 || slices.ContainsFunc(b.sheets, func(s *Sheet) bool { return len(s.theirs) > 0 }) {
		return ""
	}
	return form(b.contents(), func(sheet, cell string) bool { return open[[2]string{sheet, cell}] })
}
