package decode

import "flowshelf/analysis/source"

// budget is what is left of the Limits while one file is read. Every decoder
// takes from it before it allocates.
type budget struct {
	limits Limits
	cells  int   // cells still accepted
	bytes  int64 // unzipped and expanded bytes still accepted
}

func newBudget(limits Limits) *budget {
	return &budget{limits: limits, cells: limits.Cells, bytes: limits.UnzippedBytes}
}

// takeCell accounts for one cell (or a merged area, which costs as much) at
// row, col.
func (b *budget) takeCell(row, col int) error {
	switch {
	case row > b.limits.Rows || col > b.limits.Cols:
		return tooLarge("it uses cell %s and %s is the last that is read",
			source.CellName(row, col), source.CellName(b.limits.Rows, b.limits.Cols))
	case b.cells <= 0:
		return tooLarge("it has more than %d cells", b.limits.Cells)
	}
	b.cells--
	return nil
}

// takeBytes accounts for n bytes of unzipped or expanded content.
func (b *budget) takeBytes(n int64) error {
	if n > b.bytes {
		return tooLarge("it unpacks to more than %d MB", b.limits.UnzippedBytes>>20)
	}
	b.bytes -= n
	return nil
}

// checkText refuses a text that no cell may hold.
func (b *budget) checkText(n int) error {
	if n > b.limits.TextBytes {
		return tooLarge("one cell holds more than %d bytes of text", b.limits.TextBytes)
	}
	return nil
}
