package comparison_test

import (
	"strings"
	"testing"

	"flowshelf/analysis/compare"
	"flowshelf/analysis/compare/comparetest"
	"flowshelf/export/book"
)

// said returns the texts of a sheet of a written ranking, one a line.
func said(t *testing.T, c compare.Comparison, sheet string) string {
	t.Helper()
	cells, err := book.Cells(written(t, c, up))
	if err != nil {
		t.Fatal(err)
	}
	var out strings.Builder
	for _, cell := range cells {
		if cell.Sheet == sheet {
			out.WriteString(cell.Value + "\n")
		}
	}
	return out.String()
}

// TestNotEveryHeadIsRanked holds that nobody is said to be ranked who stands below
// the line or is advertised only.
func TestNotEveryHeadIsRanked(t *testing.T) {
	const everybody = "Nobody: every head of this family is ranked."
	c := compare.All(comparetest.OpposedFour())[0]
	page := said(t, c, "Summary")
	if strings.Contains(page, everybody) || !strings.Contains(page, "TD-22 (its supplier's sheet)") || !strings.Contains(page, "TD-26 (its supplier's sheet)") {
		t.Errorf("below the line:\n%s", page)
	}
	c.Advertised, c.BelowLine = c.BelowLine[:1], nil
	c.Summary.Counts.Advertised, c.Summary.Counts.BelowLine = 1, 0
	if page = said(t, c, "Summary"); strings.Contains(page, everybody) || !strings.Contains(page, "(advertised only)") {
		t.Errorf("advertised only:\n%s", page)
	}
	c.Advertised, c.Summary.Counts.Advertised = nil, 0
	if page = said(t, c, "Summary"); !strings.Contains(page, everybody) {
		t.Errorf("every head ranked:\n%s", page)
	}
}

// TestWorthNotSet holds that a worth that nobody set is said in whole sentences.
func TestWorthNotSet(t *testing.T) {
	records, shop, date := comparetest.OpposedFour()
	shop.Families[0].Worth.Known = false
	c := compare.All(records, shop, date)[0]
	for _, sheet := range []string{"Summary", "Ranking", "Method"} {
		page := said(t, c, sheet)
		if !strings.Contains(page, "What a cfm of working average is worth is not set, and the shelf has no going rate") || strings.Contains(page, "not known (not set") {
			t.Errorf("%s:\n%s", sheet, page)
		}
	}
}
