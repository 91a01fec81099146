package marked

import (
	"fmt"
	"strings"

	"flowshelf/analysis/source"
	"flowshelf/export/book"
)

// list is the sheet Findings.
type list struct {
	original Original
	rows     []row
	of       int // how many findings there are in all
}

// column is one column of the list.
type column struct {
	title string
	width float64
	text  func(row) string
}

func columns() []column {
	return []column{
		{"What became of it", 11, func(r row) string { return inWords(r.Severity) }},
		{"Sheet", 14, func(r row) string { return r.Sheet }},
		{"Cell", 8, func(r row) string { return r.Cell }},
		{"Head", 11, func(r row) string { return r.Head }},
		{"Found there", 14, func(r row) string { return r.Found }},
		{"What is wrong", 40, func(r row) string { return r.Message }},
		{"What to do", 34, func(r row) string { return r.Hint }},
		{"Marked", 16, func(r row) string { return r.done }},
	}
}

const (
	statusColumn = 1
	sheetColumn  = 2
	cellColumn   = 3
	headerRow    = 7
)

// looks are the formats of the list.
type looks struct {
	title, strong, plain, body, header, link int
	severity                                 map[source.Severity]int
}

func (s *styles) looks() looks {
	ink := string(book.Ink)
	plain, strong, below := s.font(normal, 10, ink), s.font(bold, 10, ink), s.rule(string(book.RuleInk))
	l := looks{
		title:    s.format(textLook{font: s.font(bold, 15, ink)}),
		strong:   s.format(textLook{font: strong}),
		plain:    s.format(textLook{font: s.font(normal, 10, string(book.Muted))}),
		body:     s.format(textLook{plain, 0, below, wrapped}),
		header:   s.format(textLook{strong, s.colour("FF" + string(book.HeadFill)), below, wrapped}),
		link:     s.format(textLook{s.font(normal, 10, string(book.LinkInk)), 0, below, wrapped}),
		severity: make(map[source.Severity]int),
	}
	for _, severity := range []source.Severity{source.Refused, source.Asked, source.Noted} {
		l.severity[severity] = s.format(textLook{strong, s.fill(severity), below, wrapped})
	}
	l.severity[source.SetAside] = s.format(textLook{strong, 0, below, wrapped})
	return l
}

// sheet spells the list as a part. All of it is text in the cells themselves:
// nothing becomes a formula, and the table of shared texts stays as it is.
func (l *list) sheet(w *workbook, s *styles) []byte {
	g := &grid{looks: s.looks()}
	g.row(1, 20, text{1, g.title, "Findings"})
	g.row(2, 0, text{1, g.strong, "A marked copy of " + l.original.Path})
	g.row(3, 0, text{1, g.plain, "Your own workbook is untouched. Correct it there: this copy is never read, and it is made anew when the original changes."})
	g.row(4, 0, text{1, g.plain, l.counted() + " Content of the original: " + fingerprint(l.original.Content) + "."})
	g.row(5, 0, text{1, g.severity[source.Asked], "asked"}, text{2, g.severity[source.Refused], "refused"}, text{3, g.severity[source.Noted], "noted"},
		text{4, g.plain, "Asked: waits for an answer in Questions.xlsx. Refused: cannot be true, or cannot be read. Noted: used all the same. Set aside: understood, not data."})
	var titles []text
	for i, c := range columns() {
		titles = append(titles, text{i + 1, g.header, c.title})
	}
	g.row(headerRow, 28, titles...)
	for i, r := range l.rows {
		g.finding(headerRow+1+i, r, w)
	}
	if len(l.rows) == 0 {
		g.row(headerRow+1, 0, text{1, g.plain, "Nothing any more."})
	}
	return g.part(w.main)
}

func (l *list) counted() string {
	if l.of > len(l.rows) {
		return fmt.Sprintf("Findings: %d, of which the first %d are shown and marked.", l.of, len(l.rows))
	}
	return fmt.Sprintf("Findings: %d.", l.of)
}

// grid is the sheet while it is spelled.
type grid struct {
	looks
	cells, links strings.Builder
	last         int
}

// text is a cell of the list.
type text struct {
	col, look int
	words     string
}

// row spells a row of a height in points, 0 for the usual.
func (g *grid) row(number int, height float64, texts ...text) {
	fmt.Fprintf(&g.cells, `<row r="%d"`, number)
	if height > 0 {
		fmt.Fprintf(&g.cells, ` ht="%g" customHeight="1"`, height)
	}
	g.cells.WriteString(">")
	for _, t := range texts {
		fmt.Fprintf(&g.cells, `<c r="%s" s="%d" t="inlineStr"><is><t xml:space="preserve">%s</t></is></c>`,
			place{number, t.col}, t.look, cellText(t.words))
	}
	g.cells.WriteString("</row>")
	g.last = number
}

func (g *grid) finding(number int, r row, w *workbook) {
	const perLine, margin, most = 13.0, 3.0, 400.0
	at, there := linkTo(r.Finding, w)
	lines := 1
	var texts []text
	for i, c := range columns() {
		t := text{i + 1, g.body, cut(c.text(r), longestText)}
		switch {
		case t.col == statusColumn:
			t.look = g.severity[r.Severity]
		case there && (t.col == cellColumn && r.Cell != "" || t.col == sheetColumn && r.Cell == ""):
			t.look = g.link
			fmt.Fprintf(&g.links, `<hyperlink ref="%s" location="%s"/>`, place{number, t.col}, escape(at))
		}
		lines = max(lines, linesOf(t.words, c.width))
		texts = append(texts, t)
	}
	g.row(number, min(perLine*float64(lines)+margin, most), texts...)
}

// linkTo returns where a finding leads, inside of the workbook.
func linkTo(f Finding, w *workbook) (string, bool) {
	for _, s := range w.sheets {
		if s.name != f.Sheet {
			continue
		}
		at, ok := placeOf(f.Cell)
		if f.Cell == "" {
			at, ok = place{1, 1}, true
		}
		return "'" + strings.ReplaceAll(s.name, "'", "''") + "'!" + at.String(), ok
	}
	return "", false
}

// linesOf estimates how many lines a text takes in a column.
func linesOf(words string, width float64) int {
	const letter = 0.95 // width of a letter of 10 points in units of column width, with something for broken words
	lines := 0
	for _, paragraph := range strings.Split(words, "\n") {
		lines += 1 + int(float64(len([]rune(paragraph)))*letter/width)
	}
	return lines
}

// part spells the whole sheet: its elements in the order of the schema
// (CT_Worksheet, 18.3.1.99).
func (g *grid) part(namespace string) []byte {
	var b strings.Builder
	fmt.Fprintf(&b, `<?xml version="1.0" encoding="UTF-8" standalone="yes"?>
<worksheet xmlns="%s"><sheetPr><tabColor rgb="%s"/><pageSetUpPr fitToPage="1"/></sheetPr><dimension ref="A1:%s"/>`,
		namespace, colourOf(source.Asked), place{g.last, len(columns())})
	fmt.Fprintf(&b, `<sheetViews><sheetView showGridLines="0" workbookViewId="0"><pane ySplit="%d" topLeftCell="A%d" activePane="bottomLeft" state="frozen"/><selection pane="bottomLeft" activeCell="A%[2]d" sqref="A%[2]d"/></sheetView></sheetViews>`,
		headerRow, headerRow+1)
	b.WriteString(`<sheetFormatPr defaultRowHeight="14"/><cols>`)
	for i, c := range columns() {
		fmt.Fprintf(&b, `<col min="%[1]d" max="%[1]d" width="%[2]g" customWidth="1"/>`, i+1, c.width)
	}
	b.WriteString("</cols><sheetData>" + g.cells.String() + "</sheetData>")
	if g.links.Len() > 0 {
		b.WriteString("<hyperlinks>" + g.links.String() + "</hyperlinks>")
	}
	b.WriteString(`<pageMargins left="0.5" right="0.5" top="0.6" bottom="0.6" header="0.3" footer="0.3"/>` +
		`<pageSetup orientation="landscape" fitToHeight="0"/><headerFooter><oddFooter>&amp;LMarked copy&amp;R&amp;A, page &amp;P of &amp;N</oddFooter></headerFooter></worksheet>`)
	return []byte(b.String())
}
