package book

import (
	"fmt"
	"strings"

	"github.com/xuri/excelize/v2"
)

// links sets where cells lead; the sheet is counted from 1.
func (r *renderer) links(sheet int, s *Sheet) error {
	out := newOutward(sheet)
	for at, c := range s.each() {
		var err error
		switch {
		case c.Link.target == "":
		case c.Link.inside:
			err = r.file.SetCellHyperLink(s.name, CellName(at.row, at.col), c.Link.target, "Location")
		default:
			err = out.add(r.file, s.name, CellName(at.row, at.col), c.Link.target)
		}
		if err != nil {
			return err
		}
	}
	return out.end(r.file)
}

func (r *renderer) dropDowns(s *Sheet) error {
	for _, l := range s.lists {
		dv := excelize.NewDataValidation(true)
		dv.SetSqref(l.area.local())
		if err := l.limit(dv); err != nil {
			return fmt.Errorf("what may stand at %s: %w", l.area.local(), err)
		}
		if l.prompt != "" {
			dv.SetInput("", cut(l.prompt, 255))
		}
		if err := r.file.AddDataValidation(s.name, dv); err != nil {
			return err
		}
	}
	return nil
}

// limit says what may be typed.
func (l list) limit(dv *excelize.DataValidation) error {
	switch {
	case l.bounds != nil:
		dv.SetError(excelize.DataValidationErrorStyleStop, "Not a number that can be",
			fmt.Sprintf("Please type a number from %g to %g, or clear the cell.", l.bounds[0], l.bounds[1]))
		return dv.SetRange(l.bounds[0], l.bounds[1], excelize.DataValidationTypeDecimal, excelize.DataValidationOperatorBetween)
	case l.from != nil:
		dv.SetSqrefDropList(l.from.String())
	default:
		if err := dv.SetDropList(listWords(l.choices)); err != nil {
			return err
		}
	}
	if l.loose {
		dv.ShowErrorMessage = false
		return nil
	}
	dv.SetError(excelize.DataValidationErrorStyleStop, "Not in the list", "Please choose from the list.")
	return nil
}

// lock protects a sheet without a password. Columns and rows may still be made
// wider, so that everything can be read.
func (r *renderer) lock(s *Sheet) error {
	if !s.locked {
		return nil
	}
	return r.file.ProtectSheet(s.name, &excelize.SheetProtectionOptions{
		SelectLockedCells: true, SelectUnlockedCells: true, FormatColumns: true, FormatRows: true, AutoFilter: true, Sort: true,
	})
}

// listWords makes choices fit a drop-down, whose words are joined by commas and
// hold 255 characters in all.
func listWords(choices []string) []string {
	const limit = 255
	var out []string
	used := 0
	for _, c := range choices {
		c = strings.TrimSpace(strings.ReplaceAll(clean(c), ",", ";"))
		if c == "" || used+len([]rune(c))+1 > limit {
			continue
		}
		used += len([]rune(c)) + 1
		out = append(out, c)
	}
	return out
}

func (r *renderer) marks(s *Sheet) error {
	for _, m := range s.marks {
		id, seen := r.conditional[m.style]
		if !seen {
			var err error
			font := &excelize.Font{Bold: m.style.Bold, Italic: m.style.Italic, Color: string(m.style.Ink)}
			st := &excelize.Style{Font: font}
			if m.style.Fill != "" {
				st.Fill = excelize.Fill{Type: "pattern", Pattern: 1, Color: []string{string(m.style.Fill)}}
			}
			if id, err = r.file.NewConditionalStyle(st); err != nil {
				return err
			}
			r.conditional[m.style] = id
		}
		rule := excelize.ConditionalFormatOptions{Type: "formula", Criteria: m.formula, Format: &id}
		if err := r.file.SetConditionalFormat(s.name, m.area.local(), []excelize.ConditionalFormatOptions{rule}); err != nil {
			return err
		}
	}
	return nil
}
