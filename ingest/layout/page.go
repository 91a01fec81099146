// Package layout is what all recognisers of tables share: the page they look
// at, the claims that account for every cell, and the finding of blocks, header
// stacks and title lines. It knows no kind of table.
package layout

import (
	"flowshelf/analysis/head"
	"flowshelf/analysis/source"
	"flowshelf/ingest/decode"
)

// Context is what the shop already knows when a book is read. The same file
// with the same context always reads the same.
type Context struct {
	Shop    head.Shop
	Answers head.Answers
	Path    string  // below the watched folder, with forward slashes
	Shared  *Shared // nil for a page by itself
}

// Recogniser knows one shape of table. Each shape is a recogniser of its own;
// they are tried in a fixed order and never look at claimed cells.
type Recogniser interface {
	// Name is stable and shown by `inspect`.
	Name() string
	// Recognise reads every table of its shape on the page, claims each cell of
	// them as used or set aside, and returns what they say. A page without such
	// a table yields nothing and claims nothing.
	Recognise(page *Page, about Context) head.Records
}

// Claim says who accounted for a cell and how.
type Claim struct {
	By   string // the recogniser's name
	Used bool   // false: set aside
	Why  string // why it was set aside, or what it was used as
}

// Page is one sheet of one book, with the claims made on it so far.
type Page struct {
	Path  string
	Book  *decode.Book
	Sheet *decode.Sheet

	claims map[[2]int]Claim
}

// NewPage returns a page without claims.
func NewPage(path string, book *decode.Book, sheet *decode.Sheet) *Page {
	return &Page{Path: path, Book: book, Sheet: sheet, claims: make(map[[2]int]Claim)}
}

// Ref returns the place of a cell.
func (p *Page) Ref(c decode.Cell) source.Ref {
	return source.At(p.Path, p.Sheet.Name, c.Row, c.Col)
}

// Claim accounts for the cell at row, col. The first claim stands, except that
// using a cell overrides setting it aside.
func (p *Page) Claim(row, col int, claim Claim) {
	key := [2]int{row, col}
	if old, ok := p.claims[key]; ok && (old.Used || !claim.Used) {
		return
	}
	p.claims[key] = claim
}

// ClaimedBy returns the claim on a cell.
func (p *Page) ClaimedBy(row, col int) (Claim, bool) {
	c, ok := p.claims[[2]int{row, col}]
	return c, ok
}

// Free reports whether nobody has accounted for the cell yet.
func (p *Page) Free(row, col int) bool {
	_, taken := p.claims[[2]int{row, col}]
	return !taken
}

// Left counts the cells that Unclaimed returns.
func (p *Page) Left() int {
	n := 0
	for i := range p.Sheet.Cells {
		if c := &p.Sheet.Cells[i]; !c.Blank() && p.Free(c.Row, c.Col) {
			n++
		}
	}
	return n
}

// Unclaimed returns the cells with a value that nobody accounted for, in row
// order.
func (p *Page) Unclaimed() []decode.Cell {
	var out []decode.Cell
	for _, c := range p.Sheet.Cells {
		if !c.Blank() && p.Free(c.Row, c.Col) {
			out = append(out, c)
		}
	}
	return out
}
