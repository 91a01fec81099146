package lists

import (
	"slices"
	"strings"

	"flowshelf/ingest/decode"
	"flowshelf/ingest/layout"
	"flowshelf/ingest/parse"
)

// longestTitle is how long the title of a column can be; a longer text is a
// sentence.
const longestTitle = 60

// widestTable is how many columns a list can have; a longer line of words is
// something else.
const widestTable = 200

// mayBeTitles is the quick look: nothing but short texts, and one of them names
// what the lines are about. Most lines of most workbooks fail it.
func mayBeTitles(v view, k kind, n int) bool {
	key := false
	if len(v.lines[n]) > widestTable {
		return false
	}
	for _, s := range v.lines[n] {
		if s.cell.Kind != decode.Text && (!k.dated || s.cell.Kind != decode.Date) || len(s.cell.Text) > longestTitle {
			return false
		}
		key = key || k.names(k.needs[0], s.cell.Text)
	}
	if !key && (!k.across || !cornerless(v, n)) {
		return false
	}
	return k.flows || !slices.ContainsFunc(v.lines[n], func(s spot) bool {
		return ofReadings.MatchString(parse.Squeeze(s.cell.Text))
	})
}

// mayHold is a quicker look yet, at a whole page: most sheets that people drop
// have no cell that could be the title of the first column.
func (k kind) mayHold(page *layout.Page) bool {
	return slices.ContainsFunc(page.Sheet.Cells, func(c decode.Cell) bool {
		if c.Kind != decode.Text || len(c.Text) > longestTitle {
			return false
		}
		if k.names(k.needs[0], c.Text) {
			return true
		}
		if !k.across {
			return false
		}
		text := strings.ToLower(c.Text)
		return slices.ContainsFunc(k.hints, func(word string) bool { return strings.Contains(text, word) })
	})
}

// titles returns the columns when the line is a header of the kind, else nil.
func titles(v view, k kind, n int) []titled {
	if !mayBeTitles(v, k, n) {
		return nil
	}
	var out []titled
	seen := make(map[role]bool)
	if k.across && cornerless(v, n) {
		out, seen[k.needs[0]] = append(out, titled{role: k.needs[0], place: 1}), true
	}
	for _, s := range v.lines[n] {
		title := titleOf(s.cell)
		c := titled{title: title, place: s.place, cells: []decode.Cell{s.cell}}
		for _, want := range k.columns {
			if want.matches(title) && (want.many || !seen[want.role]) {
				c.role, seen[want.role] = want.role, true
				break
			}
		}
		out = append(out, c)
	}
	for _, need := range k.needs {
		if !seen[need] {
			return nil
		}
	}
	some := 0
	for _, r := range k.any {
		if seen[r] {
			some++
		}
	}
	if some < k.least {
		return nil
	}
	return withBanners(v, n, out)
}

// cornerless reports whether the line's first cell is blank and the ones below
// it are not: nobody writes "head" into the corner of a dimension sheet.
func cornerless(v view, n int) bool {
	if len(v.lines[n]) == 0 || v.lines[n][0].place != 2 {
		return false
	}
	cell, ok := v.at(n+1, 1)
	return ok && cell.Kind == decode.Text
}

// withBanners puts the text of a merged cell above some of the titles in front
// of those it spans. One that spans them all is the title of the sheet.
func withBanners(v view, n int, columns []titled) []titled {
	for _, s := range v.lines[n-1] {
		area, merged := v.page.Sheet.MergeAt(s.cell.Row, s.cell.Col)
		if !merged || s.cell.Kind != decode.Text || area.Right-area.Left+1 >= len(columns) {
			continue
		}
		for i := range columns {
			if c := &columns[i]; len(c.cells) > 0 && c.place >= area.Left && c.place <= area.Right && s.cell.Row+1 == c.cells[0].Row {
				c.title = parse.Squeeze(s.cell.Text) + " " + c.title
				c.cells = append(c.cells, s.cell)
			}
		}
	}
	return columns
}
