package book

import (
	"fmt"
	"strings"

	"github.com/xuri/excelize/v2"
)

func (r *renderer) links(s *Sheet) error {
	return s.each(func(row, col int, c Cell) error {
		if c.Link.target == "" {
			return nil
		}
		kind := "External"
		if c.Link.inside {
			kind = "Location"
		}
		return r.file.SetCellHyperLink(s.name, CellName(row, col), c.Link.target, kind)
	})
}

func (r *renderer) dropDowns(s *Sheet) error {
	for _, l := range s.lists {
		dv := excelize.NewDataValidation(true)
		dv.SetSqref(l.area.local())
		if l.from != nil {
			dv.SetSqrefDropList(l.from.String())
		} else if err := dv.SetDropList(listWords(l.choices)); err != nil {
			return fmt.Errorf("drop-down at %s: %w", l.area.local(), err)
		}
		if l.loose {
			dv.ShowErrorMessage = false
		} else {
			dv.SetError(excelize.DataValidationErrorStyleStop, "Not in the list", "Please choose from the list.")
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
