// Package source ties every value to where it was found and every complaint to
// what somebody can do about it.
package source

import (
	"cmp"
	"fmt"
	"slices"
	"strings"
)

// Ref is one place in a user's file. Sheet and Cell are empty when the whole
// file, or the whole sheet, is meant.
type Ref struct {
	File  string // path below the watched folder, with forward slashes
	Sheet string
	Cell  string // "AB14"
}

// String prints `may.xlsx, sheet "Intake", cell AB14`.
func (r Ref) String() string {
	var b strings.Builder
	b.WriteString(r.File)
	if r.Sheet != "" {
		fmt.Fprintf(&b, ", sheet %q", r.Sheet)
	}
	if r.Cell != "" {
		fmt.Fprintf(&b, ", cell %s", r.Cell)
	}
	return b.String()
}

// Compare orders places by file, sheet, then cell by row and column.
func (r Ref) Compare(o Ref) int {
	if c := cmp.Or(cmp.Compare(r.File, o.File), cmp.Compare(r.Sheet, o.Sheet)); c != 0 {
		return c
	}
	row1, col1 := split(r.Cell)
	row2, col2 := split(o.Cell)
	return cmp.Or(cmp.Compare(row1, row2), cmp.Compare(col1, col2))
}

// At returns the place of the cell in 1-based row and column.
func At(file, sheet string, row, col int) Ref {
	return Ref{File: file, Sheet: sheet, Cell: CellName(row, col)}
}

// CellName spells a 1-based row and column as "AB14".
func CellName(row, col int) string {
	var letters []byte
	for col > 0 {
		col--
		letters = append(letters, byte('A'+col%26))
		col /= 26
	}
	slices.Reverse(letters)
	return fmt.Sprintf("%s%d", letters, row)
}

func split(cell string) (row, col int) {
	i := 0
	for ; i < len(cell) && cell[i] >= 'A' && cell[i] <= 'Z'; i++ {
		col = col*26 + int(cell[i]-'A') + 1
	}
	for ; i < len(cell) && cell[i] >= '0' && cell[i] <= '9'; i++ {
		row = row*10 + int(cell[i]-'0')
	}
	return row, col
}

// Trace is the way of one value: where it stood, what stood there, and each
// conversion made since, in order.
type Trace struct {
	At       Ref
	Text     string   // as it stood in the cell
	Unit     string   // the unit it was read in, and for a unit stated elsewhere, where
	Steps    []string // conversions in words: "L/s x 2.118880", "25 to 28 inH2O, square root"
	Answered string   // who answered a question about it, and when; "" when nobody had to
}

// Then returns the trace with one more conversion.
func (t Trace) Then(step string) Trace {
	t.Steps = append(slices.Clone(t.Steps), step)
	return t
}

// Stated is a value that a sheet may or may not state. The zero Stated is "not
// stated", which is never the same as zero.
type Stated[T any] struct {
	Value T
	Known bool
	Trace Trace
}

// Say returns a stated value.
func Say[T any](value T, trace Trace) Stated[T] {
	return Stated[T]{Value: value, Known: true, Trace: trace}
}
