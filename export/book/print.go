package book

import (
	"fmt"
	"strings"

	"github.com/xuri/excelize/v2"

	"flowshelf/analysis/head"
)

// Print is how a sheet goes to paper. Every sheet is one page wide.
type Print struct {
	Upright    bool   // portrait; landscape otherwise
	OnePage    bool   // one page high as well
	RepeatFrom int    // first and last row repeated on each page, 0 for none
	RepeatTo   int    //
	Columns    int    // print only the first so many columns, 0 for all
	Basis      string // what the figures are, in the footer of each page
}

const (
	letter, a4  = 1, 9 // paper sizes of ISO/IEC 29500-1, 18.3.1.63
	footerLimit = 255
)

func (s *Sheet) setPage(f *excelize.File, on head.Paper, dated string) error {
	one, many, paper, orientation := 1, 0, letter, "landscape"
	if on == head.A4 {
		paper = a4
	}
	if s.print.Upright {
		orientation = "portrait"
	}
	if s.print.OnePage {
		many = 1
	}
	fit := true
	side, top, bottom, foot := 0.4, 0.45, 0.65, 0.3
	return firstError(
		func() error { return f.SetSheetProps(s.name, &excelize.SheetPropsOptions{FitToPage: &fit}) },
		func() error {
			return f.SetPageLayout(s.name, &excelize.PageLayoutOptions{
				Size: &paper, Orientation: &orientation, FitToWidth: &one, FitToHeight: &many,
			})
		},
		func() error {
			return f.SetPageMargins(s.name, &excelize.PageLayoutMarginsOptions{
				Left: &side, Right: &side, Top: &top, Bottom: &bottom, Header: &foot, Footer: &foot,
			})
		},
		func() error {
			return f.SetHeaderFooter(s.name, &excelize.HeaderFooterOptions{OddFooter: s.footer(dated)})
		},
		func() error { return s.setPrintNames(f) },
	)
}

// footer carries the date, what the figures are, and the page.
func (s *Sheet) footer(dated string) string {
	escape := func(t string) string { return strings.ReplaceAll(t, "&", "&&") }
	const size = "&8"
	build := func(basis string) string {
		return fmt.Sprintf("&L%s%s&C%s %s&R%s&A, page &P of &N", size, escape(dated), size, escape(basis), size)
	}
	basis := []rune(s.print.Basis)
	for len([]rune(build(string(basis)))) > footerLimit {
		basis = basis[:len(basis)-1]
	}
	return build(string(basis))
}

func (s *Sheet) setPrintNames(f *excelize.File) error {
	name := func(builtin, refers string) error {
		return f.SetDefinedName(&excelize.DefinedName{Name: builtin, RefersTo: refers, Scope: s.name})
	}
	if s.print.Columns > 0 && s.print.Columns < s.lastCol {
		if err := name("_xlnm.Print_Area", s.Area(1, 1, s.lastRow, s.print.Columns).String()); err != nil {
			return err
		}
	}
	if s.print.RepeatTo > 0 {
		rows := fmt.Sprintf("%s!$%d:$%d", quoted(s.name), s.print.RepeatFrom, s.print.RepeatTo)
		return name("_xlnm.Print_Titles", rows)
	}
	return nil
}

// firstError runs the steps in order until one fails.
func firstError(steps ...func() error) error {
	for _, step := range steps {
		if err := step(); err != nil {
			return err
		}
	}
	return nil
}
