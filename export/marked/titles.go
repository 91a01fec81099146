package marked

import (
	"fmt"
	"slices"
	"strconv"
)

// propertiesKind is how the workbook's extended properties are tied to it; the
// strict dialect spells it otherwise.
const (
	propertiesKind   = "extended-properties"
	strictProperties = "extendedProperties"
)

// addTitle names a new worksheet in the list of tabs that some programs keep in
// the extended properties (HeadingPairs and TitlesOfParts, ISO/IEC 29500-1,
// 22.2.2.9 and 22.2.2.27). A list that does not name the worksheets as they are
// is left alone: it was wrong before.
func (w *workbook) addTitle(name string) error {
	top, err := w.relations("")
	if err != nil {
		return err
	}
	rel, ok := top.of(propertiesKind)
	if !ok {
		rel, ok = top.of(strictProperties)
	}
	if !ok || !w.has(rel.target) {
		return nil
	}
	doc, err := w.document(rel.target, 5) // properties, pairs, vector, variant, number
	if err != nil {
		return err
	}
	titles := doc.root.child("TitlesOfParts").child("vector")
	count, last := doc.countOf(w.sheets, titles)
	if count == nil {
		return nil
	}
	count.body = strconv.Itoa(len(w.sheets) + 1)
	titles.put("size", strconv.Itoa(len(titles.children)+1))
	tag := written(doc.tag(last).Name)
	last.behind = fmt.Sprintf("<%[1]s>%[2]s</%[1]s>", tag, escape(name))
	w.save(doc)
	return nil
}

// countOf returns the number that says how many of the titles are worksheets, and
// the title of the last of them; nil where the titles are not those of the sheets.
func (d *document) countOf(sheets []sheet, titles *element) (count, last *element) {
	pairs := d.root.child("HeadingPairs").child("vector")
	if titles == nil || pairs == nil {
		return nil, nil
	}
	names := make([]string, len(sheets))
	for i, s := range sheets {
		names[i] = s.name
	}
	from := 0
	for i := 1; i < len(pairs.children); i += 2 {
		number := pairs.children[i].child("i4")
		n, err := strconv.Atoi(d.textOf(number))
		if err != nil || n < 0 || from+n > len(titles.children) {
			return nil, nil
		}
		var said []string
		for _, e := range titles.children[from : from+n] {
			said = append(said, d.textOf(e))
		}
		if n > 0 && slices.Equal(said, names) {
			return number, titles.children[from+n-1]
		}
		from += n
	}
	return nil, nil
}
