package flowsheet

import (
	"strings"

	"flowshelf/analysis/source"
	"flowshelf/ingest/decode"
)

// amongTitles returns the plain words that a title over a table has beside its own
// bore, where the titles of all other tables of the page name their heads so:
// "Sandpiper Moor  4.030 bore  28 inH2O" below "QX-202  4.000 bore  28 inH2O".
func (b *builder) amongTitles(t *table) (string, source.Trace) {
	title := b.titleNear(t)
	name, own := b.r.plainName(title.Text, inTitle)
	opens := strings.HasPrefix(title.Text, name) && !countsOrPlaces(name)
	if !opens || len(strings.Fields(name)) < 2 || len(own.bore) == 0 { // one word is as soon a remark: "Retest"
		return "", source.Trace{}
	}
	named := 0
	for _, o := range b.tables {
		c := b.titleNear(o)
		if o == t || c.Row == title.Row {
			continue
		}
		f := b.r.read(newLine(c.Text, source.Trace{}, inTitle))
		if len(f.bore) == 0 || len(f.head.or(b.r.freeNames(c.Text, source.Trace{}, inTitle))) != 1 {
			return "", source.Trace{}
		}
		named++
	}
	if named == 0 {
		return "", source.Trace{}
	}
	return name, b.r.trace(b.page, title)
}

// titleNear is the text over the first column of a table, right over it or above a
// blank row.
func (b *builder) titleNear(t *table) decode.Cell {
	area := t.area()
	for _, up := range []int{1, 2} {
		if c := b.page.Sheet.At(area.Top-up, area.Left); c.Kind == decode.Text {
			return c
		}
	}
	return decode.Cell{}
}
