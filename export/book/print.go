package book

import (
	"fmt"
	"strings"

	"github.com/xuri/excelize/v2"

	"flowshelf/analysis/head"
)

// Print is how a sheet goes to paper. A sheet is one page wide, or two where it
// says at which column the second begins.
type Print struct {
	Upright    bool   // portrait; landscape otherwise
	OnePage    bool   // one page high as well
	RepeatFrom int    // first and last row repeated on each page, 0 for none
	RepeatTo   int    //
	Columns    int    // print only the first so many columns, 0 for all
	SecondFrom int    // first column of a second page, which repeats the first and begins with the repeated rows; 0 for one page
	Basis      string // what the figures are, in the footer of each page
}

const (
	letter, a4  = 1, 9 // paper sizes of ISO/IEC 29500-1, 18.3.1.63
	footerLimit = 255

	sideMargin, topMargin, bottomMargin = 0.4, 0.45, 0.65 // in
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
	fit := s.print.SecondFrom == 0 // one page for all areas would be fitted otherwise
	scale := s.scale(on)
	side, top, bottom, foot := sideMargin, topMargin, bottomMargin, 0.3
	return firstError(
		func() error { return f.SetSheetProps(s.name, &excelize.SheetPropsOptions{FitToPage: &fit}) },
		func() error {
			return f.SetPageLayout(s.name, &excelize.PageLayoutOptions{
				Size: &paper, Orientation: &orientation, FitToWidth: &one, FitToHeight: &many, AdjustTo: &scale,
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

// scale is the per cent at which the wider of two pages fits the paper, 100 for a
// sheet that is fitted anyway.
func (s *Sheet) scale(on head.Paper) uint {
	second := s.print.SecondFrom
	if second == 0 {
		return 100
	}
	across, _ := s.inches(on)
	first, rest := 0.0, s.width(1)
	for col := 1; col <= s.lastCol; col++ {
		if col < second {
			first += s.width(col)
		} else {
			rest += s.width(col)
		}
	}
	const spare = 0.97 // what programs differ by in the width of a column
	room := spare * (across - 2*sideMargin) * pointsAnInch / unitPoints
	return uint(max(10, min(100, 100*room/max(first, rest)))) // the file format's least scale is 10
}

// footer carries the date, what the figures are, and the page. A space parts the
// size of the letters from a text that begins with a digit (ISO/IEC 29500-1,
// 18.3.1.46).
func (s *Sheet) footer(dated string) string {
	escape := func(t string) string { return strings.ReplaceAll(t, "&", "&&") }
	const size = "&8"
	build := func(basis string) string {
		return fmt.Sprintf("&L%s %s&C%s %s&R%s&A, page &P of &N", size, escape(dated), size, escape(basis), size)
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
	var areas, titles []string // each area begins a page
	second := s.print.SecondFrom
	switch {
	case second > 0:
		areas = append(areas, s.Area(1, 1, s.lastRow, second-1).String(), s.Area(max(s.print.RepeatFrom, 1), second, s.lastRow, s.lastCol).String())
		titles = append(titles, quoted(s.name)+"!$A:$A")
	case s.print.Columns > 0 && s.print.Columns < s.lastCol:
		areas = append(areas, s.Area(1, 1, s.lastRow, s.print.Columns).String())
	}
	if len(areas) > 0 {
		if err := name("_xlnm.Print_Area", strings.Join(areas, ",")); err != nil {
			return err
		}
	}
	if s.print.RepeatTo > 0 {
		titles = append(titles, fmt.Sprintf("%s!$%d:$%d", quoted(s.name), s.print.RepeatFrom, s.print.RepeatTo))
	}
	if len(titles) == 0 {
		return nil
	}
	return name("_xlnm.Print_Titles", strings.Join(titles, ","))
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
