// Package decode turns a file into grids of cells. It knows file formats and
// nothing of heads, lifts or prices. A file is read whole or refused: a partial
// read is an error, because a truncated flow table looks like a lower peak.
package decode

import "context"

// Kind is what a cell holds.
type Kind uint8

// The kinds of cell value.
const (
	Empty Kind = iota
	Number
	Text
	Bool
	Date   // a number shown through a date format; Num holds the serial day (1900 system)
	Failed // a stored error such as #REF!; Text holds it
)

// Cell is one cell as the file stores it, unrounded and unformatted.
type Cell struct {
	Row, Col int // 1-based

	Kind   Kind
	Stored bool // a formula cell carries a stored result (always true without a formula)
	Struck bool // struck through, wholly or in part
	Bold   bool
	Filled bool // has a fill colour other than white

	Num     float64 // Number, Date; 1 or 0 for Bool
	Text    string  // Text and Failed: the text; Number and Date: its digits, at most 15, or the ISO 8601 date
	Format  string  // number format code, "" for General
	Formula string  // without the leading "="; "" when the cell is a plain value; see UnreadFormula
	Note    string  // the cell's comment, verbatim
}

// Blank reports whether the cell holds no value.
func (c Cell) Blank() bool { return c.Kind == Empty }

// Area is a rectangle of cells, 1-based and inclusive.
type Area struct{ Top, Left, Bottom, Right int }

// Contains reports whether the cell at row, col lies in the area.
func (a Area) Contains(row, col int) bool {
	return row >= a.Top && row <= a.Bottom && col >= a.Left && col <= a.Right
}

// TextBox is a text that floats over the cells, in a box or another shape. No
// cell holds it.
type TextBox struct {
	Row, Col int // the cell under its upper left corner, 0 where the file does not say
	Text     string
}

// Sheet is one sheet: its cells in row order, blanks left out.
type Sheet struct {
	Name       string // "" for the one sheet of a text file
	Hidden     bool
	Cells      []Cell // sorted by row, then column; a blank cell appears only when it carries a Note or a Formula
	Merges     []Area
	HiddenRows map[int]bool // also rows hidden by a filter or a closed outline
	HiddenCols map[int]bool
	Charts     int // floating charts: seen, never read
	Pictures   int
	TextBoxes  []TextBox

	index map[int]int // row -> first position in Cells; built by Index
	rows  int
	cols  int
}

// Book is one decoded file.
type Book struct {
	Format  string // "xlsx", "xlsm", "xltx", "xltm", "ods", "xls", "csv", "tsv"
	Sheets  []Sheet
	Creator string            // application name stored in the file
	Custom  map[string]string // custom document properties
	Links   int               // external workbook links: seen, never followed
	Macros  bool              // carries macros: never run
}

// Limits bounds what one file may cost to read.
type Limits struct {
	FileBytes     int64 // size of the file itself
	UnzippedBytes int64 // all parts of the container together
	Cells         int   // cells with a value, all sheets together
	Rows, Cols    int   // highest row and column number accepted
	TextBytes     int   // longest text of one cell
	Sheets        int
}

// Defaults are limits that a flow sheet, price list or stock book stays far
// below.
func Defaults() Limits {
	return Limits{
		FileBytes: 32 << 20, UnzippedBytes: 256 << 20, Cells: 500_000,
		Rows: 1_048_576, Cols: 16_384, TextBytes: 32_767, Sheets: 200,
	}
}

// Refusal says in one sentence why a file cannot be read. Retry is set when the
// file looks half written rather than wrong, so that a later look may succeed.
type Refusal struct {
	Kind    string // stable word: "damaged", "encrypted", "too-large", "unknown-format", "empty", ...
	Message string
	Hint    string
	Retry   bool
}

func (r *Refusal) Error() string { return r.Message }

// Decoder reads one file format.
type Decoder interface {
	// Decode reads the whole content. The error is a *Refusal when the content
	// is at fault.
	Decode(ctx context.Context, name string, content []byte, limits Limits) (*Book, error)
}
