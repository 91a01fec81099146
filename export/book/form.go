package book

import "slices"

// Form is a fingerprint of a workbook of live formulas as a form that was filled
// in: of everything but the open cells, where a person may type, and of formulas
// without their results, which follow from what was typed. As long as it is that
// of the stamp nothing else was changed.
func Form(cells []Content, open func(sheet, cell string) bool) string {
	var out []Content
	for _, c := range cells {
		if open(c.Sheet, c.Cell) {
			continue
		}
		if c.Formula != "" {
			c.Value = ""
		}
		out = append(out, c)
	}
	return Fingerprint(out)
}

// form is that of the book under construction, "" for one without open cells.
func (b *Book) form() string {
	open := make(map[[2]string]bool)
	for _, s := range b.sheets {
		_ = s.each(func(row, col int, c Cell) error { // never fails: the visitor does not
			if c.Style.Open {
				open[[2]string{s.name, CellName(row, col)}] = true
			}
			return nil
		})
	}
	if len(open) == 0 || slices.ContainsFunc(b.sheets, func(s *Sheet) bool { return len(s.theirs) > 0 }) {
		return ""
	}
	return Form(b.contents(), func(sheet, cell string) bool { return open[[2]string{sheet, cell}] })
}
